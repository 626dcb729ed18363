package plan

import (
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
)

// unkeptFaults are the reasons why no way of laying a job is possible.
func unkeptFaults(job Job, unkept []buildFault) fault.List {
	var l fault.List
	seen := make(map[buildFault]bool)
	for _, f := range unkept {
		if seen[f] {
			continue
		}
		seen[f] = true
		p := job.Panels[f.panel]
		where := fault.At("panels").Index(f.panel)
		cut := p.Cut()
		switch f.kind {
		case tooWide:
			l.Add(where.Field("size").Field("across"), fault.WiderThanCloth, p.Size.Across.String(),
				"cut "+show(cut.Across)+" wide, "+p.ID+" does not fit the cloth of "+show(job.Cloth.Width)+", nor do the parts of a join",
				"a join of sides or halves, a quarter turn if the cloth allows it, or a wider cloth")
		case tooLong:
			l.Add(where.Field("size").Field("along"), fault.LongerThanBolt, p.Size.Along.String(),
				"a bolt has "+show(job.Bolt)+", and in no way in which "+p.ID+" and the panels tied to it may lie do all of them fit it",
				"a longer bolt, another turn, or leave out the tie")
		case noPlace:
			l.Add(where.Field("match"), fault.NoPlace, "",
				why(job, f).Text(length.Metric),
				"another motif, another place for it, or a narrower cut, with hidden flies at the sides"+widest(job, p))
		case conflicts:
			l.Add(where.Field("match"), fault.NotAllowed, "",
				why(job, f).Text(length.Metric),
				"leave out one of the wishes, or the tie")
		}
	}
	return l
}

// why says why a wish cannot be kept.
func why(job Job, f buildFault) note.Note {
	p := job.Panels[f.panel]
	if f.kind == conflicts {
		return note.New(note.WishesConflict, note.Name("panel", p.ID), note.Length("off", 0, length.Nearest))
	}
	return note.New(note.NoPlaceForMotif, note.Name("panel", p.ID), note.Length("across", p.Cut().Across, length.Nearest), note.Length("off", 0, length.Nearest))
}

// widest says how wide a panel may be cut and still have a motif that it may
// carry in its middle, by motif.
func widest(job Job, p panel.Panel) string {
	var at []string
	for _, m := range job.Cloth.Pattern.Principal() {
		if m.Name == "" || p.Match.Motif != "" && m.Name != p.Match.Motif && len(at) > 2 {
			continue
		}
		room := length.Length(0)
		for x := m.Across; x <= job.Cloth.Width && job.Cloth.Pattern.WidthRepeat > 0; x += job.Cloth.Pattern.WidthRepeat {
			room = max(room, 2*min(x, job.Cloth.Width-x))
		}
		at = append(at, m.Name+" can be in the middle of "+show(room))
	}
	if len(at) == 0 || len(at) > 4 {
		return ""
	}
	return " (" + strings.Join(at, ", ") + ")"
}

func show(l length.Length) string { return l.Text(length.Metric, length.Nearest) }

package job

import (
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// place is where in the request a panel of a plan comes from.
type place struct {
	piece int
	at    fault.Path // of the panel as it was given; "" for one that was made
}

// jobber is a job while it is worked out.
type jobber struct {
	req    Request
	cloths []Cloth
	covers [][3]int // of each piece, the cloth of each cover
	piping []int    // of each piece, the cloth of its piping
	lists  []*service.CuttingListAnswer
	work   []clothWork

	onSale    Foam
	foamNotes []note.Note
}

// clothWork is what is done with one cloth.
type clothWork struct {
	panels    []panel.Panel
	places    []place
	obstacles map[int][]relief.Obstacle
	buttoned  []buttonedPanel
	loosened  []service.Loosened
	runs      []service.PipingRun
	runOf     []int // the piece of each run
}

// buttonedPanel is a panel whose cloth is larger than the panel.
type buttonedPanel struct {
	piece, index int
	panel        panel.Panel
}

// newJobber makes the cutting lists and deals them out to the cloths. The request
// must have no faults of its own.
func newJobber(req Request) *jobber {
	req = req.ofShop()
	onSale := usualFoam(req.Shop)
	if req.Foam != nil {
		onSale = *req.Foam
	}
	j := &jobber{req: req, cloths: slices.Clone(req.Cloths), onSale: onSale}
	lining := -1
	for i := range req.Pieces {
		p := &req.Pieces[i]
		top := max(p.Cloths.Top, 0)
		c := [3]int{top, top, p.Cloths.Lining}
		if p.Cloths.Outside >= 0 {
			c[furniture.Outside] = p.Cloths.Outside
		}
		if c[furniture.Lining] < 0 && p.lined() {
			if lining < 0 {
				lining = len(j.cloths)
				j.cloths = append(j.cloths, j.newLining())
			}
			c[furniture.Lining] = lining
		}
		piped := top
		if p.Cloths.Piping >= 0 {
			piped = p.Cloths.Piping
		}
		j.covers, j.piping = append(j.covers, c), append(j.piping, piped)
	}
	j.work = make([]clothWork, len(j.cloths))
	for i := range req.Pieces {
		j.lists = append(j.lists, service.CuttingList(j.listRequest(i)))
		j.deal(i)
	}
	return j
}

// newLining is the usual lining with an id that no cloth has.
func (j *jobber) newLining() Cloth {
	l := usualLining(j.req.Shop)
	id := l.ID
	for n := 2; slices.ContainsFunc(j.cloths, func(c Cloth) bool { return c.ID == l.ID }); n++ {
		l.ID = id + "-" + strconv.Itoa(n)
	}
	return l
}

// lined reports whether something of the piece is cut from lining.
func (p *Piece) lined() bool {
	if p.byHand() {
		return len(p.Covers[furniture.Lining]) > 0
	}
	list := service.CuttingListRequest{Piece: p.Piece, Drop: p.Drop, Replace: p.Replace, Covers: p.Moved}.List()
	return slices.ContainsFunc(list.Panels, func(q furniture.Panel) bool { return q.Cover == furniture.Lining })
}

func (p *Piece) byHand() bool { return p.Piece.Kind == "" }

// Title is what the piece is called.
func (p *Piece) Title() string {
	text := p.Name
	if k, ok := furniture.Find(p.Piece.Kind); ok && text == "" {
		text = k.Name
	}
	if text == "" {
		text = "piece"
	}
	if n := p.Piece.Count; n > 1 {
		text += ", " + strconv.Itoa(n) + " alike"
	}
	return text
}

// nameOf is what the cutting list of a piece is headed with; "" for the name of
// its kind.
func (j *jobber) nameOf(i int) string {
	p := &j.req.Pieces[i]
	k, _ := furniture.Find(p.Piece.Kind)
	name := p.Name
	if name == "" {
		name = k.Name
	}
	if len(j.req.Pieces) > 1 {
		return strings.TrimSpace(p.ID + " " + name)
	}
	return name
}

// listRequest is the request of the cutting list of a piece.
func (j *jobber) listRequest(i int) service.CuttingListRequest {
	p := &j.req.Pieces[i]
	r := service.CuttingListRequest{Name: j.nameOf(i), Piece: p.Piece, Drop: p.Drop, Replace: p.Replace, Covers: p.Moved, ByHand: p.Covers}
	of := func(c int) *cloth.Cloth {
		if c < 0 {
			return nil
		}
		return &j.cloths[c].Cloth
	}
	r.Cloth, r.Outside, r.Lining = of(j.covers[i][furniture.Top]), of(j.covers[i][furniture.Outside]), of(j.covers[i][furniture.Lining])
	return r
}

// deal gives the panels and the runs of a piece to their cloths.
func (j *jobber) deal(i int) {
	p, list := &j.req.Pieces[i], j.lists[i]
	for cover, panels := range list.Covers {
		if len(panels) == 0 {
			continue
		}
		w := &j.work[j.covers[i][cover]]
		for k := range panels {
			q := j.own(i, panels[k])
			if ob := p.Obstacles[panels[k].ID]; len(ob) > 0 {
				if w.obstacles == nil {
					w.obstacles = make(map[int][]relief.Obstacle)
				}
				w.obstacles[len(w.panels)] = ob
			}
			if slices.ContainsFunc(list.List.Buttons, func(b furniture.Buttons) bool { return b.Panel == panels[k].ID }) {
				w.buttoned = append(w.buttoned, buttonedPanel{piece: i, index: len(w.panels), panel: q})
			}
			w.panels, w.places = append(w.panels, q), append(w.places, place{i, p.placeOf(piecePath(i), panels[k].ID)})
		}
	}
	for _, l := range list.Loosened {
		cover := furniture.Top
		for c, panels := range list.Covers {
			if slices.ContainsFunc(panels, func(q panel.Panel) bool { return q.ID == l.Panel }) {
				cover = furniture.Cover(c)
			}
		}
		l.Panel = j.prefix(i) + l.Panel
		w := &j.work[j.covers[i][cover]]
		w.loosened = append(w.loosened, l)
	}
	j.pipe(i)
}

// pipe gives the runs of a piece to the cloth of its piping.
func (j *jobber) pipe(i int) {
	p, w := &j.req.Pieces[i], &j.work[j.piping[i]]
	name := func(s string) string {
		if len(j.req.Pieces) > 1 {
			return p.ID + ": " + s
		}
		return s
	}
	for _, r := range j.lists[i].List.Runs {
		run := service.PipingRun{Name: name(r.Name), Count: r.Count}
		run.Length, run.Closed, run.MaxJoins = r.Length, r.Closed, j.req.Piping.Most
		w.runs, w.runOf = append(w.runs, run), append(w.runOf, i)
	}
	for _, r := range p.Runs {
		r.Name = name(r.Name)
		w.runs, w.runOf = append(w.runs, r), append(w.runOf, i)
	}
}

// prefix stands before the ids of a piece where there are several.
func (j *jobber) prefix(i int) string {
	if len(j.req.Pieces) > 1 {
		return j.req.Pieces[i].ID + "."
	}
	return ""
}

// own is a panel with the ids of the job.
func (j *jobber) own(i int, p panel.Panel) panel.Panel {
	pre := j.prefix(i)
	if pre == "" {
		return p
	}
	p.ID = pre + p.ID
	if p.Match.From != "" {
		p.Match.From = pre + p.Match.From
	}
	if p.Pair != "" {
		p.Pair = pre + p.Pair
	}
	return p
}

// placeOf is where a panel of the piece at a place stands in the request; the body
// when it was made from the measures.
func (p *Piece) placeOf(at fault.Path, id string) fault.Path {
	if k := slices.IndexFunc(p.Replace, func(q panel.Panel) bool { return q.ID == id }); k >= 0 {
		return at.Field("replace").Index(k)
	}
	return p.HandAt[id]
}

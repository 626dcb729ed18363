package foundation

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// The limits of a job.
const (
	MaxFrames = 40
	MaxCopies = 200 // of all frames together
)

// Faults are everything wrong with a job, by the names of the wire form. What
// does not fit together is asked only when nothing else is wrong.
func (job Job) Faults(at fault.Path) fault.List {
	l := job.FieldFaults(at)
	if l.Len() == 0 {
		l = job.fitFaults(at)
	}
	return l
}

// FieldFaults are what is wrong with the fields.
func (job Job) FieldFaults(at fault.Path) fault.List {
	l := Book().Faults(job.Given, at.Field("settings"))
	frames := at.Field("frames")
	if n := len(job.Frames); n == 0 {
		l.Add(frames, fault.TooFew, "", "there is no frame", "one frame or more")
	}
	ids := make(map[string]bool, len(job.Frames))
	copies := 0
	for i, f := range job.Frames {
		here := frames.Index(i)
		if f.ID != "" && ids[f.ID] {
			l.Add(here.Field("id"), fault.Duplicate, f.ID, "another frame has this id", "an id of its own")
		}
		ids[f.ID] = true
		copies += f.Count
		l.Append(f.sizeFaults(here))
		l.Append(f.springFaults(job.Build, here))
	}
	if copies > MaxCopies {
		l.Add(frames, fault.TooMany, strconv.Itoa(copies), "there are "+strconv.Itoa(copies)+" frames with all copies", "at most "+strconv.Itoa(MaxCopies))
	}
	return l
}

func (f Frame) sizeFaults(at fault.Path) fault.List {
	var l fault.List
	l.Between(at.Field("front"), "the width at the front", f.Front, MinSize, MaxSize)
	need := func(field string, v length.Length, has bool, what string) {
		switch {
		case !has && v != 0:
			l.Add(at.Field(field), fault.NotAllowed, v.String(), "this shape has no "+what, "leave "+field+" out, or change the shape")
		case has && v == 0:
			l.Add(at.Field(field), fault.Missing, "", "this shape needs its "+what, "give "+field)
		case has:
			l.Between(at.Field(field), "the "+what, v, MinSize, MaxSize)
		}
	}
	need("back", f.Back, f.Shape == Trapezoid, "width at the back")
	need("depth", f.Depth, f.Shape != Circle, "depth")
	if f.Shape == DShape && f.Depth >= MinSize && f.Depth < f.Front/2 {
		l.Add(at.Field("depth"), fault.TooSmall, f.Depth.String(), "a D that is half round at the front is at least half as deep as it is wide", "at least "+(f.Front/2).String())
	}
	if f.Rail != 0 {
		l.Between(at.Field("rail"), "the height of the rail", f.Rail, 20*mm, 50*cm)
	}
	if f.EdgeRows > MaxEdge {
		l.Add(at.Field("edgeRows"), fault.TooLarge, strconv.Itoa(f.EdgeRows), "an edge has at most "+strconv.Itoa(MaxEdge)+" rows of stitches", "at most "+strconv.Itoa(MaxEdge))
	}
	return l
}

func (f Frame) springFaults(b Build, at fault.Path) fault.List {
	var l fault.List
	if len(f.Springs) > 0 && !f.isSprung(b) {
		l.Add(at.Field("springRows"), fault.NotAllowed, "", "this frame has no springs", "leave springRows out, or make it a sprung frame of the traditional build")
	}
	if f.Sprung == Yes && b == Modern {
		l.Add(at.Field("sprung"), fault.NotAllowed, "", "the modern build has webs instead of springs", "leave sprung out, or ask for the traditional build")
	}
	if f.UnderSprings && !f.isSprung(b) {
		l.Add(at.Field("layWebs"), fault.NotAllowed, "", "there are no springs to lay the webs under", "even, or a sprung frame")
	}
	if f.UnderSprings && f.WebsAcross+f.WebsAlong > 0 {
		l.Add(at.Field("layWebs"), fault.NotAllowed, "", "the springs say how many webs there are", "even, or leave websAcross and websAlong out")
	}
	return l
}

// fitFaults wants webs that do not overlap and cloths that can be cut. A frame
// that has no webs along may have any number given as 0.
func (job Job) fitFaults(at fault.Path) fault.List {
	var l fault.List
	u := job.Practice()
	web := u.Length(practice.WebWidth)
	if job.Build == Modern {
		web = u.Length(practice.ElasticWidth)
	}
	frames := at.Field("frames")
	for i, f := range job.Frames {
		here := frames.Index(i)
		across, along := f.around()
		overlap := func(field string, n int, span length.Length) {
			if n > 0 && length.Length(n)*web > span {
				most := int(max(span/web, 1))
				l.Add(here.Field(field), fault.TooLarge, strconv.Itoa(n), strconv.Itoa(n)+" webs of "+web.String()+" overlap on "+span.String(), "at most "+strconv.Itoa(most))
			}
		}
		overlap("websAcross", f.WebsAcross, along)
		overlap("websAlong", f.WebsAlong, across)
		job.ruleFaults(&l, f, web, u, here)
		for _, p := range f.panels(i, job.Build, f.isSprung(job.Build), u) {
			if p.Join == panel.NoJoin {
				continue
			}
			width := u.Length(p.Use.Width())
			if parts := int64(p.Cut().Across/max(width-2*p.JoinSeam, 1)) + 2; parts > panel.MaxParts || width <= 2*p.JoinSeam {
				l.Add(here, fault.WiderThanCloth, "", "the "+p.Use.String()+" cannot be made up from so narrow a cloth", "a wider cloth by the setting "+p.Use.Width().Name)
			}
		}
	}
	return l
}

// ruleFaults wants no more webs than MaxWebs and no more springs than MaxRows by
// the rules.
func (job Job) ruleFaults(l *fault.List, f Frame, web length.Length, u practice.Set, at fault.Path) {
	gap := u.Length(practice.WebGap)
	if job.Build == Modern {
		gap = u.Length(practice.ElasticGap)
	}
	across, along := f.around()
	if n := max(WebCount(across, web, gap), WebCount(along, web, gap)); n > MaxWebs {
		l.Add(at, fault.TooMany, strconv.Itoa(n), "the frame takes "+strconv.Itoa(n)+" webs one way", "wider webs or gaps in the settings, so that "+strconv.Itoa(MaxWebs)+" are enough")
	}
	if !f.isSprung(job.Build) || len(f.Springs) > 0 {
		return
	}
	coil, edge := u.Length(practice.SpringWidth), u.Length(practice.SpringEdge)
	gap, least := u.Length(practice.SpringGap), u.Length(practice.SpringLeastGap)
	if n := max(SpringCount(across, coil, edge, gap, least), SpringCount(along, coil, edge, gap, least)); n > MaxWebs {
		l.Add(at, fault.TooMany, strconv.Itoa(n), "the frame takes "+strconv.Itoa(n)+" springs one way", "wider springs or gaps in the settings, so that "+strconv.Itoa(MaxWebs)+" are enough")
	}
}

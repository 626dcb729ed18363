package fire

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/length"
)

// factKind is what a fact is made of.
type factKind uint8

const (
	factWord factKind = iota
	factDay
	factShare
	factLength
	factCount
)

// fact is something that a condition may ask of a job or of one of its layers.
type fact struct {
	name  string
	kind  factKind
	words string // the vocabulary of a word
	layer bool   // of a layer, and not of the piece
	get   func(*seen) value
}

// value is what is known of a fact: a word, or the least and the most that it
// may be.
type value struct {
	word   string
	lo, hi int64
	known  bool
}

func word(w string) value { return value{word: w, known: w != ""} }

func exactly(n int64) value { return value{lo: n, hi: n, known: true} }

// measured is a length that is not known when it is 0.
func measured(l length.Length) value { return value{lo: int64(l), hi: int64(l), known: l > 0} }

// facts are all of them, by name.
var facts = factTable()

func factTable() map[string]*fact {
	ofPiece := func(name, words string, get func(*Job) string) *fact {
		return &fact{name: name, words: words, get: func(s *seen) value { return word(get(s.job)) }}
	}
	ofLayer := func(name, words string, get func(*Layer) string) *fact {
		return &fact{name: name, words: words, layer: true, get: func(s *seen) value { return word(get(s.layer)) }}
	}
	list := []*fact{
		ofPiece("use", "use", func(j *Job) string { return j.Use }),
		ofPiece("platform", "platform", func(j *Job) string { return j.Platform }),
		ofPiece("item", "item", func(j *Job) string { return j.Item }),
		ofPiece("transaction", "transaction", func(j *Job) string { return j.Transaction }),
		ofPiece("occupancy", "occupancy", func(j *Job) string { return j.Occupancy }),
		ofPiece("hazard", "hazard", func(j *Job) string { return j.Hazard }),
		ofPiece("filling-added", "answer", func(j *Job) string { return string(j.FillingAdded) }),
		ofPiece("loose-cushions", "answer", func(j *Job) string { return string(j.LooseCushions) }),
		ofPiece("smooth-surface", "answer", func(j *Job) string { return string(j.SmoothSurface) }),
		ofPiece("seat-meets-back", "answer", func(j *Job) string { return string(j.SeatMeetsBack) }),
		ofPiece("prescribed", "answer", func(j *Job) string { return string(j.Prescribed) }),
		ofPiece("permanent-label", "answer", func(j *Job) string { return string(j.PermanentLabel) }),
		ofPiece("display-label", "answer", func(j *Job) string { return string(j.DisplayLabel) }),
		ofPiece("federal-label", "answer", func(j *Job) string { return string(j.FederalLabel) }),
		ofPiece("chemical-label", "answer", func(j *Job) string { return string(j.ChemicalLabel) }),
		{name: "exported", words: "answer", get: exported},
		{name: "as-of", kind: factDay, get: func(s *seen) value {
			return value{lo: int64(s.job.AsOf), hi: int64(s.job.AsOf), known: s.job.AsOf != 0}
		}},
		{name: "made", kind: factDay, get: func(s *seen) value {
			return value{lo: int64(s.job.Made.First), hi: int64(s.job.Made.Last), known: s.job.Made.Known()}
		}},
		{name: "long", kind: factLength, get: func(s *seen) value { return measured(s.job.Long) }},
		{name: "wide", kind: factLength, get: func(s *seen) value { return measured(s.job.Wide) }},
		{name: "depth", kind: factLength, get: depth},
		ofLayer("role", "role", func(l *Layer) string { return l.Role }),
		ofLayer("material", "material", func(l *Layer) string { return l.Material }),
		ofLayer("form", "form", func(l *Layer) string { return l.Form }),
		ofLayer("supplier", "supplier", func(l *Layer) string { return l.Supplier }),
		ofLayer("coating", "coating", func(l *Layer) string { return l.Coating }),
		ofLayer("treated", "answer", func(l *Layer) string { return string(l.Treated) }),
		ofLayer("combustion-modified", "answer", func(l *Layer) string { return string(l.CombustionModified) }),
		ofLayer("fr-added", "answer", func(l *Layer) string { return string(l.FlameRetardant) }),
		ofLayer("fr-kind", "fr-kind", func(l *Layer) string { return l.FlameRetardantKind }),
		{name: "fr-ppm", kind: factCount, layer: true, get: func(s *seen) value {
			if ppm := s.layer.FlameRetardantPPM; ppm != nil {
				return value{lo: *ppm, hi: *ppm, known: true}
			}
			return value{}
		}},
		{name: "natural", kind: factShare, layer: true, get: natural},
	}
	out := make(map[string]*fact, len(list))
	for _, f := range list {
		out[f.name] = f
	}
	return out
}

// exported is yes for the rules of a place that the piece leaves.
func exported(s *seen) value {
	if s.leaves {
		return word("yes")
	}
	return word("no")
}

// depth is that of all fillings together; unknown when one of them is.
func depth(s *seen) value {
	var sum length.Length
	for i := range s.job.Layers {
		l := &s.job.Layers[i]
		if !l.fills() {
			continue
		}
		if l.Thickness <= 0 {
			return value{}
		}
		sum += l.Thickness
	}
	return exactly(int64(sum))
}

// natural is the share by weight of the named fibres: at least what is declared
// of them, at most that and whatever is not declared to be another fibre.
func natural(s *seen) value {
	var named, other int64
	for _, f := range s.layer.Fibres {
		switch {
		case namedFibres[f.Name]:
			named += f.Share
		case otherFibres[f.Name]:
			other += f.Share
		}
	}
	if len(s.layer.Fibres) == 0 {
		return value{}
	}
	return value{lo: named, hi: Whole - other, known: true}
}

// text is what is known, as a person reads it.
func (v value) text(k factKind) string {
	switch {
	case !v.known:
		return "not known"
	case k == factWord:
		return v.word
	case v.lo == v.hi:
		return limitText(k, v.lo)
	}
	if k == factDay {
		return calendar.Span{First: calendar.Day(v.lo), Last: calendar.Day(v.hi)}.String()
	}
	return limitText(k, v.lo) + " to " + limitText(k, v.hi)
}

func limitText(k factKind, n int64) string {
	switch k {
	case factDay:
		return calendar.Day(n).String()
	case factShare:
		return strconv.FormatFloat(float64(n)*100/Whole, 'f', -1, 64) + "%"
	case factLength:
		return length.Length(n).String()
	}
	return strconv.FormatInt(n, 10)
}

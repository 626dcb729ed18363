package buying

import (
	"cmp"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// key is what makes an article another one. Two answers that have an
// article sold in two ways have two lines.
type key struct {
	group     Group
	article   string
	name      string
	measure   Measure
	sold      Sold
	width     length.Length // of a cloth
	flaw      cloth.Share
	shrinkage cloth.Share
	own       string // the price that comes with it, in words; "" for none
}

func compareKeys(a, b key) int {
	return cmp.Or(
		cmp.Compare(a.group, b.group), cmp.Compare(a.article, b.article), cmp.Compare(a.name, b.name), cmp.Compare(a.measure, b.measure),
		compareSold(a.sold, b.sold), cmp.Compare(a.width, b.width), cmp.Compare(a.flaw, b.flaw), cmp.Compare(a.shrinkage, b.shrinkage), cmp.Compare(a.own, b.own),
	)
}

func compareSold(a, b Sold) int {
	return cmp.Or(cmp.Compare(a.Step, b.Step), cmp.Compare(a.Pack, b.Pack), cmp.Compare(a.Name, b.Name), cmp.Compare(a.Minimum, b.Minimum), cmp.Compare(a.Whole, b.Whole))
}

// entry is what all parts take of an article.
type entry struct {
	reasons map[[2]string]int64 // by part and what for
	pieces  []length.Length     // lengths that cannot be put together of shorter ones; nil where all can
	starts  []startsAt          // plans that begin at a known place in the repeat
	spare   int64               // in millionths of what is counted
	spared  string              // what the spare is for
	own     *ownPrice
}

// startsAt is a plan laid out for where the cloth begins.
type startsAt struct {
	pieces []length.Length
	repeat length.Length
}

// ownPrice is a price that comes with the article.
type ownPrice struct {
	Price
	code string // of its currency
}

// book is an order list while it is written.
type book struct {
	req     *Request
	entries map[key]*entry
	known   []key // cloths with a plan
}

func (b *book) entry(k key) *entry {
	e := b.entries[k]
	if e == nil {
		e = &entry{reasons: make(map[[2]string]int64)}
		b.entries[k] = e
	}
	return e
}

// take enters an amount of an article.
func (b *book) take(k key, part, what string, amount int64) *entry {
	e := b.entry(k)
	if amount > 0 {
		e.reasons[[2]string{part, what}] += amount
	}
	return e
}

// takeLengths enters lengths that are each cut from one piece.
func (b *book) takeLengths(k key, part, what string, pieces []length.Length) *entry {
	e := b.entry(k)
	for _, l := range pieces {
		if l > 0 {
			e.pieces = append(e.pieces, l)
			e.reasons[[2]string{part, what}] += int64(l)
		}
	}
	return e
}

// line is an entry as it is bought.
func (b *book) line(k key, e *entry) (Line, error) {
	l := Line{Article: k.article, Name: k.name, Group: k.group, Measure: k.measure, Sold: k.sold}
	l.Price, l.Because = b.priceOf(k.article, e)
	for by, amount := range e.reasons {
		l.Reasons = append(l.Reasons, Reason{by[0], by[1], amount})
	}
	slices.SortFunc(l.Reasons, func(a, b Reason) int { return cmp.Or(cmp.Compare(a.Part, b.Part), cmp.Compare(a.For, b.For)) })
	if e.spare > 0 {
		l.Reasons = append(l.Reasons, Reason{For: e.spared, Amount: (e.spare-1)/1_000_000 + 1})
	}
	pieces := e.allPieces(&l)
	terms := cloth.Sold{Flaw: k.flaw, Shrinkage: k.shrinkage}
	if l.Price != nil {
		sold, because := l.soldAs(*l.Price, b.req.Shop)
		if !because.Said() && sold.Pack > 0 && len(pieces) > 0 && slices.Max(pieces) > before(length.Length(sold.Pack), terms) {
			because = note.New(note.PackTooShort)
		}
		if !because.Said() {
			l.Sold = sold
		} else {
			l.Price, l.Because = nil, because
		}
	}
	if pieces != nil {
		return l, l.fromPieces(terms, pieces)
	}
	for _, r := range l.Reasons {
		l.Need += r.Amount
	}
	l.Order, l.Packs = l.Sold.order(l.Need)
	return l, nil
}

// allPieces are the lengths that are each cut from one piece; nil where the
// article has none. Where several plans begin at a known place in the repeat,
// only one of them finds the cloth as it is laid out for: all are given a repeat
// more, to get to their place.
func (e *entry) allPieces(l *Line) []length.Length {
	pieces := slices.Clone(e.pieces)
	more := int64(0)
	for _, s := range e.starts {
		for _, p := range s.pieces {
			if len(e.starts) > 1 {
				p += s.repeat
				more += int64(s.repeat)
			}
			pieces = append(pieces, p)
		}
	}
	if more > 0 {
		l.Reasons = append(l.Reasons, Reason{For: "to begin each plan at its place in the repeat", Amount: more})
	}
	return pieces
}

// order is what to buy for a need, and how many packs that is.
func (s Sold) order(need int64) (order, packs int64) {
	if need <= 0 {
		return 0, 0
	}
	order = max(need, s.Minimum)
	if s.Pack > 0 {
		packs = (order-1)/s.Pack + 1
		return packs * s.Pack, packs
	}
	if s.Step > 0 {
		order = ((order-1)/s.Step + 1) * s.Step
	}
	return order, 0
}

// fromPieces buys lengths of which each is cut from one piece: as many as go on a
// bolt or in a pack are bought in one, the longest first.
func (l *Line) fromPieces(terms cloth.Sold, pieces []length.Length) error {
	whole := l.Sold.Whole
	if l.Sold.Pack > 0 {
		whole = l.Sold.Pack
	}
	flawed := int64(0)
	for _, together := range packed(pieces, length.Length(whole), terms) {
		grown, err := terms.Order(together)
		if err != nil {
			return err
		}
		withFlaws, err := cloth.Sold{Flaw: terms.Flaw}.Order(together)
		if err != nil {
			return err
		}
		flawed += int64(withFlaws - together)
		order, packs := l.Sold.order(int64(grown))
		l.Need += int64(grown)
		l.Order += order
		l.Packs += packs
		l.Lengths = append(l.Lengths, length.Length(order))
	}
	raw := int64(0)
	for _, r := range l.Reasons {
		raw += r.Amount
	}
	if flawed > 0 {
		l.Reasons = append(l.Reasons, Reason{For: "flaws", Amount: flawed})
	}
	if shrunk := l.Need - raw - flawed; shrunk > 0 {
		l.Reasons = append(l.Reasons, Reason{For: "shrinkage", Amount: shrunk})
	}
	slices.SortFunc(l.Lengths, func(a, b length.Length) int { return cmp.Compare(b, a) })
	if len(l.Lengths) == 1 || l.Packs > 0 {
		l.Lengths = nil
	}
	return nil
}

// packed puts lengths together, the longest first, each with the first that still
// have room for it in a whole, allowances counted; it returns what lies together.
// One that is longer than a whole lies by itself.
func packed(pieces []length.Length, whole length.Length, terms cloth.Sold) []length.Length {
	var bins []length.Length
	sorted := slices.Clone(pieces)
	slices.SortFunc(sorted, func(a, b length.Length) int { return cmp.Compare(b, a) })
	room := length.Length(0)
	if whole > 0 {
		room = before(whole, terms)
	}
	for _, l := range sorted {
		i := slices.IndexFunc(bins, func(had length.Length) bool { return whole <= 0 || had+l <= room })
		if i < 0 {
			bins = append(bins, l)
		} else {
			bins[i] += l
		}
	}
	return bins
}

// before is the greatest length that with its allowances is no longer than whole.
func before(whole length.Length, terms cloth.Sold) length.Length {
	lo, hi := length.Length(0), whole
	for lo < hi {
		mid := lo + (hi-lo+1)/2
		if grown, err := terms.Order(mid); err == nil && grown <= whole {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}

// priceOf is the price of an article: the longest that fits in the list, or else
// the one that comes with it.
func (b *book) priceOf(article string, e *entry) (*Price, note.Note) {
	var best *Price
	for i := range b.req.Prices {
		p := &b.req.Prices[i]
		if p.fits(article) && (best == nil || len(p.Article) > len(best.Article)) {
			best = p
		}
	}
	switch {
	case best != nil || e.own == nil:
		return best, note.Note{}
	case e.own.code != b.req.Currency.Code():
		return nil, note.New(note.OtherCurrency, note.Name("currency", e.own.code))
	}
	return &e.own.Price, note.Note{}
}

// fits reports whether a price is that of an article, or of its family.
func (p *Price) fits(article string) bool {
	return p.Article == article || strings.HasPrefix(article, p.Article+"/")
}

// loose is the multiple in which what is counted so is sold loose.
func loose(m Measure, shop practice.Set) int64 {
	switch m {
	case Length:
		return int64(shop.Length(practice.LooseLength))
	case Mass:
		return shop.Number(practice.LooseMass)
	}
	return shop.Count(practice.LooseCount)
}

// soldAs is how an article is sold by its price, or why the price cannot be used.
func (l *Line) soldAs(p Price, shop practice.Set) (s Sold, because note.Note) {
	s = l.Sold
	if p.Pack != nil {
		if p.Pack.Measure != l.Measure {
			return s, note.New(note.PackMeasure, note.Name("given", measured(p.Pack.Measure)), note.Name("bought", measured(l.Measure)))
		}
		s.Pack, s.Step = p.Pack.Amount, 0
		if s.Name == "" {
			s.Name = "pack"
		}
	}
	if p.Minimum != nil {
		if p.Minimum.Measure != l.Measure {
			return s, note.New(note.LeastMeasure, note.Name("given", measured(p.Minimum.Measure)), note.Name("bought", measured(l.Measure)))
		}
		s.Minimum = p.Minimum.Amount
	}
	if p.Per == PerPack {
		if s.Pack == 0 {
			return s, note.New(note.PackUnknown)
		}
		return s, note.Note{}
	}
	if of := p.Per.measure(); of != l.Measure {
		return s, note.New(note.PriceMeasure, note.Name("given", measured(of)), note.Name("bought", measured(l.Measure)))
	}
	if p.Pack == nil && s.Pack > 1 { // priced and so sold by measure
		s.Pack, s.Name, s.Step = 0, "", loose(l.Measure, shop)
	}
	return s, note.Note{}
}

// measure is what a price is by, but for PerPack.
func (p Per) measure() Measure {
	switch p {
	case PerMetre, PerYard:
		return Length
	case PerKilogram, PerPound:
		return Mass
	}
	return Count
}

func measured(m Measure) string {
	return [...]string{Count: "number", Length: "length", Mass: "weight"}[m]
}

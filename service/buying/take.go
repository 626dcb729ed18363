package buying

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// exactMM is a length as it stands in the name of an article: "57.15mm".
func exactMM(l length.Length) string { return decimal.New(int64(l), -6).String() + "mm" }

// thin is the size of something small, and wide that of something broad, as the
// trade says them: 13 mm and 137 cm, or 1/2 in and 54 in.
func (b *book) thin(l length.Length) string { return b.sized(l, "mm", -6) }

func (b *book) wide(l length.Length) string { return b.sized(l, "cm", -7) }

func (b *book) sized(l length.Length, unit string, power int32) string {
	if b.req.Units == length.Imperial {
		return inches(l)
	}
	return decimal.New(int64(l), power).Round(1).String() + " " + unit
}

// inches is a length in inches, to the nearest sixteenth.
func inches(l length.Length) string {
	n, of := (l+length.Inch/32)/(length.Inch/16), length.Length(16)
	for of > 1 && n%2 == 0 {
		n, of = n/2, of/2
	}
	text := strconv.FormatInt(int64(n/of), 10)
	if part := n % of; part > 0 {
		fraction := strconv.FormatInt(int64(part), 10) + "/" + strconv.FormatInt(int64(of), 10)
		if text += " " + fraction; n < of {
			text = fraction
		}
	}
	return text + " in"
}

// clothKey is a cloth that is bought by the length.
func (b *book) clothKey(group Group, article, name string, width length.Length, s cloth.Sold) key {
	return key{
		group: group, article: article, name: name + ", " + b.wide(width) + " wide", width: width, measure: Length, flaw: s.Flaw, shrinkage: s.Shrinkage,
		sold: Sold{Step: int64(s.Step), Minimum: int64(s.Minimum), Whole: int64(s.Bolt)},
	}
}

// topKey is a cloth of the job's own.
func (b *book) topKey(article, what string, k cloth.Cloth, s cloth.Sold) key {
	for _, name := range []string{k.Name, what, "cloth"} {
		if article == "" {
			article = name
		}
	}
	name := k.Name
	if name == "" {
		name = article
	}
	return b.clothKey(Cloths, "cloth/"+article, name, k.Width, s)
}

// lengthsToBuy are the lengths of a plan that are bought, each enough wherever in
// the repeat it begins.
func lengthsToBuy(a *service.YardageAnswer) []length.Length {
	var out []length.Length
	if a.Pieces == nil {
		for _, l := range a.Result.AnyStart {
			if l > 0 {
				out = append(out, l)
			}
		}
		return out
	}
	for i, u := range a.Pieces.Uses {
		if (i == 0 || i > len(a.Request.Pieces)) && u.Need > 0 {
			out = append(out, u.Need)
		}
	}
	return out
}

// cloths enters the cloths of a part.
func (b *book) cloths(p *Part) {
	for i := range p.Cloths {
		c := &p.Cloths[i]
		if c.Answer == nil {
			continue
		}
		req := &c.Answer.Request
		k := b.topKey(c.Article, c.For, req.Cloth, req.Sold)
		own := ownOf(c.Price, k.article)
		if own != nil {
			k.own = own.words()
		}
		if b.entries[k] == nil {
			b.known = append(b.known, k)
		}
		pieces := lengthsToBuy(c.Answer)
		e := b.takeLengths(k, p.Name, c.For, pieces)
		e.own = own
		if v := req.Cloth.Pattern.LengthRepeat; v > 0 && req.Cloth.StartsAt != nil && len(pieces) > 0 {
			e.pieces = e.pieces[:len(e.pieces)-len(pieces)]
			e.starts = append(e.starts, startsAt{pieces, v})
		}
	}
}

// fromCloth is the key of a cloth that something else is cut from too: that of a
// plan with this article, or its own.
func (b *book) fromCloth(article string, k cloth.Cloth, s cloth.Sold) key {
	own := b.topKey(article, "", k, s)
	found := false
	for _, other := range b.known {
		if other.article == own.article && (!found || compareKeys(other, own) < 0) {
			own, found = other, true
		}
	}
	return own
}

// part enters all else that a part takes.
func (b *book) part(p *Part) {
	for i := range p.Piping {
		b.piping(p.Name, &p.Piping[i])
	}
	for i := range p.Buttoning {
		b.buttoning(p.Name, &p.Buttoning[i])
	}
	for _, a := range p.Foam {
		if a != nil {
			b.foam(p.Name, a)
		}
	}
	for _, a := range p.Wadding {
		if a != nil {
			b.wadding(p.Name, a)
		}
	}
	for _, a := range p.Foundation {
		if a != nil {
			b.foundation(p.Name, a)
		}
	}
}

func (b *book) piping(part string, o *Piping) {
	a := o.Answer
	if a == nil {
		return
	}
	req := &a.Request
	step := practice.CordSoldBy
	if b.req.Units == length.Imperial {
		step = practice.CordByTheYard
	}
	cord := key{
		group: Trimmings, article: "cord/piping/" + exactMM(req.Cord), name: "piping cord, " + b.thin(req.Cord),
		measure: Length, sold: Sold{Step: int64(b.req.Shop.Length(step))},
	}
	b.take(cord, part, "piping", int64(a.Cord))
	if w := a.Plan(); w != nil && w.Cloth > 0 {
		b.takeLengths(b.fromCloth(o.Cloth, req.Cloth, *req.Sold), part, "strips for piping", []length.Length{w.Cloth})
	}
}

func (b *book) buttoning(part string, o *Buttoning) {
	a := o.Answer
	if a == nil {
		return
	}
	times := int64(max(o.Count, 1))
	what := "buttoning"
	if a.Request.Name != "" {
		what = "buttoning the " + a.Request.Name
	}
	n := times * int64(a.Buttons.Count)
	lines := strconv.Itoa(a.Request.Buttons.Lines)
	each := Sold{Step: 1}
	b.take(key{group: Trimmings, article: "buttons/" + lines + "-line", name: "buttons to cover, " + lines + " line", sold: each}, part, what, n)
	behind := key{group: Trimmings, article: "washers", name: "washers behind the buttons", sold: each}
	if a.Request.Buttons.Tufts {
		behind.article, behind.name = "tufts", "tufts behind the buttons"
	}
	b.take(behind, part, what, n)
	twine := key{
		group: Trimmings, article: "twine/buttoning", name: "buttoning twine", measure: Length,
		sold: Sold{Pack: int64(b.req.Shop.Length(practice.ButtonTwine)), Name: "ball"},
	}
	b.take(twine, part, what, n*int64(a.Buttons.Twine))
	if o.Cloth == "" {
		return
	}
	k := b.fromCloth(o.Cloth, a.Request.Cloth, cloth.Sold{})
	for range times {
		switch c := a.Buttons.Centred; {
		case c != nil:
			// Centred is for the best start; from any other it is at most a repeat more.
			b.takeLengths(k, part, "covers of buttons", []length.Length{c.Length + a.Request.Cloth.Pattern.LengthRepeat})
		case a.Buttons.Strip != nil:
			b.takeLengths(k, part, "covers of buttons", []length.Length{a.Buttons.Strip.Piece.Along})
		}
	}
}

// ownOf is a price by the length that comes with a cloth.
func ownOf(p *money.Price, article string) *ownPrice {
	if p == nil {
		return nil
	}
	per := PerMetre
	if p.Per == length.Yard {
		per = PerYard
	}
	return &ownPrice{Price{Article: article, Amount: p.Amount, Per: per}, p.Code()}
}

func (p *ownPrice) words() string {
	return strings.Join([]string{p.Amount.String(), p.code, strconv.Itoa(int(p.Per))}, " ")
}

func (b *book) foam(part string, a *service.FoamAnswer) {
	for i := range a.Result.Groups {
		g := &a.Result.Groups[i]
		for _, buy := range g.Buy() {
			s := &a.Request.Stock[buy.Stock]
			k := key{
				group: Foam, article: "foam/" + s.ID, sold: Sold{Pack: 1, Name: "sheet"},
				name: foamName(a.Request.Foams[s.Foam]) + ", " + b.wide(s.Across) + " × " + b.wide(s.Along) + ", " + b.thin(s.Thickness) + " thick",
			}
			var own *ownPrice
			if a.Request.Priced() {
				own = &ownPrice{Price{Article: k.article, Amount: s.Price, Per: PerPack}, a.Request.Currency.Code()}
				k.own = own.words()
			}
			b.take(k, part, "cushions and pads", int64(buy.Count)).own = own
		}
	}
}

// foamName is what a foam is ordered as.
func foamName(f foam.Foam) string {
	if f.Name != "" {
		return f.Name
	}
	return "foam " + f.ID
}

func (b *book) wadding(part string, a *service.WaddingAnswer) {
	for _, r := range a.Rolls {
		name := r.Sheet.Material.String()
		k := b.clothKey(Wadding, "wadding/"+name+"/"+exactMM(r.Sheet.Width), strings.ReplaceAll(name, "-", " ")+" wadding", r.Sheet.Width, r.Plan.Request.Sold)
		b.takeLengths(k, part, "wrapping and lining", lengthsToBuy(r.Plan))
	}
	for _, l := range a.Work.Loose {
		k := key{
			group: Wadding, article: "filling/" + l.Material.String(), name: l.Material.String(), measure: Mass,
			sold: Sold{Pack: l.Bag, Name: "bag"},
		}
		b.take(k, part, "filling", l.Mass)
	}
}

func (b *book) foundation(part string, a *service.FoundationAnswer) {
	for _, c := range a.Cloths {
		width := c.Plan.Request.Cloth.Width
		k := b.clothKey(Foundation, c.Use.String()+"/"+exactMM(width), c.Plan.Request.Cloth.Name, width, c.Plan.Request.Sold)
		b.takeLengths(k, part, "foundation", lengthsToBuy(c.Plan))
	}
	f := foundationBook{book: b, part: part, a: a, u: a.Request.Practice()}
	f.webs()
	f.springs()
	f.cords()
	f.fixings()
}

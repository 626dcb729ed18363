package note

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
)

var (
	kebab = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	camel = regexp.MustCompile(`^[a-z][A-Za-z]*$`)
)

// use is how a template takes a parameter: "", "list", "plural" or "select".
type use struct{ name, how string }

// uses are the parameters of a template, each as often as it stands there. What
// is wrong with the template is told to t.
func uses(t *testing.T, c Code, template string) []use {
	t.Helper()
	var out []use
	for template != "" {
		before, inside, after := cutBraces(template)
		if strings.ContainsAny(before, "{}") {
			t.Errorf("%s: braces do not pair in %q", c, template)
		}
		template = after
		if inside == "" {
			continue
		}
		name, rest, _ := strings.Cut(inside, ",")
		how, branches, chosen := strings.Cut(strings.TrimSpace(rest), ",")
		out = append(out, use{name, how})
		if !camel.MatchString(name) || !slices.Contains([]string{"", "list", "plural", "select"}, how) || chosen != (how == "plural" || how == "select") {
			t.Errorf("%s: {%s} is no placeholder", c, inside)
		}
		others := 0
		for branches != "" {
			label, body, after := cutBraces(branches)
			label = strings.TrimSpace(label)
			if label == "other" {
				others++
			}
			number := regexp.MustCompile(`^=\d+$`).MatchString(label)
			if how == "plural" && !number && label != "one" && label != "other" || how == "select" && !kebab.MatchString(label) {
				t.Errorf("%s: a %s has the branch %q", c, how, label)
			}
			out = append(out, uses(t, c, body)...)
			branches = after
		}
		if chosen && others != 1 {
			t.Errorf("%s: {%s} has %d branches for all others", c, inside, others)
		}
	}
	return out
}

// Every code is in one table, is written in lower case with hyphens, and says
// when it is given; its template can be filled in.
func TestCodes(t *testing.T) {
	rows := 0
	for _, one := range tables() {
		rows += len(one)
	}
	if rows != len(registry) || len(Codes()) != rows {
		t.Errorf("%d rows, %d codes: a code stands in two tables", rows, len(registry))
	}
	for c, e := range registry {
		if !kebab.MatchString(string(c)) || e.severity > Remark || e.when == "" || c.When() != e.when || c.Severity() != e.severity || e.template == "" {
			t.Errorf("%s: %+v", c, e)
		}
		if e.template != strings.TrimSpace(e.template) || strings.Contains(e.template, "  ") {
			t.Errorf("%s: spaces in %q", c, e.template)
		}
		uses(t, c, e.template)
	}
}

// Lengths, plurals, choices and lists, in the templates that have them.
func TestText(t *testing.T) {
	const cm = length.Centimetre
	up := func(name string, l length.Length) Param { return Length(name, l, length.Up) }
	for _, tc := range []struct {
		n    Note
		want string
	}{
		{New(BoundArea), "area"},
		{New("no-such-code", Name("a", "b")), "no-such-code"},
		{New(SeveralLengths), "the job takes {lengths} lengths from more than one bolt: ask for one dye lot and compare them before cutting"},
		{New(CostUnpriced, Count("count", 1)), "1 article has no price: the sums are without them"},
		{New(CostUnpriced, Count("count", 12)), "12 articles have no price: the sums are without them"},
		{New(PanelWidth, Name("panel", "{of} #"), Count("number", 1), Count("of", 3)), "{of} #, width 1 of 3"},
		{New(FoamPart, Name("item", "seat"), Count("parts", 3)), "seat, a third of it"},
		{New(JobOrders, up("order", 210*cm), Why("why", New(NothingCut))), "The job orders 2.1 m of this cloth: nothing is cut from it."},
		{New(PipingOtherCut, Name("cut", "bias-at"), Count("angle", 30), Name("wished", "across"), Count("wishedAngle", 45)),
			"it is cut on the bias at 30 degrees, and straight across is asked for"},
		{New(PatternTakes, Name("match", "1/3"), up("along", 64*cm), up("across", 0), Name("effect", "more"), up("more", 20*cm), up("start", 0), Count("loosened", 2)),
			"the 64 cm drop of 1/3 takes 20 cm more than plain cloth of this width; 2 panels cannot have their wish"},
		{New(ReliefPull, Name("obstacle", "A"), Percent("most", int64(62_999))), "A: no cut can keep the show side whole over this range of pull; no allowance helps. Pull the cloth first and cut it under tension, so that the most is 6.2 % or less"},
	} {
		if got := tc.n.Text(length.Metric); got != tc.want {
			t.Errorf("%s:\n got %s\nwant %s", tc.n.Code, got, tc.want)
		}
	}
	if got := New(LiningTaken, up("width", 137*cm)).Text(length.Imperial); !strings.Contains(got, "1 yd 1 ft 5 15/16 in wide") {
		t.Errorf("in yards: %s", got)
	}
}

// What an order is made up of, with each part there or not, is a sentence
// without a comma too many.
func TestOrderMadeUpOfReads(t *testing.T) {
	for _, how := range []string{"none", "all-in-hand", "in-hand", "start-known", "any-start", "panels"} {
		for bits := range 64 {
			if how == "none" && bits&3 == 0 {
				continue // nothing is cut: another note says so
			}
			at := func(bit int) length.Length { return length.Length(bits>>bit&1) * length.Metre }
			yes := func(bit int) string { return [...]string{"no", "yes"}[bits>>bit&1] }
			n := New(OrderMadeUpOf, Name("how", how), Length("panels", length.Metre, length.Up), Length("start", length.Metre, length.Up),
				Length("piping", at(0), length.Up), Length("covers", at(1), length.Up), Name("flaws", yes(2)), Name("shrinkage", yes(3)),
				Length("step", at(4), length.Nearest), Length("least", at(5), length.Nearest))
			text := n.Text(length.Metric)
			if strings.ContainsAny(text, "{}#") || strings.Contains(text, ", ,") || strings.Contains(text, ",,") || strings.Contains(text, " ,") ||
				strings.HasPrefix(text, ",") || strings.HasPrefix(text, ";") {
				t.Errorf("%s %b: %q", how, bits, text)
			}
			for bit, words := range []string{"for piping", "for covers of buttons", "flaws allowed for", "shrinkage allowed for", "sold by", "at least"} {
				if strings.Contains(text, words) != (bits>>bit&1 == 1) {
					t.Errorf("%s %b: %q in %q", how, bits, words, text)
				}
			}
		}
	}
}

// Notes say the same when code and parameters are alike; who says it, and how it
// is written, does not count.
func TestSame(t *testing.T) {
	one := New(Unstuffed, Name("piece", "A"), Names("pads", "x", "y"))
	for _, tc := range []struct {
		other Note
		same  bool
	}{
		{New(Unstuffed, Name("piece", "A"), Names("pads", "x", "y")), true},
		{New(Unstuffed, Name("piece", "A"), Names("pads", "x, y")), false}, // the same words
		{New(Unstuffed, Name("piece", "A"), Name("pads", "x, y")), false},
		{New(Unstuffed, Name("piece", "B"), Names("pads", "x", "y")), false},
		{New(Unstuffed, Name("piece", "A")), false},
		{New(Blades), false},
		{one.With(Name("piece", "B")), false},
		{one.With(Name("piece", "A")), true},
	} {
		if one.Same(tc.other) != tc.same || tc.other.Same(one) != tc.same {
			t.Errorf("%+v and %+v: want %v", one, tc.other, tc.same)
		}
	}
	said := one
	said.From = []string{"cloth A"}
	if !one.Same(said) || one.Params[0].Value != Word("A") {
		t.Error("who says it counts, or With changed its note")
	}
	a, b := New(JobOrders, Why("why", one)), New(JobOrders, Why("why", one.With(Name("piece", "B"))))
	if a.Same(b) || !a.Same(a) {
		t.Error("the reason within a note does not count")
	}
}

// Whatever the notes are: the gravest come first, those alike stay in their order,
// nothing grave is cut off, and what is cut off is counted.
func TestListed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		codes := rapid.SliceOf(rapid.SampledFrom(Codes())).Draw(t, "codes")
		most := rapid.IntRange(1, 12).Draw(t, "most")
		var in []Note
		for i, c := range codes {
			in = append(in, New(c, Count("n", i)))
		}
		out := Listed(in, most)
		if out == nil {
			t.Fatal("nil")
		}
		cut, grave := 0, 0
		if n := len(out); n > 0 && out[n-1].Code == LeftOut && out[n-1].Params[0].Name == "count" {
			cut = int(out[n-1].Params[0].Value.(Number))
			out = out[:n-1]
		}
		if len(out)+cut != len(in) {
			t.Fatalf("%d notes make %d and %d left out", len(in), len(out), cut)
		}
		for i := 1; i < len(out); i++ {
			a, b := out[i-1], out[i]
			if a.Severity > b.Severity || a.Severity == b.Severity && amount(a.Params[0].Value) > amount(b.Params[0].Value) {
				t.Fatalf("%s stands before %s", a.Code, b.Code)
			}
		}
		for _, n := range in {
			if n.Severity <= Order {
				grave++
				if !slices.ContainsFunc(out, n.Same) {
					t.Fatalf("%s is cut off", n.Code)
				}
			}
		}
		if len(out)+min(cut, 1) > max(most, grave+1) || cut > 0 && len(in) <= most {
			t.Fatalf("%d of %d notes, %d of them grave, at most %d", len(out), len(in), grave, most)
		}
	})
}

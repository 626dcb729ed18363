package service_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// asKind is a piece of testdata/workroom as a kind of ours: its options, its measures
// in centimetres by what they are the sum of on its tapes, and which of our panels
// stand for each of theirs. Several panels of ours for one of theirs are a border
// that is cut in other lengths: then all of it counts, end to end.
type asKind struct {
	kind     string
	count    int
	options  string
	measures string
	panels   string // "theirs = OURS; ..."
}

var asKinds = map[string]asKind{
	"wing-chair": {"wing-chair", 1, "cushion-shape t",
		"back-width inside back width; back-height inside back height - 4; back-edge 4; outside-width outside back width; outside-height outside back height; " +
			"arm-length inside arm width - 3; arm-edge 3; arm-rise inside arm height; outside-depth outside arm width; outside-arm outside arm height; " +
			"wing-width inside wing width - 4; wing-roll 4; wing-height inside wing height - 4; outer-wing-width outside wing width; outer-wing-height outside wing height; " +
			"cushion-width cushion back width; cushion-depth cushion depth; ear-width ear back; ear-depth ear side; cushion-thickness cushion foam thickness; " +
			"border-width front border width; seat-rise front border height; seat-width seat width; seat-depth seat depth; seat-edge lip upright; arm-thickness facing width; facing-height facing height",
		"inside back = IB; outside back = OB; inside arm = IAL IAR; outside arm = OAL OAR; inside wing = IWL IWR; outside wing = OWL OWR; cushion face = CT CU; " +
			"cushion front border + cushion side border = CF CSE; cushion zip strips, cut as one = CZ; front border = FB; lip = PF; facing = AF"},
	"club-armchair": {"club-chair", 1, "",
		"top-width inside back width over both edges - 12; back-edge 6; back-height inside back height - 6; back-width inside back width between the arms; " +
			"outside-width outside back width; outside-height outside back height; arm-length inside arm width - 3; arm-edge 3; arm-rise inside arm height; " +
			"outside-depth outside arm width; outside-arm outside arm height; cushion-width cushion width; cushion-depth cushion depth in the middle; cushion-thickness cushion foam thickness; " +
			"border-width front border width; seat-rise front border height; seat-width seat width; seat-depth seat depth; seat-edge lip upright; arm-thickness facing width; facing-height facing height",
		"inside back = IB; outside back = OB; inside arm = IAL IAR; outside arm = OAL OAR; cushion face = CT CU; cushion front border = CF; cushion side border = CS; " +
			"cushion back border, for the zip = CZ; front border = FB; lip = PF; facing = AF"},
	"three-seat-settee": {"three-seat-settee", 1, "cushion-shape t; back cushions",
		"top-width inside back width over both edges - 12; back-edge 6; back-height inside back height - 6; back-width inside back width between the arms; " +
			"outside-width outside back width; outside-height outside back height; arm-length inside arm width - 3; arm-edge 3; arm-rise inside arm height; " +
			"outside-depth outside arm width; outside-arm outside arm height; arm-thickness facing width; facing-height facing height; border-width front border width; seat-rise front border height; " +
			"seat-width seat width; seat-depth seat depth; seat-edge lip upright; ear-width ear back; ear-depth ear side; cushion-width seat cushion width; cushion-depth seat cushion depth; " +
			"cushion-thickness seat foam thickness",
		"inside back = IB; outside back = OB; inside arm = IAL IAR; outside arm = OAL OAR; facing = AF; front border = FB; lip = PF; middle seat cushion face = CT CU; " +
			"end seat cushion face = CLT CLU CRT CRU; middle seat cushion front border = CF; end seat cushion front border = CLF CRF; straight side border of a seat cushion = CS CLS CRS; " +
			"side border round the ear = CLSE CRSE; seat cushion zip strip = CZ CLZ CRZ; back cushion face = BT BU; back cushion top border = BF; back cushion side border = BS; back cushion zip strip = BZ"},
	"chesterfield-two-seater": {"chesterfield-settee", 1, "facing ply",
		"back-width inside back width; scroll-joint scroll joint; back-height inside height; arm-rise inside height; arm-length inside arm width - 4; arm-edge 4; arm-thickness facing width; " +
			"facing-height facing height; outside-width outside back width; outside-height outside back height; outside-depth outside arm width; outside-arm outside arm height; " +
			"border-width front border width; seat-rise front border height; seat-width seat width; seat-depth seat depth; seat-edge lip upright; cushion-width cushion width; cushion-depth cushion depth; " +
			"cushion-thickness cushion foam thickness",
		"inside back, buttoned = IB; inside arm, buttoned = IAL IAR; facing = AF; outside back = OB; outside arm = OAL OAR; front border = FB; lip = PF; cushion face = CT CU; " +
			"cushion front border = CF; cushion side border = CS; cushion zip strip = CZ"},
	"tub-chair": {"tub-chair", 1, "cushion fixed; made three; fronts round",
		"middle-curve inside back arc; arm-curve inside arm arc - 3; arm-edge 3; back-height inside height; outside-middle outside back arc; outside-height outside back height; " +
			"outside-curve outside arm arc; outside-arm outside arm height; seat-width seat width; seat-depth seat depth; border-width front border width; seat-rise front border height",
		"inside back = IB; inside arm = IAL IAR; outside back = OB; outside arm = OAL OAR; seat = SEAT; front border = FB"},
	"low-buttoned-chair": {"slipper-chair", 1, "border none; back buttoned",
		"seat-width seat width - 28; seat-rise 14; seat-depth seat depth - 14; back-width inside back width - 10; back-edge 5; back-height inside back height - 5; " +
			"outside-width outside back width; outside-height outside back height",
		"seat = SEAT; inside back, buttoned = IB; outside back = OB"},
	"low-chair-show-wood-arms": {"low-arm-chair", 1, "",
		"back-width inside back width; back-height inside back height - 3; back-edge 3; outside-width outside back width; outside-height outside back height; arm-pad-width arm pad width; arm-pad-length arm pad length; " +
			"seat-width seat width - 28; seat-rise 14; seat-depth seat depth - 14",
		"inside back, buttoned = IB; outside back = OB; arm pad = PAD; seat = SEAT"},
	"slipper-chair": {"slipper-chair", 1, "border none; flies no",
		"seat-width seat width - 28; seat-rise 14; seat-depth seat depth - 14; back-width inside back width - 10; back-edge 5; back-height inside back height - 5; " +
			"outside-width outside back width; outside-height outside back height",
		"seat = SEAT; inside back = IB; outside back = OB"},
	"drop-in-seats": {"drop-in-seat", 6, "", "seat-width seat width over the crown - 6; seat-depth seat depth over the crown - 6; pad-thickness 3", "drop-in seat = SEAT"},
	"stuff-over-dining-chair": {"stuff-over-chair", 1, "back pad; outside other",
		"seat-width seat width - 18; seat-depth seat depth - 18; pad-thickness 9; back-width inside back width - 6; back-height inside back height - 6; back-edge 3",
		"seat = SEAT; inside back = IB; outside back = OB"},
	"carver": {"carver", 1, "foot down",
		"seat-width seat width - 18; seat-depth seat depth - 9; pad-thickness 9; back-width inside back width - 6; back-height inside back height - 3; back-edge 3; " +
			"arm-pad-width arm pad width; arm-pad-length arm pad length",
		"seat = SEAT; inside back = IB; outside back = OB; arm pad = PAD"},
	"footstool":          {"footstool", 1, "border none", "seat-width top width; seat-depth top depth; top-rise drop", "top, pulled over = TOP"},
	"bordered-stool":     {"footstool", 1, "", "seat-width top width; seat-depth top depth; top-rise border height", "top = TOP; long border = FB BB; short border = SB"},
	"buttoned-headboard": {"headboard", 1, "back buttoned", "back-width face width; back-height face height; pad-thickness edge thickness", "face, buttoned = FRONT"},
	"window-seat-cushion": {"bay-cushion", 1, "",
		"seat-width recess width - 1; seat-depth recess depth - 1; corner-width corner taken off; corner-depth corner taken off; cushion-thickness foam thickness",
		"cushion face = CT CU; front border = CF; side border = CS; slant border = CK; zip strip = CZ"},
	"pouffe": {"pouffe", 1, "", "seat-width diameter; seat-depth diameter; top-rise height", "top = TOP; border, half = FB"},
	"bench-cushion": {"bench-cushion", 1, "", "seat-width cushion length; seat-depth cushion depth; cushion-thickness foam thickness",
		"cushion face = CT CU; front border = CF; end border = CS; zip strip = CZ"},
	"chaise": {"chaise", 1, "border none; long-back roll; head facings",
		"seat-width seat width - 14; seat-rise 14; seat-depth seat length - 14; back-width inside head width - 16; back-edge 8; back-height inside head height - 8; " +
			"outside-width outside head width; outside-height outside head height; long-length roll length; long-height inside long back height; roll-girth roll girth; " +
			"outside-depth outside long back length; long-outside outside long back height; head-front head facing width; facing-height head facing height; roll-front roll facing",
		"seat = SEAT; inside head = IB; outside head = OB; inside long back = LB; roll = LR; outside long back = OL; head facing = HF; roll facing = RF"},
}

// piece reads the mapping against the tapes of its file.
func (m asKind) piece(t *testing.T, l handList) furniture.Piece {
	p := furniture.Piece{Kind: m.kind, Count: m.count, Way: practice.Workroom, Options: map[string]string{}, Measures: map[string]length.Length{}}
	for o := range strings.SplitSeq(m.options, "; ") {
		if id, choice, ok := strings.Cut(o, " "); ok {
			p.Options[id] = choice
		}
	}
	for one := range strings.SplitSeq(m.measures, "; ") {
		id, of, _ := strings.Cut(one, " ")
		tape, less, _ := strings.Cut(of, " - ")
		sum := length.Length(0)
		if n, err := strconv.Atoi(tape); err == nil {
			sum = length.Length(n) * cm
		} else {
			got, ok := l.Tapes[tape]
			if !ok {
				t.Fatalf("there is no tape %q", tape)
			}
			sum, err = length.Parse(got.Length)
			if err != nil {
				t.Fatal(err)
			}
		}
		if n, err := strconv.Atoi(less); err == nil {
			sum -= length.Length(n) * cm
		}
		p.Measures[id] = sum
	}
	return p
}

var fullness = regexp.MustCompile(`(\d+) × 3.8 fullness of a diamond`)

// handSize is a panel of the hand's, without what its buttoning takes up: that is
// added to the cutting list's by its chart.
func handSize(t *testing.T, p handPanel) (across, along length.Length) {
	side := func(n string, how string) length.Length {
		l, err := length.Parse(n + " cm")
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range fullness.FindAllStringSubmatch(how, -1) {
			k, _ := strconv.Atoi(m[1])
			l -= length.Length(k) * 38 * length.Millimetre
		}
		return l
	}
	a, b, _ := strings.Cut(p.How, "; along: ")
	return side(p.AcrossCm.String(), a), side(p.AlongCm.String(), b)
}

// Bars of what a list may fall short of one made by hand, and go beyond it.
const (
	handShort = 3 * cm
	handLeast = .98
	handMost  = 1.10
)

// What a workroom cuts by hand from its tapes, our list has: no panel of the cover
// absent, none smaller by more than 3 cm either way, and the area of the cover from 2 %
// below the hand's to 10 % above.
func TestListsAreAWorkrooms(t *testing.T) {
	lists := handLists(t)
	if len(asKinds) < 12 || len(asKinds) != len(lists) {
		t.Fatalf("%d of %d lists are held against", len(asKinds), len(lists))
	}
	for name, m := range asKinds {
		t.Run(name, func(t *testing.T) { m.hold(t, lists[name]) })
	}
}

func (m asKind) hold(t *testing.T, l handList) {
	p := m.piece(t, l)
	if f := p.Faults(fault.Path{}); f.Len() > 0 {
		t.Fatalf("%+v", f.Faults())
	}
	ours, area := make(map[string]furniture.Panel), 0.0
	for _, q := range p.List().Panels {
		if ours[q.ID] = q; q.Cover == furniture.Top {
			area += q.Cut().Across.MM() * q.Cut().Along.MM() * float64(q.Count)
		}
	}
	theirs, hand := make(map[string]handPanel), 0.0
	for _, q := range l.Panels {
		if q.Cover == "lining" {
			continue
		}
		theirs[q.Name] = q
		if q.Cover == "top" {
			across, along := handSize(t, q)
			hand += across.MM() * along.MM() * float64(q.Count)
		}
	}
	for one := range strings.SplitSeq(m.panels, "; ") {
		names, ids, _ := strings.Cut(one, " = ")
		var theirPanels []handPanel
		for n := range strings.SplitSeq(names, " + ") {
			q, there := theirs[n]
			if !there {
				t.Fatalf("the hand has no %q", n)
			}
			delete(theirs, n)
			theirPanels = append(theirPanels, q)
		}
		var own []furniture.Panel
		for _, id := range strings.Fields(ids) {
			if _, there := ours[id]; !there {
				t.Errorf("%s (%s) is absent", names, id)
				return
			}
			own = append(own, ours[id])
		}
		stands(t, theirPanels, own)
	}
	for n := range theirs {
		t.Errorf("nothing stands for %s", n)
	}
	share := area / hand
	t.Logf("%.2f m² of cover, by hand %.2f: %.1f %%", area/1e6, hand/1e6, 100*share)
	if share < handLeast || share > handMost {
		t.Errorf("%.2f m² of cover, by hand %.2f", area/1e6, hand/1e6)
	}
}

// stands holds panels of ours against those of the hand for which they stand. One
// that the hand cuts whole and we in strips counts with its strips side by side; a
// border that is parted elsewhere counts end to end.
func stands(t *testing.T, theirs []handPanel, own []furniture.Panel) {
	n, run := 0, length.Length(0)
	for _, q := range own {
		n += q.Count
		run += q.Cut().Across * length.Length(q.Count)
	}
	wanted, handRun := 0, length.Length(0)
	for _, q := range theirs {
		across, along := handSize(t, q)
		wanted += q.Count
		handRun += across * length.Length(q.Count)
		for _, o := range own {
			got := o.Cut()
			if len(own) == 1 && o.Count > q.Count && len(theirs) == 1 {
				got.Along *= length.Length(o.Count / q.Count)
			}
			if got.Along < along-handShort || len(theirs) == 1 && got.Across < across-handShort {
				t.Errorf("%s is %v, by hand %s is %v × %v (%s)", o.ID, got, q.Name, across, along, o.How)
			}
		}
	}
	if n < wanted || len(theirs) > 1 && run < handRun-handShort {
		t.Errorf("%d of %s, %v end to end; by hand %d, %v", n, own[0].ID, run, wanted, handRun)
	}
}

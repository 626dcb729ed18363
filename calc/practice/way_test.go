package practice

import "testing"

// A row has the figure of each way that it names, and its own for the others.
func TestRowsByWay(t *testing.T) {
	kept := table
	defer func() { table = kept }()
	hold := Subject("test").length("test-hold", "a hold", 4*cm, 0, 10*cm, Common).by(Workroom, 6*cm, Memory)
	same := Subject("test").length("test-same", "the same in both ways", 1*cm, 0, 10*cm, Common)
	for _, c := range []struct {
		way    Way
		want   int64
		source string
	}{{Close, int64(4 * cm), Common}, {Workroom, int64(6 * cm), Memory}} {
		set := For(c.way)
		if got := set.Length(hold); int64(got) != c.want || set.Source(*hold.Setting) != c.source || set.Way() != c.way {
			t.Errorf("way %d: %v by %q", c.way, got, set.Source(*hold.Setting))
		}
		if set.Length(same) != cm {
			t.Errorf("way %d changes a row that does not name it", c.way)
		}
		if own := set.With(hold.Give(1)); own.Length(hold) != 1 || own.Source(*hold.Setting) != OwnFigure || own.With(same.Give(2)).Length(hold) != 1 {
			t.Errorf("way %d: a given figure does not stand before the way's", c.way)
		}
	}
	if For(Close) != Defaults() {
		t.Error("the set of the close way is not that of the defaults")
	}
}

// As keeps what was given and the account, whatever the way.
func TestAsKeepsWhatIsGiven(t *testing.T) {
	set, used := Defaults().With(CoverSeam.Give(2 * cm)).Noted()
	got := set.As(Workroom)
	if got.Way() != Workroom || got.Length(CoverSeam) != 2*cm || got.Length(CoverUnder) == set.Length(CoverUnder) {
		t.Errorf("seam %v, turn-under %v", got.Length(CoverSeam), got.Length(CoverUnder))
	}
	got.Length(BackTack)
	if !used.Read(*BackTack.Setting) {
		t.Error("what is read of the other way is not noted")
	}
}

package furniture

import "github.com/bridletie/bridletie/calc/length"

// Stack is what lies over one another at one place of the piece, from the outside
// inwards: the layers that a fire check asks about. Of what they are made cannot
// be told from measures.
type Stack struct {
	Where  string // seat, back, arm or outside
	Layers []StackLayer
}

// StackLayer is one layer of a Stack. A material that lies at several places has
// one id.
type StackLayer struct {
	ID, Name  string
	Role      string        // in the words of the fire rules
	Thickness length.Length // 0: not known
}

// What a fire check asks about a piece.
const (
	seating  = "seating"
	bedBoard = "headboard"
	seatPad  = "seat-pad"
)

// Stacks are the layers at each place: the seat, the back and the arms where they
// are padded, and the outside.
func (l List) Stacks() []Stack {
	var out []Stack
	for _, at := range []struct {
		place Place
		where string
	}{{SeatPlace, "seat"}, {BackPlace, "back"}, {ArmPlace, "arm"}} {
		if layers := l.padded(at.place); len(layers) > 0 {
			out = append(out, Stack{at.where, layers})
		}
	}
	if layers := l.outer(); len(layers) > 0 {
		out = append(out, Stack{"outside", layers})
	}
	return out
}

// padded are the layers over the fillings of a place.
func (l List) padded(place Place) []StackLayer {
	var fillings []StackLayer
	deck, tight := false, false
	for _, f := range l.Fillings {
		if f.Place == place {
			fillings = append(fillings, StackLayer{ID: f.ID, Name: f.Name, Role: "filling", Thickness: f.Thickness})
			deck = deck || f.Loose && place == SeatPlace && len(l.Frames) > 0
			tight = tight || !f.Loose
		}
	}
	if len(fillings) == 0 {
		return nil
	}
	layers := []StackLayer{{ID: "COVER", Name: "top cover", Role: "cover"}}
	if tight && l.framed(place) {
		layers = append(layers, StackLayer{ID: "CALICO", Name: "calico beneath the cover", Role: "lining"})
	}
	layers = append(layers, StackLayer{ID: "WADDING", Name: "wadding beneath the cover", Role: "wadding"})
	layers = append(layers, fillings...)
	if deck && l.has(true, Lining) {
		layers = append(layers, StackLayer{ID: "PLATFORM", Name: "platform cloth beneath the cushions", Role: "hidden-cover"})
	}
	if deck {
		layers = append(layers, StackLayer{ID: "DECK", Name: "deck beneath the cushions", Role: "decking"})
	}
	return layers
}

// outer are the layers that lie over no filling.
func (l List) outer() []StackLayer {
	var layers []StackLayer
	if l.has(false, Outside) {
		layers = append(layers, StackLayer{ID: "OUTSIDE", Name: "cloth of the outside panels", Role: "cover"})
	}
	if l.has(false, Lining) {
		layers = append(layers, StackLayer{ID: "LINING", Name: "lining of flies and skirt", Role: "lining"})
	}
	if len(l.Frames) > 0 {
		layers = append(layers, StackLayer{ID: "BOTTOM", Name: "bottoming cloth", Role: "hidden-cover"})
	}
	return layers
}

// has reports whether a panel of that cover is on the list.
func (l List) has(hidden bool, cover Cover) bool {
	for _, p := range l.Panels {
		if p.Cover == cover && p.Hidden == hidden {
			return true
		}
	}
	return false
}

// framed reports whether a frame is covered at that place.
func (l List) framed(place Place) bool {
	for _, f := range l.Frames {
		if f.Place == place {
			return true
		}
	}
	return false
}

// LooseCushions reports whether any cushion lies by itself.
func (l List) LooseCushions() bool {
	for _, f := range l.Fillings {
		if f.Loose {
			return true
		}
	}
	return false
}

// FireItem is what a fire check calls the kind.
func (k Kind) FireItem() string {
	switch k.ID {
	case "headboard":
		return bedBoard
	case "bench-cushion":
		return seatPad
	}
	return seating
}

package fire

import (
	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/length"
)

// Job is what is asked: a piece, where and how it is supplied, its layers and
// the papers that are held. A field with its zero value is not known, which is
// never taken for an answer.
type Job struct {
	AsOf        calendar.Day // the day of the supply; the rules in force on it are used
	Place       string       // where it is supplied, of Places
	Destination string       // where it is sent, when that is another place; "" when it stays

	Use         string // vocabulary "use"
	Platform    string
	Item        string
	Transaction string
	Occupancy   string
	Hazard      string
	Made        calendar.Span // when the piece was made
	Long, Wide  length.Length

	FillingAdded  Answer
	LooseCushions Answer
	SmoothSurface Answer
	SeatMeetsBack Answer
	Prescribed    Answer

	PermanentLabel Answer
	DisplayLabel   Answer
	FederalLabel   Answer
	ChemicalLabel  Answer

	Layers []Layer // from the outside inwards
	Papers []Paper
}

// Answer is yes, no, or "" for not known.
type Answer string

// Layer is one material of the stack.
type Layer struct {
	ID        string
	Role      string
	Material  string
	Form      string
	Supplier  string // who supplies the material
	Coating   string
	Fibres    []Fibre
	Thickness length.Length // 0: not known

	Treated            Answer // with a flame-retardant finish
	CombustionModified Answer

	FlameRetardant     Answer // added to the material
	FlameRetardantKind string
	FlameRetardantPPM  *int64 // nil where it is not known
}

// Fibre is a share by weight of one fibre, in millionths.
type Fibre struct {
	Name  string
	Share int64
}

// Whole is all of a weight, in millionths.
const Whole = 1_000_000

// Paper is a document that is said to be held.
type Paper struct {
	Kind      string
	Layer     string // the layer that it is about; "" for the piece
	Test      string // of a report: what was done
	Result    string // pass, fail, or ""
	Date      calendar.Day
	Reference string
	Composite []string // the ids of the layers that were tested together with the layer
	Soaked    Answer   // tested after the water soak
	Specimens []Specimen
}

// Specimen is what one specimen of a smoulder test did.
type Specimen struct {
	Char    length.Length // vertical char
	Minutes int           // until it was out
	Flamed  bool
}

// The roles that a layer may have.
const (
	roleCover      = "cover"
	roleHidden     = "hidden-cover"
	roleLoose      = "loose-cover"
	roleStretch    = "stretch-cover"
	roleInterliner = "interliner"
	roleLining     = "lining"
	roleTicking    = "ticking"
	roleWadding    = "wadding"
	roleFilling    = "filling"
	roleDecking    = "decking"
	roleTrim       = "trim"
	piece          = "piece" // a rule about the whole, not about a layer
)

// fills reports whether the layer fills, rather than covers or lines.
func (l *Layer) fills() bool {
	return l.Role == roleFilling || l.Role == roleWadding || l.Role == roleDecking
}

// vocabulary are the words that a field may have, besides "" for not known.
var vocabulary = map[string][]string{
	"use":         {"home", "let-home", "contract"},
	"platform":    {"building", "caravan", "trailer", "road-vehicle", "boat", "ship", "aircraft"},
	"item":        {"seating", "sofa-bed", "bed", "headboard", "mattress", "bed-base", "pillow", "scatter-cushion", "seat-pad", "floor-cushion", "cover-alone", "garden-seating", "outdoor-only", "exercise-only", "child-mattress", "baby-article", "other-baby-article", "bedding", "sleeping-bag", "curtain", "carpet"},
	"transaction": {"new", "imported", "reupholstered-for-sale", "reupholstered-for-owner", "second-hand-sale", "hire", "own-use"},
	"occupancy":   {"dwelling", "office", "hotel", "restaurant", "hospital", "nursing-home", "board-and-care", "detention", "dormitory", "day-care", "assembly", "other"},
	"hazard":      {"low", "medium", "high", "very-high"},
	"role":        {roleCover, roleHidden, roleLoose, roleStretch, roleInterliner, roleLining, roleTicking, roleWadding, roleFilling, roleDecking, roleTrim},
	"material":    {"polyurethane-foam", "latex-foam", "polyester-fibre", "cotton-felt", "hair", "feather-down", "coir", "wool-fibre", "kapok", "straw", "other-filling", "woven-cloth", "pile-cloth", "knitted-cloth", "leather", "coated-cloth", "modacrylic-cloth", "other-cloth", "other"},
	"form":        {"slab", "moulded", "crumb", "loose", "sheet"},
	"supplier":    {"workroom", "customer", "retained"},
	"coating":     {"none", "polyurethane", "pvc", "other"},
	"fr-kind":     {"none", "halogenated", "organophosphorus", "organonitrogen", "nanoscale", "antimony-trioxide", "other"},
	"paper":       {"report", "supplier-statement", "fibre-statement", "flame-retardant-statement", "treatment-record", "dating-note", "owner-statement", "client-specification", "product-file", "licence", "work-order", "prescription", "invoice", "other"},
	"result":      {"pass", "fail"},
	"answer":      {"yes", "no"},
}

// Words are the words of a field, in their order; nil when there is no such
// field.
func Words(field string) []string { return append([]string(nil), vocabulary[field]...) }

// namedFibres are those that count towards three quarters by weight (Dáil
// written answer of 20 September 1995; SATRA, Interliners and hidden fabrics in
// furniture).
var namedFibres = map[string]bool{"cotton": true, "flax": true, "viscose": true, "modal": true, "silk": true, "wool": true}

// unnamedFibres are kin of the named, which the sources read neither count nor
// leave out: they make the share uncertain.
var unnamedFibres = map[string]bool{"hemp": true, "jute": true, "ramie": true, "lyocell": true, "cupro": true, "mohair": true, "other-natural": true}

// otherFibres never count.
var otherFibres = map[string]bool{"polyester": true, "acrylic": true, "modacrylic": true, "nylon": true, "polypropylene": true, "acetate": true, "aramid": true, "glass": true, "other": true}

// KnownFibre reports whether the name is one of those that a composition may
// have.
func KnownFibre(name string) bool {
	return namedFibres[name] || unnamedFibres[name] || otherFibres[name]
}

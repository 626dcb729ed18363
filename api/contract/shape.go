package contract

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/strictjson"
)

// shape is a compiled schema that quickly checks whether a document is valid. It does not
// find the faults: a document that it rejects goes to the full validator. It must never
// accept a document that the validator rejects.
type shape struct {
	kinds [6]bool   // kinds of JSON value accepted
	other [6]*shape // shape to use instead, by kind: the branches of oneOf

	least, most int // bounds on characters, entries or members
	words       map[string]bool
	formats     []func(string) bool

	decimals bool
	min, max float64

	items    *shape
	members  map[string]*shape
	required []string
	rest     *shape // shape of additional members; nil when there may be none
}

// errShape reports that a schema uses a keyword that shapes do not support. Its documents
// all go to the validator.
var errShape = errors.New("the schema cannot be made a shape")

// shapes compiles schemas, each once, because a schema may refer to itself.
type shapes struct {
	formats map[string]func(string) bool
	made    map[*openapi3.Schema]*shape
}

// shapeOf compiles a schema; it returns nil for one that is not supported. Each operation
// has its own shapes, because the incomplete parts of a failed compilation accept too
// much.
func shapeOf(ref *openapi3.SchemaRef) *shape {
	m := &shapes{formats: formats.Checks(), made: make(map[*openapi3.Schema]*shape)}
	made, err := m.of(ref)
	if err != nil {
		return nil
	}
	return made
}

func (m *shapes) of(ref *openapi3.SchemaRef) (*shape, error) {
	s := ref.Value
	if known, ok := m.made[s]; ok {
		return known, nil
	}
	made := &shape{most: math.MaxInt, min: math.Inf(-1), max: math.Inf(1)}
	m.made[s] = made
	return made, m.fill(made, s)
}

// plainSchema reports whether a schema uses only keywords that shapes support.
func plainSchema(s *openapi3.Schema) bool {
	return s.Not == nil && len(s.AnyOf) == 0 && !s.Nullable && s.MultipleOf == nil && !s.UniqueItems &&
		s.Discriminator == nil && !s.ExclusiveMin.IsSet() && !s.ExclusiveMax.IsSet() && s.Const == nil
}

// described reports whether a schema only adds a description to another.
func described(s *openapi3.Schema) bool {
	return len(s.AllOf) == 1 && s.Type == nil && len(s.OneOf) == 0 && len(s.Enum) == 0 && len(s.Properties) == 0 && len(s.Required) == 0 &&
		s.Min == nil && s.Max == nil && s.MaxLength == nil && s.MaxItems == nil && s.Format == "" && s.Pattern == ""
}

func (m *shapes) fill(made *shape, s *openapi3.Schema) error {
	switch {
	case !plainSchema(s):
		return fmt.Errorf("%w: a keyword that it does not know", errShape)
	case described(s):
		inner, err := m.of(s.AllOf[0])
		if err != nil {
			return err
		}
		for kind := range made.other {
			made.other[kind], made.kinds[kind] = inner, true
		}
		return nil
	case len(s.OneOf) > 0 && s.Type == nil && len(s.AllOf) == 0:
		return m.fillBranches(made, s)
	case len(s.AllOf) > 0 || len(s.OneOf) > 0 || s.Type == nil || len(*s.Type) != 1:
		return fmt.Errorf("%w: several types", errShape)
	}
	return m.fillType(made, s)
}

// fillBranches sets the branch of oneOf for each kind of value.
func (m *shapes) fillBranches(made *shape, s *openapi3.Schema) error {
	for _, ref := range s.OneOf {
		inner, err := m.of(ref)
		if err != nil {
			return err
		}
		for kind := range made.other {
			if !ref.Value.Type.Permits(typeOf(strictjson.Kind(kind))) {
				continue
			}
			if made.kinds[kind] || ref.Value.Type == nil {
				return fmt.Errorf("%w: two branches for one kind", errShape)
			}
			made.other[kind], made.kinds[kind] = inner, true
		}
	}
	return nil
}

func (m *shapes) fillType(made *shape, s *openapi3.Schema) error {
	for _, word := range s.Enum {
		text, ok := word.(string)
		if !ok || !s.Type.Is(openapi3.TypeString) {
			return fmt.Errorf("%w: an enum of other than strings", errShape)
		}
		if made.words == nil {
			made.words = make(map[string]bool)
		}
		made.words[text] = true
	}
	switch (*s.Type)[0] {
	case openapi3.TypeBoolean:
		made.kinds[strictjson.Bool] = true
	case openapi3.TypeInteger, openapi3.TypeNumber:
		made.kinds[strictjson.Number] = true
		made.decimals = s.Type.Is(openapi3.TypeNumber)
		if s.Format != "" && s.Format != "double" {
			return fmt.Errorf("%w: a format of numbers", errShape)
		}
		if s.Min != nil {
			made.min = *s.Min
		}
		if s.Max != nil {
			made.max = *s.Max
		}
	case openapi3.TypeString:
		made.kinds[strictjson.String] = true
		return m.fillString(made, s)
	case openapi3.TypeArray:
		made.kinds[strictjson.Array] = true
		made.least, made.most = int(min(s.MinItems, math.MaxInt)), boundOf(s.MaxItems) //nolint:gosec // bounded
		if s.Items == nil {
			return fmt.Errorf("%w: a list of anything", errShape)
		}
		var err error
		made.items, err = m.of(s.Items)
		return err
	case openapi3.TypeObject:
		made.kinds[strictjson.Object] = true
		return m.fillObject(made, s)
	}
	return nil
}

// boundOf returns an upper bound, or the largest int without one.
func boundOf(most *uint64) int {
	if most == nil {
		return math.MaxInt
	}
	return int(min(*most, math.MaxInt)) //nolint:gosec // bounded
}

func (m *shapes) fillString(made *shape, s *openapi3.Schema) error {
	made.least, made.most = int(min(s.MinLength, math.MaxInt)), boundOf(s.MaxLength) //nolint:gosec // bounded
	if s.Format != "" {
		f, ok := m.formats[s.Format]
		if !ok {
			return fmt.Errorf("%w: the format %s", errShape, s.Format)
		}
		made.formats = append(made.formats, f)
	}
	if s.Pattern != "" {
		p, err := regexp.Compile(s.Pattern)
		if err != nil {
			return fmt.Errorf("%w: the pattern %s", errShape, s.Pattern)
		}
		made.formats = append(made.formats, p.MatchString)
	}
	return nil
}

func (m *shapes) fillObject(made *shape, s *openapi3.Schema) error {
	made.least, made.most = int(min(s.MinProps, math.MaxInt)), boundOf(s.MaxProps) //nolint:gosec // bounded
	made.required = s.Required
	made.members = make(map[string]*shape, len(s.Properties))
	var err error
	for name, ref := range s.Properties {
		if ref.Value.ReadOnly || ref.Value.WriteOnly {
			return fmt.Errorf("%w: a member for one way only", errShape)
		}
		if made.members[name], err = m.of(ref); err != nil {
			return err
		}
	}
	switch more := s.AdditionalProperties; {
	case more.Schema != nil:
		made.rest, err = m.of(more.Schema)
	case more.Has == nil || *more.Has:
		return fmt.Errorf("%w: an object that is not closed", errShape)
	}
	return err
}

// holds reports whether the value is valid.
func (s *shape) holds(v *strictjson.Value) bool {
	if !s.kinds[v.Kind] {
		return false
	}
	if other := s.other[v.Kind]; other != nil {
		return other.holds(v)
	}
	switch v.Kind {
	case strictjson.Number:
		return s.holdsNumber(v.Text)
	case strictjson.String:
		return s.holdsString(v.Text)
	case strictjson.Array:
		if len(v.Items) < s.least || len(v.Items) > s.most {
			return false
		}
		for i := range v.Items {
			if !s.items.holds(&v.Items[i]) {
				return false
			}
		}
	case strictjson.Object:
		return s.holdsObject(v)
	}
	return true
}

// holdsNumber reads a number as plainNumber does, and rejects any number that it cannot be
// sure of.
func (s *shape) holdsNumber(literal string) bool {
	if strings.ContainsAny(literal, "eE") {
		return false
	}
	if _, fraction, point := strings.Cut(literal, "."); point {
		f, err := strconv.ParseFloat(literal, 64)
		return s.decimals && len(fraction) <= maxDecimals && err == nil && f >= s.min && f <= s.max
	}
	n, err := strconv.ParseInt(literal, 10, 64)
	return err == nil && float64(n) >= s.min && float64(n) <= s.max
}

func (s *shape) holdsString(text string) bool {
	if n := len(text); n < s.least || n > s.most { // there are never more characters than bytes
		if n = utf8.RuneCountInString(text); n < s.least || n > s.most {
			return false
		}
	} else if s.least > 1 && utf8.RuneCountInString(text) < s.least {
		return false
	}
	if s.words != nil && !s.words[text] {
		return false
	}
	for _, ok := range s.formats {
		if !ok(text) {
			return false
		}
	}
	return true
}

func (s *shape) holdsObject(v *strictjson.Value) bool {
	if len(v.Members) < s.least || len(v.Members) > s.most {
		return false
	}
	for i := range v.Members {
		part := s.members[v.Members[i].Name]
		if part == nil {
			part = s.rest
		}
		if part == nil || !part.holds(&v.Members[i].Value) {
			return false
		}
	}
	for _, name := range s.required {
		if v.Get(name) == nil {
			return false
		}
	}
	return true
}

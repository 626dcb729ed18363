package contract

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// inexact is the literal of a number not written as its field requires: as a plain
// integer, or as millimetres with few decimals. The validator does not know this type, and
// so rejects it everywhere.
type inexact string

// plain converts a value for the validator. schema is nil for a field that the contract
// does not have.
func plain(v *strictjson.Value, schema *openapi3.Schema) any {
	if schema != nil {
		schema = branch(schema, v.Kind)
	}
	switch v.Kind {
	case strictjson.Bool:
		return v.Text == "true"
	case strictjson.Number:
		return plainNumber(v.Text, schema != nil && takesDecimals(schema))
	case strictjson.String:
		return v.Text
	case strictjson.Array:
		items := make([]any, len(v.Items))
		for i := range v.Items {
			items[i] = plain(&v.Items[i], itemsOf(schema))
		}
		return items
	case strictjson.Object:
		members := make(map[string]any, len(v.Members))
		for i := range v.Members {
			members[v.Members[i].Name] = plain(&v.Members[i].Value, memberOf(schema, v.Members[i].Name))
		}
		return members
	}
	return nil
}

// itemsOf returns the schema of the entries of a list; nil when there is none.
func itemsOf(schema *openapi3.Schema) *openapi3.Schema {
	if schema == nil || schema.Items == nil {
		return nil
	}
	return schema.Items.Value
}

// memberOf returns the schema of a member of an object, possibly that of additional
// properties; nil when there is none.
func memberOf(schema *openapi3.Schema, name string) *openapi3.Schema {
	switch {
	case schema == nil:
		return nil
	case schema.Properties[name] != nil:
		return schema.Properties[name].Value
	case schema.AdditionalProperties.Schema != nil:
		return schema.AdditionalProperties.Schema.Value
	}
	return nil
}

// takesDecimals reports whether a value is a number that may have a fraction.
func takesDecimals(schema *openapi3.Schema) bool {
	return schema.Type != nil && schema.Type.Is(openapi3.TypeNumber) ||
		slices.ContainsFunc(schema.AllOf, func(part *openapi3.SchemaRef) bool { return takesDecimals(part.Value) })
}

// maxDecimals is the limit on the decimals of a millimetre, which then resolve a
// nanometre.
const maxDecimals = 6

// plainNumber converts a number literal. A number too large for float64 becomes a value
// beyond every limit.
func plainNumber(literal string, decimals bool) any {
	if _, fraction, point := strings.Cut(literal, "."); point || strings.ContainsAny(literal, "eE") {
		if !decimals || len(fraction) > maxDecimals || strings.ContainsAny(literal, "eE") {
			return inexact(literal)
		}
		if f, err := strconv.ParseFloat(literal, 64); err == nil {
			return f
		}
	}
	n, err := strconv.ParseInt(literal, 10, 64)
	switch {
	case err == nil:
		return n
	case strings.HasPrefix(literal, "-"):
		return -math.MaxFloat64
	}
	return math.MaxFloat64
}

// schemaFaults returns the faults of doc against the schema. The validator's own error
// texts are not used: each contains the schema and the value, and many repeat them.
func (c *Contract) schemaFaults(doc *strictjson.Value, schema *openapi3.Schema) []fault.Fault {
	err := schema.VisitJSON(plain(doc, schema),
		openapi3.MultiErrors(),
		openapi3.EnableFormatValidation(),
		openapi3.DisableSchemaErrorDetails(),
		openapi3.WithStringFormatValidators(c.formats),
		openapi3.SetSchemaErrorMessageCustomizer(func(*openapi3.SchemaError) string { return "invalid" }))
	w := schemaWalk{doc: doc, seen: make(map[string]bool)}
	w.walk(err)
	return w.list.Faults()
}

// schemaWalk converts the validator's tree of errors to faults.
type schemaWalk struct {
	doc  *strictjson.Value
	list fault.List
	seen map[string]bool // by pointer and code
}

func (w *schemaWalk) walk(err error) {
	switch e := err.(type) {
	case nil:
	case openapi3.MultiError:
		for _, one := range e {
			w.walk(one)
		}
	case *openapi3.SchemaError:
		w.one(e)
	default:
		w.walk(errors.Unwrap(err))
	}
}

// add records a fault, once for each place and code.
func (w *schemaWalk) add(tokens []string, code fault.Code, given, detail, try string) {
	at := path(tokens)
	if n := len(tokens); n > 0 && len(tokens[n-1]) > fault.MaxGiven {
		at = path(tokens[:n-1]) // do not repeat a very long name
	}
	key := at.Pointer() + "\x00" + string(code) + "\x00" + fault.Clip(given)
	if !w.seen[key] {
		w.seen[key] = true
		w.list.Add(at, code, given, detail, try)
	}
}

// path returns the pointer of unescaped tokens.
func path(tokens []string) fault.Path {
	var at fault.Path
	for _, token := range tokens {
		at = at.Field(token)
	}
	return at
}

// one converts an error of the validator to a code of the closed list.
func (w *schemaWalk) one(e *openapi3.SchemaError) {
	tokens := e.JSONPointer()
	v, _ := w.doc.At(tokens)
	schema := e.Schema
	switch e.SchemaField {
	case "allOf":
		w.walk(errors.Unwrap(e.Origin))
	case "oneOf":
		w.oneOf(e, tokens, v)
	case "properties":
		w.unknown(schema, tokens, v)
	case "required":
		w.add(tokens, fault.Missing, "", "this field is required", "give it")
	case "enum":
		w.enum(schema, tokens, v)
	case "format", "minLength", "maxLength", "pattern":
		code, detail, try := formats.Fault(schema.Format, v.Text)
		w.add(tokens, code, v.Text, detail, try)
	case "minimum":
		w.add(tokens, fault.TooSmall, v.Text, "the number is too small", "at least "+number(schema.Min))
	case "maximum":
		w.add(tokens, fault.TooLarge, v.Text, "the number is too large", "at most "+number(schema.Max))
	case "minItems":
		w.add(tokens, fault.TooFew, "", "the list is too short", "at least "+strconv.FormatUint(schema.MinItems, 10))
	case "maxProperties":
		w.add(tokens, fault.TooMany, "", "the object has "+strconv.Itoa(len(v.Members))+" members", "at most "+strconv.FormatUint(*schema.MaxProps, 10))
	case "maxItems":
		w.add(tokens, fault.TooMany, "", "the list has "+strconv.Itoa(len(v.Items))+" entries", "at most "+strconv.FormatUint(*schema.MaxItems, 10))
	default: // type, nullable
		w.wrongType(schema, tokens, v)
	}
}

func number(limit *float64) string {
	if limit == nil {
		return "the limit in /openapi.yaml"
	}
	return strconv.FormatFloat(*limit, 'f', -1, 64)
}

// oneOf reports the faults within the branch that takes the value's kind. Each kind has at
// most one branch in this contract.
func (w *schemaWalk) oneOf(e *openapi3.SchemaError, tokens []string, v *strictjson.Value) {
	var branches openapi3.MultiError
	if inner := errors.Unwrap(e.Origin); inner != nil {
		branches, _ = errors.Unwrap(inner).(openapi3.MultiError)
	}
	for i, ref := range e.Schema.OneOf {
		if i < len(branches) && ref.Value.Type.Permits(typeOf(v.Kind)) {
			w.walk(branches[i])
			return
		}
	}
	for _, ref := range e.Schema.OneOf {
		if ref.Value.Format != "" {
			w.wrongType(ref.Value, tokens, v)
			return
		}
	}
	w.wrongType(e.Schema, tokens, v)
}

// typeOf returns the schema type for a kind of value.
func typeOf(k strictjson.Kind) string {
	switch k {
	case strictjson.Bool:
		return openapi3.TypeBoolean
	case strictjson.Number:
		return openapi3.TypeNumber
	case strictjson.String:
		return openapi3.TypeString
	case strictjson.Array:
		return openapi3.TypeArray
	case strictjson.Object:
		return openapi3.TypeObject
	}
	return openapi3.TypeNull
}

// unknown reports every member of the object that is not in the schema, with a pointer to
// the member.
func (w *schemaWalk) unknown(schema *openapi3.Schema, tokens []string, v *strictjson.Value) {
	here := path(tokens).Pointer() + "\x00unknown"
	if w.seen[here] {
		return
	}
	w.seen[here] = true
	for _, m := range v.Members {
		if _, known := schema.Properties[m.Name]; known {
			continue
		}
		try := "leave it out"
		for name := range schema.Properties {
			if strings.EqualFold(name, m.Name) {
				try = "write it " + name
			}
		}
		w.add(append(tokens[:len(tokens):len(tokens)], m.Name), fault.UnknownField, m.Name, "there is no such field", try)
	}
}

// maxTry is the contract's limit on the length of a fault's suggestion.
const maxTry = 400

// enum reports a string that is not one of the listed values, or a value that is not a
// string.
func (w *schemaWalk) enum(schema *openapi3.Schema, tokens []string, v *strictjson.Value) {
	if v.Kind != strictjson.String {
		w.wrongType(schema, tokens, v)
		return
	}
	words := make([]string, 0, len(schema.Enum))
	for _, value := range schema.Enum {
		if s, ok := value.(string); ok {
			words = append(words, s)
		}
	}
	try := "one of " + strings.Join(words, ", ")
	if len(try) > maxTry {
		try = "one of the " + strconv.Itoa(len(words)) + " words that /openapi.yaml lists for this field"
	}
	w.add(tokens, fault.NotOneOf, v.Text, "this is not one of the words for this field", try)
}

// wrongType reports a value of the wrong kind. A number in place of a length or a
// percentage lacks its unit.
func (w *schemaWalk) wrongType(schema *openapi3.Schema, tokens []string, v *strictjson.Value) {
	given := ""
	if v.Kind == strictjson.Number || v.Kind == strictjson.Bool {
		given = v.Text
	}
	if v.Kind == strictjson.Number {
		switch schema.Format {
		case "length", "share", "drop":
			code, detail, try := formats.Fault(schema.Format, v.Text)
			w.add(tokens, code, given, detail, try)
			return
		}
	}
	want := "what the contract says"
	for _, k := range []strictjson.Kind{strictjson.Bool, strictjson.String, strictjson.Array, strictjson.Object} {
		if schema.Type != nil && schema.Type.Is(typeOf(k)) {
			want = k.String()
		}
	}
	switch {
	case schema.Type != nil && schema.Type.Is(openapi3.TypeInteger):
		want = "a whole number, written plainly"
	case schema.Type != nil && schema.Type.Is(openapi3.TypeNumber):
		want = "a number, written plainly, with at most 6 decimals"
	case schema.Format == "length":
		want = `a length in quotes, such as "62 cm"`
	}
	w.add(tokens, fault.WrongType, given, "this is "+v.Kind.String(), want)
}

// errFormat reports that a string does not have its format. The detail for people is added
// later, with the fault.
var errFormat = errors.New("not of this format")

// stringFormats returns the string formats of the contract, for the validator.
func stringFormats() map[string]openapi3.StringFormatValidator {
	validators := make(map[string]openapi3.StringFormatValidator)
	for name, ok := range formats.Checks() {
		validators[name] = openapi3.NewCallbackValidator(func(s string) error {
			if ok(s) {
				return nil
			}
			return errFormat
		})
	}
	return validators
}

package contract

import (
	"encoding/json"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// decodeSound decodes the parts of doc without faults, so that they can be checked
// further. Parts left out have their zero value.
func decodeSound(doc *strictjson.Value, schema *openapi3.Schema, faults []fault.Fault, into any) error {
	s := sound{bad: make(map[string]bool, len(faults))}
	for _, f := range faults {
		if f.Code != fault.UnknownField { // left out in any case
			s.bad[f.Pointer()] = true
		}
	}
	if s.bad["#"] {
		return nil
	}
	part := s.part(doc, schema, fault.Path{})
	return json.Unmarshal(part.Canonical(), into)
}

// sound removes the parts with faults from a document.
type sound struct{ bad map[string]bool } // the faulty places, by pointer

// part returns v without the members that have a fault or are not in the schema. A faulty
// entry of a list is replaced by an empty value of its type, so that later entries keep
// their index.
func (s sound) part(v *strictjson.Value, schema *openapi3.Schema, at fault.Path) strictjson.Value {
	schema = branch(schema, v.Kind)
	part := *v
	part.Members, part.Items = nil, nil
	for i := range v.Members {
		m := &v.Members[i]
		here := at.Field(m.Name)
		if of := memberOf(schema, m.Name); of != nil && !s.bad[here.Pointer()] {
			part.Members = append(part.Members, strictjson.Member{Name: m.Name, Value: s.part(&m.Value, of, here)})
		}
	}
	for i := range v.Items {
		here := at.Index(i)
		if schema.Items == nil || s.bad[here.Pointer()] {
			part.Items = append(part.Items, emptyOf(schema.Items))
			continue
		}
		part.Items = append(part.Items, s.part(&v.Items[i], schema.Items.Value, here))
	}
	return part
}

// branch returns the branch of oneOf for that kind of value, or the schema that this one
// only describes, or the schema itself.
func branch(schema *openapi3.Schema, kind strictjson.Kind) *openapi3.Schema {
	if len(schema.AllOf) == 1 && schema.Type == nil {
		return branch(schema.AllOf[0].Value, kind)
	}
	for _, ref := range schema.OneOf {
		if ref.Value.Type.Permits(typeOf(kind)) {
			return ref.Value
		}
	}
	return schema
}

// emptyOf returns an empty value of the schema's type.
func emptyOf(ref *openapi3.SchemaRef) strictjson.Value {
	switch {
	case ref != nil && ref.Value.Type.Permits(openapi3.TypeString):
		return strictjson.Value{Kind: strictjson.String}
	case ref != nil && ref.Value.Type.Permits(openapi3.TypeObject):
		return strictjson.Value{Kind: strictjson.Object}
	}
	return strictjson.Value{Kind: strictjson.Null, Text: "null"}
}

package contract

import (
	"encoding/json"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// decodeSound decodes of doc what no fault points at, so that the rest can be
// judged too. What is left out has its zero value.
func decodeSound(doc *strictjson.Value, schema *openapi3.Schema, faults []fault.Fault, into any) error {
	s := sound{bad: make(map[string]bool, len(faults))}
	for _, f := range faults {
		if f.Code != fault.UnknownField { // left out anyhow
			s.bad[f.Pointer()] = true
		}
	}
	if s.bad["#"] {
		return nil
	}
	part := s.part(doc, schema, fault.Path{})
	return json.Unmarshal(part.Canonical(), into)
}

// sound leaves out what is not.
type sound struct{ bad map[string]bool } // by pointer

// part is v without the members that have a fault or are not in the schema. An
// entry of a list keeps its place as an empty value of its type.
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

// branch is the alternative of the schema that a value of that kind is of, what
// the schema adds a description to, or the schema itself.
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

// emptyOf is a value that decodes into the type of the schema.
func emptyOf(ref *openapi3.SchemaRef) strictjson.Value {
	switch {
	case ref != nil && ref.Value.Type.Permits(openapi3.TypeString):
		return strictjson.Value{Kind: strictjson.String}
	case ref != nil && ref.Value.Type.Permits(openapi3.TypeObject):
		return strictjson.Value{Kind: strictjson.Object}
	}
	return strictjson.Value{Kind: strictjson.Null, Text: "null"}
}

package contract

import (
	"slices"

	"github.com/bridletie/bridletie/api/strictjson"
)

// Bodies are the operations that read JSON, by method and path.
func (c *Contract) Bodies() []string {
	var all []string
	for name, op := range c.operations {
		if op.TakesJSON() {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// HasShape reports whether the bodies of an operation are looked at quickly.
func (c *Contract) HasShape(operation string) bool { return c.operations[operation].shape != nil }

// Takes reports whether a body is JSON, and whether the shape and the validator
// take it.
func (c *Contract) Takes(operation string, body []byte) (read, byShape, byValidator bool) {
	op := c.operations[operation]
	doc, err := strictjson.Parse(body, strictjson.Limits{Depth: c.depth, Values: op.Values})
	if err != nil {
		return false, false, false
	}
	return true, op.shape.holds(doc), len(c.schemaFaults(doc, op.body)) == 0
}

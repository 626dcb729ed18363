package httpapi

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/service"
)

// The limits of a request body, as the contract says them.
const (
	MaxBody   = 65536 // bytes
	maxDepth  = 32
	maxValues = 20000
)

// yardageInput is a request read without faults.
type yardageInput struct {
	request service.YardageRequest
	digest  string
}

// readYardage reads a body, and says everything that is wrong with it.
func (c *contract) readYardage(body []byte) (*yardageInput, *Problem) {
	doc, err := strictjson.Parse(body, strictjson.Limits{Depth: maxDepth, Values: maxValues})
	if err != nil {
		return nil, malformed(err)
	}
	found := c.schemaFaults(doc, c.yardage)
	var wire gen.YardageRequest
	if err := decodeSound(doc, c.yardage, found, &wire); err != nil {
		return nil, problem(malformedJSON, "the document cannot be read")
	}
	request, shape := requestFromWire(&wire)
	found = append(found, unrelated(shape.Faults(), found)...)
	if len(found) == 0 {
		all := service.YardageFaults(request)
		found = all.Faults()
	} else {
		fields := service.YardageFieldFaults(request)
		found = append(found, unrelated(fields.Faults(), found)...)
	}
	if len(found) > 0 {
		inPlace(doc, found)
		return nil, invalid(found)
	}
	sum := sha256.Sum256(doc.Canonical())
	return &yardageInput{request: request, digest: "sha256:" + hex.EncodeToString(sum[:])}, nil
}

// malformed is the problem of a body that strictjson refuses.
func malformed(err error) *Problem {
	var refused *strictjson.Error
	if !errors.As(err, &refused) {
		return problem(malformedJSON, "")
	}
	return problem(malformedJSON, refused.Error())
}

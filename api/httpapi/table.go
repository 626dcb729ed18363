package httpapi

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/api/contract"
)

// lane is the lane in which an operation runs.
type lane int

const (
	laneFree  lane = iota // no lane: it costs next to nothing
	laneShort             // the light lane, to its end
	laneLight             // the light lane, then the heavy one if it takes long
	laneHeavy             // the heavy lane: it searches
)

// size limits a body. The contract has the same limits.
type size struct{ bytes, values int }

// The size limits of bodies.
var (
	usual = size{MaxBody, 20000}
	large = size{MaxLargeBody, 40000}     // several pieces, or 500 cushions
	whole = size{MaxCheckBody, maxValues} // a plan, or many cloths
)

// The size limits of bodies in bytes, and the limit on JSON values in one.
const (
	MaxBody      = 65536
	MaxLargeBody = 262144
	MaxCheckBody = 1048576
	maxValues    = 200000
)

// row is an operation without the types of its request and response: its route, its limits
// and its functions.
type row struct {
	id, method, path string // as in the contract
	command          string // its name on the command line; "" for none
	lane             lane
	size             size
	forms            []string // the media types of its responses
	soFar            bool     // supports Prefer: best-so-far
	drawings         bool     // supports Server.Drawings

	read   func(*contract.Document) (question, *Problem) // validates a body of JSON; otherwise nil
	reply  func(*Server, *exchange) (*reply, error)      // for operations without a body; otherwise nil
	stream func(*Server, *exchange) error                // for responses sent while the body is read; otherwise nil
	says   *contract.Operation
}

// table is all operations.
type table []*row

// newTable compares the rows with the contract, and returns an error when they differ.
func newTable(rows []row, c *contract.Contract, l contract.Limits) (table, error) {
	byID := make(map[string]*contract.Operation)
	for _, op := range c.Operations() {
		byID[op.ID] = op
	}
	var t table
	var wrong []error
	for i := range rows {
		r := &rows[i]
		r.says = byID[r.id]
		delete(byID, r.id)
		t = append(t, r)
		for _, what := range r.unlike(l) {
			wrong = append(wrong, fmt.Errorf("httpapi: the operation %s: %s", r.id, what))
		}
	}
	for id := range byID {
		wrong = append(wrong, fmt.Errorf("httpapi: the operation %s of the contract has no row", id))
	}
	return t, errors.Join(wrong...)
}

// unlike returns the differences between the row and the contract.
func (r *row) unlike(l contract.Limits) []string {
	op := r.says
	if op == nil {
		return []string{"the contract has none of this id, or the table has two"}
	}
	var list []string
	differ := func(yes bool, what string) {
		if yes {
			list = append(list, what+" are not those of the contract")
		}
	}
	offers := slices.Sorted(slices.Values(op.Offers))
	differ(op.Method != r.method || op.Path != r.path, "method and path")
	differ(op.TakesJSON() != (r.read != nil) || op.Lines != (r.stream != nil), "body and lines")
	if r.read != nil {
		differ(!slices.Equal(offers, slices.Sorted(slices.Values(r.forms))), "the forms "+strings.Join(r.forms, ", "))
		differ(op.BodyBytes != min(r.size.bytes, l.BodyBytes) || op.Values != min(r.size.values, l.Values), "the limits of the body")
	}
	return list
}

// read parses and validates the body of an operation. It returns a question, or a problem
// with all faults.
func (s *Server) read(r *row, body []byte) (question, *Problem) {
	if most := r.says.BodyBytes; len(body) > most {
		return nil, tooLarge(most)
	}
	d, err := s.contract.Read(r.says, body)
	if err != nil {
		return nil, malformed(err)
	}
	return r.read(d)
}

package httpapi

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/api/contract"
)

// lane is where an operation waits for its turn.
type lane int

const (
	laneFree  lane = iota // nowhere: it costs next to nothing
	laneShort             // in the light lane, in which it is always answered
	laneLight             // in the light lane, from which it moves over when it turns out to be long
	laneHeavy             // in the heavy lane: it searches
)

// size is how much of a body is read. The contract says the same.
type size struct{ bytes, values int }

// The sizes of bodies.
var (
	usual = size{MaxBody, 20000}
	large = size{MaxLargeBody, 40000}     // several pieces, or 500 cushions
	whole = size{MaxCheckBody, maxValues} // a plan, or many cloths
)

// The largest bodies, in bytes, and the most values in one.
const (
	MaxBody      = 65536
	MaxLargeBody = 262144
	MaxCheckBody = 1048576
	maxValues    = 200000
)

// row is an operation without the types of its request and answer: its route, what the
// pipeline must know of it, and how it is asked.
type row struct {
	id, method, path string // as in the contract
	command          string // its name on the command line; "" when it is not asked there
	lane             lane
	size             size
	forms            []string // the media types of its answers
	soFar            bool     // has an answer at any time, which may be asked for
	drawings         bool     // has drawings that may be asked for one by one

	read   func(*contract.Document) (question, *Problem) // of a body of JSON
	reply  func(*Server, *exchange) (*reply, error)      // where there is no body
	stream func(*Server, *exchange) error                // where the answer is sent while the body is read
	says   *contract.Operation
}

// table is all operations.
type table []*row

// newTable puts rows beside what the contract says of them, and fails where the two
// differ.
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

// unlike is what the contract says otherwise.
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

// read reads the body of an operation, and says everything that is wrong with it.
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

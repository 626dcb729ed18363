package httpapi

import (
	"net/http"
	"strconv"

	"github.com/bridletie/bridletie/api/contract"
)

// The kinds of problem. Each is the last part of a problem's type.
const (
	malformedJSON        = "malformed-json"
	keyWanted            = "no-key"
	notFound             = "not-found"
	methodNotAllowed     = "method-not-allowed"
	notAcceptable        = "not-acceptable"
	bodyTooLarge         = "body-too-large"
	addressTooLong       = "address-too-long"
	headersTooLarge      = "headers-too-large"
	unsupportedMediaType = "unsupported-media-type"
	invalidRequest       = "invalid-request"
	quotaExceeded        = "quota-exceeded"
	internal             = "internal"
	unavailable          = "unavailable"
	tookTooLong          = "took-too-long"
)

// kind is one kind of problem and the page that explains it.
type kind struct {
	name   string
	status int
	title  string
	help   string
}

// kinds returns all kinds of problem, in order of status.
func kinds() []kind {
	return []kind{
		{malformedJSON, http.StatusBadRequest, "The body is not well-formed JSON",
			"The detail says what is wrong and where. Send one JSON document in UTF-8, without a byte order mark, with no name twice in an object."},
		{keyWanted, http.StatusUnauthorized, "No key, or one that is not known",
			"Send the key that the operator gave you as Authorization: Bearer and the key, never in the address. A key that was replaced no longer works."},
		{notFound, http.StatusNotFound, "There is nothing at this path",
			"The paths are listed in /openapi.yaml."},
		{methodNotAllowed, http.StatusMethodNotAllowed, "The path does not have this method",
			"The Allow header names the methods of the path."},
		{notAcceptable, http.StatusNotAcceptable, "No such form of the answer",
			"The detail names the media types on offer. Send one of them in Accept, or no Accept header."},
		{bodyTooLarge, http.StatusRequestEntityTooLarge, "The body is too large",
			"The detail says how many bytes are read. Split the job."},
		{addressTooLong, http.StatusRequestURITooLong, "The address is too long",
			"The detail says how many bytes of path and query are read."},
		{unsupportedMediaType, http.StatusUnsupportedMediaType, "The body must be JSON",
			"Send Content-Type application/json, in UTF-8 and without Content-Encoding."},
		{invalidRequest, http.StatusUnprocessableEntity, "The request has faults",
			"Every entry of errors points to a field of the request, says what is wrong with it and what would do. At most 20 are shown; count says how many there are."},
		{quotaExceeded, http.StatusTooManyRequests, "Your quota is used",
			"RateLimit says what is left of each quota. Try again after the seconds in Retry-After. Work is counted in milliseconds that a core was busy for you."},
		{headersTooLarge, http.StatusRequestHeaderFieldsTooLarge, "The request has too many header fields",
			"The detail says how many are read."},
		{internal, http.StatusInternalServerError, "The service failed",
			"The fault is the service's. Report it with the request id in the detail."},
		{unavailable, http.StatusServiceUnavailable, "Not ready",
			"The service is full or about to stop. Try again after the seconds in Retry-After."},
		{tookTooLong, http.StatusServiceUnavailable, "The answer took too long",
			"There is a limit on how long an answer is worked on. A machine with less to do may be quick enough: try again after the seconds in Retry-After. Less effort or fewer parts take less time."},
	}
}

// kindOf returns the kind with that name, and whether there is one.
func kindOf(name string) (kind, bool) {
	for _, k := range kinds() {
		if k.name == name {
			return k, true
		}
	}
	return kind{}, false
}

// problemPage returns the page that explains a kind of problem.
func (s *Server) problemPage(x *exchange) (*reply, error) {
	k, ok := kindOf(x.params["name"])
	if !ok {
		return nil, problem(notFound, "")
	}
	page := k.title + "\n\nStatus " + strconv.Itoa(k.status) + ". " + k.help + "\n"
	return &reply{http.StatusOK, http.Header{"Content-Type": {contract.Text}}, []byte(page)}, nil
}

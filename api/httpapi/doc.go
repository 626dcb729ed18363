// Package httpapi serves the operations of openapi.yaml over HTTP. It parses requests
// strictly, returns all faults of a request at once, and translates between the wire types
// and the use cases. It contains no calculation.
package httpapi

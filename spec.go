// Package bridletie holds the contract of the service.
package bridletie

import _ "embed"

// Spec is openapi.yaml, the OpenAPI 3.0.3 document that everything on the wire
// is defined by.
//
//go:embed openapi.yaml
var Spec []byte

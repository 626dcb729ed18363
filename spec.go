// Package bridletie holds the contract of the service.
package bridletie

import "embed"

// Files are openapi.yaml, the OpenAPI 3.0.3 document that everything on the wire is
// defined by, and its examples, each in a file that it refers to.
// Package api/contract reads them.
//
//go:embed openapi.yaml testdata/examples
var Files embed.FS

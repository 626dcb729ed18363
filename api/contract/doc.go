// Package contract loads openapi.yaml and applies it. It finds the operation of a path,
// negotiates media types, and validates bodies against their schemas. It does not depend
// on what the operations do.
package contract

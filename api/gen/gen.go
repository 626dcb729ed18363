// Package gen is generated from openapi.yaml: wire types and routes. Change the
// spec, then run make generate.
package gen

//go:generate go tool oapi-codegen -config config.yaml ../../openapi.yaml

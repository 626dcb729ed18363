// Package gen is generated from openapi.yaml: wire types, routes and the strict
// server interface. Change the spec, then run make generate.
package gen

//go:generate go tool oapi-codegen -config config.yaml ../../openapi.yaml

// Package httpapi puts the use cases behind the contract in openapi.yaml: it
// reads requests strictly, says everything that is wrong with them at once,
// and translates to and from the wire. It decides nothing about cloth.
package httpapi

// Package contract is openapi.yaml, made ready to be asked: which operations there
// are and at which paths, in which media types they answer, which bodies they take,
// and what is wrong with one that they do not. It knows nothing of what they do.
package contract

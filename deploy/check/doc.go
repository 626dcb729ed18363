// Package check holds the tests of what lies in deploy. It is a module of its own,
// so that the types of Kubernetes are no dependency of the service.
package check

// Package service composes the pure calculations into whole answers. It knows
// nothing of HTTP.
package service

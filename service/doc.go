// Package service composes the pure calculations into whole answers. It knows
// nothing of HTTP.
package service

// EngineVersion names the code that answers, in every answer.
const EngineVersion = "bridletie/0.1.0"

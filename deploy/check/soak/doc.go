// Package soak puts the binary under load on loopback and prints what came of
// it: replicas restarted behind the proxy, more work than there is room for,
// clients that are slow or leave. Its tests are skipped unless BRIDLETIE_SOAK
// names the binary; make soak runs them.
//
// What must never happen, a failed request or a leak, fails the test anywhere.
// Times fail it only with BRIDLETIE_SOAK_BARS set, since they depend on what
// else the machine does.
package soak

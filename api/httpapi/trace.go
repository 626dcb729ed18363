package httpapi

import (
	"crypto/rand"
	"encoding/hex"
	"strings"
)

// traceOf is the trace that a request belongs to, by the traceparent that it was
// sent with (W3C Trace Context, version 00 and what later ones keep of it). One
// that is wrong in any way, or stands twice, is none: the request begins a trace
// of its own, and is never refused for it.
func traceOf(sent []string) string {
	if len(sent) == 1 {
		if id, ok := readTraceparent(sent[0]); ok {
			return id
		}
	}
	var id [16]byte
	_, _ = rand.Read(id[:]) // never fails
	return hex.EncodeToString(id[:])
}

// readTraceparent is the id of the trace in version-trace-parent-flags, all in
// lower-case hexadecimal digits.
func readTraceparent(s string) (trace string, ok bool) {
	const length = 55 // of version 00; later ones may add fields after a dash
	if len(s) < length || s[2] != '-' || s[35] != '-' || s[52] != '-' {
		return "", false
	}
	version, trace, parent, flags := s[:2], s[3:35], s[36:52], s[53:length]
	for _, part := range []string{version, trace, parent, flags} {
		if strings.Trim(part, "0123456789abcdef") != "" {
			return "", false
		}
	}
	switch {
	case version == "ff", strings.Trim(trace, "0") == "", strings.Trim(parent, "0") == "":
		return "", false
	case len(s) > length && (version == "00" || s[length] != '-'):
		return "", false
	}
	return trace, true
}

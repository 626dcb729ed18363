package httpapi

import (
	"crypto/rand"
	"encoding/hex"
	"strings"
)

// traceOf returns the trace id of a request from its traceparent (W3C Trace Context,
// version 00 and the compatible part of later ones). An invalid or repeated traceparent is
// ignored, and a new id is returned.
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

// readTraceparent parses version-trace-parent-flags, all in lower-case hexadecimal digits,
// and returns the trace id.
func readTraceparent(s string) (trace string, ok bool) {
	const length = 55 // of version 00; later versions may append fields after a dash
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

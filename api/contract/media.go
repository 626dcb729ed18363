package contract

import (
	"cmp"
	"strconv"
	"strings"
)

// The media types of responses.
const (
	JSON  = "application/json"
	Lines = "application/x-ndjson" // JSON, line by line
	SVG   = "image/svg+xml"
	PDF   = "application/pdf"
	Text  = "text/plain"
)

// byPreference compares media types in the server's order of preference.
func byPreference(a, b string) int {
	place := func(media string) int {
		switch media {
		case JSON:
			return 0
		case SVG:
			return 1
		}
		return 2
	}
	return cmp.Or(cmp.Compare(place(a), place(b)), strings.Compare(a, b))
}

// Negotiate returns the offer that the Accept headers rank highest (RFC 9110, section
// 12.5.1). Ties go to the server's order of preference. Without a header everything is
// accepted. An unreadable range accepts nothing. ok is false when no offer is accepted.
func Negotiate(accept []string, offers []string) (best string, ok bool) {
	header := strings.Join(accept, ",")
	if strings.TrimSpace(header) == "" {
		return offers[0], true
	}
	ranges := strings.Split(header, ",")
	top := 0
	for _, offer := range offers {
		if q := quality(ranges, offer); q > top {
			best, top = offer, q
		}
	}
	return best, top > 0
}

// quality returns the q-value, in thousandths, of the most specific range that matches the
// offer; 0 if none does.
func quality(ranges []string, offer string) int {
	q, rank := 0, -1
	for _, r := range ranges {
		parts := strings.Split(r, ";")
		media := strings.ToLower(strings.TrimSpace(parts[0]))
		n := specificity(media, offer)
		if n < 0 || n < rank {
			continue
		}
		value, ok := QValue(parts[1:])
		if !ok {
			continue
		}
		if n > rank || value > q {
			q, rank = value, n
		}
	}
	return q
}

// specificity returns how specific a range is for the offer; -1 when it does not match.
func specificity(media, offer string) int {
	kind, _, _ := strings.Cut(offer, "/")
	switch media {
	case offer:
		return 2
	case kind + "/*":
		return 1
	case "*/*":
		return 0
	}
	return -1
}

// QValue returns the q parameter in thousandths, 1000 when there is none. A range with any
// parameter other than a charset of UTF-8 matches no offer; ok is then false.
func QValue(params []string) (int, bool) {
	for _, param := range params {
		name, value, _ := strings.Cut(strings.TrimSpace(param), "=")
		value = strings.Trim(strings.TrimSpace(value), `"`)
		switch strings.ToLower(strings.TrimSpace(name)) {
		case "q":
			q, err := strconv.ParseFloat(value, 64)
			if err != nil || !(q >= 0 && q <= 1) {
				return 0, false
			}
			return int(q*1000 + 0.5), true
		case "charset":
			if !strings.EqualFold(value, "utf-8") {
				return 0, false
			}
		case "":
		default:
			return 0, false
		}
	}
	return 1000, true
}

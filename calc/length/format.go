package length

import (
	"math/bits"
	"strconv"
	"strings"
)

// System is the system of units in which a length is shown. The zero value is
// Metric.
type System uint8

// The systems of units.
const (
	Metric   System = iota // metres and centimetres
	Imperial               // yards, feet and inches
)

// Rounding is the direction in which a length is rounded to be shown. The zero
// value is Nearest.
type Rounding uint8

// The directions of rounding.
const (
	Nearest Rounding = iota // half a step goes away from zero
	Up                      // towards plus infinity: never less than the length
	Down                    // towards minus infinity: never more than the length
)

// sixteenth is the step of imperial text.
const sixteenth = Inch / 16

// String returns l in millimetres with as many decimals as it needs, six at
// most: "6420 mm", "0.396875 mm", "-1.5 mm", "0 mm". [Parse] reads it back to
// the same Length, for every Length.
func (l Length) String() string {
	var buf [24]byte // "-9223372036854.775808 mm"
	return string(l.appendTo(buf[:0]))
}

// MarshalText returns the text of [Length.String]. It never fails.
func (l Length) MarshalText() ([]byte, error) {
	return l.appendTo(nil), nil
}

// UnmarshalText sets l to what [Parse] makes of text. On an error, which is that
// of Parse, l is left as it was.
func (l *Length) UnmarshalText(text []byte) error {
	// One byte too many is enough for Parse to refuse it; no need to copy all.
	parsed, err := Parse(string(text[:min(len(text), maxInput+1)]))
	if err != nil {
		return err
	}
	*l = parsed
	return nil
}

func (l Length) appendTo(b []byte) []byte {
	if l < 0 {
		b = append(b, '-')
	}
	return append(appendDecimal(b, l.magnitude(), 6), " mm"...)
}

// Text returns l for people to read, rounded once, by r:
//
//   - Metric: to the millimetre, in metres from 1 m up ("6.42 m", "6 m"), in
//     centimetres below ("62 cm", "1.5 cm", "0 cm"), final zeros left out.
//   - Imperial: to the sixteenth of an inch, in yards, feet and inches, parts
//     that are zero left out and the fraction in lowest terms ("7 yd 4 1/2 in",
//     "2 yd", "2 ft 3 in", "1/16 in", "0 in").
//
// The rounded value decides the form: 999.6 mm to the nearest is "1 m". A
// negative length has a leading "-", unless it rounds to zero. [Parse] reads the
// text back, save that a Length within a step of the ends of the range can round
// to a text beyond it. A System or Rounding that is none of the constants is
// taken for the zero value.
func (l Length) Text(sys System, r Rounding) string {
	if sys == Imperial {
		return imperialText(l.steps(sixteenth, r))
	}
	return metricText(l.steps(Millimetre, r))
}

// steps returns l in steps of at least 1, rounded by r.
func (l Length) steps(step Length, r Rounding) Length {
	q, rem := l/step, l%step
	switch r {
	case Up:
		if rem > 0 {
			q++
		}
	case Down:
		if rem < 0 {
			q--
		}
	default:
		switch { // half of step may be no whole number, and twice rem no Length
		case rem > 0 && rem >= step-rem:
			q++
		case rem < 0 && -rem >= step+rem:
			q--
		}
	}
	return q
}

func metricText(mm Length) string {
	var b []byte
	if mm < 0 {
		b = append(b, '-')
	}
	u := mm.magnitude()
	if u >= 1000 {
		return string(append(appendDecimal(b, u, 3), " m"...))
	}
	return string(append(appendDecimal(b, u, 1), " cm"...))
}

func imperialText(sixteenths Length) string {
	const perInch, perFoot, perYard = 16, 12 * 16, 36 * 16
	u := sixteenths.magnitude()
	if u == 0 {
		return "0 in"
	}
	parts := make([]string, 0, 3)
	if n := u / perYard; n > 0 {
		parts = append(parts, strconv.FormatUint(n, 10)+" yd")
	}
	if n := u % perYard / perFoot; n > 0 {
		parts = append(parts, strconv.FormatUint(n, 10)+" ft")
	}
	if n := u % perFoot; n > 0 {
		parts = append(parts, mixedText(n/perInch, n%perInch)+" in")
	}
	text := strings.Join(parts, " ")
	if sixteenths < 0 {
		return "-" + text
	}
	return text
}

// mixedText returns whole + num/16 as a mixed number in lowest terms. Not both
// are zero, and num is below 16.
func mixedText(whole, num uint64) string {
	if num == 0 {
		return strconv.FormatUint(whole, 10)
	}
	twos := bits.TrailingZeros64(num)
	fraction := strconv.FormatUint(num>>twos, 10) + "/" + strconv.FormatUint(16>>twos, 10)
	if whole == 0 {
		return fraction
	}
	return strconv.FormatUint(whole, 10) + " " + fraction
}

// appendDecimal appends u / 10^places in decimal, without final zeros after the
// point.
func appendDecimal(b []byte, u uint64, places int) []byte {
	scale := uint64(1)
	for range places {
		scale *= 10
	}
	b = strconv.AppendUint(b, u/scale, 10)
	frac := u % scale
	if frac == 0 {
		return b
	}
	b = append(b, '.')
	for frac > 0 {
		scale /= 10
		b = append(b, byte('0'+frac/scale))
		frac %= scale
	}
	return b
}

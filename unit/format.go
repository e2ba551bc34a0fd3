package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

var nan = math.NaN()

// System is the family of units that a reader wants to see.
type System uint8

// The two systems. Metric is the zero value.
const (
	Metric System = iota
	InchPound
)

// String returns "metric" or "inch-pound".
func (s System) String() string {
	if s == InchPound {
		return "inch-pound"
	}
	return "metric"
}

// ParseSystem reads "metric" or "inch-pound"; "inch" will do for the second.
func ParseSystem(text string) (System, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "metric":
		return Metric, nil
	case "inch-pound", "inch":
		return InchPound, nil
	}
	return Metric, fmt.Errorf("%q is not a system of units: allowed are metric and inch-pound", text)
}

// maxDecimals is the most decimals that Format prints: more than float64 holds
// of any quantity of a shop.
const maxDecimals = 15

// Format prints an SI value (degrees Celsius for temperature) in unit u, with a
// fixed number of decimals from 0 to 15, as in "6.8 mm/s". Halves round away
// from zero. A value that rounds to zero has no sign. What is not finite prints as "unknown", so that no sheet
// shows a made-up number.
func Format(si float64, u Unit, decimals int) string {
	v := u.Value(si)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	// Fifteen digits take the noise of float64 away, so that 1/4 in, which is
	// 6.35 mm but a hair less in float64, rounds as people round it.
	r, _ := rational(strconv.FormatFloat(v, 'e', 14, 64))
	digits := r.FloatString(min(max(decimals, 0), maxDecimals))
	if strings.Trim(digits, "-0.") == "" {
		digits = strings.TrimPrefix(digits, "-")
	}
	return digits + " " + u.String()
}

// FormatIn prints an SI value (degrees Celsius for temperature) in the unit and
// with the decimals that Preferred names for the quantity.
func FormatIn(k Kind, si float64, s System) string {
	u, decimals := k.Preferred(s)
	return Format(si, u, decimals)
}

// Exact prints an SI value (degrees Celsius for temperature) in unit u with the
// fewest digits that Parse reads back as the same float64, so 0.006 m is
// "6 mm". Where no decimal number of u does so, which needs values off any
// round number, it prints 17 digits, within one part in 10^15. What is not
// finite prints as "unknown".
func Exact(si float64, u Unit) string {
	v := u.Value(si)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	digits := strconv.FormatFloat(v, 'g', 17, 64)
	for n := 1; n < 17; n++ {
		try := strconv.FormatFloat(v, 'g', n, 64)
		if r, ok := rational(try); ok && u.exact(r) == si {
			digits = try
			break
		}
	}
	if r, ok := rational(digits); ok && r.Sign() == 0 {
		digits = "0"
	}
	if f, err := strconv.ParseFloat(digits, 64); err == nil && math.Abs(f) >= 1e-4 && math.Abs(f) < 1e9 {
		digits = strconv.FormatFloat(f, 'f', -1, 64) // no exponent where people can read the number without
	}
	return digits + " " + u.String()
}

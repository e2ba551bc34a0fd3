package deposit

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// The burn-off law of A. Lesnewich (Welding Journal, 1958), also in J. Norrish,
// Advanced Welding Processes: WFS = alpha I + beta L I^2. Constants for 1.2 mm
// plain carbon steel wire in argon-rich gas, from memory; WFS in mm/s, L in mm.
const (
	burnoffAlpha = 0.30 // mm/(s A), arc heating
	burnoffBeta  = 5e-5 // 1/(s A2), heating of the extension
	burnoffWire  = 1.2  // mm
)

// CurrentSpread is how far current estimated from feed may be off, as a share
// either way, dimensionless. Two published sets of feed and current pairs
// differ by 27 to 50 % (Machinery's Handbook 31, Table 5, and a deposition
// chart, both read).
const CurrentSpread = 0.20

// The range in which the estimate is offered. The constants were scaled from
// 1.2 mm to 0.9 and 1.0 mm; other wires have no check at all.
var (
	burnoffWires      = weld.Sense{What: "wire diameter for the current estimate", Low: 0.85e-3, High: 1.25e-3, Unit: unit.Millimetres}
	burnoffExtensions = weld.Sense{What: "electrode extension for the current estimate", Low: 5e-3, High: 30e-3, Unit: unit.Millimetres}
	burnoffFeeds      = weld.Sense{What: "wire feed speed for the current estimate", Low: 2.0 / 60, High: 16.0 / 60, Unit: unit.MetresPerMinute}
	burnoffCurrents   = weld.Sense{What: "current for the feed estimate", Low: 50, High: 450, Unit: unit.Amperes}
)

// burnoff returns alpha in mm/(s A) and beta in 1/(s A2) for a wire in mm:
// alpha goes with 1/d^2, beta with 1/d^4. Derived scaling.
func burnoff(d float64) (alpha, beta float64) {
	r := burnoffWire / d
	return burnoffAlpha * r * r, burnoffBeta * r * r * r * r
}

// EstimateCurrent returns the current in A that a solid steel wire of a given
// diameter (m) draws at a feed (m/s) and an electrode extension (m), with its
// +-20 % as Usual. It is only a guide: set the feed, read the current. Wire
// 0.85 to 1.25 mm, feed 2 to 16 m/min, extension 5 to 30 mm; outside is an
// error.
func EstimateCurrent(wireDiameter, feed, extension float64) (weld.Figure, error) {
	err := weld.CheckAll(burnoffWires.Of(wireDiameter), burnoffFeeds.Of(feed), burnoffExtensions.Of(extension))
	if err != nil {
		return weld.Figure{}, fmt.Errorf("current estimate: %w", err)
	}
	WFS, L := feed/unit.MM, extension/unit.MM
	alpha, beta := burnoff(wireDiameter / unit.MM)
	I := (-alpha + math.Sqrt(alpha*alpha+4*beta*L*WFS)) / (2 * beta * L)
	return weld.Figure{Value: I, Usual: weld.Around(I, CurrentSpread, CurrentSpread), Source: burnoffSource()}, nil
}

// EstimateFeed returns the wire feed in m/s at which a solid steel wire of a
// given diameter (m) draws a current (A) at an electrode extension (m), with
// +-20 % as Usual. Ranges and source as EstimateCurrent (burn-off constants after
// Norrish, from memory), current 50 to 450 A.
func EstimateFeed(wireDiameter, current, extension float64) (weld.Figure, error) {
	err := weld.CheckAll(burnoffWires.Of(wireDiameter), burnoffCurrents.Of(current), burnoffExtensions.Of(extension))
	if err != nil {
		return weld.Figure{}, fmt.Errorf("feed estimate: %w", err)
	}
	I, L := current, extension/unit.MM
	alpha, beta := burnoff(wireDiameter / unit.MM)
	feed := (alpha*I + beta*L*I*I) * unit.MM
	return weld.Figure{Value: feed, Usual: weld.Around(feed, CurrentSpread, CurrentSpread), Source: burnoffSource()}, nil
}

// burnoffSource is the source of both estimates.
func burnoffSource() weld.Source {
	return weld.Source{Mark: weld.Memory, Code: "Lesnewich burn-off law", Edition: "1958",
		Note: "constants of Norrish for 1.2 mm steel, scaled to other wires; guide only, +-20 %"}
}

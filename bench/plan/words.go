package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// words says quantities as the job's own shop reads them: in inches, in/min and
// kJ/in where the points were read in inches, in metric units elsewhere.
type words struct{ system unit.System }

func wordsOf(j *job.Job) words {
	if j.Keying.Length == unit.Inches.String() {
		return words{unit.InchPound}
	}
	return words{unit.Metric}
}

// manner is what a quantity is and how many decimals it is said with, by
// system.
type manner struct {
	kind     unit.Kind
	decimals [2]int
}

// The manners. Common practice, no source: what a shop's rules and gauges read,
// and of welds the fractions of a drawing, which three decimals tell apart.
var (
	asPlace = manner{unit.Length, [...]int{unit.Metric: 1, unit.InchPound: 2}} // places and blend radii
	asSize  = manner{unit.Length, [...]int{unit.Metric: 1, unit.InchPound: 3}} // legs, throats, gaps, plates, radii, tips off the seam
	asArea  = manner{unit.Area, [...]int{unit.Metric: 1, unit.InchPound: 4}}
	asSpeed = manner{unit.Speed, [...]int{unit.Metric: 1, unit.InchPound: 1}}
	asTyped = manner{unit.Speed, [...]int{unit.Metric: 2, unit.InchPound: 1}} // a speed to be typed
	asAir   = manner{unit.Speed, [...]int{unit.Metric: 0, unit.InchPound: 0}} // a speed without arc
)

// unit is the unit in which a quantity is said.
func (w words) unit(k unit.Kind) unit.Unit {
	u, _ := k.Preferred(w.system)
	return u
}

// say says a quantity (SI) in its manner: "6.4 mm" or "0.250 in".
func (w words) say(m manner, si float64) string {
	return unit.Format(si, w.unit(m.kind), m.decimals[w.system])
}

// digits says a quantity (SI) with n significant digits at most: "1.14 mm".
func (w words) digits(k unit.Kind, si float64, n int) string {
	u := w.unit(k)
	return fmt.Sprintf("%.*g %v", n, u.Value(si), u)
}

// tape says a length that is taken with a tape, such as a place along a seam,
// m: "182 mm" or "7.2 in".
func (w words) tape(m float64) string { return finding.Along(m, w.system) }

// stretch says from where to where along a seam, m: "10 to 250 mm".
func (w words) stretch(from, to float64) string {
	start, _, _ := strings.Cut(w.tape(from), " ")
	return start + " to " + w.tape(to)
}

// at is the place along metres after the start of a seam's pass.
func (w words) at(seam string, pass int, along float64) finding.Place {
	return finding.AtAlong(seam, pass, along).In(w.system)
}

// pair gives a measured value and its limit (SI) in the unit in which the
// quantity is said, as Finding.Values takes them.
func (w words) pair(k unit.Kind, measured, limit float64) (float64, float64, string) {
	u := w.unit(k)
	return u.Value(measured), u.Value(limit), u.String()
}

// ownFirst puts the text in the job's own units before the one in the other's.
func (w words) ownFirst(metric, inch string) (own, other string) {
	if w.system == unit.InchPound {
		return inch, metric
	}
	return metric, inch
}

const deg = 180 / math.Pi // degrees in a radian, for messages

// degrees says an angle, rad: "10.0 deg".
func degrees(x float64) string { return degreesText(x) + " deg" }

// degreesText is an angle, rad, as a number of degrees to a tenth, without a
// minus before zero.
func degreesText(x float64) string {
	if math.Abs(x) < 0.05/deg {
		x = 0
	}
	return fmt.Sprintf("%.1f", x*deg)
}

// leaning says a travel angle in words: "10.0 deg push".
func leaning(travel float64) string {
	switch {
	case math.Abs(travel) < 0.05/deg:
		return "no push or drag"
	case travel > 0:
		return degrees(travel) + " push"
	}
	return degrees(-travel) + " drag"
}

// seconds says a time, s: "85 s".
func seconds(s float64) string { return fmt.Sprintf("%.0f s", s) }

// jointKind is what a joint's values are: angles, or lengths where it slides.
func jointKind(j kinematics.Joint) unit.Kind {
	if j.Kind == kinematics.Prismatic {
		return unit.Length
	}
	return unit.Angle
}

// jointValue says a value of a joint, rad or m: "12.0 deg" or "250 mm".
func (w words) jointValue(j kinematics.Joint, v float64) string {
	if j.Kind == kinematics.Prismatic {
		return w.tape(v)
	}
	return degrees(v)
}

// limitName names the limit of a joint that a value (rad) is nearest to or past:
// only the torch's cable sets one that is tighter than the file's.
func limitName(j kinematics.Joint, q float64) string {
	if nearLimit(j, q) == j.Lower && j.LowerNarrowed || nearLimit(j, q) == j.Upper && j.UpperNarrowed {
		return "cable limit"
	}
	return "limit"
}

// quoted lists labels in quotation marks.
func quoted(labels []string) string {
	q := make([]string, len(labels))
	for i, l := range labels {
		q[i] = fmt.Sprintf("%q", l)
	}
	return strings.Join(q, ", ")
}

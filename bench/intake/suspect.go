package intake

import (
	"cmp"
	"fmt"
	"slices"

	"seamwright/geom/r3"
)

// Suspicion is something in good numbers that looks like a slip of the person
// who wrote them down. Nothing is changed: Likely is a proposal.
type Suspicion struct {
	Lines    []int  // of the table
	Kind     string // unit-slip, sign-swapped, axes-swapped, digits-swapped, off-the-line, duplicate, label-twice, labels-swapped, start-and-end-swapped, approach-far, home-differs, home-not-repeated, turn-off, approach-past-start
	Message  string
	Likely   string  // what was probably meant, empty where the data does not say
	Measured float64 // in Unit
	Limit    float64 // in Unit: what good data stays within
	Unit     string  // mm, deg or empty
}

// Bounds of good data. Points taught by hand err by 1 to 3 mm and 3 to 10 deg
// (common practice, no source); slips are far larger.
const (
	offLine     = 0.015 // m, from the line of the other points of a seam
	onLine      = 0.005 // m, within which points of a seam lie on a line
	samePlace   = 5e-5  // m, half of the last digit of 0.1 mm: copied, not taught twice
	strayed     = 0.150 // m, least distance of a misread row beyond its seam
	strayedAir  = 0.400 // m, the same for approaches and retreats, which lie beside the seam
	strayFactor = 2     // times the seam's own extent
	backHome    = 0.001 // m or rad, between two rows of home
	approachFar = 0.500 // m, from the approach to the start
	turnOff     = 50    // deg, from the other points of a straight seam
	turnAgree   = 25    // deg, within which these agree
	largeGroup  = 100   // points of a seam beyond which its points are not compared one with another
)

// Suspicions looks for slips in points: slips of unit, lost minus signs,
// exchanged columns and digits, copied rows, and labels that say another thing
// than the geometry. Points of one seam are found by labels such as "W1 start",
// "W1 end", "W1 root 2", "W1 in", "W1 out" and "home"; points without such
// labels are compared with all others. In seams of more than 100 points only
// rows that lie far out are looked for. Bounds are in mm and deg.
func Suspicions(points []Point, words Words) []Suspicion {
	w := watch{points: points, words: words, seams: groupSeams(points), told: map[int]bool{}}
	w.exchanged()
	w.strays()
	w.leaves()
	w.lines()
	w.turns()
	w.twins()
	w.labels()
	w.home()
	slices.SortStableFunc(w.found, func(a, b Suspicion) int { return a.Lines[0] - b.Lines[0] })
	return w.found
}

// watch collects suspicions; told marks points whose place is suspected, so
// that one slip is not reported twice.
type watch struct {
	points []Point
	words  Words
	seams  seams
	told   map[int]bool
	found  []Suspicion
}

func (w *watch) add(s Suspicion, points ...int) {
	for _, i := range points {
		s.Lines = append(s.Lines, w.points[i].Line)
	}
	slices.Sort(s.Lines)
	w.found = append(w.found, s)
}

// position prints a place in the table's own unit.
func (w *watch) position(p r3.Vec) string {
	sc, ok := scaleOf(w.words.Length)
	if !ok {
		sc, _ = scaleOf("mm")
	}
	return fmt.Sprintf("x, y, z = %.6g, %.6g, %.6g %s", p.X/sc.si, p.Y/sc.si, p.Z/sc.si, sc.symbol)
}

// strays finds rows that lie far from the other points of their seam.
func (w *watch) strays() {
	for _, seam := range w.seams.order {
		w.strayIn(w.seams.of[seam])
	}
	var loose []int
	for i, n := range w.seams.names {
		if n.Key == "" && n.Part != PartHome {
			loose = append(loose, i)
		}
	}
	const crowd = 5 // points without seams need many others to judge one
	if len(loose) > crowd {
		w.strayIn(loose)
	}
}

// strayIn looks at each point of a group against the others; in large groups
// against all, which one point does not sway.
func (w *watch) strayIn(group []int) {
	const least = 2
	var all neighbourhood
	if len(group) > largeGroup {
		all = around(w.others(group, -1))
	}
	for _, i := range group {
		if !w.points[i].HasPlace || w.told[i] {
			continue
		}
		n := all
		if len(group) <= largeGroup {
			others := w.others(group, i)
			if len(others) < least {
				continue
			}
			n = around(others)
		}
		w.stray(i, n)
	}
}

// others returns the places of the points of a group but one.
func (w *watch) others(group []int, not int) []r3.Vec {
	var out []r3.Vec
	for _, i := range group {
		if i != not && w.points[i].HasPlace && !w.told[i] {
			out = append(out, w.points[i].Pose.P)
		}
	}
	return out
}

// neighbourhood is where the other points of a group lie.
type neighbourhood struct {
	others []r3.Vec
	middle r3.Vec  // m
	extent float64 // m, of the others around their middle
}

func around(others []r3.Vec) neighbourhood {
	n := neighbourhood{others: others, middle: median3(others)}
	if len(others) == 0 {
		return n
	}
	var away []float64
	for _, p := range others {
		away = append(away, p.Dist(n.middle))
	}
	slices.Sort(away)
	// One other row may be a slip too: the second farthest counts where there
	// are enough.
	k := len(away) - 1
	if k >= 3 {
		k--
	}
	n.extent = away[k]
	return n
}

// fits reports whether a mended place lies among the others, beside but not
// upon them.
func (n neighbourhood) fits(p r3.Vec) bool {
	const beside = 0.060 // m
	return p.Dist(n.middle) <= 1.5*n.extent+beside && n.apart(p)
}

// apart keeps a mended place off the others: a start turned into the end is no
// mend.
func (n neighbourhood) apart(p r3.Vec) bool {
	const upon = 0.010 // m
	return !slices.ContainsFunc(n.others, func(o r3.Vec) bool { return o.Dist(p) < upon })
}

// stray looks at one point against its neighbours.
func (w *watch) stray(i int, n neighbourhood) {
	p := w.points[i].Pose.P
	away := p.Dist(n.middle)
	beyond := strayed
	if part := w.seams.names[i].Part; !part.onLine() {
		beyond = strayedAir
	}
	limit := max(strayFactor*n.extent, n.extent+beyond)
	if away <= limit {
		return
	}
	fitting := n.mended(p)
	if len(fitting) == 0 {
		return
	}
	w.told[i] = true
	s := Suspicion{Kind: fitting[0].kind, Measured: away * 1000, Limit: limit * 1000, Unit: "mm", Likely: w.position(fitting[0].place),
		Message: fmt.Sprintf("%q lies %.0f mm from the middle of its neighbours, which lie within %.0f mm of it; %s would bring it among them",
			w.points[i].Label, away*1000, n.extent*1000, fitting[0].what)}
	if len(fitting) > 1 { // the data does not say which
		s.Message += ", and so would " + fitting[1].what
		s.Likely = ""
	}
	w.add(s, i)
}

// mend is a slip undone.
type mend struct {
	kind, what string
	place      r3.Vec
}

// mended returns the mends that bring a place among its neighbours, the nearest
// first. Where one brings it twice as near as the next, the others are dropped.
func (n neighbourhood) mended(p r3.Vec) []mend {
	var fitting []mend
	for _, m := range mends(p) {
		if n.fits(m.place) {
			fitting = append(fitting, m)
		}
	}
	slices.SortStableFunc(fitting, func(a, b mend) int {
		return cmp.Compare(a.place.Dist(n.middle), b.place.Dist(n.middle))
	})
	if len(fitting) > 1 && 2*fitting[0].place.Dist(n.middle) < fitting[1].place.Dist(n.middle) {
		return fitting[:1]
	}
	return fitting
}

// mends lists the slips that people make, undone: a unit for the whole row or
// one number, a lost or added minus, two numbers exchanged.
func mends(p r3.Vec) []mend {
	var out []mend
	for _, f := range []struct {
		factor float64
		what   string
	}{{1000, "metres in place of millimetres"}, {1e-3, "millimetres in place of metres"}, {25.4, "inches in place of millimetres"}, {1 / 25.4, "millimetres in place of inches"}, {10, "a decimal mark one digit further right"}, {0.1, "a decimal mark one digit further left"}} {
		if f.factor >= 25 || f.factor <= 0.04 {
			out = append(out, mend{"unit-slip", "taking the row as " + f.what, p.Scale(f.factor)})
		}
		for k, axis := range axisNames {
			out = append(out, mend{"unit-slip", "taking " + axis + " as " + f.what, withAxis(p, k, axisOf(p, k)*f.factor)})
		}
	}
	for k, axis := range axisNames {
		out = append(out, mend{"sign-swapped", "the other sign of " + axis, withAxis(p, k, -axisOf(p, k))})
	}
	for _, pair := range [][2]int{{0, 1}, {1, 2}, {0, 2}} {
		q := withAxis(withAxis(p, pair[0], axisOf(p, pair[1])), pair[1], axisOf(p, pair[0]))
		out = append(out, mend{"axes-swapped", fmt.Sprintf("exchanging %s and %s", axisNames[pair[0]], axisNames[pair[1]]), q})
	}
	return out
}

var axisNames = [3]string{"x", "y", "z"}

// axisOf returns a coordinate (m) by its number from 0.
func axisOf(p r3.Vec, k int) float64 { return [3]float64{p.X, p.Y, p.Z}[k] }

func withAxis(p r3.Vec, k int, v float64) r3.Vec {
	c := [3]float64{p.X, p.Y, p.Z}
	c[k] = v
	return r3.Vec{X: c[0], Y: c[1], Z: c[2]}
}

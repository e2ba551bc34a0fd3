package intake

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/geom/fit"
	"seamwright/geom/r3"
)

// lines finds points off the straight line of their seam: three others must
// agree on it.
func (w *watch) lines() {
	for _, seam := range w.seams.order {
		var on []int
		for _, i := range w.seams.of[seam] {
			if w.seams.names[i].Part.onLine() && w.points[i].HasPlace && !w.told[i] {
				on = append(on, i)
			}
		}
		w.line(on)
	}
}

// off is a point off the line of the others.
type off struct {
	point int
	away  float64 // m
	line  fit.LineFit
	mend  mend
	clear bool // one mend alone brings it onto the line
}

func (w *watch) line(on []int) {
	const least = 4
	if len(on) < least || len(on) > largeGroup {
		return
	}
	var found []off
	for _, i := range on {
		l, err := fit.Line(w.others(on, i), onLine)
		if err != nil || l.Max > onLine {
			continue
		}
		if d := distance(l, w.points[i].Pose.P); d > offLine {
			o := off{point: i, away: d, line: l}
			o.mend, o.clear = w.digits(w.points[i].Pose.P, l)
			found = append(found, o)
		}
	}
	// Where several points may be the one that is off, a mend must tell which.
	if mended := slices.DeleteFunc(slices.Clone(found), func(o off) bool { return !o.clear }); len(found) > 1 && len(mended) == 1 {
		found = mended
	}
	if len(found) == 0 {
		return
	}
	o := found[0]
	s := Suspicion{Kind: "off-the-line", Measured: o.away * 1000, Limit: offLine * 1000, Unit: "mm",
		Message: fmt.Sprintf("%q lies %.1f mm off the line of the other %d points of its seam, which lie on it within %.1f mm",
			w.points[o.point].Label, o.away*1000, len(on)-1, o.line.Max*1000)}
	var which []int
	for _, f := range found {
		w.told[f.point] = true
		which = append(which, f.point)
	}
	switch {
	case len(found) > 1:
		s.Message += fmt.Sprintf("; it may be %q instead that is off", w.points[found[1].point].Label)
	case o.clear:
		s.Kind, s.Likely = o.mend.kind, w.position(o.mend.place)
		s.Message += "; " + o.mend.what + " would bring it onto the line"
	}
	w.add(s, which...)
}

// distance returns how far a place (m) lies off a line.
func distance(l fit.LineFit, p r3.Vec) float64 { return p.Sub(l.From).Reject(l.Dir).Norm() }

// digits looks for the one slip that alone explains a point off the line:
// neighbouring digits exchanged, a sign, a unit.
func (w *watch) digits(p r3.Vec, l fit.LineFit) (mend, bool) {
	var fitting []mend
	for _, m := range append(w.transposed(p), mends(p)...) {
		if distance(l, m.place) < onLine && between(l, m.place) {
			fitting = append(fitting, m)
		}
	}
	if len(fitting) != 1 {
		return mend{}, false
	}
	return fitting[0], true
}

// between reports whether a place lies alongside the points of the line, or no
// further beyond than half their extent.
func between(l fit.LineFit, p r3.Vec) bool {
	length := l.To.Dist(l.From)
	t := p.Sub(l.From).Dot(l.Dir)
	return t > -length/2 && t < 3*length/2
}

// transposed lists the places with two neighbouring digits exchanged, in the
// table's own unit.
func (w *watch) transposed(p r3.Vec) []mend {
	sc, ok := scaleOf(w.words.Length)
	if !ok {
		sc, _ = scaleOf("mm")
	}
	var out []mend
	for k, axis := range axisNames {
		text := roundTo(math.Abs(axisOf(p, k)) / sc.si)
		for i := range len(text) {
			j := i + 1
			if j < len(text) && text[j] == '.' {
				j++
			}
			if j >= len(text) || text[i] == '.' || text[i] == text[j] {
				continue
			}
			b := []byte(text)
			b[i], b[j] = b[j], b[i]
			v, err := strconv.ParseFloat(string(b), 64)
			if err != nil {
				continue
			}
			v = math.Copysign(v*sc.si, axisOf(p, k))
			out = append(out, mend{"digits-swapped", fmt.Sprintf("%s = %s in place of %s", axis, strings.TrimPrefix(string(b), "+"), text), withAxis(p, k, v)})
		}
	}
	return out
}

// turns finds a torch turned away from the others of its seam, where at least
// two others agree.
func (w *watch) turns() {
	for _, seam := range w.seams.order {
		var with []int
		for _, i := range w.seams.of[seam] {
			if w.points[i].HasTurn && !w.told[i] {
				with = append(with, i)
			}
		}
		if len(with) <= largeGroup {
			for _, i := range with {
				w.turnedAway(i, with)
			}
		}
	}
}

func (w *watch) turnedAway(i int, with []int) {
	const least = 2
	rest := slices.DeleteFunc(slices.Clone(with), func(k int) bool { return k == i })
	if len(rest) < least {
		return
	}
	nearest, farthest, spread := math.Inf(1), 0.0, 0.0
	for _, a := range rest {
		d := w.angle(i, a)
		nearest, farthest = min(nearest, d), max(farthest, d)
		for _, b := range rest {
			spread = max(spread, w.angle(a, b))
		}
	}
	if spread > turnAgree || nearest <= turnOff {
		return
	}
	w.add(Suspicion{Kind: "turn-off", Measured: nearest, Limit: turnOff, Unit: "deg",
		Message: fmt.Sprintf("the torch at %q is turned %.0f deg away from the other points of its seam, which agree within %.0f deg: a lost sign or exchanged turns?",
			w.points[i].Label, nearest, spread)}, i)
}

// angle returns the angle between the orientations of two points, deg.
func (w *watch) angle(a, b int) float64 {
	return w.points[a].Pose.R.T().Mul(w.points[b].Pose.R).Log().Norm() * 180 / math.Pi
}

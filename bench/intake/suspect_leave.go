package intake

import (
	"fmt"
	"slices"
)

// Bounds of approaches and retreats, beside those of the whole table.
const (
	leaveLeast  = 3     // pairs that tell what is usual
	leaveFar    = 0.200 // m, below which nothing is suspected
	leaveTimes  = 3     // times the usual distance of the others
	leaveMended = 2     // times that, within which a mend must bring it
)

// pair is a point in the air and the weld's end that it belongs to.
type pair struct{ air, weld int }

// leavePairs lists the approaches with their starts and the retreats with their
// ends that are not suspected yet.
func (w *watch) leavePairs() []pair {
	var out []pair
	for _, seam := range w.seams.order {
		e := w.endsOf(seam)
		for _, p := range []pair{{e.in, e.start}, {e.out, e.end}} {
			if p.air >= 0 && p.weld >= 0 {
				out = append(out, p)
			}
		}
	}
	return out
}

// leaves finds an approach or a retreat that lies far from its weld where the
// others are near theirs, and one slip explains it.
func (w *watch) leaves() {
	pairs := w.leavePairs()
	if len(pairs) < leaveLeast {
		return
	}
	var all []float64
	for _, p := range pairs {
		all = append(all, w.far(p.air, p.weld))
	}
	for k, p := range pairs {
		usual := median(slices.Delete(slices.Clone(all), k, k+1))
		if limit := max(leaveFar, leaveTimes*usual); all[k] > limit {
			w.leave(p, all[k], limit, leaveMended*usual)
		}
	}
}

// leave looks for the slip of either point that brings the two together.
func (w *watch) leave(p pair, now, limit, within float64) {
	type fitting struct {
		point int
		mend  mend
	}
	var found []fitting
	for _, points := range [][2]int{{p.weld, p.air}, {p.air, p.weld}} {
		other := w.points[points[1]].Pose.P
		for _, m := range mends(w.points[points[0]].Pose.P) {
			if d := m.place.Dist(other); d <= within && !w.upon(points[0], m) {
				found = append(found, fitting{points[0], m})
			}
		}
	}
	if len(found) == 0 {
		return
	}
	a, b := w.points[p.air].Label, w.points[p.weld].Label
	s := Suspicion{Kind: found[0].mend.kind, Measured: now * 1000, Limit: limit * 1000, Unit: "mm",
		Message: fmt.Sprintf("%q lies %.0f mm from %q, far more than the others of their kind; %s at %q would bring them together", a, now*1000, b, found[0].mend.what, w.points[found[0].point].Label)}
	if len(found) == 1 {
		s.Likely = fmt.Sprintf("%q at %s", w.points[found[0].point].Label, w.position(found[0].mend.place))
	} else {
		s.Message += fmt.Sprintf(", and so would %s at %q", found[1].mend.what, w.points[found[1].point].Label)
	}
	w.told[p.air], w.told[p.weld] = true, true
	w.add(s, found[0].point)
}

// upon reports whether a mend would put a point upon another one.
func (w *watch) upon(point int, m mend) bool {
	const near = 0.010 // m
	return slices.ContainsFunc(w.points, func(p Point) bool {
		return p.HasPlace && p.Label != w.points[point].Label && p.Pose.P.Dist(m.place) < near
	})
}

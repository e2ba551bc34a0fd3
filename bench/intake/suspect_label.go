package intake

import (
	"fmt"
	"math"
	"slices"
)

// twins finds copied rows and labels that stand twice.
func (w *watch) twins() {
	first := map[string]int{}
	for i, p := range w.points {
		if k, twice := first[p.Label]; !twice {
			first[p.Label] = i
		} else if w.seams.names[i].Part != PartHome && !w.same(i, k) {
			w.add(Suspicion{Kind: "label-twice", Message: fmt.Sprintf("%q stands twice, with different numbers", p.Label)}, k, i)
		}
	}
	for _, seam := range w.seams.order {
		group := w.seams.of[seam]
		if len(group) > largeGroup {
			continue
		}
		for a, i := range group {
			for _, k := range group[a+1:] {
				w.twin(i, k, group)
			}
		}
	}
}

// same reports whether two points have the same numbers.
func (w *watch) same(i, k int) bool {
	a, b := w.points[i], w.points[k]
	if a.HasPlace != b.HasPlace || a.HasTurn != b.HasTurn || len(a.Joints) != len(b.Joints) {
		return false
	}
	for n := range a.Joints {
		if math.Abs(a.Joints[n]-b.Joints[n]) > backHome {
			return false
		}
	}
	return a.Pose.P.Dist(b.Pose.P) <= samePlace && (!a.HasTurn || w.angle(i, k) <= 0.05)
}

// twin finds two points of one seam in the same place. The start and the end of
// a seam that closes on itself are one place, and so may an approach and a
// retreat be.
func (w *watch) twin(i, k int, group []int) {
	a, b := w.seams.names[i].Part, w.seams.names[k].Part
	more := slices.ContainsFunc(group, func(n int) bool { return w.seams.names[n].Part == PartAlong })
	closed := (a == PartStart && b == PartEnd || a == PartEnd && b == PartStart) && more
	if a == b && a != PartAlong || closed || !a.onLine() || !b.onLine() || w.points[i].Label == w.points[k].Label {
		return
	}
	if !w.points[i].HasPlace || !w.points[k].HasPlace || !w.same(i, k) || !w.points[i].HasTurn {
		return
	}
	w.told[k] = true
	w.add(Suspicion{Kind: "duplicate", Measured: w.points[i].Pose.P.Dist(w.points[k].Pose.P) * 1000, Limit: samePlace * 1000, Unit: "mm",
		Message: fmt.Sprintf("%q and %q have the same numbers: a row copied and not changed?", w.points[i].Label, w.points[k].Label)}, i, k)
}

// ends are the four points that a seam's labels promise, -1 where missing.
type ends struct{ start, end, in, out int }

func (w *watch) endsOf(seam string) ends {
	e := ends{-1, -1, -1, -1}
	for _, i := range w.seams.of[seam] {
		if !w.points[i].HasPlace || w.told[i] {
			continue
		}
		switch w.seams.names[i].Part {
		case PartStart:
			e.start = i
		case PartEnd:
			e.end = i
		case PartApproach:
			e.in = i
		case PartRetreat:
			e.out = i
		}
	}
	return e
}

// far returns the distance between two points, m; 0 where one is missing.
func (w *watch) far(i, k int) float64 {
	if i < 0 || k < 0 {
		return 0
	}
	return w.points[i].Pose.P.Dist(w.points[k].Pose.P)
}

// exchanged finds seams whose starts or ends carry each other's label. Only
// those count whose approach or retreat lies far away.
func (w *watch) exchanged() {
	var far []ends
	for _, seam := range w.seams.order {
		if e := w.endsOf(seam); w.cost(e) > strayed {
			far = append(far, e)
		}
	}
	for a, e := range far {
		for _, f := range far[a+1:] {
			w.exchangedWith(e, f)
		}
	}
}

// labels finds labels that say another thing than the geometry of their seam.
func (w *watch) labels() {
	for _, seam := range w.seams.order {
		if e := w.endsOf(seam); !w.turnedRound(e) {
			w.approaches(e)
		}
	}
}

// cost is how far a seam's approach and retreat lie from their ends, m.
func (w *watch) cost(e ends) float64 { return w.far(e.in, e.start) + w.far(e.out, e.end) }

// exchangedWith compares two seams.
func (w *watch) exchangedWith(e, f ends) {
	if e.start >= 0 && f.start >= 0 && e.in >= 0 && f.in >= 0 {
		w.exchange(e, f, ends{f.start, e.end, e.in, e.out}, ends{e.start, f.end, f.in, f.out}, e.start, f.start)
	}
	if e.end >= 0 && f.end >= 0 && e.out >= 0 && f.out >= 0 {
		w.exchange(e, f, ends{e.start, f.end, e.in, e.out}, ends{f.start, e.end, f.in, f.out}, e.end, f.end)
	}
}

// exchange tells of points i and k where two seams e and f become far shorter
// ways as e2 and f2, with the labels of the points exchanged.
func (w *watch) exchange(e, f, e2, f2 ends, i, k int) {
	now, then := w.cost(e)+w.cost(f), w.cost(e2)+w.cost(f2)
	const factor = 3
	if w.told[i] || w.told[k] || now <= factor*then || now-then <= 2*strayed {
		return
	}
	w.told[i], w.told[k] = true, true
	a, b := w.points[i].Label, w.points[k].Label
	w.add(Suspicion{Kind: "labels-swapped", Measured: now * 1000, Limit: factor * then * 1000, Unit: "mm",
		Likely:  fmt.Sprintf("exchange the labels %q and %q", a, b),
		Message: fmt.Sprintf("%q and %q lie %.0f mm from their approaches and retreats together; with their labels exchanged it would be %.0f mm", a, b, now*1000, then*1000)}, i, k)
}

// turnedRound finds a seam whose approach lies at its end.
func (w *watch) turnedRound(e ends) bool {
	if e.start < 0 || e.end < 0 || e.in < 0 {
		return false
	}
	now, then := w.cost(e), w.cost(ends{e.end, e.start, e.in, e.out})
	const factor, least = 1.5, 0.050 // m
	if now <= factor*then || now-then <= least {
		return false
	}
	w.add(Suspicion{Kind: "start-and-end-swapped", Measured: now * 1000, Limit: factor * then * 1000, Unit: "mm",
		Likely: fmt.Sprintf("exchange the labels %q and %q", w.points[e.start].Label, w.points[e.end].Label),
		Message: fmt.Sprintf("%q lies nearer to %q than to %q, by %.0f mm", w.points[e.in].Label, w.points[e.end].Label, w.points[e.start].Label,
			(w.far(e.in, e.start)-w.far(e.in, e.end))*1000)}, e.start, e.end)
	return true
}

// approaches finds an approach that is far from its start, or past it along the
// wire.
func (w *watch) approaches(e ends) {
	for _, pair := range [][2]int{{e.in, e.start}, {e.out, e.end}} {
		i, k := pair[0], pair[1]
		if i < 0 || k < 0 {
			continue
		}
		if d := w.far(i, k); d > approachFar {
			w.add(Suspicion{Kind: "approach-far", Measured: d * 1000, Limit: approachFar * 1000, Unit: "mm",
				Message: fmt.Sprintf("%q lies %.0f mm from %q", w.points[i].Label, d*1000, w.points[k].Label)}, i)
			continue
		}
		const touching = 0.005 // m, past the plate's face
		if a, b := w.points[i], w.points[k]; w.words.Point == "tip" && b.HasTurn {
			if deep := a.Pose.P.Sub(b.Pose.P).Dot(b.Pose.R.Z()); deep > touching {
				w.add(Suspicion{Kind: "approach-past-start", Measured: deep * 1000, Limit: touching * 1000, Unit: "mm",
					Message: fmt.Sprintf("%q lies %.0f mm deeper along the wire than %q: inside the part, or the orientation is read wrongly", a.Label, deep*1000, b.Label)}, i)
			}
		}
	}
}

// home looks at the rows called home: they are one place, and a whole list
// with moves ends there.
func (w *watch) home() {
	var rows []int
	for i, n := range w.seams.names {
		if n.Part == PartHome {
			rows = append(rows, i)
		}
	}
	if len(rows) == 0 {
		return
	}
	for _, i := range rows[1:] {
		if !w.nearHome(rows[0], i) {
			w.add(Suspicion{Kind: "home-differs", Message: fmt.Sprintf("%q and %q are called home and have different numbers", w.points[rows[0]].Label, w.points[i].Label)}, rows[0], i)
		}
	}
	moves := slices.ContainsFunc(w.points, func(p Point) bool { return p.Move != "" })
	if last := len(w.points) - 1; moves && rows[0] == 0 && len(rows) == 1 && last > 0 {
		w.add(Suspicion{Kind: "home-not-repeated", Message: fmt.Sprintf("the list begins at %q and does not end there", w.points[0].Label)}, last)
	}
}

// nearHome reports whether two rows are the same home, or cannot be compared.
func (w *watch) nearHome(i, k int) bool {
	a, b := w.points[i], w.points[k]
	switch {
	case a.HasPlace && b.HasPlace:
		return a.Pose.P.Dist(b.Pose.P) <= backHome && (!a.HasTurn || !b.HasTurn || w.angle(i, k) <= 0.5)
	case len(a.Joints) > 0 && len(a.Joints) == len(b.Joints):
		for n := range a.Joints {
			if math.Abs(a.Joints[n]-b.Joints[n]) > backHome {
				return false
			}
		}
	}
	return true
}

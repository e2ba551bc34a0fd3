package section

import "math"

// layer is a level of beads side by side.
type layer struct {
	faces   []face
	grounds []surface // what each bead is laid on
	after   surface
	low     float64 // m, least height of the faces over the line between the layer's toes
	fits    bool
}

// shared is the share of a bead's face that its neighbour in the layer covers,
// dimensionless: a third to a half (read in workshop articles); half here, which
// leaves the shallowest valleys.
const shared = 0.5

// The turns of the faces that are tried, rad. A face that turns by 144 degrees
// meets flat metal at 72. They are tried in coarse steps first, then in steps halved
// twice round the best; in fine steps where no coarse one is possible.
const (
	leastTurn  = 16 * math.Pi / 180
	mostTurn   = 144 * math.Pi / 180
	coarseTurn = 32 * math.Pi / 180
	fineTurn   = 8 * math.Pi / 180
)

// lay returns the layer of beads of given areas (m2) between two toes: the places
// head (m) from the start of the surface and tail (m) from its end. A single bead
// gets the face that its area makes. Of several, all but the last have faces of one
// turn and reach as far as their area takes them, each over half of the one before;
// the last closes the layer. The turn is the one that leaves the layer least rough:
// the highest ridge nearest in height to the deepest valley.
func lay(s surface, head, tail float64, areas []float64) layer {
	t := try{first: s.spot(head).Point, end: s.spot(s.length() - tail).Point, head: head, tail: tail, areas: areas,
		faces: make([]face, 0, len(areas)), points: make([]Point, 0, faceSteps+1)}
	turn, ok := 0.0, true
	t.films = true
	if len(areas) > 1 {
		turn, ok = t.smoothest(s)
	}
	if !ok || !t.run(s, turn) {
		return layer{}
	}
	out := layer{faces: t.faces, low: t.low, fits: true}
	for _, f := range out.faces {
		out.grounds = append(out.grounds, s)
		var next surface
		s.cover(&next, f.from, f.to, f.points(nil))
		s = next
	}
	out.after = s
	return out
}

// smoothest returns the turn (rad) that leaves the layer least rough, and false
// where none is possible. Closing beads that film over ridges are second best.
func (t *try) smoothest(s surface) (turn float64, ok bool) {
	rough := math.Inf(1)
	scan := func(from, to, step float64) {
		for at := from; at <= to+step/2; at += step {
			if t.run(s, at) && t.high-t.low < rough {
				turn, rough, ok = at, t.high-t.low, true
			}
		}
	}
	for _, t.films = range []bool{false, true} {
		if scan(leastTurn, mostTurn, coarseTurn); ok {
			break
		}
		if scan(leastTurn, mostTurn, fineTurn); ok {
			return turn, true
		}
	}
	for step := coarseTurn / 2; step > fineTurn/2; step /= 2 {
		best := turn
		scan(max(best-step, leastTurn), min(best+step, mostTurn), 2*step)
	}
	return turn, ok
}

// try lays a layer with one turn after the other, in memory of its own.
type try struct {
	first, end Point // toes of the layer
	head, tail float64
	low, high  float64 // m, of the faces over the line between the toes
	films      bool    // the last bead may film over ridges
	areas      []float64
	faces      []face
	points     []Point
	scratch    [2]surface
}

// run lays the layer with faces that turn by turn (rad), the last excepted, and
// reports whether that is possible.
func (t *try) run(s surface, turn float64) (ok bool) {
	across := t.end.sub(t.first)
	width := math.Sqrt(across.dot(across))
	off := Point{across.Y / width, -across.X / width}
	t.faces = t.faces[:0]
	t.low, t.high = math.Inf(1), math.Inf(-1)
	from := t.head
	for i, area := range t.areas {
		last := i == len(t.areas)-1
		var f face
		if last {
			f, ok = closing(s, from, s.length()-t.tail, area, t.films)
		} else {
			f, ok = reaching(s, from, s.length()-t.tail, area, turn)
		}
		if !ok {
			return false
		}
		t.faces = append(t.faces, f)
		t.points = f.points(t.points[:0])
		open := t.points
		if !last {
			open = open[:faceSteps/2+1] // the next bead covers the other half
		}
		for _, p := range open {
			height := p.sub(t.first).dot(off)
			t.low, t.high = min(t.low, height), max(t.high, height)
		}
		if !last {
			next := &t.scratch[i%2]
			s.cover(next, f.from, f.to, t.points)
			s = *next
			from += (1 - shared) * faceLength(f)
		}
	}
	return true
}

// closing returns the bead of an area (m2) between two places (m along the
// surface); it fails above a half circle, and over ridges unless it may film them.
func closing(s surface, from, to, area float64, films bool) (face, bool) {
	f := face{from: s.spot(from), to: s.spot(to)}
	d := f.to.sub(f.from.Point)
	var ok bool
	if f.turn, ok = turnFor((area - s.under(f.from, f.to)) / d.dot(d)); ok && f.clears(s) {
		return f, true
	}
	if !films || f.turn == math.Pi {
		return f, false
	}
	return filmed(s, f, area)
}

// reaching returns the bead of an area (m2) that starts at a place (m along the
// surface) and whose face turns by turn (rad); it fails where the bead would reach
// past end (m), or under a ridge.
//
// Regula falsi with the Illinois halving on the place where the bead ends.
func reaching(s surface, from, end, area, turn float64) (face, bool) {
	f := face{from: s.spot(from), turn: turn}
	share := segmentShare(turn)
	miss := func(to float64) float64 {
		f.to = s.spot(to)
		d := f.to.sub(f.from.Point)
		return s.under(f.from, f.to) + float64(share*d.dot(d)) - area
	}
	low, high := from, end
	missLow, missHigh := -area, miss(end)
	if missHigh <= 0 {
		return f, false
	}
	side := 0
	for range 60 {
		to := (float64(low*missHigh) - float64(high*missLow)) / (missHigh - missLow)
		got := miss(to)
		if math.Abs(got) < 1e-12*area || high-low < 1e-12 {
			break
		}
		if got > 0 {
			high, missHigh = to, got
			if side > 0 {
				missLow /= 2
			}
			side = 1
		} else {
			low, missLow = to, got
			if side < 0 {
				missHigh /= 2
			}
			side = -1
		}
	}
	return f, f.clears(s)
}

// faceLength returns the length of a face along its steps, m.
func faceLength(f face) float64 {
	chord := f.to.sub(f.from.Point).norm()
	if math.Abs(f.turn) < 1e-9 {
		return chord
	}
	return chord * faceSteps * math.Sin(f.turn/2/faceSteps) / math.Sin(f.turn/2)
}

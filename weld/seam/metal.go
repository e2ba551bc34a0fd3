package seam

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"seamwright/weld/deposit"
)

// SpeedAt is the travel speed (m/s) at an arc length (m) of a seam.
type SpeedAt struct {
	Arc   float64 // m
	Speed float64 // m/s
}

// Dwell is a stand of the arc at one place of a seam, as in a corner where the
// torch turns in place.
type Dwell struct {
	Arc  float64 // m, arc length
	Time float64 // s, with the arc on
	// Feed is the wire feed during the dwell over that of the seam,
	// dimensionless; 0 means 1.
	Feed float64
	// Spread is the length of seam (m) over which the metal of the dwell
	// spreads evenly, half of it on either side; 0 means LumpLength times the
	// leg that the bead has there without the dwell.
	Spread float64
}

// LumpLength is the length of a lump over the leg of the bead on which it is
// laid, dimensionless: a pool some 8 mm long on a 6 mm leg. Chosen here so that
// the project's worked example comes out (236 mm3 on a bead of 19.8 mm2 make a
// lump of about 9.5 mm leg); the metal filled into a quarter cone round an
// outside corner gives 9.4. No source: weigh a trial piece.
const LumpLength = 4.0 / 3

// MetalRequest says how a fillet is run. Speeds has at least one row, rising in
// arc length; between rows the speed goes evenly with the arc length, outside
// them it stays. Length is the seam's, m.
type MetalRequest struct {
	Melt   deposit.Melt
	Shape  deposit.Shape
	Length float64 // m
	Speeds []SpeedAt
	Dwells []Dwell
}

// Metal is the metal laid along a seam whose speed is not constant. Make one
// with NewMetal; it never changes.
type Metal struct {
	r     MetalRequest
	lumps []lump
}

// lump is metal spread evenly from one arc length to another (m): area m2.
type lump struct{ from, to, area float64 }

// NewMetal returns the metal that r lays. It fails for wire, shape and speeds
// outside the ranges of package deposit (a stop is a dwell, not a speed of 0),
// rows that do not rise, and dwells off the seam, below 0 s or over 60 s.
func NewMetal(r MetalRequest) (Metal, error) {
	if err := cmp.Or(r.Melt.Validate(), r.Shape.Validate()); err != nil {
		return Metal{}, fmt.Errorf("seam: metal along the path: %w", err)
	}
	r.Speeds, r.Dwells = slices.Clone(r.Speeds), slices.Clone(r.Dwells)
	if !(r.Length > 0) || math.IsInf(r.Length, 1) {
		return Metal{}, fmt.Errorf("seam: metal along a path of %.3g m: a length above 0 is needed", r.Length)
	}
	if len(r.Speeds) == 0 {
		return Metal{}, fmt.Errorf("seam: metal along the path: no travel speed is told")
	}
	for i, v := range r.Speeds {
		if _, err := r.Melt.BeadArea(v.Speed); err != nil {
			return Metal{}, fmt.Errorf("seam: travel speed %d, at %.1f mm: %w; tell a stop as a dwell", i+1, v.Arc*1e3, err)
		}
		if math.IsNaN(v.Arc) || math.IsInf(v.Arc, 0) || i > 0 && !(v.Arc > r.Speeds[i-1].Arc) {
			return Metal{}, fmt.Errorf("seam: travel speed %d is told at %.6g m, not behind the one before: order them along the seam", i+1, v.Arc)
		}
	}
	m := Metal{r: r}
	for i, d := range r.Dwells {
		l, err := m.lump(d)
		if err != nil {
			return Metal{}, fmt.Errorf("seam: dwell %d: %w", i+1, err)
		}
		m.lumps = append(m.lumps, l)
	}
	return m, nil
}

// lump returns the metal of a dwell spread over the seam; what would lie past an
// end of the seam is heaped on this side of it.
func (m Metal) lump(d Dwell) (lump, error) {
	const longest = 60 // s: beyond it, somebody typed another unit
	if !(d.Arc >= 0 && d.Arc <= m.r.Length) {
		return lump{}, fmt.Errorf("at %.6g m of a seam of %.6g m", d.Arc, m.r.Length)
	}
	if !(d.Time >= 0 && d.Time <= longest) {
		return lump{}, fmt.Errorf("of %.3g s: 0 to %d s are possible", d.Time, longest)
	}
	if !(d.Spread >= 0) || math.IsInf(d.Spread, 1) {
		return lump{}, fmt.Errorf("spread over %.3g m: 0 or more is needed", d.Spread)
	}
	if d.Feed < 0 || math.IsNaN(d.Feed) || d.Feed > maxFeed {
		return lump{}, fmt.Errorf("with %.3g times the feed: 0 to %d are possible, 0 for all of it", d.Feed, maxFeed)
	}
	if d.Spread == 0 {
		leg, err := m.r.Shape.Leg(m.r.Melt.Flow() / m.Speed(d.Arc))
		if err != nil {
			return lump{}, err
		}
		d.Spread = LumpLength * leg
	}
	l := lump{from: max(0, d.Arc-d.Spread/2), to: min(m.r.Length, d.Arc+d.Spread/2)}
	l.area = m.r.Melt.Flow() * d.feed() * d.Time / (l.to - l.from)
	return l, nil
}

// maxFeed is the most feed in a dwell over that of the seam: beyond it, somebody
// typed the feed itself.
const maxFeed = 2

func (d Dwell) feed() float64 {
	if d.Feed == 0 {
		return 1
	}
	return d.Feed
}

// Lump returns where the metal of dwell i, in the order of the request, begins
// and ends along the seam, in metres of arc length.
func (m Metal) Lump(i int) (from, to float64) { return m.lumps[i].from, m.lumps[i].to }

// Speed returns the travel speed (m/s) at an arc length (m).
func (m Metal) Speed(arc float64) float64 {
	rows := m.r.Speeds
	i := sort.Search(len(rows), func(i int) bool { return rows[i].Arc >= arc })
	switch {
	case i == 0:
		return rows[0].Speed
	case i == len(rows):
		return rows[i-1].Speed
	}
	a, b := rows[i-1], rows[i]
	return a.Speed + (b.Speed-a.Speed)*(arc-a.Arc)/(b.Arc-a.Arc)
}

// Area returns the bead's cross-section (m2) at an arc length (m): the flow of
// metal over the travel speed, and the lumps of the dwells there. Volume
// balance, exact; the lumps' spread is an assumption.
func (m Metal) Area(arc float64) float64 {
	area := m.r.Melt.Flow() / m.Speed(arc)
	for _, l := range m.lumps {
		if arc >= l.from && arc <= l.to {
			area += l.area
		}
	}
	return area
}

// Leg returns the first leg (m) of the fillet at an arc length (m), or an error
// where the area leaves the range of package deposit, which the formula is of (derived
// there).
func (m Metal) Leg(arc float64) (float64, error) { return m.r.Shape.Leg(m.Area(arc)) }

// Time returns the time (s) with the arc on, dwells included.
func (m Metal) Time() float64 {
	sum := m.TravelTime(0, m.r.Length)
	for _, d := range m.r.Dwells {
		sum += d.Time
	}
	return sum
}

// TravelTime returns the time (s) of the travel from one arc length to another
// (m), dwells left out: the integral of 1/speed in closed form, for a speed even
// in arc length.
func (m Metal) TravelTime(from, to float64) float64 {
	var sum float64
	last := SpeedAt{Arc: from, Speed: m.Speed(from)}
	add := func(next SpeedAt) {
		sum += travelTime(next.Arc-last.Arc, last.Speed, next.Speed)
		last = next
	}
	for _, v := range m.r.Speeds {
		if v.Arc > from && v.Arc < to {
			add(v)
		}
	}
	add(SpeedAt{Arc: to, Speed: m.Speed(to)})
	return sum
}

// travelTime returns the time (s) over length (m) with a speed (m/s) that goes
// evenly from a to b: length * ln(b/a) / (b - a).
func travelTime(length, a, b float64) float64 {
	x := (b - a) / a
	if math.Abs(x) < 1e-8 {
		return length / a * (1 - x/2)
	}
	return length / a * math.Log1p(x) / x
}

// Volume returns all the metal (m3) laid: the flow times the time, less in dwells
// with less feed.
func (m Metal) Volume() float64 {
	time := m.TravelTime(0, m.r.Length)
	for _, d := range m.r.Dwells {
		time += d.feed() * d.Time
	}
	return m.r.Melt.Flow() * time
}

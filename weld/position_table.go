package weld

import (
	"fmt"
	"math"
)

// positionCell is one block of a code's table of positions: inclination of the
// axis and tilt of the face, both in degrees as the codes print them, the
// upper ends included. Blocks of one table tile 0 to 90 by 0 to 180.
type positionCell struct {
	incl0, incl1 float64 // degrees
	tilt0, tilt1 float64 // degrees from face up, 180 minus the rotation of AWS A3.0
	up, down     PositionName
}

// The tables. AWS A3.0 and D1.1 position diagrams: the vertical groove row is
// read in AWS D3.6 Fig. 5.1, the rest from memory. ISO 6947 Tables 1 and 2,
// from memory (2011 text); ISO and AWS agree on every limit they share.
var (
	awsGroove = []positionCell{
		{0, 15, 0, 30, Flat1G, Flat1G},
		{0, 15, 30, 100, Horizontal2G, Horizontal2G},
		{0, 80, 100, 180, Overhead4G, Overhead4G},
		{15, 80, 0, 100, Vertical3G, Vertical3G},
		{80, 90, 0, 180, Vertical3G, Vertical3G},
	}
	awsFillet = []positionCell{
		{0, 15, 0, 30, Flat1F, Flat1F},
		{0, 15, 30, 55, Horizontal2F, Horizontal2F},
		{0, 80, 55, 180, Overhead4F, Overhead4F},
		{15, 80, 0, 55, Vertical3F, Vertical3F},
		{80, 90, 0, 180, Vertical3F, Vertical3F},
	}
	isoGroove = []positionCell{
		{0, 15, 0, 30, PA, PA},
		{0, 15, 30, 100, PC, PC},
		{0, 80, 100, 180, PE, PE},
		{15, 80, 0, 100, PF, PG},
		{80, 90, 0, 180, PF, PG},
	}
	isoFillet = []positionCell{
		{0, 15, 0, 30, PA, PA},
		{0, 15, 30, 55, PB, PB},
		{0, 15, 55, 100, PC, PC},
		{0, 80, 100, 145, PD, PD},
		{0, 80, 145, 180, PE, PE},
		{15, 80, 0, 100, PF, PG},
		{80, 90, 0, 180, PF, PG},
	}
)

// positionTables returns the tables of both families for a weld kind.
func positionTables(kind WeldKind) (iso, aws []positionCell, err error) {
	switch kind {
	case Fillet:
		return isoFillet, awsFillet, nil
	case Groove:
		return isoGroove, awsGroove, nil
	}
	return nil, nil, fmt.Errorf("welding position: %v; it must be fillet or groove", kind)
}

// limitSlack is the angle, rad, by which a weld may pass a limit and still be
// called inside, so that a face set exactly on a limit is named alike on every
// machine. It is a hundred-thousandth of what a level can read.
const limitSlack = 1e-9

// contains reports whether the cell holds an inclination and tilt, rad.
func (c positionCell) contains(incl, tilt float64) bool {
	return incl <= degrees(c.incl1)+limitSlack && tilt <= degrees(c.tilt1)+limitSlack &&
		(c.incl0 == 0 || incl > degrees(c.incl0)+limitSlack) &&
		(c.tilt0 == 0 || tilt > degrees(c.tilt0)+limitSlack)
}

// name returns the cell's position for a progression; level counts as uphill,
// which only cells that never hold a level axis tell apart.
func (c positionCell) name(p Progression) PositionName {
	if p == Downhill {
		return c.down
	}
	return c.up
}

// place names the position at an inclination and tilt, rad, and finds the
// nearest limit.
func place(cells []positionCell, incl, tilt float64, p Progression) (PositionName, PositionLimit) {
	var here PositionName
	for _, c := range cells {
		if c.contains(incl, tilt) {
			here = c.name(p)
			break
		}
	}
	near := PositionLimit{Distance: math.Inf(1)}
	for _, c := range cells {
		if c.name(p) == here {
			continue
		}
		if d := c.distance(incl, tilt); d < near.Distance {
			near = PositionLimit{Distance: d, Beyond: c.name(p)}
		}
	}
	return here, near
}

// distance returns the smallest turn of the part, rad, that carries a weld at
// the given inclination and tilt (rad, outside the cell) to the cell's edge.
//
// Seen from the weld, "up" is a point on a sphere: inclination is its latitude
// and tilt its longitude, the weld axis being the pole. A turn of the part
// moves that point by the angle of the turn, so the answer is the shortest
// arc from the point to the cell, a block between two parallels and two
// meridians. Derived.
func (c positionCell) distance(incl, tilt float64) float64 {
	lat0, lat1 := degrees(c.incl0), degrees(c.incl1)
	lon0, lon1 := degrees(c.tilt0), degrees(c.tilt1)
	best := math.Inf(1)
	// On a parallel the nearest point is the one nearest in longitude.
	lon := min(max(tilt, lon0), lon1)
	for _, lat := range []float64{lat0, lat1} {
		best = min(best, arc(incl, lat, tilt-lon))
	}
	// On a meridian it is the foot of the square dropped on it, or an end.
	for _, lon := range []float64{lon0, lon1} {
		foot := math.Atan2(math.Sin(incl), math.Cos(incl)*math.Cos(tilt-lon))
		best = min(best, arc(incl, min(max(foot, lat0), lat1), tilt-lon))
	}
	return best
}

// arc returns the great-circle angle, rad, between two points at latitudes a
// and b (rad) whose longitudes differ by dLon (rad). Haversine form, exact for
// small angles; R. W. Sinnott, Sky and Telescope 68 (1984), from memory.
func arc(a, b, dLon float64) float64 {
	sLat, sLon := math.Sin((a-b)/2), math.Sin(dLon/2)
	h := sLat*sLat + math.Cos(a)*math.Cos(b)*sLon*sLon
	return 2 * math.Asin(math.Sqrt(min(1, h)))
}

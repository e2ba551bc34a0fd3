package export

import (
	"fmt"
	"math"

	"seamwright/bench/plan"
	"seamwright/unit"
)

// over returns the parts of a line of points that lie above a height (pixels, y
// down), cut where it is crossed.
func over(points [][2]float64, limit float64) [][][2]float64 {
	var parts [][][2]float64
	var part [][2]float64
	for i, p := range points {
		if i > 0 {
			q := points[i-1]
			if (p[1] < limit) != (q[1] < limit) {
				f := (limit - q[1]) / (p[1] - q[1])
				part = append(part, [2]float64{q[0] + f*(p[0]-q[0]), limit})
				if p[1] >= limit {
					parts, part = append(parts, part), nil
				}
			}
		}
		if p[1] < limit {
			part = append(part, p)
		}
	}
	if len(part) > 1 {
		parts = append(parts, part)
	}
	return parts
}

// size is what the first plot shows of a sample: the leg, or the metal of a bead
// of a given area.
func (d *drawing) size(s *plan.ProfileSample) float64 {
	if d.pass.Profile.Leg > 0 {
		return d.shown(unit.Length, s.Leg)
	}
	return d.shown(unit.Area, s.Area)
}

func (d *drawing) metalPanel() panel {
	high := d.shown(unit.Length, d.pass.Profile.LegMost)
	for i := range d.pass.Profile.Samples {
		if v := d.size(&d.pass.Profile.Samples[i]); !math.IsNaN(v) {
			high = max(high, v)
		}
	}
	return panel{top: 104, high: 160, low: 0, up: 1.12 * high}
}

func (d *drawing) metal(p *panel) {
	profile := d.pass.Profile
	points := d.plot(p, d.size)
	if len(points) == 0 {
		d.sheet.text(profileLeft, p.top-8, "start", "", "leg: cannot be told")
		return
	}
	name, kind := "leg, ", unit.Length
	if profile.Leg == 0 {
		name, kind = "metal along the seam, ", unit.Area
	}
	d.scale(p, name+d.unit(kind), ticks(0, p.up, 5), tickText)
	bead := append([][2]float64{{points[0][0], p.y(0)}}, points...)
	d.sheet.polyline("bead", append(bead, [2]float64{points[len(points)-1][0], p.y(0)}))
	d.sheet.polyline("line", points)
	if profile.Leg == 0 {
		return
	}
	for _, limit := range []struct {
		leg  float64
		what string
	}{{profile.Leg, "wanted"}, {profile.LegMost, "most at a corner"}} {
		y := p.y(d.shown(unit.Length, limit.leg))
		d.sheet.line("limit", profileLeft, y, profileRight, y)
		d.sheet.text(profileRight-6, y-5, "end", "small green", limit.what)
	}
	// A hair above the limit: what touches it is not over it.
	for _, part := range over(points, p.y(d.shown(unit.Length, profile.LegMost))-0.5) {
		d.sheet.polyline("over", part)
	}
}

func (d *drawing) speedPanel() panel {
	return panel{top: 306, high: 90, low: 0, up: 1.3 * d.shown(unit.Speed, d.pass.Size.Travel)}
}

func (d *drawing) speed(p *panel) {
	d.scale(p, "travel speed that the arm holds, "+d.unit(unit.Speed), ticks(0, p.up, 4), tickText)
	y := p.y(d.shown(unit.Speed, d.pass.Size.Travel))
	d.sheet.line("limit", profileLeft, y, profileRight, y)
	d.sheet.text(profileRight-6, y-5, "end", "small green", "planned")
	d.sheet.polyline("line", d.plot(p, func(s *plan.ProfileSample) float64 { return d.shown(unit.Speed, s.Speed) }))
}

// travelPanel leaves room for the limits and for what is beyond them.
func (d *drawing) travelPanel() panel {
	low, high := d.pass.Steepest()
	for i := range d.pass.Profile.Samples {
		t := d.pass.Profile.Samples[i].Travel
		low, high = min(low, t), max(high, t)
	}
	return panel{top: 438, high: 96, low: low*deg - 5, up: high*deg + 5}
}

func (d *drawing) travel(p *panel) {
	d.scale(p, "travel angle to the joint, deg", ticks(p.low, p.up, 5), func(v float64) string {
		switch {
		case v > 0:
			return fmt.Sprintf("push %.0f", v)
		case v < 0:
			return fmt.Sprintf("drag %.0f", -v)
		}
		return "0"
	})
	low, high := d.pass.Steepest()
	for _, limit := range []float64{low, high} {
		d.sheet.line("limit", profileLeft, p.y(limit*deg), profileRight, p.y(limit*deg))
	}
	points := d.plot(p, func(s *plan.ProfileSample) float64 { return s.Travel * deg })
	d.sheet.polyline("line", points)
	for _, part := range over(points, p.y(high*deg)-0.5) {
		d.sheet.polyline("over", part)
	}
	upside := make([][2]float64, len(points)) // so that below is above
	for i, q := range points {
		upside[i] = [2]float64{q[0], -q[1]}
	}
	for _, part := range over(upside, -p.y(low*deg)-0.5) {
		for i := range part {
			part[i][1] = -part[i][1]
		}
		d.sheet.polyline("over", part)
	}
}

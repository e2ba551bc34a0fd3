package export

import (
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/plan"
	"seamwright/unit"
)

// Places of a profile's drawing, pixels.
const (
	profileWide  = 980
	profileHigh  = 608
	profileLeft  = 96
	profileRight = 956
)

// panel is one of the three plots of a drawing.
type panel struct {
	top, high float64 // pixels
	low, up   float64 // values at its lower and upper edge, in the unit that is shown
}

func (p *panel) y(v float64) float64 {
	return p.top + p.high*(1-(math.Min(math.Max(v, p.low), p.up)-p.low)/(p.up-p.low))
}

// drawing draws the profile of one pass.
type drawing struct {
	seam   *plan.Seam
	pass   *plan.Pass
	system unit.System
	sheet  svgSheet
}

// shown is a quantity (SI) in the unit in which it is drawn.
func (d *drawing) shown(k unit.Kind, si float64) float64 {
	u, _ := k.Preferred(d.system)
	return u.Value(si)
}

func (d *drawing) unit(k unit.Kind) string {
	u, _ := k.Preferred(d.system)
	return u.String()
}

// x is where an arc length (m) is drawn.
func (d *drawing) x(arc float64) float64 {
	return profileLeft + (profileRight-profileLeft)*arc/d.seam.Length
}

func (d *drawing) svg() string {
	d.sheet = svgSheet{width: profileWide, height: profileHigh, title: d.seam.Name + ": what comes out along the seam"}
	d.sheet.text(profileLeft, 34, "start", "big", fmt.Sprintf("%s, pass %d: what comes out along the seam", d.seam.Name, d.pass.Number))
	leg, speed, travel := d.metalPanel(), d.speedPanel(), d.travelPanel()
	for _, p := range []*panel{&leg, &speed, &travel} {
		d.sheet.rect("panel", profileLeft, p.top, profileRight-profileLeft, p.high)
	}
	d.corners(&leg, &speed, &travel)
	d.metal(&leg)
	d.speed(&speed)
	d.travel(&travel)
	d.along(&travel)
	d.sheet.text(profileLeft, profileHigh-14, "start", "small", "Predicted from the wire feed, the speed that the arm holds and the time that the arc stands. Not measured: gauge a trial piece.")
	return d.sheet.svg()
}

// corners marks every corner and bend in all plots, and says over the first what
// it is.
func (d *drawing) corners(plots ...*panel) {
	first := plots[0]
	for i := range d.pass.Profile.Corners {
		c := &d.pass.Profile.Corners[i]
		from, to := d.x(c.Bend.From), d.x(c.Bend.To)
		if c.Sharp < 0 {
			if to-from < 0.98*(profileRight-profileLeft) { // not a seam that is round as a whole
				for _, p := range plots {
					d.sheet.rect("bend", from, p.top, to-from, p.high)
				}
				d.sheet.text((from+to)/2, first.top-8, "middle", "small", fmt.Sprintf("bend, radius %s", d.tape(c.Bend.Radius)))
			}
			continue
		}
		for _, p := range plots {
			d.sheet.line("mark", from, p.top, from, p.top+p.high)
		}
		d.sheet.text(from, first.top-24, "middle", "small", "corner "+d.tape(c.Bend.From))
		if c.Hold > 0 {
			d.sheet.text(from, first.top-8, "middle", "small", fmt.Sprintf("arc stands %.1f s", c.Hold))
		} else if c.Share.ArcOff {
			d.sheet.text(from, first.top-8, "middle", "small", "arc out")
		}
	}
}

func (d *drawing) tape(m float64) string { return finding.Along(m, d.system) }

// along writes the scale under the plots.
func (d *drawing) along(last *panel) {
	length := d.shown(unit.Length, d.seam.Length)
	y := last.top + last.high
	for _, v := range ticks(0, length, 8) {
		x := d.x(d.seam.Length * v / length)
		d.sheet.line("grid", x, y, x, y+5)
		d.sheet.text(x, y+20, "middle", "", tickText(v))
	}
	d.sheet.text((profileLeft+profileRight)/2, y+40, "middle", "", "along the seam, "+d.unit(unit.Length))
}

// scale draws the grid of a plot with its numbers and name.
func (d *drawing) scale(p *panel, name string, values []float64, say func(float64) string) {
	for _, v := range values {
		d.sheet.line("grid", profileLeft, p.y(v), profileRight, p.y(v))
		d.sheet.text(profileLeft-8, p.y(v)+5, "end", "", say(v))
	}
	d.sheet.text(profileLeft, p.top-8, "start", "", name)
}

// plot draws a quantity of the samples, in the unit that is shown.
func (d *drawing) plot(p *panel, of func(*plan.ProfileSample) float64) [][2]float64 {
	var points [][2]float64
	for i := range d.pass.Profile.Samples {
		s := &d.pass.Profile.Samples[i]
		if v := of(s); !math.IsNaN(v) {
			points = append(points, [2]float64{d.x(s.Arc), p.y(v)})
		}
	}
	return points
}

// ticks are round values from low to high, about n of them.
func ticks(low, high float64, n int) []float64 {
	step := math.Pow(10, math.Floor(math.Log10((high-low)/float64(n))))
	for _, f := range []float64{1, 2, 5, 10} {
		if (high-low)/(f*step) <= float64(n) {
			step *= f
			break
		}
	}
	var list []float64
	for k := math.Ceil(low/step - 1e-9); k*step <= high+1e-9*step; k++ {
		list = append(list, k*step+0)
	}
	return list
}

func tickText(v float64) string { return fmt.Sprintf("%.6g", math.Round(v*1e6)/1e6+0) }

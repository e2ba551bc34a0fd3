package gauge

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/weld"
	"seamwright/weld/accept"
	"seamwright/weld/deposit"
)

// Speed is the correction of the travel speed after gauging.
type Speed struct {
	// Was is the speed as welded and Mended the one that gives the wanted size, m/s;
	// Ratio is the second over the first, dimensionless. Of a weld in several
	// passes they are those of the speed that one pass would have.
	Was, Mended, Ratio float64
	// Got and Wanted are legs of the same area with equal sides, m.
	Got, Wanted float64
	// Unsure is how far the gauge alone may have the ratio off, a share either way,
	// dimensionless.
	Unsure float64
	Passes int
	// Refused says why there is no correction, "" where there is.
	Refused string
}

// Tells reports whether the correction is larger than what the gauge cannot tell.
func (s *Speed) Tells() bool { return s.Refused == "" && math.Abs(s.Ratio-1) > s.Unsure }

// Aim is the shift of the aim after gauging.
type Aim struct {
	// Base and Other are the legs as read, the mean over all places, m.
	Base, Other float64
	// Was is the offset as planned and Shift how far to go from it, m, positive
	// onto the base plate.
	Was   float64
	Shift weld.Figure
	// Unsure is how far the gauge alone may have the difference off, m.
	Unsure  float64
	Refused string
}

// Tells reports whether the legs differ by more than what the gauge cannot tell.
func (a *Aim) Tells() bool { return a.Refused == "" && math.Abs(a.Base-a.Other) > a.Unsure }

// legs are both legs at one place, m, with the step of the gauge, and the speed at
// which it was welded, m/s.
type legs struct{ base, other, throat, step, travel float64 }

// mend works out the corrections from every place at which both legs were read.
func (s *Seam) mend(j *job.Job, sized *plan.SizedSeam, rows []job.Gauging) {
	size := sized.Passes[0].Size
	var all []legs
	for _, row := range rows {
		if l, ok := legsOf(row); ok {
			if l.travel == 0 {
				l.travel = together(sized)
			}
			all = append(all, l)
		}
	}
	if len(all) == 0 {
		return
	}
	if size.DrawnLegBase == 0 {
		s.Notes = append(s.Notes, "no correction: the job gives no leg or throat to correct for")
		return
	}
	var sum, area, inverse, unsure float64
	var mean legs
	for _, l := range all {
		area += l.base * l.other * l.travel
		sum += l.base * l.other
		inverse += l.travel
		mean.base, mean.other = mean.base+l.base, mean.other+l.other
		mean.step = max(mean.step, l.step)
		unsure = max(unsure, l.step/2/l.base+l.step/2/l.other)
	}
	n := float64(len(all))
	mean.base, mean.other = mean.base/n, mean.other/n
	s.speed(sized, Speed{Was: inverse / n, Got: math.Sqrt(sum / n), Wanted: math.Sqrt(size.DrawnLegBase * size.DrawnLegOther), Unsure: unsure, Passes: len(sized.Passes)}, area/n)
	s.aim(sized, mean, size)
}

// speed fills in the correction; balance is the mean of legs times speed, m3/s.
func (s *Seam) speed(sized *plan.SizedSeam, c Speed, balance float64) {
	// The area goes with 1/v at every place; the legs that they would all have at
	// the mean speed.
	leg := math.Sqrt(balance / c.Was)
	var err error
	if c.Mended, err = deposit.MendTravel(c.Was, leg, leg, c.Wanted); err != nil {
		c.Refused = err.Error()
	}
	c.Ratio = c.Mended / c.Was
	s.Speed = &c
}

// aim fills in the shift of the aim.
func (s *Seam) aim(sized *plan.SizedSeam, mean legs, size plan.Size) {
	a := Aim{Base: mean.base, Other: mean.other, Was: sized.Passes[0].Aim.Offset, Unsure: mean.step}
	var err error
	switch {
	case size.DrawnLegBase != size.DrawnLegOther:
		a.Refused = "the drawing calls for unequal legs"
	case len(sized.Passes) > 1:
		a.Refused = fmt.Sprintf("the legs come from %d passes: look which of them lies wrong", len(sized.Passes))
	default:
		if a.Shift, err = deposit.AimShift(mean.base, mean.other, size.WireDiameter); err != nil {
			a.Refused = err.Error()
		}
	}
	s.Aim = &a
}

// legsOf returns both legs of a row, where both were read.
func legsOf(row job.Gauging) (legs, bool) {
	l := legs{travel: row.Travel}
	for _, r := range row.Readings {
		switch r.Measure {
		case accept.LegBase:
			l.base, l.step = r.Value, max(l.step, r.Step)
		case accept.LegOther:
			l.other, l.step = r.Value, max(l.step, r.Step)
		case accept.Throat:
			l.throat, l.step = r.Value, max(l.step, r.Step)
		}
	}
	return l, l.base > 0 && l.other > 0
}

// together is the speed at which one pass would lay what all passes lay, m/s: the
// areas add, and each goes with 1/v.
func together(s *plan.SizedSeam) float64 {
	inverse := 0.0
	for i := range s.Passes {
		inverse += 1 / s.Passes[i].Size.Travel
	}
	return 1 / inverse
}

package plan

import (
	"math"

	"seamwright/robot/motion"
)

// litPass is when a pass was welded, s of the run.
type litPass struct {
	seam    *Seam
	pass    *Pass
	on, off float64
}

// cool stands at the approach of a pass until the joint has cooled from all the
// passes before: at its start, which was welded first and is welded over first, and
// at its end alike.
func (r *runner) cool(s *Seam, p *Pass) error {
	var before []litPass
	for _, l := range r.lit {
		if l.seam == s {
			before = append(before, l)
		}
	}
	if len(before) == 0 || !before[len(before)-1].pass.Heat.CoolKnown {
		return nil
	}
	arrives, leaves := r.now, p.Size.StartTime
	if law := p.Motion.laws.in; law != nil {
		arrives += law.Duration()
	}
	for _, law := range p.Motion.laws.weld {
		leaves += law.Duration()
	}
	atStart, err := coolAt(before, arrives, func(l *litPass) float64 { return l.on })
	if err != nil {
		return err
	}
	atEnd, err := coolAt(before, arrives+leaves, func(l *litPass) float64 { return l.off })
	if err != nil {
		return err
	}
	p.Heat.Wait = max(atStart, atEnd)
	r.stand(s, p)
	return nil
}

// coolLongest is the longest stand, s (a day): what would take longer never comes to
// an end that anybody waits for.
const coolLongest = 24 * 3600

// coolAt is how long after a time (s of the run) a place has cooled to the ceiling of
// the last pass before, s; welded is when a pass welded the place.
func coolAt(before []litPass, now float64, welded func(*litPass) float64) (float64, error) {
	last := &before[len(before)-1].pass.Heat
	over := func(wait float64) (float64, error) {
		sum := last.Start - last.Ceiling
		for i := range before {
			rise, err := before[i].pass.Heat.RiseAfter(now + wait - welded(&before[i]))
			if err != nil {
				return 0, err
			}
			sum += rise
		}
		return sum, nil
	}
	if x, err := over(0); err != nil || x <= 0 {
		return 0, err
	}
	low, high := 0.0, 1.0
	for high < coolLongest {
		x, err := over(high)
		if err != nil {
			return 0, err
		}
		if x <= 0 {
			break
		}
		low, high = high, 2*high
	}
	for high-low > 0.01 {
		mid := (low + high) / 2
		x, err := over(mid)
		if err != nil {
			return 0, err
		}
		if x > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return high, nil
}

// stand keeps the arm where it is while the joint cools, with the arc out.
func (r *runner) stand(s *Seam, p *Pass) {
	if p.Heat.Wait <= 0 {
		return
	}
	start := r.now
	for _, t := range motion.Times(p.Heat.Wait, traceAir)[1:] {
		r.now = start + t
		r.sample(Sample{Seam: s.Name, Pass: p.Number, Along: math.NaN(), Q: r.arm})
	}
	r.now = start + p.Heat.Wait
	r.plan.Times.Wait += p.Heat.Wait
	step := &r.plan.Steps[len(r.plan.Steps)-1]
	step.Wait = p.Heat.Wait
	step.Label += ", stands " + seconds(p.Heat.Wait)
}

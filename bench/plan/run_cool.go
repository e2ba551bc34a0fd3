package plan

import (
	"math"

	"seamwright/robot/motion"
)

// litPass is when a pass was welded, s of the run.
type litPass struct {
	seam    *Seam
	pass    int
	on, off float64
}

// cool stands at the approach of a pass until the joint has cooled from the pass
// before: at its start, which was welded first and is welded over first, and at its
// end alike.
func (r *runner) cool(s *Seam, p *Pass) {
	if len(r.lit) == 0 {
		return
	}
	last := &r.lit[len(r.lit)-1]
	if last.seam != s {
		return
	}
	before := &s.Passes[last.pass-1]
	if !before.Heat.CoolKnown {
		return
	}
	in := 0.0
	if law := p.Motion.laws.in; law != nil {
		in = law.Duration()
	}
	weld := 0.0
	for _, law := range p.Motion.laws.weld {
		weld += law.Duration()
	}
	atStart := r.now + in - last.on
	atEnd := r.now + in + p.Size.StartTime + weld - last.off
	p.Heat.Wait = max(0, before.Heat.Cool.Time-min(atStart, atEnd))
	r.stand(s, p)
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

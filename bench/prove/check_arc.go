package prove

import (
	"fmt"
)

// arcs checks that the arc is switched on and off in pairs along each pass, with a
// settings set of the job, that it is off in every joint move, and that the trace
// has it on exactly between.
func (p *proof) arcs() {
	m := atMost("arc on and off", "", 1)
	defer p.add(m)
	sets := map[string]bool{}
	for i := range p.job.Settings {
		sets[p.job.Settings[i].ID] = true
	}
	lit := -1 // step that lit the arc
	for i := range p.steps {
		s := &p.steps[i]
		if lit >= 0 {
			on := &p.steps[lit]
			switch {
			case s.Move == "joint":
				m.fail(p.atStep(i), "a joint move with the arc of step %d on", lit+1)
			case s.Seam != on.Seam || s.Pass != on.Pass:
				m.fail(p.atStep(i), "the arc of step %d is still on", lit+1)
			case s.Settings != on.Settings:
				m.fail(p.atStep(i), "settings set %q, the arc was lit with %q", cut(s.Settings), cut(on.Settings))
			}
		}
		switch s.Arc {
		case "on":
			if lit >= 0 {
				m.fail(p.atStep(i), "arc on while that of step %d is on", lit+1)
			}
			p.lighting(m, i, sets)
			lit = i
		case "off":
			if lit < 0 {
				m.fail(p.atStep(i), "arc off where none is on")
			}
			lit = -1
		case "":
			m.pass()
		default:
			m.fail(p.atStep(i), "arc %q: on, off or nothing", cut(s.Arc))
		}
	}
	if lit >= 0 {
		m.fail(p.atStep(lit), "the arc is never switched off")
	}
	p.traceArc(m)
}

// lighting checks the step that lights an arc: a set of the job that is the pass's.
func (p *proof) lighting(m *meter, i int, sets map[string]bool) {
	s := &p.steps[i]
	pass := p.passOf(s.Seam, s.Pass)
	switch {
	case !sets[s.Settings]:
		m.fail(p.atStep(i), "arc on with the settings set %q, which the job does not have", cut(s.Settings))
	case pass == nil:
		m.fail(p.atStep(i), "arc on for %q pass %d, which the plan does not have", cut(s.Seam), s.Pass)
	case pass.Size.Settings != s.Settings:
		m.fail(p.atStep(i), "arc on with the settings set %q, the pass has %q", cut(s.Settings), cut(pass.Size.Settings))
	default:
		m.pass()
	}
}

// passOf returns a pass of the plan, nil where there is none.
func (p *proof) passOf(seam string, number int) *passFile {
	for i := range p.plan.Seams {
		if p.plan.Seams[i].Name != seam {
			continue
		}
		for k := range p.plan.Seams[i].Passes {
			if p.plan.Seams[i].Passes[k].Number == number {
				return &p.plan.Seams[i].Passes[k]
			}
		}
	}
	return nil
}

// traceArc checks the arc of the samples between steps. At a step itself the arm
// stands, and both are right.
func (p *proof) traceArc(m *meter) {
	on := false
	for k := 1; k < p.reached; k++ {
		from, to := &p.steps[k-1], &p.steps[k]
		switch from.Arc {
		case "on":
			on = true
		case "off":
			on = false
		}
		for i := from.at; i <= to.at; i++ {
			s := &p.trace[i]
			if !moved(&s.q, &from.q) || !moved(&s.q, &to.q) || i == from.at {
				continue
			}
			if s.arc != on {
				m.fail(p.atSample(i), "the arc is %s on the way to step %d, and %s by the steps", onOff(s.arc), k+1, onOff(on))
			}
			if s.seam != to.Seam || s.pass != to.Pass {
				m.fail(p.atSample(i), "the trace is on %q pass %d on the way to step %d of %q pass %d", cut(s.seam), s.pass, k+1, cut(to.Seam), to.Pass)
			}
			m.pass()
		}
	}
}

func onOff(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

// completeness checks that what is welded is what the job has: every seam of it, each
// pass once, in the order that the job asks for.
func (p *proof) completeness() {
	m := atMost("seams and passes of the job, in its order", "", 1)
	defer p.add(m)
	var planned []string
	for i := range p.plan.Seams {
		s := &p.plan.Seams[i]
		planned = append(planned, s.Name)
		for k := range s.Passes {
			if s.Passes[k].Number != k+1 {
				m.fail(place{seam: s.Name}, "pass %d of %q has the number %d", k+1, cut(s.Name), s.Passes[k].Number)
			}
		}
	}
	p.wanted(m, planned)
	var runs []string // passes in the order in which they are lit
	for i := range p.steps {
		if s := &p.steps[i]; s.Arc == "on" {
			name := fmt.Sprintf("%s pass %d", s.Seam, s.Pass)
			if len(runs) == 0 || runs[len(runs)-1] != name {
				runs = append(runs, name)
			}
		}
	}
	n := 0
	for i := range p.plan.Seams {
		s := &p.plan.Seams[i]
		for k := range s.Passes {
			name := fmt.Sprintf("%s pass %d", s.Name, s.Passes[k].Number)
			if n >= len(runs) || runs[n] != name {
				m.fail(place{seam: s.Name, pass: k + 1}, "the run does not weld %s where it comes in the plan", cut(name))
				return
			}
			n++
			m.pass()
		}
	}
	if n != len(runs) {
		m.fail(place{}, "the run welds %s, which is not in the plan", cut(runs[n]))
	}
}

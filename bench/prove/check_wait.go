package prove

// waits checks that the trace stands as long as each step says, with the arc off.
func (p *proof) waits() {
	m := atLeast("stands as long as commanded", "s", 1)
	defer p.add(m)
	for k := range p.reached {
		s := &p.steps[k]
		if s.Wait == nil {
			m.pass()
			continue
		}
		last := s.at
		for last+1 < len(p.trace) && !moved(&p.trace[last+1].q, &s.q) && !p.trace[last+1].arc {
			last++
		}
		m.hold(p.trace[last].t-p.trace[s.at].t, *s.Wait-2.01*roundTime, p.atStep(k))
	}
}

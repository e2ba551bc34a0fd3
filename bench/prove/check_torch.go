package prove

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
)

// How true the torch is held. The plan is exact but for the way in which plan.json
// tells a curve, by straight lines within 0.01 mm of it: on the free curve of
// the cornered test job the angles read off these lines are up to 0.06 deg out.
const (
	trueTip   = 0.02e-3        // m
	trueAngle = 0.1 * unit.Deg // rad
)

// torchMeters are the rows of the torch along the seams.
type torchMeters struct {
	work, travel, across, along, distance *meter
}

// torches holds the torch, by the joints, against what the job asks for: angles, tip
// on the seam line, distance from contact tip to work, all along every pass.
func (p *proof) torches() {
	m := torchMeters{
		work: atMost("work angle off the wanted", "deg", 1/unit.Deg), travel: atMost("travel angle off the wanted", "deg", 1/unit.Deg),
		across: atMost("wire tip off the line that is aimed at", "mm", 1/unit.MM), along: atMost("wire tip from its place along the seam", "mm", 1/unit.MM),
		distance: atMost("contact-tip distance off the wanted", "mm", 1/unit.MM),
	}
	defer func() { p.add(m.work, m.travel, m.across, m.along, m.distance) }()
	p.lines = make([]*seamLine, len(p.plan.Seams))
	index := map[string]int{}
	for i := range p.plan.Seams {
		s := &p.plan.Seams[i]
		index[s.Name] = i
		var err error
		if p.lines[i], err = s.line(); err != nil {
			m.across.fail(place{seam: s.Name}, "its path cannot be followed: %v", err)
		}
	}
	passes := map[passKey]*passAim{}
	nominal := p.job.Torch.ContactTipDistance()
	m.distance.hold(math.Abs(p.plan.TipDistance*unit.MM-nominal), samePlace, place{what: "contact_tip_distance_mm"})
	for i := range p.trace {
		s := &p.trace[i]
		if !s.arc {
			continue
		}
		n, ok := index[s.seam]
		if !ok || p.lines[n] == nil {
			continue // said already, or by the order of the seams
		}
		if math.IsNaN(s.along) {
			m.along.fail(p.atSample(i), "the arc is on and the trace does not say where on the seam")
			continue
		}
		key := passKey{s.seam, s.pass}
		aim := passes[key]
		if aim == nil {
			aim = p.aimOf(n, s.pass)
			passes[key] = aim
			if aim == nil {
				m.work.fail(p.atSample(i), "the plan has no pass %d of it", s.pass)
				continue
			}
			pass := &p.plan.Seams[n].Passes[s.pass-1]
			stated := nominal + aim.distance - aim.above
			m.distance.hold(math.Abs(pass.Distance*unit.MM-stated), samePlace, p.atSample(i))
			p.stated(&m, aim, p.atSample(i))
		}
		p.torchAt(&m, i, p.lines[n], aim)
	}
}

// passKey names a pass.
type passKey struct {
	seam string
	pass int
}

// passAim is the torch that is wanted along a pass.
type passAim struct {
	seam, pass int
	work       float64 // from the base plate's normal, or from the bisector
	bisector   bool
	travel     float64
	offset     float64 // where the wire meets the base plate
	distance   float64 // left along the wire from there
	above      float64 // part of it: how far the place of the bead lies along the wire
	corners    []cornerFile

	asked         [2]float64 // work and travel angle that the job asks for
	askedBisector bool
}

// workAt is the wanted work angle in a frame, rad.
func (a *passAim) workAt(f *frame) float64 {
	if a.bisector {
		return math.Pi/2 - f.included/2 + a.work
	}
	return a.work
}

// stated holds the angles that the plan states for a pass against those that the job
// asks for. Where they gave way, they stay inside the tolerance of the job.
func (p *proof) stated(m *torchMeters, aim *passAim, where place) {
	s := &p.plan.Seams[aim.seam]
	pass := &s.Passes[aim.pass]
	f := p.lines[aim.seam].frameAt(0)
	asked := passAim{work: aim.asked[0], bisector: aim.askedBisector}
	work := math.Abs(pass.Work*unit.Deg - asked.workAt(&f))
	travel := math.Abs(pass.Travel*unit.Deg - aim.asked[1])
	m.work.hold(work, trueAngle, where)
	m.travel.hold(travel, trueAngle, where)
	if most := p.jobSeam(s.Name).Aim.Tolerance + trueAngle; max(work, travel) > most {
		m.work.fail(where, "the angles gave way by %.1f deg, %.1f deg is allowed", max(work, travel)/unit.Deg, most/unit.Deg)
	}
}

// aimOf returns the torch that is wanted along a pass: the job's for the only pass of
// a weld and for the root; the places and angles of further passes are the plan's,
// but where the job tells them.
func (p *proof) aimOf(seam, number int) *passAim {
	s := &p.plan.Seams[seam]
	if number < 1 || number > len(s.Passes) {
		return nil
	}
	pass := &s.Passes[number-1]
	doc := p.jobSeam(s.Name)
	if doc == nil {
		return nil
	}
	nominal := p.job.Torch.ContactTipDistance()
	a := &passAim{seam: seam, pass: number - 1, work: doc.Aim.Work, travel: doc.Aim.Travel, offset: doc.Aim.Offset}
	if !doc.Aim.WorkStated && !flat(doc.Joint) {
		a.work, a.bisector = 0, true
	}
	if doc.Aim.Distance > 0 {
		a.distance = doc.Aim.Distance - nominal
	}
	if from, _ := p.placedOf(s.Name); from.mirrored && flat(doc.Joint) {
		a.work, a.offset = -a.work, -a.offset
	}
	if pass.Role != "" {
		wish := doc.Passes.Of(roleOf(pass.Role))
		if wish.TravelStated {
			a.travel = wish.Travel
		}
		if number > 1 {
			a.work, a.bisector = pass.Work*unit.Deg, false
			if pass.Bisector != nil {
				a.work, a.bisector = *pass.Bisector*unit.Deg, true
			}
		}
		if wish.WorkStated {
			a.work, a.bisector = wish.Work, false
		}
		a.offset = pass.Offset * unit.MM
		a.above = pass.Above * unit.MM
		a.distance += a.above
	}
	a.asked = [2]float64{a.work, a.travel}
	a.askedBisector = a.bisector
	if p.says("torch-angles-gave-way", s.Name) { // what was planned in their place is told
		a.work, a.bisector, a.travel = pass.Work*unit.Deg, false, pass.Travel*unit.Deg
		if pass.Bisector != nil {
			a.work, a.bisector = *pass.Bisector*unit.Deg, true
		}
	}
	if pass.Profile != nil {
		for _, c := range pass.Profile.Corners {
			if c.Radius == 0 {
				a.corners = append(a.corners, c)
			}
		}
	}
	return a
}

// roleOf reads the role of a pass.
func roleOf(word string) section.Role {
	for _, r := range []section.Role{section.RootPass, section.FillPass, section.CapPass} {
		if r.String() == word {
			return r
		}
	}
	return 0
}

// flat reports whether the plates of a joint lie in one plane or on each other: the
// work angle is then from their common normal.
func flat(t weld.JointType) bool { return t == weld.Butt || t == weld.Edge }

// corner returns the sharp corner at, before or behind which the torch turns at an arc
// length, m.
func (a *passAim) corner(along float64) (cornerFile, bool) {
	for _, c := range a.corners {
		if along >= (c.At-c.Ahead)*unit.MM-samePlace && along <= (c.At+c.Behind)*unit.MM+samePlace {
			return c, true
		}
	}
	return cornerFile{}, false
}

// torchAt holds the torch of one sample.
func (p *proof) torchAt(m *torchMeters, i int, l *seamLine, a *passAim) {
	s := &p.trace[i]
	f := l.frameAt(s.along)
	t := f.torchOf(&s.tip)
	if _, turning := a.corner(s.along); turning {
		p.atCorner(m, i, &f, a)
		return
	}
	hold := func(m *meter, off, limit float64) {
		if m.near(off, limit) {
			where := p.atSample(i)
			where.what = fmt.Sprintf("%s, %.1f mm along", where.what, s.along/unit.MM)
			m.keep(off, limit, where)
		}
	}
	hold(m.work, math.Abs(t.work-a.workAt(&f)), trueAngle)
	hold(m.travel, math.Abs(t.travel-a.travel), trueAngle)
	hold(m.across, math.Abs(t.offset-a.offset), trueTip)
	hold(m.distance, math.Abs(t.distance-a.distance), trueTip)
	// A torch that is backed off along its wire leaves its place along the seam; what a
	// bead's place lies along the wire is made good.
	lean := -(a.distance - a.above) * math.Sin(a.travel)
	hold(m.along, math.Abs(t.along-lean), trueTip)
}

// atCorner holds the tip where the torch turns at a sharp corner: on the line still,
// or in the corner.
func (p *proof) atCorner(m *torchMeters, i int, f *frame, a *passAim) {
	s := &p.trace[i]
	if a.offset != 0 || a.distance != 0 {
		return
	}
	if d := s.tip.P.Dist(f.root); m.across.near(d, trueTip) {
		m.across.keep(d, trueTip, p.atSample(i))
	}
}

// jobSeam returns the seam of the job that a seam of the plan is made of, nil for
// none.
func (p *proof) jobSeam(name string) *job.Seam {
	from, ok := p.placedOf(name)
	if !ok {
		return nil
	}
	return from.doc
}

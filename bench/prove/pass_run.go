package prove

import (
	"math"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// passRun is a pass as the trace runs it.
type passRun struct {
	seam     *seamFile
	pass     *passFile
	number   int // from 1
	line     *seamLine
	doc      *job.Seam          // of which it is made
	set      procedure.Settings // that the job wants for it
	aim      *passAim
	from, to int // first and last sample with the arc on
}

// place is the pass as a place.
func (r *passRun) place() place { return place{seam: r.seam.Name, pass: r.number} }

// gather finds the passes that the trace welds and that the rest of the proof can
// follow; what is missing is said by other rows.
func (p *proof) gather() {
	p.runs = nil
	first, last := map[passKey]int{}, map[passKey]int{}
	for i := range p.trace {
		if s := &p.trace[i]; s.arc {
			key := passKey{s.seam, s.pass}
			if _, had := first[key]; !had {
				first[key] = i
			}
			last[key] = i
		}
	}
	for n := range p.plan.Seams {
		s := &p.plan.Seams[n]
		doc := p.jobSeam(s.Name)
		for k := range s.Passes {
			key := passKey{s.Name, k + 1}
			from, had := first[key]
			if doc == nil || !had || p.lines[n] == nil {
				continue
			}
			r := passRun{seam: s, pass: &s.Passes[k], number: k + 1, line: p.lines[n], doc: doc, aim: p.aimOf(n, k+1), from: from, to: last[key]}
			r.set, _ = p.set(wantedSet(doc, s.Passes[k].Role))
			p.runs = append(p.runs, r)
		}
	}
}

// wantedSet is the settings set that the job wants for a pass of a role.
func wantedSet(doc *job.Seam, role string) string {
	if wish := doc.Passes.Of(roleOf(role)); wish.Settings != "" {
		return wish.Settings
	}
	return doc.Settings
}

// set returns a settings set of the job.
func (p *proof) set(id string) (procedure.Settings, bool) {
	for _, s := range p.job.Settings {
		if s.ID == id {
			return s, true
		}
	}
	return procedure.Settings{}, false
}

// speed is the travel speed of the pass, as the plan has it, m/s.
func (r *passRun) speed() float64 { return r.pass.Size.Travel * unit.MMPerS }

// melted is the weld metal that the set brings in a time, m3/s: the wire's section
// times its feed times the deposition efficiency.
func (r *passRun) melted() float64 {
	return math.Pi / 4 * r.set.WireDiameter * r.set.WireDiameter * r.set.Feed * r.set.DepositionEfficiency().Value
}

// start is the joint at the start of the pass.
func (r *passRun) start() frame { return r.line.frameAt(0) }

// thickness returns the thicknesses of the seam's plates, m, 0 where they are not
// known: those of typed members where the seam follows from them.
func (p *proof) thickness(doc *job.Seam) (base, other float64) {
	face := func(f job.MemberFace) float64 {
		for _, plate := range p.job.Plates {
			if plate.Name == f.Plate && (f.Face == job.FaceFront || f.Face == job.FaceRear) {
				return plate.Thickness
			}
		}
		return 0
	}
	wall := func(name string) float64 {
		for _, tube := range p.job.Tubes {
			if tube.Name == name {
				return tube.Wall
			}
		}
		return 0
	}
	switch doc.Path {
	case job.PathMeeting:
		return face(doc.Meeting.Base), face(doc.Meeting.Upright)
	case job.PathTubeOnPlate:
		return face(doc.TubeOnPlate.Plate), wall(doc.TubeOnPlate.Tube)
	case job.PathSaddle:
		return wall(doc.Saddle.Run), wall(doc.Saddle.Branch)
	}
	return doc.BaseThickness, doc.OtherThickness
}

// thinThick returns the thinner and the thicker plate that are known, m, 0 for none.
func (p *proof) thinThick(doc *job.Seam) (thin, thick float64) {
	base, other := p.thickness(doc)
	thin, thick = min(base, other), max(base, other)
	if thin == 0 {
		thin = thick
	}
	return thin, thick
}

// kind is how the plates of a joint are welded.
func kind(t weld.JointType) weld.WeldKind {
	if flat(t) {
		return weld.Groove
	}
	return weld.Fillet
}

package prove

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld/section"
)

// How much less than the drawing's size may be laid: a leg 0.05 mm less, an area 2 %.
// They pass speeds that were typed to two digits. Common practice, no source.
const (
	legSlack  = 0.05e-3 // m
	areaSlack = 0.02    // dimensionless
)

// metal holds what the wire lays at the speed of the trace against the size that the
// drawing asks for, with the rule for gaps.
func (p *proof) metal() {
	leg := atLeast("leg by wire feed and travel against the drawing", "mm", 1/unit.MM)
	area := atLeast("area of weld metal against the drawing", "mm2", 1/unit.MM2)
	sets := atMost("settings sets and typed speeds are those of the job", "", 1)
	laid := map[string]float64{} // m2, by seam: of all passes
	for n := range p.runs {
		r := &p.runs[n]
		if want := wantedSet(r.doc, r.pass.Role); r.pass.Size.Settings != want {
			sets.fail(r.place(), "settings set %q, the job wants %q", cut(r.pass.Size.Settings), want)
		}
		if typed := r.typed(); typed > 0 && math.Abs(r.speed()/typed-1) > sameSpeed {
			sets.fail(r.place(), "travels at %.3f mm/s, the job types %.3f mm/s", r.speed()/unit.MMPerS, typed/unit.MMPerS)
		}
		sets.pass()
		made := r.melted() / r.speed()
		laid[r.seam.Name] += made
		if r.number < len(r.seam.Passes) {
			continue
		}
		made = laid[r.seam.Name]
		f := r.start()
		switch w := &r.doc.Weld; w.Kind {
		case job.SizeArea:
			area.hold(made, w.Area*(1-areaSlack), r.place())
		case job.SizeGroove:
			needed, err := grooveArea(r.doc)
			if err != nil {
				area.fail(r.place(), "the groove: %v", err)
				continue
			}
			if w.Groove.Section.Prep.Double() && p.says("passes-from-the-back", r.seam.Name) { // part of the metal is laid from the back
				area.note = "what is laid from the back of a joint is not counted"
				area.pass()
				continue
			}
			area.hold(made, needed*(1-areaSlack), r.place())
		default:
			base, other, err := p.legs(r, f.included)
			if err != nil {
				leg.fail(r.place(), "the size: %v", err)
				continue
			}
			// A flat-faced fillet of legs a and b between plates at an angle has the area
			// a b sin(angle)/2; the bead has more by the set's planning factor.
			factor := r.set.PlanningFactor().Value
			a := math.Sqrt(2 * made / (factor * math.Sin(f.included)) * base / other)
			leg.hold(a, base-legSlack, r.place())
		}
	}
	if area.checked == 0 {
		area.pass()
		area.note = "no weld of the job is sized by its area"
	}
	if leg.checked == 0 && len(p.runs) > 0 {
		leg.pass()
		leg.note = "no weld of the job is a fillet"
	}
	p.add(sets, leg, area)
}

// typed is the travel speed that the job types for the pass, m/s; 0: none.
func (r *passRun) typed() float64 {
	if r.pass.Role != "" {
		return r.doc.Passes.Of(roleOf(r.pass.Role)).Speed
	}
	return r.doc.Speed
}

// legs returns the legs that are to be laid, m: the drawing's, larger by the rule for
// gaps.
func (p *proof) legs(r *passRun, included float64) (base, other float64, err error) {
	w := &r.doc.Weld
	base, other = w.LegBase, w.LegOther
	if w.Kind == job.SizeThroat { // of a flat face with equal legs
		base = w.Throat / math.Cos(included/2)
		other = base
	}
	if r.doc.Gap == 0 {
		return base, other, nil
	}
	thin, _ := p.thinThick(r.doc)
	if thin == 0 {
		thin = base
	}
	rule, err := section.Gap(section.Fit{Leg: base, Gap: r.doc.Gap, Thickness: thin})
	if err != nil {
		return base, other, err
	}
	if !rule.Allowed {
		return base, other, fmt.Errorf("a gap of %.1f mm must not be welded over", r.doc.Gap/unit.MM)
	}
	return base + rule.Growth, other + rule.Growth, nil
}

// grooveArea is the metal that the groove needs, m2, with its gap as measured.
func grooveArea(doc *job.Seam) (float64, error) {
	g := doc.Weld.Groove.Section
	if doc.Gap > 0 {
		g.Gap = doc.Gap
		var err error
		if g, err = section.NewGroove(g); err != nil {
			return 0, err
		}
	}
	needed, err := g.Needed(doc.Weld.Groove.Cap)
	return needed.Total(), err
}

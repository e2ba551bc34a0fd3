package prove

import (
	"fmt"
	"math"
	"strings"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// inProcedure holds every pass against its welding procedure: the settings set of the
// job, the speed, the angles, the energy, the position all along.
func (p *proof) inProcedure() {
	m := atMost("settings, speed and energy inside the procedure", "", 1)
	silent := map[procedure.Item]bool{}
	for n := range p.runs {
		r := &p.runs[n]
		w := p.job.ProcedureOf(r.doc)
		if w == nil {
			continue
		}
		planned, err := p.planned(r)
		if err != nil {
			m.fail(r.place(), "%v", err)
			continue
		}
		row, err := w.Row(planned.Run)
		if err != nil {
			m.fail(r.place(), "%v", err)
			continue
		}
		checker, err := w.Checker(row)
		if err != nil {
			m.fail(r.place(), "%v", err)
			continue
		}
		p.against(m, r, checker, planned, silent)
	}
	if len(silent) > 0 {
		var words []string
		for _, item := range procedure.Items() {
			if silent[item] {
				words = append(words, string(item))
			}
		}
		m.note = "not limited, or not stated in the job: " + strings.Join(words, ", ")
	}
	if len(p.job.Procedures) == 0 {
		m.open(p.says("procedure-missing", ""), "the job names no procedure")
	}
	p.add(m)
}

// against holds a pass in every position that it comes through.
func (p *proof) against(m *meter, r *passRun, checker *procedure.Checker, planned procedure.Planned, silent map[procedure.Item]bool) {
	seen := map[string]bool{}
	step := max(1, (r.to-r.from)/200)
	for i := r.from; i <= r.to; i += step {
		s := &p.trace[i]
		if !s.arc || math.IsNaN(s.along) {
			continue
		}
		f := r.line.frameAt(s.along)
		position, err := p.position(r, &f, i)
		if err != nil {
			m.fail(r.place(), "%v", err)
			return
		}
		name := position.Name(p.job.Code).String()
		if seen[name] {
			continue
		}
		seen[name] = true
		planned.Position = position
		planned.WorkAngle = procedure.KnownAngle(r.aim.workAt(&f))
		verdicts, err := checker.Check(planned)
		if err != nil {
			m.fail(r.place(), "%v", err)
			return
		}
		for _, v := range verdicts {
			switch v.State {
			case procedure.Outside:
				m.fail(r.place(), "%s is outside the procedure%s", v.Item, shown(v))
			case procedure.Inside:
				m.pass()
			default:
				silent[v.Item] = true
			}
		}
	}
}

// shown says what was found, where the item is a number.
func shown(v procedure.Verdict) string {
	if v.Found != "" {
		return ": " + v.Found
	}
	return fmt.Sprintf(": %s, allowed %s", v.Item.Show(v.Measured, unit.Metric), v.Item.ShowRange(v.Range, unit.Metric))
}

// position classifies the weld in a frame, with the table as it stands at sample i.
func (p *proof) position(r *passRun, f *frame, i int) (weld.Position, error) {
	up := p.arm.worldFromBase(&p.trace[i].q).R.T().Apply(r3.Vec{Z: 1})
	face := f.normal
	if !flat(r.doc.Joint) { // the bisector of the plates
		sin, cos := math.Sincos(math.Pi/2 - f.included/2)
		face = f.normal.Scale(cos).AddScaled(sin, f.open)
	}
	return weld.Classify(kind(r.doc.Joint), f.travel, face, up)
}

// planned is a pass in the words of a procedure.
func (p *proof) planned(r *passRun) (procedure.Planned, error) {
	set := r.set
	set.ContactDistance = p.job.Torch.ContactTipDistance()
	if r.doc.Aim.Distance > 0 {
		set.ContactDistance = r.doc.Aim.Distance
	}
	f := r.start()
	out := procedure.Planned{
		Family: p.job.Code, Run: procedure.Which{Number: r.number, Role: roleOf(r.pass.Role)}, Settings: set, Travel: r.speed(),
		Joint: r.doc.Joint, Kind: kind(r.doc.Joint),
		WorkAngle: procedure.KnownAngle(r.aim.workAt(&f)), TravelAngle: procedure.KnownAngle(r.aim.travel),
		WorkDeviation: procedure.KnownAngle(0), TravelDeviation: procedure.KnownAngle(0),
		Technique: procedure.Stringer, ParentGroup: p.job.Material.Group,
	}
	wish := r.doc.Weave
	if own := r.doc.Passes.Of(roleOf(r.pass.Role)).Weave; own.Wished() || own.Not {
		wish = own
	}
	if wish.Wished() {
		out.Technique, out.Amplitude, out.Frequency = procedure.Weave, wish.Amplitude, wish.Frequency
		out.DwellLeft, out.DwellRight = wish.DwellLeft, wish.DwellRight
	}
	if h := &p.job.Heat; h.HasPreheat {
		out.Preheat = procedure.KnownTemperature(h.Preheat)
	}
	if c, known := p.ceiling(r.doc); known && r.number > 1 && p.standsFor(r) {
		out.Interpass = procedure.KnownTemperature(c)
	}
	if base, other := p.thickness(r.doc); base > 0 && other > 0 {
		out.Thinner, out.Thicker = min(base, other), max(base, other)
	}
	if r.doc.Weld.Fillet() { // the fillet that this pass alone fills
		made := r.melted() / r.speed()
		base, other, err := p.legs(r, f.included)
		if err != nil {
			return out, err
		}
		if r.pass.Role != "" {
			other = base
		}
		bead := made / r.set.PlanningFactor().Value
		a := math.Sqrt(2 * bead / math.Sin(f.included) * base / other)
		b := a * other / base
		// The throat is the height of the flat-faced triangle over its face.
		face := math.Sqrt(a*a + b*b - 2*a*b*math.Cos(f.included))
		out.PassLeg, out.PassThroat = max(a, b), 2*bead/face
	}
	return out, nil
}

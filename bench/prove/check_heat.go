package prove

import (
	"math"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// sameShare is how far a figure of the plan may be from its own recomputation, as a
// share: six decimals are printed.
const sameShare = 1e-4

// heat holds the heat input that the plan states against volts, amps and the speed of
// the trace, and cooling against the window that the job states.
func (p *proof) heat() {
	input := atMost("heat input as the plan states it", "", 1)
	fast := atLeast("cooling time, quickest", "s", 1)
	slow := atMost("cooling time, slowest", "s", 1)
	for n := range p.runs {
		r := &p.runs[n]
		stated := r.pass.Size.HeatInput
		energy, err := r.set.ArcEnergy(r.speed())
		if err != nil {
			if stated != nil {
				input.fail(r.place(), "the plan states a heat input, and %v", err)
			}
			input.pass()
			continue
		}
		quantity := thermal.HeatInput
		if p.job.Code == weld.AWS {
			quantity = thermal.AWSHeatInput
		}
		want, err := quantity.FromArcEnergy(energy.PerLength, r.set.Process)
		switch {
		case err != nil:
			input.fail(r.place(), "%v", err)
		case stated == nil:
			input.fail(r.place(), "the plan states no heat input")
		default:
			off := math.Abs(*stated*unit.KJPerMM/want - 1)
			input.hold(off, sameShare, r.place())
		}
		p.cooling(r, fast, slow)
	}
	window := p.job.Heat.Cooling
	const free = "the job wants none"
	if !window.HasLow {
		fast.pass()
		fast.note = free
	}
	if !window.HasHigh {
		slow.pass()
		slow.note = free
	}
	p.add(input, fast, slow)
}

// cooling holds the cooling times of a pass against the window that the job states.
func (p *proof) cooling(r *passRun, fast, slow *meter) {
	window := p.job.Heat.Cooling
	thin, thick := p.thinThick(r.doc)
	if !window.Stated() {
		return
	}
	open := func(why string) {
		said := p.says("cooling-time-not-known", r.seam.Name)
		for _, m := range []*meter{fast, slow} {
			if m == fast && window.HasLow || m == slow && window.HasHigh {
				m.open(said, r.place().String()+": "+why)
			}
		}
	}
	q, ok := p.heatInput(r)
	if !ok || thin == 0 {
		open("its heat input or the thickness of its plates is not known")
		return
	}
	hot := p.partAt()
	if r.number > 1 {
		c, known := p.ceiling(r.doc)
		if !known {
			open("what the joint has before it is not known")
			return
		}
		hot = max(hot, c)
	}
	quick, err := thermal.Cooling(thermal.CoolingRequest{HeatInput: q, Preheat: p.partAt(), Thickness: thick, Shape: shapeOf(r)})
	if err != nil {
		open(err.Error())
		return
	}
	long, err := thermal.Cooling(thermal.CoolingRequest{HeatInput: q, Preheat: hot, Thickness: thin, Shape: shapeOf(r)})
	if err != nil {
		open(err.Error())
		return
	}
	if window.HasLow {
		fast.hold(quick.Time, window.Low, r.place())
	}
	if window.HasHigh {
		slow.hold(long.Time, window.High, r.place())
	}
}

// heatInput is the heat input of a pass with the thermal efficiency, J/m.
func (p *proof) heatInput(r *passRun) (float64, bool) {
	energy, err := r.set.ArcEnergy(r.speed())
	if err != nil {
		return 0, false
	}
	q, err := thermal.HeatInput.FromArcEnergy(energy.PerLength, r.set.Process)
	return q, err == nil
}

// partAt is the temperature of the part before the first pass, degrees C.
func (p *proof) partAt() float64 {
	if h := &p.job.Heat; h.HasPreheat {
		return h.Preheat
	}
	return p.job.Heat.Ambient
}

// ceiling is the most that the joint may have when the next pass comes, degrees C: the
// job's or its procedure's, the lower, else what is usual for the steel.
func (p *proof) ceiling(doc *job.Seam) (temperature float64, known bool) {
	if h := &p.job.Heat; h.HasInterpassMost {
		temperature, known = h.InterpassMost, true
	}
	if w := p.job.ProcedureOf(doc); w != nil && w.Further.Interpass.HasHigh && (!known || w.Further.Interpass.High < temperature) {
		temperature, known = w.Further.Interpass.High, true
	}
	if known || !p.job.Material.HasGrade {
		return temperature, known
	}
	usual, err := thermal.InterpassCeiling(p.job.Material.Grade.Class)
	return usual.Range.High, err == nil
}

// shapeOf is what a pass is laid on, as the cooling times tell joints apart.
func shapeOf(r *passRun) thermal.JointShape {
	switch {
	case r.pass.Role != "" && r.number > 1:
		return thermal.BetweenBeads
	case flat(r.doc.Joint):
		return thermal.RunOnPlate
	case r.doc.Joint == weld.InsideCorner || r.doc.Joint == weld.OutsideCorner:
		return thermal.CornerFillet
	}
	return thermal.TeeFillet
}

// surfaceLoss is what each face of the plates loses to still air and by radiation,
// W/(m2 K): the low side of 10 to 25, usual between 100 and 250 degrees C (from
// memory).
const surfaceLoss = 15.0

// sameTemperature is how far above its ceiling a joint may be found, K: the waits are
// printed to a microsecond and computed to a hundredth of a second.
const sameTemperature = 0.1

// interpass holds the temperature of the joint when a further pass comes, by
// conduction from all passes before, against its ceiling: at the start and at the end
// of the seam.
func (p *proof) interpass() {
	m := atMost("temperature of the joint before a further pass", "degC", 1)
	open := 0
	for n := range p.runs {
		r := &p.runs[n]
		if r.number == 1 {
			m.pass()
			continue
		}
		c, known := p.ceiling(r.doc)
		before := p.runs[max(0, n-r.number+1):n]
		if !known || !p.standsFor(r) {
			open++
			continue
		}
		for _, end := range []bool{false, true} {
			t := p.partAt()
			for k := range before {
				rise, err := p.rise(&before[k], r, end)
				if err != nil {
					m.fail(r.place(), "%v", err)
					break
				}
				t += rise
			}
			m.hold(t, c+sameTemperature, r.place())
		}
	}
	if open > 0 {
		m.open(p.says("interpass-wait-not-known", ""), "how some joints cool between passes is not known")
	}
	p.add(m)
}

// rise is how much warmer than the part a pass leaves the joint, K, when another one
// comes to its start or its end.
func (p *proof) rise(before, r *passRun, end bool) (float64, error) {
	q, _ := p.heatInput(before)
	thin, _ := p.thinThick(before.doc)
	time := p.trace[r.from].t - p.trace[before.from].t
	if end {
		time = p.trace[p.arrives(r)].t - p.trace[before.to].t
	}
	request := thermal.WaitRequest{HeatInput: q, Preheat: p.partAt(), Thickness: thin, Shape: shapeOf(before)}
	return request.RiseAfter(time, surfaceLoss)
}

// arrives is the sample at which a pass comes to its end, before it stands there.
func (p *proof) arrives(r *passRun) int {
	i := r.to
	for i > r.from && !moved(&p.trace[i-1].q, &p.trace[r.to].q) {
		i--
	}
	return i
}

// standsFor reports whether the cooling of the joint before a further pass can be
// told.
func (p *proof) standsFor(r *passRun) bool {
	c, known := p.ceiling(r.doc)
	thin, _ := p.thinThick(r.doc)
	if !known || thin == 0 {
		return false
	}
	for n := range p.runs {
		b := &p.runs[n]
		if b.seam != r.seam || b.number != r.number-1 {
			continue
		}
		q, ok := p.heatInput(b)
		if !ok {
			return false
		}
		_, err := thermal.InterpassWait(thermal.WaitRequest{HeatInput: q, Preheat: p.partAt(), Ceiling: c, Thickness: thin, Shape: shapeOf(b)})
		return err == nil
	}
	return false
}

package plan

import (
	"errors"
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// Heat is how one pass heats and cools the joint.
type Heat struct {
	// Input is the heat input with the thermal efficiency, J/m, of both code
	// families: what cooling is computed with. NaN where it is not known.
	Input float64
	Shape thermal.JointShape
	// Fast is the quickest cooling from 800 to 500 degrees C, in the thicker plate
	// and with the joint as cold as the pass may find it, Slow the slowest, in the
	// thinner plate and as hot. Known says that they are; Why is why not.
	Fast, Slow thermal.CoolingTime
	Known      bool
	Why        string
	// Start is the temperature of the part before the pass, degrees C.
	Start float64
	// Ceiling is the most that the joint may have when the next pass comes, degrees C;
	// CoolKnown says that the cooling to it can be told, WhyCool why not. Both are of a
	// pass that another follows.
	Ceiling   float64
	CoolKnown bool
	WhyCool   string
	// Wait is how long the arm stands before this pass for the joint to cool, s.
	Wait float64

	line thermal.WaitRequest // what the pass leaves in the plate
}

// surfaceLoss is what each face of the plates loses to still air and by radiation,
// W/(m2 K): 10 to 25 are usual between 100 and 250 degrees C (from memory); the low
// side of them waits longer.
const surfaceLoss = 15.0

// RiseAfter is how much warmer than the part the weld still is a time (s) after the
// arc of the pass, K: conduction with surfaceLoss. Rises of passes add up.
func (h *Heat) RiseAfter(time float64) (float64, error) { return h.line.RiseAfter(time, surfaceLoss) }

// Ceiling is the most that the joint may have when the next run begins, degrees C.
type Ceiling struct {
	Temperature float64
	Known       bool
	Source      string
}

// heat finds how every pass heats and cools the joint.
func (m *maker) heat() {
	for i := range m.plan.Seams {
		s := &m.plan.Seams[i]
		for k := range s.Passes {
			s.Passes[k].Heat = m.heatOf(i, k)
		}
	}
}

// ceilingOf is the interpass ceiling of a seam: that of the job or of its procedure,
// whichever is lower, else what is usual for its steel.
func (m *maker) ceilingOf(doc *job.Seam) Ceiling {
	var c Ceiling
	if h := &m.job.Heat; h.HasInterpassMost {
		c = Ceiling{h.InterpassMost, true, "as the job states it"}
	}
	if w := m.job.ProcedureOf(doc); w != nil && w.Further.Interpass.HasHigh && (!c.Known || w.Further.Interpass.High < c.Temperature) {
		c = Ceiling{w.Further.Interpass.High, true, byProcedure(&w.Common)}
	}
	if c.Known {
		return c
	}
	if !m.job.Material.HasGrade {
		return Ceiling{}
	}
	usual, err := thermal.InterpassCeiling(m.job.Material.Grade.Class)
	if err != nil {
		return Ceiling{}
	}
	return Ceiling{usual.Range.High, true, usual.Source.String()}
}

// heatShape is what a pass is laid on, as the cooling times tell joints apart.
func heatShape(doc *job.Seam, p *Pass) thermal.JointShape {
	switch {
	case p.Role != 0 && p.Number > 1:
		return thermal.BetweenBeads
	case weldKind(doc.Joint) == weld.Groove:
		return thermal.RunOnPlate
	case doc.Joint == weld.InsideCorner || doc.Joint == weld.OutsideCorner:
		return thermal.CornerFillet
	}
	return thermal.TeeFillet
}

// heatOf computes the heat of pass k (from 0) of seam i.
func (m *maker) heatOf(i, k int) Heat {
	s, doc := &m.plan.Seams[i], m.shapes[i].doc
	p := &s.Passes[k]
	h := Heat{Shape: heatShape(doc, p), Start: m.job.Heat.Start()}
	set := settingsOf(m.job, p.Size.Settings)
	var err error
	if h.Input, err = thermal.HeatInput.FromArcEnergy(p.Size.ArcEnergy, set.Process); err != nil || math.IsNaN(p.Size.ArcEnergy) {
		h.Input = math.NaN()
		h.Why, h.WhyCool = "the heat input is not known", "the heat input is not known"
		return h
	}
	thin, thick := plates(doc)
	if thin == 0 {
		h.Why, h.WhyCool = "the thickness of the plates is not stated", "the thickness of the plates is not stated"
		return h
	}
	hot, ceiling := h.Start, m.ceilingOf(doc)
	if k > 0 {
		hot = max(hot, ceiling.Temperature)
	}
	if k > 0 && !ceiling.Known {
		h.Why = noCeiling // how hot the pass finds the joint is open
	} else {
		h.cooling(thick, thin, hot)
	}
	h.line = thermal.WaitRequest{HeatInput: h.Input, Preheat: h.Start, Thickness: thin, Shape: h.Shape}
	if k+1 < len(s.Passes) {
		h.leaves(ceiling)
	}
	return h
}

// cooling takes in the cooling times, thick and thin plates in m, hot in degrees C.
func (h *Heat) cooling(thick, thin, hot float64) {
	var err error
	if h.Fast, err = thermal.Cooling(thermal.CoolingRequest{HeatInput: h.Input, Preheat: h.Start, Thickness: thick, Shape: h.Shape}); err == nil {
		h.Slow, err = thermal.Cooling(thermal.CoolingRequest{HeatInput: h.Input, Preheat: hot, Thickness: thin, Shape: h.Shape})
	}
	if err != nil {
		h.Why = err.Error()
		return
	}
	h.Known = true
}

const noCeiling = "no interpass ceiling is stated"

// leaves takes in what the next pass has to wait for.
func (h *Heat) leaves(c Ceiling) {
	if !c.Known {
		h.WhyCool = noCeiling
		return
	}
	h.line.Ceiling = c.Temperature
	if _, err := thermal.InterpassWait(h.line); err != nil {
		h.WhyCool = err.Error() // the model does not speak of it
		return
	}
	h.Ceiling, h.CoolKnown = c.Temperature, true
}

// plates are the thinner and the thicker of the stated thicknesses, m; 0 where none
// is stated.
func plates(s *job.Seam) (thin, thick float64) {
	return thinner(s), max(s.BaseThickness, s.OtherThickness)
}

// heat says what preheat, cooling and interpass ask of a seam.
func (c *seamCheck) heat() {
	c.preheat()
	c.cooling()
	c.interpass()
}

// preheat holds the temperature of the part against what its steel asks for.
func (c *seamCheck) preheat() {
	if !c.job.Material.Given {
		return // said once for the job
	}
	need, why, err := c.preheatNeeded()
	if err != nil {
		f := c.newf(finding.PreheatUnknown, "%s: the preheat cannot be told: %v", c.doc.Name, err)
		if outside := (*thermal.RangeError)(nil); errors.As(err, &outside) {
			f = f.As(finding.Note) // nothing is missing: the method does not speak of it
		}
		c.add(f)
		return
	}
	h := &c.job.Heat
	if need.Temperature <= h.Start() {
		return
	}
	text := fmt.Sprintf("%s: %v asks for a preheat of %.0f degC%s", c.doc.Name, need.Method, need.Temperature, why)
	f := c.newf(finding.PreheatLow, "%s; the job states none and the part is at %.0f degC", text, h.Ambient)
	if h.HasPreheat {
		f = c.newf(finding.PreheatLow, "%s; the job states %.0f degC", text, h.Preheat)
	} else {
		f = f.As(finding.Caution)
	}
	measure := ""
	if at, err := thermal.MeasureAt(max(c.doc.BaseThickness, c.doc.OtherThickness)); err == nil {
		measure = fmt.Sprintf(", reached %s from the weld", c.say(asSize, at))
	}
	c.add(f.Values(h.Start(), need.Temperature, "degC").From(need.Source.String()).
		Mend("say heat: {preheat: %.0f degC}%s, or ask the welding coordinator which method the contract follows", math.Ceil(need.Temperature/5)*5, measure))
}

// preheatNeeded is the most that any pass of the seam asks for, by the method of
// the job's family, and what it depends on.
func (c *seamCheck) preheatNeeded() (thermal.Preheat, string, error) {
	material := &c.job.Material
	_, thick := plates(c.doc)
	if thick == 0 {
		return thermal.Preheat{}, "", fmt.Errorf("the thickness of the plates is not stated")
	}
	if c.job.Code == weld.AWS {
		if !material.HasGrade {
			return thermal.Preheat{}, "", fmt.Errorf("the table of AWS D1.1 goes by grade; add grade to material")
		}
		group, err := material.Grade.D11Group()
		if err != nil {
			return thermal.Preheat{}, "", err
		}
		p, err := thermal.PreheatByD11(thermal.D11Request{Family: weld.AWS, Group: group, Thickness: thick, Process: c.set.Process, LowHydrogen: true})
		return p, fmt.Sprintf(" (%s, %s)", material.Grade.Name, c.say(asSize, thick)), err
	}
	steel, what, err := c.steel()
	if err != nil {
		return thermal.Preheat{}, "", err
	}
	var most thermal.Preheat
	words := ""
	for k := range c.seam.Passes {
		p := &c.seam.Passes[k]
		hydrogen := settingsOf(c.job, p.Size.Settings).Hydrogen
		if hydrogen == 0 {
			return most, "", fmt.Errorf("settings set %s states no hydrogen; add hydrogen (ml per 100 g) from the wire's certificate", p.Size.Settings)
		}
		need, err := thermal.PreheatByCET(thermal.CETRequest{
			Family: c.job.Code, Steel: steel, Thickness: thick, Hydrogen: hydrogen, HeatInput: p.Heat.Input, Yield: c.yield(),
		})
		if err != nil {
			return most, "", err
		}
		if k == 0 || need.Temperature > most.Temperature {
			most = need
			words = fmt.Sprintf(" (%v%s, %s, %.3g ml per 100 g, %.2f kJ/mm)", steel, what, c.say(asSize, thick), hydrogen, p.Heat.Input/unit.KJPerMM)
		}
	}
	return most, words, nil
}

// steel is the CET of the plates and what it was taken from.
func (c *seamCheck) steel() (thermal.Equivalent, string, error) {
	m := &c.job.Material
	composition, what := m.Composition, " by the certificate"
	if !m.HasComposition {
		if !m.Grade.HasTypical() {
			return thermal.Equivalent{}, "", fmt.Errorf("no composition is known of %s; add composition to material, from the certificate", m.Grade.Name)
		}
		composition, what = m.Grade.Typical, " of a typical "+m.Grade.Name
	}
	e, err := composition.Equivalent(thermal.CET)
	if err == nil {
		err = e.Outside
	}
	return e, what, err
}

// yield is the least yield strength of the plates, Pa; 0 where it is not known.
func (c *seamCheck) yield() float64 {
	if !c.job.Material.HasGrade {
		return 0
	}
	return c.job.Material.Grade.Yield
}

// cooling holds the cooling times of every pass against those wanted, and says the
// worst.
func (c *seamCheck) cooling() {
	window, source, severity := c.job.Heat.Cooling, "as the job states it", finding.Stop
	if !window.Stated() {
		if !c.job.Material.HasGrade {
			return
		}
		usual := c.job.Material.Grade.CoolingWindow()
		window, source, severity = usual.Range, usual.Source.String(), finding.Note
	}
	var fast, slow *Pass // the worst of them
	for k := range c.seam.Passes {
		p := &c.seam.Passes[k]
		h := &p.Heat
		if !h.Known {
			c.add(c.newf(finding.CoolingUnknown, "%s: the cooling time cannot be told: %s", c.seam.PassName(p), h.Why))
			continue
		}
		if window.HasLow && h.Fast.Time < window.Low && (fast == nil || h.Fast.Time < fast.Heat.Fast.Time) {
			fast = p
		}
		if window.HasHigh && h.Slow.Time > window.High && (slow == nil || h.Slow.Time > slow.Heat.Slow.Time) {
			slow = p
		}
	}
	if fast != nil {
		h := &fast.Heat
		f := c.newf(finding.CoolingOutside, "%s: cools from 800 to 500 degC in %.2g s (%v), %.3g s at least is wanted: the plate gets hard beside the weld", c.seam.PassName(fast), h.Fast.Time, h.Fast.Plate, window.Low)
		c.add(f.As(severity).Values(h.Fast.Time, window.Low, "s").From(source).Mend("bring more heat (a larger bead at slower travel), or preheat"))
	}
	if slow != nil {
		h := &slow.Heat
		f := c.newf(finding.CoolingOutside, "%s: takes %.3g s from 800 to 500 degC (%v), %.3g s at most is wanted: the plate gets soft and brittle beside the weld", c.seam.PassName(slow), h.Slow.Time, h.Slow.Plate, window.High)
		c.add(f.As(severity).Values(h.Slow.Time, window.High, "s").From(source).Mend("bring less heat, or begin colder: a lower interpass_max"))
	}
}

// stands says how long the arm stands before a pass.
func (c *seamCheck) stands(p *Pass) {
	f := c.newf(finding.InterpassStand, "%s: the arm stands %s at the approach until the joint is at %.0f degC, by conduction into a wide plate whose faces lose %.0f W/(m2 K); a small part keeps the heat",
		c.seam.PassName(p), seconds(p.Heat.Wait), c.ceiling.Temperature, surfaceLoss)
	c.add(f.Values(p.Heat.Wait, 0, "s").From(c.ceiling.Source + "; conduction from a line of heat on a plate (from memory)"))
}

// interpass says how long the arm stands between passes, and what is not known of
// that.
func (c *seamCheck) interpass() {
	for k := range c.seam.Passes[:len(c.seam.Passes)-1] {
		h, next := &c.seam.Passes[k].Heat, &c.seam.Passes[k+1]
		if next.Heat.Wait > 0 {
			c.stands(next)
		}
		if !h.CoolKnown {
			c.add(c.newf(finding.InterpassUnknown, "%s: how long the joint cools after pass %d is not known: %s", c.doc.Name, k+1, h.WhyCool))
			return // the others for the same reason
		}
	}
}

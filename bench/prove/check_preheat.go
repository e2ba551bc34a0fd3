package prove

import (
	"errors"
	"fmt"

	"seamwright/weld"
	"seamwright/weld/thermal"
)

// preheat holds the temperature of the part against what its steel asks for, by the
// method of the job's code.
func (p *proof) preheat() {
	m := atLeast("temperature of the part before welding", "degC", 1)
	defer func() { p.add(m) }()
	if !p.job.Material.Given {
		m.open(p.says("material-missing", ""), "the job states no steel")
		return
	}
	for n := range p.runs {
		r := &p.runs[n]
		need, err := p.preheatOf(r)
		switch outside := (*thermal.RangeError)(nil); {
		case errors.As(err, &outside): // the method does not speak of it: nothing is missing
			m.note = err.Error()
			m.pass()
		case err != nil:
			m.open(p.says("preheat-not-known", r.seam.Name), err.Error())
		case need > p.partAt() && !p.job.Heat.HasPreheat && p.says("preheat-below-required", r.seam.Name):
			m.open(true, "the job states no preheat, and the plan says that the steel asks for one")
		default:
			m.hold(p.partAt(), need, r.place())
		}
	}
}

// preheatOf is the preheat that a pass asks for, degrees C.
func (p *proof) preheatOf(r *passRun) (float64, error) {
	material := &p.job.Material
	_, thick := p.thinThick(r.doc)
	if thick == 0 {
		return 0, fmt.Errorf("%s: the thickness of the plates is not stated", r.seam.Name)
	}
	if p.job.Code == weld.AWS {
		if !material.HasGrade {
			return 0, fmt.Errorf("the table of AWS D1.1 goes by grade")
		}
		group, err := material.Grade.D11Group()
		if err != nil {
			return 0, err
		}
		need, err := thermal.PreheatByD11(thermal.D11Request{Family: weld.AWS, Group: group, Thickness: thick, Process: r.set.Process, LowHydrogen: true})
		return need.Temperature, err
	}
	composition := material.Composition
	if !material.HasComposition {
		if !material.Grade.HasTypical() {
			return 0, fmt.Errorf("no composition is known of %s", material.Grade.Name)
		}
		composition = material.Grade.Typical
	}
	steel, err := composition.Equivalent(thermal.CET)
	if err == nil {
		err = steel.Outside
	}
	if err != nil {
		return 0, err
	}
	q, ok := p.heatInput(r)
	if !ok || r.set.Hydrogen == 0 {
		return 0, fmt.Errorf("%s: heat input or hydrogen is not stated", r.seam.Name)
	}
	request := thermal.CETRequest{Family: p.job.Code, Steel: steel, Thickness: thick, Hydrogen: r.set.Hydrogen, HeatInput: q}
	if material.HasGrade {
		request.Yield = material.Grade.Yield
	}
	need, err := thermal.PreheatByCET(request)
	return need.Temperature, err
}

package distort_test

import (
	"errors"
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld/distort"
)

// TestRefusals: every refusal in its very words.
func TestRefusals(t *testing.T) {
	butt := func(b distort.Butt) func() error { return func() error { _, err := b.Transverse(); return err } }
	fillet := func(f distort.Fillet) func() error { return func() error { _, err := f.Transverse(); return err } }
	along := func(a distort.Along) func() error { return func() error { _, err := a.Longitudinal(); return err } }
	flange := func(f distort.Flange) func() error { return func() error { _, err := f.Lift(); return err } }
	bow := func(b distort.Beam) func() error { return func() error { _, err := b.Bow(); return err } }
	order := func(r distort.OrderRequest) func() error {
		return func() error { _, err := distort.ProposeOrder(r); return err }
	}
	pull := distort.Pull{Area: 18 * unit.MM2, Offset: 80 * unit.MM}
	good := seam(18, 0, 80, 0, 1000)
	for _, row := range []struct {
		name string
		call func() error
		says string
	}{
		{"butt without area", butt(distort.Butt{Thickness: 0.01}),
			"shrinkage across a butt weld: area of the weld 0 mm2 is outside 1 mm2 to 5000 mm2; check the value and its unit"},
		{"butt without plate", butt(distort.Butt{Area: 50 * unit.MM2}),
			"shrinkage across a butt weld: plate thickness 0 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"butt area in mm2", butt(distort.Butt{Area: 50, Thickness: 0.01}),
			"shrinkage across a butt weld: area of the weld 5e+07 mm2 is outside 1 mm2 to 5000 mm2; check the value and its unit"},
		{"butt negative gap", butt(distort.Butt{Area: 50 * unit.MM2, Thickness: 0.01, RootGap: -1e-3}),
			"shrinkage across a butt weld: root gap -1 mm is outside 0 mm to 30 mm; check the value and its unit"},
		{"butt no number", butt(distort.Butt{Area: math.NaN(), Thickness: 0.01}),
			"shrinkage across a butt weld: area of the weld that is not a finite number is outside 1 mm2 to 5000 mm2; check the value and its unit"},
		{"butt heat in kJ/mm", butt(distort.Butt{Area: 50 * unit.MM2, Thickness: 0.01, HeatInput: 0.8}),
			"shrinkage across a butt weld: heat input 8e-07 kJ/mm is outside 0.02 kJ/mm to 20 kJ/mm; check the value and its unit"},
		{"fillet too large for the rule", fillet(distort.Fillet{Leg: 8 * unit.MM, Thickness: 10 * unit.MM}),
			"shrinkage across a fillet weld: leg of the fillet 8 mm is outside 0 mm to 7.5 mm; the allowance holds for legs up to three quarters of the plate: weld a trial piece"},
		{"fillet without leg", fillet(distort.Fillet{Thickness: 10 * unit.MM}),
			"shrinkage across a fillet weld: leg of the fillet 0 mm is outside 1 mm to 60 mm; check the value and its unit"},
		{"fillet heat", fillet(distort.Fillet{Leg: 6 * unit.MM, Thickness: 10 * unit.MM, HeatInput: -1}),
			"shrinkage across a fillet weld: heat input -1e-06 kJ/mm is outside 0.02 kJ/mm to 20 kJ/mm; check the value and its unit"},
		{"along without kind", along(distort.Along{Length: 1}),
			"shrinkage along a weld: kind of weld not stated; say butt weld or fillet weld"},
		{"along without length", along(distort.Along{Joint: distort.ButtJoint}),
			"shrinkage along a weld: length 0 m is outside 0.001 m to 100 m; check the value and its unit"},
		{"along heat without section", along(distort.Along{Joint: distort.ButtJoint, Length: 1, HeatInput: 1e6}),
			"shrinkage along a weld: the heat input is given without the section that it pulls on; give both or neither"},
		{"along section without heat", along(distort.Along{Joint: distort.ButtJoint, Length: 1, Section: 0.01}),
			"shrinkage along a weld: the section is given without a heat input; give both or neither"},
		{"flange narrower than its fillets", flange(distort.Flange{Width: 10 * unit.MM, Leg: 6 * unit.MM, Thickness: 10 * unit.MM}),
			"lift of the flange: leg of the fillet 6 mm is outside 0 mm to half of the flange, 5 mm; check which of the two is the width"},
		{"flange without thickness", flange(distort.Flange{Width: 100 * unit.MM, Leg: 6 * unit.MM}),
			"lift of the flange: plate thickness 0 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"no joint", func() error { _, err := distort.Angular(0); return err },
			"angular change: joint not stated; say one of: single V of 60 degrees in 12 mm plate, tee with a fillet on one side, joint welded evenly from both sides"},
		{"bow of no weld", bow(distort.Beam{Length: 3, Inertia: 8e6 * mm4}),
			"bow: no weld is given; give at least one"},
		{"bow inertia in mm4", bow(distort.Beam{Length: 3, Inertia: 8e6, Welds: []distort.Pull{pull}}),
			"bow: second moment of area 8e+18 mm4 is outside 0.1 mm4 to 1e+12 mm4; check the value and its unit"},
		{"bow of no length", bow(distort.Beam{Inertia: 8e6 * mm4, Welds: []distort.Pull{pull}}),
			"bow: length 0 m is outside 0.001 m to 100 m; check the value and its unit"},
		{"bow second weld", bow(distort.Beam{Length: 3, Inertia: 8e6 * mm4, Welds: []distort.Pull{pull, {Area: 18 * unit.MM2, Offset: 80}}}),
			"bow: weld 2: distance from the neutral axis 80 m is outside -10 m to 10 m; check the value and its unit"},
		{"order of nothing", order(distort.OrderRequest{}),
			"order of seams: no seam is given; give at least one"},
		{"order of too many", order(distort.OrderRequest{Seams: make([]distort.Seam, 2001)}),
			"order of seams: number of seams 2001 is outside 1 to 2000; split the part into assemblies"},
		{"order unknown end", order(distort.OrderRequest{Seams: []distort.Seam{good}, Held: 9}),
			"order of seams: held end 9 is not known; say both free, low end held or high end held"},
		{"order tiny back-step", order(distort.OrderRequest{Seams: []distort.Seam{good}, BackStep: 1e-9}),
			"order of seams: back-step 1e-06 mm is outside 10 mm to 5000 mm; check the value and its unit"},
		{"order seam of no length", order(distort.OrderRequest{Seams: []distort.Seam{good, seam(18, 0, 80, 5, 5)}}),
			"order of seams: seam 2: length 0 m is outside 0.001 m to 100 m; check the value and its unit"},
		{"order seam nowhere", order(distort.OrderRequest{Seams: []distort.Seam{seam(18, 0, 80, 0, math.Inf(1))}}),
			"order of seams: seam 1: place along the part that is not a finite number is outside -100 m to 100 m; check the value and its unit"},
		{"order seam no number", order(distort.OrderRequest{Seams: []distort.Seam{seam(18, math.NaN(), 80, 0, 100)}}),
			"order of seams: seam 1: distance from the neutral axis that is not a finite number is outside -10 m to 10 m; check the value and its unit"},
	} {
		t.Run(row.name, func(t *testing.T) {
			err := row.call()
			if err == nil {
				t.Fatalf("no error; want %q", row.says)
			}
			if err.Error() != row.says {
				t.Errorf("got  %q\nwant %q", err, row.says)
			}
		})
	}
	var input *distort.InputError
	if err := butt(distort.Butt{Thickness: 0.01})(); !errors.As(err, &input) || input.What != "area of the weld" || input.Mend == "" {
		t.Errorf("%v is no InputError", err)
	}
}

package thermal_test

import (
	"errors"
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// refusal is a call that must fail in these very words.
type refusal struct {
	name string
	call func() error
	says string
}

func (r refusal) check(t *testing.T) {
	t.Helper()
	t.Run(r.name, func(t *testing.T) {
		err := r.call()
		if err == nil {
			t.Fatalf("no error; want %q", r.says)
		}
		if err.Error() != r.says {
			t.Errorf("got  %q\nwant %q", err, r.says)
		}
	})
}

func cooling(change func(*thermal.CoolingRequest)) func() error {
	return func() error {
		r := thermal.CoolingRequest{HeatInput: 0.8e6, Preheat: 20, Thickness: 10 * unit.MM, Shape: thermal.RunOnPlate}
		change(&r)
		_, err := thermal.Cooling(r)
		return err
	}
}

func TestCoolingRefusals(t *testing.T) {
	for _, r := range []refusal{
		{"cold steel", cooling(func(r *thermal.CoolingRequest) { r.Preheat = -5 }),
			"cooling time t8/5: preheat -5 degC is outside 0 degC to 300 degC; the cooling times of EN 1011-2 hold only there: warm cold steel first, and take hotter parts from a trial weld"},
		{"too hot", cooling(func(r *thermal.CoolingRequest) { r.Preheat = 500 }),
			"cooling time t8/5: preheat 500 degC is outside 0 degC to 300 degC; the cooling times of EN 1011-2 hold only there: warm cold steel first, and take hotter parts from a trial weld"},
		{"no thickness", cooling(func(r *thermal.CoolingRequest) { r.Thickness = 0 }),
			"cooling time t8/5: plate thickness 0 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"thickness in mm", cooling(func(r *thermal.CoolingRequest) { r.Thickness = 10 }),
			"cooling time t8/5: plate thickness 1e+04 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"heat input in kJ/mm", cooling(func(r *thermal.CoolingRequest) { r.HeatInput = 0.8 }),
			"cooling time t8/5: heat input 8e-07 kJ/mm is outside 0.02 kJ/mm to 20 kJ/mm; check the value and its unit"},
		{"no number", cooling(func(r *thermal.CoolingRequest) { r.Preheat = math.NaN() }),
			"cooling time t8/5: preheat that is not a finite number is outside 0 degC to 300 degC; the cooling times of EN 1011-2 hold only there: warm cold steel first, and take hotter parts from a trial weld"},
		{"no shape", cooling(func(r *thermal.CoolingRequest) { r.Shape = 0 }),
			"cooling time t8/5: joint shape not stated; write one of: run on plate, run between beads of a butt weld, single-run fillet in a corner joint, single-run fillet in a tee joint"},
		{"unknown shape", func() error { _, err := thermal.ParseJointShape("tee"); return err },
			"joint shape \"tee\" is not known; write one of: run on plate, run between beads of a butt weld, single-run fillet in a corner joint, single-run fillet in a tee joint"},
		{"no time", func() error {
			_, err := thermal.HeatInputFor(0, thermal.CoolingRequest{Preheat: 20, Thickness: 10 * unit.MM, Shape: thermal.RunOnPlate})
			return err
		},
			"cooling time t8/5 0 s is outside 0.5 s to 200 s; check the value and its unit"},
		{"combined thickness of one plate", func() error {
			_, err := thermal.HeatPaths{Thicknesses: []float64{0.01}}.CombinedThickness()
			return err
		},
			"combined thickness: 1 plates are outside 2 to 4; give 2 for a butt joint, 3 for a tee, 4 for a cross"},
		{"combined thickness in mm", func() error {
			_, err := thermal.HeatPaths{Thicknesses: []float64{10, 10}}.CombinedThickness()
			return err
		},
			"combined thickness: plate thickness 1e+04 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"place of preheat", func() error { _, err := thermal.MeasureAt(0); return err },
			"place of the preheat: plate thickness 0 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"no class of metal", func() error { _, err := thermal.InterpassCeiling(0); return err },
			"interpass ceiling: class of metal not stated; say one of: carbon-manganese steel, quenched and tempered steel, austenitic stainless steel, duplex stainless steel, aluminium"},
	} {
		r.check(t)
	}
}

func TestCompositionRefusals(t *testing.T) {
	equivalent := func(c thermal.Composition, k thermal.EquivalentKind) func() error {
		return func() error { _, err := c.Equivalent(k); return err }
	}
	outside := func(c thermal.Composition, k thermal.EquivalentKind) func() error {
		return func() error {
			e, err := c.Equivalent(k)
			if err != nil {
				return err
			}
			return e.Outside
		}
	}
	for _, r := range []refusal{
		{"nothing stated", equivalent(thermal.Composition{}, thermal.CET),
			"content of carbon 0 % by mass is outside 0.005 % by mass to 1 % by mass; give percent by mass, as the certificate prints it, of an unalloyed or low-alloy steel"},
		{"carbon as a share", equivalent(thermal.Composition{C: 0.0016, Mn: 1}, thermal.CET),
			"content of carbon 0.0016 % by mass is outside 0.005 % by mass to 1 % by mass; give percent by mass, as the certificate prints it, of an unalloyed or low-alloy steel"},
		{"negative", equivalent(thermal.Composition{C: 0.16, Mn: -1}, thermal.CET),
			"content of manganese -1 % by mass is outside 0 % by mass to 5 % by mass; give percent by mass, as the certificate prints it, of an unalloyed or low-alloy steel"},
		{"no number", equivalent(thermal.Composition{C: 0.16, B: math.NaN()}, thermal.CET),
			"content of boron that is not a finite number is outside 0 % by mass to 0.02 % by mass; give percent by mass, as the certificate prints it, of an unalloyed or low-alloy steel"},
		{"stainless", equivalent(thermal.Composition{C: 0.05, Cr: 18, Ni: 9}, thermal.CET),
			"content of chromium 18 % by mass is outside 0 % by mass to 5 % by mass; give percent by mass, as the certificate prints it, of an unalloyed or low-alloy steel"},
		{"no scale", equivalent(s355, 0),
			"carbon equivalent not stated; say one of: CE (IIW), CET, Pcm, CEN"},
		{"CET of little manganese", outside(thermal.Composition{C: 0.16, Mn: 0.3}, thermal.CET),
			"content of manganese 0.3 % by mass is outside 0.5 % by mass to 1.9 % by mass; take another carbon equivalent"},
		{"CE of little carbon", outside(thermal.Composition{C: 0.06, Mn: 1.6}, thermal.CEIIW),
			"content of carbon 0.06 % by mass is outside 0.12 % by mass to 0.6 % by mass; take another carbon equivalent"},
		{"CE too small", outside(thermal.Composition{C: 0.13, Mn: 0.6}, thermal.CEIIW),
			"CE (IIW) 0.23 is outside 0.3 to 0.7; take another carbon equivalent"},
		{"Pcm of much carbon", outside(thermal.Composition{C: 0.22, Mn: 1.2}, thermal.Pcm),
			"content of carbon 0.22 % by mass is outside 0.005 % by mass to 0.18 % by mass; take another carbon equivalent"},
		{"given without scale", func() error { _, err := thermal.GivenEquivalent(0, 0.4); return err },
			"carbon equivalent not stated; say one of: CE (IIW), CET, Pcm, CEN"},
		{"given as hundredths", func() error { _, err := thermal.GivenEquivalent(thermal.CET, 42); return err },
			"CET: carbon equivalent 42 % by mass is outside 0.02 % by mass to 1.5 % by mass; check the value; 0.42 % is 0.42"},
		{"unknown scale", func() error { _, err := thermal.ParseEquivalentKind("CEQ"); return err },
			"carbon equivalent \"CEQ\" is not known; write one of: CE (IIW), CET, Pcm, CEN"},
		{"unknown grade, near names", func() error { _, err := thermal.FindGrade("S355"); return err },
			"steel grade \"S355\" is not known; near it: S355N, S355M, S355JR, S355J0, S355J2, S355K2; write one of these, or give the composition from the certificate"},
		{"unknown grade, slip", func() error { _, err := thermal.FindGrade("S690QI"); return err },
			"steel grade \"S690QI\" is not known; near it: S690QL; write one of these, or give the composition from the certificate"},
		{"unknown grade, far", func() error { _, err := thermal.FindGrade("cheese and onions"); return err },
			"steel grade \"cheese and onions\" is not known; write one of S235JR, S235J2, S275JR, S275J2, S355JR, S355J0, S355J2, S355K2, S355N, S460N, S355M, S420M, S460M, S355MC, S420MC, S460MC, S500MC, S700MC, S690QL, A36, A572-42, A572-50, A572-60, A572-65, A588-B, A992, or give the composition from the certificate"},
	} {
		r.check(t)
	}
	var unknown *thermal.UnknownGradeError
	if _, err := thermal.FindGrade("S355"); !errors.As(err, &unknown) || len(unknown.Near) == 0 || len(unknown.Known) != len(thermal.Grades()) {
		t.Errorf("%+v", unknown)
	}
}

func byCET(t *testing.T, change func(*thermal.CETRequest)) func() error {
	r := thermal.CETRequest{Family: weld.ISO, Steel: given(t, thermal.CET, 0.32), Thickness: 20 * unit.MM, Hydrogen: 5, HeatInput: 1e6}
	change(&r)
	return func() error { _, err := thermal.PreheatByCET(r); return err }
}

func byD11(change func(*thermal.D11Request)) func() error {
	r := thermal.D11Request{Family: weld.AWS, Group: thermal.GroupLowHydrogen, Thickness: 20 * unit.MM, Process: weld.MAG}
	change(&r)
	return func() error { _, err := thermal.PreheatByD11(r); return err }
}

func TestPreheatRefusals(t *testing.T) {
	for _, r := range []refusal{
		{"CET too small", byCET(t, func(r *thermal.CETRequest) { r.Steel = given(t, thermal.CET, 0.15) }),
			"preheat by EN 1011-2 method B: CET 0.15 % by mass is outside 0.2 % by mass to 0.5 % by mass; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"CET too large", byCET(t, func(r *thermal.CETRequest) { r.Steel = given(t, thermal.CET, 0.6) }),
			"preheat by EN 1011-2 method B: CET 0.6 % by mass is outside 0.2 % by mass to 0.5 % by mass; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"weld metal too large", byCET(t, func(r *thermal.CETRequest) { r.Filler = given(t, thermal.CET, 0.49) }),
			"preheat by EN 1011-2 method B: CET 0.52 % by mass is outside 0.2 % by mass to 0.5 % by mass; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"V072 thin plate", byCET(t, func(r *thermal.CETRequest) { r.Thickness = 8 * unit.MM }),
			"preheat by EN 1011-2 method B: plate thickness 8 mm is outside 10 mm to 90 mm; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"thick plate", byCET(t, func(r *thermal.CETRequest) { r.Thickness = 100 * unit.MM }),
			"preheat by EN 1011-2 method B: plate thickness 100 mm is outside 10 mm to 90 mm; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"much hydrogen", byCET(t, func(r *thermal.CETRequest) { r.Hydrogen = 30 }),
			"preheat by EN 1011-2 method B: diffusible hydrogen 30 ml/100 g is outside 1 ml/100 g to 20 ml/100 g; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"little heat", byCET(t, func(r *thermal.CETRequest) { r.HeatInput = 0.4e6 }),
			"preheat by EN 1011-2 method B: heat input 0.4 kJ/mm is outside 0.5 kJ/mm to 4 kJ/mm; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"strong steel", byCET(t, func(r *thermal.CETRequest) { r.Yield = 1100e6 }),
			"preheat by EN 1011-2 method B: yield strength 1100 MPa is outside 50 MPa to 1000 MPa; EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"},
		{"another scale", byCET(t, func(r *thermal.CETRequest) { r.Steel = given(t, thermal.CEIIW, 0.42) }),
			"preheat by EN 1011-2 method B: the plates: a CET is wanted and CE (IIW) 0.420 was given; the scales are never exchanged: compute the CET from the composition"},
		{"no scale", byCET(t, func(r *thermal.CETRequest) { r.Steel = thermal.Equivalent{} }),
			"preheat by EN 1011-2 method B: the plates: a CET is wanted and carbon equivalent not stated was given; the scales are never exchanged: compute the CET from the composition"},
		{"table as method", byCET(t, func(r *thermal.CETRequest) { r.Method = thermal.TableD11 }),
			"preheat by the preheat table of AWS D1.1: the preheat table of AWS D1.1 does not work by CET; say EN 1011-2 method B or SEW 088"},
		{"job of the other family", byCET(t, func(r *thermal.CETRequest) { r.Family = weld.AWS }),
			"EN 1011-2 method B belongs to the ISO family and the job is of the AWS family; codes are never mixed in one answer: take a method of the AWS family"},
		{"job of no family", byCET(t, func(r *thermal.CETRequest) { r.Family = 0 }),
			"EN 1011-2 method B belongs to the ISO family and the family of the job is not stated; say ISO, or take a method of the other family"},
		{"composition outside CET", byCET(t, func(r *thermal.CETRequest) {
			e, err := thermal.Composition{C: 0.4, Mn: 0.8}.Equivalent(thermal.CET)
			if err != nil {
				t.Fatal(err)
			}
			r.Steel = e
		}),
			"preheat by EN 1011-2 method B: the plates: CET 0.480 is outside its range: content of carbon 0.4 % by mass is outside 0.05 % by mass to 0.32 % by mass; take another carbon equivalent"},
		{"D1.1 for an ISO job", byD11(func(r *thermal.D11Request) { r.Family = weld.ISO }),
			"the preheat table of AWS D1.1 belongs to the AWS family and the job is of the ISO family; codes are never mixed in one answer: take a method of the ISO family"},
		{"D1.1 for no family", byD11(func(r *thermal.D11Request) { r.Family = 0 }),
			"the preheat table of AWS D1.1 belongs to the AWS family and the family of the job is not stated; say AWS, or take a method of the other family"},
		{"D1.1 thin", byD11(func(r *thermal.D11Request) { r.Thickness = 2 * unit.MM }),
			"the preheat table of AWS D1.1: plate thickness 2 mm is outside 3 mm to 300 mm; the table is meant for no other part: ask the welding coordinator"},
		{"D1.1 no group", byD11(func(r *thermal.D11Request) { r.Group = 0 }),
			"the preheat table of AWS D1.1: steel that AWS D1.1 does not list; take the group of a grade that it lists, such as A36 or A572-50, or qualify the preheat by test"},
		{"D1.1 TIG", byD11(func(r *thermal.D11Request) { r.Process = weld.TungstenArc }),
			"the preheat table of AWS D1.1: 141 tungsten arc has no row; the table knows gas-metal arc, cored wire, submerged arc and covered electrodes"},
		{"D1.1 electrode of much hydrogen", byD11(func(r *thermal.D11Request) { r.Process = weld.CoveredElectrode }),
			"the preheat table of AWS D1.1: steel for low-hydrogen processes (category B) with 111 covered electrode of no low-hydrogen class has no row; take a low-hydrogen electrode or a wire process"},
		{"D1.1 for a European steel", func() error {
			g, err := thermal.FindGrade("S355J2")
			if err != nil {
				t.Fatal(err)
			}
			_, err = g.D11Group()
			return err
		},
			"the preheat table of AWS D1.1 belongs to the AWS family and steel grade S355J2 is of the ISO family; codes are never mixed in one answer: take a method of the ISO family"},
		{"hydrogen scale", func() error { _, err := thermal.HydrogenScale(0); return err },
			"hydrogen scale: diffusible hydrogen 0 ml/100 g is outside 0.2 ml/100 g to 60 ml/100 g; take it from the wire's certificate: 5 is usual for a dry solid wire"},
		{"index on another scale", func() error { _, err := thermal.SusceptibilityIndex(given(t, thermal.CET, 0.3), 5); return err },
			"susceptibility index: a Pcm is wanted and CET 0.300 was given; the scales are never exchanged: compute the Pcm from the composition"},
		{"index beyond the groups", func() error { _, err := thermal.SusceptibilityIndex(given(t, thermal.Pcm, 0.6), 30); return err },
			"susceptibility index: 12 Pcm + log10 H 8.677 is outside 0 to 7; the groups of AWS D1.1 end there: ask the welding coordinator"},
		{"heating of no temperature", func() error { _, err := thermal.Preheat{}.HeatTo(math.Inf(1)); return err },
			"temperature of the part that is not a finite number is outside -40 degC to 600 degC; check the value and its unit"},
	} {
		r.check(t)
	}
}

func field(t *testing.T, p thermal.Plate) thermal.Field {
	t.Helper()
	f, err := thermal.NewField(thermal.FieldRequest{Power: 5200, Travel: 6.8 * unit.MMPerS, Preheat: 20, Plate: p, Thickness: 10 * unit.MM})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestFieldRefusals(t *testing.T) {
	build := func(change func(*thermal.FieldRequest)) func() error {
		r := thermal.FieldRequest{Power: 5200, Travel: 6.8 * unit.MMPerS, Preheat: 20, Plate: thermal.ThinPlate, Thickness: 10 * unit.MM}
		change(&r)
		return func() error { _, err := thermal.NewField(r); return err }
	}
	wait := func(change func(*thermal.WaitRequest)) func() error {
		r := thermal.WaitRequest{HeatInput: 0.8e6, Preheat: 100, Ceiling: 250, Thickness: 10 * unit.MM, Shape: thermal.TeeFillet}
		change(&r)
		return func() error { _, err := thermal.InterpassWait(r); return err }
	}
	thin, finite := field(t, thermal.ThinPlate), field(t, thermal.FinitePlate)
	for _, r := range []refusal{
		{"power in kW", build(func(r *thermal.FieldRequest) { r.Power = 5.2 }),
			"temperature field: heat power 0.0052 kW is outside 0.1 kW to 60 kW; give k times volts times amps, in watts"},
		{"standing still", build(func(r *thermal.FieldRequest) { r.Travel = 0 }),
			"temperature field: travel speed 0 mm/s is outside 0.2 mm/s to 100 mm/s; check the value and its unit"},
		{"no plate", build(func(r *thermal.FieldRequest) { r.Plate = 0 }),
			"temperature field: plate not stated; say thick, thin or finite"},
		{"no thickness", build(func(r *thermal.FieldRequest) { r.Thickness = 0 }),
			"temperature field: plate thickness 0 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"hotter than melting", build(func(r *thermal.FieldRequest) {
			r.Metal, r.Preheat = thermal.Metal{Name: "lead", Conductivity: 35, HeatCapacity: 1.5e6, Melting: 327}, 400
		}),
			"temperature field: melting temperature 327 degC is outside 400 degC and more, the part's temperature; check the constants of the metal and the preheat"},
		{"metal without conductivity", build(func(r *thermal.FieldRequest) {
			r.Metal = thermal.Metal{Name: "wood", Conductivity: 0.2, HeatCapacity: 1e6, Melting: 400}
		}),
			"temperature field: conductivity 0.2 W/(m K) is outside 5 W/(m K) to 450 W/(m K); check the value and its unit; steel has 25 to 50"},
		{"unknown constants", func() error { _, err := thermal.MetalOf(77); return err },
			"set 77 of constants is not known; known are low-alloy steel (Grong), carbon steel (Easterling), carbon steel, hot (lecture notes), steel (ship-welding set), austenitic stainless steel, aluminium (Easterling)"},
		{"peak on the run", func() error { _, err := thin.Peak(0, 0); return err },
			"peak temperature: distance from the line of the run 0 mm is outside 0.001 mm to 2e+04 mm; ask for a place beside the run"},
		{"peak a hair beside the run", func() error { _, err := thin.Peak(1e-200, 0); return err },
			"peak temperature: distance from the line of the run 1e-197 mm is outside 0.001 mm to 2e+04 mm; ask for a place beside the run"},
		{"peak below the plate", func() error { _, err := finite.Peak(0.01, 0.02); return err },
			"peak temperature: depth 20 mm is outside 0 mm to 10 mm; 0 is the face that the arc is on"},
		{"peak far away", func() error { _, err := finite.Peak(11, 0); return err },
			"peak temperature: distance from the source 11 m is outside -10 m to 10 m; check the value and its unit"},
		{"never so hot", func() error { _, err := thin.CoolingTime(0.05, 0, 800, 500); return err },
			"cooling time: temperature 800 degC is outside 94 degC and less, the hottest that the place gets; ask for a place nearer to the run"},
		{"never so cold", func() error { _, err := thin.CoolingTime(0, 0, 800, 20); return err },
			"cooling time: temperature 20 degC is outside 21 degC and more; the plate does not cool below the temperature that it has far away"},
		{"upside down", func() error { _, err := thin.CoolingTime(0, 0, 500, 800); return err },
			"cooling time: lower temperature 800 degC is outside 500 degC and less; swap the two"},
		{"no places", func() error { _, err := thin.Grid(thermal.GridRequest{}); return err },
			"picture of temperatures: 0 columns and 0 rows are outside 1 to 4194304 places in all; ask for a net of that many"},
		{"too many places", func() error { _, err := thin.Grid(thermal.GridRequest{Columns: 1 << 40, Rows: 1 << 40}); return err },
			"picture of temperatures: 1099511627776 columns and 1099511627776 rows are outside 1 to 4194304 places in all; ask for a net of that many"},
		{"places below the plate", func() error {
			_, err := finite.Grid(thermal.GridRequest{ColumnStep: r3.Vec{X: 1e-3}, RowStep: r3.Vec{Z: 1e-3}, Columns: 10, Rows: 20})
			return err
		},
			"picture of temperatures: depth 19 mm is outside 0 mm to 10 mm; 0 is the face that the arc is on"},
		{"fast peak at no distance", func() error {
			_, err := thermal.PeakRequest{HeatInput: 0.8e6, Preheat: 20}.PeakInThickPlate(0)
			return err
		},
			"peak temperature in thick plate: distance 0 mm is outside 0.1 mm to 1000 mm; check the value and its unit"},
		{"radius below the part", func() error {
			_, err := thermal.PeakRequest{HeatInput: 0.8e6, Preheat: 120}.RadiusInThickPlate(100)
			return err
		},
			"radius of a peak temperature in thick plate: rise of temperature to the peak -20 K is outside 20 K to 3000 K; ask for a peak above the part's temperature"},
		{"fast peak in no plate", func() error {
			_, err := thermal.PeakRequest{HeatInput: 0.8e6, Preheat: 120}.PeakInThinPlate(0.01)
			return err
		},
			"peak temperature in thin plate: plate thickness 0 mm is outside 0.5 mm to 300 mm; check the value and its unit"},
		{"ceiling below the part", wait(func(r *thermal.WaitRequest) { r.Ceiling = 90 }),
			"interpass wait: interpass ceiling 90 degC is outside 105 degC to 600 degC; the part does not cool below the temperature it has away from the weld: raise the ceiling or let the whole part cool"},
		{"wait without heat", wait(func(r *thermal.WaitRequest) { r.HeatInput = 0 }),
			"interpass wait: heat input 0 kJ/mm is outside 0.02 kJ/mm to 20 kJ/mm; check the value and its unit"},
		{"wait without shape", wait(func(r *thermal.WaitRequest) { r.Shape = 0 }),
			"interpass wait: joint shape not stated; write one of: run on plate, run between beads of a butt weld, single-run fillet in a corner joint, single-run fillet in a tee joint"},
	} {
		r.check(t)
	}
}

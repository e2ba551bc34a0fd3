package procedure_test

import (
	"slices"
	"strings"
	"testing"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// wps returns an invented procedure of three runs on top of spec.
func wps() *procedure.WPS {
	return &procedure.WPS{
		Common: spec(),
		Further: procedure.Further{ParentGroups: []string{"1.2"}, Polarities: []procedure.Polarity{procedure.ElectrodePositive},
			Techniques: []procedure.Technique{procedure.Stringer, procedure.Weave}, Amplitude: weld.AtMost(4e-3), Frequency: weld.Between(0.5, 3), Dwell: weld.AtMost(0.4),
			Preheat: weld.AtLeast(20), Interpass: weld.AtMost(250)},
		Manufacturer: "Alder Forge", JointSketch: "sheet 2",
		Runs: []procedure.Run{
			{First: 1, Last: 1, Name: "root", Current: weld.Between(190, 210), Technique: procedure.Stringer},
			{First: 2, Last: 3, Name: "fill", Current: weld.Between(200, 220)},
			{First: 4, Name: "cap", Travel: weld.Between(7e-3, 9e-3), Transfer: weld.Pulsed},
		},
	}
}

// welded returns a pass inside wps in every item, for run 1.
func welded(t *testing.T) procedure.Planned {
	t.Helper()
	p := plan(t)
	p.ParentGroup, p.Settings.Polarity, p.Technique = "1.2", procedure.ElectrodePositive, procedure.Stringer
	p.Preheat, p.Interpass = procedure.KnownTemperature(25), procedure.KnownTemperature(150)
	p.Run.Number = 1
	return p
}

// states maps verdicts by item.
func states(t *testing.T, verdicts []procedure.Verdict, err error) map[procedure.Item]procedure.Verdict {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	out := map[procedure.Item]procedure.Verdict{}
	for _, v := range verdicts {
		if _, twice := out[v.Item]; twice {
			t.Errorf("%s is reported twice", v.Item)
		}
		out[v.Item] = v
	}
	return out
}

func TestWPSCheck(t *testing.T) {
	for _, row := range []struct {
		name    string
		run     int
		change  func(*procedure.Planned)
		outside []procedure.Item
	}{
		{"root as planned", 1, func(*procedure.Planned) {}, nil},
		{"weave in the root", 1, func(p *procedure.Planned) { p.Technique, p.Amplitude, p.Frequency = procedure.Weave, 3e-3, 1 }, []procedure.Item{procedure.ItemTechnique}},
		{"weave in a fill", 2, func(p *procedure.Planned) { p.Technique, p.Amplitude, p.Frequency = procedure.Weave, 3e-3, 1 }, nil},
		{"wide weave", 2, func(p *procedure.Planned) { p.Technique, p.Amplitude, p.Frequency = procedure.Weave, 5e-3, 1 }, []procedure.Item{procedure.ItemAmplitude}},
		{"slow weave", 3, func(p *procedure.Planned) { p.Technique, p.Amplitude, p.Frequency = procedure.Weave, 3e-3, 0.2 }, []procedure.Item{procedure.ItemFrequency}},
		{"long stand at one side", 3, func(p *procedure.Planned) {
			p.Technique, p.Amplitude, p.Frequency, p.DwellRight = procedure.Weave, 3e-3, 1, 0.5
		}, []procedure.Item{procedure.ItemDwell}},
		{"root current in the fill", 2, func(p *procedure.Planned) { p.Settings.Amps = 195 }, []procedure.Item{procedure.ItemCurrent}},
		{"fill current in the root", 1, func(p *procedure.Planned) { p.Settings.Amps = 215 }, []procedure.Item{procedure.ItemCurrent}},
		{"transfer of the cap", 7, func(*procedure.Planned) {}, []procedure.Item{procedure.ItemTransfer}},
		{"cold plate", 1, func(p *procedure.Planned) { p.Preheat.DegC = 5 }, []procedure.Item{procedure.ItemPreheat}},
		{"hot between runs", 2, func(p *procedure.Planned) { p.Interpass.DegC = 260 }, []procedure.Item{procedure.ItemInterpass}},
		{"wrong pole", 1, func(p *procedure.Planned) { p.Settings.Polarity = procedure.ElectrodeNegative }, []procedure.Item{procedure.ItemPolarity}},
		{"another group", 1, func(p *procedure.Planned) { p.ParentGroup = "8.1" }, []procedure.Item{procedure.ItemParentGroup}},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := welded(t)
			p.Run.Number = row.run
			row.change(&p)
			verdicts, err := wps().Check(p)
			for item, v := range states(t, verdicts, err) {
				if got := v.State == procedure.Outside; got != slices.Contains(row.outside, item) || v.State == procedure.NotStated || v.State == procedure.NotKnown {
					t.Errorf("%s: %v, found %q, measured %g in %+v", item, v.State, v.Found, v.Measured, v.Range)
				}
			}
			if procedure.Passed(verdicts) != (row.outside == nil) {
				t.Errorf("passed %v", procedure.Passed(verdicts))
			}
		})
	}
}

// TestWPSSilence: an empty procedure states nothing, item by item, and passes
// nothing; the further items are among them.
func TestWPSSilence(t *testing.T) {
	bare := procedure.WPS{Common: procedure.Spec{ID: "bare", Family: weld.ISO}}
	verdicts, err := bare.Check(welded(t))
	got := states(t, verdicts, err)
	for _, item := range []procedure.Item{procedure.ItemParentGroup, procedure.ItemPolarity, procedure.ItemTechnique, procedure.ItemPreheat, procedure.ItemCurrent} {
		if got[item].State != procedure.NotStated {
			t.Errorf("%s: %v, want not stated", item, got[item].State)
		}
	}
	if procedure.Passed(verdicts) {
		t.Error("silence passes")
	}
	verdicts, err = wps().Check(procedure.Planned{Family: weld.ISO, Run: procedure.Which{Number: 2}})
	for item, v := range states(t, verdicts, err) {
		if v.State != procedure.NotKnown {
			t.Errorf("%s: %v, want not known", item, v.State)
		}
	}
	// Spec alone keeps to its own items.
	alone, err := spec().Check(welded(t))
	if _, there := states(t, alone, err)[procedure.ItemPreheat]; there {
		t.Error("Spec.Check reports preheat, which it cannot limit")
	}
}

func TestWPSRefusals(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(*procedure.WPS)
		says   string
	}{
		{"current upside down", func(w *procedure.WPS) { w.Common.Current = weld.Between(250, 200) }, `welding procedure "P-07": current: the range runs from 250 down to 200; swap its ends`},
		{"run upside down", func(w *procedure.WPS) { w.Runs[0].Current = weld.Between(210, 190) }, `welding procedure "P-07": run 1: current: the range runs from 210 down to 190; swap its ends; allowed: a range from its lower to its upper end; correct the range`},
		{"run out of the range of all", func(w *procedure.WPS) { w.Runs[1].Current = weld.Between(200, 260) }, `welding procedure "P-07": runs 2 to 3: current: a range that leaves that of all runs; allowed: one inside it; widen the range of all runs or narrow the run's`},
		{"run twice", func(w *procedure.WPS) { w.Runs[1].First = 1 }, `welding procedure "P-07": runs 1 to 3: pass 1 in a second row; allowed: rows that run from pass 1 on, each pass once; begin this row at pass 2, or end the one before it earlier`},
		{"run after all the rest", func(w *procedure.WPS) { w.Runs[1].Last = 0 }, `welding procedure "P-07": runs from 4 on: a row after runs from 2 on; allowed: rows that run from pass 1 on, each pass once; end the row before it at pass 3`},
		{"run left out", func(w *procedure.WPS) { w.Runs[1].First = 3 }, `welding procedure "P-07": run 3: no row for pass 2; allowed: rows that run from pass 1 on, each pass once; add the row, or widen one of those beside it`},
		{"no first run", func(w *procedure.WPS) { w.Runs = w.Runs[1:] }, `welding procedure "P-07": runs 2 to 3: no row for pass 1; allowed: rows that run from pass 1 on, each pass once; add the row, or widen one of those beside it`},
		{"run zero", func(w *procedure.WPS) { w.Runs[0].First = 0 }, `welding procedure "P-07": runs 0 to 1: passes 0 to 1; allowed: 1 and up, in order; number the passes as they are welded`},
		{"run backward", func(w *procedure.WPS) { w.Runs[2] = procedure.Run{First: 4, Last: 3} }, `welding procedure "P-07": runs 4 to 3: passes 4 to 3; allowed: 1 and up, in order; number the passes as they are welded`},
		{"role beside numbers", func(w *procedure.WPS) { w.Runs[2] = procedure.Run{Roles: []section.Role{section.CapPass}} }, `welding procedure "P-07": cap runs: rows by role beside rows by number; allowed: one of the two; write all rows as root, fill, cap, or all by the numbers of the passes`},
		{"role twice", func(w *procedure.WPS) {
			w.Runs = []procedure.Run{{Roles: []section.Role{section.RootPass, section.FillPass}}, {Roles: []section.Role{section.FillPass}}}
		}, `welding procedure "P-07": fill runs: fill in a second row; allowed: each role in one row; keep the row that is meant`},
		{"role that is none", func(w *procedure.WPS) { w.Runs = []procedure.Run{{Roles: []section.Role{9}}} }, `welding procedure "P-07": role not stated runs: role not stated; allowed: root, fill or cap; say what the passes are for`},
		{"interpass below preheat", func(w *procedure.WPS) { w.Further.Preheat, w.Further.Interpass = weld.AtLeast(150), weld.AtMost(100) }, `welding procedure "P-07": preheat is at least 150 degC and interpass at most 100 degC; allowed: interpass not below preheat; check which is which`},
		{"preheat upside down", func(w *procedure.WPS) { w.Further.Preheat = weld.Between(150, 100) }, `welding procedure "P-07": preheat temperature: the range runs from 150 down to 100; swap its ends`},
		{"position of the other family", func(w *procedure.WPS) { w.Common.Positions = []weld.PositionName{weld.Horizontal2F} }, `welding procedure "P-07": positions: 2F is not a position of ISO; write the positions in the words of one code`},
		{"energy of no kind", func(w *procedure.WPS) {
			w.Common.Energy, w.Common.EnergyIs, w.Runs[0].Energy = weld.Range{}, 0, weld.AtMost(1e6)
		}, `welding procedure "P-07": run 1: energy per length: energy quantity not stated, which does not belong to ISO; allowed: the energy that the code defines; say which quantity the limit is`},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := wps()
			row.change(w)
			if verdicts, err := w.Check(welded(t)); err == nil || verdicts != nil || err.Error() != row.says {
				t.Errorf("got  %v\nwant %s", err, row.says)
			}
		})
	}
	w := wps()
	w.Runs = w.Runs[:2]
	p := welded(t)
	p.Run = procedure.Which{Number: 5, Role: section.FillPass}
	if _, err := w.Check(p); err == nil || err.Error() != `welding procedure "P-07" states nothing for pass 5 (fill); it has run 1, runs 2 to 3` {
		t.Errorf("got %v", err)
	}
	if _, err := procedure.ParsePolarity("plus"); err == nil || err.Error() != `polarity "plus" is not known; write one of: electrode positive (DCEP), electrode negative (DCEN), alternating current (AC)` {
		t.Errorf("got %v", err)
	}
	p = welded(t)
	p.Family = weld.AWS
	if _, err := wps().Check(p); err == nil || err.Error() != `welding procedure "P-07" is of the ISO family, the job's is AWS; codes are never mixed in one check` {
		t.Errorf("got %v", err)
	}
}

// TestFields: every field appears in the order of the clauses, what is not said
// has no value, and runs with their own figures say so.
func TestFields(t *testing.T) {
	got := map[string]procedure.Field{}
	for _, f := range wps().Fields(unit.Metric) {
		if _, twice := got[f.Name]; twice {
			t.Errorf("%s appears twice", f.Name)
		}
		got[f.Name] = f
	}
	for name, value := range map[string]string{
		"manufacturer": "Alder Forge", "procedure number": "P-07", "revision": "B", "examiner": "", "parent material group": "1.2",
		"thickness": "3 to 12 mm", "welding process": "135 MAG", "position": "PA, PB, PF", "technique": "stringer, weave", "weave amplitude": "at most 4 mm",
		"wire diameter": "1 mm, 1.2 mm", "polarity": "electrode positive", "current": "184.5 to 225.5 A", "travel speed": "6 to 10 mm/s",
		"wire feed speed": "8.1 to 9.9 m/min", "preheat temperature": "at least 20 degC", "interpass temperature": "at most 250 degC",
		"heat input or arc energy": "at most 0.6 kJ/mm, heat input (with k)", "gas flow": "12 to 18 L/min", "back gouging": "", "wires at once": "", "post-weld heat treatment": "",
		"work angle": "35 to 55 deg", "travel angle": "push 5 deg to push 15 deg",
	} {
		if f, ok := got[name]; !ok || f.Value != value || f.Stated() != (value != "") {
			t.Errorf("%s: %+v, want %q", name, f, value)
		}
	}
	inch := *wps()
	inch.Common.WireDiameters, inch.Common.Thickness = []float64{0.045 * unit.Inch}, weld.Between(0.25*unit.Inch, 0.75*unit.Inch)
	for _, f := range inch.Fields(unit.InchPound) {
		if want := map[string]string{"wire diameter": "0.045 in", "thickness": "0.25 to 0.75 in", "preheat temperature": "at least 68 degF"}[f.Name]; want != "" && f.Value != want {
			t.Errorf("%s in inches: %q, want %q", f.Name, f.Value, want)
		}
	}
	all := wps()
	for i := range all.Runs {
		all.Runs[i].Current = weld.Between(190, 210)
	}
	for _, f := range all.Fields(unit.Metric) {
		if f.Name == "current" && f.Value != "by run" {
			t.Errorf("current of runs that each state it: %q", f.Value)
		}
	}
}

// TestFieldList holds the clauses against the contents of ISO 15609-1:2019,
// READ in previews, and the AWS form against its parts, READ in a sample.
func TestFieldList(t *testing.T) {
	clauses := func(f weld.CodeFamily) []string {
		var out []string
		for _, field := range (&procedure.WPS{Common: procedure.Spec{Family: f}}).Fields(unit.InchPound) {
			if field.Stated() {
				t.Errorf("an empty procedure states %s as %q", field.Name, field.Value)
			}
			if !slices.Contains(out, field.Clause) {
				out = append(out, field.Clause)
			}
		}
		return out
	}
	want := []string{"4.2", "4.3.1", "4.3.2"}
	for _, c := range strings.Fields("1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17") {
		want = append(want, "4.4."+c)
	}
	want = append(want, "4.5.3")
	if got := clauses(weld.ISO); !slices.Equal(got, want) {
		t.Errorf("clauses %q, want %q", got, want)
	}
	aws := clauses(weld.AWS)
	for _, part := range []string{"identification", "joint design", "base metal", "filler metal", "shielding", "position", "electrical", "technique", "preheat", "pass table"} {
		if !slices.Contains(aws, part) {
			t.Errorf("the AWS form has no %s", part)
		}
	}
}

// TestPermitted: what a record permits by the variables of D1.1, with the
// source of each limit in the verdict. V115 and its neighbours, from memory.
func TestPermitted(t *testing.T) {
	record := procedure.Record{ID: "PQR-4", Welded: awsPass(t)}
	variables, err := procedure.D11Variables(weld.MAG)
	if err != nil {
		t.Fatal(err)
	}
	got, err := record.Permitted(variables)
	if err != nil {
		t.Fatal(err)
	}
	s, f := got.Limits.Common, got.Limits.Further
	for _, row := range []struct {
		name      string
		r         weld.Range
		low, high float64
	}{
		{"V115 26 V", s.Voltage, 24.18, 27.82}, {"250 A", s.Current, 225, 275},
		{"6.8 mm/s", scaled(s.Travel, unit.MMPerS), 5.1, 8.5}, {"8 m/min", scaled(s.Feed, unit.MPerMin), 7.2, 8.8},
		{"15 L/min", scaled(s.GasFlow, unit.LPerMin), 12, 22.5},
	} {
		if d := max(abs(row.r.Low-row.low), abs(row.r.High-row.high)); d > 0.01 {
			t.Errorf("%s: %+v, want %g to %g", row.name, row.r, row.low, row.high)
		}
	}
	if f.Preheat != weld.AtLeast(6) || !slices.Equal(s.WireDiameters, []float64{1.2e-3}) || !slices.Equal(got.Silent, []procedure.Item{procedure.ItemWireClass}) {
		t.Errorf("preheat %+v, wires %v, silent %v", f.Preheat, s.WireDiameters, got.Silent)
	}
	verdicts, err := got.Limits.Check(record.Welded)
	for item, v := range states(t, verdicts, err) {
		if v.State == procedure.Outside {
			t.Errorf("the record's own pass is outside in %s", item)
		}
	}
	if procedure.Passed(verdicts) {
		t.Error("limits that say nothing of thickness pass")
	}
	hot := record.Welded
	hot.Settings.Volts = 28
	verdicts, err = got.Limits.Check(hot)
	v := states(t, verdicts, err)[procedure.ItemVoltage]
	if v.State != procedure.Outside || v.Source.String() != "AWS D1.1 essential variables, gas-metal arc, check the edition in the contract (from memory)" {
		t.Errorf("28 V: %v, %v", v.State, v.Source)
	}
	cored, err := procedure.D11Variables(weld.FluxCored)
	if err != nil {
		t.Fatal(err)
	}
	record.Welded.Settings.Process = weld.FluxCored
	got, err = record.Permitted(cored)
	if err != nil || slices.Max(got.Limits.Common.WireDiameters) != 1.2e-3 || len(got.Limits.Common.WireDiameters) < 5 {
		t.Errorf("thinner flux-cored wires: %v, %v", got.Limits.Common.WireDiameters, err)
	}
}

// TestISO15614: heat input, preheat and interpass about the record, from
// memory.
func TestISO15614(t *testing.T) {
	record := procedure.Record{ID: "WPQR-9", Welded: welded(t)}
	arc := 23.5 * 205 / 8.2e-3
	for _, row := range []struct {
		name      string
		tests     procedure.Tests
		energy    weld.Range
		interpass float64
	}{
		{"impact", procedure.Tests{Impact: true}, weld.AtMost(1.25 * arc), 200},
		{"hardness", procedure.Tests{Hardness: true}, weld.AtLeast(0.75 * arc), 200},
		{"both", procedure.Tests{Impact: true, Hardness: true}, weld.Between(0.75*arc, 1.25*arc), 200},
		{"level 1", procedure.Tests{Level1: true}, weld.Range{}, 250},
	} {
		got, err := record.Permitted(procedure.ISO15614Variables(row.tests))
		if err != nil {
			t.Fatal(err)
		}
		s, f := got.Limits.Common, got.Limits.Further
		if abs(s.Energy.Low-row.energy.Low) > 1e-6*arc && row.energy.HasLow || abs(s.Energy.High-row.energy.High) > 1e-6*arc && row.energy.HasHigh || s.Energy.HasLow != row.energy.HasLow || s.Energy.HasHigh != row.energy.HasHigh {
			t.Errorf("%s: energy %+v, want %+v", row.name, s.Energy, row.energy)
		}
		if f.Preheat != weld.AtLeast(25) || f.Interpass != weld.AtMost(row.interpass) {
			t.Errorf("%s: preheat %+v, interpass %+v", row.name, f.Preheat, f.Interpass)
		}
		if row.energy.Stated() && s.EnergyIs != thermal.ArcEnergy {
			t.Errorf("%s: energy is %v", row.name, s.EnergyIs)
		}
	}
}

func TestPermittedRefusals(t *testing.T) {
	iso := procedure.Record{ID: "R", Welded: welded(t)}
	d11, err := procedure.D11Variables(weld.MAG)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name string
		err  func() error
		says string
	}{
		{"variables of the other family", func() error { _, err := iso.Permitted(d11); return err }, `qualification record "R" is of the ISO family, the variable "process: no change" of AWS; codes are never mixed in one check`},
		{"record of no family", func() error { _, err := procedure.Record{ID: "R"}.Permitted(nil); return err }, `qualification record "R": code family not stated; say ISO or AWS`},
		{"share of a word", func() error {
			_, err := iso.Permitted([]procedure.Variable{{Item: procedure.ItemProcess, Rule: procedure.WithinShare, Source: weld.Source{Family: weld.ISO}}})
			return err
		}, `qualification record "R": variable "process: down without limit, up without limit": its change is not a number here; allowed: no change`},
		{"word of a number", func() error {
			_, err := iso.Permitted([]procedure.Variable{{Item: procedure.ItemCurrent, Rule: procedure.NoChange, Source: weld.Source{Family: weld.ISO}}})
			return err
		}, `qualification record "R": variable "current": its change is a number; allowed: a share or a step`},
		{"process that is not held", func() error { _, err := procedure.D11Variables(weld.TungstenArc); return err }, `essential variables of AWS D1.1: 141 tungsten arc is not held; allowed: 131, 135, 136, 138; open the code for other processes`},
	} {
		if err := row.err(); err == nil || err.Error() != row.says {
			t.Errorf("%s: got  %v\nwant %s", row.name, err, row.says)
		}
	}
	for v, want := range map[procedure.Variable]string{
		{Item: procedure.ItemGasFlow, Rule: procedure.WithinShare, Down: 0.2, Up: 0.5, HasDown: true, HasUp: true}: "gas flow: 20 % down, 50 % up",
		{Item: procedure.ItemPreheat, Rule: procedure.WithinStep, Down: 14, HasDown: true}:                         "preheat temperature: 14 degC down, up without limit",
		{Item: procedure.ItemWireDiameter, Rule: procedure.NoIncrease}:                                             "wire diameter: no increase",
		{Item: procedure.ItemCurrent}: "current: no rule",
	} {
		if v.String() != want {
			t.Errorf("%q, want %q", v, want)
		}
	}
}

// TestCheckerAgrees: a checker used again says what a fresh check says.
func TestCheckerAgrees(t *testing.T) {
	c, err := wps().Checker(1)
	if err != nil {
		t.Fatal(err)
	}
	var buffer []procedure.Verdict
	for i := range 50 {
		p := welded(t)
		p.Settings.Amps = float64(180 + i)
		p.Run.Number = 2
		one, err1 := wps().Check(p)
		buffer, err = c.Append(buffer[:0], p)
		if err != nil || err1 != nil || len(one) != len(buffer) {
			t.Fatal(err, err1, len(one), len(buffer))
		}
		for j := range one {
			if one[j].State != buffer[j].State || one[j].Item != buffer[j].Item || one[j].Measured != buffer[j].Measured {
				t.Fatalf("%g A: %+v, again %+v", p.Settings.Amps, one[j], buffer[j])
			}
		}
	}
}

// awsPass is the pass of an invented record: 26 V, 250 A, 6.8 mm/s, 8 m/min, 15
// L/min, 1.2 mm, preheat 20 degC.
func awsPass(t *testing.T) procedure.Planned {
	t.Helper()
	pos, err := weld.Classify(weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: 1, Z: 1}, r3.Vec{Z: 1})
	if err != nil {
		t.Fatal(err)
	}
	s := set("1", 1.2, 8, 26, 250, 0.97)
	s.Transfer, s.Polarity = weld.Spray, procedure.ElectrodePositive
	return procedure.Planned{Family: weld.AWS, Settings: s, Travel: 6.8e-3, Joint: weld.Tee, Kind: weld.Fillet, Position: pos,
		Preheat: procedure.KnownTemperature(20)}
}

// scaled returns a range in another unit.
func scaled(r weld.Range, u float64) weld.Range { return weld.Between(r.Low/u, r.High/u) }

func abs(x float64) float64 { return max(x, -x) }

// BenchmarkThousandPasses checks a thousand passes against one run.
func BenchmarkThousandPasses(b *testing.B) {
	c, err := wps().Checker(1)
	if err != nil {
		b.Fatal(err)
	}
	p := procedure.Planned{Family: weld.ISO, Settings: set11, Travel: 8.2e-3, Joint: weld.Tee, Kind: weld.Fillet, Preheat: procedure.KnownTemperature(25)}
	var buffer []procedure.Verdict
	b.ReportAllocs()
	for b.Loop() {
		for i := range 1000 {
			p.Settings.Amps = 150 + float64(i)/10
			if buffer, err = c.Append(buffer[:0], p); err != nil {
				b.Fatal(err)
			}
		}
	}
}

package procedure_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// spec returns an invented procedure that set 11 fits at 8.2 mm/s.
func spec() procedure.Spec {
	return procedure.Spec{
		ID: "P-07", Revision: "B", Family: weld.ISO,
		Processes: []weld.Process{weld.MAG}, Transfers: []weld.Transfer{weld.Spray, weld.Pulsed},
		Joints: []weld.JointType{weld.Tee, weld.Lap}, Kinds: []weld.WeldKind{weld.Fillet},
		Positions: []weld.PositionName{weld.PA, weld.PB, weld.PF}, Progressions: []weld.Progression{weld.Uphill},
		WireClass: "G 42 4 M21 3Si1", WireDiameters: []float64{1.0e-3, 1.2e-3},
		GasName: "M21", GasFlow: weld.Between(12*unit.LPerMin, 18*unit.LPerMin),
		Thickness: weld.Between(3e-3, 12e-3), Current: weld.Around(205, .1, .1), Voltage: weld.Around(23.5, .07, .07),
		Feed: weld.Around(0.15, .1, .1), Travel: weld.Between(6e-3, 10e-3),
		Energy: weld.AtMost(0.6e6), EnergyIs: thermal.HeatInput,
		ContactDistance: weld.Between(13e-3, 17e-3), WorkAngle: weld.Between(35*unit.Deg, 55*unit.Deg),
		TravelAngle: weld.Between(5*unit.Deg, 15*unit.Deg), WorkDeviation: weld.AtMost(5 * unit.Deg),
		TravelDeviation: weld.AtMost(5 * unit.Deg), SinglePass: weld.AtMost(6e-3), SinglePassIs: weld.Leg,
	}
}

// plan returns a pass inside spec in every item.
func plan(t *testing.T) procedure.Planned {
	t.Helper()
	pos, err := weld.Classify(weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: 1, Z: 1}, r3.Vec{Z: 1})
	if err != nil {
		t.Fatal(err)
	}
	s := set11
	s.Transfer, s.WireClass = weld.Spray, "G 42 4 M21 3Si1"
	return procedure.Planned{
		Family: weld.ISO, Settings: s, Travel: 8.2e-3, Joint: weld.Tee, Kind: weld.Fillet, Position: pos,
		Thinner: 6e-3, Thicker: 8e-3,
		WorkAngle: procedure.KnownAngle(45 * unit.Deg), TravelAngle: procedure.KnownAngle(10 * unit.Deg),
		WorkDeviation: procedure.KnownAngle(1 * unit.Deg), TravelDeviation: procedure.KnownAngle(0),
		PassLeg: 5e-3, PassThroat: 3.5e-3,
	}
}

func check(t *testing.T, s procedure.Spec, p procedure.Planned) map[procedure.Item]procedure.Verdict {
	t.Helper()
	verdicts, err := s.Check(p)
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

func TestCheckAllInside(t *testing.T) {
	verdicts, err := spec().Check(plan(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range verdicts {
		if v.State != procedure.Inside {
			t.Errorf("%s: %v, measured %g, range %+v, found %q in %q", v.Item, v.State, v.Measured, v.Range, v.Found, v.Allowed)
		}
		if got := v.Source.String(); got != "welding procedure P-07 revision B (given with the job)" {
			t.Errorf("%s: source %q", v.Item, got)
		}
	}
	if !procedure.Passed(verdicts) {
		t.Error("the plan does not pass")
	}
	// 23.5 V, 205 A, 8.2 mm/s, k 0.8: 0.470 kJ/mm.
	if e := check(t, spec(), plan(t))[procedure.ItemEnergy]; math.Abs(e.Measured/unit.KJPerMM-0.470) > 5e-4 || !strings.Contains(e.Note, "with k") {
		t.Errorf("energy %g J/m, note %q", e.Measured, e.Note)
	}
}

// TestCheckOneOutside changes one thing at a time and wants exactly that item
// to be outside.
func TestCheckOneOutside(t *testing.T) {
	vertical, err := weld.Classify(weld.Fillet, r3.Vec{Z: -1}, r3.Vec{Y: 1}, r3.Vec{Z: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name   string
		change func(*procedure.Planned)
		want   []procedure.Item
	}{
		{"process", func(p *procedure.Planned) { p.Settings.Process = weld.MetalCored }, []procedure.Item{procedure.ItemProcess}},
		{"transfer", func(p *procedure.Planned) { p.Settings.Transfer = weld.ShortCircuit }, []procedure.Item{procedure.ItemTransfer}},
		{"joint", func(p *procedure.Planned) { p.Joint = weld.OutsideCorner }, []procedure.Item{procedure.ItemJoint}},
		{"kind", func(p *procedure.Planned) { p.Kind = weld.Groove }, []procedure.Item{procedure.ItemKind}},
		{"position", func(p *procedure.Planned) { p.Position = vertical }, []procedure.Item{procedure.ItemPosition, procedure.ItemProgression}},
		{"wire class", func(p *procedure.Planned) { p.Settings.WireClass = "G 46 4 M21 4Si1" }, []procedure.Item{procedure.ItemWireClass}},
		{"inch wire for metric", func(p *procedure.Planned) { p.Settings.WireDiameter = 0.040 * unit.Inch }, []procedure.Item{procedure.ItemWireDiameter}},
		{"gas", func(p *procedure.Planned) { p.Settings.GasName = "C1" }, []procedure.Item{procedure.ItemGasName}},
		{"gas flow", func(p *procedure.Planned) { p.Settings.GasFlow = 30 * unit.LPerMin }, []procedure.Item{procedure.ItemGasFlow}},
		{"thin plate", func(p *procedure.Planned) { p.Thinner = 2e-3 }, []procedure.Item{procedure.ItemThickness}},
		{"thick plate", func(p *procedure.Planned) { p.Thicker = 20e-3 }, []procedure.Item{procedure.ItemThickness}},
		{"thick plate, thin unknown", func(p *procedure.Planned) { p.Thinner, p.Thicker = 0, 20e-3 }, []procedure.Item{procedure.ItemThickness}},
		{"current", func(p *procedure.Planned) { p.Settings.Amps = 230 }, []procedure.Item{procedure.ItemCurrent}},
		{"voltage", func(p *procedure.Planned) { p.Settings.Volts = 26 }, []procedure.Item{procedure.ItemVoltage}},
		{"feed", func(p *procedure.Planned) { p.Settings.Feed = 0.17 }, []procedure.Item{procedure.ItemFeed}},
		{"fast travel", func(p *procedure.Planned) { p.Travel = 11e-3 }, []procedure.Item{procedure.ItemTravelSpeed}},
		{"slow travel", func(p *procedure.Planned) { p.Travel = 5e-3 }, []procedure.Item{procedure.ItemTravelSpeed, procedure.ItemEnergy}},
		{"power reading", func(p *procedure.Planned) { p.Settings.Power = 6500 }, []procedure.Item{procedure.ItemEnergy}},
		{"contact distance", func(p *procedure.Planned) { p.Settings.ContactDistance = 20e-3 }, []procedure.Item{procedure.ItemContactDistance}},
		{"work angle", func(p *procedure.Planned) { p.WorkAngle.Rad = 60 * unit.Deg }, []procedure.Item{procedure.ItemWorkAngle}},
		{"drag instead of push", func(p *procedure.Planned) { p.TravelAngle.Rad = -10 * unit.Deg }, []procedure.Item{procedure.ItemTravelAngle}},
		{"work deviation", func(p *procedure.Planned) { p.WorkDeviation.Rad = 6 * unit.Deg }, []procedure.Item{procedure.ItemWorkDeviation}},
		{"travel deviation", func(p *procedure.Planned) { p.TravelDeviation.Rad = 6 * unit.Deg }, []procedure.Item{procedure.ItemTravelDeviation}},
		{"pass too big", func(p *procedure.Planned) { p.PassLeg = 7e-3 }, []procedure.Item{procedure.ItemSinglePass}},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan(t)
			row.change(&p)
			want := map[procedure.Item]bool{}
			for _, item := range row.want {
				want[item] = true
			}
			for item, v := range check(t, spec(), p) {
				if got := v.State == procedure.Outside; got != want[item] {
					t.Errorf("%s: %v, want outside %v", item, v.State, want[item])
				}
			}
		})
	}
}

// TestCheckSilence: what the procedure does not say is not stated, what the plan
// does not know is not known, and neither passes.
func TestCheckSilence(t *testing.T) {
	for item, v := range check(t, procedure.Spec{ID: "bare", Family: weld.ISO}, plan(t)) {
		if v.State != procedure.NotStated {
			t.Errorf("bare procedure, %s: %v, want not stated", item, v.State)
		}
	}
	for item, v := range check(t, spec(), procedure.Planned{Family: weld.ISO}) {
		if v.State != procedure.NotKnown {
			t.Errorf("bare plan, %s: %v, want not known", item, v.State)
		}
	}
	if procedure.Passed([]procedure.Verdict{{State: procedure.NotStated}}) || procedure.Passed([]procedure.Verdict{{State: procedure.NotKnown}}) {
		t.Error("silence passes")
	}
	noAmps := plan(t)
	noAmps.Settings.Amps = 0
	got := check(t, spec(), noAmps)
	if got[procedure.ItemCurrent].State != procedure.NotKnown || got[procedure.ItemEnergy].State != procedure.NotKnown {
		t.Errorf("without amps: current %v, energy %v", got[procedure.ItemCurrent].State, got[procedure.ItemEnergy].State)
	}
}

func TestCheckEnergyQuantities(t *testing.T) {
	// The same pass under three definitions: 23.5*205/8.2 = 587.5 J/mm without k.
	for _, row := range []struct {
		is     thermal.Quantity
		family weld.CodeFamily
		want   float64 // kJ/mm
	}{{thermal.ArcEnergy, weld.ISO, 0.5875}, {thermal.HeatInput, weld.ISO, 0.470}, {thermal.AWSHeatInput, weld.AWS, 0.5875}} {
		s, p := procedure.Spec{ID: "e", Family: row.family, Energy: weld.AtMost(0.5e6), EnergyIs: row.is}, plan(t)
		p.Family = row.family
		v := check(t, s, p)[procedure.ItemEnergy]
		if math.Abs(v.Measured/unit.KJPerMM-row.want) > 1e-9 || (v.State == procedure.Inside) != (row.want <= 0.5) {
			t.Errorf("%v: %g J/m, %v; want %g kJ/mm", row.is, v.Measured, v.State, row.want)
		}
	}
	pulsed := plan(t)
	pulsed.Settings.Transfer = weld.Pulsed
	if v := check(t, spec(), pulsed)[procedure.ItemEnergy]; !strings.Contains(v.Note, "pulsed source without a power reading") {
		t.Errorf("note %q does not warn of volts times amps", v.Note)
	}
	pulsed.Settings.Power = 4800
	if v := check(t, spec(), pulsed)[procedure.ItemEnergy]; !strings.Contains(v.Note, "mean power") || strings.Contains(v.Note, "without") {
		t.Errorf("note %q with a power reading", v.Note)
	}
}

func TestCheckNeverMixesFamilies(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(*procedure.Spec, *procedure.Planned)
		says   string
	}{
		{"job of the other family", func(_ *procedure.Spec, p *procedure.Planned) { p.Family = weld.AWS }, "never mixed"},
		{"job of no family", func(_ *procedure.Spec, p *procedure.Planned) { p.Family = 0 }, "never mixed"},
		{"procedure of no family", func(s *procedure.Spec, _ *procedure.Planned) { s.Family = 0 }, "say ISO or AWS"},
		{"position of the other family", func(s *procedure.Spec, _ *procedure.Planned) {
			s.Positions = append(s.Positions, weld.Horizontal2F)
		}, "2F is not a position of ISO"},
		{"energy of the other family", func(s *procedure.Spec, _ *procedure.Planned) { s.EnergyIs = thermal.AWSHeatInput }, "say which quantity"},
		{"energy of no quantity", func(s *procedure.Spec, _ *procedure.Planned) { s.EnergyIs = 0 }, "say which quantity"},
		{"size of no measure", func(s *procedure.Spec, _ *procedure.Planned) { s.SinglePassIs = 0 }, "say leg or throat"},
		{"throat in an AWS procedure", func(s *procedure.Spec, p *procedure.Planned) {
			*s = procedure.Spec{ID: "a", Family: weld.AWS, SinglePass: weld.AtMost(4e-3), SinglePassIs: weld.Throat}
			p.Family = weld.AWS
		}, "give the leg"},
		{"range upside down", func(s *procedure.Spec, _ *procedure.Planned) { s.Current = weld.Between(250, 200) }, "current: the range runs"},
		{"travel out of sense", func(_ *procedure.Spec, p *procedure.Planned) { p.Travel = 8.2 }, "travel speed"},
	} {
		t.Run(row.name, func(t *testing.T) {
			s, p := spec(), plan(t)
			row.change(&s, &p)
			verdicts, err := s.Check(p)
			if err == nil || verdicts != nil || !strings.Contains(err.Error(), row.says) {
				t.Errorf("got %d verdicts and %v, want an error that says %q", len(verdicts), err, row.says)
			}
		})
	}
}

func TestCheckThroat(t *testing.T) {
	s := spec()
	s.SinglePass, s.SinglePassIs = weld.AtMost(3.6e-3), weld.Throat
	v := check(t, s, plan(t))[procedure.ItemSinglePass]
	if v.State != procedure.Inside || v.Measured != 3.5e-3 || v.Note != "throat" {
		t.Errorf("got %+v, want the throat 3.5 mm inside", v)
	}
}

// TestCheckOrderIsFixed: the same inputs give the same verdicts in the same
// order.
func TestCheckOrderIsFixed(t *testing.T) {
	first, err := spec().Check(plan(t))
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		again, err := spec().Check(plan(t))
		if err != nil || len(again) != len(first) {
			t.Fatalf("%d verdicts, %v; want %d", len(again), err, len(first))
		}
		for i := range again {
			if again[i].Item != first[i].Item || again[i].State != first[i].State {
				t.Fatalf("verdict %d is %s, was %s", i, again[i].Item, first[i].Item)
			}
		}
	}
}

// TestCheckAgreesWithRange: for any current, the verdict is what the range says.
func TestCheckAgreesWithRange(t *testing.T) {
	base := plan(t)
	rapid.Check(t, func(t *rapid.T) {
		p := base
		p.Settings.Amps = rapid.Float64Range(50, 400).Draw(t, "amps")
		low := rapid.Float64Range(50, 200).Draw(t, "low")
		high := low + rapid.Float64Range(0, 200).Draw(t, "width")
		verdicts, err := procedure.Spec{ID: "r", Family: weld.ISO, Current: weld.Between(low, high)}.Check(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range verdicts {
			if v.Item != procedure.ItemCurrent {
				continue
			}
			margin := min(p.Settings.Amps-low, high-p.Settings.Amps)
			if math.Abs(margin) > 1e-6 && (v.State == procedure.Inside) != (margin > 0) {
				t.Fatalf("%g A in %g to %g: %v", p.Settings.Amps, low, high, v.State)
			}
		}
	})
}

func TestSettingsValidate(t *testing.T) {
	for _, s := range []procedure.Settings{set3, set11, set12, set15, set16, set17, set30} {
		if err := s.Validate(); err != nil {
			t.Error(err)
		}
	}
	least := procedure.Settings{ID: "1", WireDiameter: 1e-3, Feed: 0.15}
	if err := least.Validate(); err != nil {
		t.Errorf("wire and feed alone: %v", err)
	}
	for _, row := range []struct {
		name   string
		change func(*procedure.Settings)
		says   string
	}{
		{"no ID", func(s *procedure.Settings) { s.ID = "" }, "no ID"},
		{"no wire", func(s *procedure.Settings) { s.WireDiameter = 0 }, "wire diameter"},
		{"no feed", func(s *procedure.Settings) { s.Feed = 0 }, "wire feed"},
		{"unplanned process", func(s *procedure.Settings) { s.Process = weld.TungstenArc }, "not planned"},
		{"volts", func(s *procedure.Settings) { s.Volts = 230 }, "voltage"},
		{"amps", func(s *procedure.Settings) { s.Amps = -1 }, "current"},
		{"power", func(s *procedure.Settings) { s.Power = 6 }, "power"},
		{"efficiency in percent", func(s *procedure.Settings) { s.Efficiency = 96 }, "efficiency"},
		{"convexity", func(s *procedure.Settings) { s.Convexity = 10 }, "convexity"},
		{"gas in L/min", func(s *procedure.Settings) { s.GasFlow = 15 }, "gas flow"},
		{"contact distance", func(s *procedure.Settings) { s.ContactDistance = 15 }, "contact-tip"},
		{"phase", func(s *procedure.Settings) { s.Phases.CraterFill = -1 }, "phase"},
		{"not a number", func(s *procedure.Settings) { s.Volts = math.NaN() }, "voltage"},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := set11
			row.change(&s)
			if err := s.Validate(); err == nil || !strings.Contains(err.Error(), row.says) {
				t.Errorf("error %v, want one that says %q", err, row.says)
			}
		})
	}
}

func TestSettingsDefaults(t *testing.T) {
	s := procedure.Settings{ID: "9", WireDiameter: 1e-3, Feed: 0.15, Transfer: weld.ShortCircuit}
	if got := s.DepositionEfficiency(); got.Value != 0.95 || got.Source.Mark != weld.Memory {
		t.Errorf("efficiency %+v, want 0.95 from memory", got)
	}
	if got := s.PlanningFactor(); got.Value != 1.2 || got.Source.Mark != weld.Memory {
		t.Errorf("planning factor %+v, want 1.2 from memory", got)
	}
	if got := set11.DepositionEfficiency(); got.Value != 0.96 || got.Source.Mark != weld.Given {
		t.Errorf("efficiency %+v, want the set's own 0.96", got)
	}
	if got := set11.PlanningFactor(); got.Value != 1.1 || got.Source.Mark != weld.Given {
		t.Errorf("planning factor %+v, want the set's own 1.1", got)
	}
	if _, err := s.ArcEnergy(6.8e-3); !errors.Is(err, procedure.ErrEnergyUnknown) {
		t.Errorf("error %v, want energy unknown", err)
	}
	if _, err := (procedure.Settings{ID: "0"}).Melt(); err == nil || !strings.Contains(err.Error(), `"0"`) {
		t.Errorf("error %v, want one that names the set", err)
	}
}

// TestRobotArc: every default lies inside the interval that it names, and sheet
// has no start delay.
func TestRobotArc(t *testing.T) {
	f := procedure.RobotArc(6e-3)
	for name, fig := range map[string]weld.Figure{
		"pre-flow": f.PreFlow, "arc time-out": f.ArcTimeout, "start delay": f.StartDelay, "crater fill": f.CraterFill,
		"burn-back": f.BurnBack, "post-flow": f.PostFlow, "hot start feed": f.HotStartFeed, "hot start time": f.HotStartTime,
		"crater feed": f.CraterFeed, "retract": f.Retract, "overlap": f.Overlap, "restart": f.RestartAhead,
		"stick-out": f.FinalStickOut, "nozzle": f.NozzleGap,
	} {
		if !fig.Usual.Stated() || !fig.Usual.Contains(fig.Value) || fig.Source.Mark == 0 {
			t.Errorf("%s: %+v", name, fig)
		}
	}
	if got := procedure.RobotArc(2e-3).StartDelay.Value; got != 0 {
		t.Errorf("start delay on sheet %g s, want 0", got)
	}
	want := procedure.Phases{PreFlow: 0.3, StartDelay: 0.2, CraterFill: 0.5, PostFlow: 1}
	if got := f.Phases(); got != want {
		t.Errorf("phases %+v, want %+v", got, want)
	}
}

func BenchmarkCheck(b *testing.B) {
	s := spec()
	p := procedure.Planned{Family: weld.ISO, Settings: set11, Travel: 8.2e-3}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Check(p); err != nil {
			b.Fatal(err)
		}
	}
}

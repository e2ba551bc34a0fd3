package quote_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	"seamwright/weld/quote"
)

// set is an invented settings set: wire mm, feed m/min.
func set(id string, wire, feed float64) procedure.Settings {
	return procedure.Settings{ID: id, Process: weld.MAG, Transfer: weld.Spray, WireDiameter: wire * unit.MM, Feed: feed * unit.MPerMin,
		Volts: 26, Amps: 250, Efficiency: 0.97, Convexity: 1.1, GasName: "M21", GasFlow: 16 * unit.LPerMin}
}

// request is that of the worked example of the reference page: 60 for each hour,
// 2.5 for each kg of wire, 0.005 for each litre of gas.
func request(t testing.TB, list string, parts int) quote.Request {
	t.Helper()
	items, err := quote.Parse([]byte(list))
	if err != nil {
		t.Fatal(err)
	}
	rates := deposit.Rates{Labour: 60.0 / unit.Hour, Wire: 2.5, Gas: 5}
	return quote.Request{Items: items, Settings: []procedure.Settings{set("11", 1.2, 8), set("12", 1.2, 8)}, Parts: parts,
		Arm: quote.Way{Factor: 0.60, Rates: rates}, Hand: quote.Way{Factor: 0.30, Rates: rates}}
}

func price(t testing.TB, q quote.Request) quote.Quote {
	t.Helper()
	out, err := quote.Price(q)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestReferenceQuote: the worked example of the reference page, DERIVED, from a
// weld list to the money: 2.4 m of z6, k 1.1, 1.2 mm wire at 8 m/min.
func TestReferenceQuote(t *testing.T) {
	q := price(t, request(t, "mark,weld,seam,settings\nW1,z6 arrow side,2.4 m,11\n", 1))
	l := q.Lines[0]
	for _, row := range []struct {
		name           string
		got, want, tol float64
	}{
		{"V105 arc time, min", l.ArcTime / unit.Minute, 5.415, 0.01},
		{"V046 travel, mm/s", l.Travel / unit.MMPerS, 7.388, 0.005},
		{"area, mm2", l.Area / unit.MM2, 19.8, 0.001},
		{"weld metal, kg", l.Mass, 0.373, 0.0005},
		{"worked time at 0.30, min", l.ByHand.Time / unit.Minute, 18.0, 0.06},
		{"worked time at 0.60, min", l.ByArm.Time / unit.Minute, 9.0, 0.03},
		{"wire, kg", l.ByArm.Wire, 0.385, 0.0005},
		{"gas, L", l.ByArm.Gas / 1e-3, 86.6, 0.05},
		{"labour by hand", q.AllByHand.Cost.Labour, 18.05, 0.005},
		{"labour with the arm", q.WithArm.Cost.Labour, 9.02, 0.005},
		{"wire", q.WithArm.Cost.Wire, 0.96, 0.005},
		{"gas", q.WithArm.Cost.Gas, 0.43, 0.005},
	} {
		if !(math.Abs(row.got-row.want) <= row.tol) {
			t.Errorf("%s: %.5g, want %g +- %g", row.name, row.got, row.want, row.tol)
		}
	}
	if q.BreakEven.Advantage != deposit.Always || len(l.Cautions) != 0 {
		t.Errorf("%+v, %q", q.BreakEven, l.Cautions)
	}
}

// TestQuoteCounts: stitches, sides, counts and passes.
func TestQuoteCounts(t *testing.T) {
	for _, row := range []struct {
		name, weld, rest string
		length           float64 // m
		starts           int
	}{
		{"one seam", "z6 arrow side", "1 m,11", 1, 1},
		{"both sides", "z6 both sides", "1 m,11", 2, 2},
		{"three of them", "z6 both sides", "1 m,11,3", 6, 6},
		{"stitches", `"z6 arrow side, 50 pitch 100"`, "1 m,11", 0.5, 10},
		{"stitches on both sides", `"a4 both sides, 3 x 50 (100), chain"`, "1 m,11", 0.3, 6},
		{"passes", "z6 arrow side", "1 m,11,1,3", 1, 3},
		{"a length", `"z6 arrow side, length 300"`, "1 m,11", 0.3, 1},
	} {
		l := price(t, request(t, "mark,weld,seam,settings,count,passes\nW1,"+row.weld+","+row.rest+"\n", 1)).Lines[0]
		if math.Abs(l.Length-row.length) > 1e-12 || l.Starts != row.starts {
			t.Errorf("%s: %g m, %d starts; want %g m, %d", row.name, l.Length, l.Starts, row.length, row.starts)
		}
	}
	different := price(t, request(t, "mark,weld,seam,settings\nW1,\"z6 arrow side; z8 other side\",1 m,11\n", 1)).Lines[0]
	if want := 1.1 * (18 + 32) / 2 * unit.MM2; math.Abs(different.Area-want) > 1e-12 {
		t.Errorf("mean area %g, want %g", different.Area, want)
	}
	throat := price(t, request(t, "mark,weld,seam,settings\nW1,a5 arrow side,1 m,11\n", 1)).Lines[0]
	if want := 1.1 * 25 * unit.MM2; math.Abs(throat.Area-want) > 1e-12 { // A = a2
		t.Errorf("area of a5 %g, want %g", throat.Area, want)
	}
}

// TestBreakEvenBatch: teaching costs once, the arm saves time on each part.
func TestBreakEvenBatch(t *testing.T) {
	q := request(t, "mark,weld,seam,settings,count,by\nW1,z6 arrow side,2.4 m,11,1,arm\nW2,z6 arrow side,0.2 m,11,1,hand\n", 20)
	q.Arm.SetUp, q.Arm.Teach = 40*unit.Minute, 20*unit.Minute
	q.Hand.SetUp = 0
	got := price(t, q)
	// One seam by the arm: 60 minutes at 1 a minute once; 9.02 saved on a part.
	if math.Abs(got.WithArm.Batch.Once-60) > 1e-9 || got.BreakEven.Advantage != deposit.FromSize || got.BreakEven.Parts != 7 || math.Abs(got.BreakEven.PerPart-9.02) > 0.01 {
		t.Errorf("once %g, %+v", got.WithArm.Batch.Once, got.BreakEven)
	}
	if w := got.Lines[1]; w.ByArm != (deposit.Use{}) || w.ByHand.Time == 0 {
		t.Errorf("hand weld %+v", w)
	}
	if math.Abs(got.WithArm.Total-got.WithArm.Batch.Cost(20)) > 1e-9 {
		t.Errorf("total %g", got.WithArm.Total)
	}
	names := map[string]weld.Mark{}
	for _, a := range got.Assumptions {
		names[a.What] = a.Figure.Source.Mark
	}
	if names["operating factor, arm"] != weld.Given || names["efficiency of the power source"] != weld.Memory || names["face factor, settings set 11"] != weld.Given || len(names) != len(got.Assumptions) {
		t.Errorf("assumptions %+v", got.Assumptions)
	}
	q.Arm.Factor, q.Arm.Kind = 0, deposit.CartArm
	if got := price(t, q); got.Assumptions[0].Figure.Value != 0.40 || got.Assumptions[0].Figure.Source.Mark != weld.Memory {
		t.Errorf("factor by the way: %+v", got.Assumptions[0])
	}
}

// TestCautions: what a quote is not sure of is said.
func TestCautions(t *testing.T) {
	q := request(t, "mark,weld,seam,settings\nW1,z20 arrow side,1 m,11\n", 1)
	q.Settings[0].GasFlow, q.Settings[0].Volts = 0, 0
	got := price(t, q).Lines[0].Cautions
	want := []string{
		"a pass would travel at 0.7 mm/s, outside 1 mm/s to 25 mm/s (travel speed that makes sense (common practice, no source)): check the number of passes and the settings set",
		"no gas counted: settings set 11 has no gas flow",
		"no power counted: settings set 11 has neither power nor volts and amps",
	}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

func TestPriceRefusals(t *testing.T) {
	const list = "mark,weld,seam,settings\nW1,z6 arrow side,1 m,11\n"
	for _, row := range []struct {
		name   string
		list   string
		change func(*quote.Request)
		says   string
	}{
		{"unknown set", "mark,weld,seam,settings\n\nW1,z6 arrow side,1 m,7\n", func(*quote.Request) {}, `weld list, line 3, settings: settings set "7"; allowed: 11, 12; name a set that the shop has`},
		{"no welds", list, func(q *quote.Request) { q.Items = nil }, "quote: no welds; allowed: one or more; read a weld list first"},
		{"no parts", list, func(q *quote.Request) { q.Parts = 0 }, "quote: number of parts 0 is outside 1 to 1e+07; check the value and its unit"},
		{"set twice", list, func(q *quote.Request) { q.Settings[1].ID = "11" }, `quote: two settings sets have the ID "11"; allowed: each ID once; rename one`},
		{"set without feed", list, func(q *quote.Request) { q.Settings[0].Feed = 0 }, `quote: settings set "11": wire feed speed 0 m/min is outside 0.5 m/min to 30 m/min; check the value and its unit`},
		{"factor in percent", list, func(q *quote.Request) { q.Arm.Factor = 40 }, "quote: arm: operating factor (arc time over worked time) 40 is outside 0.02 to 1; check the value and its unit"},
		{"no factor", list, func(q *quote.Request) { q.Hand.Factor = 0 }, "quote: hand: operating factor: way of welding not stated; say how the shop welds, or give its own factor"},
		{"negative price", list, func(q *quote.Request) { q.Hand.Rates.Labour = -1 }, "quote: hand: rates: the price of labour is -1; give a price that is 0 or more"},
		{"negative set-up", list, func(q *quote.Request) { q.Arm.SetUp = -60 }, "quote: arm: time -0.01667 h is outside 0 h to 2778 h; check the value and its unit"},
		{"too much for one pass", "mark,weld,seam,settings\nW1,z55 arrow side,1 m,11\n", func(*quote.Request) {}, "weld list, line 2, passes: travel speed 0.08792 mm/s is outside 0.2 mm/s to 100 mm/s; check the value and its unit; allowed: what the ranges of sense hold; check the line and its settings set"},
	} {
		q := request(t, row.list, 1)
		row.change(&q)
		if got, err := quote.Price(q); err == nil || got.Lines != nil || err.Error() != row.says {
			t.Errorf("%s: got  %v\nwant %s", row.name, err, row.says)
		}
	}
}

// TestQuoteIsLinear: twice the count takes twice the metal and time.
func TestQuoteIsLinear(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q := request(t, good, 1)
		n := rapid.IntRange(2, 9).Draw(rt, "n")
		once := price(t, q)
		for i := range q.Items {
			q.Items[i].Count *= n
		}
		many := price(t, q)
		for i := range once.Lines {
			a, b := once.Lines[i], many.Lines[i]
			for _, d := range []float64{b.Mass - float64(n)*a.Mass, b.ArcTime - float64(n)*a.ArcTime, b.ByHand.Gas - float64(n)*a.ByHand.Gas, (b.ByArm.Energy - float64(n)*a.ByArm.Energy) / 1e6} {
				if math.Abs(d) > 1e-6 {
					rt.Fatalf("%+v\n%+v", a, b)
				}
			}
		}
		if d := many.AllByHand.Cost.Total() - float64(n)*once.AllByHand.Cost.Total(); math.Abs(d) > 1e-6 {
			rt.Fatalf("cost off by %g", d)
		}
	})
}

func BenchmarkThousandLines(b *testing.B) {
	items, err := quote.Parse([]byte("mark,weld,seam,settings\nW1,z6 both sides,1200 mm,11\n"))
	if err != nil {
		b.Fatal(err)
	}
	q := request(b, "mark,weld,seam,settings\nW1,z6 both sides,1200 mm,11\n", 10)
	for range 999 {
		q.Items = append(q.Items, items[0])
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := quote.Price(q); err != nil {
			b.Fatal(err)
		}
	}
}

// TestPlannedWeld: a weld as planned takes what the same weld of a list takes,
// its passes each with their own set.
func TestPlannedWeld(t *testing.T) {
	q := request(t, "mark,weld,seam,settings,count,passes\nW1,z6 arrow side,2.4 m,11,2,2\n", 1)
	listed := price(t, q).Lines[0]
	half := 1.1 * 18 / 2 * unit.MM2
	q.Items = []quote.Item{{Mark: "W1", Count: 2, By: quote.Arm, Laid: &quote.Laid{Words: "leg 6 mm", Passes: []quote.Pass{{"11", half, 2.4}, {"12", half, 2.4}}, Fillet: true}}}
	planned := price(t, q).Lines[0]
	for _, row := range []struct {
		name string
		a, b float64
	}{{"metal", planned.Mass, listed.Mass}, {"arc", planned.ArcTime, listed.ArcTime}, {"travel", planned.Travel, listed.Travel}, {"area", planned.Area, listed.Area},
		{"length", planned.Length, listed.Length}, {"gas", planned.ByHand.Gas, listed.ByHand.Gas}, {"energy", planned.ByArm.Energy / 1e6, listed.ByArm.Energy / 1e6}, {"cost", planned.CostArm, listed.CostArm}} {
		if math.Abs(row.a-row.b) > 1e-9 || row.a == 0 {
			t.Errorf("%s %g, want %g", row.name, row.a, row.b)
		}
	}
	if planned.Starts != listed.Starts || planned.Passes != 2 {
		t.Errorf("%d starts, %d passes", planned.Starts, planned.Passes)
	}
	q.Items[0].Laid = &quote.Laid{}
	if _, err := quote.Price(q); err == nil || !strings.Contains(err.Error(), "a planned weld without passes") {
		t.Errorf("no passes: %v", err)
	}
}

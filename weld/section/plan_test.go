package section_test

import (
	"errors"
	"math"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"seamwright/weld"
	"seamwright/weld/section"
)

// checkBeads holds a plan against a clipping library: every bead is a sound
// outline of its area, no two share metal, all lie where metal may be, and together
// they cover what is needed.
func checkBeads(t fataler, p section.Plan, open geom.Geometry) {
	t.Helper()
	// The grid of the library, round a bead of 50 mm: 5e-3 mm2, a thousandth of
	// the smallest pass.
	const slack = 5e-3
	var beads []geom.Geometry
	var sum float64
	for i, q := range p.Passes {
		g := region(t, q.Bead)
		if math.Abs(g.Area()-q.Area/mm2) > slack || math.Abs(q.Bead.Area()-q.Area) > 1e-9*q.Area {
			t.Fatalf("pass %d: library %.9g mm2, outline %.9g, metal %.9g", i+1, g.Area(), q.Bead.Area()/mm2, q.Area/mm2)
		}
		for j, other := range beads {
			if both := clipped(t, g, other); both > slack {
				t.Fatalf("passes %d and %d share %g mm2", j+1, i+1, both)
			}
		}
		// Straight steps of faces cut into round edges by 10 um.
		if out := q.Area/mm2 - clipped(t, g, open); out > 10*slack {
			t.Fatalf("pass %d lies with %g mm2 in the plates", i+1, out)
		}
		beads = append(beads, g)
		sum += q.Area
	}
	if math.Abs(sum-p.Needed) > 1e-6*p.Needed || p.Total() != sum {
		t.Fatalf("passes %g mm2, needed %g", sum/mm2, p.Needed/mm2)
	}
	all, err := geom.UnionMany(beads)
	if err != nil {
		t.Fatal(err)
	}
	if got := all.Area() * mm2; math.Abs(got-p.Needed) > 2e-3*p.Needed {
		t.Fatalf("the beads cover %g mm2, needed %g", got/mm2, p.Needed/mm2)
	}
}

// drawFilletPasses draws fillets from one pass to a few dozen.
func drawFilletPasses(t *rapid.T) section.FilletPasses {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	leg := f("leg", 3, 25)
	fillet, err := section.New(f("angle", 45, 135)*deg, leg*mm, leg*f("ratio", 0.6, 1.6)*mm)
	if err != nil {
		t.Fatal(err)
	}
	return section.FilletPasses{Fillet: fillet, Convexity: f("convexity", 1.05, 1.3),
		MaxArea: f("most", 12, 45) * mm2, MaxLeg: f("single", 5, 12) * mm, OtherFirst: rapid.Bool().Draw(t, "other first")}
}

// between returns the wedge of 60 mm between the plates of a fillet.
func between(t fataler, angle float64) geom.Geometry {
	const w = 60 * mm
	sin, cos := math.Sincos(angle)
	half, quarter := angle/2, angle/4
	at := func(a float64) section.Point { return section.Point{X: w * math.Cos(a), Y: w * math.Sin(a)} }
	return region(t, section.Polygon{{}, {X: w}, at(quarter), at(half), at(3 * quarter), {X: w * cos, Y: w * sin}})
}

// TestFilletPlanSweep: beads are sound, sum to k times the flat area, and none lays
// more than it may; the legs of the finished weld are those asked for.
func TestFilletPlanSweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawFilletPasses(t)
		p, err := section.PlanFillet(r)
		if err != nil {
			t.Fatal(err)
		}
		checkBeads(t, p, between(t, r.Fillet.Angle))
		if want := r.Convexity * r.Fillet.Area(); math.Abs(p.Needed-want) > 1e-12*want {
			t.Fatalf("needed %g mm2, want %g", p.Needed/mm2, want/mm2)
		}
		var base, other float64
		sin, cos := math.Sincos(r.Fillet.Angle)
		for i, q := range p.Passes {
			if q.Area > r.MaxArea*(1+1e-9) {
				t.Fatalf("pass %d lays %g mm2, %g allowed", i+1, q.Area/mm2, r.MaxArea/mm2)
			}
			if i > 0 && q.Layer < p.Passes[i-1].Layer || (q.Role == section.RootPass) != (i == 0) {
				t.Fatalf("pass %d: layer %d, %v", i+1, q.Layer, q.Role)
			}
			for _, toe := range q.Toes {
				if math.Abs(toe.Y) < 1e-9 {
					base = max(base, toe.X)
				}
				if math.Abs(cos*toe.Y-sin*toe.X) < 1e-9 {
					other = max(other, math.Hypot(toe.X, toe.Y))
				}
			}
		}
		if math.Abs(base-r.Fillet.Leg1) > 1e-9 || math.Abs(other-r.Fillet.Leg2) > 1e-9 {
			t.Fatalf("legs %g and %g mm, want %g and %g", base/mm, other/mm, r.Fillet.Leg1/mm, r.Fillet.Leg2/mm)
		}
		// A twentieth is what the valley between the last two beads may cost.
		if p.Throat < 0.94*r.Fillet.TrueThroat() {
			t.Fatalf("throat %g mm of %g", p.Throat/mm, r.Fillet.TrueThroat()/mm)
		}
	})
}

// TestFilletPlanMirror: laying from the other plate is laying the mirrored fillet
// from the base plate.
func TestFilletPlanMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawFilletPasses(t)
		p, err := section.PlanFillet(r)
		if err != nil {
			t.Fatal(err)
		}
		m := r
		m.OtherFirst = !r.OtherFirst
		m.Fillet.Leg1, m.Fillet.Leg2 = r.Fillet.Leg2, r.Fillet.Leg1
		q, err := section.PlanFillet(m)
		if err != nil || len(q.Passes) != len(p.Passes) {
			t.Fatalf("%d passes mirrored, %d before, %v", len(q.Passes), len(p.Passes), err)
		}
		sin, cos := math.Sincos(r.Fillet.Angle)
		for i := range p.Passes {
			a, b := p.Passes[i], q.Passes[i]
			x := section.Point{X: cos*b.Aim.X + sin*b.Aim.Y, Y: sin*b.Aim.X - cos*b.Aim.Y}
			if math.Hypot(a.Aim.X-x.X, a.Aim.Y-x.Y) > 1e-12 || math.Abs(a.Work+b.Work-(math.Pi-r.Fillet.Angle)) > 1e-12 {
				t.Fatalf("pass %d: aim %v work %g, mirrored %v %g", i+1, a.Aim, a.Work/deg, x, b.Work/deg)
			}
			if math.Abs(a.Bead.Area()-b.Bead.Area()) > 1e-15 {
				t.Fatalf("pass %d: %g mm2, mirrored %g", i+1, a.Bead.Area()/mm2, b.Bead.Area()/mm2)
			}
		}
	})
}

// TestPlansGrow: a larger fillet, more convexity or a smaller pass never takes
// fewer passes, and a larger pass never more metal.
func TestPlansGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawFilletPasses(t)
		by := rapid.Float64Range(1.01, 1.5).Draw(t, "by")
		count := func(r section.FilletPasses) int {
			p, err := section.PlanFillet(r)
			if err != nil {
				t.Fatal(err)
			}
			return len(p.Passes)
		}
		larger, smaller := r, r
		larger.Fillet.Leg1, larger.Fillet.Leg2 = by*r.Fillet.Leg1, by*r.Fillet.Leg2
		smaller.MaxArea /= by
		// Beads that do not fit may take a few passes more than area and leg ask
		// for, on either side of the comparison.
		const room = 2
		if n := count(r); count(larger) < n-room || count(smaller) < n-room {
			t.Fatalf("%d passes; larger %d, smaller passes %d", n, count(larger), count(smaller))
		}
	})
}

// drawGroovePasses draws grooves as shops prepare them.
func drawGroovePasses(t *rapid.T) section.GroovePasses {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	g := section.Groove{Prep: rapid.SampledFrom(preps).Draw(t, "prep"), Thickness: f("thickness", 6, 30) * mm, Gap: f("gap", 1, 6) * mm, RootFace: f("root face", 0, 3) * mm}
	depth := g.Thickness - g.RootFace
	if g.Prep.Double() {
		depth /= 2
	}
	switch g.Prep {
	case section.Square:
		g.Thickness, g.RootFace = g.Thickness/3, 0
	case section.SingleV, section.DoubleV:
		g.Angle = f("included", 40, 80) * deg
	case section.SingleBevel, section.DoubleBevel:
		g.Angle = f("bevel", 30, 50) * deg
	case section.FlareV, section.FlareBevel:
		g.Radius, g.RootFace = g.Thickness*f("radius over fill", 1, 2), 0
	default:
		g.Angle, g.Radius = f("wall", 5, 20)*deg, min(f("radius", 3, 8)*mm, 0.9*depth)
	}
	g, err := section.NewGroove(g)
	if err != nil {
		t.Fatal(err)
	}
	return section.GroovePasses{Groove: g, MaxArea: f("most", 15, 45) * mm2,
		Cap: section.Reinforcement{Height: rapid.SampledFrom([]float64{0, 0.1, 0.5, 1, 1.5}).Draw(t, "cap") * mm, Over: f("over", 2, 4) * mm}}
}

// where returns the places where the metal of a groove may be: the groove and all
// above and below the plates.
func where(t fataler, g section.Groove) geom.Geometry {
	const w, h = 100 * mm, 30 * mm
	above := section.Polygon{{X: -w, Y: g.Thickness}, {X: w, Y: g.Thickness}, {X: w, Y: g.Thickness + h}, {X: -w, Y: g.Thickness + h}}
	all := region(t, above)
	rest := g.Outline()
	if g.Prep.Double() {
		rest = append(rest, section.Polygon{{X: -w, Y: -h}, {X: w, Y: -h}, {X: w, Y: 0}, {X: -w, Y: 0}})
	}
	for _, p := range rest {
		var err error
		if all, err = geom.Union(all, region(t, p)); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// TestGroovePlanSweep: beads are sound, sum to section and caps, and none lays more
// than it may.
func TestGroovePlanSweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawGroovePasses(t)
		needed, err := r.Groove.Needed(r.Cap)
		if err != nil {
			t.Skip("a cap that stands higher than it is wide")
		}
		p, err := section.PlanGroove(r)
		if err != nil {
			t.Fatal(err)
		}
		checkBeads(t, p, where(t, r.Groove))
		if math.Abs(p.Needed-needed.Total()) > 1e-12*p.Needed {
			t.Fatalf("needed %g mm2, want %g", p.Needed/mm2, needed.Total()/mm2)
		}
		var filled float64
		for _, q := range p.Filled {
			filled += q.Area()
		}
		if math.Abs(filled-p.Needed) > 1e-3*p.Needed {
			t.Fatalf("drawn section %g mm2, needed %g", filled/mm2, p.Needed/mm2)
		}
		for i, q := range p.Passes {
			if q.Area > r.MaxArea*(1+1e-9) {
				t.Fatalf("pass %d lays %g mm2, %g allowed", i+1, q.Area/mm2, r.MaxArea/mm2)
			}
			if q.Role == section.FillPass && q.Thickness > 6*mm*(1+1e-9) {
				t.Fatalf("pass %d is %g mm thick", i+1, q.Thickness/mm)
			}
			if i > 0 && q.Layer < p.Passes[i-1].Layer || q.Back && !r.Groove.Prep.Double() {
				t.Fatalf("pass %d: layer %d, back %v", i+1, q.Layer, q.Back)
			}
		}
		// The front face must come up to the plates.
		if p.Low < -1*mm {
			t.Fatalf("a valley of %g mm is left", p.Low/mm)
		}
	})
}

// TestGroovePlanSymmetry: a groove that is the same on both sides has lone beads
// that are, and split layers that start at positive X.
func TestGroovePlanSymmetry(t *testing.T) {
	g := must[section.Groove](t)(section.NewGroove(section.Groove{Prep: section.DoubleV, Thickness: 30 * mm, Gap: 3 * mm, RootFace: 2 * mm, Angle: 60 * deg}))
	p := must[section.Plan](t)(section.PlanGroove(section.GroovePasses{Groove: g, Cap: section.UsualReinforcement(), MaxArea: 30 * mm2}))
	beads := map[int]int{}
	for _, q := range p.Passes {
		beads[q.Layer]++
	}
	front, back := 0.0, 0.0
	for i, q := range p.Passes {
		c := q.Bead.Centroid()
		if beads[q.Layer] == 1 && (math.Abs(c.X) > 1e-9 || q.Work != 0) {
			t.Errorf("pass %d: centre at %g mm, work %g", i+1, c.X/mm, q.Work/deg)
		}
		if q.Back {
			back += q.Area
		} else {
			front += q.Area
		}
	}
	// The gap between the root faces is filled from the front.
	if math.Abs(front-back-6*mm2) > 1e-9*front {
		t.Errorf("front %g mm2, back %g", front/mm2, back/mm2)
	}
}

// TestShiftPutsTheWireOnTheAim: from the root, offset across, distance along the
// torch and the way ahead come out at the aim, for every pass and travel angle.
func TestShiftPutsTheWireOnTheAim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := section.PlanFillet(drawFilletPasses(t))
		if err != nil {
			t.Fatal(err)
		}
		travel := rapid.Float64Range(-30, 30).Draw(t, "travel") * deg
		for i, q := range p.Passes {
			s, err := p.Shift(i, travel)
			if err != nil {
				t.Fatal(err)
			}
			// From the arc to the torch body: work, travel (AWS A3.0).
			x := s.Offset + s.Distance*math.Cos(travel)*math.Sin(q.Work)
			y := s.Distance * math.Cos(travel) * math.Cos(q.Work)
			along := s.Ahead - s.Distance*math.Sin(travel)
			if math.Hypot(x-q.Aim.X, y-q.Aim.Y) > 1e-12 || math.Abs(along) > 1e-12 {
				t.Fatalf("pass %d: wire at (%g, %g), %g along; aim %v", i+1, x, y, along, q.Aim)
			}
		}
	})
}

func TestPlanRefusals(t *testing.T) {
	fillet := must[section.Fillet](t)(section.EqualLegs(90*deg, 12*mm))
	f := section.FilletPasses{Fillet: fillet, Convexity: 1.1, MaxArea: 30 * mm2, MaxLeg: 10 * mm}
	groove := must[section.Groove](t)(section.NewGroove(section.Groove{Prep: section.SingleV, Thickness: 10 * mm, Gap: 3 * mm, RootFace: 1.5 * mm, Angle: 60 * deg}))
	g := section.GroovePasses{Groove: groove, Cap: section.UsualReinforcement(), MaxArea: 30 * mm2}
	withF := func(change func(*section.FilletPasses)) func() error {
		return func() error { r := f; change(&r); _, err := section.PlanFillet(r); return err }
	}
	withG := func(change func(*section.GroovePasses)) func() error {
		return func() error { r := g; change(&r); _, err := section.PlanGroove(r); return err }
	}
	plan := must[section.Plan](t)(section.PlanFillet(f))
	for _, row := range []struct {
		name string
		call func() error
		kind error
		says string
	}{
		{"no fillet", withF(func(r *section.FilletPasses) { r.Fillet = section.Fillet{} }), section.ErrOutOfRange,
			"passes of a fillet: outside the range: included angle 0 deg is outside 30 deg to 150 deg; check the value and its unit"},
		{"negative leg", withF(func(r *section.FilletPasses) { r.Fillet.Leg2 = -6 * mm }), section.ErrOutOfRange,
			"passes of a fillet: outside the range: leg -6 mm is outside 0.5 mm to 60 mm; check the value and its unit"},
		{"factor under one", withF(func(r *section.FilletPasses) { r.Convexity = 0.9 }), section.ErrOutOfRange,
			"passes of a fillet: outside the range: convexity factor 0.9 is outside 1 to 1.5; check the value and its unit"},
		{"area in mm2", withF(func(r *section.FilletPasses) { r.MaxArea = 30 }), section.ErrOutOfRange,
			"passes of a fillet: outside the range: area of a pass 3e+07 mm2 is outside 3 mm2 to 150 mm2; check the value and its unit"},
		{"no largest leg", withF(func(r *section.FilletPasses) { r.MaxLeg = 0 }), section.ErrOutOfRange,
			"passes of a fillet: outside the range: leg 0 mm is outside 0.5 mm to 60 mm; check the value and its unit"},
		{"bead width in metres", withF(func(r *section.FilletPasses) { r.MaxWidth = 12 }), section.ErrOutOfRange,
			"passes of a fillet: outside the range: bead width 1.2e+04 mm is outside 3 mm to 40 mm; check the value and its unit"},
		{"too many passes", withF(func(r *section.FilletPasses) { r.Fillet.Leg1, r.Fillet.Leg2, r.MaxArea = 55*mm, 55*mm, 3*mm2 }), section.ErrTooManyPasses,
			"passes of a fillet: too many passes: found 555 or more, allowed up to 300; raise MaxArea, MaxLeg and MaxWidth, or check the size"},
		{"no groove", withG(func(r *section.GroovePasses) { r.Groove = section.Groove{} }), section.ErrNotStated,
			"passes of a preparation not stated groove: groove: not stated: found preparation not stated, allowed square, single V, double V, single bevel, double bevel, single U, double U, single J, double J, flare V, flare bevel; say how the edges are prepared"},
		{"no area", withG(func(r *section.GroovePasses) { r.MaxArea = 0 }), section.ErrOutOfRange,
			"passes of a single V groove: outside the range: area of a pass 0 mm2 is outside 3 mm2 to 150 mm2; check the value and its unit"},
		{"negative root", withG(func(r *section.GroovePasses) { r.RootArea = -5 * mm2 }), section.ErrOutOfRange,
			"passes of a single V groove: outside the range: area of the root pass -5 mm2 is outside 3 mm2 to 150 mm2; check the value and its unit"},
		{"negative cap pass", withG(func(r *section.GroovePasses) { r.CapArea = -5 * mm2 }), section.ErrOutOfRange,
			"passes of a single V groove: outside the range: area of a cap pass -5 mm2 is outside 3 mm2 to 150 mm2; check the value and its unit"},
		{"root over section", withG(func(r *section.GroovePasses) { r.RootArea = 80 * mm2 }), section.ErrPassTooLarge,
			"passes of a single V groove: pass too large: found a root pass of 80 mm2, allowed up to the section, 71.71 mm2; lower the area of the root pass"},
		{"root wider than a bead", withG(func(r *section.GroovePasses) { r.RootArea, r.MaxWidth = 60*mm2, 8*mm }), section.ErrPassTooLarge,
			"passes of a single V groove: pass too large: found a root pass 11.71 mm wide, allowed up to 8 mm; lower the area of the root pass, or close the gap"},
		{"root and cap over all", withG(func(r *section.GroovePasses) { r.RootArea, r.CapArea = 50*mm2, 40*mm2 }), section.ErrPassTooLarge,
			"passes of a single V groove: pass too large: found 90 mm2 told for root and cap, allowed up to section and cap, 86.53 mm2; lower the areas of root and cap, or leave them to be shared out"},
		{"cap pass under the cap", withG(func(r *section.GroovePasses) { r.CapArea = 10 * mm2 }), section.ErrPassTooSmall,
			"passes of a single V groove: pass too small: found cap passes of 10 mm2, 1 side by side, allowed together at least the cap, 14.81 mm2; raise the area of a cap pass or lower the cap"},
		{"a sliver left to share", withG(func(r *section.GroovePasses) { r.RootArea, r.CapArea = 50*mm2, 36*mm2 }), section.ErrPassTooSmall,
			"passes of a single V groove: pass too small: found 1 passes to share 0.5285 mm2, allowed at least 3 mm2 each; allow thicker or wider layers, or leave root and cap to be shared out"},
		{"cap higher than wide", withG(func(r *section.GroovePasses) { r.Cap.Height = 8 * mm }), section.ErrOutOfRange,
			"passes of a single V groove: single V groove: cap: outside the range: found a height of 8 mm, allowed up to half the width, 7.407 mm; lower the cap or widen it"},
		{"aim of pass 4 of 3", func() error { _, err := plan.Shift(3, 0); return err }, section.ErrOutsideSection,
			"aim of a pass: outside the section: found pass 4, allowed 1 to 3; count the passes of the plan"},
		{"aim along the seam", func() error { _, err := plan.Shift(0, 90*deg); return err }, section.ErrOutOfRange,
			"aim of a pass: outside the range: travel angle 90 deg is outside -80 deg to 80 deg; check the value and its unit"},
		{"pass limits of an ISO position", func() error { _, err := section.CodePassLimits(weld.MAG, weld.PB); return err }, section.ErrMixedFamilies,
			"thickness of passes: families mixed: found position PB, allowed 1F to 4F, 1G to 4G; name the position as AWS does; the table is of that family"},
		{"pass limits of no position", func() error { _, err := section.CodePassLimits(weld.MAG, 0); return err }, section.ErrNotStated,
			"thickness of passes: not stated: found position not stated, allowed 1F to 4F, 1G to 4G; name the position"},
		{"pass limits of another process", func() error { _, err := section.CodePassLimits(weld.CoveredElectrode, weld.Flat1F); return err }, section.ErrNotOfThisCode,
			"thickness of passes: not of this code: found 111 covered electrode, allowed wire processes; open the table for other processes"},
	} {
		t.Run(row.name, func(t *testing.T) {
			err := row.call()
			if err == nil || err.Error() != row.says {
				t.Errorf("error\n%v\nwant\n%v", err, row.says)
			}
			if !errors.Is(err, row.kind) {
				t.Errorf("%v is not named %q", err, row.kind)
			}
		})
	}
}

func TestRoleWords(t *testing.T) {
	for role, want := range map[section.Role]string{0: "role not stated", section.RootPass: "root", section.FillPass: "fill", section.CapPass: "cap"} {
		if got := role.String(); got != want {
			t.Errorf("role %d prints %q, want %q", role, got, want)
		}
	}
}

func BenchmarkPlanFillet(b *testing.B) {
	f, err := section.FromThroat(90*deg, 8.5*mm)
	if err != nil {
		b.Fatal(err)
	}
	r := section.FilletPasses{Fillet: f, Convexity: 1.1, MaxArea: 30 * mm2, MaxLeg: 10 * mm}
	passes := 0
	b.ReportAllocs()
	for b.Loop() {
		p, err := section.PlanFillet(r)
		if err != nil {
			b.Fatal(err)
		}
		passes += len(p.Passes)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(passes), "ns/pass")
}

func BenchmarkPlanGroove(b *testing.B) {
	g, err := section.NewGroove(section.Groove{Prep: section.SingleV, Thickness: 25 * mm, Gap: 3 * mm, RootFace: 2 * mm, Angle: 60 * deg})
	if err != nil {
		b.Fatal(err)
	}
	r := section.GroovePasses{Groove: g, Cap: section.UsualReinforcement(), MaxArea: 30 * mm2}
	passes := 0
	b.ReportAllocs()
	for b.Loop() {
		p, err := section.PlanGroove(r)
		if err != nil {
			b.Fatal(err)
		}
		passes += len(p.Passes)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(passes), "ns/pass")
}

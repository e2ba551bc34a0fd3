package thermal_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld"
	"seamwright/weld/thermal"
)

func TestFindGrade(t *testing.T) {
	for found, want := range map[string]string{
		"S355J2": "S355J2", "s355j2+n": "S355J2", " S 355 J2 ": "S355J2", "S690 QL": "S690QL",
		"A572-50": "A572-50", "ASTM A572 Grade 50": "A572-50", "a572 gr. 50": "A572-50", "ASTM A36": "A36",
	} {
		if g, err := thermal.FindGrade(found); err != nil || g.Name != want {
			t.Errorf("%q: %q, %v; want %q", found, g.Name, err, want)
		}
	}
}

// TestGradeTable: every row says where it comes from, makes sense, and belongs
// to the family of its standard; a typical plate holds no more than its most.
func TestGradeTable(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range thermal.Grades() {
		g, err := thermal.FindGrade(name)
		if err != nil || g.Name != name || seen[name] {
			t.Errorf("%s: %v, seen %v", name, err, seen[name])
		}
		seen[name] = true
		if g.MaximumSource.Mark == 0 || g.MaximumSource.Family != g.Family || !strings.HasPrefix(g.Standard, g.MaximumSource.Code) {
			t.Errorf("%s of %s: %+v", name, g.Standard, g.MaximumSource)
		}
		if err := g.Maximum.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if g.Class == 0 || g.Yield < 200e6 || g.Yield > 1000e6 {
			t.Errorf("%s: %v, %g Pa", name, g.Class, g.Yield)
		}
		group, err := g.D11Group()
		var family *thermal.FamilyError
		if g.Family == weld.AWS && (err != nil || group == 0) || g.Family == weld.ISO && !errors.As(err, &family) {
			t.Errorf("%s: group %v, %v", name, group, err)
		}
		if !g.HasTypical() {
			continue
		}
		if g.TypicalSource.Mark != weld.CommonPractice {
			t.Errorf("%s: %+v", name, g.TypicalSource)
		}
		for _, k := range []thermal.EquivalentKind{thermal.CEIIW, thermal.CET, thermal.Pcm, thermal.CEN} {
			typical, err := g.Typical.Equivalent(k)
			if err != nil {
				t.Fatal(err)
			}
			most, err := g.Maximum.Equivalent(k)
			if err != nil {
				t.Fatal(err)
			}
			if typical.Value > most.Value {
				t.Errorf("%s: typical %v, most %v", name, typical, most)
			}
		}
	}
}

// TestGradesOfSources: rows as the sources print them, percent by mass.
func TestGradesOfSources(t *testing.T) {
	for _, row := range []struct {
		grade, source string
		most          thermal.Composition
	}{
		{"S355J2", "EN 10025-2:2004 Table 2, READ", thermal.Composition{C: .20, Si: .55, Mn: 1.60, Cu: .55}},
		{"S355JR", "EN 10025-2:2004 Table 2, READ", thermal.Composition{C: .24, Si: .55, Mn: 1.60, Cu: .55}},
		{"S235JR", "EN 10025-2:2004 Table 2, READ", thermal.Composition{C: .17, Mn: 1.40, Cu: .55}},
		{"S700MC", "EN 10149-2 in a stockholder's table, READ", thermal.Composition{C: .12, Si: .60, Mn: 2.10, Mo: .50, V: .20, Nb: .09, Ti: .22, B: .005}},
		{"A588-B", "US Army TI 809-26 Table 4-3, READ", thermal.Composition{C: .20, Si: .50, Mn: 1.35, Cr: .70, Ni: .50, Cu: .40, V: .10}},
		{"A992", "US Army TI 809-26 Table 4-3, READ", thermal.Composition{C: .23, Si: .40, Mn: 1.50, Cr: .35, Ni: .45, Mo: .15, Cu: .60, V: .11, Nb: .05}},
	} {
		if g, err := thermal.FindGrade(row.grade); err != nil || g.Maximum != row.most {
			t.Errorf("%s: %+v, %v; want %+v (%s)", row.grade, g.Maximum, err, row.most, row.source)
		}
	}
}

// TestEquivalentsGrow: more of any element that counts never lowers an
// equivalent, and CEN lies between 0.5 and 1 of its bracket.
func TestEquivalentsGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
		c := thermal.Composition{C: 0.01 + share("C", .3), Si: share("Si", 1), Mn: share("Mn", 2), Cr: share("Cr", 1), Ni: share("Ni", 2),
			Mo: share("Mo", 1), Cu: share("Cu", 1), V: share("V", .3), Nb: share("Nb", .1), Ti: share("Ti", .1), B: share("B", .01)}
		more := c
		switch rapid.IntRange(0, 8).Draw(t, "element") {
		case 0:
			more.C += 0.01
		case 1:
			more.Si += 0.1
		case 2:
			more.Mn += 0.1
		case 3:
			more.Cr += 0.1
		case 4:
			more.Ni += 0.1
		case 5:
			more.Mo += 0.1
		case 6:
			more.Cu += 0.1
		case 7:
			more.V += 0.1
		case 8:
			more.B += 0.001
		}
		for _, k := range []thermal.EquivalentKind{thermal.CEIIW, thermal.CET, thermal.Pcm, thermal.CEN} {
			a, err := c.Equivalent(k)
			if err != nil {
				t.Fatal(err)
			}
			b, err := more.Equivalent(k)
			if err != nil {
				t.Fatal(err)
			}
			if b.Value < a.Value {
				t.Fatalf("%v falls from %g to %g", k, a.Value, b.Value)
			}
			if a.Kind != k || a.Source.Mark != weld.Read {
				t.Fatalf("%+v", a)
			}
		}
		bracket := c.Si/24 + c.Mn/6 + c.Cu/15 + c.Ni/20 + (c.Cr+c.Mo+c.V+c.Nb)/5 + 5*c.B
		e, err := c.Equivalent(thermal.CEN)
		if err != nil {
			t.Fatal(err)
		}
		if A := (e.Value - c.C) / bracket; bracket > 1e-3 && !(A > 0.5 && A < 1) {
			t.Fatalf("A = %g", A)
		}
	})
}

func TestEquivalentNames(t *testing.T) {
	for s, want := range map[string]thermal.EquivalentKind{"CE": thermal.CEIIW, "cev": thermal.CEIIW, "CE (IIW)": thermal.CEIIW,
		"cet": thermal.CET, " Pcm ": thermal.Pcm, "CEN": thermal.CEN} {
		if got, err := thermal.ParseEquivalentKind(s); err != nil || got != want {
			t.Errorf("%q: %v, %v", s, got, err)
		}
	}
	if e := (thermal.Equivalent{}); e.String() != "carbon equivalent not stated" {
		t.Errorf("zero: %v", e)
	}
	e, err := s355.Equivalent(thermal.CET)
	if err != nil || e.String() != "CET 0.315" {
		t.Errorf("%v, %v", e, err)
	}
}

// TestPreheatParts: the parts of EN 1011-2 C.3 to C.6 add up to equation C.8 and
// each rises with what it stands for; the weld metal counts with 0.03 more.
func TestPreheatParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		CET := rapid.Float64Range(0.2, 0.45).Draw(t, "CET")
		d, HD, Q := rapid.Float64Range(10, 90).Draw(t, "d"), rapid.Float64Range(1, 20).Draw(t, "HD"), rapid.Float64Range(0.5, 4).Draw(t, "Q")
		e, err := thermal.GivenEquivalent(thermal.CET, CET)
		if err != nil {
			t.Fatal(err)
		}
		r := thermal.CETRequest{Family: weld.ISO, Steel: e, Thickness: d / 1000, Hydrogen: HD, HeatInput: Q * 1e6}
		b, err := thermal.PreheatByCET(r)
		if err != nil {
			t.Fatal(err)
		}
		want := 697*CET + 160*math.Tanh(d/35) + 62*math.Pow(HD, 0.35) + (53*CET-32)*Q - 328
		if math.Abs(b.Temperature-want) > 1e-9 {
			t.Fatalf("%g degC, want %g", b.Temperature, want)
		}
		r.Method = thermal.SEW088
		s, err := thermal.PreheatByCET(r)
		if err != nil || math.Abs(s.Temperature-want-(3*CET-2)) > 1e-9 || s.Method.Family() != weld.ISO {
			t.Fatalf("SEW 088 %g degC, %v", s.Temperature, err)
		}
		r.Method, r.Filler = thermal.MethodB, e
		f, err := thermal.PreheatByCET(r)
		if err != nil {
			t.Fatal(err)
		}
		if off := f.Temperature - b.Temperature - 0.03*(697+53*Q); math.Abs(off) > 1e-9 {
			t.Fatalf("weld metal of the same CET: %g degC after %g", f.Temperature, b.Temperature)
		}
		const cold = -10
		if got, err := f.HeatTo(cold); err != nil || got != max(20, f.Temperature) {
			t.Fatalf("heat to %g, %v", got, err)
		}
		if got, err := f.HeatTo(400); err != nil || got != 400 {
			t.Fatalf("hot steel: heat to %g, %v", got, err)
		}
	})
}

// TestMethodsDiffer: for ordinary 20 mm S355 method B asks for heat and the
// table of AWS D1.1 for A572-50 does not; each says who it is.
func TestMethodsDiffer(t *testing.T) {
	e, err := s355.Equivalent(thermal.CET)
	if err != nil {
		t.Fatal(err)
	}
	b, err := thermal.PreheatByCET(thermal.CETRequest{Family: weld.ISO, Steel: e, Thickness: 0.020, Hydrogen: 5, HeatInput: 1e6})
	if err != nil || !b.Needed() || b.Method.Family() != weld.ISO {
		t.Errorf("%+v, %v", b, err)
	}
	d, err := thermal.PreheatByD11(thermal.D11Request{Family: weld.AWS, Group: group(t, "A572-50"), Thickness: 0.020, Process: weld.MAG})
	if err != nil || d.Needed() || d.Method.Family() != weld.AWS || d.Source.Family != weld.AWS {
		t.Errorf("%+v, %v", d, err)
	}
}

// TestHydrogenScale: EN 1011-2, read in public code.
func TestHydrogenScale(t *testing.T) {
	for _, row := range []struct {
		ml   float64
		want string
	}{{2, "E"}, {3, "E"}, {3.1, "D"}, {5, "D"}, {8, "C"}, {10, "C"}, {12, "B"}, {15, "B"}, {16, "A"}} {
		if got, err := thermal.HydrogenScale(row.ml); err != nil || got != row.want {
			t.Errorf("%g ml: %q, %v; want %q", row.ml, got, err, row.want)
		}
	}
}

// TestSusceptibilityGroups: AWS D1.1 annex, MEMORY.
func TestSusceptibilityGroups(t *testing.T) {
	for _, row := range []struct {
		pcm, hydrogen float64
		want          string
	}{{0.18, 5, "A"}, {0.20, 10, "B"}, {0.25, 5, "C"}, {0.28, 10, "D"}, {0.30, 20, "E"}, {0.33, 30, "F"}, {0.4, 30, "G"}} {
		got, err := thermal.SusceptibilityIndex(given(t, thermal.Pcm, row.pcm), row.hydrogen)
		if err != nil || got.Group != row.want {
			t.Errorf("Pcm %g, %g ml: %+v, %v; want %s", row.pcm, row.hydrogen, got, err, row.want)
		}
	}
}

// FuzzFindGrade: any name is a grade or an UnknownGradeError of bounded length
// whose near names are grades.
func FuzzFindGrade(f *testing.F) {
	for _, s := range []string{"S355J2", "S355", "", "A572 Gr 50", "+", "\xff\xfe", strings.Repeat("S", 1000), "S355J2\x00", "１２３"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		g, err := thermal.FindGrade(name)
		if err == nil {
			if again, err := thermal.FindGrade(g.Name); err != nil || again != g {
				t.Fatalf("%q gave %q, which gave %v", name, g.Name, err)
			}
			return
		}
		var unknown *thermal.UnknownGradeError
		if !errors.As(err, &unknown) || len(err.Error()) > 1000 {
			t.Fatalf("%d letters: %v", len(err.Error()), err)
		}
		for _, near := range unknown.Near {
			if _, err := thermal.FindGrade(near); err != nil {
				t.Fatal(err)
			}
		}
	})
}

package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/bench/finding"
)

// A settings set whose numbers are those of the reference values: 1.2 mm wire,
// 8 m/min, 97 %, k as asked, 26 V, 250 A.
func refSet(k string) [2]string {
	return [2]string{"sets:\n", "sets:\n  - {id: 90, process: 135, transfer: spray, wire: 1.2 mm, gas: M21, feed: 8 m/min, volts: 26 V, amps: 250 A, efficiency: 97 percent, convexity: " + k + ", crater_time: 0.5 s}\n"}
}

// TestSizes: what the document says of size and fit-up, through the plan.
func TestSizes(t *testing.T) {
	const seam = "    settings: 11\n"
	tilted := func(deg int) [2]string {
		return [2]string{"upright: right", fmt.Sprintf("upright: {right: %d deg}", deg)}
	}
	weld := func(w string) [2]string { return [2]string{"weld: {leg: 5 mm}", "weld: {" + w + "}"} }
	more := func(fields string) [2]string { return [2]string{seam, "    settings: 90\n" + fields} }
	for _, row := range []struct {
		name, k                  string
		edits                    [][2]string
		legs                     [2]float64 // mm, base and upright
		throat, area, speed, tol float64    // mm, mm2, mm/s; 0: not held
		source                   string
	}{
		{"z6", "1.1", [][2]string{weld("leg: 6 mm")}, [2]float64{6, 6}, 4.2426, 19.8, 7.388, 0.005, "V020, V046; area 1.1 x 18"},
		{"a5", "1.0", [][2]string{weld("throat: 5 mm")}, [2]float64{7.071, 7.071}, 5, 25, 0, 0.01, "V016; A = a^2"},
		{"legs 6 x 9", "1.0", [][2]string{weld("legs: {base: 6 mm, upright: 9 mm}")}, [2]float64{6, 9}, 4.243, 27, 0, 0.001, "weld geometry, worked: design throat 4.243, A 27.0"},
		{"legs 9 x 6", "1.0", [][2]string{weld("legs: {base: 9 mm, upright: 6 mm}")}, [2]float64{9, 6}, 4.243, 27, 0, 0.001, "the same, the other way round"},
		{"120 deg, leg 6", "1.0", [][2]string{weld("leg: 6 mm"), tilted(120)}, [2]float64{6, 6}, 3.000, 15.588, 0, 0.001, "V023, V024"},
		{"120 deg, throat 4.243", "1.0", [][2]string{weld("throat: 4.243 mm"), tilted(120)}, [2]float64{8.485, 8.485}, 4.243, 0, 0, 0.002, "weld geometry, worked: s = 8.485"},
		{"60 deg, leg 6", "1.0", [][2]string{weld("leg: 6 mm"), tilted(60)}, [2]float64{6, 6}, 5.196, 15.588, 0, 0.001, "weld geometry, worked: a = 5.196; A = 18 sin 60"},
		{"60 deg, throat 4.243", "1.0", [][2]string{weld("throat: 4.243 mm"), tilted(60)}, [2]float64{4.899, 4.899}, 4.243, 0, 0, 0.001, "weld geometry, worked: s = 4.899"},
		{"75 deg, leg 6", "1.0", [][2]string{weld("leg: 6 mm"), tilted(75)}, [2]float64{6, 6}, 4.760, 17.387, 0, 0.001, "6 cos 37.5; 18 sin 75"},
		{"105 deg, leg 6", "1.0", [][2]string{weld("leg: 6 mm"), tilted(105)}, [2]float64{6, 6}, 3.653, 17.387, 0, 0.001, "6 cos 52.5; 18 sin 105"},
		{"gap 1", "1.0", [][2]string{weld("leg: 6 mm"), more("    gap: 1 mm\n")}, [2]float64{6, 6}, 4.2426, 18, 0, 0.001, "AWS D1.1:2020 7.21.1: no change up to 2 mm"},
		{"gap 2", "1.0", [][2]string{weld("leg: 6 mm"), more("    gap: 2 mm\n")}, [2]float64{6, 6}, 4.2426, 18, 0, 0.001, "V028"},
		{"gap 3", "1.0", [][2]string{weld("leg: 6 mm"), more("    gap: 3 mm\n")}, [2]float64{9, 9}, 6.364, 40.5, 0, 0.001, "V027; A 40.5"},
		{"gap 3 on legs 6 x 9", "1.0", [][2]string{weld("legs: {base: 6 mm, upright: 9 mm}"), more("    gap: 3 mm\n")}, [2]float64{9, 12}, 6.364, 54, 0, 0.001, "V027 on both legs; 9 x 12/2"},
		{"gap 6 is refused, the size stays", "1.0", [][2]string{weld("leg: 6 mm"), more("    gap: 6 mm\n")}, [2]float64{6, 6}, 4.2426, 18, 0, 0.001, "V029"},
		{"area", "1.0", [][2]string{weld("area: 21.51 mm2")}, [2]float64{}, 0, 21.51, 6.8, 0.005, "V043"},
		{"typed 6.8, k 1.1", "1.1", [][2]string{weld("leg: 6 mm"), more("    speed: 6.8 mm/s\n")}, [2]float64{6.25, 6.25}, 0, 21.51, 6.8, 0.01, "V043, V044"},
		{"typed 6.8 for an area", "1.1", [][2]string{weld("area: 20 mm2"), more("    speed: 6.8 mm/s\n")}, [2]float64{}, 0, 21.51, 6.8, 0.01, "V043"},
		{"typed 16.06 in/min", "1.1", [][2]string{weld("leg: 6 mm"), more("    speed: 16.063 in/min\n")}, [2]float64{6.25, 6.25}, 0, 21.51, 6.8, 0.01, "V043, V044: 6.8 mm/s is 16.06 in/min"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			edits := append([][2]string{refSet(row.k), noProcedure}, row.edits...)
			for _, e := range edits {
				f.edit(t, e[0], e[1])
			}
			f["job.yaml"] = strings.Replace(f["job.yaml"], seam, "    settings: 90\n", 1) // where no row did
			f["job.yaml"] = strings.Replace(f["job.yaml"], "    settings: 90\n", "    settings: 90\n    passes: one\n", 1)
			f.edit(t, "linear,100,,,on,11", "linear,100,,,on,")
			s := size(planOf(t, f))
			for _, c := range []struct {
				what      string
				got, want float64
			}{
				{"leg on the base", s.LegBase / mm, row.legs[0]}, {"leg on the upright", s.LegOther / mm, row.legs[1]},
				{"throat", s.Throat / mm, row.throat}, {"area", s.Area * 1e6, row.area}, {"mm/s", s.Travel / mm, row.speed},
			} {
				if c.want != 0 && !(math.Abs(c.got-c.want) <= row.tol) {
					t.Errorf("%s: got %.5g, want %g +- %g (%s)", c.what, c.got, c.want, row.tol, row.source)
				}
			}
		})
	}
}

// TestHeat: V054 to V056, 26 V and 250 A at 6.8 mm/s: arc energy 0.9559, heat
// input 0.7647 with k 0.8 (EN 1011-1, READ), 0.9559 as AWS defines it.
func TestHeat(t *testing.T) {
	for _, row := range []struct {
		code string
		heat float64
	}{{"iso", 0.7647}, {"aws", 0.9559}} {
		f := good(t)
		f.edit(t, "sets:\n", refSet("1.1")[1])
		f.edit(t, "    settings: 11\n", "    settings: 90\n    speed: 6.8 mm/s\n")
		f.edit(t, noProcedure[0], "")
		f.edit(t, "name: stool foot\ncode: iso", "name: stool foot\ncode: "+row.code)
		s := size(planOf(t, f))
		near(t, row.code+" arc energy, kJ/mm", s.ArcEnergy/1e6, 0.9559, 0.0005)
		near(t, row.code+" heat input, kJ/mm", s.HeatInput/1e6, row.heat, 0.0005)
		near(t, row.code+" arc time, s", s.ArcTime, 250/6.8, 1e-9)
	}
}

// TestPositionOnTiltedCart: what counts is gravity, not the arm's frame. Rows of
// the position table (ISO 6947 and AWS A3.0, from memory), turned by the cart.
func TestPositionOnTiltedCart(t *testing.T) {
	for _, row := range []struct {
		name             string
		roll, pitch      float64 // deg, of the cart about the world's x and y; the seam runs along x
		iso, aws         string
		tilt, room, warn float64 // deg: face tilt, to the nearest ISO limit, 1 where it is said
	}{
		{"upright", 0, 0, "PB", "2F", 45, 10, 0},
		{"rolled 10", 10, 0, "PB", "2F", 35, 5, 0},
		{"rolled 12", 12, 0, "PB", "2F", 33, 3, 1},
		{"rolled 20", 20, 0, "PA", "1F", 25, 5, 0},
		{"rolled back 8", -8, 0, "PB", "2F", 53, 2, 1},
		{"rolled back 15", -15, 0, "PC", "4F", 60, 5, 0},
		{"climbing 8", 0, -8, "PB", "2F", 45, 7, 0},
		{"climbing 20", 0, -20, "PF", "3F", 45, 5, 0},
		{"falling 20", 0, 20, "PG", "3F", 45, 5, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			f.edit(t, "base: level", "base: {direction: [0, 0, 1]}")
			f.edit(t, "home: home\n", fmt.Sprintf("home: home\ncell: {world_from_base: {at: [0 mm, 0 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [%g, %g, 0]}}\n", row.roll, row.pitch))
			p := planOf(t, f)
			got := p.Seams[0].Position
			if got.ISO.String() != row.iso || got.AWS.String() != row.aws {
				t.Errorf("got %v and %v, want %s and %s", got.ISO, got.AWS, row.iso, row.aws)
			}
			near(t, "tilt", got.Tilt/degree, row.tilt, 1e-6)
			near(t, "to the nearest limit", got.ISOLimit.Distance/degree, row.room, 1e-6)
			if said := len(withCode(p, finding.PositionNearLimit)); row.room != 5 && float64(said) != row.warn {
				t.Errorf("%d notes that the position is near the next", said)
			}
		})
	}
}

// TestShiftServes: where a shift of the foot is offered, the job taken there can
// be run: the points as the arm would see them, 250 mm nearer.
func TestShiftServes(t *testing.T) {
	f := good(t)
	for _, e := range [][2]string{
		{"W1 start,430", "W1 start,180"}, end("1150,-230,30"), {"W1 in,421.3", "W1 in,171.3"}, {"W1 out,666.1", "W1 out,416.1"},
	} {
		f.edit(t, e[0], e[1])
	}
	p := planOf(t, f)
	if p.Seams[0].Passes[0].Motion == nil || !p.Seams[0].Passes[0].Reach.Whole {
		t.Errorf("the pass cannot be run from the place that was offered:\n%s", list(p.Findings))
	}
}

// A set without volts and amps is planned; that its heat is not known is said.
func TestHeatNotKnown(t *testing.T) {
	f := worked(t, "s1")
	f.edit(t, "volts: 23.5 V, amps: 205 A, ", "")
	p := planOf(t, f)
	says(t, only(t, p, finding.EnergyDoubtful).Message, "W1: arc energy and heat input are not known: settings set 11 states neither power nor both volts and amps")
	if s := size(p); !math.IsNaN(s.HeatInput) || !math.IsNaN(s.ArcEnergy) {
		t.Errorf("heat input %g, arc energy %g of a set that states none", s.HeatInput, s.ArcEnergy)
	}
}

package distort_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld/distort"
)

// seam returns a seam of an area in mm2, offsets in mm and ends in mm.
func seam(area, y, z, from, to float64) distort.Seam {
	return distort.Seam{Area: area * unit.MM2, Y: y * unit.MM, Z: z * unit.MM, From: from * unit.MM, To: to * unit.MM}
}

func propose(t *testing.T, r distort.OrderRequest) distort.Order {
	t.Helper()
	o, err := distort.ProposeOrder(r)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func indices(o distort.Order) []int {
	var out []int
	for _, s := range o.Seams {
		out = append(out, s.Seam)
	}
	return out
}

// TestOrderOfPlainParts: parts whose order is told by the rules of workshop
// articles alone.
func TestOrderOfPlainParts(t *testing.T) {
	for _, row := range []struct {
		name    string
		request distort.OrderRequest
		want    []int
		reasons []distort.Reason
	}{
		{"one seam", distort.OrderRequest{Seams: []distort.Seam{seam(18, 0, 80, 0, 1000)}}, []int{0}, []distort.Reason{distort.ThickFirst}},
		{"beam of four alike: corners across", distort.OrderRequest{Seams: []distort.Seam{
			seam(18, 5, 100, 0, 1000), seam(18, -5, 100, 0, 1000), seam(18, 5, -100, 0, 1000), seam(18, -5, -100, 0, 1000)}},
			[]int{0, 3, 1, 2}, []distort.Reason{distort.ThickFirst, distort.Balances, distort.ThickFirst, distort.Balances}},
		{"thick before thin", distort.OrderRequest{Seams: []distort.Seam{
			seam(10, 0, 50, 0, 1000), seam(10, 0, -50, 0, 1000), seam(40, 0, 50, 0, 1000), seam(40, 0, -50, 0, 1000)}},
			[]int{2, 3, 0, 1}, []distort.Reason{distort.ThickFirst, distort.Balances, distort.ThickFirst, distort.Balances}},
		{"thick and near the axis before thick and far", distort.OrderRequest{Seams: []distort.Seam{
			seam(40, 0, 90, 0, 1000), seam(40, 0, -90, 0, 1000), seam(40, 0, 1, 0, 1000)}},
			[]int{2, 0, 1}, []distort.Reason{distort.ThickFirst, distort.ThickFirst, distort.Balances}},
		{"centre out", distort.OrderRequest{Seams: []distort.Seam{
			seam(18, 0, 0, 0, 100), seam(18, 0, 0, 400, 500), seam(18, 0, 0, 200, 300)}},
			[]int{2, 0, 1}, []distort.Reason{distort.ThickFirst, distort.ThickFirst, distort.ThickFirst}},
		{"towards the free end", distort.OrderRequest{Held: distort.HighHeld, Seams: []distort.Seam{
			seam(18, 0, 0, 0, 100), seam(18, 0, 0, 400, 500), seam(18, 0, 0, 200, 300)}},
			[]int{1, 2, 0}, []distort.Reason{distort.ThickFirst, distort.ThickFirst, distort.ThickFirst}},
		{"all on one side: thick first", distort.OrderRequest{Seams: []distort.Seam{
			seam(10, 0, 50, 0, 1000), seam(20, 0, 50, 0, 1000), seam(30, 0, 50, 0, 1000)}},
			[]int{2, 1, 0}, []distort.Reason{distort.ThickFirst, distort.NoneBalances, distort.NoneBalances}},
	} {
		t.Run(row.name, func(t *testing.T) {
			o := propose(t, row.request)
			if got := indices(o); !reflect.DeepEqual(got, row.want) {
				t.Errorf("order %v, want %v", got, row.want)
			}
			for i, s := range o.Seams {
				if s.Reason != row.reasons[i] || s.Reason.String() == "reason not stated" {
					t.Errorf("seam %d: %v, want %v", i, s.Reason, row.reasons[i])
				}
			}
			if one := strings.Contains(row.name, "one s"); o.OneSided != one {
				t.Errorf("one-sided %v", o.OneSided)
			}
		})
	}
	if !strings.Contains(distort.OrderIsThumb, "rules of thumb") || !strings.Contains(distort.OrderIsThumb, "decide") {
		t.Error(distort.OrderIsThumb)
	}
}

// TestOrderIsBalanced: every seam comes once, the moments told are those of the
// sums, and with all seams in one plane the moment on the way stays within one
// and a half of the largest single one, or of what is left in the end, but for
// seams that count as alike.
func TestOrderIsBalanced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flat := rapid.Bool().Draw(t, "flat")
		r := distort.OrderRequest{Held: distort.End(rapid.IntRange(0, 2).Draw(t, "held"))}
		for range rapid.IntRange(1, 12).Draw(t, "seams") {
			y := 0.0
			if !flat {
				y = rapid.Float64Range(-200, 200).Draw(t, "y")
			}
			from := rapid.Float64Range(0, 2000).Draw(t, "from")
			r.Seams = append(r.Seams, seam(rapid.Float64Range(5, 80).Draw(t, "area"), y, rapid.Float64Range(-200, 200).Draw(t, "z"),
				from, from+rapid.Float64Range(20, 3000).Draw(t, "length")))
		}
		o, err := distort.ProposeOrder(r)
		if err != nil {
			t.Fatal(err)
		}
		var givenY, givenZ, given float64
		for _, w := range r.Seams {
			volume := w.Area * math.Abs(w.To-w.From)
			givenY, givenZ = givenY+volume*w.Y, givenZ+volume*w.Z
			given = max(given, math.Hypot(givenY, givenZ))
		}
		if math.Abs(o.Given-given) > 1e-12*given {
			t.Fatalf("given order has %g, summed %g", o.Given, given)
		}
		seen := map[int]bool{}
		var y, z, worst, largest float64
		for _, s := range o.Seams {
			if seen[s.Seam] {
				t.Fatalf("seam %d comes twice", s.Seam)
			}
			seen[s.Seam] = true
			w := r.Seams[s.Seam]
			volume := w.Area * math.Abs(w.To-w.From)
			y, z = y+volume*w.Y, z+volume*w.Z
			worst = max(worst, math.Hypot(y, z))
			largest = max(largest, volume*math.Hypot(w.Y, w.Z))
			if math.Abs(s.Moment-math.Hypot(y, z)) > 1e-12*largest {
				t.Fatalf("moment %g, summed %g", s.Moment, math.Hypot(y, z))
			}
		}
		if len(seen) != len(r.Seams) || math.Abs(o.Worst-worst) > 1e-12*largest || math.Abs(o.Left-math.Hypot(y, z)) > 1e-9*largest {
			t.Fatalf("%d of %d seams, worst %g of %g, left %g", len(seen), len(r.Seams), o.Worst, worst, o.Left)
		}
		// Seams whose moments are within a hundredth of the largest count as alike.
		ties := 0.01 * largest * float64(len(r.Seams))
		if flat && o.Worst > max(1.5*largest, o.Left)+ties {
			t.Fatalf("worst %g, largest single %g, left %g", o.Worst, largest, o.Left)
		}
	})
}

// TestOrderAgainstAllOrders compares with every order of up to six seams: never
// more than one and a half single moments worse than the best there is.
func TestOrderAgainstAllOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r distort.OrderRequest
		largest := 0.0
		for range rapid.IntRange(2, 6).Draw(t, "seams") {
			s := seam(rapid.Float64Range(5, 80).Draw(t, "area"), 0, rapid.Float64Range(-200, 200).Draw(t, "z"), 0, 1000)
			largest = max(largest, math.Abs(s.Area*s.Z))
			r.Seams = append(r.Seams, s)
		}
		best := math.Inf(1)
		var try func(left []distort.Seam, moment, worst float64)
		try = func(left []distort.Seam, moment, worst float64) {
			if len(left) == 0 {
				best = min(best, worst)
			}
			for i, s := range left {
				rest := append(append([]distort.Seam{}, left[:i]...), left[i+1:]...)
				m := moment + s.Area*s.Z
				try(rest, m, max(worst, math.Abs(m)))
			}
		}
		try(r.Seams, 0, 0)
		o, err := distort.ProposeOrder(r)
		if err != nil {
			t.Fatal(err)
		}
		if o.Worst < best*(1-1e-9) || o.Worst > best+1.52*largest {
			t.Fatalf("worst %g, the best order has %g", o.Worst, best)
		}
	})
}

// TestRuns: which way seams are welded, and in which pieces.
func TestRuns(t *testing.T) {
	run := func(ends ...float64) []distort.Run {
		var out []distort.Run
		for i := 0; i < len(ends); i += 2 {
			out = append(out, distort.Run{From: ends[i] * unit.MM, To: ends[i+1] * unit.MM})
		}
		return out
	}
	whole := seam(18, 0, 0, 0, 1000)
	for _, row := range []struct {
		name     string
		held     distort.End
		backStep float64 // mm
		seams    []distort.Seam
		want     []distort.Run // of the last seam of the request
	}{
		{"low end held", distort.LowHeld, 0, []distort.Seam{whole}, run(0, 1000)},
		{"high end held", distort.HighHeld, 0, []distort.Seam{whole}, run(1000, 0)},
		{"both free: middle outwards", distort.BothFree, 0, []distort.Seam{whole}, run(500, 1000, 500, 0)},
		{"a fifth before the middle", distort.BothFree, 0, []distort.Seam{whole, seam(18, 0, 0, 400, 900)}, run(500, 900, 500, 400)},
		{"a fifth beyond the middle", distort.BothFree, 0, []distort.Seam{whole, seam(18, 0, 0, 100, 600)}, run(500, 600, 500, 100)},
		{"given backwards", distort.LowHeld, 0, []distort.Seam{seam(18, 0, 0, 1000, 0)}, run(0, 1000)},
		{"beyond the middle", distort.BothFree, 0, []distort.Seam{whole, seam(18, 0, 0, 600, 900)}, run(600, 900)},
		{"before the middle", distort.BothFree, 0, []distort.Seam{whole, seam(18, 0, 0, 100, 400)}, run(400, 100)},
		{"little before the middle", distort.BothFree, 0, []distort.Seam{whole, seam(18, 0, 0, 490, 1000)}, run(490, 1000)},
		{"little beyond the middle", distort.BothFree, 0, []distort.Seam{whole, seam(18, 0, 0, 0, 510)}, run(510, 0)},
		{"back-step to the free end", distort.LowHeld, 250, []distort.Seam{whole}, run(250, 0, 500, 250, 750, 500, 1000, 750)},
		{"back-step from the middle", distort.BothFree, 300, []distort.Seam{whole}, run(750, 500, 1000, 750, 250, 500, 0, 250)},
		{"shorter than a back-step", distort.LowHeld, 2000, []distort.Seam{whole}, run(0, 1000)},
	} {
		t.Run(row.name, func(t *testing.T) {
			o := propose(t, distort.OrderRequest{Seams: row.seams, Held: row.held, BackStep: row.backStep * unit.MM})
			for _, s := range o.Seams {
				if s.Seam != len(row.seams)-1 {
					continue
				}
				if fmt.Sprintf("%.6f", s.Runs) != fmt.Sprintf("%.6f", row.want) {
					t.Errorf("runs %v, want %v", s.Runs, row.want)
				}
			}
		})
	}
}

// TestRunsCoverTheSeam: the pieces are as long as the seam together.
func TestRunsCoverTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := distort.OrderRequest{Held: distort.End(rapid.IntRange(0, 2).Draw(t, "held")), BackStep: rapid.Float64Range(10, 400).Draw(t, "back-step") * unit.MM}
		for range rapid.IntRange(1, 5).Draw(t, "seams") {
			from := rapid.Float64Range(-1000, 1000).Draw(t, "from")
			r.Seams = append(r.Seams, seam(18, 0, 10, from, from+rapid.Float64Range(5, 2000).Draw(t, "length")))
		}
		o, err := distort.ProposeOrder(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range o.Seams {
			w := r.Seams[s.Seam]
			sum := 0.0
			for _, run := range s.Runs {
				if min(run.From, run.To) < w.From-1e-9 || max(run.From, run.To) > w.To+1e-9 {
					t.Fatalf("run %v outside %v", run, w)
				}
				length := math.Abs(run.To - run.From)
				if length > r.BackStep*(1+1e-6) {
					t.Fatalf("run %v longer than the back-step", run)
				}
				sum += length
			}
			if math.Abs(sum-(w.To-w.From)) > 1e-9 {
				t.Fatalf("runs are %g m of %g", sum, w.To-w.From)
			}
		}
	})
}

// TestOrderIsRepeatable: same parts, same order.
func TestOrderIsRepeatable(t *testing.T) {
	r := distort.OrderRequest{Seams: []distort.Seam{seam(18, 5, 100, 0, 1000), seam(18, -5, 100, 0, 1000), seam(18, 5, -100, 0, 1000)}}
	if a, b := propose(t, r), propose(t, r); !reflect.DeepEqual(a, b) {
		t.Errorf("%+v\n%+v", a, b)
	}
}

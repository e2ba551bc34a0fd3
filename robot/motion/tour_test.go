package motion_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/motion"
)

// plainTour tries every order and every way, by the words of TourRequest alone.
// It returns the least time, s, +Inf where there is no order.
func plainTour(req *motion.TourRequest) float64 {
	number := [][]int{}
	next := 1
	for _, g := range req.Groups {
		number = append(number, nil)
		for range g.Ways {
			number[len(number)-1] = append(number[len(number)-1], next)
			next++
		}
	}
	best := math.Inf(1)
	var order []int
	var walk func(at int, time float64)
	walk = func(at int, time float64) {
		if time >= best {
			return
		}
		if len(order) == len(req.Groups) {
			if keepsRules(req, order) {
				best = min(best, time+req.Air[at][0])
			}
			return
		}
		for g := range req.Groups {
			if slices.Contains(order, g) {
				continue
			}
			order = append(order, g)
			for w, i := range number[g] {
				walk(i, time+req.Air[at][i]+req.Groups[g].Ways[w])
			}
			order = order[:len(order)-1]
		}
	}
	walk(0, 0)
	return best
}

func keepsRules(req *motion.TourRequest, order []int) bool {
	place := make([]int, len(order))
	for k, g := range order {
		place[g] = k
	}
	for b, group := range req.Groups {
		for _, a := range group.After {
			if place[a] > place[b] {
				return false
			}
		}
		for a, other := range req.Groups {
			if group.Bundle == 0 || other.Bundle != group.Bundle {
				continue
			}
			for k := min(place[a], place[b]); k <= max(place[a], place[b]); k++ {
				if req.Groups[order[k]].Bundle != group.Bundle {
					return false
				}
			}
		}
	}
	return true
}

// checkTour holds the sums and rules of an answer that has an order.
func checkTour(t interface {
	Helper()
	Fatalf(string, ...any)
}, req *motion.TourRequest, out *motion.TourAnswer) {
	t.Helper()
	var order []int
	from, air, inside := 0, 0.0, 0.0
	for _, s := range out.Order {
		at := 1 + s.Way
		for g := range s.Group {
			at += len(req.Groups[g].Ways)
		}
		air += req.Air[from][at]
		inside += req.Groups[s.Group].Ways[s.Way]
		order, from = append(order, s.Group), at
	}
	air += req.Air[from][0]
	sorted := slices.Sorted(slices.Values(order))
	for g := range req.Groups {
		if len(sorted) != len(req.Groups) || sorted[g] != g {
			t.Fatalf("order %v does not hold every group once", order)
		}
	}
	if !keepsRules(req, order) {
		t.Fatalf("order %v breaks a rule", order)
	}
	if !nearly(air, out.Air) || !nearly(air+inside, out.Time) {
		t.Fatalf("air %g of %g s, the order takes %g of %g", out.Air, out.Time, air, air+inside)
	}
	if out.Bound > out.Time*(1+1e-9) || out.Gap < 0 || out.Gap > 1 || (out.Status == motion.TourOptimal) != (out.Gap == 0) {
		t.Fatalf("status %d, bound %g, gap %g, time %g", out.Status, out.Bound, out.Gap, out.Time)
	}
}

func nearly(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*(1+math.Abs(b)) }

func drawTour(t *rapid.T, most int) *motion.TourRequest {
	req := &motion.TourRequest{Seed: rapid.Uint64().Draw(t, "seed")}
	n := rapid.IntRange(0, most).Draw(t, "groups")
	ways := 1
	for g := range n {
		group := motion.TourGroup{Bundle: max(0, rapid.IntRange(-4, 2).Draw(t, "bundle"))}
		for range rapid.IntRange(1, 2).Draw(t, "ways") {
			group.Ways = append(group.Ways, rapid.Float64Range(0, 5).Draw(t, "inside"))
			ways++
		}
		if g > 0 && rapid.IntRange(0, 3).Draw(t, "ruled") == 0 {
			group.After = append(group.After, rapid.IntRange(0, g-1).Draw(t, "after"))
		}
		req.Groups = append(req.Groups, group)
	}
	time := rapid.Custom(func(t *rapid.T) float64 {
		if rapid.IntRange(0, 9).Draw(t, "blocked") == 0 {
			return math.Inf(1)
		}
		return rapid.Float64Range(0, 10).Draw(t, "air")
	})
	for range ways {
		row := make([]float64, ways)
		for j := range row {
			row[j] = time.Draw(t, "time")
		}
		req.Air = append(req.Air, row)
	}
	req.Air[0][0] = 0 // nobody looks at it where there is a group
	return req
}

func TestExactTourAgainstEveryOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := drawTour(t, 6)
		out, err := motion.FindTour(context.Background(), req)
		if err != nil {
			if strings.Contains(err.Error(), "circle") && math.IsInf(plainTour(req), 1) {
				return
			}
			t.Fatal(err)
		}
		want := plainTour(req)
		switch {
		case math.IsInf(want, 1):
			if out.Status != motion.TourNone || len(out.Order) != 0 {
				t.Fatalf("there is no order, got %+v", out)
			}
		case out.Status != motion.TourOptimal || !nearly(out.Time, want):
			t.Fatalf("got %+v, the quickest order takes %g s", out, want)
		default:
			checkTour(t, req, &out)
		}
	})
}

func TestExactTourOfEightAgainstEveryOrder(t *testing.T) {
	for seed := range uint64(3) {
		req := randomTour(8, 1, seed, nil)
		out, err := motion.FindTour(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		checkTour(t, req, &out)
		if want := plainTour(req); out.Status != motion.TourOptimal || !nearly(out.Time, want) {
			t.Errorf("seed %d: got %+v, the quickest order takes %g s", seed, out, want)
		}
	}
}

// The search for many groups, asked about few: never better than the best, its
// bound never above it, and "no order" only where there is none.
func TestTourSearchAgainstEveryOrder(t *testing.T) {
	found, best, missed := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		req := drawTour(t, 6)
		exact, err := motion.FindTour(context.Background(), req)
		if err != nil {
			return // as the test above tells
		}
		req.ExactUpTo = -1
		out, err := motion.FindTour(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		switch out.Status {
		case motion.TourFound, motion.TourOptimal:
			checkTour(t, req, &out)
			if out.Bound > exact.Time*(1+1e-9) || out.Time < exact.Time*(1-1e-9) || exact.Status != motion.TourOptimal {
				t.Fatalf("got %+v, the quickest order is %+v", out, exact)
			}
			if out.Status == motion.TourOptimal && !nearly(out.Time, exact.Time) {
				t.Fatalf("said to be the best: %+v, which is %+v", out, exact)
			}
			if found++; nearly(out.Time, exact.Time) {
				best++
			}
		case motion.TourNone:
			if exact.Status != motion.TourNone {
				t.Fatalf("no order, and yet there is %+v", exact)
			}
		case motion.TourNotFound:
			if out.Bound > exact.Bound*(1+1e-9) {
				t.Fatalf("bound %g, the quickest order takes %g s", out.Bound, exact.Bound)
			}
			missed++
		}
	})
	t.Logf("%d of %d orders found are the best, %d not found", best, found, missed)
	if found < 30 || best < found*9/10 {
		t.Errorf("%d of %d orders found are the best, 9 of 10 wanted", best, found)
	}
}

// randomTour returns n groups at random places of a shop 3 m square, done one
// way or, with two ways, also backwards; air moves take their length over 0.5 m/s
// and half a second, and one in ten somewhat longer, which makes them lopsided.
func randomTour(n, ways int, seed uint64, spoil func(*motion.TourRequest)) *motion.TourRequest {
	rng := rand.New(rand.NewPCG(seed, 1))
	req := &motion.TourRequest{}
	entry, exit := [][2]float64{{}}, [][2]float64{{}}
	for range n {
		a := [2]float64{3 * rng.Float64(), 3 * rng.Float64()}
		b := [2]float64{a[0] + 0.6*rng.Float64() - 0.3, a[1] + 0.6*rng.Float64() - 0.3}
		entry, exit = append(entry, a), append(exit, b)
		group := motion.TourGroup{Ways: []float64{10}}
		if ways == 2 {
			entry, exit, group.Ways = append(entry, b), append(exit, a), append(group.Ways, 10)
		}
		req.Groups = append(req.Groups, group)
	}
	for i := range exit {
		var row []float64
		for j := range entry {
			s := 0.5 + math.Hypot(exit[i][0]-entry[j][0], exit[i][1]-entry[j][1])/0.5
			if rng.IntN(10) == 0 {
				s *= 1 + rng.Float64()
			}
			row = append(row, s)
		}
		req.Air = append(req.Air, row)
	}
	if spoil != nil {
		spoil(req)
	}
	return req
}

func TestTourOfManyGroups(t *testing.T) {
	for _, row := range []struct {
		name     string
		n, ways  int
		gap, off float64 // at most, dimensionless
		spoil    func(*motion.TourRequest)
	}{
		{"thirteen", 13, 1, 0.08, 0.001, nil},
		{"fourteen both ways", 14, 2, 0.35, 0.001, nil},
		{"sixteen with rules", 16, 1, 0.35, 0.02, func(r *motion.TourRequest) {
			r.Groups[3].After, r.Groups[9].After = []int{4, 7}, []int{3}
			r.Groups[1].Bundle, r.Groups[5].Bundle, r.Groups[11].Bundle = 1, 1, 1
		}},
		{"forty", 40, 1, 0.08, 0, nil},
		{"fifty both ways", 50, 2, 0.35, 0, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			req := randomTour(row.n, row.ways, 5, row.spoil)
			out, err := motion.FindTour(context.Background(), req)
			if err != nil {
				t.Fatal(err)
			}
			checkTour(t, req, &out)
			inside := out.Time - out.Air
			gap := (out.Time - out.Bound) / out.Air // the share that the order decides on
			t.Logf("air %.1f s, bound %.1f s: %.1f %% of the air time", out.Air, out.Bound-inside, 100*gap)
			if gap > row.gap {
				t.Errorf("the gap is %.3f of the air time, %.3f wanted", gap, row.gap)
			}
			if row.off > 0 {
				req.ExactUpTo = 16
				exact, err := motion.FindTour(context.Background(), req)
				if err != nil {
					t.Fatal(err)
				}
				if off := out.Air/exact.Air - 1; off > row.off || off < -1e-9 || out.Bound > exact.Time*(1+1e-9) {
					t.Errorf("air %g s, bound %g s; the best is %g s", out.Air, out.Bound, exact.Air)
				}
			}
			again, err := motion.FindTour(context.Background(), req)
			if err != nil || row.off == 0 && !reflect.DeepEqual(out, again) {
				t.Errorf("asked twice: %+v and %+v, %v", out, again, err)
			}
		})
	}
}

func TestTourTrivialCases(t *testing.T) {
	inf := math.Inf(1)
	for _, row := range []struct {
		name string
		req  motion.TourRequest
		want motion.TourAnswer
	}{
		{"nothing to do", motion.TourRequest{Air: [][]float64{{0}}}, motion.TourAnswer{Status: motion.TourOptimal}},
		{"one group", motion.TourRequest{Groups: []motion.TourGroup{{Ways: []float64{5}}}, Air: [][]float64{{0, 2}, {3, 0}}},
			motion.TourAnswer{Status: motion.TourOptimal, Order: []motion.TourStop{{0, 0}}, Time: 10, Air: 5, Bound: 10}},
		{"the better way", motion.TourRequest{Groups: []motion.TourGroup{{Ways: []float64{5, 4}}}, Air: [][]float64{{0, 2, 1}, {3, 0, 0}, {1, 0, 0}}},
			motion.TourAnswer{Status: motion.TourOptimal, Order: []motion.TourStop{{0, 1}}, Time: 6, Air: 2, Bound: 6}},
		{"no way home", motion.TourRequest{Groups: []motion.TourGroup{{Ways: []float64{5}}}, Air: [][]float64{{0, 2}, {inf, 0}}},
			motion.TourAnswer{Status: motion.TourNone, Bound: inf, Stuck: []int{0}}},
		{"two that nothing joins", motion.TourRequest{Groups: []motion.TourGroup{{Ways: []float64{1}}, {Ways: []float64{1}}}, Air: [][]float64{{0, 1, 1}, {1, 0, inf}, {1, inf, 0}}},
			motion.TourAnswer{Status: motion.TourNone, Bound: inf}},
	} {
		t.Run(row.name, func(t *testing.T) {
			for _, row.req.ExactUpTo = range []int{0, -1} {
				out, err := motion.FindTour(context.Background(), &row.req)
				if err != nil || !reflect.DeepEqual(out, row.want) {
					t.Errorf("got %+v, %v, want %+v", out, err, row.want)
				}
			}
		})
	}
}

func TestTourStopsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, n := range []int{5, 20} {
		if _, err := motion.FindTour(ctx, randomTour(n, 1, 1, nil)); !errors.Is(err, context.Canceled) {
			t.Errorf("%d groups: got %v", n, err)
		}
	}
}

func TestTourRequestsThatMakeNoSense(t *testing.T) {
	for _, row := range []struct {
		name  string
		spoil func(*motion.TourRequest)
		want  string
	}{
		{"no way", func(r *motion.TourRequest) { r.Groups[1].Ways = nil }, "group 2 has no way"},
		{"inside", func(r *motion.TourRequest) { r.Groups[1].Ways[0] = -1 }, "group 2, way 1 takes -1 s"},
		{"rows", func(r *motion.TourRequest) { r.Air = r.Air[1:] }, "air times have 3 rows: 4 are needed"},
		{"columns", func(r *motion.TourRequest) { r.Air[2] = r.Air[2][1:] }, "row 2 of the air times has 3 numbers: 4 are needed"},
		{"negative", func(r *motion.TourRequest) { r.Air[2][3] = -1 }, "the air move from 2 to 3 takes -1 s"},
		{"no number", func(r *motion.TourRequest) { r.Air[0][3] = math.NaN() }, "the air move from 0 to 3 takes NaN s"},
		{"after itself", func(r *motion.TourRequest) { r.Groups[0].After = []int{0} }, "group 1 is to be done after group 1"},
		{"after nothing", func(r *motion.TourRequest) { r.Groups[0].After = []int{3} }, "group 1 is to be done after group 4: name another one of the 3 groups"},
		{"circle", func(r *motion.TourRequest) { r.Groups[0].After, r.Groups[2].After = []int{2}, []int{0} }, "run in a circle"},
		{"circle by bundle", func(r *motion.TourRequest) {
			r.Groups[0].Bundle, r.Groups[2].Bundle = 1, 1
			r.Groups[1].After, r.Groups[2].After = []int{0}, []int{1}
		}, "run in a circle"},
		{"exact", func(r *motion.TourRequest) { r.ExactUpTo = 17 }, "at most 16"},
	} {
		t.Run(row.name, func(t *testing.T) {
			req := randomTour(3, 1, 1, nil)
			row.spoil(req)
			if _, err := motion.FindTour(context.Background(), req); err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got error %v, want %q", err, row.want)
			}
		})
	}
}

func BenchmarkTourTwelve(b *testing.B) { benchmarkTour(b, 12) }
func BenchmarkTourForty(b *testing.B)  { benchmarkTour(b, 40) }

func benchmarkTour(b *testing.B, n int) {
	req := randomTour(n, 2, 1, nil)
	for b.Loop() {
		if _, err := motion.FindTour(context.Background(), req); err != nil {
			b.Fatal(err)
		}
	}
}

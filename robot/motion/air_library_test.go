//go:build peer

// Air moves beside the RRT-Connect of the Open Motion Planning Library, in turn on
// one machine and in the CPU time of one thread:
//
//	go test -tags peer -run AirBesideLibrary -v ./robot/motion
//
// It needs g++, libompl-dev, libfcl-dev and libeigen3-dev (Debian). Same scenes,
// queries and longest branch, no path shortened. The library looks in steps of 0.05
// rad. Once this package does the same and no more; once it proves its path, which
// the library does not.
package motion_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strconv"
	"syscall"
	"testing"
	"unsafe"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

const libraryRounds = 3

// threadTime returns the CPU time of this thread, ms.
func threadTime() float64 {
	const clockThread = 3 // CLOCK_THREAD_CPUTIME_ID of clock_gettime(2)
	var t syscall.Timespec
	syscall.Syscall(syscall.SYS_CLOCK_GETTIME, clockThread, uintptr(unsafe.Pointer(&t)), 0)
	return float64(t.Nano()) / 1e6
}

// times are CPU times, ms.
type times []float64

func (t times) mean() (sum float64) {
	for _, x := range t {
		sum += x / float64(len(t))
	}
	return sum
}

func (t times) share(p float64) float64 {
	sorted := slices.Sorted(slices.Values(t))
	return sorted[int(p*float64(len(sorted)-1))]
}

// stepper looks at moves as the library does: the end first, then halves,
// quarters and so on of steps of 0.05 rad.
type stepper struct {
	*world
	checks int
}

func (s *stepper) Clear(q *kinematics.Q) bool {
	s.checks++
	return s.world.Clear(q)
}

func (s *stepper) ClearMove(from, to *kinematics.Q) bool {
	d := 0.0
	for j := range to {
		d += (to[j] - from[j]) * (to[j] - from[j])
	}
	pieces := max(1, int(math.Ceil(math.Sqrt(d)/0.05)))
	stride := 1
	for stride < pieces {
		stride *= 2
	}
	for first := 0; stride > 0; stride, first = stride/2, stride/2 {
		for k := first; k <= pieces; k += max(1, 2*first) {
			share := float64(pieces-k) / float64(pieces)
			var at kinematics.Q
			for j := range at {
				at[j] = from[j] + share*(to[j]-from[j])
			}
			if k < pieces && !s.Clear(&at) { // where the move begins is known
				return false
			}
			if first == 0 {
				break
			}
		}
	}
	return true
}

func TestAirBesideLibrary(t *testing.T) {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	program := buildPeer(t, "omplrrt", "-O3", "-lompl", "-lfcl", "-lccd")
	worlds := readWorlds(t)
	var ms, checks [4][3]times // by scene: in steps, proven, library
	for round := range libraryRounds {
		for i, w := range worlds {
			for k, ask := range []func(*testing.T, *world, int) (ms, checks times){planSteps, planProven,
				func(t *testing.T, w *world, round int) (times, times) { return libraryAll(t, program, w, round+1) }} {
				m, c := ask(t, w, round)
				ms[i][k], checks[i][k] = append(ms[i][k], m...), append(checks[i][k], c...)
			}
		}
	}
	for i, w := range worlds {
		library := ms[i][2]
		for k, what := range []string{"in steps", "proven", "library"} {
			m, c := ms[i][k], checks[i][k]
			middle, mean := library.share(0.5)/m.share(0.5), library.mean()/m.mean()
			t.Logf("%-12s %-9s ms p50 %.2f, mean %.2f, p95 %.2f; ratio p50 %.1f, mean %.1f; checks p50 %.0f, mean %.0f",
				w.scene.Name, what, m.share(0.5), m.mean(), m.share(0.95), middle, mean, c.share(0.5), c.mean())
			if k == 0 && (middle < 4 || mean < 3) {
				t.Errorf("%s: %.1f times the library in the middle, %.1f times in the mean; 4 and 3 wanted", w.scene.Name, middle, mean)
			}
		}
	}
}

// planSteps and planProven solve all queries of a scene and return the times and
// the checks of single postures.
func planSteps(t *testing.T, w *world, round int) (ms, checks times) {
	s := &stepper{world: w}
	return planAll(t, w, func(req *motion.AirRequest) {
		s.checks = 0
		req.Checker, req.Step, req.Seed = s, -1, uint64(round)
	}, func(*motion.AirAnswer) int { return s.checks })
}

func planProven(t *testing.T, w *world, round int) (ms, checks times) {
	return planAll(t, w, func(req *motion.AirRequest) { req.Seed = uint64(round) },
		func(out *motion.AirAnswer) int { return out.Searched.Clear })
}

func planAll(t *testing.T, w *world, set func(*motion.AirRequest), count func(*motion.AirAnswer) int) (ms, checks times) {
	t.Helper()
	var planner motion.AirPlanner
	var out motion.AirAnswer
	for i := range w.scene.Queries {
		req := w.query(i)
		req.Shortcuts, req.MaxChecks = -1, 10_000_000
		set(req)
		start := threadTime()
		if err := planner.Solve(context.Background(), req, &out); err != nil {
			t.Fatal(err)
		}
		ms, checks = append(ms, threadTime()-start), append(checks, float64(count(&out)))
		if out.Status != motion.AirPlanned {
			t.Errorf("%s query %d: status %d", w.scene.Name, i, out.Status)
		}
	}
	return ms, checks
}

func libraryAll(t *testing.T, program string, w *world, seed int) (ms, checks times) {
	t.Helper()
	var in bytes.Buffer
	writeScene(t, &in, w.scene)
	fmt.Fprintln(&in, 0.05, 1, 5, "queries", len(w.scene.Queries))
	for i := range w.scene.Queries {
		req := w.query(i)
		writePosture(&in, &req.Start)
		writePosture(&in, &req.Goals[0])
	}
	out := runPeer(t, program, &in, strconv.Itoa(seed))
	for range w.scene.Queries {
		var solved int
		var time, count, length float64
		if _, err := fmt.Fscan(out, &solved, &time, &count, &length); err != nil {
			t.Fatal(err)
		}
		ms, checks = append(ms, time), append(checks, count)
	}
	return ms, checks
}

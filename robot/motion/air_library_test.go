//go:build peer

// Air moves beside the RRT-Connect of the Open Motion Planning Library, in turn on
// one machine and in the CPU time of one thread:
//
//	go test -tags peer -run AirBesideLibrary -v ./robot/motion
//
// It needs g++, libompl-dev, libfcl-dev and libeigen3-dev (Debian). Same scenes,
// queries, step and longest branch. The library's path is looked at in steps of
// 0.05 rad; ours is proven besides. Neither is shortened.
package motion_test

import (
	"bytes"
	"context"
	"fmt"
	"runtime"
	"slices"
	"strconv"
	"syscall"
	"testing"
	"unsafe"

	"seamwright/robot/motion"
)

const libraryRounds = 2

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

func TestAirBesideLibrary(t *testing.T) {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	program := buildPeer(t, "omplrrt", "-O3", "-lompl", "-lfcl", "-lccd")
	worlds := readWorlds(t)
	ours, theirs := make([]times, len(worlds)), make([]times, len(worlds))
	checks := make([][2]times, len(worlds))
	for round := range libraryRounds {
		for i, w := range worlds {
			o, c := planAll(t, w, uint64(round))
			ours[i], checks[i][0] = append(ours[i], o...), append(checks[i][0], c...)
			l, d := libraryAll(t, program, w, round+1)
			theirs[i], checks[i][1] = append(theirs[i], l...), append(checks[i][1], d...)
		}
	}
	for i, w := range worlds {
		o, l := ours[i], theirs[i]
		t.Logf("%-12s ms p50/mean/p95: this %.2f %.2f %.2f, library %.2f %.2f %.2f; ratio p50 %.1f, mean %.1f; checks p50/mean %.0f %.0f, %.0f %.0f",
			w.scene.Name, o.share(0.5), o.mean(), o.share(0.95), l.share(0.5), l.mean(), l.share(0.95),
			l.share(0.5)/o.share(0.5), l.mean()/o.mean(),
			checks[i][0].share(0.5), checks[i][0].mean(), checks[i][1].share(0.5), checks[i][1].mean())
		if r := l.share(0.5) / o.share(0.5); r < 4 {
			t.Errorf("%s: %.1f times the library's median, 4 wanted", w.scene.Name, r)
		}
		if r := l.mean() / o.mean(); r < 3 {
			t.Errorf("%s: %.1f times the library's mean, 3 wanted", w.scene.Name, r)
		}
	}
}

// planAll solves all queries of a scene and returns the times and the checks of
// single postures.
func planAll(t *testing.T, w *world, seed uint64) (ms, checks times) {
	t.Helper()
	var planner motion.AirPlanner
	var out motion.AirAnswer
	for i := range w.scene.Queries {
		req := w.query(i)
		req.Seed, req.Shortcuts, req.MaxChecks = seed, -1, 10_000_000
		start := threadTime()
		if err := planner.Solve(context.Background(), req, &out); err != nil {
			t.Fatal(err)
		}
		ms, checks = append(ms, threadTime()-start), append(checks, float64(out.Searched.Clear))
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

package motion_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"testing"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// Reference: the Flexible Collision Library (FCL) 0.7 looks at paths in steps
// this long, rad, a tenth of those of the library that planned its own.
const peerStep = 0.005

// Every query of the four scenes is solved, plain, shortened and kept wide, and
// the library finds every path clear.
func TestPathsAreClearForLibraryLive(t *testing.T) {
	program := buildPeer(t, "fclpaths", "-O1", "-lfcl", "-lccd")
	for _, w := range readWorlds(t) {
		t.Run(w.scene.Name, func(t *testing.T) {
			paths, words := solveAll(t, w)
			var in bytes.Buffer
			writeScene(t, &in, w.scene)
			fmt.Fprintln(&in, peerStep, "paths", len(paths))
			for _, path := range paths {
				fmt.Fprintln(&in, len(path))
				for k := range path {
					writePosture(&in, &path[k])
				}
			}
			out := runPeer(t, program, &in)
			for _, what := range words {
				var clear int
				var along float64
				if _, err := fmt.Fscan(out, &clear, &along); err != nil {
					t.Fatal(err)
				}
				if clear != 1 {
					t.Errorf("%s: the library finds something touching %.3f rad along", what, along)
				}
			}
		})
	}
}

// solveAll returns the paths of all queries, one way or another, and last the
// straight moves, which the scenes block.
func solveAll(t *testing.T, w *world) (paths [][]kinematics.Q, words []string) {
	t.Helper()
	var planner motion.AirPlanner
	var raw, short float64
	for i := range w.scene.Queries {
		req := w.query(i)
		req.Seed = uint64(i)
		req.Shortcuts = 30
		switch i % 5 {
		case 3:
			req.Shortcuts = -1
		case 4:
			req.Clearance, req.WideClearance = w.clearance, 0.05
		}
		var out motion.AirAnswer
		if err := planner.Solve(context.Background(), req, &out); err != nil {
			t.Fatal(err)
		}
		if out.Status != motion.AirPlanned {
			t.Errorf("query %d: status %d, want a path; searched %+v", i, out.Status, out.Searched)
			continue
		}
		checkAirPath(t, req, &out)
		raw, short = raw+out.First, short+out.Length
		paths, words = append(paths, out.Path), append(words, fmt.Sprintf("query %d", i))
	}
	t.Logf("%d paths, %.1f rad long as found, %.1f rad in the end", len(paths), raw/50, short/50)
	return paths, words
}

// The paths that the Open Motion Planning Library found and shortened, looking in
// steps of 0.05 rad, are clear at the same places; where a move is not proven, the
// checker names a place between two of them at which something touches.
func TestLibrarysPathsAreClear(t *testing.T) {
	for _, w := range readWorlds(t) {
		t.Run(w.scene.Name, func(t *testing.T) {
			moves, grazing := 0, 0
			for i, path := range w.scene.Paths {
				for k := 1; k < len(path); k++ {
					from, to := postureOf(path[k-1]), postureOf(path[k])
					moves++
					if !w.steps(&from, &to, 0.05) {
						t.Errorf("path %d: move %d is not clear in steps", i, k)
					}
					if w.ClearMove(&from, &to) {
						continue
					}
					grazing++
					// A micrometre counts as touching.
					if least := w.model.LeastMove(w.scratch, &from, &to, w.regime, math.Inf(1)); least.Near.Distance > 1e-6 {
						t.Errorf("path %d: move %d is not proven, and yet %g m apart", i, k, least.Near.Distance)
					}
				}
			}
			t.Logf("%d moves, %d of which touch between the steps", moves, grazing)
		})
	}
}

// steps reports whether the arm is clear at places no more than step (rad) apart.
func (w *world) steps(from, to *kinematics.Q, step float64) bool {
	d := 0.0
	for j := range to {
		d += (to[j] - from[j]) * (to[j] - from[j])
	}
	n := int(math.Ceil(math.Sqrt(d) / step)) // as the library cuts a move
	for k := range n + 1 {
		var at kinematics.Q
		for j := range at {
			at[j] = from[j] + float64(k)/float64(n)*(to[j]-from[j])
		}
		if !w.Clear(&at) {
			return false
		}
	}
	return true
}

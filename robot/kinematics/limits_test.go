package kinematics_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

func TestNarrowed(t *testing.T) {
	c := readChain(t, "offw6") // joint 6: -6.28 to 6.28
	whole := c.Joint(5)
	rows := []struct {
		name         string
		chain        *kinematics.Chain
		lower, upper float64
		want         kinematics.Joint // limits and marks only
		ok           bool
	}{
		{"both sides", c, -3, 3, kinematics.Joint{Lower: -3, Upper: 3, LowerNarrowed: true, UpperNarrowed: true}, true},
		{"one side", c, -9, 3, kinematics.Joint{Lower: whole.Lower, Upper: 3, UpperNarrowed: true}, true},
		{"wider than the file", c, -9, 9, kinematics.Joint{Lower: whole.Lower, Upper: whole.Upper}, true},
		{"beyond the file", c, 8, 9, kinematics.Joint{Lower: 8, Upper: whole.Upper, LowerNarrowed: true}, false},
		{"without end", readFreeChain(t, "offw6"), -3, 3, kinematics.Joint{Lower: -3, Upper: 3, LowerNarrowed: true, UpperNarrowed: true}, true},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			narrow, ok := row.chain.Narrowed(5, row.lower, row.upper)
			if ok != row.ok {
				t.Fatalf("ok %v", ok)
			}
			want := whole
			want.Lower, want.Upper, want.LowerNarrowed, want.UpperNarrowed = row.want.Lower, row.want.Upper, row.want.LowerNarrowed, row.want.UpperNarrowed
			if got := narrow.Joint(5); got != want {
				t.Errorf("got %+v, want %+v", got, want)
			}
			if c.Joint(5) != whole {
				t.Error("the chain itself has changed")
			}
		})
	}
}

// A narrowed chain is solved within its limits, and forward it is the same arm.
func TestNarrowedChainIsSolvedWithinItsLimits(t *testing.T) {
	c := readFreeChain(t, "offw6")
	narrow, _ := c.Narrowed(5, -0.5, 0.5)
	free, held := newSolver(t, c), newSolver(t, narrow)
	dropped := 0
	for _, q := range randomPostures9(50, 6, 31) {
		pose := forward(c, q)
		if forward(narrow, q) != pose {
			t.Fatal("another arm")
		}
		all, some := solve(free, pose, &q), solve(held, pose, &q)
		within := 0
		for i := range all.N {
			if math.Abs(math.Remainder(all.Q[i][5], 2*math.Pi)) <= 0.5 {
				within++
			}
		}
		if some.N != within {
			t.Errorf("%d postures, %d are within the limits", some.N, within)
		}
		dropped += all.N - some.N
	}
	if dropped == 0 {
		t.Error("no posture was outside")
	}
}

func TestTurns(t *testing.T) {
	z := r3.Vec{Z: 1}
	r := armOf([]r3.Vec{z, z, z}, make([]r3.Vec, 3))
	r.Joints[0].Kind, r.Joints[0].Limit = urdf.Revolute, urdf.Limit{Lower: -7, Upper: 7}
	r.Joints[1].Kind, r.Joints[1].Limit = urdf.Prismatic, urdf.Limit{Lower: 0, Upper: 1}
	c := newChain(t, r, "l0", "l3")
	const turn = 2 * math.Pi
	rows := []struct {
		name   string
		joint  int
		q      float64
		lo, hi int
	}{
		{"middle", 0, 0, -1, 1},
		{"only upwards", 0, -2, 0, 1},
		{"on the upper limit", 0, 7, -2, 0},
		{"on the upper limit a turn away", 0, 7 - turn, -1, 1},
		{"far off", 0, 1 + 5*turn, -6, -5},
		{"sliding inside", 1, 0.5, 0, 0},
		{"sliding outside", 1, 1.5, 1, 0},
		{"endless", 2, 3, math.MinInt32, math.MaxInt32},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			var q kinematics.Q
			q[row.joint] = row.q
			if lo, hi := c.Turns(&q, row.joint); lo != row.lo || hi != row.hi {
				t.Errorf("turns %d to %d, want %d to %d", lo, hi, row.lo, row.hi)
			}
		})
	}
	r.Joints[0].Limit = urdf.Limit{Lower: 1, Upper: 2}
	narrow := newChain(t, r, "l0", "l3")
	if lo, hi := narrow.Turns(&kinematics.Q{3}, 0); lo <= hi {
		t.Errorf("turns %d to %d, want none", lo, hi)
	}
}

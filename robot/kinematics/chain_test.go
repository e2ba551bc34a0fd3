package kinematics_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

func TestChainJointsAreTheFiles(t *testing.T) {
	c := readChain(t, "sphw6")
	if c.N() != 6 {
		t.Fatalf("%d joints, want 6", c.N())
	}
	want := kinematics.Joint{Name: "j2", Kind: kinematics.Revolute, Lower: -3.6, Upper: 0.6, Velocity: 2.2, Effort: 200}
	if got := c.Joint(1); got != want {
		t.Errorf("joint 2 is %+v, want %+v", got, want)
	}
	free := readFreeChain(t, "sphw6").Joint(1)
	if free.Kind != kinematics.Continuous || !math.IsInf(free.Lower, -1) || !math.IsInf(free.Upper, 1) {
		t.Errorf("continuous joint is %+v", free)
	}
}

func TestNewChainRefuses(t *testing.T) {
	z := r3.Vec{Z: 1}
	long := armOf([]r3.Vec{z, z, z, z, z, z, z, z, z, z}, make([]r3.Vec, 10))
	still := armOf(nil, make([]r3.Vec, 2))
	apart := armOf(nil, make([]r3.Vec, 2))
	apart.Joints = apart.Joints[:1]
	rows := []struct {
		name         string
		robot        *urdf.Robot
		base, flange string
		want         string
	}{
		{"unknown link", still, "l0", "tip", `chain: found no link "tip" in robot "arm"; allowed: a link of the file; correct the name`},
		{"two trees", apart, "l0", "l2", `chain: found no link that carries both "l0" and "l2" in robot "arm"; allowed: two links of one tree; connect the two in the file or correct the names`},
		{"nothing moves", still, "l0", "l2", `chain from link "l0" to link "l2": found no moving joint; allowed: 1 to 9; choose the link that the arm's last joint carries as flange`},
		{"start is goal", still, "l0", "l0", `chain from link "l0" to link "l0": found no moving joint; allowed: 1 to 9; choose the link that the arm's last joint carries as flange`},
		{"ten joints", long, "l0", "l:", `chain from link "l0" to link "l:": found 10 moving joints; allowed: 1 to 9; choose links nearer to each other or make joints fixed`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			_, err := kinematics.NewChain(row.robot, row.base, row.flange)
			if err == nil || err.Error() != row.want {
				t.Errorf("got  %v\nwant %s", err, row.want)
			}
		})
	}
}

func TestLinksIncludeBranches(t *testing.T) {
	c := readChain(t, "offw6")
	q := kinematics.Q{0.3, -1, 1.2, -0.4, 0.9, 0.2}
	flange := forward(c, q)
	links := c.Links(&q, nil)
	if len(links) != 9 || links[0].Link != "link0" {
		t.Fatalf("%d links from %q, want 9 from link0", len(links), links[0].Link)
	}
	for _, l := range links {
		if l.Link != "tcp" {
			continue
		}
		// From the file: tcp and flange both hang on link6, 0.11 m apart along
		// its z and as written in tcp_fixed.
		want := flange.Apply(r3.Vec{X: 0.0675953040136344, Z: 0.5030369543531189 - 0.11})
		if l.BaseFromLink.P.Dist(want) > 1e-12 {
			t.Errorf("tcp at %v, want %v", l.BaseFromLink.P, want)
		}
		return
	}
	t.Error("no link tcp")
}

package cell_test

import (
	"math"
	"strings"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// tableAndArm is an invented arm with a table on its foot: the table tilts
// about the foot's x and turns about its own z.
const tableAndArm = `<robot name="pipit">
  <link name="foot"/><link name="cradle"/><link name="top"/>
  <link name="l1"/><link name="l2"/><link name="l3"/><link name="l4"/><link name="l5"/><link name="flange"/>
  <joint name="tilt" type="revolute"><parent link="foot"/><child link="cradle"/><origin xyz="0.8 0 0.3"/><axis xyz="1 0 0"/><limit lower="-2" upper="2" velocity="1" effort="1"/></joint>
  <joint name="turn" type="continuous"><parent link="cradle"/><child link="top"/><origin xyz="0 0 0.2"/><axis xyz="0 0 1"/></joint>
  <joint name="j1" type="continuous"><parent link="foot"/><child link="l1"/><origin xyz="0 0 0.4"/><axis xyz="0 0 1"/></joint>
  <joint name="j2" type="continuous"><parent link="l1"/><child link="l2"/><origin xyz="0.1 0 0"/><axis xyz="0 1 0"/></joint>
  <joint name="j3" type="continuous"><parent link="l2"/><child link="l3"/><origin xyz="0 0 0.6"/><axis xyz="0 1 0"/></joint>
  <joint name="j4" type="continuous"><parent link="l3"/><child link="l4"/><origin xyz="0.3 0 0"/><axis xyz="1 0 0"/></joint>
  <joint name="j5" type="continuous"><parent link="l4"/><child link="l5"/><origin xyz="0.3 0 0"/><axis xyz="0 1 0"/></joint>
  <joint name="j6" type="continuous"><parent link="l5"/><child link="flange"/><axis xyz="1 0 0"/></joint>
</robot>`

func chainOf(t *testing.T, base, flange string) *kinematics.Chain {
	t.Helper()
	r, err := urdf.Parse(strings.NewReader(tableAndArm), "pipit.urdf")
	if err != nil {
		t.Fatal(err)
	}
	c, err := kinematics.NewChain(r, base, flange)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func newCell(t *testing.T, base string, table *kinematics.Chain, worldFromFoot se3.Pose) *cell.Cell {
	t.Helper()
	s, err := kinematics.NewSolver(chainOf(t, base, "flange"))
	if err != nil {
		t.Fatal(err)
	}
	return cell.New(cell.Spec{Solver: s, Table: table, WorldFromFoot: worldFromFoot, BaseFromPart: se3.Identity(),
		FlangeFromTip: se3.Translation(r3.Vec{X: 0.2})})
}

func TestUpOnAMountedArm(t *testing.T) {
	q := kinematics.Q{1, 2, 3} // must not matter: nothing carries the part
	for _, row := range []struct {
		name string
		foot se3.Rot // world from foot
		want r3.Vec  // against gravity, in the foot
	}{
		{"on the floor", se3.RotIdentity(), r3.Vec{Z: 1}},
		{"under a ceiling", se3.RotX(math.Pi), r3.Vec{Z: -1}},
		{"on a wall, its x down", se3.RotY(math.Pi / 2), r3.Vec{X: -1}},
	} {
		c := newCell(t, "foot", nil, se3.Pose{R: row.foot, P: r3.Vec{Z: 3}})
		if got := c.Up(&q); got.Dist(row.want) > 1e-15 {
			t.Errorf("%s: up is %v, want %v", row.name, got, row.want)
		}
		if c.BaseFromFoot(&q) != se3.Identity() || c.TableJoints() != 0 {
			t.Errorf("%s: base and foot differ", row.name)
		}
	}
}

// Chain order is turn, tilt, j1...: up on the table's top, by hand.
func TestUpOnATurningTable(t *testing.T) {
	c := newCell(t, "top", chainOf(t, "top", "foot"), se3.Identity())
	if c.TableJoints() != 2 {
		t.Fatalf("%d joints of the table, want 2", c.TableJoints())
	}
	half, right := math.Sqrt(0.5), math.Pi/2
	for _, row := range []struct {
		name       string
		turn, tilt float64 // rad
		want       r3.Vec
	}{
		{"level", 0, 0, r3.Vec{Z: 1}},
		{"turned", 1, 0, r3.Vec{Z: 1}},
		{"tilted a quarter about x", 0, right, r3.Vec{Y: 1}},
		{"tilted an eighth", 0, right / 2, r3.Vec{Y: half, Z: half}},
		{"turned a quarter, tilted a quarter", right, right, r3.Vec{X: 1}},
	} {
		q := kinematics.Q{row.turn, row.tilt, 0.3, -0.4, 1}
		if got := c.Up(&q); got.Dist(row.want) > 1e-15 {
			t.Errorf("%s: up is %v, want %v", row.name, got, row.want)
		}
	}
}

// The frames close: world from tip is the same over the table and from the foot.
func TestFramesClose(t *testing.T) {
	worldFromFoot := se3.Pose{R: se3.RotZ(0.5).Mul(se3.RotX(0.1)), P: r3.Vec{X: 1, Z: 0.2}}
	c := newCell(t, "top", chainOf(t, "top", "foot"), worldFromFoot)
	arm := newCell(t, "foot", nil, worldFromFoot)
	q := kinematics.Q{0.7, -0.4, 0.3, -0.4, 1, 0.2, 0.9, -0.3}
	var alone kinematics.Q
	copy(alone[:], q[2:])
	over := c.WorldFromBase(&q).Mul(c.BaseFromTip(&q))
	direct := worldFromFoot.Mul(arm.BaseFromTip(&alone))
	if over.P.Dist(direct.P) > 1e-12 || over.R.AngleTo(direct.R) > 1e-12 {
		t.Errorf("world from tip %v over the table, %v from the foot", over, direct)
	}
	back := c.BaseFromFoot(&q).Mul(arm.BaseFromTip(&alone))
	if got := c.BaseFromTip(&q); got.P.Dist(back.P) > 1e-12 || got.R.AngleTo(back.R) > 1e-12 {
		t.Errorf("base from tip %v, by the foot %v", got, back)
	}
	var out kinematics.Solutions
	if c.Solve(c.BaseFromTip(&q), &q, &out); out.N == 0 {
		t.Errorf("no posture has the tip where it is: %v", out.Status)
	}
}

// The table is held as it stood; there is one choice for six joints more.
func TestChoicesHoldTheTable(t *testing.T) {
	c := newCell(t, "top", chainOf(t, "top", "foot"), se3.Identity())
	stood := kinematics.Q{0.7, -0.4, 9, 9, 9}
	n := 0
	for held := range c.Choices(&stood) {
		n++
		if want := (kinematics.Q{0.7, -0.4}); held != want {
			t.Errorf("held at %v, want %v", held, want)
		}
	}
	alone := newCell(t, "foot", nil, se3.Identity())
	for held := range alone.Choices(&stood) {
		n++
		if held != (kinematics.Q{}) {
			t.Errorf("the arm alone is held at %v", held)
		}
	}
	if n != 2 {
		t.Errorf("%d choices, want one each", n)
	}
	// Taken as any chain, not as a table, its two joints are on the grid.
	free := cell.New(cell.Spec{Solver: c.Solver, WorldFromFoot: se3.Identity(), BaseFromPart: se3.Identity(), FlangeFromTip: se3.Identity()})
	n = 0
	for range free.Choices(&stood) {
		n++
	}
	if n != c.Solver.Choices() || n < 100 {
		t.Errorf("%d choices, the solver has %d", n, c.Solver.Choices())
	}
}

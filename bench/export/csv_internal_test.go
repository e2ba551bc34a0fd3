package export

import (
	"math"
	"slices"
	"strings"
	"testing"

	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

func TestFixedPrintsDigitsAndNoMinusZero(t *testing.T) {
	for _, c := range []struct {
		name   string
		x      float64
		digits int
		want   string
	}{
		{"number", 1.23456, 2, "1.23"},
		{"rounded up", 0.999999, 5, "1.00000"},
		{"whole", 250, 4, "250.0000"},
		{"large", 123456.5, 1, "123456.5"},
		{"negative", -0.5, 1, "-0.5"},
		{"no minus before zero", math.Copysign(0, -1), 2, "0.00"},
		{"no minus before what prints as zero", -0.0049, 2, "0.00"},
		{"minus where a digit is left", -0.0051, 2, "-0.01"},
		{"no number", math.NaN(), 4, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := fixed(c.x, c.digits); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// Which leading characters make a spreadsheet compute: OWASP, CSV injection
// (from memory).
func TestTextIsNoFormula(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", ""},
		{"plain", "W1 weld start", "W1 weld start"},
		{"number", "11", "11"},
		{"equals", "=1+1", "'=1+1"},
		{"plus", "+49 5", "'+49 5"},
		{"minus", "-1", "'-1"},
		{"at", "@sum(a1)", "'@sum(a1)"},
		{"tab", "\t=1", "'\t=1"},
		{"carriage return", "\r=1", "'\r=1"},
		{"line end", "\n=1", "'\n=1"},
		{"sign inside", "W1=a", "W1=a"},
		{"letters of other scripts", "Naht ß", "Naht ß"},
		{"apostrophe", "'W1", "'W1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := text(c.text); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestPlainNumbersInJSON(t *testing.T) {
	minus := math.Copysign(0, -1)
	if got := []float64{plain(minus), r6(-1e-9), vec(r3.Vec{X: minus})[0], joints(&kinematics.Q{minus}, 1)[0]}; slices.ContainsFunc(got, math.Signbit) {
		t.Errorf("a minus stands before zero: %v", got)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got := optional(x); got != nil {
			t.Errorf("optional(%v) is %v, want null", x, *got)
		}
	}
	if got := *optional(1.23456789); got != 1.234568 {
		t.Errorf("got %v, want six decimals", got)
	}
}

// slidingCell is an invented arm of one turning and one sliding joint.
func slidingCell(t *testing.T) *cell.Cell {
	t.Helper()
	const arm = `<robot name="two">
  <link name="base"/><link name="a"/><link name="b"/>
  <joint name="turn" type="revolute"><parent link="base"/><child link="a"/><axis xyz="0 0 1"/><limit lower="-3" upper="3" velocity="1" effort="1"/></joint>
  <joint name="slide" type="prismatic"><parent link="a"/><child link="b"/><axis xyz="1 0 0"/><limit lower="0" upper="2" velocity="1" effort="1"/></joint>
</robot>`
	robot, err := urdf.Parse(strings.NewReader(arm), "two.urdf")
	if err != nil {
		t.Fatal(err)
	}
	chain, err := kinematics.NewChain(robot, "base", "b")
	if err != nil {
		t.Fatal(err)
	}
	return &cell.Cell{Chain: chain, Spec: cell.Spec{FlangeFromTip: se3.Identity(), WorldFromFoot: se3.Identity()}}
}

// The cells of steps.csv and trace.csv, by hand from the units in the heads.
func TestRowsCarryTheUnitsOfTheirHeads(t *testing.T) {
	c := slidingCell(t)
	pose := se3.Pose{R: se3.RotZ(math.Pi / 2), P: r3.Vec{X: 0.0123456789, Y: -0.25, Z: math.Copysign(0, -1)}}
	q := kinematics.Q{math.Pi / 2, 0.25}
	nan := math.NaN()
	p := &plan.Plan{
		Cell: c,
		Steps: []plan.Step{
			{Label: "home", Move: plan.MoveJoint, Percent: 25, Q: q, Pose: pose, Work: nan, Travel: nan},
			{Label: "=W1, start", Seam: "W1", Pass: 2, Move: plan.MoveLinear, Speed: 0.0082252611, Arc: "on", Settings: "-11", Q: q, Pose: pose, Work: math.Pi / 4, Travel: -1e-12},
		},
		Trace: []plan.Sample{
			{T: 0, Along: nan, Pose: pose, Q: q, Clearance: math.Inf(1)}, // no bodies known
			{T: 1.5, Seam: "W1", Pass: 2, Along: 0.0125, Arc: true, Pose: pose, Q: q, Speed: 0.0082252611, Clearance: 0.0034},
		},
	}
	at := "12.34568,-250.00000,0.00000,0.707106781,0.000000000,0.000000000,0.707106781,90.0000000,250.0000000"
	heads := "x_mm,y_mm,z_mm,qw,qx,qy,qz,j1_deg,j2_mm"
	var steps, trace strings.Builder
	if err := Steps(&steps, p); err != nil {
		t.Fatal(err)
	}
	if err := Trace(&trace, p); err != nil {
		t.Fatal(err)
	}
	for _, f := range []struct{ name, got, want string }{
		{"steps", steps.String(), "step,label,seam,pass,move,speed_mm_s,joint_speed_pct,arc,settings," + heads + ",work_deg,travel_deg\n" +
			"1,home,,,joint,,25.0,,," + at + ",,\n" +
			`2,"'=W1, start",W1,2,linear,8.2253,,on,'-11,` + at + ",45.0000,0.0000\n"},
		{"trace", trace.String(), "t_s,seam,pass,s_mm,arc," + heads + ",speed_mm_s,clearance_mm\n" +
			"0.000000,,,,0," + at + ",0.0000,\n" +
			"1.500000,W1,2,12.5000,1," + at + ",8.2253,3.4000\n"},
	} {
		if f.got != f.want {
			t.Errorf("%s:\ngot  %s\nwant %s", f.name, f.got, f.want)
		}
	}
}

package intake_test

import (
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"seamwright/bench/intake"
	"seamwright/bench/job"
)

// memory holds the files of a document.
type memory map[string]string

func (m memory) Open(name string) (io.ReadCloser, error) {
	text, ok := m[name]
	if !ok {
		return nil, fmt.Errorf("open %s: %w", name, os.ErrNotExist)
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

// document is a small job whose points section is open.
const document = `seamwright: 1
name: Bracket
code: iso
arm: {urdf: arm.urdf, base_link: l0, flange_link: l6}
torch: {body: 210 mm, neck: 120 mm, neck_angle: 35 deg, nozzle: 22 mm, tip_recess: 2 mm, stick_out: 13 mm}
points:
  measured_in: %s
  point: %s
  length: %s
  orientation: %s
  joints: %s
  speeds: %s
  list: true
  file: taught.csv
home: home
settings: {sets: [{id: 11, process: 135, transfer: spray, wire: 1.0 mm, feed: 9.0 m/min}]}
seams:
  - name: W1
    joint: tee
    line: [W1 start, W1 end]
    base: level
    upright: left
    weld: {leg: 5 mm}
    settings: 11
    torch: {travel: push 10 deg}
`

// arm is six turning joints in a row: this test does not move it.
func arm() string {
	var b strings.Builder
	b.WriteString(`<robot name="plover"><link name="l0"/>`)
	for k := range 6 {
		fmt.Fprintf(&b, `<link name="l%d"/><joint name="a%d" type="revolute"><parent link="l%d"/><child link="l%d"/><origin xyz="0 0 0.2"/><axis xyz="0 %d %d"/><limit lower="-3.1" upper="3.1" effort="1" velocity="2"/></joint>`,
			k+1, k+1, k, k+1, k%2, (k+1)%2)
	}
	b.WriteString(`</robot>`)
	return b.String()
}

// The strict form and the words go into a job document and come back as the
// same points.
func TestCanonicalIsReadByTheJob(t *testing.T) {
	tables := map[string]struct {
		text    string
		answers intake.Answers
	}{
		"millimetres and degrees, moves and speeds": {
			"label;x;y;z;r1;r2;r3;j1;j2;j3;j4;j5;j6;move;speed;percent;arc;settings;blend;comment\n" +
				"home;;;;;;;0;-60,5;90,25;0;60;0,125;joint;;20;;;;\n" +
				"W1 start;430,2;-229,9;34,05;139,8;-9;36;;;;;;;linear;8,2;;on;11;0;\"root, \"\"A\"\" #2\"\n" +
				"W1 end;630,4;-228,1;33,1;141,2;-7,5;34,4;;;;;;;linear;6,8;;off;11;2,5;\n" +
				"home;;;;;;;0;-60,5;90,25;0;60;0,125;joint;;20;;;;\n",
			intake.Answers{"measured_in": "base", "point": "tip", "length": "mm", "orientation": "fixed x-y-z degrees", "joints": "deg", "speeds": "mm/s"},
		},
		"inches and a rotation vector": {
			"label\tx [in]\ty [in]\tz [in]\tr1\tr2\tr3\tj1 [rad]\tj2 [rad]\tj3 [rad]\tj4 [rad]\tj5 [rad]\tj6 [rad]\tspeed [in/min]\n" +
				"home\t\t\t\t\t\t\t0\t-1.0472\t1.5708\t0\t1.0472\t0\t\n" +
				"W1 start\t17.204\t-9.051\t1.339\t2.101\t-1.204\t0.310\t\t\t\t\t\t\t16.06\n" +
				"W1 end\t24.819\t-8.980\t1.303\t2.122\t-1.190\t0.290\t\t\t\t\t\t\t16.06\n",
			intake.Answers{"measured_in": "base", "point": "flange", "orientation": "rotation vector radians"},
		},
		"a label that begins like a comment": {
			"label,x,y,z,r1,r2,r3\n#1,430.2,-229.9,34,0.9239,0,0.3827\nW1 start,430.2,-229.9,34,1,0,0\nW1 end,630.2,-229.9,34,1,0,0\nhome,430.2,-229.9,134,1,0,0\n",
			intake.Answers{"comment_rows": "points", "measured_in": "world", "point": "tip", "length": "mm", "orientation": "fixed x-y-z radians"},
		},
	}
	for name, c := range tables {
		table, questions, err := intake.Read([]byte(c.text), intake.Known{Answers: c.answers})
		if err != nil || len(questions) > 0 {
			t.Fatalf("%s: %v, %+v", name, err, questions)
		}
		points, problems := intake.Apply(table)
		if len(problems) > 0 {
			t.Fatalf("%s: %+v", name, problems)
		}
		w := table.Stated
		orElse := func(s, other string) string {
			if s == "" {
				return other
			}
			return s
		}
		doc := fmt.Sprintf(document, w.MeasuredIn, w.Point, w.Length, w.Orientation, orElse(w.Joints, "deg"), orElse(w.Speeds, "mm/s"))
		csv := intake.Canonical(points, w)
		j, err := job.Decode("job.yaml", memory{"job.yaml": doc, "taught.csv": string(csv), "arm.urdf": arm()})
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, csv)
		}
		if len(j.Points) != len(points) {
			t.Fatalf("%s: %d points, want %d", name, len(j.Points), len(points))
		}
		for i, p := range points {
			samePoint(t, name, j.Points[i], p)
		}
		again, questions, err := intake.Read(csv, intake.Known{Answers: intake.Answers{
			"comment_rows": "points", "measured_in": w.MeasuredIn, "point": w.Point, "length": w.Length, "orientation": w.Orientation, "joints": w.Joints, "speeds": w.Speeds,
		}})
		if err != nil || len(questions) > 0 {
			t.Fatalf("%s: the strict form read again: %v, %+v", name, err, questions)
		}
		twice, _ := intake.Apply(again)
		if got := string(intake.Canonical(twice, again.Stated)); got != string(csv) {
			t.Errorf("%s: read and written again:\n%s\nwant\n%s", name, got, csv)
		}
	}
}

func samePoint(t *testing.T, name string, got job.Point, want intake.Point) {
	t.Helper()
	texts := [][2]string{
		{got.Label, want.Label}, {got.Comment, want.Comment}, {string(got.Move), want.Move},
		{string(got.Arc), want.Arc}, {got.Settings, want.Settings},
	}
	for _, p := range texts {
		if p[0] != p[1] {
			t.Errorf("%s, %s: got %q, want %q", name, want.Label, p[0], p[1])
		}
	}
	if got.HasPose != want.HasPlace || got.HasTurn != want.HasTurn {
		t.Errorf("%s, %s: got %v %v", name, want.Label, got.HasPose, got.HasTurn)
	}
	if d := got.Pose.Minus(want.Pose); want.HasPlace && (d.Linear.Norm() > 1e-12 || d.Angular.Norm() > 1e-12) {
		t.Errorf("%s, %s: pose differs by %v", name, want.Label, d)
	}
	if !nearAll(got.Joints, want.Joints) {
		t.Errorf("%s, %s: joints %v, want %v", name, want.Label, got.Joints, want.Joints)
	}
	for _, p := range [][2]float64{{got.Speed, want.Speed}, {got.Percent, want.Percent}, {got.Blend, want.Blend}} {
		if math.Abs(p[0]-p[1]) > 1e-12 {
			t.Errorf("%s, %s: got %v, want %v", name, want.Label, p[0], p[1])
		}
	}
}

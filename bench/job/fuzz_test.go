package job_test

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"seamwright/bench/job"
)

// check says what must hold of every answer.
func check(t *testing.T, m memory) {
	t.Helper()
	began := time.Now()
	j, err := job.Decode("job.yaml", m)
	if d := time.Since(began); d > 20*time.Second {
		t.Errorf("took %v", d)
	}
	if err == nil {
		checkJob(t, j)
		return
	}
	var ps *job.Problems
	if !errors.As(err, &ps) || j != nil {
		t.Fatalf("job %v, error %T", j, err)
	}
	if len(ps.List) == 0 || len(ps.List) > 50 || ps.More < 0 || ps.More > 0 && len(ps.List) != 50 {
		t.Fatalf("%d problems and %d more", len(ps.List), ps.More)
	}
	lines := strings.Split(err.Error(), "\n")
	if ps.More == 0 && len(lines) != len(ps.List) {
		t.Fatalf("%d problems on %d lines:\n%v", len(ps.List), len(lines), err)
	}
	for _, p := range ps.List {
		if p.Place.File == "" || p.Found == "" || p.Allowed == "" || p.Mend == "" {
			t.Fatalf("a problem without words: %+v", p)
		}
		if len(p.String()) > 4000 {
			t.Fatalf("a message of %d bytes", len(p.String()))
		}
	}
}

// checkJob says what must hold of every job that is accepted.
func checkJob(t *testing.T, j *job.Job) {
	t.Helper()
	labels, ids := map[string]bool{}, map[string]bool{}
	for _, p := range j.Points {
		labels[p.Label] = true
		if p.HasPose == (p.Joints != nil) {
			t.Fatalf("%q has a pose and joints, or neither", p.Label)
		}
		if n := p.Pose.P.Norm(); math.IsNaN(n) || math.IsInf(n, 0) {
			t.Fatalf("%q stands at %v", p.Label, p.Pose.P)
		}
		if p.HasPose && !(math.Abs(p.Pose.R.X().Norm()-1) < 1e-9) {
			t.Fatalf("%q is turned by %v", p.Label, p.Pose.R)
		}
	}
	for _, s := range j.Settings {
		ids[s.ID] = true
		if err := s.Validate(); err != nil {
			t.Fatal(err)
		}
	}
	for _, w := range j.Procedures {
		if err := w.Validate(); err != nil {
			t.Fatal(err)
		}
	}
	names := map[string]bool{}
	for _, s := range j.Shapes {
		if p := s.LinkFromShape; names[s.Name] || s.Name == "" || s.Kind == "" || !p.P.IsFinite() || math.Abs(p.R.Mul(p.R.T()).Angle()) > 1e-6 {
			t.Fatalf("shape %+v", s)
		}
		names[s.Name] = true
	}
	if c := j.Clearance; !(min(c.Nozzle, c.Torch, c.Air, c.Cable, c.Arm, c.Self) > 0) || len(j.Inputs) < 4 {
		t.Fatalf("clearance %+v, %d inputs", c, len(j.Inputs))
	}
	if !labels[j.Home] || len(j.Seams) == 0 || j.Arm.Robot == nil {
		t.Fatalf("home %q, %d seams", j.Home, len(j.Seams))
	}
	for _, s := range j.Seams {
		for _, p := range append(append(s.Points, s.Base.Points...), s.Other.Points...) {
			if !labels[p] {
				t.Fatalf("seam %q uses %q", s.Name, p)
			}
		}
		if !ids[s.Settings] || s.Weld.Kind == "" || s.Path == "" || s.Joint == 0 || s.Base.Kind == job.PlateUnstated {
			t.Fatalf("seam %+v", s)
		}
	}
}

func FuzzDocument(f *testing.F) {
	for _, name := range []string{"testdata/small/job.yaml", "testdata/good/job.yaml"} {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	for _, text := range []string{"", "a", "a: b", "- a", "a: [", "? a", "&a", "*a", "!a", "<<: {}", "---\n---", "%YAML 1.2\n---\n", "a: |\n b\n", "\ta", "a:\n  - b\n c", "seams:\n  - {}\n", "\"\\u0000\": 1", "{a: b}: c", "'", "0x: .inf", "points: {rows: [{label: a}]}"} {
		f.Add(text)
	}
	m := small(f)
	for _, words := range []string{
		`symbol: 'AWS: 5 fillet, both sides, 60-150, staggered, tail "GMAW/2F/WPS-1"'` + "\n    side: arrow",
		`symbol: "V s8 both sides, root 2, angle 60"` + "\n    side: other\n    thickness: {base: 20 mm}",
		`symbol: "a5 both sides, 3 x 40 (60), staggered"` + "\n    side: both\n    mirror: {name: W1 left, at: [0 mm, 0 mm, 0 mm], normal: [0, 1, 0]}",
	} {
		f.Add(strings.Replace(m["job.yaml"], "weld: {leg: 5 mm}", words, 1))
		f.Add(strings.NewReplacer("weld: {leg: 5 mm}", words, "joint: tee", "joint: butt", "    upright: left\n", "").Replace(m["job.yaml"]))
	}
	if data, err := os.ReadFile("testdata/good/procedure.yaml"); err == nil {
		m["procedure.yaml"] = string(data)
	}
	f.Add(strings.Replace(m["job.yaml"], "home: home", `shapes:
  - {name: a, is: part, mesh: {file: a.obj, unit: in}, measured_in: world, pose: {at: [1 m, 2 ft, 3 in], orientation: fixed x-y-z degrees, turn: [10, 20, 30]}}
  - {name: b, clamp: {foot: [60 mm, 40 mm, 90 mm], bar: 25 mm, reach: 120 mm, tip: {diameter: 20 mm, length: 60 mm}}, measured_in: base, at: [1 m, 0 mm, 0 mm]}
  - {name: c, table: {length: 1 m, width: 1 m, thickness: 30 mm, legs: {side: 80 mm, height: 700 mm}}, measured_in: world}
  - {name: d, floor: {height: -50 mm}}
clearance: {nozzle: 2 mm, ignore: [[a, neck], [arm, d]], keep: [[l1, l3]]}
home: home`, 1))
	f.Fuzz(func(t *testing.T, text string) {
		files := memory{"a.obj": "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "job.yaml": text, "taught.csv": m["taught.csv"], "settings.yaml": m["settings.yaml"], "arm.urdf": m["arm.urdf"], "procedure.yaml": m["procedure.yaml"]}
		check(t, files)
	})
}

// FuzzDocumentOnTable is FuzzDocument with an arm beside a turning table.
func FuzzDocumentOnTable(f *testing.F) {
	m := onTable(f)
	f.Add(m["job.yaml"])
	f.Add(strings.Replace(m["job.yaml"], "part_link: top}", "part_link: top, zeros: [1 deg, 0 deg, 0 deg, 0 deg, 0 deg, 0 deg, 0 deg, 0 deg], signs: [1, -1, 1, 1, 1, 1, 1, 1], cable_turn: 200 deg}", 1))
	f.Add(strings.Replace(m["job.yaml"], "part_link: top", "part_link: l3", 1))
	f.Add(strings.Replace(m["job.yaml"], "  table: [0 deg, 0 deg]\n", "", 1))
	f.Fuzz(func(t *testing.T, text string) {
		check(t, memory{"job.yaml": text, "taught.csv": m["taught.csv"], "settings.yaml": m["settings.yaml"], "arm.urdf": m["arm.urdf"]})
	})
}

func FuzzTable(f *testing.F) {
	for _, name := range []string{"testdata/small/taught.csv", "testdata/good/taught.csv"} {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	for _, text := range []string{"", "label", "label,x", "\"", "a;b", "label,j1\nW1 start,1\n", "#\n", "x,y,z,r1,r2,r3\n1,2,3,4,5,6\n", "label,x,y,z,r1,r2,r3\na,1e999,2,3,4,5,6\n", "label,label\n,\n", "label,x,y,z,t1\na,1,2,3,4\n"} {
		f.Add(text)
	}
	m := small(f)
	f.Fuzz(func(t *testing.T, text string) {
		check(t, memory{"job.yaml": m["job.yaml"], "taught.csv": text, "settings.yaml": m["settings.yaml"], "arm.urdf": m["arm.urdf"]})
	})
}

// FuzzProcedure reads anything as a welding procedure: an error in words, or limits
// that hold.
func FuzzProcedure(f *testing.F) {
	data, err := os.ReadFile("testdata/good/procedure.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(data))
	for _, text := range []string{
		"id: P\ncode: iso\nruns:\n  - {passes: root}\n  - {passes: [fill, cap], arc_energy: {to: 1 kJ/mm}}\n",
		"id: P\ncode: iso\nruns:\n  - {passes: 1}\n  - {passes: {from: 2, to: 4}, current: {from: 100 A}}\n  - {passes: {from: 5}}\n",
		"id: P\ncode: iso\nqualified_by: {record: R, process: 135, tests: [impact, hardness], level: 1, position: PF, progression: uphill, preheat: 20 degC}\n",
		"id: P\ncode: iso\nranges: {preheat: {from: 20 degC}, interpass: {to: 250 degC}, weave_dwell: {to: 0.4 s}}\nwires: 1\npolarity: DCEP\n",
		"id: P\ncode: iso\nruns: [{passes: {from: 200, to: 1}}, {passes: -1}, {passes: 99999999999999999999}]\n",
	} {
		f.Add(text)
	}
	base := small(f)
	base["job.yaml"] += "procedure: {file: procedure.yaml}\n"
	f.Fuzz(func(t *testing.T, text string) {
		m := memory{"procedure.yaml": text}
		for name, own := range base {
			m[name] = own
		}
		j, err := job.Decode("job.yaml", m)
		if err != nil {
			var ps *job.Problems
			if !errors.As(err, &ps) || len(ps.List) == 0 {
				t.Fatalf("an error without problems: %v", err)
			}
			return
		}
		w := j.ProcedureOf(&j.Seams[0])
		if w == nil || w.Validate() != nil {
			t.Fatalf("%+v does not hold", w)
		}
		if w.QualifiedBy != nil {
			permitted, err := w.QualifiedBy.Permitted()
			if err != nil {
				t.Fatalf("a record that was read permits nothing: %v", err)
			}
			if _, err := permitted.Holds(w); err != nil {
				t.Fatalf("a procedure that was read cannot be held against its record: %v", err)
			}
		}
	})
}

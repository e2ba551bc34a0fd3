package draft_test

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
	"seamwright/bench/job"
)

const head = "label,x,y,z,r1,r2,r3,j1,j2,j3,j4,j5,j6\n"

// home and two seams of the example with approach and retreat; label says what
// the points are called.
func rows(labels ...string) string {
	places := []string{
		"924.5,12.5,28.7,166.7,-48.4,15.9", "1006.5,-1.9,-57.5,164.4,-50.1,14.6", "1030.6,-206.9,-53.7,170.7,-45.9,15.6", "905.3,-189.9,70.0,158.5,-41.5,17.3",
		"611.2,10.6,21.3,-172.6,-47.8,11.3", "670.9,35.1,-53.1,-174.4,-37.1,8.6", "642.5,263.8,-53.4,-171.8,-44.1,7.2", "573.5,235.3,31.5,-162.5,-35.9,0.3",
	}
	var b strings.Builder
	b.WriteString(head)
	for i, l := range labels {
		if l == "home" {
			b.WriteString("home,,,,,,,0,-25,10,0,65,0\n")
			continue
		}
		fmt.Fprintf(&b, "%s,%s,,,,,,\n", l, places[(i-1)%len(places)])
	}
	return b.String()
}

// known are the answers about the table and the torch.
func known(more ...string) map[string]string {
	answers := torch()
	maps.Copy(answers, map[string]string{"measured_in": "base", "point": "tip", "orientation": "fixed x-y-z degrees", "length": "mm", "joints": "deg"})
	for i := 0; i+1 < len(more); i += 2 {
		answers[more[i]] = more[i+1]
	}
	return answers
}

// weld are the answers about the seams that nothing speaks for.
var weld = map[string]string{"joint": "tee", "weld": "leg 5 mm", ".joint": "tee", ".weld": "leg 5 mm", "travel": "push 10 deg"}

// seamsOf says the seams of a job in one line each.
func seamsOf(j *job.Job) string {
	var out []string
	for _, s := range j.Seams {
		out = append(out, fmt.Sprintf("%s %s %s in %s out %s", s.Name, s.Path, strings.Join(s.Points, " - "), s.Approach.Point, s.Retreat.Point))
	}
	return strings.Join(out, "\n")
}

func TestSeamsFromLabels(t *testing.T) {
	const two = "W1 line W1 start - W1 end in W1 in out W1 out\nW5 line W5 start - W5 end in W5 in out W5 out"
	for _, c := range []struct {
		name, table string
		answers     []string
		want        string
	}{
		{"words", rows("home", "W1 in", "W1 start", "W1 end", "W1 out", "W5 in", "W5 start", "W5 end", "W5 out"), nil, two},
		{"letters", rows("home", "1 in", "1 s", "1 e", "1 out", "2 in", "2s", "2e", "2 out"), nil,
			"1 line 1 s - 1 e in 1 in out 1 out\n2 line 2s - 2e in 2 in out 2 out"},
		{"a and b", rows("home", "seam 3 approach", "seam 3 a", "seam 3 b", "seam 3 retreat", "seam 4 approach", "seam 4 a", "seam 4 b", "seam 4 retreat"), nil,
			"seam 3 line seam 3 a - seam 3 b in seam 3 approach out seam 3 retreat\nseam 4 line seam 4 a - seam 4 b in seam 4 approach out seam 4 retreat"},
		{"numbers, backwards", rows("home", "over the clamp", "W1.1", "W1.2"), []string{"W1.order", "back"}, "W1 line W1.2 - W1.1 in  out "},
		{"one seam without a name", rows("home", "approach", "weld start", "weld end", "retreat"), nil, "W1 line weld start - weld end in approach out retreat"},
		{"the same labels for each seam", rows("home", "approach", "start", "end", "retreat", "approach", "start", "end", "retreat"), nil,
			"W1 line W1 start - W1 end in W1 approach out W1 retreat\nW2 line W2 start - W2 end in W2 approach out W2 retreat"},
		{"fours", rows("home", "P1", "P2", "P3", "P4", "P5", "P6", "P7", "P8"), nil, "W1 line P2 - P3 in P1 out P4\nW2 line P6 - P7 in P5 out P8"},
		{"pairs", rows("home", "P1", "P2", "P3", "P4"), []string{"seams", "pairs", "base", "up", "upright", "left"}, "W1 line P1 - P2 in  out \nW2 line P3 - P4 in  out "},
		{"typed seams", rows("home", "P1", "P2", "P3", "P4"), []string{"seams", "p2 to P3"}, "W1 line P2 - P3 in  out "},
		{"a missing end", rows("home", "W1 in", "W1 start", "P7", "W1 out"), []string{"W1.end", "P7"}, "W1 line W1 start - P7 in W1 in out W1 out"},
		{"a seam that is given up", rows("home", "W1 in", "W1 start", "W1 end", "W1 out", "W5 in", "W5 start"), []string{"W5.end", "leave out"}, "W1 line W1 start - W1 end in W1 in out W1 out"},
		{"a label twice, the last counts", rows("home", "W1 in", "W1 start", "W1 end", "W1 out", "W1 end"), []string{"repeat", "last counts", "W1.upright", "left"}, "W1 line W1 start - W1 end in W1 in out W1 out"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, err := decode(t, settle(t, input(t, c.table, known(c.answers...)), weld), nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := seamsOf(j); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

// A whole list keeps its moves; its arcs make seams where labels do not.
func TestWholeList(t *testing.T) {
	table := "label,x,y,z,r1,r2,r3,j1,j2,j3,j4,j5,j6,move,speed,arc,settings\n" +
		"P0,,,,,,,0,-25,10,0,65,0,joint,,,\n" +
		"P1,924.5,12.5,28.7,166.7,-48.4,15.9,,,,,,,joint,,,\n" +
		"P2,1006.5,-1.9,-57.5,164.4,-50.1,14.6,,,,,,,linear,60,on,11\n" +
		"P3,1030.6,-206.9,-53.7,170.7,-45.9,15.6,,,,,,,linear,8,off,\n" +
		"P4,905.3,-189.9,70.0,158.5,-41.5,17.3,,,,,,,linear,60,,\n" +
		"P0,,,,,,,0,-25,10,0,65,0,joint,,,\n"
	d := settle(t, input(t, table, known("speeds", "mm/s")), weld)
	j, err := decode(t, d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := seamsOf(j); got != "W1 line P2 - P3 in P1 out P4" || !j.Listed || j.Home != "P0" || len(j.Points) != 6 || j.Seams[0].Settings != "11" || len(j.Settings) != 1 {
		t.Errorf("seams %s, listed %v, home %q, %d points, sets %+v", got, j.Listed, j.Home, len(j.Points), j.Settings)
	}
	// As points only, the second P0 is not written again, and that is said.
	d = settle(t, input(t, table, known("speeds", "mm/s", "list", "no")), weld)
	if j, err = decode(t, d, nil); err != nil || j.Listed || len(j.Points) != 5 {
		t.Errorf("%v, %+v", err, j)
	}
	if want := `- line 7 repeats "P0" of line 2 with the same numbers and is not written again`; !strings.Contains(fileOf(t, d, draft.JobFile), want) {
		t.Errorf("%q is not in the document", want)
	}
}

// questionOf returns the open question of that name.
func questionOf(t *testing.T, in draft.Input, id string) draft.Question {
	t.Helper()
	for range 100 {
		_, open, err := draft.Make(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range open {
			if q.ID == id {
				return q
			}
		}
		if len(open) == 0 {
			t.Fatalf("%s is not asked", id)
		}
		for _, q := range open {
			value := weld[q.ID]
			if c, ok := q.Proposed(); ok {
				value = c.Value
			}
			if value == "" {
				t.Fatalf("%s is asked before %s", q.ID, id)
			}
			in.Answers[q.ID] = draft.Answer{Value: value, How: draft.Accepted}
		}
	}
	t.Fatal("questions without end")
	return draft.Question{}
}

// What the data speak for is the default, with its evidence; what they do not
// speak for has none.
func TestDefaults(t *testing.T) {
	two := rows("home", "W1 in", "W1 start", "W1 end", "W1 out", "W5 in", "W5 start", "W5 end", "W5 out")
	for _, c := range []struct{ name, table, id, value, evidence string }{
		{"home by name", strings.Replace(two, "home,,,,,,,0,-25,10,0,65,0\n", "", 1) + "rest,,,,,,,0,-25,10,0,65,0\nspare,,,,,,,0,-5,10,0,65,0\n", "home", "", ""},
		{"numbered ends", rows("home", "over", "W1.1", "W1.2"), "W1.order", "forward", `"W1.1" has the lower number or letter`},
		{"fours", rows("home", "P1", "P2", "P3", "P4"), "seams", "fours", "the wire points within 9 deg from each first point to the second, and from each fourth back to the third"},
		{"points of six", rows("home", "P1", "P2", "P3"), "seams", "", ""},
		{"flange", two, "flange_link", "flange", "behind 6 moving joints, and its name says so"},
		{"joint", two, "joint", "", ""},
		{"size", two, "weld", "", ""},
		{"level", two, "base", "level", "W1: the seam climbs 1.1 deg, the wire points 41 deg below level; W5: the seam climbs 0.1 deg, the wire points 49 deg below level"},
		{"sides", two, "upright", "as proposed", "W1: as taught the wire points 49 deg to the left of the base plate's normal; W5: as taught the wire points 41 deg to the right of the base plate's normal"},
		{"push", two, "travel", "push 10 deg", "as taught it leans push 6 deg on average of 4 poses (push 2 deg to push 9 deg)"},
		{"name", two, "name", "points", "the name of the table"},
		{"code", two, "code", "iso", "the points are in mm"},
	} {
		q := questionOf(t, input(t, c.table, known()), c.id)
		got, _ := q.Proposed()
		if got.Value != c.value || c.evidence != "" && got.Evidence != c.evidence {
			t.Errorf("%s: default %q, %q, want %q, %q", c.name, got.Value, got.Evidence, c.value, c.evidence)
		}
		if q.Text == "" || q.Explain == "" {
			t.Errorf("%s: no words: %+v", c.name, q)
		}
	}
}

// Points of a job in inches speak for AWS, and the overlap is in inches.
func TestInches(t *testing.T) {
	table := "label,x,y,z,r1,r2,r3,j1,j2,j3,j4,j5,j6\nhome,,,,,,,0,-25,10,0,65,0\n"
	for i, p := range [][2]float64{{33.70, 5.30}, {35.24, 7.22}, {33.27, 8.73}, {31.73, 6.79}} {
		table += fmt.Sprintf("W4 %s,%.2f,%.2f,-2.18,-176,-37,80,,,,,,\n", []string{"start", "quarter", "half", "three quarters"}[i], p[0], p[1])
	}
	in := input(t, table, known("length", "in"))
	if q := questionOf(t, in, "W4.end"); q.Choices[q.Default].Value != "all round" {
		t.Errorf("default %+v", q)
	}
	in = input(t, table, known("length", "in"))
	d := settle(t, in, map[string]string{"W4.upright": "tube outside", "W4.joint": "tee", "W4.weld": "leg 3/16 in", "travel": "0 deg"})
	text := fileOf(t, d, draft.JobFile)
	for _, want := range []string{"code: aws", "overlap: 1/2 in", "{leg: 3/16 in}", "length: in", "1.80"} {
		if want != "1.80" && !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	j, err := decode(t, d, nil)
	if err != nil || j.Seams[0].Path != job.PathCircle || j.Keying.Length != "in" {
		t.Errorf("%v, %+v", err, j)
	}
}

// Points measured from elsewhere need the places of the frames, and are then
// the same points in the arm's base.
func TestFrames(t *testing.T) {
	two := rows("home", "W1 in", "W1 start", "W1 end", "W1 out")
	in := input(t, two, known("measured_in", "part", "world_from_base", "0 mm, 0 mm, 760 mm, 0, 0, 90", "world_from_part", "0 mm, 0 mm, 760 mm, 0, 0, 90"))
	d := settle(t, in, weld)
	j, err := decode(t, d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if p := j.Points[2].Pose.P; fmt.Sprintf("%.4f %.4f %.4f", p.X, p.Y, p.Z) != "1.0065 -0.0019 -0.0575" {
		t.Errorf("W1 start at %v", p)
	}
	in = input(t, two, known("measured_in", "world"))
	if q := questionOf(t, in, "world_from_base"); q.Default != -1 || q.Free == "" {
		t.Errorf("got %+v", q)
	}
}

// Taught joint values are poses through arm and torch, and tell as much.
func TestJointRows(t *testing.T) {
	table := "label,j1,j2,j3,j4,j5,j6\nhome,0,-25,10,0,65,0\nW1 start,10,20,30,0,60,0\nW1 end,20,20,30,0,60,0\n"
	answers := torch()
	answers["joints"] = "deg"
	in := input(t, table, answers)
	d := settle(t, in, map[string]string{"W1.joint": "tee", "W1.weld": "leg 5 mm", "W1.base": "level", "W1.upright": "left", "travel": "push 10 deg"})
	if _, err := decode(t, d, nil); err != nil {
		t.Error(err)
	}
}

// Points round a rectangle are a closed polyline; nothing says so but the person,
// and no circle is proposed.
func TestPolyline(t *testing.T) {
	table := head + "home,,,,,,,0,-25,10,0,65,0\n"
	for i, p := range [][2]int{{800, -100}, {1000, -100}, {1000, 100}, {800, 100}} {
		table += fmt.Sprintf("W1 %s,%d,%d,-55,180,0,0,,,,,,\n", []string{"start", "via 1", "via 2", "via 3"}[i], p[0], p[1])
	}
	more := map[string]string{"W1.end": "all round", "W1.path": "polyline", "W1.upright": "left", "W1.joint": "tee", "W1.weld": "leg 5 mm", "travel": "0 deg"}
	d := settle(t, input(t, table, known()), more)
	j, err := decode(t, d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if s := j.Seams[0]; s.Path != job.PathPolyline || !s.Closed || len(s.Points) != 4 || s.Overlap != 0.012 {
		t.Errorf("%v, closed %v, %q, overlap %v", s.Path, s.Closed, s.Points, s.Overlap)
	}
	if q := questionOf(t, input(t, table, known("W1.end", "all round")), "W1.path"); q.Choices[0].Value != "circle" || q.Default != -1 {
		t.Errorf("%+v", q)
	} else if want := `the way from point to point turns by 90 deg at most, at "W1 via 3"`; q.Choices[1].Evidence != want {
		t.Errorf("evidence %q", q.Choices[1].Evidence)
	}
	// Open, the same points are a polyline as well.
	delete(more, "W1.end")
	d = settle(t, input(t, strings.Replace(table, "via 3", "end", 1), known()), more)
	if j, err = decode(t, d, nil); err != nil || j.Seams[0].Closed || j.Seams[0].Path != job.PathPolyline {
		t.Errorf("%v, %v", err, j.Seams[0].Path)
	}
}

// A job that is followed gives its arm, torch, cell and air moves as they are
// written there, the arm's file named anew.
func TestLike(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "examples", "keel-cradle", "job.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	old, err := job.Decode("job.yaml", example{})
	if err != nil {
		t.Fatal(err)
	}
	answers := map[string]string{"measured_in": "part", "point": "tip", "orientation": "fixed x-y-z degrees", "length": "mm", "joints": "deg"}
	in := input(t, rows("home", "W1 in", "W1 start", "W1 end", "W1 out"), answers)
	in.Like = &draft.Like{Name: "../keel/job.yaml", Job: old, Text: text}
	in.Arm = &draft.Arm{File: "arm.urdf", Robot: old.Arm.Robot}
	d := settle(t, in, map[string]string{"W1.joint": "tee", "W1.weld": "leg 5 mm", "W1.base": "direction 0 0 1", "W1.upright": "left", "travel": "0 deg"})
	j, err := decode(t, d, nil)
	if err != nil {
		t.Fatalf("%v\n%s", err, fileOf(t, d, draft.JobFile))
	}
	same := j.Torch
	same.At = old.Torch.At
	for i := range min(len(same.Cable), len(old.Torch.Cable)) {
		same.Cable[i].At = old.Torch.Cable[i].At
	}
	if !reflect.DeepEqual(same, old.Torch) || j.Cell.WorldFromBase != old.Cell.WorldFromBase || j.Cell.WorldFromPart != old.Cell.WorldFromPart || j.Code != old.Code {
		t.Errorf("torch %+v, cell %+v", j.Torch, j.Cell)
	}
	for _, want := range []string{"# arm: as in ../keel/job.yaml.\narm:\n  urdf: arm.urdf\n", "# The floor falls to the slip: a level on the cart's plate reads 0.6 deg."} {
		if !strings.Contains(fileOf(t, d, draft.JobFile), want) {
			t.Errorf("%q is not in\n%s", want, fileOf(t, d, draft.JobFile))
		}
	}
}

// Settings sets and a procedure that were given are named, and no template is
// written.
func TestGivenFiles(t *testing.T) {
	sets := memory{"shop/sets.yaml": "sets:\n  - {id: 011, process: 135, transfer: spray, wire: 1.0 mm, feed: 9 m/min}\n  - {id: 12, process: 135, transfer: spray, wire: 1.0 mm, feed: 9 m/min}\n",
		"wps.yaml": "id: P7\ncode: iso\n"}
	s, err := draft.ReadSettings("shop/sets.yaml", sets)
	if err != nil || strings.Join(s.IDs, "|") != "011|12" {
		t.Fatalf("%+v, %v", s, err)
	}
	sets["aws.yaml"], sets["aws-bad.yaml"] = "id: P8\ncode: aws\n", "id: P8\ncode: aws\npositions: [PA]\n"
	if err := draft.CheckProcedure("aws.yaml", sets); err != nil {
		t.Error(err)
	}
	if err := draft.CheckProcedure("aws-bad.yaml", sets); err == nil || strings.Count(err.Error(), "\n") != 0 || !strings.Contains(err.Error(), "positions[0]") {
		t.Errorf("an AWS procedure with one fault: %v", err)
	}
	if err := draft.CheckProcedure("wps.yaml", sets); err != nil {
		t.Fatal(err)
	}
	in := input(t, rows("home", "W1 in", "W1 start", "W1 end", "W1 out"), known("W1.settings", "011"))
	in.Settings, in.Procedure = s, "wps.yaml"
	d := settle(t, in, weld)
	if len(d.Files) != 2 {
		t.Errorf("%d files", len(d.Files))
	}
	j, err := decode(t, d, sets)
	if err != nil || j.Seams[0].Settings != "011" || j.Procedures[0].Common.ID != "P7" {
		t.Errorf("%v, %+v", err, j)
	}
}

// Templates are marked as such: by the names of their sets and by the id of the
// procedure, which bench/plan knows. Filled in, they can be read as they are.
func TestTemplates(t *testing.T) {
	d := settle(t, input(t, rows("home", "W1 in", "W1 start", "W1 end", "W1 out"), known()), weld)
	text := fileOf(t, d, draft.JobFile)
	d.Files[0].Data = []byte(strings.Replace(text, "# procedure: {file: procedure.yaml}", "procedure: {file: procedure.yaml}", 1))
	before, after, _ := strings.Cut(fileOf(t, d, draft.ProcedureFile), "code: iso\n")
	d.Files[3].Data = []byte(before + "code: iso\n" + strings.ReplaceAll("\n"+after, "\n# ", "\n"))
	j, err := decode(t, d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if s := j.Settings[0]; s.Name != "fill in" || s.ID != "fill in" || j.Seams[0].Settings != s.ID || j.Procedures[0].Common.ID != "fill in" || !j.Procedures[0].Common.Current.Stated() {
		t.Errorf("%+v, %+v", s, j.Procedures)
	}
}

// Slips and rows that were left out stand at the head of the document, and the
// points are as they were given.
func TestSlipsAreKept(t *testing.T) {
	table := strings.Replace(rows("home", "W1 in", "W1 start", "W1 end", "W1 out", "W5 in", "W5 start", "W5 end", "W5 out"), "642.5,263.8", "642.5,-263.8", 1)
	in := input(t, table, known("broken_rows", "leave out"))
	in.Missing = []intake.Problem{{Line: 12, Found: "a position with 2 numbers", Mend: "write x, y and z"}}
	d := settle(t, in, weld)
	text := strings.ReplaceAll(fileOf(t, d, draft.JobFile), "\n#", "")
	for _, want := range []string{`line 9: "W5 out" lies 511 mm from "W5 end", far more than the others of their kind; the other sign of y at "W5 end" would`, "line 12 has a position with 2 numbers; write x, y and z"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if !strings.Contains(fileOf(t, d, draft.PointsFile), "W5 end,642.5,-263.8") {
		t.Error("the point was changed")
	}
}

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const (
	heads    = "label,x,y,z,r1,r2,r3\n"
	goodRows = "home,700,0,300,180,0,0\nW1 start,1006.5,-1.9,-57.5,164.4,-50.1,14.6\nW1 end,1030.6,-206.9,-53.7,170.7,-45.9,15.6\n"
)

// stated are answers about a table of poses.
var stated = []string{"measured_in=base", "point=tip", "orientation=fixed x-y-z degrees", "length=mm", "joint_rows=poses"}

// brokenNew is a call of new or points that must be refused with one message.
type brokenNew struct {
	name, table string
	args        []string
	want        string
}

func answers(list ...string) []string {
	var out []string
	for _, a := range list {
		out = append(out, "--answer", a)
	}
	return out
}

// brokenTables are tables that no job can be made of.
var brokenTables = []brokenNew{
	{"an empty table", "", nil, "the table is empty: paste or hand over at least one row with a position or joint values"},
	{"blank lines", "\n \t\n\n", nil, "the table is empty: paste or hand over at least one row with a position or joint values"},
	{"words alone", "these are the points\nof the frame\n", nil, "no line has 3 numbers with the same sign between them: one row a point is needed, with tabs, semicolons, commas or blanks between the values"},
	{"two numbers in a row", "1,2\n3,4\n", nil, "no line has 3 numbers with the same sign between them: one row a point is needed, with tabs, semicolons, commas or blanks between the values"},
	{"a picture", "\x89PNG\x00\x01\x00", nil, "the table has zero bytes: it is not text; save it as CSV or plain text and hand over that file"},
	{"half a character", "\xff\xfe1", nil, "the UTF-16 text ends in the middle of a character: copy or save the table again"},
	{"too many columns", strings.Repeat("1;", 70) + "\n", nil, "line 1 has more than 64 fields: hand over the columns of the points alone"},
	{"heads alone", heads, nil, "no line has 3 numbers with the same sign between them: one row a point is needed, with tabs, semicolons, commas or blanks between the values"},
	{"an answer that does not fit the table", heads + goodRows, answers("measured_in=table"), `the answer "table" to "measured_in" does not fit the table: allowed are "base", "world" or "part"`},
	{"a convention of four numbers for three", heads + goodRows, answers("measured_in=base", "length=mm", "point=tip", "orientation=quaternion w first"), `the answer to "orientation": quaternion w first takes 4 numbers, the table has 3`},
	{"an unknown convention", heads + goodRows, answers("measured_in=base", "length=mm", "point=tip", "orientation=roll first"), `the answer to "orientation": "roll first" is not an orientation convention: allowed are "fixed" or "moving" with an order of turns (x-y-z, x-z-y, y-x-z, y-z-x, z-x-y, z-y-x, x-y-x, x-z-x, y-x-y, y-z-y, z-x-z, z-y-z) and "degrees" or "radians", as in "fixed x-y-z degrees"; "quaternion w first", "quaternion w last"; "rotation vector", "axis and angle" or "tool direction and spin" with "degrees" or "radians"; "matrix by rows", "matrix by columns"`},
	{"no row that is a point", heads + "home,700,0\nW1 start,1006.5,-1.9\n1,2,3\n", append(answers(stated...), "--yes"), "no row of the table is a point\n  line 2 has a position with 2 numbers; write x, y and z\n  line 3 has a position with 2 numbers; write x, y and z\n  line 4 has a position with 2 numbers; write x, y and z"},
	{"rows that cannot be taken", heads + goodRows + "W2 start,1,2\n", append(jobFlags(), "--answer", "broken_rows=mend"), "rows of the table have to be mended first:\n  line 5 has a position with 2 numbers; write x, y and z"},
	{"rows that nobody decided on", heads + goodRows + "W2 start,1,2\n", jobFlags(), "1 question is open, and there is no default; answer it with a flag:\n\n  1 row cannot be taken: line 5 has a position with 2 numbers; write x, y and z. What of them?\n    --answer 'broken_rows=leave out'\n        leave them out: they stay in original and are named at the head of the document\n    --answer broken_rows=mend\n        stop here and mend them in the table"},
	{"no home", heads + "W1 start,1006.5,-1.9,-57.5,164.4,-50.1,14.6\nW1 end,1030.6,-206.9,-53.7,170.7,-45.9,15.6\n", append(answers(stated...), "--yes"), "no point can be the home, where the run begins and ends: add a row called home with joint values, or with a whole pose, well clear of the part"},
	{"a home that is a place", "label,x,y,z\nhome,1,2,3\nW1 start,1006.5,-1.9,-57.5\nW1 end,1030.6,-206.9,-53.7\n", append(answers("measured_in=base", "point=tip", "length=mm"), "--yes"), "no point can be the home, where the run begins and ends: add a row called home with joint values, or with a whole pose, well clear of the part"},
	{"a seam without length", heads + strings.Replace(goodRows, "W1 end,1030.6,-206.9,-53.7", "W1 end,1006.5,-1.9,-57.5", 1), append(answers(stated...), "--answer", "torch=pose", "--answer", "torch.flange_from_tip=72 mm, 0 mm, 335 mm, 0, 35, 0", "--answer", "torch.nozzle=20 mm", "--answer", "torch.tip_recess=2 mm", "--answer", "torch.stick_out=14 mm", "--arm", "ARM", "--yes"),
		`W1 from "W1 start" to "W1 end" has no length: teach the end again, or correct its row`},
	{"joint rows of another arm", "label,j1,j2,j3,j4,j5\nhome,0,1,2,3,4\nW1 start,5,4,3,2,1\nW1 end,6,4,3,2,1\n", append(answers("joints=deg"), "--yes", "--arm", "ARM"), "no row of the table is a point\n  line 2 has 5 joint values; write 6, one for each joint of the arm\n  line 3 has 5 joint values; write 6, one for each joint of the arm\n  line 4 has 5 joint values; write 6, one for each joint of the arm"},
	{"seams that are no points", heads + strings.ReplaceAll(goodRows, "W1 ", "P"), append(answers(stated...), "--answer", "seams=P1 to P2", "--answer", "home=home", "--yes"), `the answer "P1 to P2" to "seams": "P1" is no point; write labels of the table, such as home to Pend`},
	{"a seam of one point", heads + strings.ReplaceAll(goodRows, "W1 ", "P"), append(answers(stated...), "--answer", "seams=Pstart", "--answer", "home=home", "--yes"), `the answer "Pstart" to "seams": "Pstart" is one point; a seam has a start and an end, such as home to Pend`},
	{"every seam left out", heads + "home,700,0,300,180,0,0\nW1 start,1006.5,-1.9,-57.5,164.4,-50.1,14.6\n", append(answers(stated...), "--answer", "W1.end=leave out", "--yes"), `no seam has a start and an end: name the points, such as "W1 start" and "W1 end", or answer the question "seams"`},
	{"an end that is no point", heads + "home,700,0,300,180,0,0\nW1 start,1006.5,-1.9,-57.5,164.4,-50.1,14.6\nP2,1030.6,-206.9,-53.7,170.7,-45.9,15.6\n", append(answers(stated...), "--answer", "W1.end=P3", "--yes"), `the answer "P3" to "W1.end" does not fit: allowed are "P2" and "leave out"`},
}

// torchFlags are answers for a torch whose field is wrong.
func torchFlags(field, value string) []string {
	all := map[string]string{"torch": "measured", "torch.body": "215 mm", "torch.neck": "118 mm", "torch.neck_angle": "35 deg", "torch.nozzle": "20 mm", "torch.tip_recess": "2 mm", "torch.stick_out": "14 mm"}
	all[field] = value
	out := append(answers(stated...), "--arm", "ARM", "--yes")
	for _, id := range []string{"torch", "torch.body", "torch.neck", "torch.neck_angle", "torch.nozzle", "torch.tip_recess", "torch.stick_out"} {
		out = append(out, "--answer", id+"="+all[id])
	}
	return out
}

// jobFlags are answers for a whole job but for one.
func jobFlags(more ...string) []string {
	return append(torchFlags("torch", "measured"), answers(append([]string{"W1.joint=tee", "W1.weld=leg 5 mm", "W1.base=level", "W1.upright=left", "travel=push 10 deg"}, more...)...)...)
}

// without drops the answer to a question from flags and gives another.
func without(flags []string, answer string) []string {
	id, _, _ := strings.Cut(answer, "=")
	var out []string
	for _, f := range flags {
		if !strings.HasPrefix(f, id+"=") {
			out = append(out, f)
			continue
		}
		out = append(out, answer)
	}
	return out
}

const lengthRange = "allowed: a length in mm, cm, m, in or ft; "

// brokenAnswers are answers that no document may hold.
var brokenAnswers = []brokenNew{
	{"a torch without unit", "", torchFlags("torch.body", "215"), `the answer "215" to "torch.body": found "215" (it has no unit); ` + lengthRange + `write the unit, such as "215 mm" or "215 in"`},
	{"a torch of another quantity", "", torchFlags("torch.neck_angle", "35 mm"), `the answer "35 mm" to "torch.neck_angle": found "35 mm" (its unit mm makes it a length); allowed: an angle in deg or rad; write the unit, such as "35 deg"`},
	{"a torch of ten metres", "", torchFlags("torch.body", "10 m"), `the answer "10 m" to "torch.body": found "10 m"; allowed: 0 mm to 2000 mm; check the number and its unit`},
	{"a torch that is no way to know it", "", torchFlags("torch", "guessed"), `the answer "guessed" to "torch" does not fit: allowed are "measured" and "pose"`},
	{"a stick-out that the recess eats", "", without(torchFlags("torch.stick_out", "14 mm"), "torch.tip_recess=-20 mm"), `the answer "14 mm" to "torch.stick_out": found "-20 mm", which leaves no distance from contact tip to wire end; allowed: recess and stick-out together over 0 mm; check the sign: a tip inside the nozzle is positive`},
	{"an unknown joint", "", without(jobFlags(), "W1.joint=T"), `the answer "T" to "W1.joint" does not fit: allowed are "tee", "lap", "inside corner", "outside corner", "butt" and "edge"`},
	{"a size without measure", "", without(jobFlags(), "W1.weld=5 mm"), `the answer "5 mm" to "W1.weld": say which measure it is: leg 5 mm, throat 3.5 mm, legs 6 mm and 9 mm, or area 22 mm2`},
	{"a size without unit", "", without(jobFlags(), "W1.weld=leg 5"), `the answer "leg 5" to "W1.weld": found "5" (it has no unit); ` + lengthRange + `write the unit, such as "5 mm" or "5 in"`},
	{"a leg of half a metre", "", without(jobFlags(), "W1.weld=leg 500 mm"), `the answer "leg 500 mm" to "W1.weld": found "500 mm"; allowed: 1 mm to 50 mm; check the number and its unit`},
	{"a leg for a butt joint", "", without(without(jobFlags(), "W1.joint=butt"), "W1.weld=leg 5 mm"), `the answer "leg 5 mm" to "W1.weld": found leg; allowed: groove or area for a butt joint; give the groove, for example {groove: {prep: single V, gap: 3 mm, root_face: 1.5 mm, angle: 60 deg}}, or the area of one pass, for example {area: 22 mm2}`},
	{"a base plate of no kind", "", without(jobFlags(), "W1.base=flat"), `the answer "flat" to "W1.base": a direction has three numbers, such as direction 0 0 1`},
	{"a direction without length", "", without(jobFlags(), "W1.base=direction 0 0 0"), `the answer "direction 0 0 0" to "W1.base": found a direction without length; allowed: three numbers that are not all 0; write the direction in which the plate's face looks, such as [0, 0, 1]`},
	{"an upright in the air", "", without(jobFlags(), "W1.upright=above"), `the answer "above" to "W1.upright": write left or right, alone or with the angle between the plates, such as left 70 deg`},
	{"an upright without a unit", "", without(jobFlags(), "W1.upright=left 70"), `the answer "left 70" to "W1.upright": found "70" (it has no unit); allowed: an angle in deg or rad; write the unit, such as "70 deg"`},
	{"a lean without push or drag", "", without(jobFlags(), "travel=10 deg"), `the answer "10 deg" to "travel": found "10 deg", which does not say which way; allowed: push or drag with an angle of 0 to 60 deg, or "0 deg"; say push (wire points along the travel) or drag (it points back at the weld) and the angle, such as push 10 deg`},
	{"a lean past all sense", "", without(jobFlags(), "travel=push 80 deg"), `the answer "push 80 deg" to "travel": found "push 80 deg"; allowed: 0 deg to 60 deg; check the number and its unit`},
	{"an unknown family of standards", "", jobFlags("code=din"), `the answer "din" to "code" does not fit: allowed are "iso" and "aws"`},
	{"a seam that does not exist", "", jobFlags("W2.joint=tee"), `--answer W2.joint: "W2" is no seam; seams are W1`},
	{"an unknown link", "", jobFlags("flange_link=hand"), `the answer "hand" to "flange_link" does not fit: allowed are "link6" and "flange"`},
	{"a job with too long a name", "", jobFlags("name=" + strings.Repeat("n", 201)), `the answer "` + strings.Repeat("n", 201) + `" to "name": found a text of 201 characters; allowed: text on one line, 1 to 200 characters; shorten it`},
	{"an unknown question", "", jobFlags("colour=red"), `--answer colour=red: no question is called "colour"; questions are arm, base, base_link, broken_rows, code, columns, comment_rows, decimal, end, flange_link, home, joint, joint_acceleration, joint_rows, joints, keep, label_numbers, length, list, measured_in, name, order, orientation, overlap, path, point, procedure_file, repeat, seams, separator, settings, settings_file, speeds, start, torch, torch.body, torch.flange_from_tip, torch.neck, torch.neck_angle, torch.nozzle, torch.stick_out, torch.tip_recess, travel, turns, upright, weld, world_from_base, world_from_part, those of one seam with its name before them, such as W1.end`},
	{"an answer without a question", "", []string{"--answer", "base"}, `--answer "base": write QUESTION=ANSWER, such as measured_in=base`},
	{"two answers to one question", "", answers("point=tip", "point=flange"), `--answer point is given twice, as "tip" and "flange": keep one`},
	{"a file as an answer", "", answers("settings_file=a.yaml"), "--answer settings_file: name the file with --settings"},
}

// brokenFiles are files beside the table.
var brokenFiles = []brokenNew{
	{"a missing arm", "", []string{"--arm", "DIR/no.urdf"}, "the arm's file: open DIR/no.urdf: no such file or directory"},
	{"a broken arm", "", []string{"--arm", "DIR/broken.urdf"}, "DIR/broken.urdf:1:7: file: found broken XML: unexpected EOF; allowed: well-formed XML in UTF-8; to mend: correct the file at this place"},
	{"an arm that does not move", "", append(jobFlags(), "--arm", "DIR/stiff.urdf"), "../stiff.urdf describes no arm: none of its joints moves"},
	{"missing settings", "", []string{"--settings", "DIR/no.yaml"}, `--settings: ../no.yaml: found "../no.yaml", which cannot be opened (no such file or directory); allowed: a file that can be read, named from the document's folder; check the name and the folder`},
	{"settings without a feed", "", []string{"--settings", "DIR/sets.yaml"}, "--settings: ../sets.yaml:2:5: sets[0].feed: found nothing; allowed: a wire feed speed in m/min, in/min or mm/s; add feed: 9.0 m/min"},
	{"a procedure of another code", "", []string{"--procedure", "DIR/wps.yaml"}, "--procedure: ../wps.yaml:2:7: code: found \"din\"; allowed: iso or aws; write one of these words"},
	{"a job to follow that is none", "", []string{"--like", "DIR/no.yaml"}, `--like: DIR/no.yaml: found "no.yaml", which cannot be opened (no such file or directory); allowed: a file that can be read, named from the document's folder; check the name and the folder`},
	{"a table that is missing", "(none)", nil, "open DIR/points.csv: no such file or directory"},
}

func TestBrokenNew(t *testing.T) {
	all := append(append(append([]brokenNew{}, brokenTables...), brokenAnswers...), brokenFiles...)
	if len(all) < 40 {
		t.Errorf("%d rows, at least 40 wanted", len(all))
	}
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			table := filepath.Join(dir, "points.csv")
			text := c.table
			if text == "" && c.args != nil {
				text = heads + goodRows
			}
			if text != "(none)" {
				lay(t, table, text)
			}
			lay(t, filepath.Join(dir, "broken.urdf"), "<robot")
			lay(t, filepath.Join(dir, "stiff.urdf"), `<robot name="s"><link name="a"/></robot>`)
			lay(t, filepath.Join(dir, "sets.yaml"), "sets:\n  - {id: 1, process: 135, transfer: spray, wire: 1.0 mm}\n")
			lay(t, filepath.Join(dir, "wps.yaml"), "id: a\ncode: din\n")
			args := []string{"new", table, "-o", filepath.Join(dir, "job")}
			for _, a := range c.args {
				args = append(args, strings.NewReplacer("DIR", dir, "ARM", kittiwake()).Replace(a))
			}
			a := call(args...)
			got := strings.ReplaceAll(strings.TrimSuffix(strings.TrimPrefix(a.errors, "seamwright: "), "\n"), dir, "DIR")
			if a.code != exitUnusable || a.out != "" {
				t.Errorf("exit code %d, %q", a.code, a.out)
			}
			if got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
			if _, err := os.Stat(filepath.Join(dir, "job")); err == nil {
				t.Error("a folder was written")
			}
		})
	}
}

// Folders that are not a job's to take are refused before anything is asked.
func TestNewFolders(t *testing.T) {
	dir := t.TempDir()
	table := filepath.Join(dir, "points.csv")
	lay(t, table, heads+goodRows)
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{table}, "say where the job goes: -o DIR, an empty or a new folder"},
		{[]string{table, "-o", dir}, dir + " holds files already (points.csv), and nothing is overwritten; name an empty or a new folder"},
		{[]string{table, "-o", table}, table + " is a file; name an empty or a new folder"},
		{[]string{table, "-o", "."}, ""},
		{[]string{"-o", dir}, "name one table of points, such as points.csv, or - for standard input; found 0 names"},
		{[]string{table, table, "-o", dir}, "name one table of points, such as points.csv, or - for standard input; found 2 names"},
		{[]string{table, "-o", dir, "--fast"}, "unknown flag: --fast"},
	} {
		a := typing([]string{"1", "1", "1"}, append([]string{"new"}, c.args...)...)
		if c.want == "" {
			here, _ := os.Getwd()
			c.want = here + " is the folder you stand in; name an empty or a new folder"
		}
		if want := fmt.Sprintf("seamwright: %s\n", c.want); a.code != exitUnusable || a.errors != want {
			t.Errorf("%q: got %d, %q, want %q", c.args, a.code, a.errors, want)
		}
	}
}

package draft_test

import (
	"fmt"
	"strings"
	"testing"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
	"seamwright/bench/job"
)

// answerTo picks an answer: the default, a choice by the byte given, or a value
// that fits a question without choices.
func answerTo(q draft.Question, pick byte) string {
	if c, ok := q.Proposed(); ok && pick%4 != 0 {
		return c.Value
	}
	if len(q.Choices) > 0 {
		return q.Choices[int(pick)%len(q.Choices)].Value
	}
	id := q.ID
	if _, part, ok := cutSeam(id); ok {
		id = part
	}
	switch id {
	case "torch.nozzle", "torch.tip_recess", "torch.stick_out", "torch.body", "torch.neck":
		return "14 mm"
	case "torch.neck_angle":
		return "35 deg"
	case "torch.flange_from_tip", "world_from_base", "world_from_part":
		return "0 mm, 0 mm, 300 mm, 0, 30, 0"
	case "name":
		return "N"
	case "weld":
		if strings.HasPrefix(q.Free, "the area") {
			return "area 22 mm2"
		}
		return "leg 5 mm"
	}
	return ""
}

// smallArm is an invented arm of six joints without shapes, quick to read.
func smallArm() string {
	var b strings.Builder
	b.WriteString(`<robot name="small"><link name="base"/>`)
	parent := "base"
	for i, axis := range []string{"0 0 1", "0 1 0", "0 1 0", "0 0 1", "0 1 0", "0 0 1"} {
		child := fmt.Sprintf("link%d", i+1)
		if i == 5 {
			child = "flange"
		}
		fmt.Fprintf(&b, `<link name="%s"/><joint name="j%d" type="revolute"><parent link="%s"/><child link="%s"/><origin xyz="0 0 0.2"/><axis xyz="%s"/><limit lower="-3" upper="3" effort="1" velocity="2"/></joint>`, child, i+1, parent, child, axis)
		parent = child
	}
	return b.String() + "</robot>"
}

// smallJob is a job to follow, so that arm and torch need no questions.
const smallJob = `seamwright: 1
name: followed
code: iso
arm:
  urdf: small.urdf
  base_link: base
  flange_link: flange
torch:
  flange_from_tip: {at: [0 mm, 0 mm, 300 mm], orientation: fixed x-y-z degrees, turn: [0, 30, 0]}
  nozzle: 20 mm
  tip_recess: 2 mm
  stick_out: 13 mm
cell:
  world_from_part: {at: [1 mm, 2 mm, 3 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 9]}
points: {measured_in: base, joints: deg, rows: [{label: a, joints: [0, 0, 0, 0, 0, 0]}, {label: b, joints: [9, 0, 0, 0, 0, 0]}]}
home: a
settings: {sets: [{id: s, process: 135, transfer: spray, wire: 1.0 mm, feed: 9 m/min}]}
seams: [{name: W1, joint: tee, line: [a, b], base: level, upright: left, weld: {leg: 5 mm}, settings: s, torch: {travel: 0 deg}}]
`

// FuzzMake makes jobs of tables with all kinds of answers: what is made must be
// read by the job document's own reader, and no table may panic or be asked
// about without end.
func FuzzMake(f *testing.F) {
	for _, table := range []string{
		rows("home", "W1 in", "W1 start", "W1 end", "W1 out", "W5 in", "W5 start", "W5 end", "W5 out"),
		rows("home", "P1", "P2", "P3", "P4"), rows("home", "1 s", "1 e", "2 a", "2 b"),
		rows("home", "approach", "start", "end", "retreat", "approach", "start", "end", "retreat"),
		"home;0;-25;10;0;65;0\nW1 start;430,2;-229,9;34,0;139,8;-9,0;36,0\nW1 end;530,2;-229,9;34,0;139,8;-9,0;36,0\n",
		"a,1,2,3,4,5,6\nb,2,3,4,5,6,7\nc,9,9,9,9,9,9\n", "label,j1,j2,j3,j4,j5,j6\nhome,0,1,2,3,4,5\nx,9,8,7,6,5,4\ny,1,8,7,6,5,4\n",
		"label,x,y,z,r1,r2,r3,move,arc,speed\nh,1,2,3,4,5,6,joint,,\na,100,2,3,180,5,6,linear,on,5\nb,300,2,3,180,5,6,linear,off,5\nh,1,2,3,4,5,6,joint,,\n",
		"home,700,0,300,180,0,0\n'W: 1 start,100,0,0,180,0,0\n'W: 1 end,200,0,0,180,0,0\n",
	} {
		f.Add([]byte(table), []byte{1})
		f.Add([]byte(table), []byte{0, 1, 2, 3, 4})
	}
	followed, err := job.Decode("job.yaml", memory{"job.yaml": smallJob, "small.urdf": smallArm()})
	if err != nil {
		f.Fatal(err)
	}
	like := &draft.Like{Name: "job.yaml", Job: followed, Text: []byte(smallJob)}
	arm := parseArm(f, smallArm())
	f.Fuzz(func(t *testing.T, data, picks []byte) {
		const most = 4000 // bytes: longer tables are intake's own target
		if len(data) > most {
			return
		}
		if len(picks) == 0 {
			picks = []byte{1}
		}
		n := 0
		next := func() byte { n++; return picks[n%len(picks)] }
		answers := draft.Answers{}
		var table intake.Table
		for range 100 {
			read, open, err := intake.Read(data, intake.Known{Reach: 1.7, Slides: draft.Slides(arm.Robot), Answers: answers.Plain()})
			if err != nil {
				return
			}
			if table = read; len(open) == 0 {
				break
			}
			answers[open[0].ID] = draft.Answer{Value: answerTo(draft.FromTable(open[0]), next())}
		}
		if table.Open > 0 {
			return
		}
		points, problems := intake.Apply(table)
		in := draft.Input{Source: "t.csv", Table: table, Points: points, Missing: problems, Slips: intake.Suspicions(points, table.Stated), Arm: arm, Like: like, Answers: answers}
		for range 300 {
			d, open, err := draft.Make(in)
			if err != nil {
				return
			}
			if len(open) == 0 {
				if _, err := decode(t, d, memory{"arm.urdf": smallArm()}); err != nil {
					t.Fatalf("%v\n%s\n%s", err, d.Files[0].Data, d.Files[1].Data)
				}
				return
			}
			for _, q := range open {
				if q.Text == "" || q.Explain == "" || len(q.Choices) == 0 && q.Free == "" || q.Default >= len(q.Choices) {
					t.Fatalf("a question that cannot be answered: %+v", q)
				}
			}
			for _, q := range open {
				answers[q.ID] = draft.Answer{Value: answerTo(q, next())}
			}
		}
		t.Fatalf("questions without end: %q", data)
	})
}

package intake_test

import (
	"os"
	"strings"
	"testing"

	"seamwright/bench/intake"
	"seamwright/geom/se3"
)

// The approaches of the example lie back along the wires, read in the
// convention in which they were written and in no other.
func TestApproachesTellTheConvention(t *testing.T) {
	data, err := os.ReadFile("testdata/cradle.csv")
	if err != nil {
		t.Fatal(err)
	}
	known := intake.Known{Reach: 1.2, Answers: intake.Answers{"measured_in": "base", "point": "tip"}}
	_, questions, err := intake.Read(data, known)
	if err != nil || len(questions) != 1 || questions[0].ID != "orientation" {
		t.Fatalf("got %v, %+v", err, questions)
	}
	q := questions[0]
	if q.Default < 0 || q.Choices[q.Default].Value != "fixed x-y-z degrees" {
		t.Errorf("default %d of %+v", q.Default, q.Choices)
	}
	if !strings.HasSuffix(q.Choices[0].Evidence, "; it would point 6 deg off the way from approach to weld, the middle of 9") {
		t.Errorf("evidence %q", q.Choices[0].Evidence)
	}
	// Written in another convention, that one is the default.
	fixed, _ := se3.ParseConvention("fixed x-y-z degrees")
	vector, _ := se3.ParseConvention("rotation vector radians")
	known.Answers["orientation"] = "fixed x-y-z degrees"
	table, _, err := intake.Read(data, known)
	if err != nil {
		t.Fatal(err)
	}
	points, _ := intake.Apply(table)
	for i := range points {
		if !points[i].HasTurn {
			continue
		}
		r, err := fixed.Decode(points[i].Turn)
		if err != nil {
			t.Fatal(err)
		}
		points[i].Turn = make([]float64, 3)
		vector.Encode(r, points[i].Turn)
	}
	delete(known.Answers, "orientation")
	known.Answers["turns"] = "rad"
	_, questions, err = intake.Read(intake.Canonical(points, table.Stated), known)
	if err != nil || len(questions) != 1 {
		t.Fatalf("got %v, %+v", err, questions)
	}
	if q := questions[0]; q.Default < 0 || q.Choices[q.Default].Value != "rotation vector radians" {
		t.Errorf("default %d of %+v", q.Default, q.Choices)
	}
}

package se3_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Second opinion: scipy.spatial.transform.Rotation, a general library, as the
// Debian package python3-scipy. The check fails where that is missing: a check
// that did not run has not passed.
const python = "/usr/bin/python3"

type opinion struct {
	Quaternion []float64            `json:"quaternion"` // x, y, z, w
	Vector     []float64            `json:"vector"`     // rad
	Angles     map[string][]float64 `json:"angles"`     // deg
}

func askScipy(t *testing.T, orders []string, rots []se3.Rot) []opinion {
	t.Helper()
	question, err := json.Marshal(map[string]any{"orders": orders, "matrices": rots})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/turns_scipy.py")
	cmd.Stdin = bytes.NewReader(question)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("the second opinion on orientations could not be had: %v\n%s\nInstall the Debian package python3-scipy (apt-get install python3-scipy) so that %s can import scipy.",
			err, complaint.String(), python)
	}
	var answers []opinion
	if err := json.Unmarshal(out, &answers); err != nil || len(answers) != len(rots) {
		t.Fatalf("scipy gave %d answers to %d rotations: %v", len(answers), len(rots), err)
	}
	return answers
}

// scipyOrder spells our words as scipy does: capitals for moving axes.
func scipyOrder(c se3.Convention) (order string, ok bool) {
	w := strings.Fields(c.String())
	if len(w) != 3 || w[2] != "degrees" || w[0] != "fixed" && w[0] != "moving" {
		return "", false
	}
	order = strings.ReplaceAll(w[1], "-", "")
	if w[0] == "moving" {
		order = strings.ToUpper(order)
	}
	return order, true
}

func randomRot(rng *rand.Rand) se3.Rot {
	axis := r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}.Unit()
	return se3.RotAxis(axis, rng.Float64()*math.Pi)
}

// wrapped returns the difference of two angles in degrees, a full turn aside.
func wrapped(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 360)) }

func TestScipyAgrees(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	var rots []se3.Rot
	for range 200 {
		rots = append(rots, randomRot(rng))
	}
	for _, p := range table() {
		rots = append(rots, p.rot)
	}
	turns := map[string]se3.Convention{}
	var orders []string
	for _, c := range se3.Conventions() {
		if order, ok := scipyOrder(c); ok {
			turns[order] = c
			orders = append(orders, order)
		}
	}
	if len(orders) != 24 {
		t.Fatalf("%d orders of turns in degrees, want 24", len(orders))
	}
	for n, answer := range askScipy(t, orders, rots) {
		r := rots[n]
		for _, order := range orders {
			compareTurns(t, turns[order], r, answer.Angles[order])
		}
		if a := decode(t, "quaternion w last", answer.Quaternion).AngleTo(r); !(a <= 1e-9) {
			t.Errorf("rotation %d: scipy's quaternion %v decodes %.2g rad away", n, answer.Quaternion, a)
		}
		if a := decode(t, "rotation vector radians", answer.Vector).AngleTo(r); !(a <= 1e-9) {
			t.Errorf("rotation %d: scipy's rotation vector %v decodes %.2g rad away", n, answer.Vector, a)
		}
	}
}

// compareTurns wants scipy's angles to decode to r, and ours to be the same
// numbers wherever they are unique.
func compareTurns(t *testing.T, c se3.Convention, r se3.Rot, theirs []float64) {
	t.Helper()
	back, err := c.Decode(theirs)
	if err != nil {
		t.Fatalf("%v: scipy's %v: %v", c, theirs, err)
	}
	var ours [3]float64
	_, lock := c.Encode(r, ours[:])
	allowed := 1e-9
	if lock.Magnify > 1e6 {
		allowed = 1e-6 // scipy counts a wider band, 1e-7 rad, as locked
	}
	if a := back.AngleTo(r); a > allowed {
		t.Errorf("%v: scipy's %v decode %.2g rad away", c, theirs, a)
	}
	if lock.Locked() {
		return
	}
	for i := range ours {
		if wrapped(ours[i], theirs[i]) > 1e-9*lock.Magnify {
			t.Errorf("%v: ours %v, scipy's %v", c, ours, theirs)
			return
		}
	}
}

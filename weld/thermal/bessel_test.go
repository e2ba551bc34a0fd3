package thermal_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os/exec"
	"testing"

	"seamwright/weld/thermal"
)

// TestBesselTable: K0 of published tables. V092 and its neighbours in the
// reference page to six digits; e^x K0(x) to ten, M. Abramowitz, I. A. Stegun,
// Handbook of Mathematical Functions, Table 9.8. All MEMORY; SciPy confirms them
// below.
func TestBesselTable(t *testing.T) {
	for _, row := range []struct {
		name           string
		x, scaled, tol float64 // dimensionless; tol relative
	}{
		{"K0(0.1)", 0.1, 2.42707 * math.Exp(0.1), 2e-6},
		{"V092 K0(1)", 1, 0.421024 * math.E, 2e-6},
		{"K0(2)", 2, 0.113894 * math.Exp(2), 2e-6},
		{"e^0.1 K0(0.1)", 0.1, 2.6823261023, 1e-10},
		{"e K0(1)", 1, 1.1444630797, 2e-9},
		{"e^5 K0(5)", 5, 0.5478075643, 1e-10},
		{"e^10 K0(10)", 10, 0.3916319344, 1e-10},
	} {
		if got := thermal.ScaledK0(row.x); !(math.Abs(got-row.scaled) <= row.tol*row.scaled) {
			t.Errorf("%s: scaled %.12g, want %.12g", row.name, got, row.scaled)
		}
	}
}

// TestBesselSciPy compares with scipy.special.kve, a general library, over every
// argument that a field can ask for. The check fails where the Debian package
// python3-scipy is missing: a check that did not run has not passed.
func TestBesselSciPy(t *testing.T) {
	const python = "/usr/bin/python3"
	var xs []float64
	for x := 1e-9; x < 1e6; x *= 1.07 {
		xs = append(xs, x)
	}
	// Both sides of every change of method.
	xs = append(xs, 2, math.Nextafter(2, 3), 31, math.Nextafter(31, 0))
	question, err := json.Marshal(xs)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/k0_scipy.py")
	cmd.Stdin = bytes.NewReader(question)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("the second opinion on K0 could not be had: %v\n%s\nInstall the Debian package python3-scipy (apt-get install python3-scipy) so that %s can import scipy.",
			err, complaint.String(), python)
	}
	var want []float64
	if err := json.Unmarshal(out, &want); err != nil || len(want) != len(xs) {
		t.Fatalf("scipy gave %d answers to %d arguments: %v", len(want), len(xs), err)
	}
	worst, at := 0.0, 0.0
	for i, x := range xs {
		if off := math.Abs(thermal.ScaledK0(x)/want[i] - 1); off > worst || math.IsNaN(off) {
			worst, at = off, x
		}
	}
	if !(worst <= 1e-14) {
		t.Errorf("off by %.2g of the value at %.9g", worst, at)
	}
}

func TestBesselAtZero(t *testing.T) {
	if got := thermal.ScaledK0(0); !math.IsInf(got, 1) {
		t.Errorf("K0(0) = %g, want infinity", got)
	}
}

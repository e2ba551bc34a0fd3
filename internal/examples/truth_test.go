package examples

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// readTruth reads the true poses (base from tip) of an example's taught points
// by label; see testdata/README.md.
func readTruth(t *testing.T, name string) map[string]se3.Pose {
	t.Helper()
	f, err := os.Open("testdata/" + name + "-truth.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	truth := map[string]se3.Pose{}
	for _, row := range rows[1:] {
		var v [7]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		truth[row[0]] = se3.Pose{
			P: r3.Vec{X: v[0], Y: v[1], Z: v[2]}.Scale(1e-3),
			R: se3.Quat{W: v[3], X: v[4], Y: v[5], Z: v[6]}.Rot(),
		}
	}
	return truth
}

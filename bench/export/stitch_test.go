package export_test

import (
	"encoding/json"
	"math"
	"testing"

	"seamwright/bench/export"
)

// What plan.json tells of stitches is what its seams are: those of the run are there
// by name, as long as their stretches, and stitches and seam come to the same sums.
func TestStitchesInThePlan(t *testing.T) {
	stitched := 0
	for _, c := range plannedJobs(t) {
		var doc struct {
			Seams []struct {
				Name   string
				Length float64 `json:"length_mm"`
			}
			Stitched []struct {
				Seam     string
				Count    int
				Stitch   float64 `json:"stitch_mm"`
				Welded   float64 `json:"welded_mm"`
				Of       float64 `json:"seam_mm"`
				Bare     float64 `json:"bare_mm"`
				Stitches []struct {
					Seam   string
					FromMM float64 `json:"from_mm"`
					ToMM   float64 `json:"to_mm"`
					Left   bool    `json:"in_this_run"`
				}
			}
		}
		if err := json.Unmarshal(written(t, c, export.PlanFile), &doc); err != nil {
			t.Fatal(err)
		}
		lengths := map[string]float64{}
		for _, s := range doc.Seams {
			lengths[s.Name] = s.Length
		}
		for _, s := range doc.Stitched {
			stitched++
			sum := 0.0
			for _, one := range s.Stitches {
				long, there := lengths[one.Seam]
				if !there || !one.Left || math.Abs(long-(one.ToMM-one.FromMM)) > 1e-5 || math.Abs(long-s.Stitch) > 1e-5 {
					t.Errorf("%s: %s is %.6f mm long, from %.6f to %.6f", c.name, one.Seam, long, one.FromMM, one.ToMM)
				}
				sum += long
			}
			last := s.Stitches[len(s.Stitches)-1].ToMM
			if len(s.Stitches) != s.Count || math.Abs(sum-s.Welded) > 1e-4 || math.Abs(last+s.Bare-s.Of) > 1e-4 {
				t.Errorf("%s: %s: %d stitches, %.6f mm of %.6f, the last to %.6f of %.6f", c.name, s.Seam, len(s.Stitches), sum, s.Welded, last, s.Of)
			}
		}
	}
	if stitched == 0 {
		t.Error("no job has stitches")
	}
}

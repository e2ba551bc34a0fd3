package export_test

import (
	"encoding/json"
	"math"
	"testing"

	"seamwright/bench/export"
)

// TestHeatNotKnownIsNull: what a settings set does not tell is null in
// plan.json, not a failure to write it.
func TestHeatNotKnownIsNull(t *testing.T) {
	c := variant(t, "no-heat", "leg: 5 mm", "leg: 5 mm")
	for i := range c.plan.Seams {
		size := &c.plan.Seams[i].Passes[0].Size
		size.ArcEnergy, size.HeatInput = math.NaN(), math.NaN()
	}
	var doc struct {
		Seams []struct {
			Passes []struct {
				Size struct {
					HeatInput *float64 `json:"heat_input_kj_mm"`
				} `json:"size"`
			} `json:"passes"`
		} `json:"seams"`
	}
	if err := json.Unmarshal(written(t, c, export.PlanFile), &doc); err != nil {
		t.Fatal(err)
	}
	if got := doc.Seams[0].Passes[0].Size.HeatInput; got != nil {
		t.Errorf("heat input %v, want null", *got)
	}
}

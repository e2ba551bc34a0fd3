package export

import "seamwright/bench/plan"

// heatDoc is a part of plan.json.
type heatDoc struct {
	Input   *float64 `json:"heat_input_with_k_kj_mm" doc:"heat input with the thermal efficiency, which cooling is computed with; null where it is not known"`
	Shape   string   `json:"laid_on" doc:"what the pass is laid on, as the cooling times of EN 1011-2 tell joints apart"`
	Start   float64  `json:"part_at_degc" doc:"temperature of the part before the pass"`
	Fast    *float64 `json:"cooling_fastest_s,omitempty" doc:"quickest cooling from 800 to 500 deg C: thicker plate, as cold as the pass may find it; left out where it is not known"`
	Slow    *float64 `json:"cooling_slowest_s,omitempty" doc:"slowest: thinner plate, as hot as the pass may find it"`
	Plate   string   `json:"plate,omitempty" doc:"whether the quickest is that of thick or of thin plate"`
	Why     string   `json:"cooling_not_known,omitempty" doc:"why the cooling times are not known"`
	Ceiling *float64 `json:"next_at_most_degc,omitempty" doc:"most that the joint may have when the next pass comes; left out where it is not known or no other follows"`
	WhyCool string   `json:"wait_not_known,omitempty" doc:"why that time is not known"`
	Wait    float64  `json:"stands_before_s" doc:"how long the arm stands before this pass for the joint to cool"`
}

func newHeat(h *plan.Heat) heatDoc {
	d := heatDoc{Input: optional(h.Input * kjmm), Shape: h.Shape.String(), Start: r6(h.Start), Why: h.Why, WhyCool: h.WhyCool, Wait: r6(h.Wait)}
	if h.Known {
		d.Fast, d.Slow, d.Plate = optional(h.Fast.Time), optional(h.Slow.Time), h.Fast.Plate.String()
	}
	if h.CoolKnown {
		d.Ceiling = optional(h.Ceiling)
	}
	return d
}

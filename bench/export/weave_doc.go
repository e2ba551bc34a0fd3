package export

import "seamwright/bench/plan"

// weaveDoc is a part of plan.json.
type weaveDoc struct {
	Shape      string   `json:"shape" enum:"triangle,sine" doc:"path across the seam"`
	Amplitude  float64  `json:"amplitude_mm" doc:"from the middle to an edge"`
	Frequency  float64  `json:"frequency_hz" doc:"cycles in a second, dwells included"`
	DwellLeft  float64  `json:"dwell_left_s" doc:"stand at the left edge, seen along the travel with the torch up"`
	DwellMid   float64  `json:"dwell_middle_s" doc:"stand at each crossing of the middle"`
	DwellRight float64  `json:"dwell_right_s" doc:"stand at the right edge"`
	Plane      float64  `json:"plane_deg" doc:"turn of the weave about the seam; 0 is square to the wire, positive lifts the left edge"`
	Advance    float64  `json:"advance_mm" doc:"length of seam in a cycle"`
	PathRatio  float64  `json:"path_ratio" doc:"length of the wire's path over that of the seam; heat and metal count the seam, not the path"`
	Lateral    float64  `json:"lateral_mm_s" doc:"highest speed across the seam"`
	Joint      string   `json:"joint,omitempty" doc:"joint that comes nearest to its speed limit; left out where there is no posture"`
	JointShare *float64 `json:"joint_speed_share,omitempty" doc:"its speed, travel and weave together, over its limit"`
	Along      *float64 `json:"s_mm,omitempty" doc:"place on the seam at which it does"`
}

func newWeave(p *plan.Plan, w *plan.Weaving) *weaveDoc {
	if w == nil {
		return nil
	}
	d := &weaveDoc{
		Shape: w.Shape.String(), Amplitude: r6(w.Amplitude * mm), Frequency: r6(w.Frequency),
		DwellLeft: r6(w.DwellLeft), DwellMid: r6(w.DwellCentre), DwellRight: r6(w.DwellRight), Plane: r6(w.Plane * deg),
		Advance: r6(w.Advance * mm), PathRatio: r6(w.PathRatio), Lateral: r6(w.Lateral * mm),
	}
	if w.Speed > 0 {
		d.Joint = p.Cell.Chain.Joint(w.Joint).Name
		d.JointShare, d.Along = optional(w.Speed/w.Limit), optional(w.Along*mm)
	}
	return d
}

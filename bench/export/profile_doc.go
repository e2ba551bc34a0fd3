package export

import (
	"math"

	"seamwright/bench/plan"
)

// profileDoc and what it holds are a part of plan.json.
type profileDoc struct {
	Leg     float64     `json:"leg_wanted_mm" doc:"leg that is wanted on the base plate; 0 for a bead given by its area"`
	LegMost float64     `json:"leg_most_mm" doc:"most that it may be at a corner; 0 for a bead given by its area"`
	Keyed   keyedDoc    `json:"keyed" doc:"how true the commanded moves are"`
	Corners []cornerDoc `json:"corners" doc:"bends of the seam, in order, with what is worst in and beside each"`
	Samples []sampleDoc `json:"samples" doc:"the pass along the seam, joined by straight lines; several are at one place where something jumps. Weld start and end are without the metal of their dwells"`
}

type keyedDoc struct {
	Points int     `json:"points" doc:"poses to key in, weld start and end included"`
	Off    float64 `json:"off_path_mm" doc:"largest distance of a commanded move from the way of the wire tip"`
	Turn   float64 `json:"turned_off_deg" doc:"largest turn of the torch in a commanded move off the planned one"`
}

type cornerDoc struct {
	At     float64 `json:"from_mm" doc:"place on the seam at which the bend begins"`
	To     float64 `json:"to_mm" doc:"where it ends; the same for a sharp corner"`
	Kind   string  `json:"kind" enum:"outside corner,inside corner,bend" doc:"round the upright, into the open side, or neither"`
	Turn   float64 `json:"turn_deg" doc:"turn of the travel"`
	Radius float64 `json:"radius_mm" doc:"radius, the tightest of a curve; 0 for a sharp corner"`
	Before float64 `json:"before_deg" doc:"turn of the torch on the seam before a sharp corner"`
	After  float64 `json:"after_deg" doc:"turn of the torch on the seam behind a sharp corner"`
	Ahead  float64 `json:"before_over_mm" doc:"length of seam over which it turns before the corner"`
	Behind float64 `json:"after_over_mm" doc:"length of seam over which it turns behind the corner"`
	Place  float64 `json:"in_place_deg" doc:"turn of the torch in the corner, without travel"`
	ArcOff bool    `json:"arc_off" doc:"the arc is put out for the turn in the corner"`
	Hold   float64 `json:"arc_stands_s" doc:"time that the arc burns in the corner while the torch turns"`

	LegLeast    *float64 `json:"leg_least_mm" doc:"least leg there; null where it cannot be told"`
	LegMost     *float64 `json:"leg_most_mm" doc:"most leg there; null where it cannot be told"`
	WorkLeast   float64  `json:"work_least_deg" doc:"least work angle to the true joint"`
	WorkMost    float64  `json:"work_most_deg" doc:"most work angle to the true joint"`
	TravelLeast float64  `json:"travel_least_deg" doc:"least travel angle to the true joint, drag negative"`
	TravelMost  float64  `json:"travel_most_deg" doc:"most travel angle to the true joint, push positive"`
	TurnMost    float64  `json:"turn_most_deg_s" doc:"fastest turn of the torch"`
	SpeedLeast  float64  `json:"speed_least_mm_s" doc:"slowest travel; 0 in a sharp corner, where the wire tip stops"`
}

type sampleDoc struct {
	Along  float64  `json:"s_mm" doc:"place on the seam"`
	Speed  float64  `json:"speed_mm_s" doc:"travel speed that the arm holds"`
	Area   float64  `json:"area_mm2" doc:"metal laid along the seam"`
	Leg    *float64 `json:"leg_mm" doc:"leg that it fills on the base plate; 0 for a bead given by its area, null where it cannot be told"`
	Work   float64  `json:"work_deg" doc:"work angle to the true joint"`
	Travel float64  `json:"travel_deg" doc:"travel angle to the true joint, push positive"`
	Turn   float64  `json:"turn_deg_s" doc:"how fast the torch turns"`
}

func newProfile(p *plan.Profile) *profileDoc {
	if p == nil {
		return nil
	}
	d := &profileDoc{
		Leg: r6(p.Leg * mm), LegMost: r6(p.LegMost * mm),
		Keyed:   keyedDoc{Points: p.Keyed.Points, Off: r6(p.Keyed.Off * mm), Turn: r6(p.Keyed.Turn * deg)},
		Corners: []cornerDoc{}, Samples: []sampleDoc{},
	}
	for i := range p.Corners {
		d.Corners = append(d.Corners, newCorner(&p.Corners[i]))
	}
	for i := range p.Samples {
		s := &p.Samples[i]
		d.Samples = append(d.Samples, sampleDoc{
			Along: r6(s.Arc * mm), Speed: r6(s.Speed * mm), Area: r6(s.Area * mm2), Leg: optional(s.Leg * mm),
			Work: r6(s.Work * deg), Travel: r6(s.Travel * deg), Turn: r6(s.Turn * deg),
		})
	}
	return d
}

func newCorner(c *plan.CornerTruth) cornerDoc {
	kind := "bend"
	if c.Bend.Kind != 0 {
		kind = c.Bend.Kind.String()
	}
	radius := c.Bend.Radius
	if math.IsInf(radius, 1) {
		radius = 0
	}
	return cornerDoc{
		At: r6(c.Bend.From * mm), To: r6(c.Bend.To * mm), Kind: kind, Turn: r6(c.Bend.Turn * deg), Radius: r6(radius * mm),
		Before: r6(c.Share.Before * deg), After: r6(c.Share.After * deg), Ahead: r6(c.Share.Ahead * mm), Behind: r6(c.Share.Behind * mm),
		Place: r6(c.InPlace * deg), ArcOff: c.Share.ArcOff, Hold: r6(c.Hold),
		LegLeast: optional(c.LegLeast * mm), LegMost: optional(c.LegMost * mm),
		WorkLeast: r6(c.WorkLeast * deg), WorkMost: r6(c.WorkMost * deg),
		TravelLeast: r6(c.TravelLeast * deg), TravelMost: r6(c.TravelMost * deg),
		TurnMost: r6(c.TurnMost * deg), SpeedLeast: r6(c.SpeedLeast * mm),
	}
}

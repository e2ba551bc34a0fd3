package export

import (
	"math"

	"seamwright/bench/plan"
)

// clearanceDoc is a part of plan.json.
type clearanceDoc struct {
	Kind   string     `json:"kind" enum:"nozzle,torch,cable,arm,self" doc:"what comes near: nozzle, torch or links of the arm to what stands about them; the space of the cable to everything; arm, torch and cable to themselves"`
	Of     string     `json:"of" doc:"the body that moves"`
	To     string     `json:"to" doc:"what it comes near"`
	Least  float64    `json:"least_mm" doc:"their distance; 0 where they touch"`
	Wanted float64    `json:"wanted_mm" doc:"the least that is wanted"`
	Time   float64    `json:"t_s" doc:"when, in the run"`
	Along  *float64   `json:"s_mm,omitempty" doc:"where on the seam; left out in the air"`
	OfAt   [3]float64 `json:"of_at_m" doc:"nearest point of the body that moves, base frame"`
	ToAt   [3]float64 `json:"to_at_m" doc:"nearest point of the other, base frame"`
}

// airDoc is a part of plan.json.
type airDoc struct {
	Seam  string         `json:"seam,omitempty" doc:"to which it leads; left out for home"`
	Pass  int            `json:"pass,omitempty" doc:"of the seam"`
	Clear []clearanceDoc `json:"clearance" doc:"the least room of each kind on the way"`
}

// newClearances describes the kinds of which there are bodies.
func newClearances(list []plan.Clearance) []clearanceDoc {
	docs := []clearanceDoc{} // none is not nothing: the schema has a list
	for i := range list {
		c := &list[i]
		if math.IsInf(c.Least, 1) {
			continue
		}
		docs = append(docs, clearanceDoc{
			Kind: string(c.Kind), Of: c.Of, To: c.To, Least: r6(c.Least * mm), Wanted: r6(c.Wanted * mm),
			Time: r6(c.Time), Along: optional(c.Along * mm), OfAt: vec(c.OfAt), ToAt: vec(c.ToAt),
		})
	}
	return docs
}

func newAir(list []plan.AirMove) []airDoc {
	var docs []airDoc
	for i := range list {
		docs = append(docs, airDoc{Seam: list[i].Seam, Pass: list[i].Pass, Clear: newClearances(list[i].Clear)})
	}
	return docs
}

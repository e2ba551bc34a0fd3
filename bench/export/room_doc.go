package export

import "seamwright/bench/plan"

// roomDoc is a part of plan.json: what room the nozzle has in a pass.
type roomDoc struct {
	Clearance    float64    `json:"clearance_mm" doc:"least distance of the nozzle from the plates of its own joint and the beads laid before, all along the pass and its weave; negative where it would stand inside"`
	Metal        string     `json:"nearest" doc:"what is nearest"`
	Along        float64    `json:"s_mm" doc:"where, on the seam"`
	Nozzle       [3]float64 `json:"nozzle_at_m" doc:"the place of the nozzle that is nearest, base frame"`
	On           [3]float64 `json:"nearest_at_m" doc:"the place of the metal that it is nearest to, base frame"`
	Wanted       float64    `json:"wanted_mm" doc:"distance that is asked for"`
	Least        float64    `json:"stop_under_mm" doc:"distance under which the pass is stopped"`
	WishedWork   float64    `json:"wished_work_deg" doc:"work angle at the weld start as the job asks for it; the pass has its own"`
	WishedTravel float64    `json:"wished_travel_deg" doc:"travel angle as the job asks for it, push positive"`
	GaveWay      bool       `json:"gave_way" doc:"the angles of the pass are the nearest to these at which the nozzle has its room"`
}

func newRoom(r *plan.Room) *roomDoc {
	if r == nil {
		return nil
	}
	return &roomDoc{
		Clearance: r6(r.Clearance * mm), Metal: r.Metal, Along: r6(r.Along * mm), Nozzle: vec(r.Nozzle), On: vec(r.On),
		Wanted: r6(r.Wanted * mm), Least: r6(r.Least * mm),
		WishedWork: r6(r.WishedWork * deg), WishedTravel: r6(r.WishedTravel * deg), GaveWay: r.GaveWay,
	}
}

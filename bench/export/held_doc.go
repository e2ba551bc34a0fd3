package export

import (
	"seamwright/bench/plan"
	"seamwright/weld/procedure"
)

// heldDoc is a part of plan.json: a pass held against its welding procedure.
type heldDoc struct {
	ID        string   `json:"id" doc:"id of the procedure"`
	Revision  string   `json:"revision,omitempty" doc:"its revision, where it states one"`
	Runs      string   `json:"runs,omitempty" doc:"row of its runs that holds for the pass; left out where its limits hold for all runs"`
	Outside   []string `json:"outside" doc:"items that are outside; what is wrong stands in the findings"`
	NotStated []string `json:"not_stated" doc:"items that the procedure does not limit: not checked"`
	NotKnown  []string `json:"not_stated_in_the_job" doc:"items that it limits and the job does not state: not checked"`
}

func newHeld(h *plan.Held) *heldDoc {
	if h == nil {
		return nil
	}
	d := &heldDoc{ID: h.Procedure.Common.ID, Revision: h.Procedure.Common.Revision, Outside: []string{}, NotStated: []string{}, NotKnown: []string{}}
	if h.Row >= 0 {
		d.Runs = h.Procedure.Runs[h.Row].String()
	}
	for _, v := range h.Verdicts {
		switch item := string(v.Item); v.State {
		case procedure.Outside:
			d.Outside = append(d.Outside, item)
		case procedure.NotStated:
			d.NotStated = append(d.NotStated, item)
		case procedure.NotKnown:
			d.NotKnown = append(d.NotKnown, item)
		}
	}
	return d
}

package export

import (
	"seamwright/bench/plan"
	"seamwright/weld/distort"
)

// distortionDoc and what it holds are a part of plan.json.
type distortionDoc struct {
	Worth string      `json:"worth" doc:"what these figures are worth"`
	Seams []pullDoc   `json:"seams" doc:"what each seam does beside itself, in the order of welding"`
	Bow   []ruleDoc   `json:"bow,omitempty" doc:"how far the middle of the part moves, by every rule that applies, positive where it is hollow on the side named; left out where the document does not say enough"`
	Order []turnedDoc `json:"proposed_order,omitempty" doc:"order of the seams that the rules propose; left out where the document gives no axis"`
}

type pullDoc struct {
	Seam    string    `json:"seam" doc:"name of the seam"`
	Across  []ruleDoc `json:"across" doc:"how much the parts draw together across it, by every rule that applies"`
	Along   []ruleDoc `json:"along" doc:"how much the part shortens along it, by every rule that applies"`
	TurnLow *float64  `json:"turn_least_deg,omitempty" doc:"least angle by which the joint closes towards the weld; left out where no rule applies"`
	TurnTop *float64  `json:"turn_most_deg,omitempty" doc:"most angle by which it closes"`
	Source  string    `json:"turn_source,omitempty" doc:"source of the angle"`
	Unknown []string  `json:"not_estimated" doc:"what could not be estimated, and why"`
}

type ruleDoc struct {
	Rule   string  `json:"rule" doc:"name of the rule"`
	Value  float64 `json:"value_mm" doc:"what it says"`
	Source string  `json:"source" doc:"who published it, and whether it was read"`
}

type turnedDoc struct {
	Seam   string       `json:"seam" doc:"name of the seam"`
	Reason string       `json:"reason" doc:"why it comes then"`
	Runs   [][2]float64 `json:"runs_mm" doc:"pieces welded in one go, from where to where along the part's axis"`
}

// worth is what an estimate of distortion is worth.
const worth = "rules of thumb: they give the right direction and are usually right within a factor of two; no prediction"

func newDistortion(p *plan.Plan) distortionDoc {
	d := distortionDoc{Worth: worth, Seams: []pullDoc{}}
	for i := range p.Distortion.Pulls {
		q := &p.Distortion.Pulls[i]
		doc := pullDoc{Seam: q.Seam, Across: rules(q.Across), Along: rules(q.Along), Unknown: append([]string{}, q.Unknown...)}
		if q.Turn.Range.Stated() {
			doc.TurnLow, doc.TurnTop = optional(q.Turn.Range.Low*deg), optional(q.Turn.Range.High*deg)
			doc.Source = q.Turn.Source.String()
		}
		d.Seams = append(d.Seams, doc)
	}
	if p.Distortion.Bow != nil {
		d.Bow = rules(*p.Distortion.Bow)
	}
	if o := p.Distortion.Order; o != nil {
		for _, t := range o.Seams {
			doc := turnedDoc{Seam: p.DrawnName(t.Seam), Reason: t.Reason.String(), Runs: [][2]float64{}}
			for _, r := range t.Runs {
				doc.Runs = append(doc.Runs, [2]float64{r6(r.From * mm), r6(r.To * mm)})
			}
			d.Order = append(d.Order, doc)
		}
	}
	return d
}

func rules(e distort.Estimate) []ruleDoc {
	list := []ruleDoc{}
	for _, r := range e.Rules {
		list = append(list, ruleDoc{r.Name, r6(r.Value * mm), r.Source.String()})
	}
	return list
}

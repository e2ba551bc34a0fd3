package plan

import (
	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
)

// asMass is how masses are said.
var asMass = manner{unit.Mass, [...]int{unit.Metric: 1, unit.InchPound: 1}}

// checkPayload holds the torch against what the arm may carry, and says where
// one of the two is missing that this cannot be done.
func checkPayload(j *job.Job) []finding.Finding {
	w, mass, most := wordsOf(j), j.Torch.Mass, j.Arm.Payload
	switch where := finding.AtField("torch.mass"); {
	case most == 0 && mass == 0:
		return nil // nothing is said of it
	case mass == 0:
		return []finding.Finding{finding.New(finding.TorchAbovePayload, where, "the torch's mass is not given: it was not held against the arm's payload").
			As(finding.Note).Mend("add mass to torch")}
	case most == 0:
		return []finding.Finding{finding.New(finding.TorchAbovePayload, finding.AtField("arm.payload"), "the arm's payload is not given: the torch's mass was not held against it").
			As(finding.Note).Mend("add payload to arm")}
	case mass > most:
		f := finding.Newf(finding.TorchAbovePayload, where, "the torch weighs %s, the arm may carry %s", w.say(asMass, mass), w.say(asMass, most))
		return []finding.Finding{f.Values(w.pair(unit.Mass, mass, most))}
	}
	return nil
}

package plan

import (
	"fmt"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
)

// templateName begins the names of settings sets, and is the id of procedures,
// that a new job writes to be filled in (bench/draft).
const templateName = "fill in"

// checkTemplates stops a job that uses a settings set or a procedure which is
// still a template: what is reckoned from it is nobody's value.
func checkTemplates(j *job.Job) []finding.Finding {
	var out []finding.Finding
	for _, set := range j.Settings {
		var seams []string
		for _, s := range j.Seams {
			if s.Settings == set.ID {
				seams = append(seams, s.Name)
			}
		}
		if len(seams) == 0 || !isTemplate(set.Name) {
			continue
		}
		f := finding.New(finding.ValueToFillIn, finding.AtField("settings"), fmt.Sprintf("settings set %q of %s is still a template: its feed, its wire and what is reckoned from them are nobody's values", set.ID, strings.Join(seams, ", ")))
		out = append(out, f.Mend("fill in the set with what your source has, then give it its own name"))
	}
	for i := range j.Procedures {
		if !isTemplate(j.Procedures[i].Common.ID) {
			continue
		}
		out = append(out, finding.New(finding.ValueToFillIn, finding.AtField("procedure"), "the procedure is still a template").Mend("fill it in from the paper, and its id"))
	}
	return out
}

func isTemplate(name string) bool {
	return strings.HasPrefix(strings.ToLower(strings.TrimSpace(name)), templateName)
}

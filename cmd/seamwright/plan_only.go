package main

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
)

// onlySeams returns the job with the named seams alone, and a finding that says
// so: such a plan is never fit, for the run is not the job's.
func onlySeams(j *job.Job, names []string) (*job.Job, []finding.Finding, error) {
	if len(names) == 0 {
		return j, nil, nil
	}
	var all []string
	for _, s := range j.Seams {
		all = append(all, s.Name)
	}
	for _, n := range names {
		if !slices.Contains(all, n) {
			return nil, nil, fmt.Errorf("--only %s: no seam of the job is called %q; seams are %s", n, n, strings.Join(all, ", "))
		}
	}
	some := *j
	some.Seams = nil
	var left []string
	for _, s := range j.Seams {
		if slices.Contains(names, s.Name) {
			some.Seams = append(some.Seams, s)
		} else {
			left = append(left, s.Name)
		}
	}
	if len(left) == 0 {
		return j, nil, nil
	}
	f := finding.Newf(finding.RunIncomplete, finding.AtField("seams"), "%s left out: this plan was asked for %s only", areLeft(left), strings.Join(names, ", "))
	return &some, []finding.Finding{f.Mend("plan without --only before welding; until then the run is not that of the job")}, nil
}

func areLeft(left []string) string {
	if len(left) == 1 {
		return left[0] + " is"
	}
	return strings.Join(left, ", ") + " are"
}

package main

import (
	"fmt"

	"seamwright/bench/job"
)

// symbols prints the weld symbols of the drawing that the job gives.
func (r report) symbols(j *job.Job) {
	for i := range j.Seams {
		if s := &j.Seams[i]; s.Symbol.Given() {
			fmt.Fprintf(r.out, "%s welds the %v of %v\n", s.Name, s.Symbol.Side, s.Symbol.Says)
		}
	}
}

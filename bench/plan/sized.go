package plan

import "seamwright/bench/job"

// Sized returns the seams of a job with their passes, sizes and speeds alone: no
// posture, no run, no findings. It fails as Make does, without needing an arm
// that reaches.
func Sized(j *job.Job) ([]Seam, error) {
	m, err := newMaker(j)
	if err != nil {
		return nil, err
	}
	if err := m.seams(); err != nil {
		return nil, err
	}
	return m.plan.Seams, nil
}

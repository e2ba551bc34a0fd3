package plan

import "seamwright/bench/job"

// SizedSeam is a seam with its sizes and speeds alone.
type SizedSeam struct {
	Seam
	// Doc is the document's seam as it holds for this one, the thicknesses of typed
	// members included.
	Doc job.Seam
}

// Sized returns the seams of a job, in the order of welding, with their passes,
// sizes and speeds alone: no posture, no run, no findings. It fails as Make does,
// without needing an arm that reaches.
func Sized(j *job.Job) ([]SizedSeam, error) {
	m, err := newMaker(j)
	if err != nil {
		return nil, err
	}
	if err := m.seams(); err != nil {
		return nil, err
	}
	out := make([]SizedSeam, len(m.plan.Seams))
	for i := range out {
		out[i] = SizedSeam{m.plan.Seams[i], *m.shapes[i].doc}
	}
	return out, nil
}

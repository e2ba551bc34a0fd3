package prove

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/bench/scene"
)

// proof is a plan that is being proved.
type proof struct {
	job      *job.Job
	plan     *planFile
	folder   *Folder
	arm      *arm
	scene    *scene.Scene
	steps    []step
	trace    []sample
	stations [][][]station // by seam and pass
	lines    []*seamLine   // by seam; nil where one cannot be followed
	runs     []passRun     // in the order of the plan
	reached  int           // how many steps the trace was found to reach, in order
	rows     []Row
}

// Prove checks the plan against its job. The error says why the folder cannot be
// read as a plan of this job at all; everything that is wrong with the plan is in
// the verdict.
func (f *Folder) Prove(j *job.Job) (*Verdict, error) {
	a, err := newArm(j)
	if err != nil {
		return nil, err
	}
	around, err := newScene(j, a)
	if err != nil {
		return nil, err
	}
	return f.prove(j, a, around)
}

// ProveAmong is Prove with the bodies of the job as they were built before, by
// scene.New for this very job: building them is most of the time of a proof.
func (f *Folder) ProveAmong(j *job.Job, around *scene.Scene) (*Verdict, error) {
	a, err := newArm(j)
	if err != nil {
		return nil, err
	}
	return f.prove(j, a, around)
}

func (f *Folder) prove(j *job.Job, a *arm, around *scene.Scene) (*Verdict, error) {
	p := &proof{job: j, plan: &f.plan, folder: f, arm: a, scene: around}
	if err := p.read(); err != nil {
		return nil, err
	}
	p.follow()
	for _, check := range []func(*proof){
		(*proof).seal, (*proof).frames, (*proof).kinematics, (*proof).table,
		(*proof).oneRun, (*proof).density, (*proof).home, (*proof).limits, (*proof).motion, (*proof).jerk, (*proof).commanded,
		(*proof).torches, (*proof).drawn, (*proof).arcs, (*proof).completeness,
		(*proof).gather, (*proof).speeds, (*proof).metal, (*proof).inProcedure, (*proof).heat, (*proof).preheat, (*proof).interpass, (*proof).waits, (*proof).clear, (*proof).shapesSaid,
	} {
		check(p)
	}
	return p.verdict(), nil
}

// read takes in steps, trace and stations.
func (p *proof) read() error {
	if n := len(p.plan.Joints); n != len(p.arm.limits) {
		return fmt.Errorf("%s names %d joints, the job's arm has %d: it is not a plan of this job", planName, n, len(p.arm.limits))
	}
	var err error
	if p.steps, err = p.arm.readSteps(p.plan.Steps); err != nil {
		return fmt.Errorf("%s: %w", planName, err)
	}
	if p.trace, err = p.arm.readTrace(&p.folder.trace); err != nil {
		return fmt.Errorf("%s: %w", traceName, err)
	}
	p.stations = make([][][]station, len(p.plan.Seams))
	for i := range p.plan.Seams {
		s := &p.plan.Seams[i]
		for k := range s.Passes {
			list, err := p.arm.readStations(s.Passes[k].Stations)
			if err != nil {
				return fmt.Errorf("%s: seam %s pass %d: %w", planName, cut(s.Name), s.Passes[k].Number, err)
			}
			p.stations[i] = append(p.stations[i], list)
		}
	}
	return nil
}

// add takes in what meters found.
func (p *proof) add(list ...*meter) {
	for _, m := range list {
		p.rows = append(p.rows, m.row())
	}
}

// atStep is the place of step i, from 0.
func (p *proof) atStep(i int) place {
	s := &p.steps[i]
	return place{s.Seam, s.Pass, fmt.Sprintf("step %d (%s)", i+1, cut(s.Label))}
}

// atSample is the place of sample i of the trace, from 0.
func (p *proof) atSample(i int) place {
	s := &p.trace[i]
	return place{s.seam, s.pass, fmt.Sprintf("%.3f s of the trace", s.t)}
}

// verdict gathers what was found.
func (p *proof) verdict() *Verdict {
	v := &Verdict{Stops: []string{}}
	p.findings(v)
	v.Rows = p.rows
	v.Fit = len(v.Stops) == 0
	for i := range v.Rows {
		if !v.Rows[i].Outcome.passes() {
			v.Fit = false
		}
	}
	p.fit(v)
	return v
}

package plan

import "seamwright/weld/seam"

// ramps are the lengths of way (m) over which the tip gathers speed at the start
// of a stage and loses it at the end.
type ramps struct{ from, to float64 }

// rampStep is the step in which the length of a ramp is found, m, and rampGain
// the share by which the speed grows over one, at least, while it lasts.
const (
	rampStep = 0.05e-3
	rampGain = 0.002
)

// ramp finds the ramps of a stage, at most a third of it each.
func (r *profiler) ramp(i int) ramps {
	g, law := &r.stages[i], r.pass.Motion.laws.weld[i]
	third := (g.to - g.from) / 3
	length := func(from, way float64) float64 {
		x := rampStep
		for x < third && law.SpeedAt(from+way*(x+rampStep)) > (1+rampGain)*law.SpeedAt(from+way*x) {
			x += rampStep
		}
		return min(x, third)
	}
	return ramps{length(g.from, 1), length(g.to, -1)}
}

// lay works out the metal along the seam from the time laws of the pass. At a
// corner the tip stops: what its ramps take longer than travel at the speed
// beside them counts as a stand there, so that no metal is lost, and so does the
// turn in place. Where the arc is out for that, nothing is laid in it.
func (r *profiler) lay() error {
	r.ramps = nil
	for i := range r.stages {
		r.ramps = append(r.ramps, r.ramp(i))
	}
	req := seam.MetalRequest{Melt: r.melt, Shape: r.shape, Length: r.track.arc(r.track.length), Speeds: r.speeds()}
	bare, err := seam.NewMetal(req)
	if err != nil {
		return err
	}
	stand := func(along, time, feed float64) {
		if time > 0 && along > 0 && along < r.track.length {
			req.Dwells = append(req.Dwells, seam.Dwell{Arc: r.track.arc(along), Time: time, Feed: feed})
		}
	}
	for i, s := range r.stages {
		law := r.pass.Motion.laws.weld[i]
		if s.turn < 0 {
			begin, end := s.from+r.ramps[i].from, s.to-r.ramps[i].to
			stand(s.from, law.TimeAt(begin)-bare.TravelTime(r.track.arc(s.from), r.track.arc(begin)), 0)
			stand(s.to, law.Duration()-law.TimeAt(end)-bare.TravelTime(r.track.arc(end), r.track.arc(s.to)), 0)
		} else if !s.arcOff {
			stand(s.from, law.Duration(), r.turnFeed)
		}
	}
	r.lumps = len(req.Dwells)
	r.metal, err = seam.NewMetal(req)
	return err
}

// speeds are the travel speeds that the arm holds along the seam between the
// ramps.
func (r *profiler) speeds() []seam.SpeedAt {
	var rows []seam.SpeedAt
	for i, s := range r.stages {
		if s.turn >= 0 {
			continue
		}
		law := r.pass.Motion.laws.weld[i]
		from, to := s.from+r.ramps[i].from, s.to-r.ramps[i].to
		n := max(1, steps(to-from, max(profileStep, r.track.length/maxStations)))
		for k := range n + 1 {
			along := from + (to-from)*float64(k)/float64(n)
			rows = append(rows, seam.SpeedAt{Arc: r.track.arc(along), Speed: law.SpeedAt(along)})
		}
	}
	return rows
}

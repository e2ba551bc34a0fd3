package plan

import (
	"context"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld/seam"
)

// caseFiles opens the files of the worked cases.
type caseFiles struct{}

func (caseFiles) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join("testdata", "scenarios", name))
}

// bentSeam is a seam built in code, welded with the arm, torch and settings of
// the worked case of the box.
type bentSeam struct {
	geometry *seam.Seam
	shares   []seam.Share
	change   func(*job.Job, *job.Seam) // nil for none
}

// making returns the maker of a plan of the one seam.
func (b bentSeam) making(t testing.TB) *maker {
	t.Helper()
	j, err := job.Decode("s3.yaml", caseFiles{})
	if err != nil {
		t.Fatal(err)
	}
	doc := j.Seams[0]
	doc.Points, doc.Taught, doc.Approach, doc.Retreat = nil, nil, job.Leave{Out: 20e-3}, job.Leave{Out: 20e-3}
	doc.Aim.Spin = job.SpinFree
	j.Seams = []job.Seam{doc}
	if b.change != nil {
		b.change(j, &j.Seams[0])
	}
	whole, err := job.Decode("s3.yaml", caseFiles{}) // its own seams resolve
	if err != nil {
		t.Fatal(err)
	}
	m, err := newMaker(whole)
	if err != nil {
		t.Fatal(err)
	}
	m.job, m.limits = j, lawLimits(j, m.plan.Cell.Chain)
	m.shapes = []seamShape{{doc: &j.Seams[0], geometry: b.geometry, shares: b.shares}}
	return m
}

func (b bentSeam) plan(t testing.TB) *Plan {
	t.Helper()
	p, err := b.making(t).make(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// boxAround is the box of the worked case with corners of a radius (m), from the
// middle of a long side, up to an arc length (m): the upright stands left.
func boxAround(t testing.TB, radius, to float64) *seam.Seam {
	t.Helper()
	corner := func(x, y float64) r3.Vec {
		return se3.RotZ(14 / deg).Apply(r3.Vec{X: x, Y: y}).Add(r3.Vec{X: 0.5, Y: 0.02, Z: 0.03})
	}
	ring, err := curve.Rounded(radius, corner(0, -.075), corner(.1, -.075), corner(.1, .075), corner(-.1, .075), corner(-.1, -.075), corner(0, -.075))
	if err != nil {
		t.Fatal(err)
	}
	path, err := curve.Trim(ring, 0, min(to, ring.Length()))
	up := seam.Towards{Dir: r3.Vec{Z: 1}}
	return mustSeam(t, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})
}

// The stretches of a way leave no gap, and their turns add up to all that the
// torch turns along it.
func TestStretchesCoverTheWay(t *testing.T) {
	share := seam.Share{Before: 15 / deg, After: 20 / deg}
	for name, row := range map[string]struct {
		way  seam.Way
		want int
		turn float64 // deg
	}{
		"line":                 {mustWay(t, boxAround(t, 0, 0.05)), 1, 0},
		"sharp, all in place":  {mustWay(t, boxAround(t, 0, 0.2)), 3, 90},
		"sharp, shared out":    {mustWay(t, boxAround(t, 0, 0.2), share), 5, 90},
		"sharp, none in place": {mustWay(t, boxAround(t, 0, 0.2), seam.Share{Before: 45 / deg, After: 45 / deg}), 4, 90},
		"round":                {mustWay(t, boxAround(t, 0.015, 0.2)), 3, 90},
		"half the box":         {mustWay(t, boxAround(t, 0, 0.4), share), 9, 180},
	} {
		t.Run(name, func(t *testing.T) {
			list := stretchesOf(row.way)
			if len(list) != row.want {
				t.Errorf("%d stretches, want %d: %+v", len(list), row.want, list)
			}
			at, turn := 0.0, 0.0
			for i := range list {
				s := &list[i]
				if math.Abs(s.from-at) > 1e-12 || !(s.to > s.from) {
					t.Errorf("stretch %d runs from %v to %v, the one before ends at %v", i, s.from, s.to, at)
				}
				at, turn = s.to, turn+s.turn()
			}
			if at != row.way.Length() {
				t.Errorf("they end at %v of %v m", at, row.way.Length())
			}
			if math.Abs(turn*deg-row.turn) > 1e-6 {
				t.Errorf("they turn by %v deg, want %v", turn*deg, row.turn)
			}
		})
	}
}

// Stations stand at the ends of every stretch, rise, and the torch turns by no
// more than it may between them; on a smooth piece they follow the turning.
func TestStationsFollowTheTurning(t *testing.T) {
	saddle, err := curve.NewSaddle(curve.SaddleRequest{
		Run:    curve.Tube{Point: r3.Vec{X: 0.5}, Axis: r3.Vec{Y: 1}, Radius: 0.06},
		Branch: curve.Tube{Point: r3.Vec{X: 0.5}, Axis: r3.Vec{Z: 1}, Radius: 0.04}, Sweep: 2 * math.Pi,
	})
	if err != nil {
		t.Fatal(err)
	}
	wall := func(at, axis r3.Vec) seam.Face { return seam.Cylinder{Point: at, Axis: axis, Outward: true} }
	onSaddle := mustSeam(t, saddle, nil, wall(r3.Vec{X: 0.5}, r3.Vec{Y: 1}), wall(r3.Vec{X: 0.5}, r3.Vec{Z: 1}))
	for name, w := range map[string]seam.Way{
		"sharp":  mustWay(t, boxAround(t, 0, 0.5), seam.Share{Before: 20 / deg, After: 10 / deg, Ahead: 5e-3}),
		"round":  mustWay(t, boxAround(t, 0.015, 0.5)),
		"saddle": mustWay(t, onSaddle),
	} {
		t.Run(name, func(t *testing.T) {
			for _, step := range []float64{stationStep, stationStep / 4} {
				tr := newTrack(w, seam.Aim{Work: 45 / deg, Travel: 10 / deg})
				along, first, last := tr.stations(step)
				if first != 0 || last != len(along)-1 || along[0] != 0 || along[last] != w.Length() {
					t.Fatalf("%d stations from %v to %v", len(along), along[first], along[last])
				}
				for i := range tr.stretches {
					found := false
					for _, a := range along {
						found = found || a == tr.stretches[i].to
					}
					if !found {
						t.Errorf("no station at the end of stretch %d", i)
					}
				}
				for i := 1; i < len(along); i++ {
					turn := tr.pose(along[i-1], 0).R.AngleTo(tr.pose(along[i], 0).R)
					if most := stationTurn * step / stationStep; !(along[i] > along[i-1]) || along[i]-along[i-1] > step+1e-12 || turn > most*1.05 {
						t.Errorf("from %v to %v m, %v deg: %v m and %v deg are allowed", along[i-1], along[i], turn*deg, step, most*deg)
					}
				}
			}
		})
	}
}

// A seam with a sharp corner is planned through it: the trace goes over all of
// the seam, stands in the corner while the torch turns, with the arc on, and
// takes the time that travel and turn take.
func TestTraceStandsInTheCorner(t *testing.T) {
	for name, row := range map[string]struct {
		share seam.Share
		turn  float64 // deg, in place
	}{
		"all in place": {seam.Share{}, 90},
		"shared out":   {seam.Share{Before: 20 / deg, After: 15 / deg}, 55},
		"arc off":      {seam.Share{ArcOff: true}, 90},
	} {
		t.Run(name, func(t *testing.T) {
			p := bentSeam{geometry: boxAround(t, 0, 0.25), shares: []seam.Share{row.share}}.plan(t)
			mo := p.Seams[0].Passes[0].Motion
			if mo == nil {
				t.Fatalf("no posture: %+v", p.Findings)
			}
			var stood, lit, last float64
			for i := 1; i < len(p.Trace); i++ {
				a, b := p.Trace[i-1], p.Trace[i]
				if !a.Arc || !b.Arc {
					continue
				}
				lit += b.T - a.T
				if b.Along < a.Along-1e-12 {
					t.Errorf("%v s: back from %v to %v m", b.T, a.Along, b.Along)
				}
				if b.Along == a.Along && math.Abs(b.Along-0.1) < 1e-9 {
					stood += b.T - a.T
					if b.Speed != 0 || b.Pose.P.Dist(a.Pose.P) > 1e-9 {
						t.Errorf("%v s: the tip moves in the corner", b.T)
					}
				}
				last = b.Along
			}
			if math.Abs(last-0.25) > 1e-9 {
				t.Errorf("the arc ends at %v of 0.25 m", last)
			}
			size := p.Seams[0].Passes[0].Size
			want := row.turn/deg/turnMost + turnMost/turnAccel                   // a trapezoid's time; the joints gather speed slower
			slower := turnMost/job.DefaultJointAcceleration - turnMost/turnAccel // where one joint makes all of the turn
			if row.share.ArcOff {
				want, slower = size.CraterTime+size.StartTime, 0
			}
			if stood < want-1e-6 || stood > want+2*slower+1e-6 {
				t.Errorf("stands %.3f s in the corner, want %.3f", stood, want)
			}
			// a stage of travel gathers speed and loses it by jerk alone: each takes 2
			// sqrt(v/j), half of it more than the way at full speed
			travel := 0.25/size.Travel + 4*math.Sqrt(size.Travel/(job.DefaultTipAcceleration/job.DefaultJerkTime))
			if all := travel + stood + size.StartTime + size.CraterTime; math.Abs(lit-all) > 0.05 {
				t.Errorf("arc on for %.3f s, want %.3f", lit, all)
			}
			if math.Abs(p.Times.Arc-lit) > 1e-9 || math.Abs(p.Times.Weld-travel) > 0.05 {
				t.Errorf("times %+v, arc on for %v s of trace", p.Times, lit)
			}
		})
	}
}

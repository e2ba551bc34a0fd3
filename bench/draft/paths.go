package draft

import (
	"fmt"
	"math"
	"slices"

	"seamwright/bench/intake"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// handTouch is the error (m) of a tip placed by hand guiding, the middle of 1
// to 3 mm (common practice, no source); handMost its largest.
const (
	handTouch = 1.5 * unit.MM
	handMost  = 3 * unit.MM
)

// shape is what the points of a seam say of it, in the arm's base.
type shape struct {
	places   []r3.Vec // m, of the path
	from, to r3.Vec   // m
	length   float64  // m, from the first to the last point
	circle   *fit.CircleFit
	torches  []torchAt
}

// torchAt is a torch as taught: the wire's direction and the travel there, unit.
type torchAt struct {
	label        string
	wire, travel r3.Vec
	at           r3.Vec // m
}

// Kinds of paths, as the document calls them.
const (
	line     = "line"
	arc      = "arc"
	circle   = "circle"
	polyline = "polyline"
	spline   = "spline"
)

// round reports whether a seam lies on a circle, goesRound whether it ends
// where it begins.
func (s *seam) round() bool     { return s.kind == arc || s.kind == circle }
func (s *seam) goesRound() bool { return s.kind == circle || s.closed }

// findPaths tells lines from arcs and circles and reads the torches as taught.
func (m *maker) findPaths() error {
	var many []*seam
	for _, s := range m.seams {
		places := make([]r3.Vec, len(s.path))
		for k, i := range s.path {
			pose, _ := m.tip(i)
			places[k] = pose.P
		}
		s.shape = shape{places: places, from: places[0], to: places[len(places)-1]}
		s.shape.length = s.shape.from.Dist(s.shape.to)
		if len(places) > 2 {
			many = append(many, s)
			continue
		}
		if _, err := fit.Line(places, handTouch); err != nil {
			return fmt.Errorf("%s from %q to %q has no length: teach the end again, or correct its row", s.name, m.kept[s.start].Label, m.kept[s.end].Label)
		}
		s.kind = line
	}
	m.each("path", "What are the paths of the seams with more than two points?", many, m.pathQuestion, func(s *seam, value string) {
		s.kind, s.kindNote = value, m.noteOf(s, "path")
	})
	if len(m.open) > 0 || m.wrong != nil {
		return nil
	}
	round := slices.DeleteFunc(slices.Clone(m.seams), func(s *seam) bool { return !s.goesRound() })
	m.each("overlap", "How far do welds all round run past their start, to tie in?", round, m.overlapQuestion, func(s *seam, value string) {
		s.overlap, s.overlapNote = value, m.noteOf(s, "overlap")
	})
	for _, s := range m.seams {
		if s.round() && s.shape.circle == nil {
			return fmt.Errorf("the points of %s make no path: they lie neither on a line nor on a circle", s.name)
		}
		m.readTorches(s)
	}
	return nil
}

// pathQuestion offers the paths that the points of a seam can make.
func (m *maker) pathQuestion(s *seam) Question {
	straight, lineErr := fit.Line(s.shape.places, handTouch)
	round, roundErr := fit.Circle(fit.CircleRequest{Points: s.shape.places, Sigma: handTouch})
	q := Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("%s has %d points. What is its path?", s.name, len(s.shape.places))}}
	if !s.closed {
		c := intake.Choice{Value: line, Text: "a straight line"}
		if lineErr == nil {
			c.Evidence = fmt.Sprintf("the points lie within %s of one", m.fine(straight.Max))
		}
		q.Choices = append(q.Choices, c)
	}
	if roundErr == nil {
		s.shape.circle = &round
		evidence := fmt.Sprintf("they lie within %s of a circle of radius %s and go %.0f deg round it", m.fine(round.Max), m.fine(round.Radius), round.Sweep/unit.Deg)
		if !s.closed {
			q.Choices = append(q.Choices, intake.Choice{Value: arc, Text: "an arc from the first to the last", Evidence: evidence})
		}
		q.Choices = append(q.Choices, intake.Choice{Value: circle, Text: "a full circle that begins and ends at the first", Evidence: evidence})
	}
	m.offerBent(&q, s)
	switch {
	case s.closed:
		if q.Default = -1; roundErr == nil && round.Max <= handMost && m.saysRound(s) {
			q.Default = 0
		}
	case lineErr == nil && straight.Max <= handMost:
		q.Default = 0
	case roundErr == nil && round.Max <= handMost && m.saysRound(s):
		q.Default = m.arcOrCircle(q, round)
	}
	return q
}

// saysRound reports whether points on a circle mean one: the corners of a
// rectangle lie on a circle too, and so do any three points. Five do, points
// that are called a quarter or a half, and four that turn by little.
func (m *maker) saysRound(s *seam) bool {
	const few, gentle = 4, 50 * unit.Deg // rad
	for _, i := range s.along {
		if w := m.kept[i].name.Word; w == "half" || w == "quarter" || w == "quarters" {
			return true
		}
	}
	_, turn := m.sharpest(s)
	return len(s.path) > few || len(s.path) == few && turn <= gentle
}

// offerBent adds the paths that bend at the points or through them.
func (m *maker) offerBent(q *Question, s *seam) {
	at, most := m.sharpest(s)
	evidence := fmt.Sprintf("the way from point to point turns by %.0f deg at most, at %q", most/unit.Deg, m.kept[s.path[at]].Label)
	q.Choices = append(q.Choices, intake.Choice{Value: polyline, Text: "straight pieces, with corners at the points between", Evidence: evidence},
		intake.Choice{Value: spline, Text: "a smooth curve through the points", Evidence: evidence})
}

// sharpest returns the point, by its place in the path, at which the way from
// point to point turns most, and the turn, rad.
func (m *maker) sharpest(s *seam) (at int, most float64) {
	p := s.shape.places
	for k := range p {
		if !s.closed && (k == 0 || k == len(p)-1) {
			continue
		}
		before, after := p[k].Sub(p[(k+len(p)-1)%len(p)]), p[(k+1)%len(p)].Sub(p[k])
		if before.Norm() == 0 || after.Norm() == 0 {
			continue
		}
		if turn := angle(before.Unit(), after.Unit()); turn >= most {
			at, most = k, turn
		}
	}
	return at, most
}

// wholeFrom is the way round (rad) from which points mean a full circle.
const wholeFrom = 240 * unit.Deg

// arcOrCircle returns the choice that the way round speaks for: four points
// spread over a whole circle go three quarters round.
func (m *maker) arcOrCircle(q Question, round fit.CircleFit) int {
	const arcUntil = 200 * unit.Deg // rad
	want := ""
	switch {
	case round.Sweep >= wholeFrom:
		want = circle
	case round.Sweep <= arcUntil:
		want = arc
	}
	return slices.IndexFunc(q.Choices, func(c intake.Choice) bool { return c.Value == want })
}

// overlapQuestion asks how far a circle runs past its start.
func (m *maker) overlapQuestion(s *seam) Question {
	q := Question{Question: intake.Question{Default: 0, Text: fmt.Sprintf("How far does %s run past its start, to tie in?", s.name),
		Choices: []intake.Choice{
			{Value: "12 mm", Text: "12 mm", Evidence: "10 to 15 mm are usual; common practice, no source"},
			{Value: "0 mm", Text: "0 mm: it ends where it began"},
		}},
		Free: "a length", check: trial{"seams", "overlap"}.quantity(map[trial]string{{"seams", "line"}: "", {"seams", "circle"}: "[a, b, c]"})}
	if m.Table.Stated.Length == "in" {
		q.Choices[0] = intake.Choice{Value: "1/2 in", Text: "1/2 in", Evidence: "3/8 to 5/8 in are usual; common practice, no source"}
		q.Choices[1] = intake.Choice{Value: "0 in", Text: "0 in: it ends where it began"}
	}
	return q
}

// fine prints a length (m) as fine as hand-guided points allow.
func (m *maker) fine(x float64) string {
	if m.Table.Stated.Length == "in" {
		return unit.Format(x, unit.Inches, 3)
	}
	return unit.Format(x, unit.Millimetres, 1)
}

// readTorches notes how the torch was taught along a seam.
func (m *maker) readTorches(s *seam) {
	along := s.taught
	if len(along) == 0 {
		along = s.path
	}
	for _, i := range along {
		pose, turned := m.tip(i)
		if travel, ok := s.shape.travelAt(s.kind, pose); ok && turned {
			s.shape.torches = append(s.shape.torches, torchAt{m.kept[i].Label, pose.R.Z(), travel, pose.P})
		}
	}
}

// travelAt returns the direction of travel next to a tip, unit.
func (s *shape) travelAt(kind string, tip se3.Pose) (r3.Vec, bool) {
	switch kind {
	case line:
		way := s.to.Sub(s.from)
		return way.Unit(), way.Norm() > 0
	case polyline, spline:
		return s.piece(tip.P)
	}
	out := tip.P.Sub(s.circle.Centre).Reject(s.circle.Axis)
	return s.circle.Axis.Cross(out).Unit(), out.Norm() > 0
}

// piece returns the direction of the straight piece between points that lies
// next to a place, unit.
func (s *shape) piece(at r3.Vec) (r3.Vec, bool) {
	var best r3.Vec
	nearest := math.Inf(1)
	for k := 1; k < len(s.places); k++ {
		a, way := s.places[k-1], s.places[k].Sub(s.places[k-1])
		if way.Norm() == 0 {
			continue
		}
		along := max(0, min(1, at.Sub(a).Dot(way)/way.Dot(way)))
		if d := at.Dist(a.AddScaled(along, way)); d < nearest {
			best, nearest = way.Unit(), d
		}
	}
	return best, !math.IsInf(nearest, 1)
}

// angle returns the angle between two unit directions, rad.
func angle(a, b r3.Vec) float64 { return math.Acos(max(-1, min(1, a.Dot(b)))) }

// angle returns the travel angle as taught, rad: push positive, from the
// plane square to the seam.
func (t torchAt) angle() float64 { return math.Pi/2 - angle(t.wire, t.travel) }

// across is the wire's direction made square to the travel, unit; ok is false
// for a wire along the seam.
func (t torchAt) across() (r3.Vec, bool) {
	a := t.wire.Reject(t.travel)
	const least = 0.2 // sine of the angle between wire and travel
	return a.Unit(), a.Norm() > least
}

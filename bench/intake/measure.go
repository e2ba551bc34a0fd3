package intake

import (
	"fmt"
	"math"
	"slices"

	"seamwright/geom/r3"
	"seamwright/unit"
)

// Bounds that tell units apart.
const (
	// longestReach is more than any arm that carries a torch reaches, m
	// (common practice, no source).
	longestReach = 5
	// smallestJob is the least extent of a whole table of points, m: less than
	// the shortest stitch and its approach (common practice, no source).
	smallestJob = 0.010
	// nearestFoot is the share of the reach that lies inside the arm's own
	// foot, dimensionless: no wire tip gets there (common practice, no source).
	nearestFoot = 0.05
	// pastReach allows for a reach that was stated without the torch,
	// dimensionless.
	pastReach = 1.5
)

// units settles or asks what the numbers are measured in and from.
func (s *sheet) units() {
	posed := s.has(role.isAxis)
	if posed {
		s.frame()
	} else {
		s.stated.MeasuredIn = "base"
	}
	if posed || s.has(func(r role) bool { return r.isJoint() && s.slides(r) }) {
		s.length(posed)
	}
	if posed {
		s.tip()
	}
	if s.has(role.isTurn) {
		s.orientation()
	}
	if s.has(func(r role) bool { return r.isJoint() && !s.slides(r) }) {
		s.joints()
	}
	if s.has(func(r role) bool { return r == speed }) {
		s.speeds()
	}
}

func (s *sheet) slides(r role) bool {
	return r.index() < len(s.known.Slides) && s.known.Slides[r.index()]
}

func (s *sheet) frame() {
	s.stated.MeasuredIn, _ = s.ask(Question{ID: "measured_in", Default: -1, Text: "Where are the positions measured from?", Choices: []Choice{
		{"base", "the arm's foot: its base frame", s.footEvidence()},
		{"world", "a fixed place in the shop: the world frame", ""},
		{"part", "the workpiece: a part frame", ""},
	}})
}

// footEvidence says how far from the arm's foot the points would lie, in the
// units in which it reaches them; empty where the arm is not known.
func (s *sheet) footEvidence() string {
	_, _, foot := s.extents()
	reach := s.known.Reach
	if reach <= 0 || foot <= 0 {
		return ""
	}
	units := []string{"mm", "in", "m"}
	if u, all := s.headUnit(role.isAxis, unit.Length); all && u != "" {
		units = []string{u}
	}
	var within []string
	for _, u := range units {
		sc, _ := scaleOf(u)
		if d := foot * sc.si; d <= pastReach*reach && d >= nearestFoot*reach {
			within = append(within, fmt.Sprintf("read in %s most points would lie %.4g mm from it", map[string]string{"mm": "mm", "cm": "cm", "in": "inches", "m": "metres"}[u], d*1000))
		}
	}
	if len(within) == 0 {
		return fmt.Sprintf("in no unit would most points lie within its reach of %.4g mm", reach*1000)
	}
	return fmt.Sprintf("%s; its reach is %.4g mm", inWords(within, "and"), reach*1000)
}

func (s *sheet) tip() {
	s.stated.Point, _ = s.ask(Question{ID: "point", Default: -1, Text: "Which point do the positions locate?", Choices: []Choice{
		{"tip", "the wire tip", ""},
		{"flange", "the flange, where the torch is bolted on", ""},
	}})
}

// stated units of columns: those of the heads, where all columns that matter
// have one.
func (s *sheet) headUnit(kind func(role) bool, of unit.Kind) (symbol string, all bool) {
	all = true
	for _, r := range s.records {
		for c, x := range r.roles {
			if !kind(x) || r.cell(c) == "" {
				continue
			}
			u := s.unitAt(r, c)
			switch {
			case u == "" || kindOf(u) != of:
				all = false
			case symbol == "":
				symbol = u
			}
		}
	}
	return symbol, all
}

// unitAt returns the unit that a cell or its head states.
func (s *sheet) unitAt(r record, column int) string {
	if _, u := splitUnit(r.cell(column)); u != "" {
		return u
	}
	if column < len(s.heads) && !r.apart {
		return s.heads[column].unit
	}
	return ""
}

// length settles the unit of positions.
func (s *sheet) length(posed bool) {
	kind := func(r role) bool { return r.isAxis() || r == blend || r.isJoint() && s.slides(r) }
	symbol, all := s.headUnit(kind, unit.Length)
	answer, given := s.answers["length"]
	switch {
	case all && given && answer != symbol:
		s.problem(0, fmt.Sprintf("positions whose unit the table states as %s, and the answer %s", symbol, answer), "correct the one that is wrong")
	case all:
		s.settle("length", symbol, "the table states the unit with the numbers", Stated)
		s.stated.Length = symbol
		if symbol == "cm" {
			s.stated.Length = "mm" // a job document has no cm
		}
		return
	}
	value, ok := s.ask(s.lengthQuestion(posed))
	if ok {
		s.stated.Length = value
	}
}

// lengthQuestion offers the units in which the points make a job of an arm.
func (s *sheet) lengthQuestion(posed bool) Question {
	q := Question{ID: "length", Default: -1, Text: "In which unit are x, y and z?"}
	if !posed {
		q.Text = "In which unit are the values of the joints that slide?"
	}
	var most, usual, foot float64
	if posed {
		most, usual, foot = s.extents()
		q.Text = fmt.Sprintf("In which unit are x, y and z? The points spread over %.4g.", most)
	}
	reach := s.known.Reach
	if reach <= 0 {
		reach = longestReach
	}
	for _, u := range []string{"mm", "in", "m"} {
		sc, _ := scaleOf(u)
		text := fmt.Sprintf("%s: they would spread over %.4g mm", u, most*sc.si*1000)
		inBase := s.stated.MeasuredIn == "base"
		switch {
		case !posed:
			text = u
		case s.answers["length"] == u: // a decision stands, whatever is likely
		case usual*sc.si > 2*reach || most > 0 && most*sc.si < smallestJob:
			continue
		case inBase && (foot*sc.si > pastReach*reach || foot > 0 && s.known.Reach > 0 && foot*sc.si < nearestFoot*reach):
			continue
		}
		q.Choices = append(q.Choices, Choice{u, text, s.lengthEvidence(foot * sc.si)})
	}
	if len(q.Choices) == 0 {
		q.Text += " None of the units gives a job that an arm reaches; check the numbers."
		q.Choices = []Choice{{"mm", "mm", ""}, {"in", "in", ""}, {"m", "m", ""}}
	}
	return q
}

func (s *sheet) lengthEvidence(foot float64) string {
	if s.known.Reach <= 0 || s.stated.MeasuredIn != "base" {
		return ""
	}
	return fmt.Sprintf("most points would lie %.4g mm from the arm's foot, its reach is %.4g mm", foot*1000, s.known.Reach*1000)
}

// extents returns, in the table's own unit, the extent of all points, the
// distance from their middle within which three quarters lie, and the usual
// distance from the origin.
func (s *sheet) extents() (most, usual, foot float64) {
	var places []r3.Vec
	for i, r := range s.records {
		if len(columnsOf(r, role.isAxis)) == 3 && s.fills(r, role.isAxis) {
			places = append(places, s.position(i))
		}
	}
	if len(places) == 0 {
		return 0, 0, 0
	}
	middle := median3(places)
	var away, out []float64
	for _, p := range places {
		away = append(away, p.Dist(middle))
		out = append(out, p.Norm())
		most = max(most, p.Dist(places[0]))
	}
	slices.Sort(away)
	return most, away[len(away)*3/4], median(out)
}

// joints settles the unit of joint values.
func (s *sheet) joints() {
	kind := func(r role) bool { return r.isJoint() && !s.slides(r) }
	symbol, all := s.headUnit(kind, unit.Angle)
	answer, given := s.answers["joints"]
	switch {
	case all && given && answer != symbol:
		s.problem(0, fmt.Sprintf("joint values whose unit the table states as %s, and the answer %s", symbol, answer), "correct the one that is wrong")
	case all:
		s.settle("joints", symbol, "the table states the unit with the numbers", Stated)
		s.stated.Joints = symbol
		return
	}
	reach := s.reachOf(kind)
	s.stated.Joints, _ = s.ask(angleQuestion("joints", "Are the joint values in degrees or radians?", reach, mostJoint*unit.Deg, s.answers["joints"]))
}

// angleQuestion offers degrees and, where no value is beyond most (rad),
// radians.
func angleQuestion(id, text string, reach, most float64, answer string) Question {
	q := Question{ID: id, Default: -1, Text: text + fmt.Sprintf(" The largest is %.6g.", reach)}
	if reach <= most || answer == "rad" {
		q.Choices = append(q.Choices, Choice{"rad", "radians", fmt.Sprintf("the largest would be %.4g deg", reach/unit.Deg)})
	}
	evidence := fmt.Sprintf("nothing would turn further than %.4g deg", reach)
	if len(q.Choices) == 0 {
		evidence = fmt.Sprintf("%.6g radians would be %.4g turns", reach, reach/(2*math.Pi))
	}
	q.Choices = append(q.Choices, Choice{"deg", "degrees", evidence})
	if len(q.Choices) > 1 && reach > 0 {
		q.Default = 0 // so small in every row: radians are far more likely
	}
	return q
}

// reachOf returns the value that nine of ten numbers of a kind do not exceed,
// or the largest where there are few: one slip must not decide a unit.
func (s *sheet) reachOf(kind func(role) bool) float64 {
	var v []float64
	for _, r := range s.records {
		for _, c := range columnsOf(r, kind) {
			if x, ok := s.number(r, c); ok {
				v = append(v, math.Abs(x))
			}
		}
	}
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[(len(v)-1)*19/20]
}

// Bounds of speeds along a path, m/s: what the job document takes.
const (
	slowest = 0.001
	fastest = 3
)

// speeds settles the unit of the column of speeds.
func (s *sheet) speeds() {
	kind := func(r role) bool { return r == speed }
	symbol, all := s.headUnit(kind, unit.Speed)
	answer, given := s.answers["speeds"]
	switch {
	case all && given && answer != symbol:
		s.problem(0, fmt.Sprintf("speeds whose unit the table states as %s, and the answer %s", symbol, answer), "correct the one that is wrong")
	case all:
		s.settle("speeds", symbol, "the table states the unit with the numbers", Stated)
		s.stated.Speeds = symbol
		return
	}
	reach := s.reachOf(kind)
	q := Question{ID: "speeds", Default: -1, Text: fmt.Sprintf("In which unit are the speeds? The largest is %.6g.", reach)}
	for _, sc := range scales {
		if v := reach * sc.si; sc.kind == unit.Speed && (v >= slowest && v <= fastest || sc.symbol == answer) {
			q.Choices = append(q.Choices, Choice{sc.symbol, sc.symbol, fmt.Sprintf("the fastest would be %.4g mm/s", v*1000)})
		}
	}
	if len(q.Choices) == 0 {
		s.problem(0, fmt.Sprintf("speeds up to %g, which no unit makes a speed of an arm", reach), "correct the speeds, or name the column otherwise")
		return
	}
	s.stated.Speeds, _ = s.ask(q)
}

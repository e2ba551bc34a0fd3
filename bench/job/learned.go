package job

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
)

// Learned is what gauge readings have taught about settings sets, as a file of its
// own holds it: the readings, and the belief that follows from them.
type Learned struct {
	File string
	Sets []LearnedSet // in the order of the file
	At   Place        // where the job names the file
}

// LearnedSet is what was learned about one settings set.
type LearnedSet struct {
	ID       string
	Wire     float64 // wire diameter that it was learned with, m
	Transfer weld.Transfer
	// Start is the belief before the first reading, Belief that after the last one
	// that counts: Start taught by the readings one after the other.
	Start, Belief deposit.Belief
	Readings      []LearnedReading
	at            Place
}

// LearnedReading is one place of a weld as it was gauged.
type LearnedReading struct {
	Date           string  // year-month-day
	Seam, Revision string  // of the job, "" where it has none
	At             float64 // from the weld start, m, where Placed
	Placed         bool
	Gauged         deposit.Gauged
	// LeftOut says why the reading does not count, "" where it does.
	LeftOut string
	at      Place
}

// Same reports whether two readings are one, entered twice.
func (r LearnedReading) Same(o LearnedReading) bool {
	r.at, o.at, r.LeftOut, o.LeftOut = Place{}, Place{}, "", ""
	return r == o
}

// Counted is how many readings count.
func (s *LearnedSet) Counted() int {
	n := 0
	for _, r := range s.Readings {
		if r.LeftOut == "" {
			n++
		}
	}
	return n
}

// Set returns what was learned about a settings set, nil for nothing.
func (l *Learned) Set(id string) *LearnedSet {
	if l == nil {
		return nil
	}
	for i := range l.Sets {
		if l.Sets[i].ID == id {
			return &l.Sets[i]
		}
	}
	return nil
}

// Teach adds a reading. One that contradicts what is believed by then is kept and
// does not count; the error says why.
func (s *LearnedSet) Teach(r LearnedReading) error {
	taught, err := deposit.Learn(s.Belief, []deposit.Gauged{r.Gauged})
	if err != nil {
		err = errors.New(strings.TrimPrefix(err.Error(), "learn: reading 1: ")) // there is but one
		r.LeftOut = cut200(err.Error())
	} else {
		s.Belief = taught.After
	}
	s.Readings = append(s.Readings, r)
	return err
}

// cut200 shortens a text to what a text of the document may be.
func cut200(text string) string {
	if r := []rune(text); len(r) > maxText {
		return string(r[:maxText])
	}
	return text
}

// DecodeLearned reads a file of what was learned. The error is a *Problems with
// all that is wrong in it.
func DecodeLearned(file string, files Files) (*Learned, error) {
	ps := &Problems{}
	d := learnedDraft{file: ref{text: file}}
	readAlone(ps, file, files, d.whole())
	d.follow(ps)
	if err := ps.err(); err != nil {
		return nil, err
	}
	return &Learned{File: file, Sets: d.sets}, nil
}

// learnedDraft is a file of what was learned while it is read.
type learnedDraft struct {
	file ref
	sets []LearnedSet
}

// The ranges of sense of what is learned, common practice, no source.
var (
	learnedLeg  = span{1 * unit.MM, 60 * unit.MM}     // m
	learnedStep = span{0.01 * unit.MM, 2 * unit.MM}   // m
	learnedAt   = span{0, 1000}                       // m
	gaugeAngle  = span{30 * unit.Deg, 150 * unit.Deg} // rad
)

func (d *learnedDraft) whole() record {
	return record{mend: "name a file that seamwright gauge has written", fields: []field{
		need("learned", versionOne()),
		need("sets", manyOf(&d.sets, 0, maxSets, "settings sets", learnedSetForm)),
	}}
}

func learnedSetForm(s *LearnedSet) form {
	var eta, face, spread float64
	var count string
	return record{at: &s.at, example: "{id: 11, wire: 1.0 mm, ...}", fields: []field{
		need("id", text(&s.ID, "11")),
		need("wire", quantity(unit.Length, &s.Wire, wireDiameter, "1.0 mm")),
		need("transfer", transferForm(&s.Transfer)),
		need("start", record{fields: []field{
			need("efficiency", quantity(unit.Ratio, &eta, efficiency, "97 percent")),
			need("face_factor", number(&face, convexity, "1.10")),
		}}),
		may("belief", record{fields: []field{ // for people: it follows from the readings
			may("efficiency", quantity(unit.Ratio, &spread, span{0, 1}, "96 percent")),
			may("efficiency_spread", quantity(unit.Ratio, &spread, span{0, 1}, "2 percent")),
			may("face_factor", number(&spread, convexity, "1.10")),
			may("face_spread", quantity(unit.Ratio, &spread, span{0, 1}, "6 percent")),
			may("readings", text(&count, "6")),
		}}),
		need("readings", manyOf(&s.Readings, 0, maxPoints, "readings", learnedReadingForm)),
	}, check: func(ps *Problems, n node, clean bool) {
		if !clean {
			return
		}
		start, err := deposit.NewBelief(eta, face)
		if err != nil {
			ps.add(n.at, "a start that cannot be ("+err.Error()+")", "figures within their ranges", "correct them")
		}
		s.Start = start
	}}
}

func learnedReadingForm(r *LearnedReading) form {
	g := &r.Gauged
	return record{at: &r.at, example: "{date: 2031-05-12, seam: W1, ...}", fields: []field{
		need("date", dateForm(&r.Date)),
		need("seam", text(&r.Seam, "W1")),
		may("revision", text(&r.Revision, "A")),
		may("at", quantity(unit.Length, &r.At, learnedAt, "40 mm")),
		need("travel", quantity(unit.Speed, &g.Travel, weldSpeed, "6.8 mm/s")),
		need("feed", quantity(unit.WireFeed, &g.Melt.Feed, wireFeed, "9 m/min")),
		need("angle", quantity(unit.Angle, &g.Angle, gaugeAngle, "90 deg")),
		need("leg_base", quantity(unit.Length, &g.LegBase, learnedLeg, "6.2 mm")),
		need("leg_upright", quantity(unit.Length, &g.LegOther, learnedLeg, "5.8 mm")),
		may("throat", quantity(unit.Length, &g.Throat, learnedLeg, "4.1 mm")),
		need("step", quantity(unit.Length, &g.Step, learnedStep, "0.1 mm")),
		may("left_out", text(&r.LeftOut, "another wire was in")),
	}, check: func(_ *Problems, n node, _ bool) { r.Placed = n.has("at") }}
}

var datePattern = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}$`)

// CheckDate reports a date that is not a year-month-day of the calendar, such as
// 2031-05-12.
func CheckDate(s string) error {
	if _, err := time.Parse(time.DateOnly, s); err != nil || !datePattern.MatchString(s) {
		return fmt.Errorf("%s is no date; write year-month-day, such as 2031-05-12", quote(s))
	}
	return nil
}

// dateForm is the form of a date.
func dateForm(dst *string) single {
	const example = "2031-05-12"
	return single{allowed: "a date as year-month-day", example: example, json: schema{"type": "string", "examples": []string{example}},
		take: func(s string) *wrong {
			if CheckDate(s) != nil {
				return &wrong{}
			}
			*dst = s
			return nil
		}}
}

// follow works the beliefs out from the readings, and reports what does not follow.
func (d *learnedDraft) follow(ps *Problems) {
	if ps.count() > 0 {
		return
	}
	seen := map[string]bool{}
	for i := range d.sets {
		s := &d.sets[i]
		if seen[s.ID] {
			ps.add(s.at, quote(s.ID)+" again", "each settings set once", "put its readings into one list")
		}
		seen[s.ID] = true
		s.Belief = s.Start
		for k := range s.Readings {
			r := &s.Readings[k]
			r.Gauged.Melt.WireDiameter = s.Wire
			if r.LeftOut != "" {
				continue
			}
			taught, err := deposit.Learn(s.Belief, []deposit.Gauged{r.Gauged})
			if err != nil {
				ps.add(r.at, "a reading that contradicts those before it ("+err.Error()+")", "readings that go together", "add left_out with the reason to the reading, or correct it")
				continue
			}
			s.Belief = taught.After
		}
	}
}

// readFile reads the file that the document names.
func (d *learnedDraft) readFile(ps *Problems, files Files) {
	if d.file.text == "" {
		return
	}
	before := ps.count()
	if data, ok := read(ps, files, d.file.text, d.file.at, maxYAMLBytes); ok {
		if root, ok := readTree(d.file.text, data, ps); ok {
			d.whole().read(ps, root)
		}
	}
	if ps.count() > before {
		d.sets = nil
		return
	}
	fresh := &Problems{}
	d.follow(fresh)
	for _, p := range fresh.List {
		ps.add(p.Place, p.Found, p.Allowed, p.Mend)
	}
}

// resolve gives the settings sets what was learned about them.
func (d *learnedDraft) resolve(ps *Problems, j *Job) {
	if d.file.text == "" {
		return
	}
	j.Learned = &Learned{File: d.file.text, Sets: d.sets, At: d.file.at}
	for _, s := range d.sets {
		i := slices.IndexFunc(j.Settings, func(set procedure.Settings) bool { return set.ID == s.ID })
		if i < 0 {
			continue // of another job
		}
		set := &j.Settings[i]
		if !s.Of(*set) {
			u := unit.Millimetres
			ps.add(s.at, fmt.Sprintf("settings set %q learned with wire %s, %v", s.ID, unit.Exact(s.Wire, u), s.Transfer), fmt.Sprintf("what the set has: wire %s, %v", unit.Exact(set.WireDiameter, u), set.Transfer),
				"begin a new file of what is learned, or give the set an id of its own")
			continue
		}
		set.Efficiency, set.Convexity = s.Belief.Efficiency, s.Belief.FaceFactor
	}
}

// Of reports whether the set is the one that this was learned about: the same
// wire and transfer.
func (s *LearnedSet) Of(set procedure.Settings) bool {
	return set.Transfer == s.Transfer && set.WireDiameter-s.Wire < sameWire && s.Wire-set.WireDiameter < sameWire
}

// sameWire is how far two diameters of one wire may be apart, m: rounding.
const sameWire = 1e-9

package draft

import (
	"fmt"
	"math"
	"path"
	"slices"
	"strings"

	"seamwright/bench/intake"
	"seamwright/unit"
)

// welds is what the drawing and the shop say of the seams.
type welds struct {
	title, code        string
	joint, size        map[*seam]entry
	area               map[*seam]float64 // m2, roughly
	basePlate, upright map[*seam]entry
	settings           map[*seam]entry
	travel             entry
	fill               []string         // settings sets that have to be filled in
	baseValue          map[*seam]string // the answer
	baseNormal         map[*seam]faced
	codeNote           string
}

// findWelds asks what the points cannot tell: the joint, its size, its plates,
// the lean of the torch and the settings set.
func (m *maker) findWelds() error {
	m.joint, m.size = map[*seam]entry{}, map[*seam]entry{}
	m.basePlate, m.upright, m.settings = map[*seam]entry{}, map[*seam]entry{}, map[*seam]entry{}
	m.area, m.baseValue, m.baseNormal = map[*seam]float64{}, map[*seam]string{}, map[*seam]faced{}
	m.askTitle()
	m.askCode()
	m.each("joint", "How do the plates meet?", m.seams, m.jointQuestion, func(s *seam, v string) {
		m.joint[s] = entry{"joint", v, m.noteOf(s, "joint")}
	})
	if len(m.joint) < len(m.seams) {
		return nil
	}
	m.askSizes()
	m.each("base", "How does the base plate lie, the one that is welded to?", m.seams, m.baseQuestion, m.takeBase)
	if len(m.baseNormal) < len(m.seams) {
		return nil
	}
	m.each("upright", "Where does the upright stand, seen along the travel with the base plate's face towards you?", m.withUpright(), m.uprightQuestion, m.takeUpright)
	m.askTravel()
	m.askSettings()
	return nil
}

// noteOf says where a seam's answer comes from, its own or that for all.
func (m *maker) noteOf(s *seam, id string) string {
	own := s.name + "." + id
	all, together := m.answers[id]
	if _, answered := m.answers[own]; answered || !together || all.Value == apiece {
		return m.note(own)
	}
	if evidence := m.proof[own]; all.How == Accepted && evidence != "" {
		return string(Accepted) + ": " + evidence
	}
	return m.note(id)
}

func (m *maker) askTitle() {
	q := Question{Question: intake.Question{ID: "name", Default: -1, Text: "What is the job called?"}, Free: "a name on one line, such as Hopper skirt, left hand",
		check: trial{"", "name"}.quantity(nil)}
	if name := oneLine(strings.TrimSuffix(path.Base(m.Source), path.Ext(m.Source))); name != "" && m.Source != "" && (trial{"", "name"}).judge(quoted(name), nil) == nil {
		q.Choices, q.Default = []intake.Choice{{Value: name, Text: name, Evidence: "the name of the table"}}, 0
	}
	m.title, _ = m.ask(q)
}

func (m *maker) askCode() {
	if m.Like != nil {
		m.code, m.codeNote = strings.ToLower(m.Like.Job.Code.String()), string(AsLike)
		return
	}
	q := Question{Question: intake.Question{ID: "code", Default: 0, Text: "Which family of standards does the drawing follow?", Choices: []intake.Choice{
		{Value: "iso", Text: "ISO: symbols of ISO 2553, positions PA to PG", Evidence: fmt.Sprintf("the points are in %s", orElse(m.Table.Stated.Length, "mm"))},
		{Value: "aws", Text: "AWS: symbols of AWS A2.4, positions 1F to 4G"},
	}}}
	if m.Table.Stated.Length == "in" {
		q.Default = 1
		q.Choices[1].Evidence, q.Choices[0].Evidence = "the points are in inches", ""
	}
	m.code, _ = m.ask(q)
	m.codeNote = m.note("code")
}

// joints are the joint types and what a person may call them.
var joints = []intake.Choice{
	{Value: "tee", Text: "a plate stands on another: T"},
	{Value: "lap", Text: "a plate lies on another"},
	{Value: "inside corner", Text: "two plates meet at their edges, welded inside"},
	{Value: "outside corner", Text: "two plates meet at their edges, welded outside"},
	{Value: "butt", Text: "two edges in one plane"},
	{Value: "edge", Text: "two plates lie on each other, welded at their edges"},
}

func (m *maker) jointQuestion(s *seam) Question {
	return Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("How do the plates of %s meet?%s", s.name, m.lies(s)), Choices: slices.Clone(joints)}}
}

// lies says what is known of a seam, for the text of a question.
func (m *maker) lies(s *seam) string {
	switch from, to := m.kept[s.start].Label, m.kept[s.end].Label; {
	case s.goesRound():
		return fmt.Sprintf(" It goes all round from %q.", from)
	case s.kind == line:
		return fmt.Sprintf(" It is %s long, from %q to %q.", m.length(s.shape.length), from, to)
	default:
		return fmt.Sprintf(" It runs from %q to %q.", from, to)
	}
}

// groove says whether a seam's size is an area.
func (m *maker) groove(s *seam) bool {
	v := m.joint[s].value
	return v == "butt" || v == "edge"
}

func (m *maker) withUpright() []*seam {
	return slices.DeleteFunc(slices.Clone(m.seams), m.groove)
}

// askSizes asks for the sizes on the drawing; grooves have areas.
func (m *maker) askSizes() {
	take := func(s *seam, v string) {
		value, _ := sizeYAML(v)
		m.size[s] = entry{"weld", value, m.noteOf(s, "weld")}
		m.area[s] = sectionOf(v)
	}
	fillets := m.withUpright()
	grooves := slices.DeleteFunc(slices.Clone(m.seams), func(s *seam) bool { return !m.groove(s) })
	if len(grooves) > 0 && len(fillets) > 0 {
		for _, s := range m.seams { // the two are said in different measures
			m.each("weld", "", []*seam{s}, m.sizeQuestion, take)
		}
		return
	}
	m.each("weld", "What size does the drawing call for?", m.seams, m.sizeQuestion, take)
}

func (m *maker) sizeQuestion(s *seam) Question {
	q := Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("What size does the drawing call for at %s?", s.name)}}
	others := map[trial]string{{"seams", "joint"}: m.joint[s].value}
	q.Free = "the measure and the size, such as leg 5 mm, throat 3.5 mm or legs 6 mm and 9 mm (base plate first)"
	if m.groove(s) {
		others[trial{"seams", "upright"}] = ""
		q.Free = "the area of the groove, such as area 22 mm2"
	}
	q.check = func(text string) (string, error) {
		value, err := sizeYAML(text)
		if err != nil {
			return "", err
		}
		return text, trial{"seams", "weld"}.judge(value, others)
	}
	return q
}

// sizeYAML writes a typed size as the document has it: which measure it is must
// be said.
func sizeYAML(text string) (string, error) {
	measure, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	rest = strings.TrimSpace(rest)
	switch measure = strings.ToLower(measure); measure {
	case "leg", "throat", "area":
		return fmt.Sprintf("{%s: %s}", measure, quoted(rest)), nil
	case "legs":
		base, upright, both := strings.Cut(rest, " and ")
		if both {
			return fmt.Sprintf("{legs: {base: %s, upright: %s}}", quoted(strings.TrimSpace(base)), quoted(strings.TrimSpace(upright))), nil
		}
	}
	return "", fmt.Errorf("say which measure it is: leg 5 mm, throat 3.5 mm, legs 6 mm and 9 mm, or area 22 mm2")
}

// sectionOf is about the section (m2) of a typed size, between square plates
// and a tenth larger for a convex face.
func sectionOf(text string) float64 {
	measure, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	size := func(k unit.Kind, text string) float64 {
		x, err := unit.Parse(k, strings.TrimSpace(text))
		if err != nil {
			return 0
		}
		return x
	}
	switch strings.ToLower(measure) {
	case "leg":
		return 1.1 / 2 * math.Pow(size(unit.Length, rest), 2)
	case "throat":
		return 1.1 * math.Pow(size(unit.Length, rest), 2)
	case "legs":
		base, upright, _ := strings.Cut(rest, " and ")
		return 1.1 / 2 * size(unit.Length, base) * size(unit.Length, upright)
	}
	return size(unit.Area, rest)
}

// askTravel asks how the torch leans along the travel.
func (m *maker) askTravel() {
	q := Question{Question: intake.Question{ID: "travel", Default: -1, Text: "How shall the torch lean along the travel?", Choices: []intake.Choice{
		{Value: "push 10 deg", Text: "push: the wire points the way the weld goes"},
		{Value: "drag 10 deg", Text: "drag: the wire points back at the weld"},
		{Value: "0 deg", Text: "neither: square to the seam"},
	}}, Free: "push or drag with an angle, such as push 8 deg", check: func(text string) (string, error) {
		return text, trial{"seams", "torch"}.judge("{travel: "+quoted(text)+"}", nil)
	}}
	if mean, from, to, count := m.taughtTravel(); count > 0 && (to-from < 2*math.Abs(mean) || to-from < spreadMost) {
		evidence := fmt.Sprintf("as taught it leans %s on average of %s (%s to %s)", lean(mean), counted(count, "pose", "poses"), lean(from), lean(to))
		pick := 2
		switch {
		case mean > 4*unit.Deg:
			pick = 0
		case mean < -4*unit.Deg:
			pick = 1
		}
		q.Choices[pick].Evidence, q.Default = evidence, pick
	}
	if value, ok := m.ask(q); ok {
		m.travel = entry{"travel", quoted(value), m.note("travel")}
	}
}

// spreadMost is how far travel angles as taught may differ, rad, where they
// tell what is wanted although some push and some drag: 10 deg of hand guiding
// on either side (common practice, no source).
const spreadMost = 20 * unit.Deg

// taughtTravel returns the mean, least and largest travel angle as taught, rad.
func (m *maker) taughtTravel() (mean, from, to float64, count int) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, s := range m.seams {
		for _, t := range s.shape.torches {
			a := t.angle()
			mean, from, to = mean+a, min(from, a), max(to, a)
			count++
		}
	}
	return mean / float64(max(count, 1)), from, to, count
}

// lean says a travel angle (rad) in words.
func lean(x float64) string {
	d := math.Round(x / unit.Deg)
	switch {
	case d > 0:
		return fmt.Sprintf("push %.0f deg", d)
	case d < 0:
		return fmt.Sprintf("drag %.0f deg", -d)
	}
	return "0 deg"
}

// fillIn is how a settings set, or a procedure, is called that is still a
// template.
const fillIn = "fill in"

// askSettings asks which set each seam is welded with, or names the template.
func (m *maker) askSettings() {
	if m.Settings == nil {
		m.template()
		return
	}
	m.each("settings", "Which settings set are the seams welded with?", m.seams, func(s *seam) Question {
		q := Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("Which settings set is %s welded with?", s.name)}}
		for i, id := range m.Settings.IDs {
			c := intake.Choice{Value: id, Text: "set " + id}
			if m.kept[s.start].Settings == id {
				c.Evidence, q.Default = fmt.Sprintf("%q names it", m.kept[s.start].Label), i
			}
			q.Choices = append(q.Choices, c)
		}
		if len(q.Choices) == 1 {
			q.Default = 0
			q.Choices[0].Evidence = "the only set in " + m.Settings.File
		}
		return q
	}, func(s *seam, v string) { m.settings[s] = entry{"settings", quoted(v), m.noteOf(s, "settings")} })
}

// template names the sets that the rows name, and one to fill in for seams
// whose rows name none.
func (m *maker) template() {
	add := func(id string) {
		if !slices.Contains(m.fill, id) {
			m.fill = append(m.fill, id)
		}
	}
	for _, s := range m.seams {
		id, note := fillIn, "no file with settings sets was given: fill in "+SettingsFile
		if own := m.kept[s.start].Settings; own != "" {
			id, note = own, fmt.Sprintf("%q names it: fill in %s", m.kept[s.start].Label, SettingsFile)
		}
		add(id)
		m.settings[s] = entry{"settings", quoted(id), note}
	}
	for _, r := range m.kept {
		if r.Settings != "" {
			add(r.Settings)
		}
	}
}

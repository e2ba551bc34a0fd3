package draft

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/intake"
)

// write makes the files.
func (m *maker) write() Document {
	points := make([]intake.Point, len(m.kept))
	for i, r := range m.kept {
		points[i] = r.Point
	}
	d := Document{Files: []File{
		{JobFile, m.job()},
		{PointsFile, intake.Canonical(points, m.Table.Stated)},
	}}
	for _, s := range m.seams {
		d.Names = append(d.Names, s.name)
		d.Seams = append(d.Seams, m.summary(s))
	}
	if len(m.fill) > 0 {
		d.Files = append(d.Files, File{SettingsFile, m.settingsTemplate()})
		d.Left = append(d.Left, fmt.Sprintf("fill in %s: no file with settings sets was given, and the plan stops until it is filled in", SettingsFile))
	}
	if m.Procedure == "" {
		d.Files = append(d.Files, File{ProcedureFile, m.procedureTemplate()})
		d.Left = append(d.Left, fmt.Sprintf("fill in %s and take the # from its line in %s: no procedure was given, and settings are held against none", ProcedureFile, JobFile))
	}
	d.Left = append(d.Left, m.left...)
	if unused := m.unused(); unused != "" {
		d.Left = append(d.Left, unused)
	}
	return d
}

// summary says what a seam was made of.
func (m *maker) summary(s *seam) string {
	out := fmt.Sprintf("%s: %s %s, %s joint, %s", s.name, s.kind, strings.Join(m.labels(s.path), " - "), m.joint[s].value, strings.Trim(m.size[s].value, "{}"))
	if s.kind == line {
		out += ", " + m.length(s.shape.length)
	}
	return out
}

// unused names the points that no seam takes.
func (m *maker) unused() string {
	used := map[int]bool{m.home: true}
	for _, s := range m.seams {
		for _, i := range slices.Concat(s.path, s.taught, []int{s.approach, s.retreat}) {
			used[i] = true
		}
		for _, t := range s.touches {
			for _, value := range []string{m.basePlate[s].value, m.upright[s].value} {
				if strings.Contains(value, quoted(m.kept[t.rows[0]].Label)) {
					for _, i := range t.rows {
						used[i] = true
					}
				}
			}
		}
	}
	var out []string
	for i, r := range m.kept {
		if !used[i] && !m.sameAsHome(i) {
			out = append(out, fmt.Sprintf("%q", r.Label))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "no seam uses " + inWords(out, "and") + "; points to pass on the way go into through: [...] of a seam, touches of a plate into base or upright: {touched: [...]}"
}

// job writes the document.
func (m *maker) job() []byte {
	p := &page{}
	m.head(p)
	p.put("seamwright: 1", "")
	p.put("name: "+quoted(m.title), m.note("name"))
	p.put("# part: HS-204 L", "no part, drawing and revision were given")
	p.put("# drawing: HS-204 sheet 2", "")
	p.put("# revision: A", "")
	p.put("code: "+m.code, m.codeNote)
	p.blank()
	for _, section := range []struct {
		name  string
		write func(*page)
	}{{"arm", m.armSection}, {"torch", m.torchSection}, {"cell", m.cellSection}, {"air", m.airSection}} {
		if text := m.followed[section.name]; text != "" {
			p.say("", fmt.Sprintf("%s: as in %s.", section.name, m.Like.Name))
			p.b.WriteString(text)
		} else {
			section.write(p)
		}
		p.blank()
	}
	m.pointsSection(p)
	p.blank()
	p.put("home: "+quoted(m.kept[m.home].Label), m.note("home"))
	file := SettingsFile
	if m.Settings != nil {
		file = m.Settings.File
	}
	p.put("settings: {file: "+quoted(file)+"}", "")
	if m.Procedure != "" {
		p.put("procedure: {file: "+quoted(m.Procedure)+"}", "")
	} else {
		p.put("# procedure: {file: "+ProcedureFile+"}", "fill in that file, then take the # away here")
	}
	p.blank()
	p.put("defaults:", "of all seams; a seam that says otherwise has its own way")
	p.put("  torch:", "")
	p.put("    travel: "+m.travel.value, m.travel.note)
	p.put("    spin: as taught", "default: as taught where that reaches, else the nearest that does")
	p.put("    # work: 45 deg", "left out: half-way between the plates, 0 deg at butt and edge joints")
	p.put("  # gap: 0 mm", "left out: none")
	p.blank()
	p.put("seams:", "")
	for _, s := range m.seams {
		m.seam(p, s)
	}
	return []byte(p.b.String())
}

// head says where the document comes from, what was found out about the table
// and what looks like a slip.
func (m *maker) head(p *page) {
	p.say("", fmt.Sprintf("Made by seamwright new from %s, %s; the file original holds it byte by byte.", orElse(m.Source, "a table"), counted(len(m.kept), "point", "points")))
	p.say("", "Not checked on the machine. Behind # stands where a value comes from: answered (by a person), default taken (shown and accepted), or what the table states.")
	if len(m.Slips) > 0 {
		p.b.WriteString("#\n")
		p.say("", "LOOK AT THESE: numbers that look like slips. Nothing was changed.")
		for _, s := range m.Slips {
			p.say("", "- "+SlipText(s))
		}
	}
	if len(m.Missing) > 0 {
		p.b.WriteString("#\n")
		p.say("", "ROWS THAT COULD NOT BE TAKEN:")
		for _, x := range m.Missing {
			p.say("", "- "+ProblemText(x))
		}
	}
	if left := m.leftOver(); len(left) > 0 {
		p.b.WriteString("#\n")
		for _, l := range left {
			p.say("", "- "+l)
		}
	}
}

func (m *maker) leftOver() []string {
	left := slices.Clone(m.left)
	if unused := m.unused(); unused != "" {
		left = append(left, unused)
	}
	return left
}

// SlipText says a suspicion in one sentence.
func SlipText(s intake.Suspicion) string {
	var lines []string
	for _, l := range s.Lines {
		lines = append(lines, fmt.Sprint(l))
	}
	out := fmt.Sprintf("line %s: %s", strings.Join(lines, ", "), s.Message)
	if s.Likely != "" {
		out += ". Likely: " + s.Likely
	}
	return out
}

// ProblemText says a problem of a row in one sentence.
func ProblemText(p intake.Problem) string {
	if p.Line == 0 {
		return fmt.Sprintf("the table has %s; %s", p.Found, p.Mend)
	}
	return fmt.Sprintf("line %d has %s; %s", p.Line, p.Found, p.Mend)
}

func (m *maker) armSection(p *page) {
	p.put("arm:", "")
	p.put("  urdf: "+quoted(m.Arm.File), "")
	p.put("  base_link: "+quoted(m.base), m.note("base_link"))
	p.put("  flange_link: "+quoted(m.flange), m.note("flange_link"))
	if m.accelerations != "" {
		p.put("  joint_acceleration: "+m.accelerations, m.note("joint_acceleration"))
	} else {
		p.put("  # joint_acceleration: 300 deg/s2", "left out: this value; common practice, no source")
	}
	p.put("  # limit_margin: 5 deg", "left out: this value; common practice, no source")
	p.put("  # wrist_margin: 10 deg", "left out: this value; common practice, no source")
}

func (m *maker) torchSection(p *page) {
	p.put("torch:", "")
	for _, e := range m.torch {
		p.put("  "+e.field+": "+e.value, e.note)
	}
}

func (m *maker) cellSection(p *page) {
	if len(m.cell) == 0 {
		p.put("# cell:", "left out: the arm stands upright on its foot, which is the world's origin; a level on the foot tells")
		p.put("#   world_from_base: {at: [0 mm, 0 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 0]}", "")
		return
	}
	p.put("cell:", "")
	for _, e := range m.cell {
		p.put("  "+e.field+": "+e.value, e.note)
	}
}

func (m *maker) airSection(p *page) {
	p.put("# air:", "left out: these values, the speed by ISO 10218-1 from memory, the others common practice, no source")
	p.put("#   {tip_speed: 250 mm/s, joint_speed: 25 percent, tip_acceleration: 1000 mm/s2, out: 60 mm}", "")
}

// tableNote says where a word of the points comes from: a fact of the table.
func (m *maker) tableNote(id string) string {
	for _, f := range m.Table.Facts {
		if f.About != id {
			continue
		}
		if given, answered := m.Answers[id]; answered {
			if given.How == Accepted && f.Evidence != "" {
				return string(given.How) + ": " + f.Evidence
			}
			if given.How == AsLike && m.Like != nil {
				return "as in " + m.Like.Name
			}
			return orElse(string(given.How), string(Answered))
		}
		return f.Evidence
	}
	return ""
}

func (m *maker) pointsSection(p *page) {
	w := m.Table.Stated
	p.put("points:", "")
	for _, e := range []struct{ field, value string }{
		{"measured_in", orElse(w.MeasuredIn, "base")}, {"point", w.Point}, {"length", w.Length},
		{"orientation", w.Orientation}, {"joints", w.Joints}, {"speeds", w.Speeds},
	} {
		if e.value != "" {
			p.put("  "+e.field+": "+quoted(e.value), m.tableNote(e.field))
		}
	}
	if m.list {
		p.put("  list: true", m.note("list"))
	}
	p.put("  file: "+PointsFile, "")
}

// seam writes one seam; what is left out is said at the first.
func (m *maker) seam(p *page, s *seam) {
	first := s == m.seams[0]
	settings := m.settings[s]
	if !first && m.Settings == nil {
		settings.note = ""
	}
	p.put("  - name: "+quoted(s.name), "")
	for _, e := range []entry{
		m.joint[s],
		{s.kind, listOf(m.labels(s.path)), s.kindNote},
		{"closed", closedText(s), ""},
		{"overlap", quoted(s.overlap), s.overlapNote},
		{"taught", listOf(m.labels(s.taught)), "taught by hand beside the points of the path"},
		m.basePlate[s],
		m.upright[s],
		m.size[s],
		settings,
		m.leave(s.approach, "approach"),
		m.leave(s.retreat, "retreat"),
	} {
		switch {
		case e.field == "" || e.field == "closed" && e.value == "" || e.field == "overlap" && !s.goesRound() || e.field == "taught" && len(s.taught) == 0:
		case e.value == "" && first:
			p.put("    # "+e.field+": {out: 60 mm}", e.note)
		case e.value == "":
		default:
			p.put("    "+e.field+": "+e.value, e.note)
		}
	}
	if s.kind == polyline {
		p.put("    # corners: {radius: 15 mm}", "left out: sharp corners")
	}
	if first {
		p.put("    # thickness: {base: 8 mm, upright: 6 mm}", "not given: the least size for the plates is not checked")
	}
	p.blank()
}

// closedText says of a path that can be open that it is not.
func closedText(s *seam) string {
	if s.closed && s.kind != circle {
		return "true"
	}
	return ""
}

// leave is the approach or retreat: a taught point, or left out.
func (m *maker) leave(i int, field string) entry {
	if i < 0 {
		return entry{field, "", "left out: straight back along the wire, as far as air.out says"}
	}
	return entry{field, quoted(m.kept[i].Label), ""}
}

package job

import (
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"seamwright/unit"
	"seamwright/weld/accept"
)

// Gaugings are what somebody read off finished welds.
type Gaugings struct {
	Date string // year-month-day, "" where the file does not say
	Rows []Gauging
}

// Gauging is what was read at one place of a seam.
type Gauging struct {
	Seam string
	// Readings belong together; each has its step, and the place where one was
	// given.
	Readings []accept.Reading
	// Clean says that the seam was looked over and nothing seen: no crack, no lack
	// of fusion, no stray arc and so on.
	Clean bool
	// Travel and Feed are as welded, m/s; 0: as planned.
	Travel, Feed float64
	Place        Place
}

// GaugeWord is a word of a reading and what it measures.
type GaugeWord struct {
	Word    string
	Measure accept.Measure
}

// gaugeWords are the words of readings, in the order in which documents list them.
var gaugeWords = []GaugeWord{
	{"leg_base", accept.LegBase}, {"leg_upright", accept.LegOther}, {"throat", accept.Throat}, {"face", accept.FaceWidth},
	{"convexity", accept.Convexity}, {"undercut", accept.Undercut}, {"overlap", accept.Overlap}, {"length", accept.ElementLength},
	{"pitch", accept.ElementPitch}, {"excess", accept.Excess}, {"root_excess", accept.RootExcess}, {"root_width", accept.RootWidth},
	{"underfill", accept.Underfill}, {"root_hollow", accept.RootHollow}, {"toe_angle", accept.ToeAngle}, {"misalignment", accept.Misalignment},
	{"root_gap", accept.RootGap}, {"pore", accept.SurfacePore}, {"crater", accept.CraterDepth}, {"pores_25", accept.PoreSum25}, {"pores_300", accept.PoreSum300},
	{"crack", accept.Crack}, {"crater_crack", accept.CraterCrack}, {"lack_of_fusion", accept.LackOfFusion}, {"burn_through", accept.BurnThrough},
	{"stray_arc", accept.StrayArc}, {"spatter", accept.Spatter}, {"unfilled_crater", accept.UnfilledCrater},
}

// GaugeWords returns the words of readings.
func GaugeWords() []GaugeWord { return append([]GaugeWord(nil), gaugeWords...) }

// Ranges of sense of readings, common practice, no source; accept checks its own.
var (
	gaugeRead  = span{0, 150 * unit.MM}              // m
	tapeRead   = span{0, 1000}                       // m
	gaugeStep  = span{0.01 * unit.MM, 2 * unit.MM}   // m
	tapeStep   = span{0.1 * unit.MM, 10 * unit.MM}   // m
	toeStep    = span{0.1 * unit.Deg, 15 * unit.Deg} // rad
	toeAngle   = span{0, 180 * unit.Deg}             // rad
	placeAlong = span{0, 1000}                       // m
)

// steps are those of the tools, 0 where they are not said.
type steps struct{ gauge, tape, angle float64 } // m, m, rad

// DecodeGaugings reads a table of readings, CSV by the end of its name, else YAML.
// seams are the names that a reading may have; step is that of the gauge where
// the file gives none, m, 0 for none. The error is a *Problems with all that is
// wrong.
func DecodeGaugings(file string, files Files, seams []string, step float64) (*Gaugings, error) {
	ps, d := &Problems{}, gaugingsDraft{usual: steps{gauge: step}}
	if strings.EqualFold(filepath.Ext(file), ".csv") {
		if data, ok := read(ps, files, filepath.Base(file), Place{File: file}, maxCSVBytes); ok {
			d.readCSV(ps, file, data)
		}
	} else {
		readAlone(ps, file, files, d.whole())
	}
	known := newKnown("seam of the job", seams, false)
	out := &Gaugings{Date: d.date}
	for i := range d.rows {
		known.check(ps, d.rows[i].seam)
		out.Rows = append(out.Rows, d.rows[i].finish(ps, d.usual))
	}
	if err := ps.err(); err != nil {
		return nil, err
	}
	return out, nil
}

// gaugingsDraft is a file of readings while it is read.
type gaugingsDraft struct {
	date  string
	usual steps // where a row has none
	rows  []gaugingDraft
}

// gaugingDraft is one row while it is read.
type gaugingDraft struct {
	row      Gauging
	seam     ref
	own      steps
	at, over float64
	placed   bool
	seen     string
	read     node
}

func (d *gaugingsDraft) whole() record {
	return record{mend: "see docs/gauge.md for the form of the document", fields: append(stepFields(&d.usual),
		may("date", dateForm(&d.date)),
		need("readings", manyOf(&d.rows, 1, maxPoints, "readings", (*gaugingDraft).form)),
	)}
}

func stepFields(s *steps) []field {
	return []field{
		may("step", quantity(unit.Length, &s.gauge, gaugeStep, "0.1 mm")),
		may("tape_step", quantity(unit.Length, &s.tape, tapeStep, "1 mm")),
		may("angle_step", quantity(unit.Angle, &s.angle, toeStep, "1 deg")),
	}
}

func (d *gaugingDraft) form() form { return d.table() }

// table is the form of one row.
func (d *gaugingDraft) table() record {
	values := make([]float64, len(gaugeWords))
	fields := []field{
		need("seam", named(&d.seam, "W1")),
		may("at", quantity(unit.Length, &d.at, placeAlong, "40 mm")),
		may("over", quantity(unit.Length, &d.over, placeAlong, "20 mm")),
		may("travel", quantity(unit.Speed, &d.row.Travel, weldSpeed, "6.8 mm/s")),
		may("feed", quantity(unit.WireFeed, &d.row.Feed, wireFeed, "9 m/min")),
		may("seen", oneOf(&d.seen, "none")),
	}
	for i, w := range gaugeWords {
		fields = append(fields, may(w.Word, readingForm(w.Measure, &values[i])))
	}
	return record{at: &d.row.Place, example: "{seam: W1, leg_base: 6.2 mm, leg_upright: 5.8 mm}", fields: append(fields, stepFields(&d.own)...),
		check: func(ps *Problems, n node, clean bool) {
			d.placed, d.read = n.has("at"), n
			d.row.Clean = d.seen == "none"
			for i, w := range gaugeWords {
				if n.has(w.Word) {
					d.row.Readings = append(d.row.Readings, accept.Reading{Measure: w.Measure, Value: values[i]})
				}
			}
			if clean && len(d.row.Readings) == 0 && !d.row.Clean {
				ps.add(n.at, "a row without a reading", "what was read, such as leg_base: 6.2 mm, or seen: none", "add what was read, or delete the row")
			}
		}}
}

// readingForm is the form of one reading.
func readingForm(m accept.Measure, dst *float64) form {
	switch {
	case m == accept.ToeAngle:
		return quantity(unit.Angle, dst, toeAngle, "120 deg")
	case m == accept.ElementLength || m == accept.ElementPitch:
		return quantity(unit.Length, dst, tapeRead, "248 mm")
	case !m.Seen():
		return quantity(unit.Length, dst, gaugeRead, "0.3 mm")
	}
	s := quantity(unit.Length, dst, tapeRead, "3 mm")
	s.allowed, s.example = "none, or how long it is, as "+s.allowed, "none"
	take := s.take
	s.take = func(text string) *wrong {
		if text == "none" {
			*dst = 0
			return nil
		}
		return take(text)
	}
	return s
}

// finish gives every reading its step and its place.
func (d *gaugingDraft) finish(ps *Problems, usual steps) Gauging {
	out := d.row
	out.Seam = d.seam.text
	said := map[string]bool{}
	for i := range out.Readings {
		r := &out.Readings[i]
		r.At, r.Placed, r.Extent = d.at, d.placed, d.over
		own, otherwise, word, example := d.own.gauge, usual.gauge, "step", "0.1 mm"
		switch {
		case r.Measure.Seen():
			continue
		case r.Measure == accept.ToeAngle:
			own, otherwise, word, example = d.own.angle, usual.angle, "angle_step", "1 deg"
		case r.Measure == accept.ElementLength || r.Measure == accept.ElementPitch:
			own, otherwise, word, example = d.own.tape, usual.tape, "tape_step", "1 mm"
		}
		if r.Step = own; r.Step == 0 {
			r.Step = otherwise
		}
		if r.Step == 0 && !said[word] && !d.read.means(word) {
			said[word] = true
			ps.add(d.row.Place.sub(word), "no step for "+r.Measure.String(), "the step of the tool, for a reading is no finer", "add "+word+": "+example+" to the row, or for all rows")
		}
	}
	return out
}

// readCSV reads a table of readings: the names of the columns in the first row.
func (d *gaugingsDraft) readCSV(ps *Problems, file string, data []byte) {
	if !utf8.Valid(data) {
		ps.add(Place{file, 1, 1, ""}, "bytes that are not UTF-8 text", "UTF-8", "save the file as CSV with the encoding UTF-8")
		return
	}
	t := newTable(ps, file, data)
	if !t.gaugingHead() {
		return
	}
	head := t.header
	for {
		cells, ok := t.next()
		if !ok || cells == nil {
			break
		}
		if len(d.rows) >= maxPoints {
			ps.add(t.atRow(), "more rows than a job has welds", "20000 at most", "split the file")
			return
		}
		d.rows = append(d.rows, gaugingDraft{})
		row := node{shape: group, at: t.atRow()}
		if len(cells) > len(head) {
			ps.add(row.at, counted(len(cells), "value"), counted(len(head), "value")+", as many as there are columns", "delete commas; decimals take a point, not a comma")
			cells = cells[:len(head)]
		}
		for i, cell := range cells {
			if cell != "" {
				row.fields = append(row.fields, entry{head[i], t.at(i), node{shape: word, text: cell, at: t.at(i)}})
			}
		}
		d.rows[len(d.rows)-1].form().read(ps, row)
	}
	if len(d.rows) == 0 && ps.count() == 0 {
		ps.add(Place{file, 1, 1, ""}, "no rows below the names of the columns", "at least one reading", "add what was read")
	}
}

// gaugingHead reads the names of the columns of a table of readings.
func (t *table) gaugingHead() bool {
	head, ok := t.next()
	switch {
	case !ok:
		return false
	case len(head) == 0:
		t.ps.add(Place{t.file, 1, 1, ""}, "an empty file", "a first row with the names of the columns", "write seam,at,leg_base,leg_upright,throat,step above the rows")
		return false
	case len(head) == 1 && strings.ContainsAny(head[0], ";\t"):
		t.ps.add(t.atRow(), "columns divided by semicolons or tabs", "commas between columns, points for decimals", "save the file as CSV with commas")
		return false
	}
	t.header = head
	before := t.ps.count()
	names := (&gaugingDraft{}).table().names()
	for i, name := range head {
		switch {
		case slices.Contains(head[:i], name):
			t.ps.add(t.at(i), "the column a second time", "each column once", "rename or delete one of the two")
		case !slices.Contains(names, name):
			t.ps.add(t.at(i), "a column that does not exist here", strings.Join(names, ", "), orNearest(name, names, "rename or delete it"))
		}
	}
	return t.ps.count() == before
}

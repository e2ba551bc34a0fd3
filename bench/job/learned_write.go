package job

import (
	"bytes"
	"fmt"
	"strconv"

	"seamwright/unit"
	"seamwright/weld/deposit"
)

// learnedHead tells people what the file is.
const learnedHead = `# What gauge readings taught about settings sets; written by seamwright gauge.
# Readings are added and none is taken away. The belief follows from start and the
# readings that count. After a change of wire, gas or feeder begin a new file.
learned: 1
`

// Encode writes the file: DecodeLearned reads the same back.
func (l *Learned) Encode() []byte {
	var b bytes.Buffer
	b.WriteString(learnedHead)
	if len(l.Sets) == 0 {
		b.WriteString("sets: []\n")
		return b.Bytes()
	}
	b.WriteString("sets:\n")
	for i := range l.Sets {
		s := &l.Sets[i]
		fmt.Fprintf(&b, "  - id: %s\n    wire: %s\n    transfer: %v\n", strconv.Quote(s.ID), unit.Exact(s.Wire, unit.Millimetres), s.Transfer)
		fmt.Fprintf(&b, "    start: {efficiency: %s, face_factor: %s}\n", unit.Exact(s.Start.Efficiency, unit.Percents), plain(s.Start.FaceFactor))
		fmt.Fprintf(&b, "    belief: {%s, readings: %d}\n", beliefFields(s.Belief), s.Counted())
		if len(s.Readings) == 0 {
			b.WriteString("    readings: []\n")
			continue
		}
		b.WriteString("    readings:\n")
		for k := range s.Readings {
			fmt.Fprintf(&b, "      - {%s}\n", readingFields(&s.Readings[k]))
		}
	}
	return b.Bytes()
}

// plain prints a number with the fewest digits that read back the same.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// beliefFields prints a belief for people.
func beliefFields(b deposit.Belief) string {
	percent := func(x float64) string { return unit.Format(x, unit.Percents, 2) }
	return fmt.Sprintf("efficiency: %s, efficiency_spread: %s, face_factor: %.3f, face_spread: %s",
		percent(b.Efficiency), percent(b.EfficiencySpread), b.FaceFactor, percent(b.FaceSpread))
}

func readingFields(r *LearnedReading) string {
	g := &r.Gauged
	mm := func(x float64) string { return unit.Exact(x, unit.Millimetres) }
	text := "date: " + r.Date + ", seam: " + strconv.Quote(r.Seam)
	if r.Revision != "" {
		text += ", revision: " + strconv.Quote(r.Revision)
	}
	if r.Placed {
		text += ", at: " + mm(r.At)
	}
	text += fmt.Sprintf(", travel: %s, feed: %s, angle: %s, leg_base: %s, leg_upright: %s", unit.Exact(g.Travel, unit.MillimetresPerSecond),
		unit.Exact(g.Melt.Feed, unit.MetresPerMinute), unit.Exact(g.Angle, unit.Degrees), mm(g.LegBase), mm(g.LegOther))
	if g.Throat != 0 {
		text += ", throat: " + mm(g.Throat)
	}
	text += ", step: " + mm(g.Step)
	if r.LeftOut != "" {
		text += ", left_out: " + strconv.Quote(r.LeftOut)
	}
	return text
}

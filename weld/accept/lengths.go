package accept

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// How far the length and the pitch of welds may be off the drawing, m. No limit
// of a visual standard: common practice, no source; the drawing's own tolerance
// governs.
const (
	lengthOff = 5 * unit.MM
	pitchOff  = 10 * unit.MM
)

// lengths judges the length of the weld or of its stitches, and their pitch.
func (j judge) lengths() []Verdict {
	held := func(name string, m Measure, drawn, off float64) Verdict {
		v := Verdict{Name: name, Words: "within " + mm(off) + " of the drawing", unit: unit.Millimetres,
			Source: weld.Source{Mark: weld.CommonPractice, Code: "shop tolerance of weld lengths", Note: "the drawing's own governs"}}
		obs := j.direct(m, func(Reading) (float64, string) {
			if drawn == 0 {
				return off, "the length of the drawing"
			}
			return off, ""
		})
		for i := range obs {
			o := &obs[i]
			o.note = fmt.Sprintf("%s read, %s drawn", mm(o.h), mm(drawn))
			o.h = math.Abs(o.h - drawn)
		}
		v.settle(AtMost, obs)
		return v
	}
	length := j.weld.Element
	if length == 0 {
		length = j.weld.Length
	}
	out := []Verdict{held("length", ElementLength, length, lengthOff)}
	if j.weld.Pitch != 0 {
		out = append(out, held("pitch", ElementPitch, j.weld.Pitch, pitchOff))
	}
	return out
}

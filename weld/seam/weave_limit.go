package seam

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
	"seamwright/weld/weave"
)

// WeaveUse is what a weave is held against.
type WeaveUse struct {
	Travel   float64           // m/s
	Wire     float64           // wire diameter, m
	Bead     float64           // width of the bead without the weave, m; 0 where it is not known
	Nozzle   float64           // bore of the gas nozzle, m; 0 means 16 mm
	Position weld.PositionName // 0 where it is not known
}

// The limits of weaves. From memory, of the trade: no document was read.
var (
	usualAmplitudes  = weld.Between(0.5e-3, 3e-3)
	usualFrequencies = weld.Between(1, 5)
	uphillDwells     = weld.Between(0.1, 0.5)
	otherDwells      = weld.AtMost(0.2)
)

const (
	usualBore = 16e-3 // m, of a gas nozzle; 15 to 20 mm is usual
	// mostAdvance is the longest advance of a cycle in wire diameters, about 2
	// (common practice, no source), dimensionless.
	mostAdvance = 2.0
)

// WeaveAgainst returns where a weave leaves what is usual: amplitude 0.5 to 3 mm,
// frequency 1 to 5 Hz, dwell at the edges 0.1 to 0.5 s in PF, up to 0.5 s in 3F and 3G
// (up or down is not said), up to 0.2 s elsewhere, none in the middle, bead and weave
// together no wider than the nozzle's bore (all from memory), and an advance per cycle
// of about 2 wire diameters at most (common practice, no source). The procedure
// decides: AWS D1.1 leaves the width of a weave to it for gas-metal arc (read in
// workshop articles).
func WeaveAgainst(w weave.Weave, u WeaveUse) ([]Breach, error) {
	if u.Nozzle == 0 {
		u.Nozzle = usualBore
	}
	bore := weld.Sense{What: "bore of the gas nozzle", Low: 5e-3, High: 40e-3, Unit: unit.Millimetres}
	bead := weld.Sense{What: "bead width", Low: 0, High: 40e-3, Unit: unit.Millimetres}
	if err := weld.CheckAll(weld.TravelSense().Of(u.Travel), weld.WireSense().Of(u.Wire), bore.Of(u.Nozzle), bead.Of(u.Bead)); err != nil {
		return nil, fmt.Errorf("weave: %w: %w", section.ErrOutOfRange, err)
	}
	var out []Breach
	add := func(what string, value float64, r weld.Range, say func(float64) string, mend string, mark weld.Mark) {
		if r.Contains(value) {
			return
		}
		allowed := "at most " + say(r.High)
		if r.HasLow {
			allowed = say(r.Low) + " to " + say(r.High)
		}
		out = append(out, Breach{section.Difference{What: what, Found: say(value), Allowed: allowed, Mend: mend},
			weld.Source{Mark: mark, Code: "usual weaves"}})
	}
	add("weave amplitude", w.Amplitude, usualAmplitudes, millimetres, "change the amplitude, or lay stringer beads", weld.Memory)
	add("weave frequency", w.Frequency, usualFrequencies, hertz, "change the frequency", weld.Memory)
	dwells, mend := otherDwells, "shorten the dwell"
	switch u.Position {
	case weld.PF:
		dwells, mend = uphillDwells, "dwell at the toes so that they do not undercut, without burning"
	case weld.Vertical3F, weld.Vertical3G: // AWS does not say up or down
		dwells = weld.AtMost(uphillDwells.High)
	}
	add("dwell at the left edge", w.DwellLeft, dwells, seconds, mend, weld.Memory)
	add("dwell at the right edge", w.DwellRight, dwells, seconds, mend, weld.Memory)
	add("dwell in the middle", w.DwellCentre, weld.AtMost(0), seconds, "go straight across", weld.Memory)
	add("advance in a cycle", w.Advance(u.Travel), weld.AtMost(mostAdvance*u.Wire), millimetres, "raise the frequency or travel slower", weld.CommonPractice)
	add("width of bead and weave", u.Bead+2*w.Amplitude, weld.AtMost(u.Nozzle), millimetres, "lower the amplitude, or lay beads side by side", weld.Memory)
	return out, nil
}

func hertz(x float64) string   { return fmt.Sprintf("%.4g Hz", x) }
func seconds(x float64) string { return fmt.Sprintf("%.4g s", x) }

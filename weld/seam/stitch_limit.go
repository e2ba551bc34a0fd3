package seam

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// StitchLimits are the limits of one code family on stitches.
type StitchLimits struct {
	Least weld.Figure // shortest stitch that counts, m
	Gap   weld.Limit  // widest clear gap, m
}

// leastSegment is the shortest segment of an intermittent fillet by AWS D1.1, m (1
// 1/2 in).
const leastSegment = 38e-3

// LimitsOfStitches returns the limits for the size (m) that the family measures and
// the thinner part (m).
//
// AWS, size the leg: the longer of 38 mm and four legs (D1.1:2010 2.4.2.3 and
// 2.4.2.4, read); clear gap at most 24 times the thinner part and 300 mm (an
// inspection firm's summary, read; for built-up members).
//
// ISO, size the throat: the longer of 30 mm and six throats (EN 1993-1-8, read as
// coded in public code); clear gap at most 12 times the thinner part and 200 mm,
// as for compression and shear (EN 1993-1-8 4.3.2.2, from memory; tension alone
// has 16 times).
func LimitsOfStitches(family weld.CodeFamily, size, thinner float64) (StitchLimits, error) {
	thick := weld.Sense{What: "plate thickness", Low: 0.3e-3, High: 300e-3, Unit: unit.Millimetres}
	if err := thick.Check(thinner); err != nil {
		return StitchLimits{}, fmt.Errorf("limits of stitches: %w: %w", section.ErrOutOfRange, err)
	}
	least, err := section.MinLength(family, size)
	if err != nil {
		return StitchLimits{}, fmt.Errorf("limits of stitches: %w: %w", section.ErrOutOfRange, err)
	}
	if family == weld.ISO {
		return StitchLimits{Least: least, Gap: weld.Limit{Range: weld.AtMost(min(12*thinner, 200e-3)), Source: weld.Source{
			Mark: weld.Memory, Family: weld.ISO, Code: "EN 1993-1-8", Clause: "4.3.2.2", Note: "compression and shear: open the code before use"}}}, nil
	}
	least.Value = max(least.Value, leastSegment)
	least.Source.Clause = "2.4.2.3, 2.4.2.4"
	return StitchLimits{Least: least, Gap: weld.Limit{Range: weld.AtMost(min(24*thinner, 300e-3)), Source: weld.Source{
		Mark: weld.Read, Family: weld.AWS, Code: "AWS D1.1", Clause: "intermittent fillets of built-up members", Note: "from an inspection firm's summary"}}}, nil
}

// Breach is a limit that something does not keep.
type Breach struct {
	section.Difference
	Source weld.Source
}

// Against returns what the stitches do not keep of the limits: stitches too short,
// then gaps too wide.
func (s Stitches) Against(l StitchLimits) []Breach {
	var out []Breach
	shortest := s.Near[0].Length()
	if !weld.AtLeast(l.Least.Value).Contains(shortest) {
		out = append(out, Breach{section.Difference{What: "length of a stitch", Found: millimetres(shortest),
			Allowed: "at least " + millimetres(l.Least.Value), Mend: "ask for longer stitches"}, l.Least.Source})
	}
	if gap := s.Gap(); !l.Gap.Range.Contains(gap) {
		out = append(out, Breach{section.Difference{What: "clear gap", Found: millimetres(gap),
			Allowed: "at most " + millimetres(l.Gap.Range.High), Mend: "ask for a shorter pitch; was a pitch read as a gap?"}, l.Gap.Source})
	}
	return out
}

// SystemReading is what two numbers of a stitch symbol mean in one system.
type SystemReading struct {
	Family   weld.CodeFamily
	Stitches Stitches
	Fault    error // why the stitches cannot be laid so; nil where they can
}

// BothReadings returns what a stitch of a length and a second number (m) mean on the
// seam of r when the number is the pitch of AWS, and when it is the clear gap of
// ISO, so that both can be drawn and the drawing's system be asked for. The run and
// the family of r are not used.
func BothReadings(r StitchRequest, length, number float64) [2]SystemReading {
	var out [2]SystemReading
	for i, is := range []struct {
		family  weld.CodeFamily
		spacing symbol.SpacingKind
	}{{weld.AWS, symbol.Pitch}, {weld.ISO, symbol.ClearGap}} {
		r.Family, r.Run = is.family, symbol.Run{Length: length, Spacing: number, SpacingIs: is.spacing}
		out[i].Family = is.family
		out[i].Stitches, out[i].Fault = NewStitches(r)
	}
	return out
}

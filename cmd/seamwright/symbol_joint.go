package main

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// symbolJoint holds a symbol against the joint that it stands on.
type symbolJoint struct {
	symbolNumbers
	says symbol.Symbol
}

// lines says how often stitches lie on the joint by either standard, and what the
// plates hold. Beside a fault it has the lines before it.
func (j symbolJoint) lines() ([]string, error) {
	var out []string
	for _, w := range j.welds() {
		if w.Kind.Groove() {
			line, err := j.depth(w)
			if err != nil {
				return out, err
			}
			out = append(out, line...)
		}
		if w.Kind == symbol.Fillet && j.thickness > 0 {
			lines, err := j.least(w)
			if err != nil {
				return out, err
			}
			out = append(out, lines...)
		}
		if w.Run.Stitched() && j.length > 0 {
			out = append(out, j.stitches(w)...)
		}
	}
	return out, nil
}

// welds are the symbol's, both sides once where they are the same.
func (j symbolJoint) welds() []symbol.Weld {
	welds := j.says.Welds()
	if j.says.Symmetric() {
		return welds[:1]
	}
	return welds
}

// say says a length, m.
func (j symbolJoint) say(x float64) string {
	if j.units == unit.InchPound {
		return fmt.Sprintf("%.4g in", x/unit.Inch)
	}
	return fmt.Sprintf("%.4g mm", x/unit.MM)
}

// depth holds the preparation against the plate.
func (j symbolJoint) depth(w symbol.Weld) ([]string, error) {
	deep := w.Depth
	if deep == 0 {
		deep = w.Size.Value
	}
	if j.says.Symmetric() {
		deep *= 2
	}
	switch {
	case j.thickness == 0 || deep == 0:
		return nil, nil
	case deep > j.thickness*(1+1e-12):
		return nil, fmt.Errorf("a groove %s deep in a plate of %s: up to the thickness is allowed; check the symbol and --thickness", j.say(deep), j.say(j.thickness))
	}
	return []string{fmt.Sprintf("%s of the %s plate are left between the roots", j.say(j.thickness-deep), j.say(j.thickness))}, nil
}

// least holds a fillet's size against the least for the plate, by the symbol's own
// family; by both where its system is not stated.
func (j symbolJoint) least(w symbol.Weld) ([]string, error) {
	var out []string
	for _, family := range []weld.CodeFamily{weld.ISO, weld.AWS} {
		if own := j.says.System.Family(); own != 0 && own != family {
			continue
		}
		limits, err := section.MinSizes(section.Plates{Family: family, Process: weld.MAG, Thinner: j.thickness, Thicker: j.thickness})
		if err != nil {
			return out, err
		}
		for _, l := range limits {
			has, err := j.measured(w, l.Kind)
			if err != nil {
				return out, err
			}
			least := l.Size
			if j.units == unit.InchPound && l.Inch > 0 {
				least = l.Inch
			}
			verdict := "holds"
			if !l.Allows(has) {
				verdict = "is below"
			}
			out = append(out, fmt.Sprintf("%v %s %s the least for plates of %s, %s (%v)", l.Kind, j.say(has), verdict, j.say(j.thickness), j.say(least), l.Source))
		}
	}
	return out, nil
}

// measured is a fillet's size as leg or throat, m, the smaller leg of unequal ones.
func (j symbolJoint) measured(w symbol.Weld, is weld.SizeKind) (float64, error) {
	size := w.Size.Value
	if w.Size.Second > 0 {
		size = min(size, w.Size.Second)
	}
	switch {
	case is == weld.Throat && w.Size.Is == symbol.Leg:
		return symbol.ThroatOf(size, j.angle)
	case is == weld.Leg && w.Size.Is == symbol.Throat:
		return symbol.LegOf(size, j.angle)
	}
	return size, nil
}

// stitches counts what lies on the joint by either standard: with welds at both ends
// for a pitch, as AWS A2.4 has them, and with gaps as drawn for those of ISO 2553.
func (j symbolJoint) stitches(w symbol.Weld) []string {
	out := []string{fmt.Sprintf("on %s of joint, on each side:", j.say(j.length))}
	for _, r := range []struct {
		name   string
		family weld.CodeFamily
		is     symbol.SpacingKind
		ends   symbol.EndRule
	}{
		{"by AWS A2.4, a pitch", weld.AWS, symbol.Pitch, symbol.EndsWelded},
		{"by ISO 2553, a clear gap", weld.ISO, symbol.ClearGap, symbol.PitchKept},
	} {
		run := symbol.Run{Length: w.Run.Length, Spacing: w.Run.Spacing, SpacingIs: r.is}
		if r.is == w.Run.SpacingIs {
			run.Elements = w.Run.Elements
		}
		laid, err := seam.NewStitches(seam.StitchRequest{Run: run, Family: r.family, Length: j.length, Ends: r.ends})
		if err != nil {
			out = append(out, fmt.Sprintf("  %s of %s: %v", r.name, j.say(run.Spacing), err))
			continue
		}
		line := fmt.Sprintf("  %s of %s: %d at %s, %s of weld, %s clear between them", r.name, j.say(run.Spacing), len(laid.Near), j.say(laid.Pitch), j.say(laid.Weld()), j.say(laid.Gap()))
		if laid.Bare > 0 {
			line += ", " + j.say(laid.Bare) + " bare at the end"
		}
		out = append(out, line)
		out = append(out, j.against(w, laid)...)
	}
	return out
}

// against holds stitches against the limits of the symbol's own family, of both where
// it is not stated: a number read by the wrong system often breaks them.
func (j symbolJoint) against(w symbol.Weld, laid seam.Stitches) []string {
	if j.thickness == 0 || w.Kind != symbol.Fillet {
		return nil
	}
	var out []string
	for _, l := range []struct {
		family weld.CodeFamily
		is     weld.SizeKind
	}{{weld.AWS, weld.Leg}, {weld.ISO, weld.Throat}} {
		if own := j.says.System.Family(); own != 0 && own != l.family {
			continue
		}
		size, err := j.measured(w, l.is)
		if err != nil {
			continue // no such size at this angle
		}
		limits, err := seam.LimitsOfStitches(l.family, size, j.thickness)
		if err != nil {
			out = append(out, fmt.Sprintf("    not held against %v: %v", l.family, err))
			continue
		}
		for _, b := range laid.Against(limits) {
			out = append(out, fmt.Sprintf("    not allowed: %s %s, %s (%v)", b.What, b.Found, b.Allowed, b.Source))
		}
	}
	return out
}

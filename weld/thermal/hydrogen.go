package thermal

import (
	"fmt"
	"math"

	"seamwright/weld"
)

// hydrogens is the range of sense of diffusible hydrogen. Common practice, no
// source.
var hydrogens = validity{"diffusible hydrogen", 0.2, 60, 1, "ml/100 g",
	"take it from the wire's certificate: 5 is usual for a dry solid wire"}

// HydrogenScale returns the letter of EN 1011-2 for diffusible hydrogen in ml
// per 100 g of weld metal (grams): E up to 3, D up to 5, C up to 10, B up to
// 15, A above. Read in public code.
func HydrogenScale(hydrogen float64) (string, error) {
	if err := hydrogens.check(hydrogen); err != nil {
		return "", fmt.Errorf("hydrogen scale: %w", err)
	}
	switch {
	case hydrogen <= 3:
		return "E", nil
	case hydrogen <= 5:
		return "D", nil
	case hydrogen <= 10:
		return "C", nil
	case hydrogen <= 15:
		return "B", nil
	}
	return "A", nil
}

// Susceptibility is the susceptibility index of the annex on hydrogen control
// of AWS D1.1.
type Susceptibility struct {
	Index  float64 // 12 Pcm + log10 H, dimensionless
	Group  string  // A to G, from mild to severe
	Source weld.Source
}

// indexGroups are the upper ends of the groups, which the annex prints to one
// decimal: what lies between two groups counts as the severer one.
var indexGroups = [...]struct {
	upTo float64
	name string
}{{3.0, "A"}, {3.5, "B"}, {4.0, "C"}, {4.5, "D"}, {5.0, "E"}, {5.5, "F"}, {7.0, "G"}}

var indices = validity{"12 Pcm + log10 H", 0, 7, 1, "",
	"the groups of AWS D1.1 end there: ask the welding coordinator"}

// SusceptibilityIndex returns the index SI = 12 Pcm + log10 H, dimensionless,
// for a Pcm and diffusible hydrogen H in ml per 100 g (grams): 5 for its level
// H1, 10 for H2, 30 for H3; 0.2 to 60, and an index of 0 to 7. With the group, the restraint and the thickness the
// annex gives a preheat; its table is not in this package. Source: AWS D1.1 annex
// on preheat by hydrogen control, from memory.
func SusceptibilityIndex(pcm Equivalent, hydrogen float64) (Susceptibility, error) {
	err := pcm.want(Pcm)
	if err == nil {
		err = hydrogens.check(hydrogen)
	}
	SI := 12*pcm.Value + math.Log10(hydrogen)
	if err == nil {
		err = indices.check(SI)
	}
	if err != nil {
		return Susceptibility{}, fmt.Errorf("susceptibility index: %w", err)
	}
	out := Susceptibility{Index: SI, Source: weld.Source{Mark: weld.Memory, Family: weld.AWS,
		Code: "AWS D1.1", Clause: "annex on preheat by hydrogen control"}}
	for _, g := range indexGroups {
		out.Group = g.name
		if weld.AtMost(g.upTo).Contains(SI) {
			break
		}
	}
	return out, nil
}

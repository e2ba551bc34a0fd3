package main

import (
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld/quote"
)

// seamItems are the welds of a job as they are planned, one a seam.
func seamItems(seams []plan.SizedSeam, system unit.System) []quote.Item {
	var items []quote.Item
	for i := range seams {
		s := &seams[i]
		it := quote.Item{Mark: s.Name, Count: 1, By: quote.Arm, Laid: &quote.Laid{Words: drawnSize(s.Doc.Weld, system), Fillet: s.Doc.Weld.Fillet()}}
		for _, p := range s.Passes {
			it.Laid.Passes = append(it.Laid.Passes, quote.Pass{Settings: p.Size.Settings, Area: p.Size.Area, Length: s.Length})
		}
		items = append(items, it)
	}
	return items
}

// drawnSize says the size on the drawing: "leg 5 mm".
func drawnSize(w job.Weld, system unit.System) string {
	length := func(x float64) string { return short(unit.FormatIn(unit.Length, x, system)) }
	switch w.Kind {
	case job.SizeLeg:
		return "leg " + length(w.LegBase)
	case job.SizeLegs:
		return "legs " + length(w.LegBase) + " x " + length(w.LegOther)
	case job.SizeThroat:
		return "throat " + length(w.Throat)
	case job.SizeGroove:
		return w.Groove.Section.Prep.String() + ", " + length(w.Groove.Section.Thickness)
	}
	return "bead of " + short(unit.FormatIn(unit.Area, w.Area, system))
}

// short takes the noughts off the end of a quantity: "5.0 mm" becomes "5 mm".
func short(text string) string {
	number, symbol, ok := strings.Cut(text, " ")
	if !ok || !strings.Contains(number, ".") {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(number, "0"), ".") + " " + symbol
}

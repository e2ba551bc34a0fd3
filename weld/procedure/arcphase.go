package procedure

import "seamwright/weld"

// ArcFacts are the times and lengths by which an arm starts and ends a weld.
// Each Value lies inside the interval that shops use (Usual) and is this
// project's choice of default; all are common practice, no source found in
// print.
type ArcFacts struct {
	PreFlow    weld.Figure // gas before the arc, s
	ArcTimeout weld.Figure // longest wait for the arc to be detected, s
	StartDelay weld.Figure // standing still after the arc is detected, s; 0 on sheet
	CraterFill weld.Figure // standing still at the end, s
	BurnBack   weld.Figure // wire running on after the feed stops, s
	PostFlow   weld.Figure // gas after the arc, s

	HotStartFeed weld.Figure // feed at the start over main feed, dimensionless
	HotStartTime weld.Figure // s
	CraterFeed   weld.Figure // feed while filling the crater over main feed, dimensionless

	Retract       weld.Figure // approach and retreat along the torch, m
	Overlap       weld.Figure // a closed seam welds over its start by this, m
	RestartAhead  weld.Figure // a restart strikes this far ahead of the crater, m
	FinalStickOut weld.Figure // wire left out for the next strike, m
	NozzleGap     weld.Figure // least clearance of the nozzle from each plate, m
}

// SheetLimit is the thickness in m below which the start delay is 0, so that
// the first spot does not burn through. Common practice, no source.
const SheetLimit = 3e-3

// RobotArc returns the figures for plates whose thinner one has the given
// thickness (m). Sources: AWS D16.2 and D16.3 name the phases (scope, from
// memory); the numbers are common practice, no source.
func RobotArc(thinner float64) ArcFacts {
	src := weld.Source{Mark: weld.CommonPractice, Code: "arc welding with an arm"}
	fig := func(value, low, high float64) weld.Figure {
		return weld.Figure{Value: value, Usual: weld.Between(low, high), Source: src}
	}
	f := ArcFacts{
		PreFlow:       fig(0.3, 0.2, 0.5),
		ArcTimeout:    fig(1.0, 0.5, 1.5),
		StartDelay:    fig(0.2, 0.1, 0.4),
		CraterFill:    fig(0.5, 0.3, 1.5),
		BurnBack:      fig(0.05, 0.02, 0.15),
		PostFlow:      fig(1.0, 0.5, 3),
		HotStartFeed:  fig(1.2, 1.1, 1.3),
		HotStartTime:  fig(0.3, 0.2, 1),
		CraterFeed:    fig(0.7, 0.6, 0.8),
		Retract:       fig(20e-3, 10e-3, 30e-3),
		Overlap:       fig(15e-3, 10e-3, 25e-3),
		RestartAhead:  fig(12e-3, 10e-3, 15e-3),
		FinalStickOut: fig(10e-3, 8e-3, 12e-3),
		NozzleGap:     fig(3e-3, 3e-3, 5e-3),
	}
	f.RestartAhead.Source = weld.Source{Mark: weld.Read, Code: "workshop article on restarts", Note: "12 mm ahead, back into the crater"}
	if thinner < SheetLimit {
		f.StartDelay = weld.Figure{Source: src}
	}
	return f
}

// Phases returns the times of these figures as a settings set holds them.
func (f ArcFacts) Phases() Phases {
	return Phases{
		PreFlow:    f.PreFlow.Value,
		StartDelay: f.StartDelay.Value,
		CraterFill: f.CraterFill.Value,
		PostFlow:   f.PostFlow.Value,
	}
}

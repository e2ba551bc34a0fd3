package main

import (
	"fmt"
	"math"

	"seamwright/bench/plan"
	"seamwright/unit"
)

// corners says in a line what comes out at the corners and bends of a seam; of
// one that is a single bend as a whole the table has said it.
func (r report) corners(s *plan.Seam, pass *plan.Pass) {
	if pass.Profile == nil {
		return
	}
	var sharp, round int
	var hold, turn float64
	leg, travel := [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
	for _, c := range pass.Profile.Corners {
		switch {
		case c.Sharp >= 0:
			sharp++
		case c.Bend.To-c.Bend.From > 0.999*s.Length:
			continue
		default:
			round++
		}
		hold, turn = hold+c.Hold, max(turn, c.TurnMost)
		leg = [2]float64{min(leg[0], c.LegLeast), max(leg[1], c.LegMost)}
		travel = [2]float64{min(travel[0], c.TravelLeast), max(travel[1], c.TravelMost)}
	}
	if sharp+round == 0 {
		return
	}
	line := fmt.Sprintf("%s round %s:", s.Name, bendsIn(sharp, round))
	if pass.Profile.Leg > 0 {
		line += fmt.Sprintf(" leg %s to %s,", r.fine(unit.Length, leg[0]), r.fine(unit.Length, leg[1]))
	}
	line += fmt.Sprintf(" torch %s to %s, turning at up to %.0f deg/s", lean(travel[0]), lean(travel[1]), turn/rad)
	if hold > 0 {
		line += fmt.Sprintf(", arc stands %.1f s in all", hold)
	}
	fmt.Fprintf(r.out, "%s; %d points to key in\n", line, pass.Profile.Keyed.Points)
}

// bendsIn says how many corners and bends there are: "2 corners and 1 bend".
func bendsIn(sharp, round int) string {
	corners, bends := counted(sharp, "corner", "corners"), counted(round, "bend", "bends")
	switch {
	case round == 0:
		return corners
	case sharp == 0:
		return bends
	}
	return corners + " and " + bends
}

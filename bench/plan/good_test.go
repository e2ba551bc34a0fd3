package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"seamwright/bench/finding"
)

// before adds rows of places before the last row of the taught list.
func before(rows string) [2]string { return [2]string{lastRows, outRow + rows + beforeHome} }

// TestGoodJobs: no false alarm when the same good job is said in other ways.
func TestGoodJobs(t *testing.T) {
	place := func(label string, x, y, z float64) string {
		return fmt.Sprintf("%s,%g,%g,%g,,,,,,,,,,,,,,,\n", label, x, y, z)
	}
	aws := [][2]string{{"name: stool foot\ncode: iso", "name: stool foot\ncode: aws"}, {"id: WPS-07\ncode: iso", "id: WPS-07\ncode: aws"}, {"[PA, PB]", "[1F, 2F]"}}
	for _, row := range []struct {
		name  string
		edits [][2]string
		then  func(files)
	}{
		{name: "points without their moves", edits: [][2]string{{"list: true", "list: false"}, {lastRows, outRow}}},
		{name: "generated approach and retreat", edits: one("    approach: W1 in\n    retreat: W1 out\n", "")},
		{name: "inches", then: inInches},
		{name: "base plate touched", edits: [][2]string{{"base: level", "base: {touched: [P1, P2, P3]}"},
			before(place("P1", 430, -150, 30) + place("P2", 680, -150, 30) + place("P3", 500, -80, 30))}},
		{name: "upright touched", edits: [][2]string{{"upright: right", "upright: {touched: [P1, P2], with: vertical}"},
			before(place("P1", 450, -230, 60) + place("P2", 650, -230, 80))}},
		{name: "cart turned and raised", edits: one("home: home\n", "home: home\ncell: {world_from_base: {at: [1000 mm, -500 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 130]}}\n")},
		{name: "measured in the part", edits: [][2]string{{"measured_in: base", "measured_in: part"},
			{"home: home\n", "home: home\ncell: {world_from_base: {at: [0 mm, 0 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 90]}, world_from_part: {at: [0 mm, 0 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 90]}}\n"}}},
		{name: "a speed that fits", edits: [][2]string{speed("8.2 mm/s")}},
		{name: "a speed in inches", edits: [][2]string{speed("19.4 in/min")}},
		{name: "a small gap", edits: one("    settings: 11\n", "    settings: 11\n    gap: 1 mm\n")},
		{name: "a throat", edits: one("weld: {leg: 5 mm}", "weld: {throat: 3.5 mm}")},
		{name: "AWS", edits: aws},
		{name: "tips a third of a wire off the line", edits: [][2]string{{"W1 start,430,-230,30", "W1 start,430,-229.8,30.2"}, {"W1 end,680,-230,30", "W1 end,680,-229.8,30.2"},
			{"line: [W1 start, W1 end]", "line: [L1, L2]\n    taught: [W1 start, W1 end]"}, before(place("L1", 430, -230, 30) + place("L2", 680, -230, 30))}},
		{name: "angles three degrees off", edits: one("W1 start,430,-230,30,134.56", "W1 start,430,-230,30,131.56")},
		{name: "three points of a line", edits: [][2]string{{"[W1 start, W1 end]", "[W1 start, W1 mid, W1 end]"},
			{"W1 end,680", "W1 mid,555,-230,30.6,134.56,-7.05,7.11,,,,,,,linear,8.2,,,,\nW1 end,680"}}},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			for _, e := range row.edits {
				f.edit(t, e[0], e[1])
			}
			if row.then != nil {
				row.then(f)
			}
			var odd []finding.Finding
			for _, x := range planOf(t, f).Findings {
				if !slices.Contains(always, x.Code) {
					odd = append(odd, x)
				}
			}
			if len(odd) > 0 {
				t.Errorf("false alarm:\n%s", list(odd))
			}
		})
	}
}

package plan_test

import (
	"fmt"

	"seamwright/bench/finding"
)

// The good job's metal: wire 1.0 mm at 9 m/min and 96 %, 0.785398 x 150 x 0.96
// = 113.097 mm3/s, k 1.10; a leg of 5 mm takes 1.1 x 12.5 = 13.75 mm2, which
// is 113.097/13.75 = 8.2253 mm/s.
const byMetal = "metal balance: 113.097 mm3/s, k 1.10"

// rolled stands the arm's base rolled about the world's x, deg.
func rolled(roll float64) [2]string {
	return [2]string{"home: home\n", fmt.Sprintf("home: home\ncell: {world_from_base: {at: [0 mm, 0 mm, 0 mm], orientation: fixed x-y-z degrees, turn: [%g, 0, 0]}}\n", roll)}
}

// set11 edits the settings set of the good job's seam.
func set11(old, new string) [2]string {
	const text = "{id: 11, name: z5, process: 135, transfer: spray, wire: 1.0 mm, gas: M21, gas_flow: 15 L/min, feed: 9.0 m/min, volts: 23.5 V, amps: 205 A, efficiency: 96 percent, convexity: 1.10, start_time: 0.3 s, crater_time: 0.5 s}"
	f := files{"set": text}
	f.edit(panics{}, old, new)
	return [2]string{text, f["set"]}
}

// speed types a speed for the seam.
func speed(s string) [2]string {
	return [2]string{"    settings: 11\n", "    settings: 11\n    speed: " + s + "\n"}
}

func leg(s string) [2]string { return [2]string{"leg: 5 mm", "leg: " + s} }

// weaving asks for a sine with these words.
func weaving(s string) [2]string {
	return [2]string{"weld: {leg: 5 mm}", "weld: {leg: 5 mm}\n    weave: {shape: sine, " + s + "}"}
}

// inOne asks for a leg in a single pass.
func inOne(s string) [2]string {
	return [2]string{"weld: {leg: 5 mm}", "weld: {leg: " + s + "}\n    passes: one"}
}

var noProcedure = [2]string{"procedure: {file: procedure.yaml}\n", ""}

var sizeFaults = []fault{
	{name: "throat under the least", edits: [][2]string{leg("4 mm")},
		code: finding.FilletBelowMinimum, severity: finding.Caution, where: "W1", measured: "2.83", limit: "3.00", unit: "mm",
		message: "W1: throat 2.8 mm where the plates ask for at least 3.0 mm", source: "4/sqrt 2; EN 1993-1-8 as coded in public code: a >= 3 mm"},
	{name: "leg under the AWS table", edits: [][2]string{leg("4 mm"), noProcedure, {"name: stool foot\ncode: iso", "name: stool foot\ncode: aws"}, {"base: 8 mm, upright: 6 mm", "base: 25 mm, upright: 8 mm"}},
		code: finding.FilletBelowMinimum, severity: finding.Caution, where: "W1", measured: "4.0", limit: "5.0", unit: "mm",
		message: "W1: leg 4.0 mm where the plates ask for at least 5.0 mm", source: "V031: thin 8, thick 25, GMAW: 5 mm (AWS D1.1:2025 Table 7.7)"},
	{name: "lap edge too thin", edits: [][2]string{{"joint: tee", "joint: lap"}, {"upright: 6 mm", "upright: 6.5 mm"}},
		code: finding.FilletAboveEdge, severity: finding.Caution, where: "W1", measured: "5.0", limit: "4.5", unit: "mm",
		message: "W1: leg 5.0 mm on the edge of a 6.5 mm plate, which holds 4.5 mm at most", source: "AWS D1.1 lap edge, READ secondary: t - 2 from 6 mm on"},
	{name: "typed speed too fast", edits: [][2]string{speed("10 mm/s")},
		code: finding.FilletUndersize, severity: finding.Stop, where: "W1", measured: "4.53", limit: "5.00", unit: "mm",
		message: "W1: at the typed 10.00 mm/s the leg is 4.5 mm; 5.0 mm needs 8.23 mm/s", remedy: "weld at 8.23 mm/s, or leave the speed out",
		source: byMetal + ": sqrt(2 x 11.3097/1.1) = 4.535"},
	{name: "typed speed too slow", edits: [][2]string{speed("5 mm/s")},
		code: finding.FilletOversize, severity: finding.Caution, where: "W1", measured: "6.41", limit: "6.00", unit: "mm",
		message: "W1: at the typed 5.00 mm/s the leg is 6.4 mm, with 65 % more metal than 5.0 mm needs", remedy: "weld at 8.23 mm/s, or leave the speed out",
		source: byMetal + ": sqrt(2 x 22.6195/1.1) = 6.413; 22.6195/13.75 = 1.645"},
	{name: "typed speed too fast for an area", edits: [][2]string{{"weld: {leg: 5 mm}", "weld: {area: 13.75 mm2}"}, speed("10 mm/s")},
		code: finding.FilletUndersize, severity: finding.Stop, where: "W1", measured: "11.31", limit: "13.75", unit: "mm2",
		message: "W1: at the typed 10.00 mm/s the area is 11.3 mm2; 13.8 mm2 needs 8.23 mm/s", remedy: "weld at 8.23 mm/s, or leave the speed out", source: byMetal},
	{name: "gap over 2 mm", edits: one("    settings: 11\n", "    settings: 11\n    gap: 3 mm\n"),
		code: finding.GapAddsToLeg, severity: finding.Note, where: "W1", measured: "3", limit: "2", unit: "mm",
		message: "W1: the gap of 3.0 mm is added to each leg, so leg 8.0 mm is welded for 5.0 mm drawn", source: "AWS D1.1:2020 7.21.1: both legs grow by the gap"},
	{name: "gap over 5 mm", edits: one("    settings: 11\n", "    settings: 11\n    gap: 6 mm\n"),
		code: finding.GapTooLarge, severity: finding.Stop, where: "W1", measured: "6", limit: "5", unit: "mm",
		message: "W1 has a gap of 6.0 mm; more than 5.0 mm must not be welded over", source: "V029: g 6 is refused (AWS D1.1:2020 7.21.1)"},
	{name: "one pass too large for the procedure", edits: [][2]string{inOne("7 mm")},
		code: finding.SinglePassTooLarge, severity: finding.Stop, where: "W1", measured: "7", limit: "6", unit: "mm",
		message: "W1: size of one pass 7 mm (leg) is above the 6 mm of procedure WPS-07", source: "the procedure"},
	{name: "one pass too large for practice", edits: [][2]string{leg("8 mm"), noProcedure},
		code: finding.SinglePassTooLarge, severity: finding.Caution, where: "W1", measured: "8", limit: "7", unit: "mm",
		message: "W1: leg 8.0 mm in one pass; in position PB one pass lays 7.0 mm at most", source: "PB 6 to 7 mm with 1.2 mm wire, from memory"},
	{name: "one pass too large for AWS", edits: [][2]string{inOne("11 mm"), noProcedure, {"name: stool foot\ncode: iso", "name: stool foot\ncode: aws"}},
		code: finding.SinglePassTooLarge, severity: finding.Stop, where: "W1", measured: "11", limit: "10", unit: "mm",
		message: "W1: leg 11.0 mm in one pass; in position 2F one pass lays 10.0 mm at most", source: "V076: 2F GMAW 10 mm (AWS D1.1:2020 Table 5.1)"},
	{name: "one pass where no figure is known", edits: [][2]string{noProcedure, {"base: level", "base: {direction: [0, 0, 1]}"}, rolled(-20)},
		code: finding.SinglePassTooLarge, severity: finding.Note, where: "W1",
		message: "W1: no figure is known for what one pass lays in position PC; leg 5.0 mm in one pass was not checked", remedy: "ask the welding coordinator",
		source: "face tilt 65: PC; shops' figures are for PA, PB, PD, PE, PF, PG"},
	{name: "more than one pass may lay", edits: [][2]string{leg("7 mm")},
		code: finding.SeveralPasses, severity: finding.Note, where: "W1",
		message: "W1: leg 7.0 mm is laid in 2 passes; in one it would be 27.0 mm2 of metal at 4.2 mm/s with 0.918 kJ/mm; at the heat that procedure WPS-07 allows, 6.4 mm/s, settings set 11 lays 17.6 mm2",
		remedy:  "say passes: one, or passes: {most: ...}, to have it otherwise", source: "1.1 x 24.5 = 26.95; " + byMetal + "; 3.854/0.6 = 6.42 mm/s, 113.097/6.42 = 17.6"},
	{name: "an order that bends more", edits: [][2]string{noProcedure, {"seams:\n", "distortion: {measured_in: base, at: [500 mm, -230 mm, 100 mm], along: [1, 0, 0], towards: [0, 0, 1]}\nseams:\n"}, {"weld: {leg: 5 mm}", "weld: {leg: 5 mm}\n    split: {at: 130 mm, tie_in: 10 mm}\n    mirror: {name: W2, at: [0 mm, 0 mm, 100 mm], normal: [0, 0, 1]}"}},
		code: finding.SeamOrder, severity: finding.Note, where: "order", measured: "25.025", limit: "12.5125", unit: "cm4",
		message: "W1 part 1, W2 part 1, W1 part 2, W2 part 2 would bend the part less on the way: the moments that are not balanced come to 12.5 cm4 at most, as planned to 25 cm4. It is an order by rules of thumb, not a prediction: balance about the neutral axis, thick first, centre out, towards the free end; the qualified procedure and whoever knows the part decide",
		remedy:  "say order: [W1 part 1, W2 part 1, W1 part 2, W2 part 2]", source: "13.75 mm2 x 130 mm x 70 mm, one part and two; workshop articles"},
	{name: "a section that no rule knows", edits: [][2]string{noProcedure, {"seams:\n", "distortion: {measured_in: base, at: [500 mm, 0 mm, 15 m], along: [1, 0, 0], towards: [0, 0, 1], inertia: 800 cm4}\nseams:\n"}},
		code: finding.BowUnknown, severity: finding.Note, where: "distortion",
		message: "how the part bends cannot be estimated: bow: weld 1: distance from the neutral axis -14.97 m is outside -10 m to 10 m; check the value and its unit", remedy: "correct the measures of the section", source: "15 m less 30 mm"},
	{name: "weave too fast for the arm", edits: [][2]string{noProcedure, weaving("amplitude: 20 mm, frequency: 20 Hz")},
		code: finding.WeaveSpeed, severity: finding.Stop, where: "W1 pass 1 at 0 mm", measured: "239", limit: "178", unit: "deg/s",
		message: "W1 at 0 mm: travel and a weave of 20.0 mm at 20 Hz together ask 239 deg/s of j6, it can do 178",
		remedy:  "weave at 14.8 Hz at most, or less wide", source: "limit 3.1 rad/s in the arm's file; speed by the test that runs along the wire's true path"},
	{name: "weave too wide", edits: [][2]string{noProcedure, weaving("amplitude: 4 mm, frequency: 2.5 Hz")},
		code: finding.WeaveUnusual, severity: finding.Caution, where: "W1",
		message: "W1: weave amplitude 4 mm, 0.5 mm to 3 mm is usual", remedy: "change the amplitude, or lay stringer beads", source: "usual weaves, from memory"},
	{name: "gap of a groove pulled", edits: [][2]string{noProcedure, {"joint: tee", "joint: butt"}, {"    upright: right\n", ""}, {"weld: {leg: 5 mm}", "weld: {groove: {prep: single V, gap: 3 mm, root_face: 1.5 mm, angle: 60 deg}}\n    gap: 5.5 mm"}},
		code: finding.GrooveFitUp, severity: finding.Caution, where: "W1", measured: "5.5", limit: "3.0", unit: "mm",
		message: "W1: gap 5.5 mm, 1 mm to 5 mm is allowed; the passes are planned for the groove as measured",
		remedy:  "re-fit, or plan the section as measured", source: "AWS D1.1 as quoted: 2 mm either way"},
	{name: "gap that opens", edits: [][2]string{noProcedure, {"joint: tee", "joint: butt"}, {"    upright: right\n", ""}, {"weld: {leg: 5 mm}", "weld: {groove: {prep: square, gap: 2 mm, cap: flush}}\n    gap: {start: 2 mm, end: 3 mm}"}},
		code: finding.GapOpens, severity: finding.Caution, where: "W1", measured: "3", limit: "2", unit: "mm",
		message: "W1: the gap goes from 2.0 mm to 3.0 mm, and the metal of the section with it from 16.0 mm2 to 24.0 mm2; planned for the wider end",
		remedy:  "re-fit, or slow the fill passes evenly from the narrower to the wider end", source: "8 mm plate: 8 x 2 and 8 x 3"},
	{name: "passes from the back", edits: [][2]string{noProcedure, {"joint: tee", "joint: butt"}, {"    upright: right\n", ""}, {"base: 8 mm", "base: 20 mm"}, {"weld: {leg: 5 mm}", "weld: {groove: {prep: double V, gap: 3 mm, root_face: 2 mm, angle: 60 deg}}"}},
		code: finding.BackNotPlanned, severity: finding.Caution, where: "W1", measured: "1", limit: "0", unit: "passes",
		message: "W1: 1 of 2 passes are laid from the back of the joint; this run welds the front only", source: "geometry"},
	{name: "thickness not stated", edits: one("{base: 8 mm, upright: 6 mm}", "{base: 8 mm}"),
		code: finding.FilletBelowMinimum, severity: finding.Note, where: "W1",
		message: "W1: the thickness of the upright is not stated; the least size was not checked", remedy: "add thickness: {base: 8 mm, upright: 6 mm} with the plates' own numbers", source: "the document"},
	{name: "thickness of a lap not stated", edits: [][2]string{{"joint: tee", "joint: lap"}, {"    thickness: {base: 8 mm, upright: 6 mm}\n", ""}},
		code: finding.FilletBelowMinimum, severity: finding.Note, where: "W1",
		message: "W1: the thickness of base plate and upright is not stated; least size and the most that the edge holds were not checked", remedy: "add thickness: {base: 8 mm, upright: 6 mm} with the plates' own numbers", source: "the document"},
	{name: "no crater time", edits: [][2]string{set11(", crater_time: 0.5 s", "")},
		code: finding.CraterFillMissing, severity: finding.Caution, where: "W1", measured: "0", limit: "0.3", unit: "s",
		message: "W1: settings set 11 has no crater time", source: "crater fill 0.3 to 1.5 s: common practice, no source"},
	{name: "cubic feet typed as litres", edits: [][2]string{set11("15 L/min", "30 L/min")},
		code: finding.GasFlowSuspect, severity: finding.Caution, where: "W1", measured: "30", limit: "25", unit: "L/min",
		message: "W1: settings set 11 has 30 L/min of gas, which is 64 cubic feet per hour", remedy: "did you mean 30 cubic feet per hour (14.2 L/min)?",
		source: "worked case 2: 30 L/min = 64 cubic feet/h; 30 x 0.4719 = 14.2"},
	{name: "short circuit on structure", edits: [][2]string{noProcedure, {"name: stool foot\ncode: iso", "name: stool foot\ncode: aws"}, set11("spray", "short-circuit")},
		code: finding.ShortCircuitStructure, severity: finding.Caution, where: "W1",
		message: "W1: settings set 11 is short-circuit transfer", source: "AWS D1.1:2000 3.2.1"},
	{name: "pulsed without power", edits: [][2]string{set11("spray", "pulsed")},
		code: finding.EnergyDoubtful, severity: finding.Caution, where: "W1",
		message: "W1: pulsed source without a power reading: voltage times current is off by typically 5 to 15 %, up to 30 % (from memory)", source: "ISO/TR 18491, from memory"},
}

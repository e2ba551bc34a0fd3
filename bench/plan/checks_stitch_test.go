package plan_test

import "seamwright/bench/finding"

// stitched asks for stitches with these words on the good job's seam of 250 mm, leg 5
// mm, between plates of 8 and 6 mm.
func stitched(s string) [][2]string {
	return one("weld: {leg: 5 mm}", "weld: {leg: 5 mm}\n    stitches: {"+s+"}")
}

var stitchFaults = []fault{
	{name: "stitches too short", edits: stitched("length: 25 mm, gap: 50 mm"),
		code: finding.StitchShort, severity: finding.Caution, where: "W1", measured: "25", limit: "30", unit: "mm",
		message: "W1: stitches of 25 mm; shorter than 30 mm they do not count", source: "V019: the larger of 30 mm and six throats, 6 x 5/sqrt 2 = 21 (EN 1993-1-8 as public code has it, READ)"},
	{name: "stitches too short for AWS", edits: append(stitched("length: 35 mm, pitch: 85 mm"), noProcedure, [2]string{"name: stool foot\ncode: iso", "name: stool foot\ncode: aws"}),
		code: finding.StitchShort, severity: finding.Caution, where: "W1", measured: "35", limit: "38", unit: "mm",
		message: "W1: stitches of 35 mm; shorter than 38 mm they do not count", source: "V017: 38 mm (D1.1:2010, READ), four legs are 20"},
	{name: "clear gap too wide", edits: stitched("length: 40 mm, gap: 90 mm, ends: as drawn"),
		code: finding.StitchGap, severity: finding.Caution, where: "W1", measured: "90", limit: "72", unit: "mm",
		message: "W1: a clear gap of 90 mm between stitches; 72 mm is the most beside a plate of 6 mm", source: "12 x 6 mm (EN 1993-1-8 4.3.2.2, from memory)"},
	{name: "stitches of unknown plates", edits: append(stitched("length: 40 mm, gap: 50 mm"), [2]string{"    thickness: {base: 8 mm, upright: 6 mm}\n", ""}),
		code: finding.StitchShort, severity: finding.Note, where: "W1",
		message: "W1: length and clear gap of the stitches were not held against limits: the thickness of a plate is not stated"},
	{name: "stitches of a given area", edits: [][2]string{{"weld: {leg: 5 mm}", "weld: {area: 13.75 mm2}\n    stitches: {length: 40 mm, gap: 50 mm}"}},
		code: finding.StitchShort, severity: finding.Note, where: "W1",
		message: "W1: length and clear gap of the stitches were not held against limits: limits are known for fillets of a leg or throat"},
	{name: "pitch closed up", edits: stitched("length: 40 mm, gap: 50 mm"),
		code: finding.StitchPitch, severity: finding.Note, where: "W1", measured: "70", limit: "90", unit: "mm",
		message: "W1: the pitch is 70 mm, closed up from 90 mm, so that a stitch ends the seam: 4 of them", source: "ceil(210/90) + 1 = 4; 210/3"},
	{name: "end left bare", edits: stitched("length: 40 mm, gap: 50 mm, ends: as drawn"),
		code: finding.StitchBare, severity: finding.Note, where: "W1",
		message: "W1: 30 mm is left bare behind the last stitch", source: "three stitches at 0, 90 and 180 mm: 250 - 220"},
	{name: "pitch in a job by ISO", edits: stitched("length: 40 mm, pitch: 90 mm"),
		code: finding.StitchSystem, severity: finding.Caution, where: "W1",
		message: "W1: 90 mm is typed as the pitch; symbols of this job's code family give the clear gap. As pitch: 4 stitches, 160 mm; as clear gap: 3 stitches, 120 mm",
		source:  "ceil(210/90) + 1 = 4; ceil(210/130) + 1 = 3"},
	{name: "a weld taken up again", edits: one("weld: {leg: 5 mm}", "weld: {leg: 5 mm}\n    restart: {at: 100 mm, tie_in: 10 mm}"),
		code: finding.WeldTakenUp, severity: finding.Caution, where: "W1",
		message: "W1 is taken up again where it stopped, 100 mm from the start of W1: 160 mm of it are left; what lies before is not in this run", source: "250 - 100 + 10"},
	{name: "one of several passes taken up again", edits: one("weld: {leg: 5 mm}", "weld: {leg: 7 mm}\n    restart: {at: 100 mm}"),
		code: finding.WeldTakenUp, severity: finding.Stop, where: "W1",
		message: "W1 is taken up again 100 mm from the start of W1, and is laid in 2 passes: which of them stopped is not told, and this run lays all of them in what is left",
		remedy:  "say passes: one where that is right, or write what is left of each pass as a seam of its own, by its area"},
	{name: "a stitch taken up again", edits: one("weld: {leg: 5 mm}", "weld: {leg: 5 mm}\n    stitches: {length: 40 mm, gap: 50 mm}\n    restart: {at: 100 mm, tie_in: 10 mm}"),
		code: finding.WeldTakenUp, severity: finding.Caution, where: "W1 stitch 2",
		message: "W1 stitch 2 is taken up again where it stopped, 100 mm from the start of W1: 20 mm of it are left; what lies before is not in this run", source: "stitch 2 from 70 to 110 mm: 110 - 100 + 10"},
}

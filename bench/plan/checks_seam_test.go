package plan_test

import "seamwright/bench/finding"

// Torch angles in the table are those of the worked cases: the rotations of a
// seam along x on a seam turned by some degrees in plan.
const yawTable = "worked case 1, table of re-typed rotations"

// end moves the weld end, mm.
func end(xyz string) [2]string { return [2]string{"W1 end,680,-230,30", "W1 end," + xyz} }

var seamFaults = []fault{
	{name: "tip off the seam", edits: [][2]string{{"W1 start,430,-230,30", "W1 start,430,-229.2,30.6"}, {"line: [W1 start, W1 end]", "line: [L1, L2]\n    taught: [W1 start, W1 end]"},
		{lastRows, outRow + "L1,430,-230,30,,,,,,,,,,linear,100,,,,\nL2,680,-230,30,,,,,,,,,,linear,100,,,,\n" + beforeHome}},
		code: finding.PointOffSeam, severity: finding.Caution, where: `W1 point "W1 start"`, measured: "1.00", limit: "0.50", unit: "mm",
		message: `W1: the tip at "W1 start" is 1.0 mm off the seam; half a wire is 0.5 mm`, source: "hypot(0.8, 0.6) = 1.0"},
	{name: "travel angle off", edits: [][2]string{end("676.2019,-186.5880,30")},
		code: finding.TaughtAngleOff, severity: finding.Note, where: `W1 point "W1 start"`, measured: "7.1", limit: "5.0", unit: "deg",
		message: `W1: "W1 start" is taught with work 45.8 deg, 2.9 deg push; wanted are 45.0 deg, 10.0 deg push`, source: yawTable + ", yaw +10: 45.8 / 2.9"},
	{name: "drag for push", edits: [][2]string{end("606.7767,-53.2233,30")},
		code: finding.TaughtPush, severity: finding.Caution, where: `W1 point "W1 end"`, measured: "-21.7", limit: "10.0", unit: "deg",
		message: `W1: "W1 end" is taught with 21.7 deg drag where 10.0 deg push is wanted`, source: yawTable + ", yaw +45: 41.5 / -21.7"},
	{name: "a point off the line", edits: [][2]string{{"[W1 start, W1 end]", "[W1 start, W1 mid, W1 end]"},
		{"W1 end,680", "W1 mid,555,-230,31.2,134.56,-7.05,7.11,,,,,,,linear,8.2,,,,\nW1 end,680"}},
		code: finding.SeamFitResidual, severity: finding.Caution, where: `W1 point "W1 mid"`, measured: "0.80", limit: "0.50", unit: "mm",
		message: `W1: point "W1 mid" lies 0.8 mm off the line through all its points`, source: "heights 0, 1.2, 0 about their mean 0.4: the middle one is 0.8 off"},
	{name: "points out of order", edits: [][2]string{{"[W1 start, W1 end]", "[W1 start, W1 end, W1 mid]"},
		{"W1 end,680", "W1 mid,555,-230,30,134.56,-7.05,7.11,,,,,,,linear,8.2,,,,\nW1 end,680"}},
		code: finding.SeamPointsOrder, severity: finding.Stop, where: "W1",
		message: `W1: point "W1 mid" does not lie beyond the points before it`, source: "x 430, 680, 555"},
	{name: "points too close", edits: [][2]string{end("431.5,-230,30")},
		code: finding.SeamTooShort, severity: finding.Stop, where: "W1", measured: "1.5", limit: "2.0", unit: "mm",
		message: "W1 is 1.5 mm long", source: "431.5 - 430"},
	{name: "short seam", edits: [][2]string{end("480,-230,30")},
		code: finding.SeamDirectionWeak, severity: finding.Caution, where: "W1", measured: "2.4", limit: "2.0", unit: "deg",
		message: "W1 is 50 mm long: two hand-guided tips tell its direction to 2.4 deg only",
		remedy:  "give the plates by directions, or points at least 60 mm apart", source: "two tips 1.5 mm off: 2.4 deg over 50 mm; worth nothing below about 60 mm"},
	{name: "seam out of its plate", edits: one("base: level", "base: {direction: [0.05234, 0, 0.99863]}"),
		code: finding.SeamNotInPlate, severity: finding.Caution, where: "W1", measured: "3.0", limit: "2.0", unit: "deg",
		message: "W1 runs 3.0 deg out of its base plate as described", source: "normal leaning sin 3 deg along the seam"},
	{name: "approach straight from above", edits: one("W1 in,421.3,-195.2,64.8", "W1 in,430,-230,80"),
		code: finding.ApproachOffAxis, severity: finding.Caution, where: `W1 point "W1 in"`, measured: "45.9", limit: "30.0", unit: "deg",
		message: `W1: the approach "W1 in" lies 46 deg off the line of the wire`, source: "acos(0.69636), torch body vector of V001"},
	{name: "retreat on the weld", edits: one("W1 out,666.1,-174.3,85.7", "W1 out,680,-230,30.5"),
		code: finding.ApproachOffAxis, severity: finding.Caution, where: `W1 point "W1 out"`,
		message: `W1: the retreat "W1 out" stands on the weld`, source: "0.5 mm above the weld end"},
	{name: "radius not the drawing's", edits: [][2]string{{"line: [W1 start, W1 end]", "arc: [W1 start, W1 mid, W1 end]\n    radius: 97 mm"}, end("530,-130,30"),
		{"W1 end,530", "W1 mid,500.711,-200.711,30,134.56,-7.05,7.11,,,,,,,arc,8.2,,,,\nW1 end,530"}},
		code: finding.RadiusDiffers, severity: finding.Caution, where: "W1", measured: "100.0", limit: "97.0", unit: "mm",
		message: "W1: the points make a radius of 100.0 mm, the drawing says 97.0 mm", source: "points at 0, 45 and 90 deg of a circle of 100 about (430, -130)"},
	{name: "wire not the tool point's", edits: one("stick_out: 13 mm\n  wire: 1.0 mm", "stick_out: 13 mm\n  wire: 0.045 in"),
		code: finding.WireDiffersToolPt, severity: finding.Stop, where: "W1", measured: "1.000", limit: "1.143", unit: "mm",
		message: "W1: settings set 11 is for 1 mm wire, the tool point was found with 1.14 mm", source: "0.045 in = 1.143 mm"},
	{name: "work angle along the plate", edits: one("work: 45 deg", "work: 88 deg"),
		code: finding.WorkAngleOutOfSense, severity: finding.Stop, where: "W1", measured: "88", limit: "85", unit: "deg",
		message: "W1: at a work angle of 88.0 deg the torch lies in a plate or close to it; 5 to 85 deg is the open joint", source: "plates at 90 and 0 deg, 5 deg to spare"},
	{name: "work angle from the plate", edits: [][2]string{{"joint: tee", "joint: butt"}, {"    upright: right\n", ""}, {"weld: {leg: 5 mm}", "weld: {area: 22 mm2}"}, {"work: 45 deg", "work: 90 deg"}},
		code: finding.WorkAngleOutOfSense, severity: finding.Stop, where: "W1", measured: "90", limit: "85", unit: "deg",
		message: "W1: at a work angle of 90.0 deg the torch lies in a plate or close to it; -85 to 85 deg is the open joint",
		remedy:  "90 deg from the plate is 0 deg from its normal: work angles here are measured from the normal", source: "AWS A3.0 by a textbook: a torch square to a butt joint has 0, other books write 90"},
	{name: "steep push", edits: one("push 10 deg", "push 25 deg"),
		code: finding.TravelAngleSteep, severity: finding.Caution, where: "W1", measured: "25", limit: "20", unit: "deg",
		message: "W1: 25.0 deg push; more than 20 deg draws air into the gas", source: "workshop article citing AWS: over 20 to 25 deg"},
	{name: "near the next position", edits: [][2]string{{"base: level", "base: {direction: [0, 0, 1]}"}, rolled(-7)},
		code: finding.PositionNearLimit, severity: finding.Note, where: "W1", measured: "3.0", limit: "5.0", unit: "deg",
		message: "W1 is welded in PB, 3.0 deg from PC", source: "face tilt 45 + 7 = 52, PB to 55 (ISO 6947, from memory)"},
}

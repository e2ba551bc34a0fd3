package plan_test

import "seamwright/bench/finding"

// tightArc makes the good seam half a circle of 4 mm about (430, -226).
var tightArc = [][2]string{
	{"line: [W1 start, W1 end]", "arc: [W1 start, W1 mid, W1 end]"},
	{"W1 end,680,-230,30", "W1 mid,434,-226,30,134.56,-7.05,7.11,,,,,,,arc,8.2,,,,\nW1 end,430,-222,30"},
}

// What a bend makes of speed and leg, by hand: 8.225 mm/s for 5 mm legs is 117.8
// deg/s on 4 mm; 60 deg/s are 4.189 mm/s, and 5 mm times the root of 8.225/4.189
// is 7.006 mm.
var cornerFaults = []fault{
	{name: "a bend too tight for the torch", edits: tightArc,
		code: finding.CornerTurn, severity: finding.Caution, where: "W1 pass 1 at 0 mm", measured: "118", limit: "60", unit: "deg/s",
		message: "W1 at 0 mm: at 8.2 mm/s the torch would have to turn at 118 deg/s in the bend, 60 is the most; it is held to 4.2 mm/s there", source: "8.225 / 4"},
	{name: "a bend that makes the leg fat", edits: tightArc,
		code: finding.CornerLeg, severity: finding.Caution, where: "W1 pass 1 at 0 mm", measured: "7.0", limit: "6.5", unit: "mm",
		message: "W1 at 0 mm: the leg comes to 7.0 mm in the bend, where 4.2 mm/s of 8.2 mm/s are held, 5.0 mm is wanted and 6.5 mm the most",
		remedy:  "weld the seam at 4.1 mm/s with 4.5 m/min of wire: a leg up to 5.0 mm", source: "4.189 rounded down; 9.0 m/min * 4.1 / 8.225 = 4.49 m/min"},
	{name: "too much of a turn before the corner", edits: turned,
		code: finding.CornerTravel, severity: finding.Caution, where: "W1 pass 1 at 100 mm", measured: "35.5", limit: "25.0", unit: "deg",
		message: "W1 at 100 mm: the torch comes to stand at 35.5 deg push to the joint while it turns, 25.0 deg push is the most",
		remedy:  "corners: {turn: {before: 20 deg over 15 mm, after: 25 deg over 15 mm}} gives a leg up to 8.0 mm and the torch from 7.9 deg drag to 23.7 deg push",
		source:  "asin(sin 10 cos a + sin 45 cos 10 sin a) for a of 40, 20 and -25 deg: 35.5, 23.7, -7.9; the leg is own value, held against a plan of its own by TestRemedyIsTrue"},
}

// turned makes the good seam go round an inside corner, of whose turn 40 deg are
// asked for before it.
var turned = [][2]string{
	{"line: [W1 start, W1 end]", "polyline: [W1 start, W1 mid, W1 end]\n    corners: {turn: {before: 40 deg over 15 mm}}"},
	{"W1 end,680,-230,30", "W1 mid,530,-230,30,134.56,-7.05,7.11,,,,,,,linear,8.2,,,,\nW1 end,530,-130,30"},
}

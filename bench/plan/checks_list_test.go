package plan_test

import "seamwright/bench/finding"

// A row that the taught list may carry besides those of the good job.
const (
	beforeHome = "home,,,,,,,0,-20,100,0,70,0,joint,,20,,,\n"
	lastRows   = "W1 out,666.1,-174.3,85.7,134.56,-7.05,7.11,,,,,,,linear,100,,,,\n" + beforeHome
	outRow     = "W1 out,666.1,-174.3,85.7,134.56,-7.05,7.11,,,,,,,linear,100,,,,\n"
)

// spare adds a row before the last one, as line 7 of the list.
func spare(row string) [][2]string { return [][2]string{{lastRows, outRow + row + "\n" + beforeHome}} }

func one(old, new string) [][2]string { return [][2]string{{old, new}} }

const byLine = "the list itself: labels, lines and numbers as typed"

var listFaults = []fault{
	{name: "arc off missing", edits: one("linear,8.2,,,off,", "linear,8.2,,,,"),
		code: finding.ArcLeftOn, severity: finding.Stop, where: `point "home"`,
		message: `arc on at point "W1 start" (line 4) is never switched off before the joint move at point "home" (line 7)`, source: byLine},
	{name: "arc off missing to the end", edits: [][2]string{{"linear,8.2,,,off,", "linear,8.2,,,,"}, {lastRows, outRow + "home,,,,,,,0,-20,100,0,70,0,,,,,,\n"}},
		code: finding.ArcLeftOn, severity: finding.Stop, where: `point "W1 start"`,
		message: `arc on at point "W1 start" (line 4) is never switched off`, source: byLine},
	{name: "more than full speed", edits: [][2]string{{"W1 in,421.3,-195.2,64.8,134.56,-7.05,7.11,,,,,,,joint,,20", "W1 in,421.3,-195.2,64.8,134.56,-7.05,7.11,,,,,,,joint,,120"}},
		code: finding.SpeedOverFull, severity: finding.Stop, where: `point "W1 in"`, measured: "120", limit: "100", unit: "percent",
		message: `point "W1 in" (line 3) is reached at 120 percent of joint speed`, source: byLine},
	{name: "arc on missing", edits: one("linear,100,,,on,11", "linear,100,,,,"),
		code: finding.ArcOffWithoutOn, severity: finding.Stop, where: `point "W1 end"`,
		message: `arc off at point "W1 end" (line 5), where no arc is on`, source: byLine},
	{name: "arc on twice", edits: one("linear,8.2,,,off,", "linear,8.2,,,on,11"),
		code: finding.ArcOnTwice, severity: finding.Stop, where: `point "W1 end"`,
		message: `arc on at point "W1 end" (line 5) while the arc of point "W1 start" (line 4) is still on`, source: byLine},
	{name: "joint move on the seam", edits: one("linear,8.2,,,off,", "joint,,20,,off,"),
		code: finding.ArcOnJointMove, severity: finding.Stop, where: `point "W1 end"`,
		message: `point "W1 end" (line 5) is reached by a joint move while the arc of point "W1 start" (line 4) is on`, source: byLine},
	{name: "home left out at the end", edits: one(lastRows, outRow),
		code: finding.HomeNotFirstLast, severity: finding.Stop, where: `point "W1 out"`,
		message: `the list ends at point "W1 out" (line 6), not at home "home"`, source: byLine},
	{name: "weld speed too fast in the list", edits: one("linear,8.2", "linear,30"),
		code: finding.WeldSpeedOutOfSense, severity: finding.Stop, where: `point "W1 end"`, measured: "30", limit: "25", unit: "mm/s",
		message: `point "W1 end" (line 5) welds at 30 mm/s (70.9 in/min)`, remedy: "30 mm/s is 70.9 in/min; did you mean 30 in/min = 12.7 mm/s?",
		source: "30 x 60 / 25.4 = 70.87; 30 x 25.4 / 60 = 12.7; 25 mm/s: common practice, no source"},
	{name: "linear air move too fast", edits: one("linear,100,,,,\n", "linear,400,,,,\n"),
		code: finding.AirSpeedAboveSite, severity: finding.Caution, where: `point "W1 out"`, measured: "400", limit: "250", unit: "mm/s",
		message: `point "W1 out" (line 6) is reached at 400 mm/s in a linear move; this job allows 250 mm/s`,
		source:  "250 mm/s with a person near: OSHA technical manual IV-4"},
	{name: "blend on the weld end", edits: one("linear,8.2,,,off,", "linear,8.2,,2,off,"),
		code: finding.BlendOnWeldEnd, severity: finding.Stop, where: `point "W1 end"`,
		message: `point "W1 end" (line 5) has a blend radius of 2.0 mm where the arc switches off`, source: byLine},
	{name: "blend on the weld start", edits: one("linear,100,,,on,11", "linear,100,,5,on,11"),
		code: finding.BlendOnWeldEnd, severity: finding.Stop, where: `point "W1 start"`,
		message: `point "W1 start" (line 4) has a blend radius of 5.0 mm where the arc switches on`, source: byLine},
	{name: "two points in one place", edits: spare("spare,430.02,-230,30,134.56,-7.05,7.11,,,,,,,linear,100,,,,"),
		code: finding.DuplicatePoint, severity: finding.Caution, where: `point "spare"`, measured: "0.02", limit: "0.05", unit: "mm",
		message: `point "spare" (line 7) stands where point "W1 start" (line 4) does`, source: byLine},
	{name: "inches among millimetres", edits: one("W1 in,421.3,-195.2,64.8", "W1 in,16.587,-7.685,2.551"),
		code: finding.UnitsSuspect, severity: finding.Stop, where: `point "W1 in"`, measured: "18.5", limit: "469", unit: "mm",
		message: `point "W1 in" (line 3) lies 18.5 mm from the arm's foot; read in the other unit it would lie 469 mm away`,
		remedy:  "check `points.length`: inches and millimetres may have been taken for each other",
		source:  "sqrt(16.587^2 + 7.685^2 + 2.551^2) = 18.46; x 25.4 = 468.9"},
	{name: "metres among millimetres", edits: one("W1 in,421.3,-195.2,64.8", "W1 in,0.4213,-0.1952,0.0648"),
		code: finding.UnitsSuspect, severity: finding.Stop, where: `point "W1 in"`, measured: "0.47", limit: "469", unit: "mm",
		message: `point "W1 in" (line 3) lies 0.5 mm from the arm's foot; read in the other unit it would lie 469 mm away`,
		remedy:  "check `points.length`: metres and millimetres may have been taken for each other",
		source:  "sqrt(421.3^2 + 195.2^2 + 64.8^2) = 468.8"},
	{name: "point beyond the arm", edits: spare("spare,72,0,2000,0,35,0,,,,,,,linear,100,,,,"),
		code: finding.PointOutsideReach, severity: finding.Caution, where: `point "spare"`, measured: "485", limit: "0", unit: "mm",
		message: `point "spare" (line 7) lies 485 mm out of this arm's reach`,
		source:  "flange upright, so the wrist stands at 2000 - 335 - 100 = 1565, 1385 above the shoulder at 180; the arm is 460 + 440 = 900 long"},
	{name: "joint values outside the limits", edits: spare("spare,,,,,,,0,-20,160,0,70,0,joint,,20,,,"),
		code: finding.TaughtJointsOutside, severity: finding.Stop, where: `point "spare"`, measured: "160", limit: "150", unit: "deg",
		message: `point "spare" (line 7) has j3 at 160.0 deg, 10.0 deg outside its limit`, source: "j3 +-150 deg in the arm's URDF"},
	{name: "degrees read as radians", edits: [][2]string{{"joints: deg", "joints: rad"}},
		code: finding.TaughtJointsOutside, severity: finding.Stop, where: `point "home"`, measured: "-1146", limit: "-120", unit: "deg",
		message: `point "home" (line 2) has j2 at -1145.9 deg, 1025.9 deg outside its limit`,
		remedy:  "the number reads like degrees: check `points.joints`", source: "-20 rad = -1145.9 deg; j2 +-120 deg in the arm's URDF"},
	{name: "list and seam differ in the set", edits: one("on,11", "on,12"),
		code: finding.ListSettingsMismatch, severity: finding.Caution, where: `W1 point "W1 start"`,
		message: `W1: the list lights the arc at point "W1 start" (line 4) with settings set 12, the seam has 11`, source: byLine},
}

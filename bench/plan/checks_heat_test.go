package plan_test

import "seamwright/bench/finding"

// steel says what is said of material and heat.
func steel(s string) [2]string { return [2]string{"seams:\n", s + "\nseams:\n"} }

var thick20 = [2]string{"{base: 8 mm, upright: 6 mm}", "{base: 20 mm, upright: 20 mm}"}

var heatFaults = []fault{
	{name: "no steel stated", edits: [][2]string{noProcedure},
		code: finding.MaterialMissing, severity: finding.Note, where: "material",
		message: "no steel is stated: preheat was not looked at, nor the cooling times held against any", source: "the document"},
	{name: "colder than the table of AWS", edits: [][2]string{noProcedure, {"name: stool foot\ncode: iso", "name: stool foot\ncode: aws"}, {"base: 8 mm", "base: 40 mm"}, steel("material: {grade: A572-50}\nheat: {preheat: 40 degC}")},
		code: finding.PreheatLow, severity: finding.Stop, where: "W1", measured: "40", limit: "65", unit: "degC",
		message: "W1: the preheat table of AWS D1.1 asks for a preheat of 65 degC (A572-50, 40.0 mm); the job states 40 degC",
		remedy:  "say heat: {preheat: 65 degC}, reached 75.0 mm from the weld, or ask the welding coordinator which method the contract follows",
		source:  "AWS D1.1:2015 Table 3.3: over 38 to 65 mm, A572-50, low hydrogen: 65 degC (READ)"},
	{name: "preheat that cannot be told", edits: [][2]string{noProcedure, thick20, steel("material: {grade: S355J2}")},
		code: finding.PreheatUnknown, severity: finding.Caution, where: "W1",
		message: "W1: the preheat cannot be told: settings set 11 states no hydrogen; add hydrogen (ml per 100 g) from the wire's certificate", remedy: "add what is missing, or ask the welding coordinator", source: "method B needs it"},
	{name: "cools too fast", edits: [][2]string{noProcedure, thick20, steel("heat: {cooling: {from: 5 s, to: 25 s}}")},
		code: finding.CoolingOutside, severity: finding.Stop, where: "W1", measured: "1.66", limit: "5", unit: "s",
		message: "W1: cools from 800 to 500 degC in 1.7 s (thick plate), 5 s at least is wanted: the plate gets hard beside the weld",
		remedy:  "bring more heat (a larger bead at slower travel), or preheat", source: "(6700 - 100) 0.4686 (1/480 - 1/780) 0.67 = 1.660"},
	{name: "cooling time that cannot be told", edits: [][2]string{noProcedure, {"    thickness: {base: 8 mm, upright: 6 mm}\n", ""}, steel("heat: {cooling: {from: 5 s}}")},
		code: finding.CoolingUnknown, severity: finding.Caution, where: "W1",
		message: "W1: the cooling time cannot be told: the thickness of the plates is not stated", remedy: "add what is missing", source: "the document"},
	{name: "stands between passes", edits: [][2]string{noProcedure, leg("9 mm"), thick20, steel("heat: {interpass_max: 60 degC}")},
		code: finding.InterpassStand, severity: finding.Note, where: "W1", measured: "71", limit: "0", unit: "s",
		message: "W1 pass 2: the arm stands 71 s at the approach until the joint is at 60 degC, by conduction into a wide plate whose faces lose 15 W/(m2 K); a small part keeps the heat",
		remedy:  "measure before each pass, and begin when the joint is at the ceiling or below; another seam may be welded meanwhile",
		source:  "thin plate, 14.85 mm2 in each of three passes: (0.67 x 0.506 kJ/mm / 20 mm / 40 K)^2 / (4 pi x 0.025 W/(mm K) x 0.005 J/(mm3 K)) = 114 s without a loss; with 2 x 15/(0.02 x 5e6) = 0.0003/s it is 107 s, of which 36 have gone by"},
	{name: "wait that is not known", edits: [][2]string{noProcedure, leg("9 mm")},
		code: finding.InterpassUnknown, severity: finding.Caution, where: "W1",
		message: "W1: how long the joint cools after pass 1 is not known: no interpass ceiling is stated", remedy: "say heat: {interpass_max: ...}, and measure before each pass", source: "the document"},
}

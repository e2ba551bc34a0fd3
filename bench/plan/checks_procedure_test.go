package plan_test

import (
	"testing"

	"seamwright/bench/finding"
)

const byPaper = "the procedure's own range"

// wps07 adds lines to the procedure.
func wps07(lines string) [][2]string { return [][2]string{{"id: WPS-07", "id: WPS-07\n" + lines}} }

// woven gives the seam a weave.
var woven = [2]string{"    settings: 11\n", "    settings: 11\n    weave: {shape: triangle, amplitude: 2 mm, frequency: 1 Hz}\n"}

var procedureFaults = []fault{
	{name: "travel angle at a corner", from: func(t *testing.T) files {
		f := memberJob(t, boxCorners(), "  - name: W1\n    joint: tee\n    polyline: [C1, C2, C3]\n    base: level\n    upright: left\n    weld: {leg: 5 mm}\n")
		f["procedure.yaml"] = "id: P1\ncode: iso\nranges: {travel_angle: {from: drag 5 deg, to: push 15 deg}}\n"
		f.edit(t, "settings: {file: settings.yaml}", "settings: {file: settings.yaml}\nprocedure: {file: procedure.yaml}")
		return f
	}, code: finding.ProcedureOther, severity: finding.Stop, where: "W1 pass 1 at 200 mm", measured: "20.36", limit: "15.00", unit: "deg",
		message: "W1: travel angle 20.36 deg (push positive) is above the 15 deg of procedure P1",
		remedy:  "turn the torch less before and behind that corner (corners: {turn: {before: ..., after: ...}}), or put the arc out there (corners: {arc: off})",
		source:  "a push of 10 deg turned back by 15 deg at a square corner, work 45: the project's worked case, 20.4 deg"},
	{name: "no procedure", edits: [][2]string{noProcedure},
		code: finding.ProcedureMissing, severity: finding.Caution, where: "procedure",
		message: "settings are held against no welding procedure", source: byPaper},
	{name: "a settings set that is a template", edits: one("name: z5", "name: Fill in this set"),
		code: finding.ValueToFillIn, severity: finding.Stop, where: "settings", remedy: "fill in the set with what your source has, then give it its own name",
		message: `settings set "11" of W1 is still a template: its feed, its wire and what is reckoned from them are nobody's values`, source: byPaper},
	{name: "a procedure that is a template", edits: one("id: WPS-07", "id: fill in"),
		code: finding.ValueToFillIn, severity: finding.Stop, where: "procedure", remedy: "fill it in from the paper, and its id",
		message: "the procedure is still a template", source: byPaper},
	{name: "what the procedure does not state", edits: one("  voltage: {from: 22 V, to: 26 V}\n", ""),
		code: finding.ProcedureSilent, severity: finding.Note, where: "procedure",
		message: "procedure WPS-07 states no limit for process, transfer mode, weld kind, wire class, gas flow, voltage, work angle, travel angle, parent material group, polarity, technique, weave amplitude, preheat temperature; these were not checked",
		source:  byPaper + "; a stringer has no frequency, one pass no interpass temperature"},
	{name: "current", edits: [][2]string{set11("205 A", "240 A")},
		code: finding.CurrentOutside, severity: finding.Stop, where: "W1", measured: "240", limit: "230", unit: "A",
		message: "W1: current 240 A is above the 230 A of procedure WPS-07", source: byPaper},
	{name: "voltage", edits: [][2]string{set11("23.5 V", "21.5 V")},
		code: finding.VoltageOutside, severity: finding.Stop, where: "W1", measured: "21.5", limit: "22", unit: "V",
		message: "W1: voltage 21.5 V is below the 22 V of procedure WPS-07", source: byPaper},
	{name: "feed", edits: [][2]string{set11("9.0 m/min", "10.5 m/min")},
		code: finding.FeedOutside, severity: finding.Stop, where: "W1", measured: "10.5", limit: "10", unit: "m/min",
		message: "W1: wire feed speed 10.5 m/min is above the 10 m/min of procedure WPS-07", source: byPaper},
	{name: "travel too fast", edits: [][2]string{leg("4 mm")},
		code: finding.TravelAbove, severity: finding.Stop, where: "W1", measured: "12.85", limit: "10", unit: "mm/s",
		message: "W1: travel speed 12.85 mm/s is above the 10 mm/s of procedure WPS-07", source: byMetal + ": 113.097/(1.1 x 8) = 12.852"},
	{name: "travel too slow", edits: [][2]string{inOne("6.5 mm")},
		code: finding.TravelBelow, severity: finding.Stop, where: "W1", measured: "4.867", limit: "5", unit: "mm/s",
		message: "W1: travel speed 4.867 mm/s is below the 5 mm/s of procedure WPS-07", source: byMetal + ": 113.097/(1.1 x 21.125) = 4.867"},
	{name: "too hot", edits: [][2]string{leg("6 mm")},
		code: finding.HeatAbove, severity: finding.Stop, where: "W1", measured: "0.6747", limit: "0.6", unit: "kJ/mm",
		message: "W1: heat input (with k) 0.6747 kJ/mm (voltage times current) is above the 0.6 kJ/mm of procedure WPS-07",
		source:  "EN 1011-1: 0.8 x 23.5 x 205/(113.097/19.8)/1000 = 0.6747"},
	{name: "too cold", edits: one("heat_input: {from: 0.3 kJ/mm", "heat_input: {from: 0.5 kJ/mm"),
		code: finding.HeatBelow, severity: finding.Stop, where: "W1", measured: "0.4686", limit: "0.5", unit: "kJ/mm",
		message: "W1: heat input (with k) 0.4686 kJ/mm (voltage times current) is below the 0.5 kJ/mm of procedure WPS-07",
		source:  "EN 1011-1: 0.8 x 23.5 x 205/8.2253/1000 = 0.46856"},
	{name: "arc energy", edits: one("heat_input: {from: 0.3 kJ/mm, to: 0.6 kJ/mm}", "arc_energy: {from: 0.3 kJ/mm, to: 0.55 kJ/mm}"),
		code: finding.EnergyOutside, severity: finding.Stop, where: "W1", measured: "0.5857", limit: "0.55", unit: "kJ/mm",
		message: "W1: arc energy (no k) 0.5857 kJ/mm (voltage times current) is above the 0.55 kJ/mm of procedure WPS-07",
		source:  "23.5 x 205/8.2253/1000 = 0.58570"},
	{name: "thickness", edits: one("base: 8 mm", "base: 14 mm"),
		code: finding.ThicknessOutside, severity: finding.Stop, where: "W1", measured: "14", limit: "12", unit: "mm",
		message: "W1: thickness 14 mm (thicker part) is above the 12 mm of procedure WPS-07", source: byPaper},
	{name: "tip distance", edits: one("spin: as taught", "spin: as taught, distance: 20 mm"),
		code: finding.DistanceOutside, severity: finding.Stop, where: "W1", measured: "20", limit: "18", unit: "mm",
		message: "W1: contact-tip-to-work distance 20 mm is above the 18 mm of procedure WPS-07", source: byPaper},
	{name: "position", edits: [][2]string{{"base: level", "base: {direction: [0, 0, 1]}"}, rolled(-20)},
		code: finding.PositionOutside, severity: finding.Stop, where: "W1",
		message: "W1: position PC is not in procedure WPS-07, which has PA, PB", source: "face tilt 45 + 20 = 65: PC from 55 on (ISO 6947, from memory)"},
	{name: "gas", edits: [][2]string{set11("M21", "M20")},
		code: finding.ProcedureOther, severity: finding.Stop, where: "W1",
		message: "W1: shielding gas M20 is not in procedure WPS-07, which has M21", source: byPaper},
	{name: "wire", edits: [][2]string{set11("1.0 mm", "1.2 mm")},
		code: finding.ProcedureOther, severity: finding.Stop, where: "W1",
		message: "W1: wire diameter 1.2 mm is not in procedure WPS-07, which has 1 mm", source: byPaper},
	{name: "current by row", edits: wps07("runs: [{passes: root, current: {from: 180 A, to: 200 A}}]"),
		code: finding.CurrentOutside, severity: finding.Stop, where: "W1", measured: "205", limit: "200", unit: "A",
		message: "W1: current 205 A is above the 200 A of procedure WPS-07 (root runs)", source: byPaper},
	{name: "a pass without a row", edits: wps07("runs: [{passes: [fill, cap]}]"),
		code: finding.ProcedureNoRow, severity: finding.Stop, where: "W1",
		message: `W1: welding procedure "WPS-07" states nothing for pass 1; it has fill and cap runs`, source: byPaper},
	{name: "what the job does not state", edits: append(wps07("polarity: DCEP\nparent: {groups: [1.1]}"), [2]string{"  current: {from", "  preheat: {from: 20 degC}\n  interpass: {to: 250 degC}\n  current: {from"}),
		code: finding.PlannedNotStated, severity: finding.Caution, where: "procedure",
		message: "not stated in the job: parent material group, polarity, preheat temperature, which procedure WPS-07 limits; these were not checked",
		source:  "one pass has no interpass temperature"},
	{name: "polarity", edits: append(wps07("polarity: DCEP"), [2]string{"{id: 11, name: z5,", "{id: 11, name: z5, polarity: DCEN,"}),
		code: finding.ProcedureOther, severity: finding.Stop, where: "W1",
		message: "W1: polarity electrode negative is not in procedure WPS-07, which has electrode positive", source: byPaper},
	{name: "a weave where stringers are asked for", edits: append(wps07("technique: [stringer]"), woven),
		code: finding.ProcedureOther, severity: finding.Stop, where: "W1", remedy: "weave or do not weave as the procedure says, or choose another procedure",
		message: "W1: technique weave is not in procedure WPS-07, which has stringer", source: byPaper},
	{name: "a weave that is too wide", edits: [][2]string{woven, {"  current: {from", "  weave_amplitude: {to: 1.5 mm}\n  current: {from"}},
		code: finding.ProcedureOther, severity: finding.Stop, where: "W1", measured: "2", limit: "1.5", unit: "mm", remedy: "a narrower weave, more passes, or another procedure",
		message: "W1: weave amplitude 2 mm (half of the width) is above the 1.5 mm of procedure WPS-07", source: byPaper},
	{name: "a weave that is too slow", edits: [][2]string{woven, {"  current: {from", "  weave_frequency: {from: 2 Hz}\n  current: {from"}},
		code: finding.ProcedureOther, severity: finding.Stop, where: "W1", measured: "1", limit: "2", unit: "Hz", remedy: "another frequency of the weave, or another procedure",
		message: "W1: weave frequency 1 Hz is below the 2 Hz of procedure WPS-07", source: byPaper},
	{name: "more heat than the record permits", edits: wps07("processes: [135]\nqualified_by: {record: R-1, process: 135, current: 200 A, voltage: 23 V, travel: 8 mm/s, tests: impact}"),
		code: finding.ProcedureWider, severity: finding.Caution, where: "procedure", measured: "0.6", limit: "0.575", unit: "kJ/mm",
		message: "procedure WPS-07: energy per length 0.6 kJ/mm is more than record R-1 permits, at most 0.575 kJ/mm",
		source:  "ISO 15614-1, 25 % up with impact tests (from memory): 1.25 x 0.8 x 23 x 200/8/1000 = 0.575"},
	{name: "no preheat where the record has one", edits: wps07("processes: [135]\nqualified_by: {record: R-1, process: 135, preheat: 50 degC}"),
		code: finding.ProcedureWider, severity: finding.Caution, where: "procedure",
		message: "procedure WPS-07 does not limit preheat temperature as record R-1 does: at least 50 degC",
		source:  "ISO 15614-1: preheat not below the record's (from memory)"},
	{name: "a record that says little", edits: wps07("processes: [135]\nqualified_by: {record: R-1, process: 135}"),
		code: finding.ProcedureWider, severity: finding.Note, where: "procedure", remedy: "take them from the record into qualified_by",
		message: "procedure WPS-07: record R-1 does not state transfer mode, shielding gas, polarity, preheat temperature, interpass temperature; these were not held against it",
		source:  "ISO 15614-1 (from memory)"},
}

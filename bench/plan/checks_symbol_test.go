package plan_test

import (
	"seamwright/bench/finding"
)

const symbolFields = "fields of ISO 2553 and AWS A2.4, READ in secondary pages"

// called asks for a symbol, as a text without quotation marks, in place of the leg.
func called(text, more string) [2]string {
	return [2]string{"weld: {leg: 5 mm}", "symbol: '" + text + "'" + more}
}

var symbolFaults = []fault{
	{name: "the other side has no seam", edits: [][2]string{called("z5 both sides", "\n    side: other")},
		code: finding.SymbolOtherSide, severity: finding.Caution, where: "W1", measured: "0", limit: "1", unit: "seams",
		message: "W1: its symbol has welds on both sides; no seam is its arrow side, W1 on its other side", source: symbolFields},
	{name: "all round on an open path", edits: [][2]string{called("z5 arrow side, all round", "")},
		code: finding.SymbolAllRound, severity: finding.Caution, where: "W1",
		message: "W1: its symbol says all round, and its path does not close", source: symbolFields},
	{name: "another length", edits: [][2]string{called("z5 arrow side, length 290", "")},
		code: finding.SymbolLength, severity: finding.Caution, where: "W1", measured: "250", limit: "290", unit: "mm",
		message: "W1: its symbol says a length of 290 mm, its path is 250 mm long", source: symbolFields},
	{name: "another process in the tail", edits: [][2]string{called(`z5 arrow side, tail "138"`, "")},
		code: finding.SymbolTail, severity: finding.Caution, where: "W1",
		message: "W1: its symbol's tail asks for process 138 metal-cored, settings set 11 is for 135 MAG", source: symbolFields},
	{name: "another position in the tail", edits: [][2]string{called(`z5 arrow side, tail "PF"`, "")},
		code: finding.SymbolTail, severity: finding.Caution, where: "W1",
		message: "W1: its symbol's tail asks for position PF, it is welded in PB", source: symbolFields},
	{name: "another procedure in the tail", edits: [][2]string{called(`z5 arrow side, tail "WPS-08"`, "")},
		code: finding.SymbolTail, severity: finding.Caution, where: "W1",
		message: "W1: its symbol's tail asks for procedure WPS-08, it is held against WPS-07", source: symbolFields},
	{name: "a procedure in the tail of a job without one", edits: [][2]string{called(`z5 arrow side, tail "WPS 07"`, ""), noProcedure},
		code: finding.SymbolTail, severity: finding.Caution, where: "W1",
		message: "W1: its symbol's tail asks for procedure WPS 07, the job gives none for it", source: symbolFields},
	{name: "another filler in the tail", edits: [][2]string{called(`z5 arrow side, tail "135/ISO 14341-A-G 42 4 M21 4Si1"`, ""), set11("gas: M21", "wire_class: G 42 4 M21 3Si1, gas: M21")},
		code: finding.SymbolTail, severity: finding.Caution, where: "W1",
		message: "W1: its symbol's tail asks for filler ISO 14341-A-G 42 4 M21 4Si1, settings set 11 is for G 42 4 M21 3Si1", source: symbolFields},
	{name: "a penetration beside the throat", edits: [][2]string{called("s8a4 arrow side", "")},
		code: finding.SymbolOpen, severity: finding.Caution, where: "W1", remedy: "show the penetration by a procedure test",
		message: "W1: its symbol counts a penetration of 8.0 mm; the throat of 4.0 mm is planned, and no melt below the root", source: symbolFields},
	{name: "a symbol of the other family", edits: [][2]string{called("AWS: 5 arrow side", "")},
		code: finding.SymbolOtherCode, severity: finding.Caution, where: "W1",
		message: "W1: its symbol is of AWS A2.4 in a job of code ISO: size and spacing are read by AWS A2.4, limits are those of ISO", source: symbolFields},
	{name: "what no plan brings about", edits: [][2]string{called(`AWS: 5 arrow side, contour convex, finish G, field, tail "see note 3"`, "")},
		code: finding.SymbolByHand, severity: finding.Note, where: "W1",
		message: `W1: its symbol also calls for a weld in the field, not in the shop; a convex face, finish G; "see note 3" in its tail; no plan brings that about`, source: symbolFields},
	{name: "a quality level and a filler", edits: [][2]string{called(`z5 arrow side, tail "135/ISO 5817-C/PB/ISO 14341-A-G 42 4 M21 3Si1"`, "")},
		code: finding.SymbolByHand, severity: finding.Note, where: "W1",
		message: "W1: its symbol also calls for quality level ISO 5817-C; filler ISO 14341-A-G 42 4 M21 3Si1 (the settings set states no class of wire); no plan brings that about", source: symbolFields},
	{name: "stitches without their number", edits: [][2]string{called("z5 arrow side, 40-90", "")},
		code: finding.SymbolSpacing, severity: finding.Caution, where: "W1", remedy: "ask which standard the drawing follows: ISO 2553 writes the number of stitches before their length, and here is none",
		message: "W1: stitches of 40 mm with 90 mm clear between them by ISO 2553-A: on one side 2 of them, 80 mm of weld; by AWS A2.4 the same figures are a pitch of 90 mm: 4 of them, 160 mm of weld",
		source:  "on 250 mm: floor(210/130) + 1 = 2; ceil(210/90) + 1 = 4"},
	{name: "stitches with their number", edits: [][2]string{called("z5 arrow side, 2 x 40 (90)", "")},
		code: finding.SymbolSpacing, severity: finding.Note, where: "W1",
		message: "W1: stitches of 40 mm with 90 mm clear between them by ISO 2553-A: on one side 2 of them, 80 mm of weld; by AWS A2.4 the same figures are a pitch of 90 mm: 4 of them, 160 mm of weld",
		source:  "on 250 mm: ceil(210/90) + 1 = 4"},
	{name: "stitches of a side by itself", edits: [][2]string{called("z5 both sides, 2 x 40 (90), staggered", "\n    side: other")},
		code: finding.SymbolOpen, severity: finding.Caution, where: "W1",
		message: "W1: its symbol leaves something open: staggered: the stitches of this side begin half the drawn pitch later", source: symbolFields},
}

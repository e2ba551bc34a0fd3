package plan_test

import (
	"fmt"
	"testing"

	"seamwright/bench/finding"
	"seamwright/geom/r3"
)

// Joint values in the table were computed apart from this program, by the
// cosine rule in the plane of the arm: shoulder 180 above the foot, 460 to the
// elbow, 440 to the wrist, 100 to the flange, tip at (72, 0, 335), wire tilted
// 35 deg.
const byHand = "arm's plane by the cosine rule, computed apart"

// fixed asks for one spin, deg.
func fixed(spin float64) [2]string {
	return [2]string{"spin: as taught", fmt.Sprintf("spin: %g deg", spin)}
}

// alone takes the seam to other ends, mm, without taught approach and retreat
// and without the list.
func alone(from, to string, edits ...[2]string) [][2]string {
	return append([][2]string{{"W1 start,430,-230,30", "W1 start," + from}, end(to),
		{"    approach: W1 in\n    retreat: W1 out\n", ""}, {"list: true", "list: false"}, {lastRows, outRow}}, edits...)
}

// tube welds all round a tube of 60 mm at (500, 0), from its -y side.
func tube(edits ...[2]string) [][2]string {
	return append(alone("500,-30,30", "470,0,30"), append([][2]string{
		{"line: [W1 start, W1 end]", "circle: [W1 start, W1 mid, W1 end]\n    overlap: 10 mm"}, {"upright: right", "upright: tube outside"},
		{"W1 end,470", "W1 mid,500,30,30,134.56,-7.05,7.11,,,,,,,arc,8.2,,,,\nW1 end,470"}}, edits...)...)
}

// limits and velocity edit a joint of the arm, rad and rad/s.
func limits(joint int, low, high string) [2]string {
	old := map[int]string{5: `lower="-2.0943951023931953" upper="2.0943951023931953" velocity="3.1"`, 6: `lower="-4.71238898038469" upper="4.71238898038469" velocity="3.1"`}[joint]
	return [2]string{old, fmt.Sprintf("lower=%q upper=%q velocity=\"3.1\"", low, high)}
}

var slowShoulder = [2]string{`lower="-2.0943951023931953" upper="2.0943951023931953" velocity="2.6"`, `lower="-2.0943951023931953" upper="2.0943951023931953" velocity="0.01"`}

var armFaults = []fault{
	{name: "branch on a header", from: quarterSaddle,
		code: finding.JointOpens, severity: finding.Caution, where: "W1", measured: "2.637", limit: "3.536", unit: "mm",
		message: "W1: the plates stand at 90 deg at its start and at 90 to 122 deg along it; the metal that makes leg 5.0 mm and throat 3.5 mm there makes legs of 5.0 mm to 5.4 mm and throats of 2.6 mm to 3.5 mm",
		source:  "by hand: 90 deg + asin(60.3/114.3) = 121.84 deg; leg 5/sqrt(sin) = 5.425, throat leg cos(half) = 2.637"},
	{name: "branch on a header, position", from: quarterSaddle,
		code: finding.PositionChanges, severity: finding.Note, where: "W1",
		message: "W1 begins in PB and turns along its way: PG from 22 mm, PC from 32 mm",
		source:  "limits of ISO 6947 (from memory); the places are the plan's own, the positions those of the joint there"},
	{name: "beyond the arm", edits: [][2]string{end("1400,-230,30")},
		code: finding.ArmCannotReach, severity: finding.Stop, where: "W1 pass 1 at 730 mm", measured: "9.53", limit: "0", unit: "mm",
		message: "W1 at 730 mm of 970 mm: no posture at any spin; the wrist misses by 10 mm",
		remedy:  "the longest stretch in one go is 0 to 720 mm", source: byHand + ": 0.4 mm to spare at 720, 9.53 missing at 730"},
	{name: "elbow past its limit", edits: [][2]string{fixed(-180)},
		code: finding.JointLimit, severity: finding.Stop, where: "W1 pass 1 at 0 mm", measured: "-154.02", limit: "-150", unit: "deg",
		message: "W1 at 0 mm of 250 mm: at the fixed spin j3 stands at -154.0 deg, 4.0 deg beyond its limit of -150.0 deg",
		remedy:  "work 45.0 deg with 5.0 deg push, inside the tolerance of 5 deg, would carry through; free the spin; the longest stretch in one go is 40 to 250 mm",
		source:  byHand + ": j3 +-154.02 at the weld start; worst on the whole way 154.0 with push 10, 151.6 with 7.5, 149.1 with 5"},
	{name: "elbow at its limit", edits: [][2]string{fixed(-145)},
		code: finding.JointLimit, severity: finding.Stop, where: "W1 pass 1 at 0 mm", measured: "-149.92", limit: "-150", unit: "deg",
		message: "W1 at 0 mm of 250 mm: at the fixed spin j3 stands at -149.9 deg, closer than 0.5 deg to its limit of -150.0 deg",
		remedy:  "work 45.0 deg with 7.5 deg push, inside the tolerance of 5 deg, would carry through; free the spin; the longest stretch in one go is 10 to 250 mm",
		source:  byHand + ": j3 +-149.92 at the weld start"},
	{name: "torch too heavy", edits: [][2]string{{"flange_link: flange}", "flange_link: flange, payload: 5 kg}"}, {"  wire: 1.0 mm\n", "  wire: 1.0 mm\n  mass: 5.4 kg\n"}},
		code: finding.TorchAbovePayload, severity: finding.Caution, where: "torch.mass", measured: "5.4", limit: "5.0", unit: "kg",
		message: "the torch weighs 5.4 kg, the arm may carry 5.0 kg", source: "the two masses as typed"},
	{name: "torch's mass not given", edits: [][2]string{{"flange_link: flange}", "flange_link: flange, payload: 5 kg}"}},
		code: finding.TorchAbovePayload, severity: finding.Note, where: "torch.mass",
		message: "the torch's mass is not given: it was not held against the arm's payload", remedy: "add mass to torch", source: "the document"},
	{name: "payload not given", edits: [][2]string{{"  wire: 1.0 mm\n", "  wire: 1.0 mm\n  mass: 5.4 kg\n"}},
		code: finding.TorchAbovePayload, severity: finding.Note, where: "arm.payload",
		message: "the arm's payload is not given: the torch's mass was not held against it", remedy: "add payload to arm", source: "the document"},
	{name: "cable wound up", edits: tube([2]string{"spin: as taught", "spin: free"}, [2]string{"flange_link: flange}", "flange_link: flange, cable_turn: 189.08 deg}"}),
		code: finding.JointLimit, severity: finding.Stop, where: "W1 pass 1 at 159 mm", measured: "-193", limit: "-189.08", unit: "deg",
		message: "W1 at 159 mm of 198 mm: every way there winds j6 to -192.6 deg, 3.5 deg beyond its cable limit of -189.1 deg",
		remedy:  "work 40.0 deg with 10.0 deg push, inside the tolerance of 5 deg, would carry through; two starts do it: split: {at: 148 mm, tie_in: 12 mm}, so 0 to 148 mm and then 136 to 198 mm; the longest stretch in one go is 0 to 157 mm",
		source:  "as where the file has this limit, below"},
	{name: "table to be turned", from: func(t *testing.T) files {
		a := onWhimbrel("[0 deg, 0 deg]", "0, 0") // a seam that lies behind the table's middle
		a.start, a.end = r3.Vec{X: 1300, Y: -50, Z: 380}, r3.Vec{X: 1400, Y: -50, Z: 380}
		return a.files(t)
	}, code: finding.TableMoved, severity: finding.Caution, where: "W1", measured: "90", limit: "0", unit: "deg",
		message: "W1: the table stands otherwise: turn at 90.0 deg, taught at 0.0 deg",
		source:  "the search's own stand"},
	{name: "along a girder", from: func(t *testing.T) files {
		a := exampleArms[2] // 3 m along the beam, the arm reaches 1.2 m each way
		a.start, a.end, a.turn = r3.Vec{X: 500, Y: -1500, Z: 1900}, r3.Vec{X: 500, Y: 1500, Z: 1900}, "180, 0, 0"
		return a.files(t)
	}, edits: [][2]string{{"spin: as taught", "spin: free"}},
		code: finding.AxisMoves, severity: finding.Caution, where: "W1", measured: "700", limit: "0", unit: "mm",
		message: "W1: slide moves along the weld, from -400 mm to 300 mm", source: "the search's own way"},
	{name: "wrist wound up", edits: tube([2]string{"spin: as taught", "spin: free"}, limits(6, "-3.3", "3.3")),
		code: finding.JointLimit, severity: finding.Stop, where: "W1 pass 1 at 159 mm", measured: "-193", limit: "-189.08", unit: "deg",
		message: "W1 at 159 mm of 198 mm: every way there winds j6 to -192.6 deg, 3.5 deg beyond its limit of -189.1 deg",
		remedy:  "work 40.0 deg with 10.0 deg push, inside the tolerance of 5 deg, would carry through; two starts do it: split: {at: 148 mm, tie_in: 12 mm}, so 0 to 148 mm and then 136 to 198 mm; the longest stretch in one go is 0 to 157 mm",
		source:  "-3.3 rad = -189.08 deg; place and way are the search's own"},
	{name: "elbow near its limit", edits: [][2]string{fixed(-135)},
		code: finding.JointLimitMargin, severity: finding.Caution, where: "W1 pass 1 at 0 mm", measured: "3.62", limit: "5.00", unit: "deg",
		message: "W1 at 0 mm: j3 is 3.6 deg from its limit", source: byHand + ": j3 +-146.38 at the weld start"},
	{name: "wrist nearly straight", edits: [][2]string{fixed(150), {"flange_link: flange", "flange_link: flange, wrist_margin: 15 deg"}},
		code: finding.NearSingular, severity: finding.Caution, where: "W1 pass 1 at 40 mm", measured: "13.80", limit: "15.00", unit: "deg",
		message: "W1 at 40 mm: the wrist is 13.8 deg from its singularity", source: byHand + ": j5 +-13.80"},
	{name: "wrist straight", edits: alone("417,-262.6,264.1", "1041.9,198,264.1", fixed(-140)),
		code: finding.NearSingular, severity: finding.Stop, where: "W1 pass 1 at 119 mm", measured: "1.36", limit: "2.00", unit: "deg",
		message: "W1 at 119 mm of 776 mm: every posture stands within 2 deg of a singularity of the wrist",
		remedy:  "work 42.5 deg with 7.5 deg push, inside the tolerance of 5 deg, would carry through; free the spin; the longest stretch in one go is 129 to 776 mm", source: byHand + ": j5 +-1.36 in all four postures"},
	{name: "postures that do not join", edits: alone("84.9,-502.4,158.1", "151,186,158.1", fixed(-16)),
		code: finding.NoContinuous, severity: finding.Stop, where: "W1 pass 1 at 395 mm",
		message: "W1 at 395 mm of 692 mm: the arm can be there, but not coming from where it was: postures before and after it do not join",
		remedy:  "work 47.5 deg with 7.5 deg push, inside the tolerance of 5 deg, would carry through; two starts do it: split: {at: 258 mm, tie_in: 12 mm}, so 0 to 258 mm and then 246 to 692 mm; free the spin; the longest stretch in one go is 119 to 692 mm",
		source:  byHand + ": the seam passes behind the column, where j1 would cross +-180 with limits of +-175"},
	{name: "shoulder too slow", edits: [][2]string{slowShoulder},
		code: finding.JointSpeedWeld, severity: finding.Stop, where: "W1 pass 1 at 250 mm", measured: "1.29", limit: "0.57", unit: "deg/s",
		message: "W1 at 250 mm: at 8.2 mm/s j2 would have to turn at 1.29 deg/s, it can do 0.573; it follows up to 3.7 mm/s there", source: byHand + ": j2 gains 1.283 deg/s over the last millimetre at 8.2253 mm/s; 0.01 rad/s = 0.573 deg/s"},
	{name: "taught spin does not carry", edits: [][2]string{limits(5, "-1.9", "1.9")},
		code: finding.SpinChanged, severity: finding.Note, where: "W1", measured: "50", limit: "0", unit: "deg",
		message: "W1: the taught spin of 0 deg does not carry through with the margins asked for; 50 deg does", source: byHand + ": j5 from 91.0 to 107.2 at spin 0, 74.9 to 89.3 at spin 50, limit 108.9 less 5"},
	{name: "spin turns along the seam", edits: alone("108.2,-706,198.5", "94.8,-0.7,198.5"),
		code: finding.SpinVaries, severity: finding.Note, where: "W1",
		message: "W1: the torch turns from 71 to 79 deg about its wire along the seam; no single spin does better", source: "the search's own"},
	{name: "start turn matters", edits: [][2]string{fixed(0), limits(6, "-2.75", "4.71238898038469")},
		code: finding.WindingStart, severity: finding.Caution, where: "W1",
		message: "W1 must start with j6 at 210 deg: from the turn nearest to where the arm comes from a limit would stop it", source: byHand + ": j6 -150.06 at the approach and below -157.6 at the end; -150.06 + 360 = 209.94"},
	{name: "no room to leave", on: "s6",
		code: finding.ApproachReplaced, severity: finding.Caution, where: "W1",
		message: "W1: shortened the retreat to 40 mm of 80 mm: the arm cannot have the whole with the posture of the pass",
		source:  byHand + ": at the whole retreat the wrist is 15.6 mm out of reach at every spin, at half of it 30 of 360 spins are in reach"},
	{name: "home out of reach", edits: append(spare("spare,72,0,2000,0,35,0,,,,,,,linear,100,,,,"), [2]string{"home: home", "home: spare"}),
		code: finding.HomeUnreachable, severity: finding.Stop, where: `point "spare"`,
		message: `home "spare" is not a posture of this arm`, source: "2000 mm up; see the row of the point beyond the arm"},
	{name: "a place of the cart that serves", edits: [][2]string{end("1400,-230,30")},
		code: finding.CartShift, severity: finding.Note, where: "job", measured: "250", limit: "0", unit: "mm",
		message: "every seam of this job can be run if the arm's foot is moved 250 mm towards the base frame's +x",
		remedy:  "move the cart so, touch the points again and plan again", source: "the search's own; TestShiftServes runs it"},
	{name: "a seam left out", edits: [][2]string{end("1400,-230,30")},
		code: finding.RunIncomplete, severity: finding.Stop, where: "W1",
		message: "W1 is left out of the run: no posture carries through it", source: byHand + ": see the row of the point beyond the arm"},
	{name: "not on the machine", code: finding.NotOnMachine, severity: finding.Note, where: "job",
		message: "this plan has not been checked on the machine", source: "a dry run only a person can tick"},
}

// quarterSaddle is a branch welded on its header from crown to saddle point.
func quarterSaddle(t *testing.T) files {
	return memberJob(t, solePost, `  - name: W1
    joint: tee
    saddle: {run: header, branch: stub, sweep: 90 deg}
    weld: {leg: 5 mm}
`)
}

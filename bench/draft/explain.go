package draft

import (
	"maps"
	"slices"
	"strings"
)

// Known reports whether a question of that name may be asked: one for the whole
// table or job, one of a line ("columns_7") or of a seam ("W1.end").
func Known(id string) bool {
	if explain[wholeID(id)] != "" {
		return true
	}
	i := strings.LastIndex(id, ".")
	return i > 0 && explain[id[i+1:]] != ""
}

// SeamOf returns the seam that a question is about, empty where it is about
// none.
func SeamOf(id string) string {
	if i := strings.LastIndex(id, "."); i > 0 && explain[id] == "" {
		return id[:i]
	}
	return ""
}

// IDs returns the names of all questions, those of lines and seams without the
// line and the seam, in the order of the alphabet.
func IDs() []string { return slices.Sorted(maps.Keys(explain)) }

// explain says, by the name of a question or of its part behind the seam, why
// it is asked and how to find out.
var explain = map[string]string{
	"comment_rows":  "Lines that begin with # or a like sign are usually notes. These hold numbers, so they may be points that somebody put aside, or labels such as #1.",
	"separator":     "The same signs can be read as other numbers. Compare with the screen the numbers were read from.",
	"decimal":       "Some write 1,250 for one and a quarter, others for a thousand and more. Compare with the screen the numbers were read from.",
	"label_numbers": "Between blanks it cannot be seen where the name of a point ends. Say whether the number is part of the name.",
	"columns":       "No heads say what the numbers are. Positions come before turns as a rule; six numbers that stay within a few hundred may also be joint values.",
	"joint_rows":    "Six numbers can be a position with three turns, or six joint values. A home is often kept as joint values. Look at the screen that the row was read from.",
	"keep":          "A row can hold the pose or the joint values. Both say where the torch was; the pose depends on the tool point, the joint values on the arm's zero marks.",
	"measured_in":   "A controller shows positions from its base, from a world frame or from a part frame, and rarely says so on the same screen. Drive the tip to a point you can measure with a tape from the arm's foot, and compare.",
	"point":         "With the torch's tool data chosen, the controller shows the wire tip; with none, the flange. Turn the torch about the tip: if the numbers stay, they are the tip's.",
	"length":        "Compare the distance between two points with a tape.",
	"orientation":   "Three numbers can turn a torch in many ways, and the letters beside them do not tell which. The controller's manual does. To find out by trial: read the numbers with the wire straight down, and again leaned about 45 deg to a side you know.",
	"turns":         "A right angle is 90 in degrees and 1.571 in radians.",
	"joints":        "A right angle is 90 in degrees and 1.571 in radians.",
	"speeds":        "6.8 mm/s is 408 mm/min, 40.8 cm/min and 16.06 in/min: the number alone does not tell.",

	"broken_rows": "A row that cannot be read may be the one that a seam needs. Nothing is guessed in its place.",
	"list":        "A whole run can be checked as one: arc on and off in pairs, joint moves with the arc off, speeds, home first and last.",
	"repeat":      "A job needs one name for one point. Nothing is thrown away: the others stay in the table under names of their own.",
	"home":        "The run begins and ends there: clear of the part, cable relaxed, wrist in the middle of its range. It needs joint values or a whole pose.",
	"seams":       "Labels such as W1 start and W1 end would tell. Here you say it.",
	"order":       "The order gives the direction of travel, and with it push and drag, left and right.",
	"start":       "A seam needs both ends. Where the point was not taught, leave the seam out and teach it.",
	"end":         "A seam needs both ends. Where the point was not taught, leave the seam out and teach it.",

	"arm":                   "Arms are described in URDF, an open format that most makers publish. The file gives joints, limits and speeds.",
	"base_link":             "Positions in the base frame count from this link. It is the one whose frame the controller calls base, often the root of the file.",
	"flange_link":           "The torch's body leaves this link square to its face, along its z axis.",
	"joint_acceleration":    "URDF has no place for it. The arm's data sheet does, or take mild values.",
	"torch":                 "The tool point decides where every pose puts the wire. The controller's own tool data are as good as their calibration; the ruler is a second opinion.",
	"torch.flange_from_tip": "The controller's tool data: where the wire tip is from the flange and how the tool is turned. Its z axis must run along the wire, out of the nozzle.",
	"torch.body":            "Measure along the flange's axis, from the flange's face to where the axes of body and neck meet.",
	"torch.neck":            "Measure along the wire, from where the axes of body and neck meet to the end of the nozzle.",
	"torch.neck_angle":      "The bend between body and wire: 0 deg for a straight torch.",
	"torch.nozzle":          "The outside diameter at its end, for the room it needs.",
	"torch.tip_recess":      "With the stick-out it makes the contact-tip-to-work distance.",
	"torch.stick_out":       "The wire is cut to this length before teaching; it is part of the tool point.",
	"world_from_base":       "The points were not measured from the arm's foot, so its place is needed to carry them over. The controller has it where the world or part frame is set up.",
	"world_from_part":       "The controller has it where the part frame is set up; or find it from three touches on known features.",

	"path":           "Points by hand lie 1 to 3 mm off the true path. More than that is another path.",
	"overlap":        "A weld all round runs past its start so that the stop lies on weld metal.",
	"name":           "It stands on the sheets and in the plan.",
	"code":           "It decides the names of positions, which heat input is meant, and which rules of size are applied.",
	"joint":          "The drawing's symbol and section show it. It decides the torch angles and the rules of size.",
	"weld":           "A drawing's number may be the leg or the throat: a5 is a throat of 5 mm, z5 a leg of 5 mm. A throat of 5 is a leg of 7.",
	"base":           "The work angle counts from the normal of the base plate, the one that the other butts against. At a lap it is the lower plate, at a butt joint either.",
	"upright":        "Stand so that you look along the travel with the base plate's face towards you.",
	"travel":         "Solid wire is mostly pushed, wire with flux dragged; the procedure says what is allowed.",
	"settings_file":  "House settings are kept once and named by every job: id, process, transfer, wire, feed, and what else is known.",
	"procedure_file": "The paper's ranges, typed once. Settings and heat input are held against it.",
	"settings":       "The number under which the power source keeps wire feed, voltage and the rest.",
}

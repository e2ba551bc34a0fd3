// Package export writes a Plan as the files that outlive the program: plan.json
// with everything needed to prove it, steps.csv with the values to key in,
// trace.csv with the run in time and findings.json.
//
// Every number's unit is in its name. Positions are the wire tip in the arm's
// base frame; quaternions are (w, x, y, z) with w >= 0.
package export

// FormatVersion is the form of plan.json.
const FormatVersion = 1

// Caution stands in every file that can reach a person at a machine.
const Caution = "Planned, not checked on the machine. Arc rays, fume, heat, the wire tip and a moving arm can injure: " +
	"dry run without arc first, at reduced speed, by the makers' manuals, local rules and a person who is trained for it."

// The types below are plan.json, field by field. Schema is made from them: the
// tag doc describes a field, its unit comes from the ending of its name, enum
// lists the words that it can hold. A pointer is null, or with omitempty left
// out, where the number does not exist.

type poseDoc struct {
	XYZ  [3]float64 `json:"xyz_m" doc:"position"`
	Quat [4]float64 `json:"quat_wxyz" doc:"orientation, unit quaternion w, x, y, z with w >= 0"`
}

type planDoc struct {
	Seamwright    int           `json:"seamwright_plan" doc:"form of this file"`
	Job           jobDoc        `json:"job" doc:"the job that was planned"`
	Arm           string        `json:"arm" doc:"URDF file of the arm, as the job names it: relative to the job"`
	BaseLink      string        `json:"base_link" doc:"link of the URDF that is the base frame, from which joints lead to the flange link: the arm's foot, or the top of a turning table that carries the part"`
	FlangeLink    string        `json:"flange_link" doc:"link of the URDF that carries the torch"`
	Joints        []string      `json:"joints" doc:"names of the joints from the base link to the flange link, in the order of q and of the columns j1 to jN; those of a turning table come first and are walked backwards; values are the URDF's"`
	FlangeFromTip poseDoc       `json:"flange_from_tip" doc:"wire tip at nominal stick-out in the flange frame; z along the wire, out of the nozzle"`
	WorldFromBase poseDoc       `json:"world_from_base" doc:"base frame in the world, z up; of a turning table with its joints at zero"`
	FootLink      string        `json:"foot_link,omitempty" doc:"link of the URDF that stands still in the world where a turning table carries the part"`
	WorldFromFoot *poseDoc      `json:"world_from_foot,omitempty" doc:"that link in the world, z up"`
	Payload       float64       `json:"payload_kg,omitempty" doc:"what the arm may carry"`
	TorchMass     float64       `json:"torch_mass_kg,omitempty" doc:"mass of torch, cable and bracket on the flange"`
	HandGuiding   []string      `json:"hand_guiding,omitempty" doc:"notes for who guides the arm by hand, a line each"`
	TipDistance   float64       `json:"contact_tip_distance_mm" doc:"nominal distance from contact tip to work"`
	Fit           bool          `json:"fit" doc:"no finding stops the job"`
	Checked       bool          `json:"checked_on_machine" doc:"a person has checked the run on the machine"`
	Times         timesDoc      `json:"times" doc:"how long the run takes"`
	Seams         []seamDoc     `json:"seams" doc:"seams in the order of welding"`
	Stitched      []stitchedDoc `json:"stitched,omitempty" doc:"seams of the job that are welded in stitches, each of them a seam of its own here"`
	Air           []airDoc      `json:"air_moves,omitempty" doc:"the room on every way through the air, in order; left out where no bodies are known"`
	Steps         []stepDoc     `json:"steps" doc:"commanded moves from home to home; empty where no run was made"`
	Distortion    distortionDoc `json:"distortion" doc:"what the welds are likely to do to the part"`
	Findings      []findingDoc  `json:"findings" doc:"the answer of every check that has one"`
	Caution       string        `json:"caution" doc:"to be read before anything moves"`
	Seal          sealDoc       `json:"seal" doc:"sums by which a change in any file is seen; who changes a file can make them again"`
}

type jobDoc struct {
	File     string `json:"file" doc:"name of the job document"`
	Path     string `json:"path" doc:"the job document, as seen from this folder; empty where it is no file of its own"`
	Name     string `json:"name" doc:"what the job is called"`
	Part     string `json:"part,omitempty" doc:"part name or number"`
	Drawing  string `json:"drawing,omitempty" doc:"drawing number"`
	Revision string `json:"revision,omitempty" doc:"revision of the drawing"`
	Code     string `json:"code" enum:"ISO,AWS" doc:"family of rules and words that the drawing follows"`
}

type timesDoc struct {
	Arc   float64 `json:"arc_s" doc:"arc on, start and crater included"`
	Weld  float64 `json:"weld_travel_s" doc:"travel along the seams"`
	Air   float64 `json:"air_s" doc:"moves without arc"`
	Wait  float64 `json:"wait_s" doc:"standing for joints to cool"`
	Total float64 `json:"total_s" doc:"whole run"`
}

type seamDoc struct {
	Name        string      `json:"name" doc:"name of the seam"`
	Joint       string      `json:"joint" enum:"tee,lap,inside corner,outside corner,butt,edge" doc:"how the plates meet"`
	Length      float64     `json:"length_mm" doc:"length along the path, overlap included"`
	FitResidual float64     `json:"fit_residual_mm" doc:"largest distance of a given point from the path"`
	Path        []pieceDoc  `json:"path" doc:"pieces of the root line, in order of travel, base frame"`
	Position    positionDoc `json:"position" doc:"welding position at the weld start"`
	Lies        []lieDoc    `json:"positions_along" doc:"every welding position that the seam has, that of the start first"`
	Start       frameDoc    `json:"start" doc:"the joint at the weld start"`
	End         frameDoc    `json:"end" doc:"the joint at the weld end"`
	Taught      []taughtDoc `json:"taught" doc:"taught points, decoded at their places on the seam"`
	Symbol      *symbolDoc  `json:"symbol,omitempty" doc:"weld symbol of the seam; left out where none says what the job gives"`
	Section     *sectionDoc `json:"section,omitempty" doc:"what the passes fill, across the seam at its start; left out for a weld in a single pass"`
	Passes      []passDoc   `json:"passes" doc:"runs of weld metal, in order"`
}

// pieceDoc is a piece of the root line. Along a line the joint is that of the
// start; on an arc it turns with the travel: the frame at its start turned about
// the axis; where it does not, the joint is told along the arc as along a curve.
type pieceDoc struct {
	Kind   string      `json:"kind" enum:"line,arc,curve" doc:"shape of the piece"`
	Length float64     `json:"length_mm" doc:"length along the piece"`
	From   [3]float64  `json:"from_m" doc:"first point"`
	To     [3]float64  `json:"to_m" doc:"last point"`
	Centre *[3]float64 `json:"centre_m,omitempty" doc:"centre of an arc"`
	Axis   *[3]float64 `json:"axis,omitempty" doc:"unit direction about which an arc runs right-handed"`
	Radius *float64    `json:"radius_mm,omitempty" doc:"radius of an arc"`
	Sweep  *float64    `json:"sweep_deg,omitempty" doc:"angle that an arc walks, above 360 with overlap"`
	Start  *frameDoc   `json:"start,omitempty" doc:"the joint at the start of the piece, behind a corner; left out where the path is one piece"`
	Joints []frameDoc  `json:"joints_along,omitempty" doc:"the joint along a curve, or along an arc that lies askew to the plates, from its start to its end: root points that straight lines join within 0.01 mm of it"`
}

type positionDoc struct {
	ISO         string  `json:"iso" doc:"ISO 6947 position"`
	AWS         string  `json:"aws" doc:"AWS A3.0 position"`
	Inclination float64 `json:"inclination_deg" doc:"weld axis from the horizontal"`
	Tilt        float64 `json:"face_tilt_deg" doc:"weld face from facing up"`
	Margin      float64 `json:"nearest_limit_deg" doc:"angle to the nearest limit of the position, by the job's code"`
	Beyond      string  `json:"beyond_limit" doc:"position beyond that limit"`
}

// lieDoc is a welding position and the first place of the seam that has it.
type lieDoc struct {
	Along float64 `json:"s_mm" doc:"arc length"`
	ISO   string  `json:"iso" doc:"ISO 6947 position"`
	AWS   string  `json:"aws" doc:"AWS A3.0 position"`
}

// frameDoc is the joint at one place: the root, the travel and the faces.
type frameDoc struct {
	Origin   [3]float64 `json:"root_m" doc:"point of the root line"`
	Travel   [3]float64 `json:"travel" doc:"unit direction of travel from which angles are measured, square to the plates; the path may climb off it by the error of its points"`
	Normal   [3]float64 `json:"base_normal" doc:"outward unit normal of the base plate, square to the travel"`
	Open     [3]float64 `json:"base_open_side" doc:"unit direction in the base surface, from the root to the open side"`
	Included float64    `json:"included_deg" doc:"angle between the plates"`
}

type taughtDoc struct {
	Label        string  `json:"label" doc:"label of the point"`
	Role         string  `json:"role" enum:"approach,weld start,via point,weld end,retreat" doc:"what the point is to the seam"`
	Along        float64 `json:"along_mm" doc:"place on the seam, from the weld start"`
	Across       float64 `json:"across_mm" doc:"distance from the seam line"`
	AcrossBase   float64 `json:"across_along_base_mm" doc:"part of it along the base plate, positive to the open side"`
	AcrossFace   float64 `json:"across_off_base_mm" doc:"part of it off the base plate"`
	Work         float64 `json:"work_deg" doc:"work angle as taught, from the base plate's normal"`
	Travel       float64 `json:"travel_deg" doc:"travel angle as taught, push positive"`
	Spin         float64 `json:"spin_deg" doc:"turn about the wire as taught"`
	WantedWork   float64 `json:"wanted_work_deg" doc:"work angle as planned there"`
	WantedTravel float64 `json:"wanted_travel_deg" doc:"travel angle as planned there"`
	WantedSpin   float64 `json:"wanted_spin_deg" doc:"turn about the wire as planned there"`
	Pose         poseDoc `json:"base_from_tip" doc:"wire tip as taught, base frame"`
	Wanted       poseDoc `json:"wanted_base_from_tip" doc:"wire tip as planned there, base frame"`
}

type passDoc struct {
	Number   int            `json:"number" doc:"from 1"`
	Role     string         `json:"role,omitempty" enum:"root,fill,cap" doc:"what a pass among several is for; left out where there is one"`
	Layer    int            `json:"layer,omitempty" doc:"layer of a pass among several, from 1"`
	Work     float64        `json:"work_deg" doc:"work angle at the weld start, from the base plate's normal"`
	Bisector *float64       `json:"work_from_bisector_deg,omitempty" doc:"where the work angle follows the plates: what it is more than half the way between them, all along; left out where it stays"`
	Travel   float64        `json:"travel_angle_deg" doc:"travel angle, push positive, drag negative"`
	Offset   float64        `json:"aim_offset_mm" doc:"aim from the root along the base plate, where the wire drawn on would meet it, positive to the open side"`
	Above    float64        `json:"aim_above_mm" doc:"how far along the wire the place aimed at lies from there; 0 for a single pass and a root"`
	Distance float64        `json:"contact_tip_distance_mm" doc:"distance from contact tip to work in this pass"`
	Size     sizeDoc        `json:"size" doc:"what is deposited, and with what"`
	Held     *heldDoc       `json:"procedure,omitempty" doc:"the welding procedure that the pass was held against; left out where there is none, or none of its runs holds for the pass"`
	Heat     heatDoc        `json:"heat" doc:"how the pass heats and cools the joint"`
	Weave    *weaveDoc      `json:"weave,omitempty" doc:"side motion that the controller lays over the middle line, along which steps and trace run; left out for a stringer bead"`
	Room     *roomDoc       `json:"nozzle_room,omitempty" doc:"room of the nozzle in its own joint; left out where it was not looked at"`
	Reach    reachDoc       `json:"reach" doc:"how far the arm gets"`
	Clear    []clearanceDoc `json:"clearance,omitempty" doc:"the least room of each kind along approach, weld and retreat; left out where no bodies are known"`
	Margins  *marginsDoc    `json:"margins,omitempty" doc:"how near the posture comes to a limit; left out where there is none"`
	Profile  *profileDoc    `json:"profile,omitempty" doc:"what comes out along the seam; left out where there is no posture"`
	Stations []stationDoc   `json:"stations,omitempty" doc:"the arm from approach to retreat; left out where there is no posture"`
}

type sizeDoc struct {
	Settings   string   `json:"settings" doc:"name of the settings set"`
	LegBase    float64  `json:"leg_base_mm" doc:"leg on the base plate; 0 for a bead given by its area"`
	LegOther   float64  `json:"leg_upright_mm" doc:"leg on the upright; 0 for a bead given by its area"`
	Throat     float64  `json:"throat_mm" doc:"throat of the flat face; 0 for a bead given by its area"`
	Area       float64  `json:"area_mm2" doc:"metal deposited along the seam"`
	Travel     float64  `json:"travel_mm_s" doc:"planned speed along the seam"`
	Typed      *float64 `json:"typed_travel_mm_s,omitempty" doc:"speed in the document"`
	TypedLeg   *float64 `json:"typed_travel_leg_mm,omitempty" doc:"leg that the speed in the document would give"`
	Feed       float64  `json:"wire_feed_m_min" doc:"wire feed speed"`
	Wire       float64  `json:"wire_mm" doc:"wire diameter"`
	Volts      float64  `json:"volts_v" doc:"arc voltage"`
	Amps       float64  `json:"amps_a" doc:"current"`
	Efficiency float64  `json:"deposition_efficiency" doc:"weld metal over wire melted, dimensionless"`
	Convexity  float64  `json:"face_factor" doc:"bead area over flat-face area, dimensionless"`
	ArcEnergy  *float64 `json:"arc_energy_kj_mm" doc:"arc energy"`
	HeatInput  *float64 `json:"heat_input_kj_mm" doc:"heat input"`
	ArcTime    float64  `json:"arc_time_s" doc:"travel at the planned speed"`
	StartTime  float64  `json:"arc_start_s" doc:"dwell at the weld start"`
	CraterTime float64  `json:"crater_s" doc:"dwell at the weld end"`
}

type reachDoc struct {
	Whole      bool    `json:"whole" doc:"one go carries through"`
	From       float64 `json:"longest_from_mm" doc:"start of the longest stretch that goes in one go"`
	To         float64 `json:"longest_to_mm" doc:"end of it; 0 with the start where there is none"`
	StopsAt    float64 `json:"stops_at_mm" doc:"where the best attempt from the weld start stops"`
	SpinsWhole int     `json:"spins_that_reach" doc:"how many of the spins that were tried carry through alone"`
	SpinsTried int     `json:"spins_tried" doc:"how many spins were tried"`
}

type marginsDoc struct {
	Limit       float64 `json:"limit_deg" doc:"smallest distance of a turning joint from its limits"`
	LimitJoint  string  `json:"limit_joint" doc:"which joint that is"`
	LimitAlong  float64 `json:"limit_at_mm" doc:"where on the seam"`
	Wrist       float64 `json:"wrist_deg" doc:"smallest distance from a wrist singularity"`
	WristAlong  float64 `json:"wrist_at_mm" doc:"where on the seam"`
	SpinVarying bool    `json:"spin_varies" doc:"the torch turns about its wire along the weld"`
}

type stationDoc struct {
	Along float64   `json:"along_mm" doc:"place on the seam; below 0 on the approach, beyond the length on the retreat"`
	Spin  float64   `json:"spin_deg" doc:"turn about the wire"`
	Q     []float64 `json:"q_rad" doc:"joint values in the order of joints (a sliding joint's in m)"`
	Pose  poseDoc   `json:"base_from_tip" doc:"wire tip, base frame"`
}

type stepDoc struct {
	Step     int       `json:"step" doc:"from 1"`
	Label    string    `json:"label" doc:"where the move ends"`
	Seam     string    `json:"seam,omitempty" doc:"seam that the move belongs to"`
	Pass     int       `json:"pass,omitempty" doc:"pass that the move belongs to"`
	Move     string    `json:"move" enum:"joint,linear,arc" doc:"kind of move; arcs come in pairs, via point and end"`
	Speed    *float64  `json:"speed_mm_s,omitempty" doc:"speed of the wire tip in linear and arc moves"`
	Turn     *float64  `json:"turn_deg_s,omitempty" doc:"how fast the torch turns in a linear move without travel, in a corner"`
	Percent  *float64  `json:"joint_speed_pct,omitempty" doc:"share of joint speed in joint moves"`
	Arc      string    `json:"arc,omitempty" enum:"on,off" doc:"what happens to the arc once the move has arrived"`
	Settings string    `json:"settings,omitempty" doc:"name of the settings set"`
	Wait     *float64  `json:"stands_s,omitempty" doc:"how long the arm stands there for the joint to cool"`
	Pose     poseDoc   `json:"base_from_tip" doc:"wire tip at the end of the move, base frame"`
	Q        []float64 `json:"q_rad" doc:"joint values there, in the order of joints (a sliding joint's in m)"`
	Work     *float64  `json:"work_deg,omitempty" doc:"work angle, on a seam"`
	Travel   *float64  `json:"travel_deg,omitempty" doc:"travel angle, on a seam"`
}

type findingDoc struct {
	Code     string   `json:"code" doc:"stable name of the check"`
	Severity string   `json:"severity" enum:"stop,caution,note" doc:"what it does to the job"`
	Where    string   `json:"where" doc:"what it concerns"`
	Measured *float64 `json:"measured" doc:"number found, in unit; null where there is none"`
	Limit    *float64 `json:"limit" doc:"number that it is held against, in unit; null where there is none"`
	Unit     string   `json:"unit" doc:"unit of measured and limit"`
	Message  string   `json:"message" doc:"what, where and how much"`
	Remedy   string   `json:"remedy" doc:"what to do about it"`
	Source   string   `json:"source" doc:"who sets the limit, and how well that is known"`
}

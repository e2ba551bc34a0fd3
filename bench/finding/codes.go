package finding

// Marks of sources that many checks share.
const (
	commonPractice = "common practice, no source"
	derived        = "geometry"
	byProcedure    = "the welding procedure given with the job"
	symbolRules    = "ISO 2553 and AWS A2.4 (fields and sides READ, secondary; the rest from memory)"
	byArm          = "the arm's description (URDF) and the margins in the job"
)

// The checks, by what they concern. A code is used through these names only.
const (
	// The taught list.
	ArcLeftOn            Code = "arc-left-on"
	ArcOffWithoutOn      Code = "arc-off-without-on"
	ArcOnTwice           Code = "arc-on-twice"
	ArcOnJointMove       Code = "arc-on-in-joint-move"
	HomeNotFirstLast     Code = "home-not-first-and-last"
	SpeedOverFull        Code = "speed-over-full"
	WeldSpeedOutOfSense  Code = "weld-speed-out-of-sense"
	AirSpeedAboveSite    Code = "air-speed-above-site-limit"
	BlendOnWeldEnd       Code = "blend-on-weld-end"
	DuplicatePoint       Code = "duplicate-point"
	UnitsSuspect         Code = "units-suspect"
	PointOutsideReach    Code = "taught-point-out-of-reach"
	TaughtJointsOutside  Code = "taught-joints-outside-limits"
	ListSettingsMismatch Code = "settings-set-differs"

	// The seam as taught.
	PointOffSeam        Code = "taught-point-off-seam"
	TaughtAngleOff      Code = "taught-angle-off"
	SeamFitResidual     Code = "seam-fit-residual"
	SeamPointsOrder     Code = "seam-points-out-of-order"
	SeamTooShort        Code = "seam-points-too-close"
	SeamDirectionWeak   Code = "seam-direction-weak"
	SeamNotInPlate      Code = "seam-not-in-plate"
	ApproachOffAxis     Code = "approach-not-along-torch"
	RadiusDiffers       Code = "radius-differs-from-drawing"
	WireDiffersToolPt   Code = "wire-differs-from-tool-point"
	WorkAngleOutOfSense Code = "work-angle-out-of-sense"
	TravelAngleSteep    Code = "travel-angle-steep"
	TaughtPush          Code = "taught-push-drag-swapped"
	TaughtOtherSide     Code = "taught-on-other-side"

	// Size, settings, heat, procedure.
	FilletBelowMinimum    Code = "fillet-below-minimum-for-thickness"
	FilletAboveEdge       Code = "fillet-above-edge-maximum"
	FilletUndersize       Code = "leg-below-drawing"
	FilletOversize        Code = "leg-above-drawing"
	GapAddsToLeg          Code = "gap-adds-to-leg"
	GapTooLarge           Code = "gap-too-large"
	SinglePassTooLarge    Code = "single-pass-too-large"
	SeamOrder             Code = "another-order-bends-less"
	BowUnknown            Code = "distortion-not-estimated"
	MaterialMissing       Code = "material-missing"
	PreheatLow            Code = "preheat-below-required"
	PreheatUnknown        Code = "preheat-not-known"
	CoolingOutside        Code = "cooling-time-outside"
	CoolingUnknown        Code = "cooling-time-not-known"
	InterpassStand        Code = "interpass-wait"
	InterpassUnknown      Code = "interpass-wait-not-known"
	WeaveUnusual          Code = "weave-out-of-the-usual"
	WeaveSpeed            Code = "weave-beyond-joint"
	SeveralPasses         Code = "laid-in-several-passes"
	StitchSystem          Code = "stitch-spacing-doubtful"
	StitchPitch           Code = "stitch-pitch-closed-up"
	StitchBare            Code = "stitch-end-bare"
	StitchShort           Code = "stitch-too-short"
	StitchGap             Code = "stitch-gap-too-wide"
	WeldTakenUp           Code = "weld-taken-up-again"
	BackNotPlanned        Code = "passes-from-the-back"
	GrooveFitUp           Code = "groove-fit-up"
	GapOpens              Code = "gap-opens-along-seam"
	CraterFillMissing     Code = "crater-fill-missing"
	GasFlowSuspect        Code = "gas-flow-suspect"
	ShortCircuitStructure Code = "short-circuit-on-structural"
	EnergyDoubtful        Code = "arc-energy-doubtful"
	PositionNearLimit     Code = "weld-position-near-limit"
	PositionChanges       Code = "weld-position-changes"
	JointOpens            Code = "joint-opens-along-seam"
	SettingsLearned       Code = "settings-learned"
	ProcedureMissing      Code = "procedure-missing"
	ProcedureSilent       Code = "procedure-silent"
	CurrentOutside        Code = "current-outside-procedure"
	VoltageOutside        Code = "voltage-outside-procedure"
	FeedOutside           Code = "wire-feed-outside-procedure"
	TravelAbove           Code = "travel-speed-above-procedure"
	TravelBelow           Code = "travel-speed-below-procedure"
	HeatAbove             Code = "heat-input-above-procedure"
	HeatBelow             Code = "heat-input-below-procedure"
	EnergyOutside         Code = "arc-energy-outside-procedure"
	ThicknessOutside      Code = "thickness-outside-procedure"
	DistanceOutside       Code = "tip-distance-outside-procedure"
	PositionOutside       Code = "position-not-in-procedure"
	ProcedureOther        Code = "not-in-procedure"
	ProcedureNoRow        Code = "pass-not-in-procedure"
	PlannedNotStated      Code = "not-stated-for-procedure"
	ProcedureWider        Code = "procedure-wider-than-record"
	ValueToFillIn         Code = "value-to-fill-in"

	// The drawing's weld symbol.
	SymbolOtherSide Code = "symbol-other-side"
	SymbolAllRound  Code = "symbol-all-round"
	SymbolLength    Code = "symbol-length-differs"
	SymbolTail      Code = "symbol-tail-differs"
	SymbolOpen      Code = "symbol-leaves-open"
	SymbolOtherCode Code = "symbol-of-other-code"
	SymbolSpacing   Code = "symbol-spacing"
	SymbolByHand    Code = "symbol-beyond-plan"

	// Corners and bends.
	CornerLeg    Code = "leg-at-corner"
	CornerTravel Code = "travel-angle-at-corner"
	CornerTurn   Code = "torch-turns-too-fast"
	MoveOffPath  Code = "move-off-path"

	// The arm.
	TorchAbovePayload Code = "torch-above-payload"
	ArmCannotReach    Code = "arm-cannot-reach"
	JointLimit        Code = "joint-limit"
	JointLimitMargin  Code = "joint-limit-margin"
	NearSingular      Code = "near-singular"
	NoContinuous      Code = "no-continuous-posture"
	JointSpeedWeld    Code = "joint-speed-at-weld-speed"
	SpinChanged       Code = "spin-changed"
	SpinVaries        Code = "spin-varies-along-seam"
	WindingStart      Code = "start-turn-matters"
	ApproachReplaced  Code = "approach-replaced"
	AnglesGaveWay     Code = "torch-angles-gave-way"
	Collision         Code = "collision"
	ClearanceBelow    Code = "clearance-below-minimum"
	HomeInCollision   Code = "home-in-collision"
	AirOrderChosen    Code = "order-chosen-for-air-time"
	NozzleRoomUnknown Code = "nozzle-clearance-not-known"
	NoAirPath         Code = "no-clear-air-move"
	CartShift         Code = "cart-shift"
	TableMoved        Code = "table-not-as-taught"
	AxisMoves         Code = "axis-moves-along-weld"
	HomeUnreachable   Code = "home-unreachable"
	RunIncomplete     Code = "run-incomplete"
	ProofFails        Code = "proof-fails"
	NotOnMachine      Code = "not-checked-on-the-machine"

	// Shapes: what the plan is kept clear of, and what is not known of it.
	ArmWithoutShapes    Code = "arm-has-no-shapes"
	ArmShapesVisual     Code = "arm-shapes-to-look-at"
	TorchShapeAssumed   Code = "torch-shape-assumed"
	TorchBendAssumed    Code = "torch-bend-assumed"
	TorchDrawingCut     Code = "torch-drawing-cut"
	CableUnknown        Code = "cable-not-given"
	PartShapeUnknown    Code = "part-shape-not-given"
	SurroundingsUnknown Code = "surroundings-not-given"
	TubeWithoutLength   Code = "tube-without-length"
	ShapeReadPartly     Code = "shape-read-in-part"
	ShapeMended         Code = "shape-mended"
	ShapeOpen           Code = "shape-open"
	ShapeDoubtful       Code = "shape-doubtful"
	ShapeSizeSuspect    Code = "shape-size-suspect"
	PairsIgnored        Code = "pairs-not-looked-at"
	AlwaysNear          Code = "bodies-always-near"
)

// groups starts a section of the listing at the code it names.
var groups = map[Code]string{
	ArcLeftOn:          "The taught list",
	PointOffSeam:       "The seam as taught",
	FilletBelowMinimum: "Size, settings, heat and procedure",
	SymbolOtherSide:    "The drawing's weld symbol",
	CornerLeg:          "Corners and bends",
	TorchAbovePayload:  "The arm",
	ArmWithoutShapes:   "Shapes",
}

var checks = []Check{
	{ArcLeftOn, Stop, "The arc is still on when an air move begins", "arc on and arc off are paired along the list, and no joint move lies between them", "switch the arc off at the weld end", commonPractice},
	{ArcOffWithoutOn, Stop, "Arc off where no arc is on", "pairing of arc on and off", "delete it, or add the missing arc on", commonPractice},
	{ArcOnTwice, Stop, "Arc on while the arc is on", "pairing of arc on and off", "switch off before the next start", commonPractice},
	{ArcOnJointMove, Stop, "A joint move with the arc on", "the kind of every move between arc on and off", "make the move linear or circular: a joint move does not follow the seam", commonPractice},
	{HomeNotFirstLast, Stop, "The list does not begin and end at the same home", "first and last point against the home point", "begin and end at home", commonPractice},
	{SpeedOverFull, Stop, "A speed in percent outside 1 to 100", "percent speeds of joint moves", "type a value from 1 to 100", commonPractice},
	{WeldSpeedOutOfSense, Stop, "A weld speed that no fillet is welded at", "speeds between arc on and off, and speeds typed for a seam, against 1 to 25 mm/s", "check the unit", commonPractice},
	{AirSpeedAboveSite, Caution, "A linear air move faster than the site allows", "speeds of linear moves without arc against the site's limit", "lower the speed, or raise the limit in the job if nobody is near", "250 mm/s with a person near: OSHA technical manual IV-4 (READ, secondary)"},
	{BlendOnWeldEnd, Stop, "A blend radius on a weld start or end", "blend radius where the arc switches", "make it a stop point", commonPractice},
	{DuplicatePoint, Caution, "Two points at the same place", "distance between points that are not the same label, under 0.05 mm", "re-teach one of them", commonPractice},
	{UnitsSuspect, Stop, "Numbers that look like another unit", "coordinates against the arm's reach and the other points, speeds against sense, with the factors 25.4, 1000 and 60", "state the unit the numbers were read in", commonPractice},
	{PointOutsideReach, Caution, "A taught pose that the arm cannot have", "inverse kinematics of every taught pose", "check the point's numbers, the orientation convention and the frame", byArm},
	{TaughtJointsOutside, Stop, "Taught joint values outside the arm's limits", "joint values of taught points", "check the numbers and their unit", byArm},
	{ListSettingsMismatch, Caution, "The list and the seam name different settings sets", "set at arc on in the list against the seam's", "make them one", commonPractice},

	{PointOffSeam, Caution, "A taught tip further off the seam than half a wire", "distance of taught tips across the seam line", "step the tip to the root, or let the plan's value stand if the line is known better", commonPractice},
	{TaughtAngleOff, Note, "A taught torch angle further from the wanted one than allowed", "work and travel angle decoded from the taught pose", "key in the planned pose", commonPractice},
	{SeamFitResidual, Caution, "Points of one seam that do not lie on one line or circle", "largest residual of the least-squares fit against 0.5 mm", "re-touch the worst point", commonPractice},
	{SeamPointsOrder, Stop, "Points of a seam out of order", "arc length of each point along the fitted path", "list the points in the order of travel", derived},
	{SeamTooShort, Stop, "A seam shorter than can be meant", "distance between points of a seam against 2 mm", "check the points", commonPractice},
	{SeamDirectionWeak, Caution, "A seam too short for its tips to give its direction", "angle that a hand-guiding error of 1.5 mm at each end makes of the seam's direction, against 2 deg", "touch further points, or give directions", derived},
	{SeamNotInPlate, Caution, "The seam does not lie in the plate as described", "angle between the travel and the plate's face", "check the plate's normal, or touch the plate", derived},
	{ApproachOffAxis, Caution, "An approach or retreat that is not along the torch", "angle between the wire and the line from approach to weld start", "move it back along the wire, so that the nozzle clears both plates", commonPractice},
	{RadiusDiffers, Caution, "The fitted radius differs from the drawing's", "radius of the fitted circle against the drawing's", "re-touch, or check the drawing", commonPractice},
	{WireDiffersToolPt, Stop, "The settings set's wire is not the one the tool point was found with", "wire diameters of set and torch", "find the tool point again with this wire, or choose another set", commonPractice},
	{WorkAngleOutOfSense, Stop, "A work angle outside the open joint", "wanted work angle against the faces of the joint", "measure it from the normal of the base plate", "AWS A3.0 definition, by textbook (READ, secondary)"},
	{TravelAngleSteep, Caution, "A travel angle that draws air into the gas", "wanted travel angle against 20 deg", "lean less", "workshop article citing AWS (READ, secondary); 25 deg from memory"},
	{TaughtPush, Caution, "Push where drag is wanted, or the other way round", "sign of the taught travel angle against the wanted one", "key in the planned pose", commonPractice},

	{TaughtOtherSide, Stop, "The torch was taught on another side of the joint than the plates describe", "taught work angle against the faces of the joint, with 10 deg for the hand", "check on which side the upright stands and which way the base plate faces, or teach the points again", commonPractice},

	{FilletBelowMinimum, Caution, "A fillet below the minimum for the plate", "leg against the thinner plate", "ask the welding coordinator", "AWS D1.1:2025 Table 7.7 (READ, secondary)"},
	{FilletAboveEdge, Caution, "A lap fillet larger than the edge can hold", "leg against the upper plate's thickness", "ask the welding coordinator", "AWS D1.1 lap-edge rule (READ, secondary)"},
	{FilletUndersize, Stop, "The typed speed gives less than the drawing's size", "metal balance at the typed speed", "weld at the planned speed", "metal balance; efficiency and face factor of the settings set"},
	{FilletOversize, Caution, "The typed speed gives more than the drawing's size and 1 mm", "metal balance at the typed speed", "weld at the planned speed", "metal balance; +1 mm common practice, no source"},
	{GapAddsToLeg, Note, "The gap is added to the leg", "fit-up gap over 2 mm", "re-fit, or accept the larger leg", "AWS D1.1:2020 clause 7.21.1 (READ, secondary)"},
	{GapTooLarge, Stop, "A gap that must not be welded over", "fit-up gap over 5 mm", "re-fit the parts", "AWS D1.1:2020 clause 7.21.1 (READ, secondary)"},
	{SinglePassTooLarge, Stop, "More than one pass may carry", "leg of a single pass against the procedure, else against the code's prequalified limit", "more passes, each a seam of its own", "AWS D1.1:2020 Table 5.1 (READ)"},
	{SeamOrder, Note, "Another order of the seams would bend the part less", "moments of area times length times offset about the part's neutral axis, seam after seam", "change the order", "rules of thumb: balance, thick first, centre out, towards the free end (READ in workshop articles)"},
	{BowUnknown, Note, "Distortion that cannot be estimated", "the ranges for which the rules were published", "correct the measures of the section", "the rules named"},
	{MaterialMissing, Note, "No steel is stated", "whether the job names a grade or a composition", "say material: {grade: ...}", commonPractice},
	{PreheatLow, Stop, "The part is colder than its steel asks for", "preheat by the method of the job's code family against what the job states", "preheat the part", "EN 1011-2 method B (READ) or AWS D1.1 Table 3.3 (READ)"},
	{PreheatUnknown, Caution, "The preheat cannot be told", "whether the method's inputs are stated and inside its range", "add what is missing, or ask the welding coordinator", "EN 1011-2 method B (READ) or AWS D1.1 Table 3.3 (READ)"},
	{CoolingOutside, Stop, "The joint cools too fast or too slowly", "cooling time from 800 to 500 deg C, quickest and slowest, against the job's range or what is usual for the grade", "change the heat input, the preheat or the interpass ceiling", "EN 1011-2 Annex D (READ)"},
	{CoolingUnknown, Caution, "The cooling time cannot be told", "whether the formula's inputs are stated and inside its range", "add what is missing", "EN 1011-2 Annex D (READ)"},
	{InterpassStand, Note, "The arm stands for the joint to cool between passes", "time of conduction to the interpass ceiling, less the time since the pass before", "measure before each pass, and begin when the joint is at the ceiling or below; another seam may be welded meanwhile", "conduction from a line of heat on a plate (from memory)"},
	{InterpassUnknown, Caution, "The wait between passes is not known", "whether an interpass ceiling and what the cooling model needs are stated", "say heat: {interpass_max: ...}, and measure before each pass", "conduction from a line of heat on a plate (from memory)"},
	{WeaveUnusual, Caution, "A weave that shops would not use", "amplitude, frequency, dwells, advance in a cycle and width against what is usual", "change the weave, or lay stringer beads", "usual weaves (from memory); advance common practice, no source"},
	{WeaveSpeed, Stop, "A weave that the arm cannot follow", "both edges solved for all along; joint speed of travel and weave together, and acceleration at the edges, against the joints' limits", "weave slower or less wide", byArm},
	{SeveralPasses, Note, "The weld is laid in several passes", "leg and metal against what one pass may lay: as typed, by the procedure, else the code's limit or usual practice", "say passes: one, or passes: {most: ...}, to have it otherwise", "the limit named"},
	{StitchSystem, Caution, "Pitch and clear gap of the stitches may be mixed up", "whether the spacing is typed as the job's code family measures it", "ask the office which system the drawing uses: AWS symbols give the pitch, ISO symbols the clear gap", "pitch from centre to centre: workshop articles on AWS A2.4 (READ); clear gap: ISO 2553 (from memory)"},
	{StitchPitch, Note, "The pitch of the stitches is closed up", "pitch with both ends welded against the drawing's", "say ends: as drawn to keep the pitch and leave the end bare", "welds at the ends unless shown otherwise: commentary on AWS A2.4 (READ)"},
	{StitchBare, Note, "The end of a stitched seam is left bare", "length behind the last stitch", "say ends: welded if a stitch shall end the seam", derived},
	{StitchShort, Caution, "Stitches shorter than what counts", "length of a stitch against the code's least for its size", "ask the welding coordinator", "AWS D1.1:2010 2.4.2.3, 2.4.2.4 (READ); EN 1993-1-8 as public code has it (READ)"},
	{StitchGap, Caution, "A clear gap between stitches wider than the code allows", "clear gap against the thinner plate", "ask the welding coordinator; was a pitch read as a gap?", "AWS D1.1 by an inspection firm's summary (READ); EN 1993-1-8 (from memory)"},
	{WeldTakenUp, Caution, "A weld is taken up again where it stopped", "whether the job says restart", "clean and feather the crater before the arc, and look at the tie-in after it", commonPractice},
	{BackNotPlanned, Caution, "Passes from the back are not in the run", "passes of a double preparation", "turn the part and weld the back in a job of its own", derived},
	{GrooveFitUp, Caution, "The gap of a groove is out of tolerance", "gap measured against the groove as drawn", "re-fit the parts", "AWS D1.1 fit-up tolerances (READ, secondary)"},
	{GapOpens, Caution, "The gap opens along the seam", "the section at the wider and at the narrower end", "re-fit, or slow the fill passes evenly from the narrower to the wider end", derived},
	{CraterFillMissing, Caution, "No crater fill", "crater time of the settings set", "give the set a crater time", commonPractice},
	{GasFlowSuspect, Caution, "A gas flow that reads like another unit", "gas flow of the settings set against 8 to 25 L/min", "check the unit: 1 L/min is 2.12 cubic feet per hour", commonPractice},
	{ShortCircuitStructure, Caution, "Short-circuit transfer on structural work", "transfer of the settings set with code aws", "qualify it by test, or choose another set", "AWS D1.1:2000 clause 3.2.1 (READ)"},
	{EnergyDoubtful, Caution, "Arc energy not known, or from averages of a pulsed source", "whether the settings set states power or volts and amps, a pulsed one its power", "read the power or the energy off the source and put it into the set", "ISO/TR 18491 (from memory)"},
	{PositionNearLimit, Note, "The weld position is near the next one", "angle to the nearest limit of the weld position, under 5 deg", "measure the part's level", "limits of ISO 6947 and AWS A3.0 (from memory); 5 deg common practice, no source"},
	{PositionChanges, Note, "The weld position changes along the seam", "the position all along the seam; each is held against the procedure", "use settings that serve every position, or split the seam where it changes", "limits of ISO 6947 and AWS A3.0 (from memory)"},
	{JointOpens, Caution, "The plates open or close along the seam", "the angle between the plates all along the seam, against that at its start, from 2 deg; measured and limit are the least throat and that at the start", "split the seam and size each part, or give the size that the widest place needs", "volume balance; 2 deg common practice, no source"},
	{SettingsLearned, Note, "A settings set is planned with what gauge readings taught", "the file that learned names; measured and limit are the deposition efficiency as learned and as it was before", "gauge the next part too; begin a new file when wire, gas or feeder change", "gauge readings of the shop"},
	{ProcedureMissing, Caution, "No procedure given", "whether the job names one", "give the procedure: settings are then held against it", commonPractice},
	{ProcedureSilent, Note, "The procedure does not state a range for something planned", "every planned value has a range", "ask the welding coordinator", byProcedure},
	{CurrentOutside, Stop, "Current outside the procedure", "current of the settings set", "choose another set", byProcedure},
	{VoltageOutside, Stop, "Voltage outside the procedure", "voltage of the settings set", "choose another set", byProcedure},
	{FeedOutside, Stop, "Wire feed outside the procedure", "wire feed of the settings set", "choose another set", byProcedure},
	{TravelAbove, Stop, "Travel speed above the procedure", "planned travel speed", "choose a set with less feed, or a larger size", byProcedure},
	{TravelBelow, Stop, "Travel speed below the procedure", "planned travel speed", "choose a set with more feed, or more passes", byProcedure},
	{HeatAbove, Stop, "Heat input above the procedure", "heat input from volts, amps, planned speed and the process's efficiency", "more and smaller passes, or a cooler set", byProcedure},
	{HeatBelow, Stop, "Heat input below the procedure", "heat input from volts, amps, planned speed and the process's efficiency", "slow down, or a hotter set", byProcedure},
	{EnergyOutside, Stop, "Arc energy outside the procedure", "arc energy from volts, amps and planned speed", "change the set or the speed", byProcedure},
	{ThicknessOutside, Stop, "Plate thickness outside the procedure", "stated thicknesses", "another procedure", byProcedure},
	{DistanceOutside, Stop, "Contact-tip distance outside the procedure", "wanted contact-tip-to-work distance", "change the distance or the procedure", byProcedure},
	{PositionOutside, Stop, "Weld position not in the procedure", "weld position from the seam's direction, its face and gravity", "turn the part, or another procedure", byProcedure},
	{ProcedureOther, Stop, "Something planned is not in the procedure", "wire, gas, process and joint against the procedure", "another set or another procedure", byProcedure},
	{ProcedureNoRow, Stop, "A pass for which the procedure states nothing", "number and role of the pass against the rows of the procedure's table of runs", "fewer passes, or a procedure that states them", byProcedure},
	{PlannedNotStated, Caution, "The job does not state what the procedure limits", "everything that the procedure limits is known of every pass", "add it to the settings set, the seam or the job", byProcedure},
	{ProcedureWider, Caution, "The procedure goes further than its qualification record permits", "each limit of the procedure against the record's value with the change that the code allows", "ask the welding coordinator, with the edition of the code in the contract", "AWS D1.1, ISO 15614-1 (from memory, unless the finding says otherwise)"},
	{ValueToFillIn, Stop, "A template that is not filled in", "names of the settings sets in use and of the procedure: those that begin with \"fill in\" are templates of a new job", "fill in your own values, then the name", commonPractice},

	{SymbolOtherSide, Caution, "A side that the symbol calls for has no seam", "seams of each symbol with welds on both sides, counted side by side", "add the seam of the other side (side: other), or weld it in a job of its own", symbolRules},
	{SymbolAllRound, Caution, "All round on a path that does not close", "the circle of the symbol against the seam's path", "give the seam as a closed path (closed: true), or see that other seams close it", symbolRules},
	{SymbolLength, Caution, "The symbol's length is not the seam's", "length in the symbol against that of the path, within 5 mm", "correct the points of the path, or look at the drawing again", symbolRules + "; 5 mm common practice, no source"},
	{SymbolTail, Caution, "The symbol's tail asks for something else than is planned", "process, filler, position and procedure in the tail against settings, seam and procedure", "ask the office which of the two holds", symbolRules},
	{SymbolOpen, Caution, "The symbol leaves open what has to be planned", "root face, depth of preparation, prepared edge, penetration, start of the other side's stitches", "look at the drawing's detail, and write it in place of the symbol", symbolRules},
	{SymbolOtherCode, Caution, "The symbol is of another family than the job", "system of the symbol against the code of the job", "ask the office which system the drawing follows", symbolRules},
	{SymbolSpacing, Note, "The spacing of stitches means different things in the two standards", "length and spacing by both, laid on the seam; a caution where ISO 2553 asks for a number that is missing", "ask the office which system the drawing follows", "pitch is centre to centre in AWS A2.4 (READ, secondary); ISO 2553 gives the clear gap (from memory)"},
	{SymbolByHand, Note, "The symbol calls for what no plan brings about", "contour, finish, field weld, quality level and notes of the symbol", "see to it after welding", symbolRules},

	{CornerLeg, Caution, "The leg at a corner differs from the drawing's", "metal laid along the seam at the speed that the arm holds, with the stand of the arc while the torch turns in place, against +1.5/-0 mm", "share the turn out before and behind the corner, lower the feed while the torch turns, or put the arc out for the turn", "volume balance; +1.5/-0 mm and the spread of a lump of metal common practice, no source"},
	{CornerTravel, Caution, "The torch stands too steep at a corner", "travel angle to the true joint while the torch turns before, in and behind the corner, against 10 deg of drag and 25 deg of push", "share less of the turn out before and behind the corner", "geometry; limits common practice, no source"},
	{CornerTurn, Caution, "The torch would have to turn too fast in a bend", "turn of the torch at the planned speed against 60 deg/s with the arc on", "lower feed and speed together, or make the bend larger", "geometry; 60 deg/s common practice, no source"},
	{MoveOffPath, Caution, "A commanded move leaves the path", "distance of every move of the weld from the way of the tip against 0.2 mm, turn off the planned one against 2 deg", "split the seam there", "geometry; 0.2 mm common practice, no source"},

	{TorchAbovePayload, Caution, "The torch is heavier than the arm may carry", "mass of the torch against the arm's payload, both as the job states them", "a lighter torch, or another arm: ask the arm's maker", "the arm's maker, as the job states it"},
	{ArmCannotReach, Stop, "The arm cannot have the torch there", "inverse kinematics along the whole pass", "move the cart, or split the seam", byArm},
	{JointLimit, Stop, "A joint limit stops the pass", "joint limits along the whole pass, every spin", "turn the torch about the wire, move the cart, or split the seam", byArm},
	{JointLimitMargin, Caution, "A joint comes nearer to its limit than the margin", "joint limits along the whole pass", "turn the torch about the wire, or move the cart", byArm},
	{NearSingular, Caution, "The posture is near a singularity", "angle of wrist, elbow and shoulder from their singularities along the pass", "turn the torch about the wire", commonPractice},
	{NoContinuous, Stop, "No posture carries through the whole pass", "every chain of postures and spins along the pass", "split the seam where the postures part", byArm},
	{JointSpeedWeld, Stop, "A joint is too slow for the weld speed", "joint speeds and accelerations along the pass", "turn the torch about the wire, or lower feed and speed together", byArm},
	{SpinChanged, Note, "The spin is not the taught one", "whether the taught spin carries through the pass with margins", "key in the planned pose", byArm},
	{SpinVaries, Note, "The torch turns about the wire along the seam", "whether one spin carries through", "key in the via points too", byArm},
	{WindingStart, Caution, "The start turn of a joint decides whether the pass runs through", "whole turns of joints that can turn more than once", "start with the joint value in the plan", byArm},
	{ApproachReplaced, Caution, "The approach or retreat was shortened or replaced", "reach along approach and retreat with the posture of the pass", "look at it in the dry run", byArm},
	{AnglesGaveWay, Caution, "The torch angles gave way to the plates of the joint or to what stands beside the seam", "the nearest work and travel angles inside the tolerance, and the procedure's ranges, with which the nozzle is clear of both plates and the torch of everything all along the pass", "look at it in the dry run; weld a trial piece with these angles", byArm},
	{Collision, Stop, "Two bodies touch", "every sample of the run, every body of arm and torch against everything that is known", "move what is in the way, or weld from another side", derived},
	{ClearanceBelow, Stop, "Two bodies come nearer than is wanted", "the nozzle against the plates of its own joint and the beads laid before, all along every pass and its weave (a caution where only common practice asks for more than half a wire); every sample of the run against the clearances of the document or their defaults", "move what is in the way, change torch angles or spin, or ask for less where that is safe", commonPractice},
	{HomeInCollision, Stop, "Home stands in something", "home against every body that is known, insides of closed meshes too", "teach home again, where the arm is free", derived},
	{AirOrderChosen, Note, "The order of welding was chosen for the air moves", "the times of straight joint moves between all seams and home, every order of up to twelve, else a search with a bound", "say order: [...] to have another", derived},
	{NozzleRoomUnknown, Note, "The room of the nozzle between the plates is not wholly known", "whether the job tells the edges of a butt joint and the height of the upper plate of a lap", "say how the edges are prepared, or how thick the plates are", derived},
	{NoAirPath, Stop, "No clear way through the air was found", "the straight joint move, then ways grown from both its ends", "put a point on the way with through, or make room", derived},
	{CartShift, Note, "Where the arm's foot would have to stand", "where a pass cannot be run: shifts of the foot, level, up and turned, the least first, each verified by planning every pass with its approach and retreat", "move the cart so, and find the points again", byArm},
	{TableMoved, Caution, "The turning table stands otherwise than the seam was taught", "joints of the table at the weld start against the seam's first point, 1 deg or 1 mm", "turn the table so before the weld, and look at the position in which it then lies", byArm},
	{AxisMoves, Caution, "A lift, a track or a table moves while the arc is on", "joints that the arm has beyond six, along the weld, 1 deg or 1 mm", "weld it with a controller that moves them together with the arm, or stand the part where the arm reaches all of the seam", byArm},
	{HomeUnreachable, Stop, "Home is not a posture of this arm", "inverse kinematics of home", "teach home again", byArm},
	{RunIncomplete, Stop, "Steps and trace leave out a seam", "whether every pass is in the run", "mend what stops the seam; until then the run is not that of the job", derived},
	{ProofFails, Stop, "The proof does not hold", "every constraint of the finished plan again, from its files and the joint values alone, by code in which nothing plans", "do not weld by this plan; tell the maintainers, with the job: planner and proof do not agree", derived},
	{NotOnMachine, Note, "Not checked on the machine", "whether a dry run has been ticked", "dry run without arc before welding, by the maker's manual and local rules, by a person who is trained for it", commonPractice},

	{ArmWithoutShapes, Caution, "The arm itself is kept clear of nothing", "collision and visual shapes of the arm's file, and arm.shapes", "use a file that has the arm's shapes; until then run every move slowly by hand first", derived},
	{ArmShapesVisual, Note, "The arm is kept clear by shapes that are there to look at", "collision shapes of the arm's file", "use a file with collision shapes if these leave out cables or covers", derived},
	{TorchShapeAssumed, Note, "Measures of the torch's shape that were not given", "nozzle_length, neck_diameter and body_diameter of the torch", "measure them and type them, or give the torch's drawing as torch.shape", commonPractice},
	{TorchBendAssumed, Note, "Where the torch bends was not given", "the line of the wire against the flange's axis", "give body, neck and neck_angle, or the torch's drawing as torch.shape", derived},
	{TorchDrawingCut, Note, "What was made of the torch's drawing", "the drawing cut square to the wire at both ends of the nozzle", "check torch.shape: unit, measured_in and pose", derived},
	{CableUnknown, Note, "The cable is kept clear of nothing", "whether torch.cable tells the space that the cable takes", "say torch: {cable: [...]}, and watch the cable in the dry run", derived},
	{PartShapeUnknown, Caution, "Nothing keeps clear of the part", "typed members and shapes of the part", "type the plates under members, or give the part's mesh under shapes", derived},
	{SurroundingsUnknown, Caution, "Nothing keeps clear of table, fixtures and floor", "fixtures and floor under shapes", "type table, clamps and floor under shapes, from a tape's measures", derived},
	{TubeWithoutLength, Caution, "Nothing keeps clear of a tube without a length", "length of the typed tubes", "type its length from at along axis", derived},
	{ShapeReadPartly, Note, "What was left aside of a file of triangles", "what the file has beside its triangles", "export the shape again if something of it is missing", derived},
	{ShapeMended, Note, "A file of triangles was mended", "vertices and triangles that stand there twice or have no area, and which way triangles face", "export the shape again, or look at it with seamwright shape", derived},
	{ShapeOpen, Caution, "A shape with holes", "edges that only one triangle has", "close the shape where it was exported; until then nothing says what is inside it", derived},
	{ShapeDoubtful, Caution, "A shape that bounds no body", "triangles that cut each other, edges of three triangles, shells that face inwards", "export the shape again from a solid", derived},
	{ShapeSizeSuspect, Caution, "A shape of an odd size", "the longest side of the shape against 1 mm to 100 m", "check the unit that the file was exported in", commonPractice},
	{PairsIgnored, Caution, "Bodies that nobody keeps apart", "pairs that the document leaves out", "leave out no more than must touch", derived},
	{AlwaysNear, Note, "Bodies that are never as far apart as is wanted", "64 postures over all joints' ranges against the distance wanted", "nothing, where links lie beside each other by design; else move the arm's foot, or lower the limit", derived},
}

// Package export writes a Plan as the files that outlive the program: plan.json
// with everything needed to prove it, steps.csv with the values to key in,
// trace.csv with the run in time and findings.json.
//
// Every number's unit is in its name. Positions are the wire tip in the arm's
// base frame; quaternions are (w, x, y, z) with w >= 0.
package export

import (
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// FormatVersion is the form of plan.json.
const FormatVersion = 1

type poseDoc struct {
	XYZ  [3]float64 `json:"xyz_m"`
	Quat [4]float64 `json:"quat_wxyz"`
}

func newPose(p se3.Pose) poseDoc {
	q := p.R.Quat()
	return poseDoc{
		XYZ:  [3]float64{p.P.X, p.P.Y, p.P.Z},
		Quat: [4]float64{q.W, q.X, q.Y, q.Z},
	}
}

type planDoc struct {
	Seamwright    int          `json:"seamwright_plan"`
	Job           jobDoc       `json:"job"`
	Arm           string       `json:"arm"`
	BaseLink      string       `json:"base_link"`
	FlangeLink    string       `json:"flange_link"`
	Joints        []string     `json:"joints"`
	FlangeFromTip poseDoc      `json:"flange_from_tip"`
	WorldFromBase poseDoc      `json:"world_from_base"`
	TipDistance   float64      `json:"contact_tip_distance_mm"`
	Fit           bool         `json:"fit"`
	Checked       bool         `json:"checked_on_machine"`
	Times         timesDoc     `json:"times"`
	Seams         []seamDoc    `json:"seams"`
	Steps         []stepDoc    `json:"steps"`
	Findings      []findingDoc `json:"findings"`
	Caution       string       `json:"caution"`
}

type jobDoc struct {
	File     string `json:"file"`
	Name     string `json:"name"`
	Part     string `json:"part,omitempty"`
	Drawing  string `json:"drawing,omitempty"`
	Revision string `json:"revision,omitempty"`
	Code     string `json:"code"`
}

type timesDoc struct {
	Arc   float64 `json:"arc_s"`
	Weld  float64 `json:"weld_travel_s"`
	Air   float64 `json:"air_s"`
	Total float64 `json:"total_s"`
}

type seamDoc struct {
	Name        string      `json:"name"`
	Joint       string      `json:"joint"`
	Length      float64     `json:"length_mm"`
	FitResidual float64     `json:"fit_residual_mm"`
	Position    positionDoc `json:"position"`
	Start       frameDoc    `json:"start"`
	End         frameDoc    `json:"end"`
	Taught      []taughtDoc `json:"taught"`
	Passes      []passDoc   `json:"passes"`
}

type positionDoc struct {
	ISO         string  `json:"iso"`
	AWS         string  `json:"aws"`
	Inclination float64 `json:"inclination_deg"`
	Tilt        float64 `json:"face_tilt_deg"`
	Margin      float64 `json:"nearest_limit_deg"`
	Beyond      string  `json:"beyond_limit"`
}

// frameDoc is the joint at one place: the root, the travel and the faces.
type frameDoc struct {
	Origin   [3]float64 `json:"root_m"`
	Travel   [3]float64 `json:"travel"`
	Normal   [3]float64 `json:"base_normal"`
	Open     [3]float64 `json:"base_open_side"`
	Included float64    `json:"included_deg"`
}

type taughtDoc struct {
	Label        string  `json:"label"`
	Role         string  `json:"role"`
	Along        float64 `json:"along_mm"`
	Across       float64 `json:"across_mm"`
	AcrossBase   float64 `json:"across_along_base_mm"`
	AcrossFace   float64 `json:"across_off_base_mm"`
	Work         float64 `json:"work_deg"`
	Travel       float64 `json:"travel_deg"`
	Spin         float64 `json:"spin_deg"`
	WantedWork   float64 `json:"wanted_work_deg"`
	WantedTravel float64 `json:"wanted_travel_deg"`
	WantedSpin   float64 `json:"wanted_spin_deg"`
	Pose         poseDoc `json:"base_from_tip"`
	Wanted       poseDoc `json:"wanted_base_from_tip"`
}

type passDoc struct {
	Number   int          `json:"number"`
	Work     float64      `json:"work_deg"`
	Travel   float64      `json:"travel_angle_deg"`
	Offset   float64      `json:"aim_offset_mm"`
	Distance float64      `json:"contact_tip_distance_mm"`
	Size     sizeDoc      `json:"size"`
	Reach    reachDoc     `json:"reach"`
	Margins  *marginsDoc  `json:"margins,omitempty"`
	Stations []stationDoc `json:"stations,omitempty"`
}

type sizeDoc struct {
	Settings   string   `json:"settings"`
	LegBase    float64  `json:"leg_base_mm"`
	LegOther   float64  `json:"leg_upright_mm"`
	Throat     float64  `json:"throat_mm"`
	Area       float64  `json:"area_mm2"`
	Travel     float64  `json:"travel_mm_s"`
	Typed      *float64 `json:"typed_travel_mm_s,omitempty"`
	TypedLeg   *float64 `json:"typed_travel_leg_mm,omitempty"`
	Feed       float64  `json:"wire_feed_m_min"`
	Wire       float64  `json:"wire_mm"`
	Volts      float64  `json:"volts_v"`
	Amps       float64  `json:"amps_a"`
	Efficiency float64  `json:"deposition_efficiency"`
	Convexity  float64  `json:"face_factor"`
	ArcEnergy  float64  `json:"arc_energy_kj_mm"`
	HeatInput  float64  `json:"heat_input_kj_mm"`
	ArcTime    float64  `json:"arc_time_s"`
	StartTime  float64  `json:"arc_start_s"`
	CraterTime float64  `json:"crater_s"`
}

type reachDoc struct {
	Whole      bool    `json:"whole"`
	From       float64 `json:"longest_from_mm"`
	To         float64 `json:"longest_to_mm"`
	StopsAt    float64 `json:"stops_at_mm"`
	SpinsWhole int     `json:"spins_that_reach"`
	SpinsTried int     `json:"spins_tried"`
}

type marginsDoc struct {
	Limit       float64 `json:"limit_deg"`
	LimitJoint  string  `json:"limit_joint"`
	LimitAlong  float64 `json:"limit_at_mm"`
	Wrist       float64 `json:"wrist_deg"`
	WristAlong  float64 `json:"wrist_at_mm"`
	SpinVarying bool    `json:"spin_varies"`
}

type stationDoc struct {
	Along float64   `json:"along_mm"`
	Spin  float64   `json:"spin_deg"`
	Q     []float64 `json:"q_rad"`
	Pose  poseDoc   `json:"base_from_tip"`
}

type stepDoc struct {
	Step     int       `json:"step"`
	Label    string    `json:"label"`
	Seam     string    `json:"seam,omitempty"`
	Pass     int       `json:"pass,omitempty"`
	Move     string    `json:"move"`
	Speed    *float64  `json:"speed_mm_s,omitempty"`
	Percent  *float64  `json:"joint_speed_pct,omitempty"`
	Arc      string    `json:"arc,omitempty"`
	Settings string    `json:"settings,omitempty"`
	Pose     poseDoc   `json:"base_from_tip"`
	Q        []float64 `json:"q_rad"`
	Work     *float64  `json:"work_deg,omitempty"`
	Travel   *float64  `json:"travel_deg,omitempty"`
}

type findingDoc struct {
	Code     string   `json:"code"`
	Severity string   `json:"severity"`
	Where    string   `json:"where"`
	Measured *float64 `json:"measured"`
	Limit    *float64 `json:"limit"`
	Unit     string   `json:"unit"`
	Message  string   `json:"message"`
	Remedy   string   `json:"remedy"`
	Source   string   `json:"source"`
}

// Caution stands in every file that can reach a person at a machine.
const Caution = "Planned, not checked on the machine. Arc rays, fume, heat, the wire tip and a moving arm can injure: " +
	"dry run without arc first, at reduced speed, by the makers' manuals, local rules and a person who is trained for it."

const (
	mm    = 1e3
	deg   = 180 / math.Pi
	mm2   = 1e6
	kjmm  = 1e-6
	mmin  = 60
	round = 1e6 // display values keep six decimals; poses and joints keep all
)

func r6(x float64) float64 { return math.Round(x*round) / round }

// optional returns nil for NaN, which JSON cannot hold.
func optional(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x = r6(x)
	return &x
}

func newFindings(list []finding.Finding) []findingDoc {
	docs := make([]findingDoc, 0, len(list))
	for _, f := range list {
		docs = append(docs, findingDoc{
			Code: string(f.Code), Severity: f.Severity.String(), Where: f.Where.String(),
			Measured: optional(f.Measured), Limit: optional(f.Limit), Unit: f.Unit,
			Message: f.Message, Remedy: f.Remedy, Source: f.Source,
		})
	}
	return docs
}

func joints(q *kinematics.Q, n int) []float64 { return append([]float64(nil), q[:n]...) }

func newPlan(j *job.Job, p *plan.Plan) planDoc {
	n := p.Cell.Chain.N()
	d := planDoc{
		Seamwright: FormatVersion,
		Job:        jobDoc{File: j.File, Name: j.Name, Part: j.Part, Drawing: j.Drawing, Revision: j.Revision, Code: j.Code.String()},
		Arm:        j.Arm.URDF, BaseLink: j.Arm.BaseLink, FlangeLink: j.Arm.FlangeLink,
		FlangeFromTip: newPose(p.Cell.FlangeFromTip), WorldFromBase: newPose(p.Cell.WorldFromBase),
		TipDistance: r6(j.Torch.ContactTipDistance() * mm),
		Fit:         p.Fit(),
		Times:       timesDoc{Arc: r6(p.Times.Arc), Weld: r6(p.Times.Weld), Air: r6(p.Times.Air), Total: r6(p.Times.Total)},
		Findings:    newFindings(p.Findings),
		Caution:     Caution,
	}
	for i := range n {
		d.Joints = append(d.Joints, p.Cell.Chain.Joint(i).Name)
	}
	for i := range p.Seams {
		d.Seams = append(d.Seams, newSeam(j, p, &p.Seams[i]))
	}
	for i := range p.Steps {
		d.Steps = append(d.Steps, newStep(i+1, &p.Steps[i], n))
	}
	return d
}

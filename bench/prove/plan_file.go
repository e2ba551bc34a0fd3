package prove

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// The types below are the fields of plan.json that the proof reads, by their names
// there. They are written down here once more so that nothing of the program that
// writes them is shared. Numbers have the unit of their name.

type planFile struct {
	Form          int           `json:"seamwright_plan"`
	Job           jobLine       `json:"job"`
	Arm           string        `json:"arm"`
	BaseLink      string        `json:"base_link"`
	FlangeLink    string        `json:"flange_link"`
	FootLink      string        `json:"foot_link"`
	Joints        []string      `json:"joints"`
	FlangeFromTip *poseFile     `json:"flange_from_tip"`
	WorldFromBase *poseFile     `json:"world_from_base"`
	WorldFromFoot *poseFile     `json:"world_from_foot"`
	TipDistance   float64       `json:"contact_tip_distance_mm"`
	Fit           *bool         `json:"fit"`
	Seams         []seamFile    `json:"seams"`
	Steps         []stepFile    `json:"steps"`
	Findings      []findingFile `json:"findings"`
	Seal          *sealFile     `json:"seal"`
}

// sealFile holds the sums of everything that the plan was made from and wrote.
type sealFile struct {
	Inputs []struct {
		File   string `json:"file"`
		Bytes  int64  `json:"bytes"`
		SHA256 string `json:"sha256"`
	} `json:"inputs"`
	Files []struct {
		File   string `json:"file"`
		SHA256 string `json:"sha256"`
	} `json:"files"`
	Findings int    `json:"findings"`
	Plan     string `json:"plan_sha256"`
}

type jobLine struct {
	File string `json:"file"`
	Path string `json:"path"`
	Code string `json:"code"`
}

type poseFile struct {
	XYZ  []float64 `json:"xyz_m"`
	Quat []float64 `json:"quat_wxyz"`
}

type seamFile struct {
	Name        string      `json:"name"`
	Joint       string      `json:"joint"`
	Length      float64     `json:"length_mm"`
	FitResidual float64     `json:"fit_residual_mm"`
	Path        []pieceFile `json:"path"`
	Start       frameFile   `json:"start"`
	Passes      []passFile  `json:"passes"`
}

type pieceFile struct {
	Kind   string      `json:"kind"`
	Length float64     `json:"length_mm"`
	From   []float64   `json:"from_m"`
	To     []float64   `json:"to_m"`
	Centre []float64   `json:"centre_m"`
	Axis   []float64   `json:"axis"`
	Radius float64     `json:"radius_mm"`
	Sweep  float64     `json:"sweep_deg"`
	Start  *frameFile  `json:"start"`
	Joints []frameFile `json:"joints_along"`
}

type frameFile struct {
	Root     []float64 `json:"root_m"`
	Travel   []float64 `json:"travel"`
	Normal   []float64 `json:"base_normal"`
	Open     []float64 `json:"base_open_side"`
	Included float64   `json:"included_deg"`
}

type passFile struct {
	Number   int           `json:"number"`
	Role     string        `json:"role"`
	Work     float64       `json:"work_deg"`
	Bisector *float64      `json:"work_from_bisector_deg"`
	Travel   float64       `json:"travel_angle_deg"`
	Offset   float64       `json:"aim_offset_mm"`
	Above    float64       `json:"aim_above_mm"`
	Distance float64       `json:"contact_tip_distance_mm"`
	Size     sizeFile      `json:"size"`
	Profile  *profileFile  `json:"profile"`
	Stations []stationFile `json:"stations"`
}

type profileFile struct {
	Corners []cornerFile `json:"corners"`
}

type cornerFile struct {
	At     float64 `json:"from_mm"`
	To     float64 `json:"to_mm"`
	Radius float64 `json:"radius_mm"`
	Ahead  float64 `json:"before_over_mm"`
	Behind float64 `json:"after_over_mm"`
}

type sizeFile struct {
	Settings  string   `json:"settings"`
	Travel    float64  `json:"travel_mm_s"`
	HeatInput *float64 `json:"heat_input_kj_mm"`
}

type stationFile struct {
	Along float64   `json:"along_mm"`
	Q     []float64 `json:"q_rad"`
	Pose  *poseFile `json:"base_from_tip"`
}

type stepFile struct {
	Step     int       `json:"step"`
	Label    string    `json:"label"`
	Seam     string    `json:"seam"`
	Pass     int       `json:"pass"`
	Move     string    `json:"move"`
	Speed    *float64  `json:"speed_mm_s"`
	Turn     *float64  `json:"turn_deg_s"`
	Percent  *float64  `json:"joint_speed_pct"`
	Arc      string    `json:"arc"`
	Settings string    `json:"settings"`
	Wait     *float64  `json:"stands_s"`
	Pose     *poseFile `json:"base_from_tip"`
	Q        []float64 `json:"q_rad"`
	Work     *float64  `json:"work_deg"`
	Travel   *float64  `json:"travel_deg"`
}

type findingFile struct {
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

// unitQuat is how far the norm of a quaternion may be from 1, dimensionless: its
// digits are at least nine.
const unitQuat = 1e-6

// pose returns the pose that the file holds.
func (p *poseFile) pose() (se3.Pose, error) {
	switch {
	case p == nil:
		return se3.Pose{}, fmt.Errorf("no pose")
	case len(p.XYZ) != 3:
		return se3.Pose{}, fmt.Errorf("xyz_m with %d numbers, not 3", len(p.XYZ))
	case len(p.Quat) != 4:
		return se3.Pose{}, fmt.Errorf("quat_wxyz with %d numbers, not 4", len(p.Quat))
	}
	q := se3.Quat{W: p.Quat[0], X: p.Quat[1], Y: p.Quat[2], Z: p.Quat[3]}
	if !(math.Abs(q.Norm()-1) <= unitQuat) {
		return se3.Pose{}, fmt.Errorf("quat_wxyz of length %.9g, not 1", q.Norm())
	}
	return se3.Pose{R: q.Rot(), P: r3.Vec{X: p.XYZ[0], Y: p.XYZ[1], Z: p.XYZ[2]}}, nil
}

// jointValues returns n joint values, rad or m.
func jointValues(list []float64, n int) (q kinematics.Q, err error) {
	if len(list) != n {
		return q, fmt.Errorf("q_rad with %d values for %d joints", len(list), n)
	}
	copy(q[:], list)
	return q, nil
}

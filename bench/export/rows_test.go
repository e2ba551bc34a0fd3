package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// The readers and the vector arithmetic below are this test's own, so that the
// checks of reference_test.go share nothing with what wrote the files.

type vec [3]float64

func (a vec) plus(b vec) vec      { return vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vec) minus(b vec) vec     { return a.plus(b.times(-1)) }
func (a vec) times(k float64) vec { return vec{a[0] * k, a[1] * k, a[2] * k} }
func (a vec) dot(b vec) float64   { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) norm() float64       { return math.Sqrt(a.dot(a)) }
func (a vec) unit() vec           { return a.times(1 / a.norm()) }
func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// turned is a turned by an angle (rad) about a unit axis (Rodrigues' formula).
func (a vec) turned(axis vec, angle float64) vec {
	return a.times(math.Cos(angle)).plus(axis.cross(a).times(math.Sin(angle))).plus(axis.times(axis.dot(a) * (1 - math.Cos(angle))))
}

// rotation is row-major.
type rotation [9]float64

func (r rotation) column(k int) vec { return vec{r[k], r[3+k], r[6+k]} }

// fromQuat is the rotation of a unit quaternion w, x, y, z.
func fromQuat(w, x, y, z float64) rotation {
	return rotation{
		1 - 2*(y*y+z*z), 2 * (x*y - w*z), 2 * (x*z + w*y),
		2 * (x*y + w*z), 1 - 2*(x*x+z*z), 2 * (y*z - w*x),
		2 * (x*z - w*y), 2 * (y*z + w*x), 1 - 2*(x*x+y*y),
	}
}

// angle is the turn between two rotations, rad, good for small ones too.
func (r rotation) angle(s rotation) float64 {
	var axis vec
	cos := -1.0
	for k := range 3 {
		axis = axis.plus(r.column(k).cross(s.column(k)))
		cos += r.column(k).dot(s.column(k))
	}
	return math.Atan2(axis.norm(), cos)
}

// row is a line of a CSV file by its column heads.
type row struct {
	t     *testing.T
	line  int
	cells map[string]string
}

func readCSV(t *testing.T, text []byte) []row {
	t.Helper()
	r := csv.NewReader(bytes.NewReader(text))
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for i, line := range lines[1:] {
		cells := map[string]string{}
		for k, head := range lines[0] {
			cells[head] = line[k]
		}
		rows = append(rows, row{t, i + 2, cells})
	}
	return rows
}

func (r row) text(head string) string {
	r.t.Helper()
	s, ok := r.cells[head]
	if !ok {
		r.t.Fatalf("no column %s", head)
	}
	return s
}

func (r row) number(head string) float64 {
	r.t.Helper()
	x, err := strconv.ParseFloat(r.text(head), 64)
	if err != nil {
		r.t.Fatalf("line %d, %s: %v", r.line, head, err)
	}
	return x
}

// place is the wire tip of a row, m.
func (r row) place() vec {
	return vec{r.number("x_mm"), r.number("y_mm"), r.number("z_mm")}.times(1e-3)
}

func (r row) rotation() rotation {
	return fromQuat(r.number("qw"), r.number("qx"), r.number("qy"), r.number("qz"))
}

// wire is the direction in which the wire leaves.
func (r row) wire() vec { return r.rotation().column(2) }

// joint is a joint's value, rad or m.
func (r row) joint(i int) float64 {
	if _, slides := r.cells["j"+strconv.Itoa(i+1)+"_mm"]; slides {
		return r.number("j"+strconv.Itoa(i+1)+"_mm") / 1e3
	}
	return r.number("j"+strconv.Itoa(i+1)+"_deg") * math.Pi / 180
}

// planFileText is what the checks read from plan.json.
type planFileText struct {
	Arm      string
	Joints   []string
	Distance float64 `json:"contact_tip_distance_mm"`
	Times    struct {
		Arc   float64 `json:"arc_s"`
		Air   float64 `json:"air_s"`
		Wait  float64 `json:"wait_s"`
		Total float64 `json:"total_s"`
	}
	Seams []seamText
	Steps []struct {
		Turn float64 `json:"turn_deg_s"`
	}
}

type frameText struct {
	Root   vec `json:"root_m"`
	Travel vec `json:"travel"`
	Normal vec `json:"base_normal"`
	Open   vec `json:"base_open_side"`
	// Included is the angle between the plates, deg.
	Included float64 `json:"included_deg"`
}

type cornerText struct {
	At     float64 `json:"from_mm"`
	To     float64 `json:"to_mm"`
	Before float64 `json:"before_deg"`
	After  float64 `json:"after_deg"`
	Ahead  float64 `json:"before_over_mm"`
	Behind float64 `json:"after_over_mm"`
	Place  float64 `json:"in_place_deg"`
	ArcOff bool    `json:"arc_off"`
}

func (c *cornerText) sharp() bool { return c.At == c.To }

type seamText struct {
	Name   string
	Length float64 `json:"length_mm"`
	Path   []struct {
		Kind   string
		Length float64     `json:"length_mm"`
		Start  frameText   `json:"start"`
		Joints []frameText `json:"joints_along"`
		From   vec         `json:"from_m"`
		To     vec         `json:"to_m"`
		Centre vec         `json:"centre_m"`
		Axis   vec         `json:"axis"`
		Radius float64     `json:"radius_mm"`
	}
	Start, End frameText
	Passes     []struct {
		Number   int
		Work     float64  `json:"work_deg"`
		Bisector *float64 `json:"work_from_bisector_deg"`
		Travel   float64  `json:"travel_angle_deg"`
		Offset   float64  `json:"aim_offset_mm"`
		Above    float64  `json:"aim_above_mm"`
		Distance float64  `json:"contact_tip_distance_mm"`
		Size     struct {
			Travel     float64 `json:"travel_mm_s"`
			Feed       float64 `json:"wire_feed_m_min"`
			Wire       float64 `json:"wire_mm"`
			Efficiency float64 `json:"deposition_efficiency"`
			Start      float64 `json:"arc_start_s"`
			Crater     float64 `json:"crater_s"`
		}
		Profile struct {
			Leg     float64 `json:"leg_wanted_mm"`
			Corners []cornerText
			Samples []struct {
				Along float64 `json:"s_mm"`
				Area  float64 `json:"area_mm2"`
			}
		}
		Stations []struct{}
	}
}

// folderText is a plan folder read from disk.
type folderText struct {
	dir          string
	plan         planFileText
	steps, trace []row
}

func writtenFolder(t *testing.T, c planned) folderText {
	t.Helper()
	f := folderText{dir: filepath.Join(t.TempDir(), "out")}
	if err := writePlan(f.dir, c.job, c.plan); err != nil {
		t.Fatal(err)
	}
	read := func(name string) []byte {
		b, err := os.ReadFile(filepath.Join(f.dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	if err := json.Unmarshal(read("plan.json"), &f.plan); err != nil {
		t.Fatal(err)
	}
	f.steps, f.trace = readCSV(t, read("steps.csv")), readCSV(t, read("trace.csv"))
	if len(f.steps) < 4 || len(f.trace) < 100 {
		t.Fatalf("%d steps and %d samples only", len(f.steps), len(f.trace))
	}
	return f
}

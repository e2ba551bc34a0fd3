package prove_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/prove"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// object is an object of a JSON file that is tampered with.
type object = map[string]any

// folder is a plan folder that is being tampered with, and the files of its job that
// were changed.
type folder struct {
	*planned
	t        testing.TB
	rng      *rand.Rand
	name     string // of the example
	doc      object
	findings []any
	steps    [][]string
	trace    [][]string
	job      map[string]string // changed files of the job, by name
	raw      map[string]string // files to be changed as bytes, unsealed
}

// open takes a plan folder apart.
func open(t testing.TB, name string, rng *rand.Rand) *folder {
	f := &folder{planned: example(t, name), t: t, rng: rng, name: name, job: map[string]string{}, raw: map[string]string{}}
	f.apart()
	return f
}

// apart takes the files of the folder apart.
func (f *folder) apart() {
	t := f.t
	for _, x := range []struct {
		file string
		into any
	}{{"plan.json", &f.doc}, {"findings.json", &f.findings}} {
		d := json.NewDecoder(strings.NewReader(f.files[x.file]))
		d.UseNumber()
		if err := d.Decode(x.into); err != nil {
			t.Fatal(err)
		}
	}
	f.steps, f.trace = rowsOf(t, f.files["steps.csv"]), rowsOf(t, f.files["trace.csv"])
}

func rowsOf(t testing.TB, text string) [][]string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func textOf(rows [][]string) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.WriteAll(rows)
	return b.String()
}

func jsonOf(t testing.TB, v any) []byte {
	text, err := json.MarshalIndent(v, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func sumOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// list returns a list in the document by its path.
func list(v any, path ...string) []any {
	for _, key := range path {
		v = v.(object)[key]
	}
	l, _ := v.([]any)
	return l
}

func (f *folder) planSteps() []any { return list(f.doc, "steps") }
func (f *folder) seams() []any     { return list(f.doc, "seams") }

// number is a number of the document.
func numberOf(v any) float64 {
	switch v := v.(type) {
	case json.Number:
		x, _ := v.Float64()
		return x
	case float64:
		return v
	}
	return math.NaN()
}

// opened reads the job with its changed files.
func (f *folder) Open(name string) (io.ReadCloser, error) {
	if text, ok := f.job[name]; ok {
		return io.NopCloser(strings.NewReader(text)), nil
	}
	return os.Open(filepath.Join("../../examples", f.name, filepath.FromSlash(name)))
}

// seal makes all sums again, as somebody would who knows how, for a job with inputs.
func (f *folder) seal(inputs []job.Input) map[string]string {
	files := map[string]string{}
	for name, text := range f.files {
		files[name] = text
	}
	files["steps.csv"], files["trace.csv"] = textOf(f.steps), textOf(f.trace)
	files["findings.json"] = string(jsonOf(f.t, f.findings))
	seal := f.doc["seal"].(object)
	var ins []any
	for _, in := range inputs {
		ins = append(ins, object{"file": in.File, "bytes": in.Bytes, "sha256": hex.EncodeToString(in.SHA256[:])})
	}
	seal["inputs"] = ins
	for _, x := range seal["files"].([]any) {
		x := x.(object)
		x["sha256"] = sumOf([]byte(files[x["file"].(string)]))
	}
	seal["findings"] = len(list(f.doc, "findings"))
	zeros := strings.Repeat("0", 2*sha256.Size)
	seal["plan_sha256"] = zeros
	text := jsonOf(f.t, f.doc)
	text = bytes.Replace(text, []byte(zeros), []byte(sumOf(text)), 1)
	files["plan.json"] = string(text)
	return files
}

// proved proves the folder as it is now: with all sums made again, or, where bytes of
// files were changed, with those of the plan.
func (f *folder) proved() (*prove.Verdict, error) {
	j, err := job.Decode("job.yaml", f)
	if err != nil {
		return nil, err
	}
	files := f.files
	if len(f.raw) == 0 {
		files = f.seal(j.Inputs)
	}
	read := func(name string) ([]byte, error) {
		if text, ok := f.raw[name]; ok {
			return []byte(text), nil
		}
		if text, ok := files[name]; ok {
			return []byte(text), nil
		}
		return nil, os.ErrNotExist
	}
	folder, err := prove.Read(read)
	if err != nil {
		return nil, err
	}
	return folder.Prove(j)
}

// column is the place of a column of a table.
func (f *folder) column(rows [][]string, name string) int {
	for i, head := range rows[0] {
		if head == name {
			return i
		}
	}
	f.t.Fatalf("no column %s", name)
	return 0
}

// rows picks rows of the trace, away from its ends, that a test likes.
func (f *folder) rows(like func(row []string) bool) int {
	for range 10000 {
		i := 3 + f.rng.IntN(len(f.trace)-6)
		if like(f.trace[i]) {
			return i
		}
	}
	f.t.Fatal("no such row")
	return 0
}

func (f *folder) welding(row []string) bool {
	return row[f.column(f.trace, "arc")] == "1" && row[f.column(f.trace, "speed_mm_s")] != "0.0000"
}

func (f *folder) moving(row []string) bool {
	return row[f.column(f.trace, "arc")] == "0" && row[f.column(f.trace, "speed_mm_s")] != "0.0000"
}

// add changes a number of a row of the trace.
func (f *folder) add(i int, column string, by float64) string {
	at := f.column(f.trace, column)
	row := append([]string(nil), f.trace[i]...)
	old := row[at]
	x, err := strconv.ParseFloat(old, 64)
	if err != nil {
		f.t.Fatal(err)
	}
	digits := len(old) - strings.IndexByte(old, '.') - 1
	row[at] = strconv.FormatFloat(x+by, 'f', digits, 64)
	f.trace[i] = row
	return fmt.Sprintf("trace row %d: %s %s for %s", i+2, column, row[at], old)
}

// joints of a row of the trace, rad.
func (f *folder) jointsOf(i int) (q kinematics.Q) {
	for j := range f.plan.Cell.Chain.N() {
		x, _ := strconv.ParseFloat(f.trace[i][f.column(f.trace, fmt.Sprintf("j%d_deg", j+1))], 64)
		q[j] = x * math.Pi / 180
	}
	return q
}

// pose writes the pose of joint values into a row of the trace.
func (f *folder) setPose(i int, q *kinematics.Q) {
	pose := f.plan.Cell.BaseFromTip(q)
	quat := pose.R.Quat()
	for k, x := range map[string]float64{"x_mm": pose.P.X * 1e3, "y_mm": pose.P.Y * 1e3, "z_mm": pose.P.Z * 1e3, "qw": quat.W, "qx": quat.X, "qy": quat.Y, "qz": quat.Z} {
		f.trace[i][f.column(f.trace, k)] = strconv.FormatFloat(x, 'f', 9, 64)
	}
}

func poseOf(pose se3.Pose) object {
	q := pose.R.Quat()
	return object{"xyz_m": []any{pose.P.X, pose.P.Y, pose.P.Z}, "quat_wxyz": []any{q.W, q.X, q.Y, q.Z}}
}

// sign is 1 or -1.
func (f *folder) sign() float64 { return float64(2*f.rng.IntN(2) - 1) }

// kind is a way of tampering.
type kind struct {
	name string
	on   []string // examples; nil for all
	each int      // times for each example
	do   func(f *folder) string
}

// TestTampering changes plan folders in every way that matters, makes all their sums
// again where that can be done, and has each change found: by computing again, not by
// the sums.
func TestTampering(t *testing.T) {
	total := 0
	for _, k := range kinds() {
		on := k.on
		if on == nil {
			on = []string{"header-stand", "keel-cradle", "sluice-lug"}
		}
		caught, refused, by := 0, 0, map[string]int{}
		for _, name := range on {
			times := k.each
			if name == "header-stand" { // the large one
				times = 1
			}
			for n := range times {
				rng := rand.New(rand.NewPCG(uint64(n), uint64(len(k.name))))
				f := open(t, name, rng)
				what := k.do(f)
				v, err := f.proved()
				total++
				switch {
				case err != nil:
					refused++
				case v.Fit:
					t.Errorf("%s, %s: %s: the plan is still fit", k.name, name, what)
				default:
					caught++
					by[firstBroken(v)]++
				}
			}
		}
		t.Logf("%-46s %3d not fit, %3d refused: %v", k.name, caught, refused, by)
	}
	t.Logf("%d tamperings in all", total)
	if total < 200 {
		t.Errorf("%d tamperings, 200 at least are wanted", total)
	}
}

// firstBroken is the first constraint that is broken.
func firstBroken(v *prove.Verdict) string {
	for _, r := range v.Rows {
		if r.Outcome != prove.Holds && r.Outcome != prove.Declared {
			return r.Name
		}
	}
	if len(v.Stops) > 0 {
		return "stop " + v.Stops[0]
	}
	return "nothing"
}

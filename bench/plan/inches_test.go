package plan_test

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
)

// inInches says the taught list as a shop that works in inches reads it: places
// and blend radii in in, speeds in in/min.
func inInches(f files) {
	for _, e := range [][2]string{{"length: mm", "length: in"}, {"speeds: mm/s", "speeds: in/min"}} {
		f.edit(panics{}, e[0], e[1])
	}
	lines := strings.Split(f["taught.csv"], "\n")
	columns := strings.Split(lines[0], ",")
	factors := map[string]float64{"x": 1 / 25.4, "y": 1 / 25.4, "z": 1 / 25.4, "blend": 1 / 25.4, "speed": 60 / 25.4}
	for i, line := range lines[1:] {
		cells := strings.Split(line, ",")
		for k, cell := range cells {
			if factor := factors[columns[k]]; factor != 0 && cell != "" {
				x, err := strconv.ParseFloat(cell, 64)
				if err != nil {
					panic(err)
				}
				cells[k] = strconv.FormatFloat(x*factor, 'f', 7, 64)
			}
		}
		lines[i+1] = strings.Join(cells, ",")
	}
	f["taught.csv"] = strings.Join(lines, "\n")
}

// inchFaults are faults of the metric table as an inch job says them: name,
// place, numbers and texts; the rest is the metric row's. Expected numbers are
// the metric row's, divided by 25.4 mm, 645.16 mm2 or 0.42333 mm/s or times
// 25.4 for kJ, as their source says.
var inchFaults = []fault{
	{name: "weld speed too fast in the list", where: `point "W1 end"`, measured: "70.87", limit: "59.06", unit: "in/min",
		message: `point "W1 end" (line 5) welds at 70.9 in/min (30 mm/s)`, remedy: "70.9 in/min is 180 cm/min; did you mean 70.9 cm/min = 27.9 in/min?", source: "30 and 25 mm/s"},
	{name: "linear air move too fast", where: `point "W1 out"`, measured: "944.9", limit: "590.6", unit: "in/min",
		message: `point "W1 out" (line 6) is reached at 945 in/min in a linear move; this job allows 591 in/min`, source: "400 and 250 mm/s"},
	{name: "blend on the weld end", where: `point "W1 end"`,
		message: `point "W1 end" (line 5) has a blend radius of 0.08 in where the arc switches off`, source: "2 mm"},
	{name: "inches among millimetres", where: `point "W1 in"`, measured: "0.73", limit: "18.5", unit: "in",
		message: `point "W1 in" (line 3) lies 0.73 in from the arm's foot; read in the other unit it would lie 18.5 in away`,
		remedy:  "check `points.length`: inches and millimetres may have been taken for each other", source: "18.46 and 468.9 mm"},
	{name: "point beyond the arm", where: `point "spare"`, measured: "19.1", limit: "0.0", unit: "in",
		message: `point "spare" (line 7) lies 19.1 in out of this arm's reach`, source: "485 mm"},

	{name: "tip off the seam", where: `W1 point "W1 start"`, measured: "0.0394", limit: "0.0197", unit: "in",
		message: `W1: the tip at "W1 start" is 0.039 in off the seam; half a wire is 0.02 in`, source: "1.0 and 0.5 mm"},
	{name: "points too close", where: "W1", measured: "0.059", limit: "0.079", unit: "in", message: "W1 is 0.06 in long", source: "1.5 and 2 mm"},
	{name: "short seam", where: "W1", measured: "2.4", limit: "2.0", unit: "deg",
		message: "W1 is 2.0 in long: two hand-guided tips tell its direction to 2.4 deg only",
		remedy:  "give the plates by directions, or points at least 2.4 in apart", source: "50 and 60 mm"},
	{name: "radius not the drawing's", where: "W1", measured: "3.937", limit: "3.819", unit: "in",
		message: "W1: the points make a radius of 3.937 in, the drawing says 3.819 in", source: "100 and 97 mm"},
	{name: "wire not the tool point's", where: "W1", measured: "0.0394", limit: "0.0450", unit: "in",
		message: "W1: settings set 11 is for 0.0394 in wire, the tool point was found with 0.045 in", source: "1.0 mm"},

	{name: "throat under the least", where: "W1", measured: "0.111", limit: "0.118", unit: "in",
		message: "W1: throat 0.111 in where the plates ask for at least 0.118 in", source: "2.828 and 3 mm"},
	{name: "leg under the AWS table", where: "W1", measured: "0.1575", limit: "0.1875", unit: "in",
		message: "W1: leg 0.157 in where the plates ask for at least 0.188 in", source: "4 mm; AWS D1.1:2025 Table 7.7, inch column: 3/16 in"},
	{name: "typed speed too fast", where: "W1", measured: "0.179", limit: "0.197", unit: "in",
		message: "W1: at the typed 23.6 in/min the leg is 0.179 in; 0.197 in needs 19.4 in/min",
		remedy:  "weld at 19.4 in/min, or leave the speed out", source: "10 mm/s, 4.535 and 5 mm, 8.2253 mm/s"},
	{name: "typed speed too fast for an area", where: "W1", measured: "0.01753", limit: "0.02131", unit: "in2",
		message: "W1: at the typed 23.6 in/min the area is 0.0175 in2; 0.0213 in2 needs 19.4 in/min",
		remedy:  "weld at 19.4 in/min, or leave the speed out", source: "11.3097 and 13.75 mm2"},
	{name: "gap over 2 mm", where: "W1", measured: "0.118", limit: "0.079", unit: "in",
		message: "W1: the gap of 0.118 in is added to each leg, so leg 0.315 in is welded for 0.197 in drawn", source: "3, 2, 8 and 5 mm"},
	{name: "gap over 5 mm", where: "W1", measured: "0.236", limit: "0.197", unit: "in",
		message: "W1 has a gap of 0.236 in; more than 0.197 in must not be welded over", source: "6 and 5 mm"},
	{name: "one pass too large for AWS", where: "W1", measured: "0.433", limit: "0.394", unit: "in",
		message: "W1: leg 0.433 in in one pass; in position 2F one pass lays 0.394 in at most", source: "11 and 10 mm"},
	{name: "thickness not stated", where: "W1",
		message: "W1: the thickness of the upright is not stated; the least size was not checked",
		remedy:  "add thickness: {base: 3/8 in, upright: 1/4 in} with the plates' own numbers", source: "the document"},
	{name: "cubic feet typed as litres", where: "W1", measured: "63.6", limit: "53.0", unit: "cfh",
		message: "W1: settings set 11 has 64 cubic feet per hour of gas, which is 30 L/min",
		remedy:  "did you mean 30 cubic feet per hour (14.2 L/min)?", source: "30 and 25 L/min, 28.3168 L to the cubic foot"},

	{name: "feed", where: "W1", measured: "413.4", limit: "393.7", unit: "in/min",
		message: "W1: wire feed speed 413.4 in/min is above the 393.7 in/min of procedure WPS-07", source: "10.5 and 10 m/min"},
	{name: "travel too fast", where: "W1", measured: "30.36", limit: "23.62", unit: "in/min",
		message: "W1: travel speed 30.36 in/min is above the 23.62 in/min of procedure WPS-07", source: "12.852 and 10 mm/s"},
	{name: "too hot", where: "W1", measured: "17.14", limit: "15.24", unit: "kJ/in",
		message: "W1: heat input (with k) 17.14 kJ/in (voltage times current) is above the 15.24 kJ/in of procedure WPS-07", source: "0.6747 and 0.6 kJ/mm"},
	{name: "wire", where: "W1",
		message: "W1: wire diameter 0.04724 in is not in procedure WPS-07, which has 0.03937 in", source: "1.2 and 1.0 mm"},

	{name: "beyond the arm", where: "W1 pass 1 at 28.7 in", measured: "0.375", limit: "0", unit: "in",
		message: "W1 at 28.7 in of 38.2 in: no posture at any spin; the wrist misses by 0.4 in",
		remedy:  "the longest stretch in one go is 0.0 to 28.3 in", source: "730, 970, 9.53 and 720 mm"},
	{name: "wrist wound up", where: "W1 pass 1 at 6.3 in", measured: "-193", limit: "-189.08", unit: "deg",
		message: "W1 at 6.3 in of 7.8 in: every way there winds j6 to -192.6 deg, 3.5 deg beyond its limit of -189.1 deg",
		remedy:  "work 40.0 deg with 10.0 deg push, inside the tolerance of 5 deg, would carry through; two starts do it: split: {at: 5.9 in, tie_in: 0.5 in}, so 0.0 to 5.9 in and then 5.4 to 7.8 in; the longest stretch in one go is 0.0 to 6.2 in",
		source:  "159, 198 and 142 mm"},
	{name: "elbow near its limit", where: "W1 pass 1 at 0.0 in", measured: "3.62", limit: "5.00", unit: "deg",
		message: "W1 at 0.0 in: j3 is 3.6 deg from its limit", source: "0 mm"},
	{name: "shoulder too slow", where: "W1 pass 1 at 9.8 in", measured: "1.29", limit: "0.57", unit: "deg/s",
		message: "W1 at 9.8 in: at 19.4 in/min j2 would have to turn at 1.29 deg/s, it can do 0.573; it follows up to 8.7 in/min there",
		source:  "250 mm, 8.2253 mm/s; 0.573 / 1.283 of it are 3.673 mm/s"},
	{name: "a place of the cart that serves", where: "job", measured: "9.84", limit: "0", unit: "in",
		message: "every seam of this job can be run if the arm's foot is moved 9.8 in towards the base frame's +x",
		remedy:  "move the cart so, touch the points again and plan again", source: "250 mm"},
}

// TestFaultsInInches: a job whose points were read in inches is told its faults
// in inches.
func TestFaultsInInches(t *testing.T) {
	metric := faults()
	for _, row := range inchFaults {
		t.Run(row.name, func(t *testing.T) {
			i := slices.IndexFunc(metric, func(m fault) bool { return m.name == row.name })
			if i < 0 {
				t.Fatal("no such row in the metric table")
			}
			row.code, row.severity = metric[i].code, metric[i].severity
			f := good(t)
			for _, e := range metric[i].edits {
				f.edit(t, e[0], e[1])
			}
			inInches(f)
			found := planOf(t, f).Findings
			row.check(t, found)
			noMetric(t, found)
		})
	}
}

// noMetric holds that no finding of an inch job is in a metric unit: none of
// its places, numbers, messages and remedies. Findings that are about the slip
// of one unit for another say both.
func noMetric(t *testing.T, found []finding.Finding) {
	t.Helper()
	both := []finding.Code{finding.UnitsSuspect, finding.WeldSpeedOutOfSense, finding.GasFlowSuspect}
	metric := []string{"mm", "mm2", "mm/s", "m/min", "cm/min", "kJ/mm", "L/min"}
	for _, f := range found {
		if slices.Contains(metric, f.Unit) {
			t.Errorf("%s has its numbers in %s", f.Code, f.Unit)
		}
		if slices.Contains(both, f.Code) {
			continue
		}
		for _, word := range strings.Fields(f.Where.String() + " " + f.Message + " " + f.Remedy) {
			if slices.Contains(metric, strings.Trim(word, "(),;:")) {
				t.Errorf("%s speaks metric: %s; %s", f.Code, f.Message, f.Remedy)
			}
		}
	}
}

// exampleFolder opens the files of an example job.
type exampleFolder string

func (f exampleFolder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join("..", "..", "examples", string(f), filepath.FromSlash(name)))
}

// TestSluiceLugSpeaksInches: the example in inches says every finding in inches, also
// those that a seam welded far too fast brings.
func TestSluiceLugSpeaksInches(t *testing.T) {
	j, err := job.Decode("job.yaml", exampleFolder("sluice-lug"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	noMetric(t, p.Findings)
	if f := withCode(p, finding.PointOffSeam); len(f) == 0 || f[0].Unit != "in" {
		t.Errorf("no tip off its seam in inches:\n%s", list(p.Findings))
	}
	j.Seams[0].Speed = 30 * unit.InPerMin // of 15.7 in/min that the drawing's leg asks for
	if p, err = plan.Make(context.Background(), j, nil); err != nil {
		t.Fatal(err)
	}
	noMetric(t, p.Findings)
	for code, want := range map[finding.Code]string{finding.FilletUndersize: "in", finding.TravelAbove: "in/min", finding.HeatBelow: "kJ/in"} {
		if got := only(t, p, code).Unit; got != want {
			t.Errorf("%s has its numbers in %q, want %q", code, got, want)
		}
	}
}

// TestStepsInInches: the labels of the steps follow the job too.
func TestStepsInInches(t *testing.T) {
	f := good(t)
	for _, e := range tube() {
		f.edit(t, e[0], e[1])
	}
	inInches(f)
	var labels []string
	for _, s := range planOf(t, f).Steps {
		labels = append(labels, s.Label)
	}
	for _, label := range labels {
		if strings.Contains(label, "mm") {
			t.Errorf("a step is called %q", label)
		}
	}
	if !slices.ContainsFunc(labels, func(l string) bool { return strings.HasSuffix(l, " in") }) {
		t.Errorf("no step says its place in inches: %q", labels)
	}
}

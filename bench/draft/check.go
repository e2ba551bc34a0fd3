package draft

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"seamwright/bench/job"
)

// trial is the smallest document that can be read; one field of it is replaced
// by what a person typed, so that the document's own reader judges that field.
type trial struct{ section, field string }

// files holds files by name.
type files map[string]string

func (f files) Open(name string) (io.ReadCloser, error) {
	text, ok := f[name]
	if !ok {
		return nil, fmt.Errorf("open %s: no such file", name)
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

// trialArm has one joint that turns.
const trialArm = `<robot name="trial"><link name="base"/><link name="flange"/><joint name="j1" type="revolute"><parent link="base"/>
<child link="flange"/><limit lower="-1" upper="1" effort="1" velocity="1"/></joint></robot>`

// trialFields are the sections of the trial document.
var trialFields = []struct{ section, field, value string }{
	{"", "seamwright", "1"},
	{"", "name", "trial"},
	{"", "code", "iso"},
	{"arm", "urdf", "arm.urdf"}, {"arm", "base_link", "base"}, {"arm", "flange_link", "flange"}, {"arm", "joint_acceleration", ""},
	{"torch", "flange_from_tip", "{at: [0 mm, 0 mm, 300 mm], orientation: fixed x-y-z degrees, turn: [0, 30, 0]}"},
	{"torch", "body", ""}, {"torch", "neck", ""}, {"torch", "neck_angle", ""},
	{"torch", "nozzle", "20 mm"}, {"torch", "tip_recess", "2 mm"}, {"torch", "stick_out", "13 mm"},
	{"cell", "world_from_base", ""}, {"cell", "world_from_part", ""},
	{"points", "measured_in", "base"}, {"points", "point", "tip"}, {"points", "length", "mm"}, {"points", "orientation", "fixed x-y-z degrees"},
	{"points", "rows", "[{label: a, pose: [1, 2, 3, 4, 5, 6]}, {label: b, pose: [9, 8, 7, 6, 5, 4]}, {label: c, pose: [1, 8, 7, 6, 5, 4]}]"},
	{"", "home", "a"},
	{"settings", "file", ""}, {"settings", "sets", "[{id: s, process: 135, transfer: spray, wire: 1.0 mm, feed: 9 m/min}]"},
	{"procedure", "file", ""},
	{"seams", "name", "W1"}, {"seams", "joint", "tee"}, {"seams", "line", "[a, b]"}, {"seams", "circle", ""}, {"seams", "overlap", ""}, {"seams", "base", "level"},
	{"seams", "upright", "left"}, {"seams", "weld", "{leg: 5 mm}"}, {"seams", "settings", "s"}, {"seams", "torch", "{travel: 0 deg}"},
}

// with returns the trial document with values in place of its own, by section
// and field; an empty value leaves the field out.
func (t trial) with(values map[trial]string) string {
	var b strings.Builder
	section := ""
	for _, f := range trialFields {
		value := f.value
		if own, given := values[trial{f.section, f.field}]; given {
			value = own
		}
		if value == "" {
			continue
		}
		lead := ""
		switch {
		case f.section == "":
		case f.section != section && f.section == "seams":
			fmt.Fprintf(&b, "seams:\n")
			lead = "  - "
		case f.section != section:
			fmt.Fprintf(&b, "%s:\n", f.section)
			lead = "  "
		case f.section == "seams":
			lead = "    "
		default:
			lead = "  "
		}
		section = f.section
		fmt.Fprintf(&b, "%s%s: %s\n", lead, f.field, value)
	}
	return b.String()
}

// judge returns what the document's reader says against a value of the field,
// written as YAML; others are what else has to change for it.
func (t trial) judge(value string, others map[trial]string) error {
	values := map[trial]string{t: value}
	for k, v := range others {
		values[k] = v
	}
	_, err := job.Decode("job.yaml", files{"job.yaml": t.with(values), "arm.urdf": trialArm})
	var ps *job.Problems
	if !errors.As(err, &ps) {
		return err
	}
	p := ps.List[0]
	return fmt.Errorf("found %s; allowed: %s; %s", p.Found, p.Allowed, p.Mend)
}

// quantity is the check of a value that is one word or one quantity.
func (t trial) quantity(others map[trial]string) func(string) (string, error) {
	return func(text string) (string, error) { return text, t.judge(quoted(text), others) }
}

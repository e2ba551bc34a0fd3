package prove_test

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// change is a change of a text of a job's file.
type change struct{ example, file, old, new string }

// overlay is an example's job with one file changed.
type overlay struct {
	change
	text string
}

func (c change) files() (overlay, error) {
	data, err := os.ReadFile(filepath.Join("../../examples", c.example, c.file))
	if err == nil && strings.Count(string(data), c.old) == 0 {
		panic("no " + c.old + " in " + c.file)
	}
	return overlay{c, strings.Replace(string(data), c.old, c.new, 1)}, err
}

func (o overlay) Open(name string) (io.ReadCloser, error) {
	if name == o.file {
		return io.NopCloser(strings.NewReader(o.text)), nil
	}
	return os.Open(filepath.Join("../../examples", o.example, filepath.FromSlash(name)))
}

// another makes the plan of a changed job, to be passed off as that of the job as it
// stands, with every sum made again.
func another(c change) kind {
	return kind{"another job's plan: " + c.new + " for " + c.old, []string{c.example}, 1, func(f *folder) string {
		files, err := c.files()
		if err != nil {
			f.t.Fatal(err)
		}
		p, err := planFiles(files)
		if err != nil {
			f.t.Fatal(err)
		}
		f.take(p)
		f.hush()
		return c.file
	}}
}

// changed proves the plan against a job of which one file was changed since, with every
// sum made again.
func changed(c change) kind {
	return kind{"job changed since: " + c.new + " for " + c.old, []string{c.example}, 1, func(f *folder) string {
		o, err := c.files()
		if err != nil {
			f.t.Fatal(err)
		}
		f.job[c.file] = o.text
		return c.file
	}}
}

// hushed plans a changed job that findings stop, takes the findings away that stop it
// and says that it is fit.
func hushed(c change) kind {
	return kind{"stop taken away: " + c.new + " for " + c.old, []string{c.example}, 1, func(f *folder) string {
		o, err := c.files()
		if err != nil {
			f.t.Fatal(err)
		}
		p, err := planFiles(o)
		if err != nil {
			f.t.Fatal(err)
		}
		f.take(p)
		if f.hush() == 0 {
			f.t.Errorf("%s: nothing stops it", c.new)
		}
		f.job[c.file] = o.text
		return c.file
	}}
}

// take makes the folder that of another plan.
func (f *folder) take(p *planned) {
	name, t, rng, jobs := f.name, f.t, f.rng, f.job
	*f = folder{planned: p, t: t, rng: rng, name: name, job: jobs, raw: map[string]string{}}
	f.apart()
}

// hush takes the findings that stop the plan out of both files and returns how many.
func (f *folder) hush() (taken int) {
	keep := func(l []any) (out []any) {
		for _, x := range l {
			if x.(object)["severity"] == "stop" {
				taken++
				continue
			}
			out = append(out, x)
		}
		return out
	}
	f.findings = keep(f.findings)
	f.doc["findings"] = keep(list(f.doc, "findings"))
	f.doc["fit"] = true
	return taken
}

// anotherOf are changes after which the same arm would weld another thing, or weld it
// otherwise.
func anotherOf() []change {
	const lug, keel = "sluice-lug", "keel-cradle"
	return []change{
		{lug, "job.yaml", "weld: {leg: 1/4 in}", "weld: {leg: 7/32 in}"},
		{lug, "job.yaml", "travel: push 10 deg", "travel: push 12 deg"},
		{lug, "job.yaml", "torch: {work: 40 deg}", "torch: {work: 42 deg}"},
		{lug, "job.yaml", "joint_speed: 20 percent", "joint_speed: 30 percent"},
		{lug, "job.yaml", "tip_speed: 9 in/s", "tip_speed: 12 in/s"},
		{lug, "job.yaml", "joint_acceleration: 250 deg/s2", "joint_acceleration: 500 deg/s2"},
		{lug, "job.yaml", "stick_out: 9/16 in", "stick_out: 5/8 in"},
		{lug, "job.yaml", "12.9 in", "12.91 in"},
		{lug, "job.yaml", "at: [0 in, 0 in, 30 in]", "at: [0 in, 0 in, 31 in]"},
		{lug, "job.yaml", "speed: 15.5 in/min", "speed: 15.6 in/min"},
		{lug, "job.yaml", "joint: lap", "joint: tee"},
		{lug, "settings.yaml", "feed: 350 in/min", "feed: 360 in/min"},
		{lug, "settings.yaml", "volts: 27.0 V", "volts: 28.0 V"},
		{lug, "settings.yaml", "efficiency: 97 percent", "efficiency: 99 percent"},
		{lug, "taught.csv", "-12.0,28.6", "-12.5,28.6"},
		{keel, "job.yaml", "body: 215 mm", "body: 215.1 mm"},
		{keel, "job.yaml", "neck_angle: 35 deg", "neck_angle: 35.1 deg"},
		{keel, "job.yaml", "upright: left", "upright: {left: 89 deg}"},
		{keel, "job.yaml", "weld: {leg: 6 mm}", "weld: {leg: 5.5 mm}"},
		{keel, "job.yaml", "radius: 44.45 mm", "radius: 44.4 mm"},
		{keel, "taught.csv", "W1 root 1,1006.6", "W1 root 1,1006.9"},
	}
}

// changedOf are changes of a job's files that make its plan wrong.
func changedOf() []change {
	return []change{
		{"sluice-lug", "taught.csv", "-12.0,28.6", "-12.01,28.6"},
		{"sluice-lug", "settings.yaml", "feed: 350 in/min", "feed: 340 in/min"},
		{"sluice-lug", "settings.yaml", "amps: 285 A", "amps: 320 A"},
		{"sluice-lug", "procedure.yaml", "current: {from: 257 A", "current: {from: 290 A"},
		{"sluice-lug", "procedure.yaml", "positions: [1F, 2F]", "positions: [1F]"},
		{"sluice-lug", "job.yaml", "joint_speed: 20 percent", "joint_speed: 19 percent"},
		{"sluice-lug", "job.yaml", "spin: as taught}", "spin: as taught}\n  gap: 3/16 in"},
		{"keel-cradle", "job.yaml", "weld: {leg: 5 mm}", "weld: {leg: 5.5 mm}"},
		{"keel-cradle", "job.yaml", "joint_acceleration: 300 deg/s2", "joint_acceleration: 200 deg/s2"},
		{"dock-beam", "job.yaml", "preheat: 80 degC", "preheat: 60 degC"},
		{"dock-beam", "job.yaml", "cooling: {from: 2 s, to: 40 s}", "cooling: {from: 5 s, to: 40 s}"},
		{"dock-beam", "job.yaml", "interpass_max: 250 degC", "interpass_max: 200 degC"},
	}
}

// hushedOf are changes that bring findings which stop the plan.
func hushedOf() []change {
	return []change{
		{"sluice-lug", "job.yaml", "speed: 15.5 in/min", "speed: 19 in/min"},
		{"sluice-lug", "settings.yaml", "amps: 285 A", "amps: 320 A"},
		{"sluice-lug", "settings.yaml", "volts: 27.0 V", "volts: 31.0 V"},
		{"sluice-lug", "procedure.yaml", "travel: {from: 12 in/min, to: 20 in/min}", "travel: {from: 18 in/min, to: 20 in/min}"},
		{"sluice-lug", "procedure.yaml", "heat_input: {from: 20 kJ/in, to: 40 kJ/in}", "heat_input: {from: 20 kJ/in, to: 25 kJ/in}"},
		{"sluice-lug", "procedure.yaml", "joints: [tee, lap]", "joints: [tee]"},
		{"sluice-lug", "procedure.yaml", "positions: [1F, 2F]", "positions: [1F]"},
		{"sluice-lug", "job.yaml", "gap: 1/32 in", "gap: 3/8 in"},
		{"dock-beam", "job.yaml", "preheat: 80 degC", "preheat: 40 degC"},
		{"dock-beam", "job.yaml", "cooling: {from: 2 s, to: 40 s}", "cooling: {from: 8 s, to: 40 s}"},
	}
}

// fileKinds are changes of the job behind a plan, and of its files byte by byte.
func fileKinds() (kinds []kind) {
	for _, c := range anotherOf() {
		kinds = append(kinds, another(c))
	}
	for _, c := range changedOf() {
		kinds = append(kinds, changed(c))
	}
	for _, c := range hushedOf() {
		kinds = append(kinds, hushed(c))
	}
	urdf := func(name, old, new string, on ...string) kind {
		return kind{"URDF: " + name, on, 1, func(f *folder) string {
			file := f.planned.job.Arm.URDF
			data, err := os.ReadFile(filepath.Join("../../examples", f.name, filepath.FromSlash(file)))
			if err != nil || !strings.Contains(string(data), old) {
				f.t.Fatalf("%s: no %s in it, %v", file, old, err)
			}
			f.job[file] = strings.Replace(string(data), old, new, 1)
			return file
		}}
	}
	kinds = append(kinds,
		urdf("a joint 1 mm elsewhere", `<origin xyz="0 0 0.2" rpy="0 0 0"/>`, `<origin xyz="0 0 0.201" rpy="0 0 0"/>`, "keel-cradle"),
		urdf("a joint half as fast", `velocity="3.1" effort="420"`, `velocity="0.3" effort="420"`, "keel-cradle"),
		urdf("a joint with a narrower limit", `<limit lower="-2.96706" upper="2.96706"`, `<limit lower="-0.1" upper="0.1"`, "keel-cradle"),
	)
	return append(kinds, kind{"one byte of a file, sums as they were", nil, 6, func(f *folder) string {
		names := []string{"plan.json", "steps.csv", "trace.csv", "findings.json"}
		for name := range f.files {
			if strings.HasSuffix(name, ".svg") || strings.HasSuffix(name, ".html") {
				names = append(names, name)
			}
		}
		slices.Sort(names)
		name := names[f.rng.IntN(len(names))]
		text := []byte(f.files[name])
		i := f.rng.IntN(len(text))
		text[i] ^= 1 << f.rng.IntN(7)
		f.raw[name] = string(text)
		return name
	}})
}

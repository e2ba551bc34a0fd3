package prove_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// kinds are the ways of tampering. Changes are of sizes that matter: no change under
// 1 um or 1e-6 rad is a fault.
func kinds() []kind {
	return slices.Concat(traceKinds(), stepKinds(), planKinds(), fileKinds())
}

// anyJoint is a joint's column.
func (f *folder) anyJoint() string {
	return fmt.Sprintf("j%d_deg", 1+f.rng.IntN(f.plan.Cell.Chain.N()))
}

func traceKinds() []kind {
	return []kind{
		{"trace: one joint value by 0.001 deg", nil, 5, func(f *folder) string {
			return f.add(f.rows(func([]string) bool { return true }), f.anyJoint(), 0.001*f.sign())
		}},
		{"trace: one joint value by 0.02 deg, pose made again, on a weld", nil, 4, func(f *folder) string {
			i := f.rows(f.welding)
			what := f.add(i, fmt.Sprintf("j%d_deg", 1+f.rng.IntN(3)), 0.02*f.sign())
			q := f.jointsOf(i)
			f.setPose(i, &q)
			return what
		}},
		{"trace: one joint value by 0.02 deg, pose made again, in the air", nil, 4, func(f *folder) string {
			i := f.rows(f.moving)
			what := f.add(i, f.anyJoint(), 0.02*f.sign())
			q := f.jointsOf(i)
			f.setPose(i, &q)
			return what
		}},
		{"trace: one place by 2 um", nil, 4, func(f *folder) string {
			return f.add(f.rows(func([]string) bool { return true }), []string{"x_mm", "y_mm", "z_mm"}[f.rng.IntN(3)], 0.002*f.sign())
		}},
		{"trace: one quaternion by 5e-6", nil, 4, func(f *folder) string {
			i := f.rows(func([]string) bool { return true })
			return f.add(i, smallest(f, i), 5e-6*f.sign())
		}},
		{"trace: one time by 5 ms", nil, 4, func(f *folder) string {
			return f.add(f.rows(f.moving), "t_s", 0.005*f.sign())
		}},
		{"trace: one time on a weld by 5 ms", nil, 4, func(f *folder) string {
			return f.add(f.rows(f.welding), "t_s", 0.005*f.sign())
		}},
		{"trace: one place along by 0.1 mm", nil, 3, func(f *folder) string {
			return f.add(f.rows(f.welding), "s_mm", 0.1*f.sign())
		}},
		{"trace: one weld speed by a tenth", nil, 3, func(f *folder) string {
			return f.add(f.rows(f.welding), "speed_mm_s", 0.8*f.sign())
		}},
		{"trace: one air speed by 40 mm/s", nil, 3, func(f *folder) string {
			return f.add(f.rows(f.moving), "speed_mm_s", 40)
		}},
		{"trace: one arc flag", nil, 3, func(f *folder) string {
			i := f.rows(func(row []string) bool { return f.welding(row) || f.moving(row) })
			at := f.column(f.trace, "arc")
			f.trace[i][at] = map[string]string{"0": "1", "1": "0"}[f.trace[i][at]]
			return fmt.Sprintf("row %d", i+2)
		}},
		{"trace: the seam of one sample", nil, 2, func(f *folder) string {
			i := f.rows(f.welding)
			f.trace[i][f.column(f.trace, "seam")] = "W99"
			return fmt.Sprintf("row %d", i+2)
		}},
		{"trace: one sample dropped on a weld", nil, 3, func(f *folder) string {
			i := f.rows(f.welding)
			f.trace = append(f.trace[:i:i], f.trace[i+1:]...)
			return fmt.Sprintf("row %d", i+2)
		}},
		{"trace: one sample dropped in the air", nil, 3, func(f *folder) string {
			i := f.rows(f.moving)
			f.trace = append(f.trace[:i:i], f.trace[i+1:]...)
			return fmt.Sprintf("row %d", i+2)
		}},
		{"trace: two samples swapped", nil, 2, func(f *folder) string {
			i := f.rows(f.moving)
			f.trace[i], f.trace[i+1] = f.trace[i+1], f.trace[i]
			return fmt.Sprintf("row %d", i+2)
		}},
		{"trace: cut off at its end", nil, 1, func(f *folder) string {
			f.trace = f.trace[:len(f.trace)-1-f.rng.IntN(20)]
			return "the end"
		}},
		{"trace: everything twice as fast", nil, 1, func(f *folder) string {
			at := f.column(f.trace, "t_s")
			for i := range f.trace[1:] {
				row := append([]string(nil), f.trace[i+1]...)
				t, _ := strconv.ParseFloat(row[at], 64)
				row[at] = strconv.FormatFloat(t/2, 'f', 6, 64)
				f.trace[i+1] = row
			}
			return "times halved"
		}},
	}
}

// smallest is the column of the quaternion's number nearest to 0: changed, the
// quaternion keeps its length.
func smallest(f *folder, i int) string {
	best, least := "", 2.0
	for _, c := range []string{"qw", "qx", "qy", "qz"} {
		x, _ := strconv.ParseFloat(f.trace[i][f.column(f.trace, c)], 64)
		if x*x < least {
			best, least = c, x*x
		}
	}
	return best
}

// step picks a step that a test likes, in plan.json and in steps.csv.
func (f *folder) step(like func(step object) bool) (int, object) {
	steps := f.planSteps()
	for range 10000 {
		i := f.rng.IntN(len(steps))
		if s := steps[i].(object); like(s) {
			return i, s
		}
	}
	f.t.Fatal("no such step")
	return 0, nil
}

// cell writes a cell of steps.csv.
func (f *folder) cell(i int, column, text string) { f.steps[i+1][f.column(f.steps, column)] = text }

// setStep writes the joints of a step, and its pose by them where it is asked for.
func (f *folder) setStep(i int, s object, joint int, by float64, pose bool) string {
	q := f.plan.Steps[i].Q
	q[joint] += by
	s["q_rad"].([]any)[joint] = q[joint]
	f.cell(i, fmt.Sprintf("j%d_deg", joint+1), strconv.FormatFloat(q[joint]*180/3.141592653589793, 'f', 7, 64))
	if pose {
		p := f.plan.Cell.BaseFromTip(&q)
		s["base_from_tip"] = poseOf(p)
		quat := p.R.Quat()
		for k, x := range map[string]float64{"x_mm": p.P.X * 1e3, "y_mm": p.P.Y * 1e3, "z_mm": p.P.Z * 1e3} {
			f.cell(i, k, strconv.FormatFloat(x, 'f', 5, 64))
		}
		for k, x := range map[string]float64{"qw": quat.W, "qx": quat.X, "qy": quat.Y, "qz": quat.Z} {
			f.cell(i, k, strconv.FormatFloat(x, 'f', 9, 64))
		}
	}
	return fmt.Sprintf("step %d, joint %d by %g rad", i+1, joint+1, by)
}

func always(object) bool { return true }

func has(key string, value any) func(object) bool {
	return func(s object) bool { return s[key] == value }
}

func stepKinds() []kind {
	return []kind{
		{"steps: one joint value by 2e-5 rad", nil, 4, func(f *folder) string {
			i, s := f.step(always)
			return f.setStep(i, s, f.rng.IntN(6), 2e-5*f.sign(), false)
		}},
		{"steps: one joint value by 0.002 rad, pose made again", nil, 4, func(f *folder) string {
			i, s := f.step(always)
			return f.setStep(i, s, f.rng.IntN(6), 0.002*f.sign(), true)
		}},
		{"steps: one place by 5 um, in both files", nil, 3, func(f *folder) string {
			i, s := f.step(always)
			xyz := s["base_from_tip"].(object)["xyz_m"].([]any)
			x := numberOf(xyz[0]) + 5e-6
			xyz[0] = x
			f.cell(i, "x_mm", strconv.FormatFloat(x*1e3, 'f', 5, 64))
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps.csv alone: one number", nil, 4, func(f *folder) string {
			i, _ := f.step(always)
			column := f.anyJoint()
			old, _ := strconv.ParseFloat(f.steps[i+1][f.column(f.steps, column)], 64)
			f.cell(i, column, strconv.FormatFloat(old+0.5, 'f', 7, 64))
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps.csv alone: a row taken away", nil, 1, func(f *folder) string {
			f.steps = f.steps[:len(f.steps)-2]
			return "the last rows"
		}},
		{"steps: one taken away", nil, 4, func(f *folder) string {
			i, s := f.step(func(s object) bool { return s["label"] != "" })
			if i == 0 {
				i, s = len(f.planSteps())-1, f.planSteps()[len(f.planSteps())-1].(object)
			}
			f.doc["steps"] = append(f.planSteps()[:i:i], f.planSteps()[i+1:]...)
			f.steps = append(f.steps[:i+1:i+1], f.steps[i+2:]...)
			f.renumber()
			return fmt.Sprintf("step %d %v", i+1, s["label"])
		}},
		{"steps: two swapped", nil, 3, func(f *folder) string {
			i := 1 + f.rng.IntN(len(f.planSteps())-3)
			steps := f.planSteps()
			steps[i], steps[i+1] = steps[i+1], steps[i]
			f.steps[i+1], f.steps[i+2] = f.steps[i+2], f.steps[i+1]
			f.renumber()
			return fmt.Sprintf("steps %d and %d", i+1, i+2)
		}},
		{"steps: arc on left out", nil, 2, func(f *folder) string {
			i, s := f.step(has("arc", "on"))
			delete(s, "arc")
			f.cell(i, "arc", "")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: arc off left out", nil, 2, func(f *folder) string {
			i, s := f.step(has("arc", "off"))
			delete(s, "arc")
			f.cell(i, "arc", "")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: arc on in a joint move", nil, 2, func(f *folder) string {
			i, s := f.step(has("move", "joint"))
			s["arc"] = "on"
			f.cell(i, "arc", "on")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: another settings set at arc on", nil, 2, func(f *folder) string {
			i, s := f.step(has("arc", "on"))
			s["settings"] = "99"
			f.cell(i, "settings", "99")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: a linear move made a joint move", nil, 2, func(f *folder) string {
			i, s := f.step(has("move", "linear"))
			s["move"] = "joint"
			f.cell(i, "move", "joint")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: a joint move made a linear move", nil, 2, func(f *folder) string {
			i, s := f.step(func(s object) bool { return s["move"] == "joint" && s["step"] != "1" })
			s["move"], s["speed_mm_s"] = "linear", 50.0
			delete(s, "joint_speed_pct")
			f.cell(i, "move", "linear")
			f.cell(i, "speed_mm_s", "50.0000")
			f.cell(i, "joint_speed_pct", "")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: a weld speed by a tenth", nil, 2, func(f *folder) string {
			i, s := f.step(has("arc", "off"))
			v := numberOf(s["speed_mm_s"]) * 1.1
			s["speed_mm_s"] = v
			f.cell(i, "speed_mm_s", strconv.FormatFloat(v, 'f', 4, 64))
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: a weld speed halved", nil, 2, func(f *folder) string {
			i, s := f.step(has("arc", "off"))
			v := numberOf(s["speed_mm_s"]) / 2
			s["speed_mm_s"] = v
			f.cell(i, "speed_mm_s", strconv.FormatFloat(v, 'f', 4, 64))
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: an air speed over the site's", nil, 2, func(f *folder) string {
			i, s := f.step(has("arc", "on"))
			v := numberOf(s["speed_mm_s"]) * 1.5
			s["speed_mm_s"] = v
			f.cell(i, "speed_mm_s", strconv.FormatFloat(v, 'f', 4, 64))
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: a joint move at 100 percent", nil, 2, func(f *folder) string {
			i, s := f.step(has("move", "joint"))
			s["joint_speed_pct"] = 100.0
			f.cell(i, "joint_speed_pct", "100.0")
			return fmt.Sprintf("step %d", i+1)
		}},
		{"steps: a wait taken away with its time", []string{"dock-beam"}, 2, func(f *folder) string {
			i, s := f.step(func(s object) bool { return s["stands_s"] != nil && numberOf(s["stands_s"]) > 5 })
			wait := numberOf(s["stands_s"])
			delete(s, "stands_s")
			f.unwait(i, wait)
			return fmt.Sprintf("step %d, %g s", i+1, wait)
		}},
		{"steps: a wait halved in the steps alone", []string{"dock-beam"}, 2, func(f *folder) string {
			_, s := f.step(func(s object) bool { return s["stands_s"] != nil && numberOf(s["stands_s"]) > 5 })
			s["stands_s"] = numberOf(s["stands_s"]) * 2
			return fmt.Sprint(s["label"])
		}},
	}
}

// renumber numbers the steps again.
func (f *folder) renumber() {
	for i, s := range f.planSteps() {
		s.(object)["step"] = i + 1
		f.cell(i, "step", strconv.Itoa(i+1))
	}
}

// unwait takes the samples of a stand of so many seconds at step i out of the trace and
// moves the rest forward.
func (f *folder) unwait(i int, wait float64) {
	q := f.plan.Steps[i].Q
	at := f.column(f.trace, "t_s")
	out := [][]string{f.trace[0]}
	taken := 0.0
	stood := -1.0
	for k := 1; k < len(f.trace); k++ {
		row := append([]string(nil), f.trace[k]...)
		t, _ := strconv.ParseFloat(row[at], 64)
		now := f.jointsOf(k)
		same := true
		for j := range 6 {
			same = same && now[j]-q[j] < 1e-8 && q[j]-now[j] < 1e-8
		}
		if same && strings.TrimSpace(row[f.column(f.trace, "arc")]) == "0" && taken == 0 {
			if stood < 0 {
				stood = t
			} else if t-stood < wait-1e-3 {
				continue
			} else {
				taken = t - stood
				continue
			}
		}
		row[at] = strconv.FormatFloat(t-taken, 'f', 6, 64)
		out = append(out, row)
	}
	f.trace = out
}

func planKinds() []kind {
	return []kind{
		{"plan: one station's joint by 2e-5 rad", nil, 2, func(f *folder) string {
			s := f.station()
			q := s["q_rad"].([]any)
			q[2] = numberOf(q[2]) + 2e-5
			return "joint 3"
		}},
		{"plan: one station's place by 5 um", nil, 2, func(f *folder) string {
			s := f.station()
			xyz := s["base_from_tip"].(object)["xyz_m"].([]any)
			xyz[1] = numberOf(xyz[1]) + 5e-6
			return "y"
		}},
		{"plan: the tool point by 10 um", nil, 1, func(f *folder) string {
			xyz := list(f.doc, "flange_from_tip", "xyz_m")
			xyz[0] = numberOf(xyz[0]) + 1e-5
			return "x"
		}},
		{"plan: the base in the world by 10 um", nil, 1, func(f *folder) string {
			xyz := list(f.doc, "world_from_base", "xyz_m")
			xyz[2] = numberOf(xyz[2]) + 1e-5
			return "z"
		}},
		{"plan: two joints' names swapped", nil, 1, func(f *folder) string {
			j := list(f.doc, "joints")
			j[0], j[1] = j[1], j[0]
			return "1 and 2"
		}},
		{"plan: the travel speed of a pass by 2 %", nil, 2, func(f *folder) string {
			size := f.pass()["size"].(object)
			size["travel_mm_s"] = numberOf(size["travel_mm_s"]) * (1 + 0.02*f.sign())
			return "travel_mm_s"
		}},
		{"plan: the settings set of a pass", nil, 1, func(f *folder) string {
			f.pass()["size"].(object)["settings"] = "99"
			return "settings"
		}},
		{"plan: the heat input of a pass by 1 %", nil, 2, func(f *folder) string {
			size := f.pass()["size"].(object)
			size["heat_input_kj_mm"] = numberOf(size["heat_input_kj_mm"]) * 1.01
			return "heat_input_kj_mm"
		}},
		{"plan: a seam's path moved by 0.1 mm", nil, 2, func(f *folder) string {
			s := f.seams()[f.rng.IntN(len(f.seams()))].(object)
			for _, p := range s["path"].([]any) {
				for _, key := range []string{"from_m", "to_m", "centre_m"} {
					if v := list(p, key); v != nil {
						v[2] = numberOf(v[2]) + 1e-4
					}
				}
				for _, j := range list(p, "joints_along") {
					v := list(j, "root_m")
					v[2] = numberOf(v[2]) + 1e-4
				}
			}
			return fmt.Sprint(s["name"])
		}},
		{"plan: a pass taken away", nil, 1, func(f *folder) string {
			f.seams()[0].(object)["passes"] = []any{}
			return "the first"
		}},
		{"plan: a seam taken away", nil, 1, func(f *folder) string {
			f.doc["seams"] = f.seams()[1:]
			return "the first"
		}},
		{"plan: two seams swapped", nil, 1, func(f *folder) string {
			f.seams()[0], f.seams()[1] = f.seams()[1], f.seams()[0]
			return "the first"
		}},
		{"plan: not fit, where it is", nil, 1, func(f *folder) string {
			f.doc["fit"] = false
			return "fit"
		}},
		{"findings: a caution that owns up to less than is so, in both files", []string{"header-stand", "sluice-lug"}, 1, func(f *folder) string {
			for _, l := range [][]any{f.findings, list(f.doc, "findings")} {
				for _, x := range l {
					if x := x.(object); x["code"] == "clearance-below-minimum" {
						x["measured"] = numberOf(x["limit"]) * 0.99
					}
				}
			}
			return "clearance-below-minimum"
		}},
		{"findings.json alone: one taken away", nil, 2, func(f *folder) string {
			i := f.rng.IntN(len(f.findings))
			f.findings = append(f.findings[:i:i], f.findings[i+1:]...)
			return strconv.Itoa(i + 1)
		}},
		{"findings.json alone: a severity", nil, 1, func(f *folder) string {
			f.findings[0].(object)["severity"] = "stop"
			return "the first"
		}},
	}
}

// pass picks a pass of the plan.
func (f *folder) pass() object {
	s := f.seams()[f.rng.IntN(len(f.seams()))].(object)
	passes := s["passes"].([]any)
	return passes[f.rng.IntN(len(passes))].(object)
}

// station picks a station of a pass.
func (f *folder) station() object {
	list := f.pass()["stations"].([]any)
	return list[f.rng.IntN(len(list))].(object)
}

package prove_test

import (
	"os"
	"strings"
	"testing"

	"seamwright/bench/prove"
)

// Folders that are broken or meant to harm give one clear error.
func TestBrokenFolders(t *testing.T) {
	good := example(t, "sluice-lug").files
	for _, row := range []struct{ name, file, old, new, says string }{
		{"no JSON", "plan.json", "{", "<", "plan.json, line 1: invalid character"},
		{"not a plan", "plan.json", `"seamwright_plan": 1`, `"another": 1`, "does not say seamwright_plan"},
		{"another form", "plan.json", `"seamwright_plan": 1`, `"seamwright_plan": 7`, "a plan of form 7; form 1 is read here"},
		{"a field twice", "plan.json", `"fit": true`, `"fit": true, "fit": true`, `has the field "fit" twice`},
		{"a field twice in capitals", "plan.json", `"fit": true`, `"fit": true, "Fit": true`, `has the field "Fit" twice`},
		{"fit as a word", "plan.json", `"fit": true`, `"fit": "yes"`, "cannot unmarshal string"},
		{"no seal", "plan.json", `"seal"`, `"sealing"`, "has no seal"},
		{"a number that is none", "plan.json", `"step": 1`, `"step": 1e999`, "plan.json"},
		{"no findings", "findings.json", "[", "{", "findings.json"},
		{"a quote that is open", "trace.csv", "t_s", `"t_s`, "a quote that is not closed"},
		{"a row too short", "trace.csv", "0.000000,", "", "cells, the head has"},
		{"an empty table", "steps.csv", good["steps.csv"], "", "steps.csv: an empty file"},
		{"no file", "trace.csv", "", "", "trace.csv"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := prove.Read(func(name string) ([]byte, error) {
				text := good[name]
				if name == row.file {
					if row.old == "" {
						return nil, os.ErrNotExist
					}
					text = strings.Replace(text, row.old, row.new, 1)
				}
				return []byte(text), nil
			})
			if row.name == "no file" {
				if err == nil {
					t.Error("read without it")
				}
				return
			}
			if err == nil || !strings.Contains(err.Error(), row.says) || strings.Count(err.Error(), "\n") > 0 {
				t.Errorf("got %v, want %q", err, row.says)
			}
		})
	}
}

// What can be read and is no plan of the job is refused in words.
func TestPlansThatAreNoneOfTheJob(t *testing.T) {
	lug := example(t, "sluice-lug")
	for _, row := range []struct{ name, file, old, new, says string }{
		{"one joint too many", "plan.json", `"joints": [`, `"joints": ["x",`, "names 7 joints, the job's arm has 6"},
		{"too many joint values", "plan.json", `"q_rad": [`, `"q_rad": [1, `, "values for 6 joints"},
		{"a word for a time", "trace.csv", "0.000000,", "soon,", `"soon" is no number`},
		{"a number without end", "trace.csv", "0.000000,", "inf,", `"inf" is no number`},
		{"an arc that is neither", "trace.csv", ",0,", ",2,", "arc"},
		{"a column that is missing", "trace.csv", "j6_deg", "j7_deg", `no column "j6_deg"`},
		{"a column twice", "trace.csv", "clearance_mm", "j6_deg", `two columns "j6_deg"`},
	} {
		t.Run(row.name, func(t *testing.T) {
			f, err := prove.Read(func(name string) ([]byte, error) {
				text := lug.files[name]
				if name == row.file {
					text = strings.Replace(text, row.old, row.new, 1)
				}
				return []byte(text), nil
			})
			if err != nil {
				t.Fatal(err)
			}
			v, err := f.Prove(lug.job)
			switch {
			case row.says == "":
				if err == nil && v.Fit {
					t.Error("fit")
				}
			case err == nil || !strings.Contains(err.Error(), row.says):
				t.Errorf("got %v, want %q", err, row.says)
			}
		})
	}
}

// FuzzPlan: whatever stands in plan.json gives an error or a verdict, never a panic; and
// nothing but the plan itself is fit.
func FuzzPlan(f *testing.F) {
	lug := example(f, "sluice-lug")
	whole := lug.files["plan.json"]
	f.Add(whole)
	f.Add("{}")
	f.Add(`{"seamwright_plan": 1, "fit": true, "joints": ["a"], "seal": {}}`)
	f.Add(`{"seamwright_plan": 1, "fit": true, "joints": ["a","b","c","d","e","f"], "seal": {"files": [{"file": "../x"}]}, "steps": [{"q_rad": [0,0,0,0,0,0], "base_from_tip": {"xyz_m": [0,0,0], "quat_wxyz": [1,0,0,0]}}]}`)
	for _, cut := range []string{`"steps"`, `"seams"`, `"path"`, `"passes"`, `"seal"`, `"stations"`} {
		f.Add(strings.Replace(whole, cut, `"no"`, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		folder, err := prove.Read(func(name string) ([]byte, error) {
			if name == "plan.json" {
				return []byte(text), nil
			}
			if text, ok := lug.files[name]; ok {
				return []byte(text), nil
			}
			return nil, os.ErrNotExist
		})
		if err != nil {
			return
		}
		v, err := folder.ProveAmong(lug.job, lug.plan.Scene)
		if err == nil && v.Fit && text != whole {
			t.Error("a changed plan is fit")
		}
	})
}

// FuzzTrace: whatever stands in trace.csv gives an error or a verdict, never a panic.
func FuzzTrace(f *testing.F) {
	lug := example(f, "sluice-lug")
	whole := lug.files["trace.csv"]
	head, _, _ := strings.Cut(whole, "\n")
	f.Add(head + "\n")
	f.Add(head)
	f.Add(whole[:len(head)+300])
	f.Add("")
	f.Add("\"\n")
	f.Add(strings.Replace(whole[:2000], "W1", "\"W1\"\"\"", 1))
	f.Fuzz(func(t *testing.T, text string) {
		folder, err := prove.Read(func(name string) ([]byte, error) {
			if name == "trace.csv" {
				return []byte(text), nil
			}
			return []byte(lug.files[name]), nil
		})
		if err != nil {
			return
		}
		if v, err := folder.ProveAmong(lug.job, lug.plan.Scene); err == nil && v.Fit && text != whole {
			t.Error("a changed trace is fit")
		}
	})
}

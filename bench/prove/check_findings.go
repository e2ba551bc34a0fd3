package prove

import (
	"reflect"
	"strings"
)

// proofFails is the finding by which a plan says that its own proof did not hold.
const proofFails = "proof-fails"

// stopped lists, by constraint, the findings that say that it is broken. Where a
// constraint is broken, one of them must stop the plan at that seam.
func stopped() map[string][]string {
	reach := []string{"joint-limit", "arm-cannot-reach", "no-continuous-posture", "home-unreachable"}
	slow := []string{"joint-speed-at-weld-speed"}
	size := []string{"leg-below-drawing", "gap-too-large"}
	return map[string][]string{
		"joint limits":                                    reach,
		"joint speed over its limit":                      slow,
		"joint acceleration over its limit":               slow,
		"travel speed under the planned, inside a weld":   slow,
		"time lost where a weld begins or ends":           slow,
		"steps, stations and trace are one run":           {"home-unreachable", "run-incomplete"},
		"begins and ends at home: joints":                 {"home-unreachable"},
		"seams and passes of the job, in its order":       {"run-incomplete", "home-unreachable"},
		"leg by wire feed and travel against the drawing": size,
		"area of weld metal against the drawing":          size,
		"settings, speed and energy inside the procedure": procedureCodes(),
		"cooling time, quickest":                          {"cooling-time-outside"},
		"cooling time, slowest":                           {"cooling-time-outside"},
		"temperature of the part before welding":          {"preheat-below-required"},
		"clear of everything: welding":                    clearCodes(),
		"clear of everything: approach and retreat":       clearCodes(),
		"clear of everything: air moves":                  clearCodes(),
	}
}

// procedureCodes are the findings of a pass outside its procedure.
func procedureCodes() []string {
	return []string{
		"current-outside-procedure", "voltage-outside-procedure", "wire-feed-outside-procedure", "travel-speed-above-procedure",
		"travel-speed-below-procedure", "heat-input-above-procedure", "heat-input-below-procedure", "arc-energy-outside-procedure",
		"thickness-outside-procedure", "tip-distance-outside-procedure", "position-not-in-procedure", "not-in-procedure", "pass-not-in-procedure",
	}
}

// clearCodes are the findings of bodies that come too near.
func clearCodes() []string {
	return []string{"clearance-below-minimum", "collision", "home-in-collision", "no-clear-air-move"}
}

// findings checks that findings.json and plan.json have the same findings, and that
// every constraint that is broken has one that stops the plan.
func (p *proof) findings(v *Verdict) {
	m := atMost("findings.json and plan.json say the same", "", 1)
	told := atMost("what is broken has its finding", "", 1)
	a, b := p.folder.findings, p.plan.Findings
	if len(a) != len(b) {
		m.fail(place{}, "findings.json has %d findings, plan.json %d", len(a), len(b))
	}
	for i := range min(len(a), len(b)) {
		if !reflect.DeepEqual(a[i], b[i]) {
			m.fail(place{what: a[i].Where}, "finding %d is %q in findings.json, %q in plan.json", i+1, cut(a[i].Message), cut(b[i].Message))
		}
		m.pass()
	}
	m.pass()
	for i := range b {
		switch b[i].Severity {
		case "stop":
			v.Stops = append(v.Stops, b[i].Code)
		case "caution", "note":
		default:
			m.fail(place{what: b[i].Where}, "severity %q: stop, caution or note", cut(b[i].Severity))
		}
	}
	p.excuse()
	codes := stopped()
	for i := range p.rows {
		if r := &p.rows[i]; r.Outcome == Open {
			v.Untold = append(v.Untold, Untold{r.Name, r.Unit, Breach{Where: r.Where, Text: "it could not be checked, and the plan does not say so: " + r.Note}})
		}
		if p.rows[i].Outcome != Broken {
			continue
		}
		for _, breach := range p.rows[i].Breaches {
			if !stops(b, codes[p.rows[i].Name], breach.Seam) && !stops(b, []string{proofFails}, breach.Seam) {
				v.Untold = append(v.Untold, Untold{p.rows[i].Name, p.rows[i].Unit, breach})
				told.fail(place{seam: breach.Seam, what: p.rows[i].Name}, "no finding stops the plan for it")
			}
		}
	}
	told.pass()
	p.add(m, told)
}

func (p *proof) saysAny(codes []string, seam string) bool {
	for _, code := range codes {
		if p.says(code, seam) {
			return true
		}
	}
	return false
}

// stops reports whether a finding of one of some codes stops the plan at a seam.
func stops(list []findingFile, codes []string, seam string) bool {
	for i := range list {
		f := &list[i]
		if f.Severity != "stop" || seam != "" && !at(f.Where, seam) {
			continue
		}
		for _, code := range codes {
			if f.Code == code {
				return true
			}
		}
	}
	return false
}

// fit checks that plan.json says fit exactly where the plan is.
func (p *proof) fit(v *Verdict) {
	m := atMost("plan.json says whether it is fit", "", 1)
	if *p.plan.Fit != v.Fit {
		m.fail(place{what: "fit"}, "plan.json says fit: %t", *p.plan.Fit)
		v.Fit = false
	}
	m.pass()
	v.Rows = append(v.Rows, m.row())
}

// at reports whether a finding's place is at a seam.
func at(where, seam string) bool { return where == seam || strings.HasPrefix(where, seam+" ") }

// says reports whether the plan has a finding of a code, at a seam where one is named.
func (p *proof) says(code, seam string) bool {
	for i := range p.plan.Findings {
		if f := &p.plan.Findings[i]; f.Code == code && (seam == "" || at(f.Where, seam)) {
			return true
		}
	}
	return false
}

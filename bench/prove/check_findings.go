package prove

import (
	"reflect"
	"strings"
)

// stopped lists, by constraint, the findings that say that it is broken. Where a
// constraint is broken, one of them must stop the plan at that seam.
func stopped() map[string][]string {
	arm := []string{"joint-limit", "arm-cannot-reach", "home-unreachable", "no-continuous-posture"}
	return map[string][]string{
		"joint limits":                              arm,
		"joint speed over its limit":                {"joint-speed-at-weld-speed"},
		"joint acceleration over its limit":         {"joint-speed-at-weld-speed"},
		"steps, stations and trace are one run":     {"home-unreachable", "run-incomplete"},
		"begins and ends at home: joints":           {"home-unreachable"},
		"seams and passes of the job, in its order": {"run-incomplete", "home-unreachable"},
	}
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
	codes := stopped()
	for i := range p.rows {
		for _, breach := range p.rows[i].Breaches {
			if !stops(b, codes[p.rows[i].Name], breach.Seam) {
				told.fail(place{seam: breach.Seam, what: p.rows[i].Name}, "no finding stops the plan for it")
			}
		}
	}
	told.pass()
	p.add(m, told)
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

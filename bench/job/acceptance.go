package job

import (
	"errors"
	"strings"

	"seamwright/weld/accept"
)

// Acceptance is what finished welds are accepted by.
type Acceptance struct {
	Standard accept.Standard
	// AcrossTension names the seams of a cyclically loaded job that run across
	// tension in a primary member, AWS D1.1.
	AcrossTension []string
	At            Place
}

// acceptanceDraft is the section "acceptance" while it is read.
type acceptanceDraft struct {
	acceptance Acceptance
	given      bool
	across     []ref
}

// standards are the documents and editions that are held, as they are written.
func standards() (words []string, of map[string]accept.Standard) {
	of = map[string]accept.Standard{}
	for _, code := range []accept.Code{accept.ISO5817, accept.D11} {
		for _, edition := range code.Editions() {
			word := code.String() + ":" + edition
			words, of[word] = append(words, word), accept.Standard{Code: code, Edition: edition}
		}
	}
	return words, of
}

// form is the table of the section "acceptance"; j holds the code of the job.
func (d *acceptanceDraft) form(j *Job) record {
	words, of := standards()
	s := &d.acceptance.Standard
	return record{at: &d.acceptance.At, example: "{standard: ISO 5817:2023, level: C}", fields: []field{
		need("standard", coded(s, words, func(text string) (accept.Standard, bool) {
			std, ok := of[strings.Join(strings.Fields(text), " ")]
			std.Level, std.Execution, std.Load = s.Level, s.Execution, s.Load
			return std, ok
		})),
		may("level", coded(&s.Level, []string{"B", "C", "D"}, func(text string) (accept.Level, bool) {
			for _, l := range []accept.Level{accept.B, accept.C, accept.D} {
				if l.String() == text {
					return l, true
				}
			}
			return 0, false
		})),
		may("execution", coded(&s.Execution, []string{"EXC1", "EXC2", "EXC3", "EXC4"}, func(text string) (accept.Execution, bool) {
			for e := accept.EXC1; e <= accept.EXC4; e++ {
				if e.String() == text {
					return e, true
				}
			}
			return 0, false
		})),
		may("load", parsed(&s.Load, []string{"static", "cyclic"}, func(text string) (accept.Load, bool) {
			if text == "cyclic" {
				return accept.Cyclic, true
			}
			return accept.Static, text == "static"
		})),
		may("across_tension", manyOf(&d.across, 1, maxSeams, "seams", func(r *ref) form { return named(r, "W1") })),
	}, check: func(ps *Problems, n node, clean bool) {
		d.given = true
		if clean {
			d.check(ps, n, j)
		}
	}}
}

// check holds the words against each other and against the code of the job.
func (d *acceptanceDraft) check(ps *Problems, n node, j *Job) {
	s := d.acceptance.Standard
	var wrong *accept.Error
	switch err := s.Validate(); {
	case errors.As(err, &wrong):
		ps.add(n.at, wrong.Name+": "+wrong.Found, wrong.Allowed, wrong.Mend)
	case j.Code != 0 && j.Code != s.Code.Family():
		standard, _ := n.get("standard")
		ps.add(standard.at, accept.MixedCodes+": "+s.Code.String()+" in a job of code "+strings.ToLower(j.Code.String()), "a standard of the job's own code", "write the code of the drawing, or the standard that the contract names for it")
	case s.Code == accept.D11 && !n.has("load"):
		ps.add(n.at.sub("load"), "nothing", "static or cyclic", "add load: static, or cyclic where the drawing says so")
	case s.Code == accept.ISO5817 && n.has("load"):
		load, _ := n.get("load")
		ps.add(load.at, accept.MixedCodes+": a load of AWS D1.1 for ISO 5817", "a level or an execution class", "delete load, or name AWS D1.1")
	case len(d.across) > 0 && s.Load != accept.Cyclic:
		ps.add(d.across[0].at, "seams across tension under a load that is not cyclic", "across_tension with load: cyclic", "delete across_tension, or say load: cyclic")
	}
}

// resolve checks the seams that are named and completes the job.
func (d *acceptanceDraft) resolve(ps *Problems, j *Job) {
	if !d.given {
		return
	}
	var names []string
	for i := range j.Seams {
		names = append(names, j.Seams[i].Names()...)
	}
	seams := newKnown("seam", names, false)
	for _, r := range d.across {
		seams.check(ps, r)
		d.acceptance.AcrossTension = append(d.acceptance.AcrossTension, r.text)
	}
	j.Acceptance = &d.acceptance
}

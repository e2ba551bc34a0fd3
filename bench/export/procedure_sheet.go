package export

import (
	"html/template"
	"io"
	"slices"
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// ProcedureFile is the file of a plan folder with the filled sheet of every
// welding procedure in use.
const ProcedureFile = "procedure.html"

// procedureMark stands in every sheet, so that one is known for ours.
const procedureMark = "<!-- seamwright procedure -->"

// ProcedureCaution stands at the head of every procedure's sheet.
const ProcedureCaution = "Arc rays, fume, heat, the wire tip and a moving arm can injure: shield, extract, let it cool, and follow the maker's manual, " +
	"local rules and the code in the contract. This sheet shows whether planned numbers lie in the ranges of a procedure. It is no " +
	"qualification and no approval: whether the procedure fits the part is for the responsible welding coordinator."

// procedureParts is the sheet, where the plan goes by a procedure.
func procedureParts(j *job.Job, p *plan.Plan) []part {
	if len(usedProcedures(j, p)) == 0 {
		return nil
	}
	return []part{{ProcedureFile, func(w io.Writer) error { return Procedure(w, j, p) }}}
}

// Procedure writes the filled sheet of every procedure that passes of the plan go
// by, as one page that prints by itself: no script, nothing from elsewhere.
func Procedure(w io.Writer, j *job.Job, p *plan.Plan) error {
	page := procedurePage{Mark: template.HTML(procedureMark), Style: template.CSS(procedureStyle), Job: headOf(j), Caution: ProcedureCaution}
	system := systemOf(j)
	for _, w := range usedProcedures(j, p) {
		s := sheetMaker{job: j, plan: p, wps: w, system: system}
		sheet, err := s.sheet()
		if err != nil {
			return err
		}
		page.Sheets = append(page.Sheets, sheet)
	}
	return procedureTemplate.Execute(w, page)
}

// usedProcedures are those that a seam of the plan goes by, in the order of the
// document.
func usedProcedures(j *job.Job, p *plan.Plan) []*procedure.WPS {
	var out []*procedure.WPS
	for i := range j.Procedures {
		w := &j.Procedures[i]
		if slices.ContainsFunc(p.Seams, func(s plan.Seam) bool { return j.ProcedureOf(&j.Seams[s.Index]) == w }) {
			out = append(out, w)
		}
	}
	return out
}

// procedurePage is what the page shows; texts of the user among it are escaped by
// the template.
type procedurePage struct {
	Mark    template.HTML
	Style   template.CSS
	Job     []pair
	Caution string
	Sheets  []procedureSheet
}

// pair is a name with what stands beside it.
type pair struct{ Name, Value string }

// procedureSheet is the sheet of one procedure.
type procedureSheet struct {
	ID, Document string
	Head         []pair
	Numbers      []string // headings of the columns of Passes
	Passes       []passRow
	NoRow        []string // passes for which the procedure states nothing
	Items        []itemRow
	Joints       []jointFigure
	Fields       []procedure.Field
	Runs         runTable
	Record       []recordRow
	RecordID     string
	Count        stateCount
}

// stateCount counts passes, values outside, and items that some pass was not held
// in.
type stateCount struct{ Passes, Outside, NotStated, NotKnown int }

func headOf(j *job.Job) []pair {
	return filled(pair{"job", j.Name}, pair{"part", j.Part}, pair{"drawing", j.Drawing}, pair{"revision of the drawing", j.Revision}, pair{"code family", j.Code.String()})
}

// filled leaves out pairs without a value.
func filled(list ...pair) []pair {
	return slices.DeleteFunc(list, func(p pair) bool { return p.Value == "" })
}

// sheetMaker fills the sheet of one procedure.
type sheetMaker struct {
	job    *job.Job
	plan   *plan.Plan
	wps    *procedure.WPS
	system unit.System
}

func (s *sheetMaker) sheet() (procedureSheet, error) {
	c := &s.wps.Common
	document := "fields of ISO 15609-1:2019, by its clauses"
	if c.Family == weld.AWS {
		document = "fields of the AWS D1.1 form"
	}
	out := procedureSheet{
		ID: c.ID, Document: document,
		Head:   filled(pair{"revision", c.Revision}, pair{"date", s.wps.Date}, pair{"manufacturer", s.wps.Manufacturer}, pair{"qualification record", c.Qualification}),
		Fields: s.wps.Fields(s.system), Runs: s.runs(),
	}
	for _, item := range passItems {
		out.Numbers = append(out.Numbers, string(item))
	}
	held := s.held()
	out.NoRow = s.noRow()
	out.Passes, out.Items, out.Count = s.passRows(held), s.itemRows(held), count(held)
	out.Joints = s.joints()
	var err error
	out.Record, err = s.record()
	out.RecordID = c.Qualification
	return out, err
}

// heldPass is a pass with its verdicts.
type heldPass struct {
	name, set string
	seam      *plan.Seam
	pass      *plan.Pass
}

// held lists the passes that were held against the procedure.
func (s *sheetMaker) held() []heldPass {
	var out []heldPass
	for i := range s.plan.Seams {
		seam := &s.plan.Seams[i]
		for k := range seam.Passes {
			if p := &seam.Passes[k]; p.Held != nil && p.Held.Procedure == s.wps {
				out = append(out, heldPass{seam.PassName(p), p.Size.Settings, seam, p})
			}
		}
	}
	return out
}

// noRow lists the passes that go by the procedure and for which it states nothing.
func (s *sheetMaker) noRow() []string {
	var out []string
	for i := range s.plan.Seams {
		seam := &s.plan.Seams[i]
		if s.job.ProcedureOf(&s.job.Seams[seam.Index]) != s.wps {
			continue
		}
		for k := range seam.Passes {
			if p := &seam.Passes[k]; p.Held == nil {
				out = append(out, seam.PassName(p))
			}
		}
	}
	return out
}

func count(held []heldPass) stateCount {
	c := stateCount{Passes: len(held)}
	silent, unknown := map[procedure.Item]bool{}, map[procedure.Item]bool{}
	for _, h := range held {
		for _, v := range h.pass.Held.Verdicts {
			switch v.State {
			case procedure.Outside:
				c.Outside++
			case procedure.NotStated:
				silent[v.Item] = true
			case procedure.NotKnown:
				unknown[v.Item] = true
			}
		}
	}
	c.NotStated, c.NotKnown = len(silent), len(unknown)
	return c
}

// listed joins names as a sheet shows them.
func listed(names []string) string { return strings.Join(names, ", ") }

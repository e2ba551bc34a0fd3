package job

import (
	"fmt"

	"seamwright/weld"
	"seamwright/weld/procedure"
)

// maxProcedures bounds the procedures of one job.
const maxProcedures = 50

// ProcedureOf returns the welding procedure of a seam of the job; nil where the
// job gives none.
func (j *Job) ProcedureOf(s *Seam) *procedure.WPS {
	for i := range j.Procedures {
		if j.Procedures[i].Common.ID == s.Procedure {
			return &j.Procedures[i]
		}
	}
	return nil
}

// procedurePlaces are the places of a procedure that other parts of the document
// are held against.
type procedurePlaces struct{ id, code Place }

// procedureSource is a procedure that stands in the document or in a file of its
// own.
type procedureSource struct {
	source
	places procedurePlaces
	wps    *procedure.WPS // nil until it is read
}

func (p *procedureSource) spec() record {
	d := &procedureDraft{}
	return d.form(&p.places, func(w *procedure.WPS) { p.wps = w })
}

// table reads {file: name} or {spec: the procedure itself}.
func (p *procedureSource) table() record {
	spec := p.spec()
	return p.form("procedure.yaml", "spec", spec, spec)
}

// item reads one of several procedures: the name of its file alone, or as table.
func (p *procedureSource) item() form {
	file := text(&p.file.text, "procedures/wps-012.yaml")
	return placed{either{word: file, group: p.table()}, &p.file.at}
}

// proceduresDraft are the procedures of a job while they are read.
type proceduresDraft struct {
	one  procedureSource
	list []procedureSource
}

// several reads the list of procedures.
func (d *proceduresDraft) several() form {
	return manyOf(&d.list, 1, maxProcedures, "procedures", (*procedureSource).item)
}

// only reports both where one can be.
func (d *proceduresDraft) only(ps *Problems, n node) {
	if v, given := n.get("procedures"); given && n.has("procedure") {
		ps.add(v.at, "procedures beside procedure", "one of the two", "put the one into the list")
	}
}

// all are the procedures in the order of the document.
func (d *proceduresDraft) all() []*procedureSource {
	var out []*procedureSource
	if d.one.file.text != "" || d.one.wps != nil {
		out = append(out, &d.one)
	}
	for i := range d.list {
		out = append(out, &d.list[i])
	}
	return out
}

func (d *proceduresDraft) readFiles(ps *Problems, files Files) {
	for _, p := range d.all() {
		p.readFile(ps, files)
	}
}

// resolve puts the procedures into the job and returns their names.
func (d *proceduresDraft) resolve(ps *Problems, j *Job) known {
	var ids []string
	first := map[string]Place{}
	unread := false
	for _, p := range d.all() {
		if p.wps == nil || p.wps.Common.ID == "" {
			unread = true // reported where it was read
			continue
		}
		s := &p.wps.Common
		if at, twice := first[s.ID]; twice {
			ps.add(p.places.id, fmt.Sprintf("%s again, first in %s on line %d", quote(s.ID), at.File, at.Line), "each procedure once", "give the two procedures different ids, or delete one")
			continue
		}
		first[s.ID] = p.places.id
		otherFamily(ps, p.places.code, s.Family, j.Code)
		ids = append(ids, s.ID)
		j.Procedures = append(j.Procedures, *p.wps)
	}
	k := newKnown("procedure", ids, unread)
	k.unsure = unread // a job may give none
	return k
}

// otherFamily reports a procedure of another code family than the job's: none of
// its words and figures can be held against the job's.
func otherFamily(ps *Problems, at Place, own, job weld.CodeFamily) {
	if own == 0 || job == 0 || own == job {
		return
	}
	ps.add(at, "an "+own.String()+" procedure in a job of the "+job.String()+" family", "procedures of the job's own family: codes are never mixed in one check",
		"name a procedure of the "+job.String()+" family, or change code in the job if its drawing follows "+own.String())
}

// choose finds the procedure of a seam: the one named, or the only one.
func (d *seamDraft) choose(ps *Problems, procedures known) {
	s := &d.seam
	s.Procedure = d.procedure.text
	if s.Procedure != "" || procedures.unsure || len(procedures.names) == 0 {
		return
	}
	s.Procedure = procedures.names[0]
	if len(procedures.names) > 1 {
		ps.add(d.read.at.sub("procedure"), "nothing", "the procedure of the seam, one of "+listed(procedures.names), "add procedure to the seam or to defaults")
	}
}

// checkSome is check where there may be none of the names at all.
func (k known) checkSome(ps *Problems, r ref) {
	if r.text != "" && len(k.names) == 0 && !k.unsure {
		ps.add(r.at, quote(r.text)+" in a job without procedures", "the id of a procedure that the job gives", "add procedures to the job, or delete the field")
		return
	}
	k.check(ps, r)
}

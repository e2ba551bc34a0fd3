package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"seamwright/robot/urdf"
)

// Files opens the files of a document. Names are as written in the document,
// relative to its folder; the document itself is opened by the last part of
// its path. Decode reads nothing else and closes what it opens.
type Files interface {
	Open(name string) (io.ReadCloser, error)
}

// maxCSVBytes and maxURDFBytes bound the other files.
const (
	maxCSVBytes  = 8 << 20
	maxURDFBytes = 16 << 20
)

// Decode reads the document at the path file and every file that it names. The
// error is a *Problems with all that is wrong in all of them; the job is then
// nil.
func Decode(file string, files Files) (*Job, error) {
	ps := &Problems{}
	d := newDraft(file)
	document := Place{File: file}
	opened := &ledger{files: files}
	data, ok := read(ps, opened, filepath.Base(file), document, maxYAMLBytes)
	if ok {
		if root, ok := readTree(file, data, ps); ok {
			d.form().read(ps, root)
			d.readFiles(ps, opened)
			d.resolve(ps)
			d.job.Inputs = opened.read
		}
	}
	if err := ps.err(); err != nil {
		return nil, err
	}
	return &d.job, nil
}

// read returns the bytes of a file. at is the place that names it.
func read(ps *Problems, files Files, name string, at Place, most int64) ([]byte, bool) {
	r, err := files.Open(name)
	if err != nil {
		ps.add(at, quote(name)+", which cannot be opened ("+reason(err)+")", "a file that can be read, named from the document's folder", "check the name and the folder")
		return nil, false
	}
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if closing := r.Close(); err == nil {
		err = closing
	}
	switch {
	case err != nil:
		ps.add(at, quote(name)+", which cannot be read ("+reason(err)+")", "a file that can be read", "check the disk and the rights on the file")
		return nil, false
	case int64(len(data)) > most:
		ps.add(at, fmt.Sprintf("%s with more than %d bytes", quote(name), most), "a file of that size at most", "check that it is the right file, and split it")
		return nil, false
	}
	return data, true
}

// reason returns the last cause of a file error: its path is known already.
func reason(err error) string {
	for {
		next := errors.Unwrap(err)
		if next == nil {
			return cut(err.Error())
		}
		err = next
	}
}

// readFiles reads the files that the document names.
func (d *draft) readFiles(ps *Problems, files Files) {
	d.settings.readFile(ps, files)
	d.learned.readFile(ps, files)
	d.papers.readFiles(ps, files)
	d.points.labelsKnown = true
	if f := d.points.file; f.text != "" {
		inline := d.points.rows
		d.points.rows = nil // the file's rows come first
		data, ok := read(ps, files, f.text, f.at, maxCSVBytes)
		d.points.labelsKnown = ok && d.points.readCSV(ps, f.text, data)
		d.points.rows = append(d.points.rows, inline...)
	}
	if f := d.arm.urdf; f.text != "" {
		if r, err := openURDF(files, f.text); err != nil {
			urdfProblems(ps, f, err)
		} else {
			d.job.Arm.Robot = r
		}
	}
	d.readMeshes(ps, files)
}

// readFile reads a part of the document from its own file.
func (s *source) readFile(ps *Problems, files Files) {
	if s.file.text == "" {
		return
	}
	s.unread = true
	if data, ok := read(ps, files, s.file.text, s.file.at, maxYAMLBytes); ok {
		if root, ok := readTree(s.file.text, data, ps); ok {
			s.whole.read(ps, root)
			s.unread = false
		}
	}
}

func openURDF(files Files, name string) (*urdf.Robot, error) {
	r, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(r, maxURDFBytes))
	if closing := r.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return nil, err
	}
	return urdf.Parse(bytes.NewReader(data), name)
}

// urdfProblems passes on what is wrong with the arm's file.
func urdfProblems(ps *Problems, f ref, err error) {
	refused := (*urdf.Error)(nil)
	if !errors.As(err, &refused) {
		ps.add(f.at, quote(f.text)+", which cannot be opened ("+reason(err)+")", "a URDF file that can be read, named from the document's folder", "check the name and the folder")
		return
	}
	for _, p := range refused.Problems {
		ps.add(Place{f.text, p.Line, p.Column, p.Field}, p.Found, p.Allowed, p.Mend)
	}
	if refused.More > 0 {
		ps.add(f.at, fmt.Sprintf("%d more problems in %s", refused.More, quote(f.text)), "a URDF file without problems", "mend the ones shown first")
	}
}

// resolve checks the parts of the document against each other and completes
// the job.
func (d *draft) resolve(ps *Problems) {
	j := &d.job
	c := d.arm.resolve(ps, &j.Arm)
	c.turns = d.arm.part.text != ""
	ids := newKnown("settings set", d.uniqueSets(ps), d.settings.unread)
	procedures := d.papers.resolve(ps, j)
	labels := newKnown("point", d.points.labels(ps), !d.points.labelsKnown)
	j.Points = d.points.resolve(ps, c, j.Cell)
	j.Keying = d.points.keying()
	j.Listed, j.Home = d.points.listed, d.home.text
	labels.check(ps, d.home)
	places := d.points.places()
	places.refuse(ps, d.home)
	for _, r := range d.points.rows {
		ids.check(ps, r.settings)
	}
	d.defaults.names(ps, labels, ids, procedures)
	plates, tubes := d.members.names(ps)
	baseFromMembers := d.members.baseFrom(ps, c, j.Cell)
	d.members.resolve(baseFromMembers, j)
	d.torch.resolve(ps, j)
	d.shapes.resolve(ps, c, j)
	d.clear.resolve(ps, j)
	seen := map[string]Place{}
	for i := range d.seams {
		s := &d.seams[i]
		s.names(ps, labels, ids, procedures)
		s.choose(ps, procedures)
		for _, r := range s.through {
			places.refuse(ps, r)
		}
		s.path.met.names(ps, plates, tubes)
		s.finish(j.Air, d.points.stood.when(s.seam.Points), baseFromMembers)
		s.once(ps, seen)
		s.restartOf(ps)
		j.Seams = append(j.Seams, s.seam)
	}
	d.accepted.resolve(ps, j)
	d.learned.resolve(ps, j)
	d.stitchNames(ps)
	j.Distortion = d.dist.resolve(ps, c, j.Cell)
	j.Order = d.ordered(ps)
	if j.Air.Order == OrderShortest && j.Order != nil {
		ps.add(d.orderAt, "an order beside air.order: shortest", "one of the two", "delete it to leave the order to the plan, or delete air.order")
	}
}

// Package threemf reads 3MF files: the meshes of all items of the build, with
// their components and transforms.
//
// 3MF carries its unit, and has z up as we do. Coordinates are right-handed.
// Colours, textures and print settings are left aside; what would lose a shape
// (a lattice of beams, an extension that is required and not read) is an error.
// Parts of the production extension in files of their own are read. Equal
// positions are merged.
//
// The format is that of the 3MF core specification, version 1.3 (2021), and of
// the production extension 1.1 (from memory). An archive is unpacked within a
// limit, and only the parts that are needed.
package threemf

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"seamwright/geom/mesh"
)

// Read reads a whole file from r, within the limits, and decodes it.
func Read(r io.Reader, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	return mesh.ReadAll(r, "3MF", o, Decode)
}

// Decode reads a whole file. The unit is the one that the file carries; to
// declare another is an error. Errors are *mesh.Error with the part of the
// archive and the line.
func Decode(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	d := &decoder{limits: o.Limits, parts: map[string]*model{}}
	// The unit is known only once the archive is open; bounds hold from the start.
	guard, err := mesh.NewBuilder("3MF", int64(len(data)), mesh.Options{Limits: o.Limits}, mesh.Metres)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	d.Builder = guard
	if err := d.open(data); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	start, err := d.startPart()
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	root, err := d.part(start)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	if d.Builder, err = mesh.NewBuilder("3MF", int64(len(data)), o, root.unit); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	if err := d.build(start, root); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	d.report()
	return d.Done()
}

type decoder struct {
	*mesh.Builder
	limits    mesh.Limits
	files     map[string]*zip.File
	left      int64 // bytes that may still be unpacked
	parts     map[string]*model
	triangles int // read so far, in all objects
	visits    int // objects placed so far
	ignored   []string
	support   int
}

// maxEntries bounds the files in an archive.
const maxEntries = 10_000

// open reads the directory of the archive.
func (d *decoder) open(data []byte) error {
	d.left = d.Limits.Unpacked
	if n := bytes.Count(data, []byte("PK\x01\x02")); n > maxEntries {
		return d.Fault(fmt.Sprintf("an archive of %d files", n), fmt.Sprintf("at most %d", maxEntries), "export the file again")
	}
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return d.Fault("no archive that can be read: "+err.Error(), "a ZIP archive, whole", "choose a 3MF file, or copy it again: it may be cut off")
	}
	d.files = map[string]*zip.File{}
	for _, f := range archive.File {
		name := strings.TrimPrefix(f.Name, "/")
		if d.files[name] != nil {
			d.Place.Part = name
			return d.Fault("two files of this name in the archive", "each name once", "export the file again")
		}
		d.files[name] = f
	}
	return nil
}

// unpack returns the bytes of a part, within what is left of the limit.
func (d *decoder) unpack(name string) ([]byte, error) {
	d.Place = mesh.Place{Part: name}
	f := d.files[name]
	switch {
	case f == nil:
		return nil, d.Fault("no such file in the archive", "all parts that are referred to", "export the file again")
	case f.Flags&1 != 0:
		return nil, d.Fault("an encrypted file", "plain files", "export it without a password")
	}
	r, err := f.Open()
	if err != nil {
		return nil, d.Fault("a file that cannot be unpacked: "+err.Error(), "files stored or deflated", "copy or export the file again")
	}
	data, err := io.ReadAll(io.LimitReader(r, d.left+1))
	closed := r.Close()
	switch {
	case int64(len(data)) > d.left:
		return nil, d.Exceeded("Unpacked", fmt.Sprintf("more than %d bytes unpacked", d.Limits.Unpacked), fmt.Sprintf("at most %d", d.Limits.Unpacked),
			"export it coarser, or raise the limit")
	case err != nil || closed != nil:
		return nil, d.Fault("a file that cannot be unpacked: "+errors.Join(err, closed).Error(), "whole files with the right checksum", "copy the file again: it is damaged")
	}
	d.left -= int64(len(data))
	return data, nil
}

const (
	relations = "_rels/.rels"
	modelType = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
	coreSpace = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
)

// startPart returns the name of the model that the archive points to.
func (d *decoder) startPart() (string, error) {
	data, err := d.unpack(relations)
	if err != nil {
		return "", err
	}
	x := d.reader(data)
	start := ""
	relationship := func(e *tag) error {
		if e.Name.Local == "Relationship" && e.attr("Type") == modelType {
			if start != "" {
				return d.Fault("two models to start from", "one", "export the file again")
			}
			start = strings.TrimPrefix(path.Clean("/"+e.attr("Target")), "/")
		}
		return x.children(nil, nil)
	}
	err = x.each(func(*tag) error { return x.children(relationship, nil) })
	if err != nil {
		return "", err
	}
	if start == "" {
		return "", d.Fault("no model to start from", "a relationship of type "+modelType, "choose a 3MF file, or export it again")
	}
	return start, nil
}

// report says what was left aside.
func (d *decoder) report() {
	if d.support > 0 {
		d.Say("%d support objects are part of the mesh", d.support)
	}
	for _, what := range d.ignored {
		d.Say("elements %s ignored", what)
	}
}

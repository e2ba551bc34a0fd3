// Package gltf reads glTF 2.0 files, as JSON or GLB: the triangles of all nodes
// of the scene, each taken through its node's transforms.
//
// glTF is in metres with y up. Meshes come out with z up: x stays, y becomes z
// and z becomes -y. Looks (materials, textures, cameras, lights) are left aside;
// what would change a shape and is not read (skins, morph targets in use,
// sparse accessors, compression) is an error. Equal positions are merged.
//
// The format is that of the glTF 2.0 specification, Khronos Group (2021), also
// ISO/IEC 12113:2022; clause numbers beside the code are from memory.
package gltf

import (
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// Files returns the bytes of a file that a glTF file names, relative to it.
type Files func(name string) ([]byte, error)

// Read reads a whole file from r, within the limits, and decodes it.
func Read(r io.Reader, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	return mesh.ReadAll(r, "glTF", o, Decode)
}

// Decode reads a whole file, JSON or GLB, that holds all its data. The unit is
// that of the format, metres; to declare another is an error. Errors are
// *mesh.Error with the element of the document or the offset.
func Decode(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	return DecodeWith(data, o, nil)
}

// DecodeWith is Decode for files that keep their data in other files, which
// files returns. The limit on bytes holds for all together.
func DecodeWith(data []byte, o mesh.Options, files Files) (mesh.Mesh, mesh.Notes, error) {
	format := "glTF"
	if isBinary(data) {
		format = "GLB"
	}
	b, err := mesh.NewBuilder(format, int64(len(data)), o, mesh.Metres)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	d := &decoder{Builder: b, files: files, left: b.Limits.Bytes - int64(len(data))}
	if format == "GLB" {
		err = d.container(data)
	} else {
		err = d.parse(data, 0)
	}
	if err == nil {
		err = d.scene()
	}
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	if d.others > 0 {
		d.Say("%d sets of points or lines ignored", d.others)
	}
	if d.targets > 0 {
		d.Say("%d morph targets ignored: none is in use at rest", d.targets)
	}
	return d.Done()
}

type decoder struct {
	*mesh.Builder
	document document
	chunk    []byte // of a GLB
	hasChunk bool
	files    Files
	left     int64 // bytes that further files may have
	loaded   map[int][]byte
	others   int // primitives that are no triangles
	targets  int
}

const (
	glbMagic  = 0x46546c67 // "glTF"
	jsonChunk = 0x4e4f534a // "JSON"
	binChunk  = 0x004e4942 // "BIN"
)

func isBinary(data []byte) bool {
	return len(data) >= 4 && binary.LittleEndian.Uint32(data) == glbMagic
}

// container takes a GLB file apart (clause 4): a header of 12 bytes and chunks
// of length, type and data, the JSON first.
func (d *decoder) container(data []byte) error {
	d.Place.HasOffset = true
	word := func(at int) int64 { return int64(binary.LittleEndian.Uint32(data[at:])) }
	if len(data) < 20 {
		d.Place.Offset = int64(len(data))
		return d.Fault("the end of the file", "a header of 12 bytes and a JSON chunk", "copy the file again: it is cut off")
	}
	if v := word(4); v != 2 {
		d.Place.Offset = 4
		return d.Fault(fmt.Sprintf("container version %d", v), "2", "export the file as glTF 2.0")
	}
	if n := word(8); n != int64(len(data)) {
		d.Place.Offset = 8
		return d.Fault(fmt.Sprintf("a length of %d bytes in the header and a file of %d", n, len(data)), "both the same", "copy the file again: it is cut off or has grown")
	}
	var text []byte
	textAt := int64(0)
	for at := 12; at < len(data); {
		d.Place.Offset = int64(at)
		if len(data)-at < 8 {
			return d.Fault("the end of the file in the header of a chunk", "whole chunks", "copy the file again: it is cut off")
		}
		n, kind := word(at), word(at+4)
		if n > int64(len(data)-at-8) {
			return d.Fault(fmt.Sprintf("a chunk of %d bytes with %d left", n, len(data)-at-8), "whole chunks", "copy the file again: it is cut off")
		}
		chunk := data[at+8 : at+8+int(n)]
		switch {
		case at == 12 && kind != jsonChunk:
			return d.Fault(fmt.Sprintf("a first chunk of type %#08x", kind), "the JSON chunk", "export the file again")
		case at == 12:
			text, textAt = chunk, int64(at+8)
		case kind == binChunk && !d.hasChunk:
			d.chunk, d.hasChunk = chunk, true
		}
		at += 8 + int(n)
	}
	d.Place = mesh.Place{}
	return d.parse(text, textAt)
}

// bufferBytes returns the data of a buffer.
func (d *decoder) bufferBytes(i int) ([]byte, error) {
	if data, ok := d.loaded[i]; ok {
		return data, nil
	}
	d.Place.Part = fmt.Sprintf("buffers[%d]", i)
	if i < 0 || i >= len(d.document.Buffers) {
		return nil, d.Fault("no such buffer", fmt.Sprintf("0 to %d", len(d.document.Buffers)-1), "export the file again")
	}
	b := d.document.Buffers[i]
	var data []byte
	var err error
	switch {
	case b.URI == nil && i == 0 && d.hasChunk:
		data = d.chunk
	case b.URI == nil:
		return nil, d.Fault("a buffer without data", "a uri, or the binary chunk of a GLB file for buffer 0", "export the file again, as GLB")
	default:
		data, err = d.fetch(*b.URI)
	}
	if err != nil {
		return nil, err
	}
	if b.ByteLength < 0 || b.ByteLength > int64(len(data)) {
		return nil, d.Fault(fmt.Sprintf("a byteLength of %d with %d bytes of data", b.ByteLength, len(data)), "the length of the data", "copy or export the file again: it is cut off")
	}
	if d.loaded == nil {
		d.loaded = map[int][]byte{}
	}
	d.loaded[i] = data[:b.ByteLength]
	return d.loaded[i], nil
}

// fetch returns what a uri stands for: data written into it, or a file.
func (d *decoder) fetch(uri string) ([]byte, error) {
	if rest, ok := strings.CutPrefix(uri, "data:"); ok {
		kind, text, ok := strings.Cut(rest, ",")
		if !ok || !strings.HasSuffix(kind, ";base64") {
			return nil, d.Fault("data that is not base64", "data:application/octet-stream;base64,", "export the file as GLB")
		}
		data, err := base64.StdEncoding.DecodeString(text)
		if err != nil {
			return nil, d.Fault("base64 data that cannot be read: "+err.Error(), "base64 of RFC 4648", "copy or export the file again, as GLB")
		}
		return data, nil
	}
	name, err := unescaped(uri)
	switch {
	case err != nil || strings.Contains(uri, ":") || strings.HasPrefix(name, "/") || strings.Contains(name, `\`) || strings.Contains("/"+name+"/", "/../"):
		return nil, d.Fault(fmt.Sprintf("the file %q", short(uri)), "a file in the same folder or below", "export the file as GLB, which holds everything")
	case d.files == nil:
		return nil, d.Fault(fmt.Sprintf("the file %q beside this one", short(uri)), "a file that holds all its data", "export the file as GLB, which holds everything")
	}
	data, err := d.files(name)
	if err != nil {
		return nil, fmt.Errorf("%s, %s: %w", d.Format, d.Place, err)
	}
	if d.left -= int64(len(data)); d.left < 0 {
		return nil, d.Exceeded("Bytes", fmt.Sprintf("more than %d bytes in all files", d.Limits.Bytes), fmt.Sprintf("at most %d", d.Limits.Bytes), "export it coarser, or raise the limit")
	}
	return data, nil
}

// short cuts a name for a message.
func short(name string) string {
	if len(name) > 60 {
		return name[:60] + "..."
	}
	return name
}

// zUp turns a file's coordinates, y up, into ours, z up.
func zUp() mesh.Affine {
	return mesh.Affine{X: r3.Vec{X: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{Y: -1}}
}

// placed puts an element's name into an error that has no place yet.
func (d *decoder) placed(err error, part string) error {
	var e *mesh.Error
	if errors.As(err, &e) && e.Place.Part == "" {
		e.Place.Part = part
	}
	return err
}

// unescaped is a file's name with its percent codes resolved (RFC 3986).
func unescaped(uri string) (string, error) {
	var b strings.Builder
	for i := 0; i < len(uri); i++ {
		if uri[i] != '%' {
			b.WriteByte(uri[i])
			continue
		}
		if i+2 >= len(uri) {
			return "", fmt.Errorf("%q ends in a percent code", uri)
		}
		code, err := strconv.ParseUint(uri[i+1:i+3], 16, 8)
		if err != nil {
			return "", fmt.Errorf("%q is no percent code", uri[i:i+3])
		}
		b.WriteByte(byte(code))
		i += 2
	}
	return b.String(), nil
}

// Package largejob makes the job that planning and proof are timed with: twenty
// seams, five metres, on a part of two hundred thousand triangles. It is a test
// helper.
package largejob

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/r3"
)

// Seams and Length are how many seams the job has and how long each is, mm.
const (
	Seams  = 2 * ribs
	Length = 250
)

// The part: ribs on a sole, in two rows; mm.
const (
	ribs                       = 10
	inRow                      = 5
	ribLong, ribHigh, ribThick = 270.0, 45.0, 8.0
	apart, between             = 150.0, 300.0 // across a row, from row to row
	nearest, sideways          = 430.0, -304.0
	soleLong, soleWide         = 640.0, 700.0
	soleThick                  = 12.0
)

// Files are the job's files by name, "job.yaml" first of all; Open opens them.
type Files map[string][]byte

// Open opens a file by its name in the job.
func (f Files) Open(name string) (io.ReadCloser, error) {
	data, ok := f[name]
	if !ok {
		return nil, fmt.Errorf("open %s: %w", name, fs.ErrNotExist)
	}
	return io.NopCloser(bytes.NewReader(data)), nil
}

// corner is where a rib stands, mm.
func corner(rib int) (x, y float64) {
	return nearest + between*float64(rib/inRow), sideways + apart*float64(rib%inRow)
}

// New makes the files of the job for an arm, given by its URDF; with a mesh of
// about so many triangles for the part, or without one for 0.
func New(urdf []byte, triangles int) (Files, error) {
	f := Files{"arm.urdf": urdf}
	var seams, plates bytes.Buffer
	shapes, body := "", ""
	if triangles > 0 {
		shapes, body = "shapes:\n  - {name: rack, is: part, mesh: {file: part.stl, unit: mm}, measured_in: base}\n\n", ", shape: none"
	}
	for r := range ribs {
		x, y := corner(r)
		fmt.Fprintf(&plates, "    - {name: rib %d, corner: [%g mm, %g mm, 0 mm], along: [1, 0, 0], across: [0, 0, 1], length: %g mm, width: %g mm, thickness: %g mm%s}\n", r+1, x, y, ribLong, ribHigh, ribThick, body)
		for s, side := range []string{"front", "rear"} {
			name := fmt.Sprintf("W%d", 2*r+s+1)
			fmt.Fprintf(&seams, "  - name: %s\n    joint: tee\n    meeting: {base: {plate: sole, face: front}, upright: {plate: rib %d, face: %s}, stands: left, from: 10 mm, to: %g mm}\n    weld: {leg: 5 mm}\n", name, r+1, side, 10.0+Length)
		}
	}
	f["job.yaml"] = []byte(fmt.Sprintf(document, nearest-20, sideways-30, soleLong, soleWide, soleThick, body, plates.String(), shapes, seams.String()))
	if triangles > 0 {
		var out bytes.Buffer
		if err := stl.Write(&out, part(triangles), mesh.Millimetres, "large job, mm"); err != nil {
			return nil, err
		}
		f["part.stl"] = out.Bytes()
	}
	return f, nil
}

// part is the part as a mesh, every body of about the same number of triangles.
func part(triangles int) mesh.Mesh {
	each := triangles / (ribs + 1)
	sole := plate(soleLong, soleWide, soleThick, each)
	all := []mesh.Mesh{moved(sole, nearest-20, sideways-30, -soleThick)}
	for r := range ribs {
		x, y := corner(r)
		all = append(all, moved(plate(ribLong, ribThick, ribHigh, each), x, y, 0))
	}
	return mesh.Join(all...)
}

func moved(m mesh.Mesh, x, y, z float64) mesh.Mesh {
	f := mesh.NoTransform()
	f.T = r3.Vec{X: x, Y: y, Z: z}.Scale(1e-3)
	return m.Transformed(f)
}

// plate is a block of mm, its faces cut into about so many triangles.
func plate(long, wide, high float64, triangles int) mesh.Mesh {
	n := max(1, int(math.Round(math.Sqrt(float64(triangles)/12))))
	var m mesh.Mesh
	face := func(origin, along, across r3.Vec) { // counter-clockwise seen from outside
		first := int32(len(m.Vertices))
		for i := range n + 1 {
			for k := range n + 1 {
				m.Vertices = append(m.Vertices, origin.AddScaled(float64(i)/float64(n), along).AddScaled(float64(k)/float64(n), across))
			}
		}
		at := func(i, k int) int32 { return first + int32(i*(n+1)+k) }
		for i := range n {
			for k := range n {
				m.Triangles = append(m.Triangles, [3]int32{at(i, k), at(i+1, k), at(i+1, k+1)}, [3]int32{at(i, k), at(i+1, k+1), at(i, k+1)})
			}
		}
	}
	x, y, z := r3.Vec{X: long * 1e-3}, r3.Vec{Y: wide * 1e-3}, r3.Vec{Z: high * 1e-3}
	var o r3.Vec
	face(o, y, x)
	face(z, x, y)
	face(o, x, z)
	face(y, z, x)
	face(o, z, y)
	face(x, y, z)
	return m
}

const document = `seamwright: 1
name: Rack, five metres of fillet
part: R-20
drawing: R-20 sheet 1
revision: A
code: iso

arm: {urdf: arm.urdf, base_link: base, flange_link: flange, joint_acceleration: 300 deg/s2}

torch:
  body: 215 mm
  neck: 118 mm
  neck_angle: 35 deg
  nozzle: 20 mm
  taper: {end: 16 mm, over: 20 mm}
  tip_recess: 2 mm
  stick_out: 14 mm
  wire: 1.0 mm

points:
  measured_in: base
  point: tip
  length: mm
  orientation: fixed x-y-z degrees
  joints: deg
  rows:
    - {label: home, joints: [0, -25, 10, 0, 65, 0]}

members:
  measured_in: base
  plates:
    - {name: sole, corner: [%g mm, %g mm, 0 mm], along: [1, 0, 0], across: [0, 1, 0], length: %g mm, width: %g mm, thickness: %g mm%s}
%s
%shome: home
settings:
  sets:
    - {id: 11, name: fillet, process: 135, transfer: spray, polarity: DCEP, wire: 1.0 mm, wire_class: G 42 4 M21 3Si1, gas: M21, gas_flow: 15 L/min, feed: 9.0 m/min, volts: 23.5 V, amps: 205 A, efficiency: 96 percent, start_time: 0.3 s, crater_time: 0.6 s}

defaults:
  settings: 11
  torch: {travel: push 5 deg, spin: free}

seams:
%s`

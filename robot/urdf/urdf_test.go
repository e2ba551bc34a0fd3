package urdf_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

func parseFile(t *testing.T, name string) *urdf.Robot {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := urdf.Parse(f, name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// fixedXYZ turns about the parent's X, then its Y, then its Z axis: worked out
// here element by element, not with the product that Parse uses.
func fixedXYZ(r, p, y float64) se3.Rot {
	sr, cr := math.Sincos(r)
	sp, cp := math.Sincos(p)
	sy, cy := math.Sincos(y)
	return se3.Rot{
		cy * cp, cy*sp*sr - sy*cr, cy*sp*cr + sy*sr,
		sy * cp, sy*sp*sr + cy*cr, sy*sp*cr - cy*sr,
		-sp, cp * sr, cp * cr,
	}
}

func checkPose(t *testing.T, what string, got se3.Pose, p r3.Vec, rot se3.Rot) {
	t.Helper()
	if got.P != p {
		t.Errorf("%s: position %v, want %v", what, got.P, p)
	}
	for i := range rot {
		if math.Abs(got.R[i]-rot[i]) > 1e-15 {
			t.Errorf("%s: rotation %v, want %v", what, got.R, rot)
			return
		}
	}
}

// Every field of a file in which no two numbers are equal.
func TestParseReadsEveryField(t *testing.T) {
	r := parseFile(t, "distinct.urdf")
	if len(r.Notes) != 0 {
		t.Errorf("notes %v, want none", r.Notes)
	}
	if r.Name != "distinct" || len(r.Links) != 5 || len(r.Joints) != 4 || r.Root() != "base" {
		t.Fatalf("robot %q, %d links, %d joints, root %q", r.Name, len(r.Links), len(r.Joints), r.Root())
	}
	wantMaterials := []urdf.Material{
		{Name: "ochre", RGBA: [4]float64{0.11, 0.12, 0.13, 0.14}, HasColor: true},
		{Name: "slate", RGBA: [4]float64{0.31, 0.32, 0.33, 0.34}, HasColor: true, Texture: "slate.png"},
	}
	if len(r.Materials) != 2 || r.Materials[0] != wantMaterials[0] || r.Materials[1] != wantMaterials[1] {
		t.Errorf("materials %+v", r.Materials)
	}
	one := se3.RotIdentity()
	base := r.Link("base")
	if base == nil || len(base.Visuals) != 2 || len(base.Collisions) != 2 {
		t.Fatalf("base is %+v", base)
	}
	plate, barrel := base.Visuals[0], base.Visuals[1]
	checkPose(t, "plate", plate.Origin, r3.Vec{X: 1.1, Y: 1.2, Z: 1.3}, fixedXYZ(0.21, 0.22, 0.23))
	if plate.Name != "plate" || plate.Material != "ochre" || plate.Geometry != (urdf.Geometry{Kind: urdf.Box, Size: r3.Vec{X: 2.1, Y: 2.2, Z: 2.3}}) {
		t.Errorf("plate is %+v", plate)
	}
	checkPose(t, "barrel", barrel.Origin, r3.Vec{}, one)
	if barrel.Name != "" || barrel.Material != "slate" || barrel.Geometry != (urdf.Geometry{Kind: urdf.Cylinder, Radius: 3.1, Length: 3.2}) {
		t.Errorf("barrel is %+v", barrel)
	}
	hull, mesh := base.Collisions[0], base.Collisions[1]
	checkPose(t, "hull", hull.Origin, r3.Vec{X: 4.1, Y: 4.2, Z: 4.3}, fixedXYZ(0.41, 0.42, 0.43))
	if hull.Name != "hull" || hull.Geometry != (urdf.Geometry{Kind: urdf.Sphere, Radius: 4.4}) {
		t.Errorf("hull is %+v", hull)
	}
	if mesh.Geometry.Kind != urdf.MeshFile || mesh.Geometry.Mesh != (urdf.Mesh{File: "package://demo/meshes/base.stl", Scale: r3.Vec{X: 0.51, Y: 0.52, Z: -0.53}}) {
		t.Errorf("mesh is %+v", mesh)
	}
	if m := r.Link("arm").Visuals[0].Geometry.Mesh; m != (urdf.Mesh{File: "meshes/arm.stl", Scale: r3.Vec{X: 1, Y: 1, Z: 1}}) {
		t.Errorf("mesh of the arm is %+v", m)
	}

	turn, lift, spin, bolt := r.Joints[0], r.Joints[1], r.Joints[2], r.Joints[3]
	checkPose(t, "turn", turn.Origin, r3.Vec{X: 6.1, Y: 6.2, Z: 6.3}, fixedXYZ(0.61, 0.62, 0.63))
	checkPose(t, "lift", lift.Origin, r3.Vec{X: 7.1, Y: 7.2, Z: 7.3}, one)
	checkPose(t, "spin", spin.Origin, r3.Vec{}, fixedXYZ(0.81, 0.82, 0.83))
	checkPose(t, "bolt", bolt.Origin, r3.Vec{}, one)
	rows := []struct {
		got           urdf.Joint
		name          string
		kind          urdf.JointKind
		parent, child string
		axis          r3.Vec
		limit         urdf.Limit
	}{
		{turn, "turn", urdf.Revolute, "base", "arm", r3.Vec{Y: 0.6, Z: 0.8}, urdf.Limit{Lower: -6.4, Upper: 6.5, Effort: 66, Velocity: 6.7}},
		{lift, "lift", urdf.Prismatic, "arm", "slide", r3.Vec{X: 1}, urdf.Limit{Lower: -7.4, Upper: 7.5, Effort: 76, Velocity: 7.7}},
		{spin, "spin", urdf.Continuous, "slide", "wheel", r3.Vec{Z: -1}, urdf.Limit{Effort: 86, Velocity: 8.7}},
		{bolt, "bolt", urdf.Fixed, "slide", "flange", r3.Vec{X: 1}, urdf.Limit{}},
	}
	for _, row := range rows {
		j := row.got
		if j.Name != row.name || j.Kind != row.kind || j.Parent != row.parent || j.Child != row.child || j.Limit != row.limit || j.Axis.Dist(row.axis) > 1e-15 {
			t.Errorf("joint %+v, want %+v", j, row)
		}
	}
	if p := r.ParentJoint("flange"); p == nil || p.Name != "bolt" {
		t.Errorf("parent joint of the flange is %+v", p)
	}
	if r.ParentJoint("base") != nil || r.Link("nothing") != nil {
		t.Error("found a joint above the root or a link that is not there")
	}
}

func TestParseKeepsBranchesAndNotesWhatItDoesNotRead(t *testing.T) {
	r := parseFile(t, "branches.urdf")
	if r.Root() != "floor" || len(r.Links) != 5 || len(r.Joints) != 4 {
		t.Errorf("root %q, %d links, %d joints", r.Root(), len(r.Links), len(r.Joints))
	}
	want := []string{
		`4:21: link "rail": found <inertial>; allowed: elements of plain URDF; to mend: nothing, it is not read`,
		`11:3: joint "left_joint" limit velocity: found none; allowed: a number above 0, rad/s; to mend: add the joint's greatest speed`,
		`12:3: robot: found <transmission>; allowed: elements of plain URDF; to mend: nothing, it is not read`,
	}
	var got []string
	for _, n := range r.Notes {
		got = append(got, n.String())
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("notes\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestMeshResolve(t *testing.T) {
	known := func(name string) (string, bool) { return "/pkg/" + name, name == "demo" }
	rows := []struct{ name, file, want, fail string }{
		{"relative", "meshes/a.stl", "/robots/arm/meshes/a.stl", ""},
		{"relative upwards", "../meshes/a.stl", "/robots/meshes/a.stl", ""},
		{"absolute", "/m/a.stl", "/m/a.stl", ""},
		{"package", "package://demo/m/a.stl", "/pkg/demo/m/a.stl", ""},
		{"file", "file:///m/a.stl", "/m/a.stl", ""},
		{"unknown package", "package://other/a.stl", "", `mesh "package://other/a.stl": found package "other", whose folder is not known; allowed: packages with a folder; say where package "other" lies`},
		{"leaves the package", "package://demo/../a.stl", "", `mesh "package://demo/../a.stl": found a path that leaves its package; allowed: a path inside; remove the two leading dots`},
		{"no file", "package://demo", "", `mesh "package://demo": found no package or no file name; allowed: package://name/file; complete the path`},
		{"relative file", "file://a.stl", "", `mesh "file://a.stl": found a relative path after file://; allowed: file:///folder/name; write the full path`},
		{"web", "http://x.org/a.stl", "", `mesh "http://x.org/a.stl": found scheme "http"; allowed: package://, file:// or a path; copy the mesh beside the URDF file and name it there`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			got, err := urdf.Mesh{File: row.file}.Resolve("/robots/arm", known)
			if row.fail != "" {
				if err == nil || err.Error() != row.fail {
					t.Errorf("got  %v\nwant %s", err, row.fail)
				}
				return
			}
			if err != nil || got != row.want {
				t.Errorf("%q, %v, want %q", got, err, row.want)
			}
		})
	}
	if _, err := (urdf.Mesh{File: "package://demo/a.stl"}).Resolve("/", nil); err == nil {
		t.Error("a package was resolved without a rule")
	}
}

package scene_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

const mm = 1e-3

// bare is the keel cradle's arm and torch with nothing around.
func bare(t testing.TB) *job.Job {
	j := decode(t, "keel-cradle")
	j.Plates, j.Tubes, j.Shapes = nil, nil, nil
	return j
}

// stand is a posture of kittiwake away from its limits.
var stand = kinematics.Q{0.3, -0.4, 0.5, 0.2, 0.9, -0.3}

// wall is a box of a size (mm) whose middle lies at a place (mm) of the tip's
// frame while the arm is in the posture stand.
func wall(c *cell.Cell, name string, at, size r3.Vec) job.Shape {
	corner := at.AddScaled(-0.5, size).Scale(mm)
	return job.Shape{Name: name, Kind: job.ShapeBox, Size: size.Scale(mm), LinkFromShape: c.BaseFromTip(&stand).Mul(se3.Translation(corner))}
}

// gap returns the distance, mm, between two bodies in the posture stand.
func gap(t *testing.T, s *scene.Scene, a, b string) float64 {
	t.Helper()
	bodies := s.Model.Bodies()
	r := s.Model.Wanted(-1)
	for i, p := range s.Model.Pairs() {
		if x, y := bodies[p.A].Name, bodies[p.B].Name; x == a && y == b || x == b && y == a {
			r[i] = 1
			near, _ := s.Model.Least(s.Model.Scratch(), &stand, r, 10)
			return near.Distance / mm
		}
	}
	t.Fatalf("%s and %s are no pair", a, b)
	return 0
}

func scenes(t testing.TB, j *job.Job, c *cell.Cell) *scene.Scene {
	t.Helper()
	s, err := scene.New(j, c)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The torch: body 215 to the bend of 35 deg, neck 118 from there to the nozzle's
// end, stick-out 14; nozzle 20, at its end 16 over 15, 65 long; neck 22, body 44
// (mm). In the frame of the tip the nozzle's end is at z = -14, its taper ends at
// -29, its back is at -79, the bend at -132. Distances by hand.
func TestTorchIsWhereItIs(t *testing.T) {
	j := bare(t)
	c := cellOf(t, j)
	v := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	body := 0.5 * 215 // to the middle of the body from the bend
	sin, cos := math.Sincos(35 * math.Pi / 180)
	for _, row := range []struct {
		name     string
		body     string
		at, size r3.Vec // of a wall, mm, tip frame
		want     float64
	}{
		{"ahead of the nozzle", "nozzle", v(0, 0, 25), v(100, 100, 10), 14 + 20},
		{"beside its end", "nozzle", v(30, 0, -13.5), v(20, 100, 1), 12 * 15 / math.Sqrt(15*15+2*2)}, // square to its slope, 2 in 15
		{"beside its barrel", "nozzle (2)", v(0, 40, -50), v(100, 20, 10), 30 - 10},
		{"behind its barrel, beside the wire's line", "nozzle (2)", v(0, 40, -84), v(100, 20, 0.01), math.Hypot(30-10, 5-0.005)},
		{"beside the neck", "neck", v(0, -40, -100), v(100, 20, 10), 30 - 11},
		{"beside the body", "torch body", v(sin*body, 50, -132-cos*body), v(10, 20, 10), 40 - 22},
	} {
		j.Shapes = []job.Shape{wall(c, "wall", row.at, row.size)}
		if got := gap(t, scenes(t, j, c), row.body, "wall"); math.Abs(got-row.want) > 1e-6 {
			t.Errorf("%s: %s is %.6f mm away, want %.6f", row.name, row.body, got, row.want)
		}
	}
}

// The same torch told by the pose of its tip has the same bend.
func TestTorchByItsTip(t *testing.T) {
	j := bare(t)
	c := cellOf(t, j)
	j.Torch.Measured, j.Torch.FlangeFromTip = false, c.FlangeFromTip
	j.Shapes = []job.Shape{wall(c, "wall", r3.Vec{Y: 100, Z: -200}, r3.Vec{X: 400, Y: 20, Z: 400})}
	measured := bare(t)
	measured.Shapes = j.Shapes
	a, b := scenes(t, j, c), scenes(t, measured, c)
	for _, name := range []string{"nozzle", "nozzle (2)", "neck", "neck (2)", "torch body"} {
		if x, y := gap(t, a, name, "wall"), gap(t, b, name, "wall"); math.Abs(x-y) > 1e-6 {
			t.Errorf("%s: %.6f mm by its tip, %.6f mm by its measures", name, x, y)
		}
	}
}

// A torch that stands straight on the flange has no bend: the neck ends where the
// body begins, behind the nozzle.
func TestStraightTorch(t *testing.T) {
	j := bare(t)
	j.Torch.Measured, j.Torch.FlangeFromTip = false, se3.Translation(r3.Vec{Z: 0.3})
	c := cellOf(t, j)
	j.Shapes = []job.Shape{wall(c, "wall", r3.Vec{Y: 100, Z: -200}, r3.Vec{X: 400, Y: 20, Z: 20})}
	s := scenes(t, j, c)
	if got := gap(t, s, "torch body", "wall"); math.Abs(got-(90-22)) > 1e-6 {
		t.Errorf("the body is %.6f mm away, want 68", got)
	}
	for _, b := range s.Model.Bodies() {
		if strings.HasPrefix(b.Name, "neck") {
			t.Errorf("a straight torch has the body %s", b.Name)
		}
	}
}

// A drawn torch is cut into wire, nozzle and body across the wire.
func TestDrawnTorch(t *testing.T) {
	j := bare(t)
	c := cellOf(t, j)
	bar, err := mesh.NewBox(r3.Vec{X: 0.02, Y: 0.02, Z: 0.3}) // along the wire, from 150 mm behind the tip to 150 before
	if err != nil {
		t.Fatal(err)
	}
	j.Torch.Shape = &job.TorchShape{MeshFile: job.MeshFile{File: "bar.stl", Unit: mesh.Millimetres, Mesh: bar}, LinkFromShape: se3.Identity()}
	j.Shapes = []job.Shape{wall(c, "ahead", r3.Vec{Z: 60}, r3.Vec{X: 100, Y: 100, Z: 100}), wall(c, "behind", r3.Vec{Z: -210}, r3.Vec{X: 100, Y: 100, Z: 100})}
	s := scenes(t, j, c)
	for _, row := range []struct {
		body, wall string
		want       float64 // mm
	}{{"nozzle", "ahead", 14 + 10}, {"torch body", "ahead", 14 + 65 + 10}, {"torch body", "behind", 160 - 150}, {"nozzle", "behind", 160 - 79}} {
		if got := gap(t, s, row.body, row.wall); math.Abs(got-row.want) > 1e-6 {
			t.Errorf("%s to %s: %.6f mm, want %.6f", row.body, row.wall, got, row.want)
		}
	}
	found := ""
	for _, f := range s.Findings() {
		found += string(f.Code) + ": " + f.Message + "\n"
	}
	if !strings.Contains(found, "torch-drawing-cut: of the torch's drawing what lies beyond the nozzle's end is taken for the wire") {
		t.Errorf("findings\n%s", found)
	}
}

// The cable's space is half its diameter and its play about the line.
func TestCable(t *testing.T) {
	j := bare(t)
	c := cellOf(t, j)
	j.Torch.Cable = []job.CablePiece{{Link: "flange", From: r3.Vec{X: -0.2}, To: r3.Vec{X: -0.3}, Diameter: 0.04, Play: 0.03}}
	tipFromFlange := c.FlangeFromTip.Inv()
	at := tipFromFlange.Apply(r3.Vec{X: -0.25, Y: 0.15}).Scale(1 / mm)
	j.Shapes = []job.Shape{wall(c, "pin", at, r3.Vec{X: 0.01, Y: 0.01, Z: 0.01})}
	if got := gap(t, scenes(t, j, c), "cable", "pin"); math.Abs(got-(150-50)) > 0.01 {
		t.Errorf("the cable is %.3f mm away, want 100", got)
	}
}

// What is wanted of each kind of pair, by phase.
func TestLimits(t *testing.T) {
	j := decode(t, "keel-cradle")
	j.Clearance = job.Clearance{Nozzle: 0.001, Torch: 0.002, Air: 0.003, Cable: 0.004, Arm: 0.005, Self: 0.006, Stated: []string{"arm"}}
	s := scenes(t, j, cellOf(t, j))
	for _, row := range []struct {
		a, b               string
		weld, leave, inAir string
	}{
		{"nozzle", "sole", "nozzle", "nozzle", "air"},
		{"neck", "sole", "torch", "torch", "air"},
		{"torch body", "shop floor", "torch", "torch", "air"},
		{"cable", "cart table", "cable", "cable", "cable"},
		{"link4", "long wall", "arm", "arm", "arm"},
		{"link2", "link5", "self", "self", "self"},
		{"nozzle", "link3", "self", "self", "self"},
	} {
		i := pairOf(t, s, row.a, row.b)
		for phase, want := range []string{row.weld, row.leave, row.inAir} {
			l := s.Limit(scene.Phase(phase), i)
			source := "common practice, no source"
			if want == "arm" {
				source = "the job document, clearance.arm"
			}
			distance := map[string]float64{"nozzle": 0.001, "torch": 0.002, "air": 0.003, "cable": 0.004, "arm": 0.005, "self": 0.006}[want]
			if l.Field != want || l.Distance != distance || l.Source() != source {
				t.Errorf("%s and %s in phase %d: %+v from %q, want %s", row.a, row.b, phase, l, l.Source(), want)
			}
		}
		if s.Welding(0)[i] != s.Limit(scene.Weld, i).Distance || s.Leaving(0)[i] != s.Limit(scene.Leave, i).Distance || s.Air()[i] != s.Limit(scene.InAir, i).Distance {
			t.Errorf("%s and %s: the regimes are not the limits", row.a, row.b)
		}
	}
}

// pairOf is the index of a pair that must be looked at.
func pairOf(t *testing.T, s *scene.Scene, a, b string) int {
	t.Helper()
	i := indexOf(s, a, b)
	if i < 0 {
		t.Fatalf("%s and %s are no pair", a, b)
	}
	return i
}

func indexOf(s *scene.Scene, a, b string) int {
	bodies := s.Model.Bodies()
	for i, p := range s.Model.Pairs() {
		if x, y := bodies[p.A].Name, bodies[p.B].Name; x == a && y == b || x == b && y == a {
			return i
		}
	}
	return -1
}

// A pair under ignore is not looked at, by any of its bodies' names or words; one
// that keep names stays, though a wider one is ignored.
func TestIgnoreAndKeep(t *testing.T) {
	j := decode(t, "keel-cradle")
	j.Clearance.Ignore = []job.NamePair{{A: "arm", B: "shop floor"}, {A: "torch", B: "near clamp"}, {A: "sole", B: "nozzle"}}
	j.Clearance.Keep = []job.NamePair{{A: "link3", B: "shop floor"}, {A: "link3", B: "link4"}}
	s := scenes(t, j, cellOf(t, j))
	for _, row := range []struct {
		a, b string
		kept bool
	}{
		{"link2", "shop floor", false}, {"link2 (2)", "shop floor", false}, {"link3", "shop floor", true}, {"link3 (2)", "shop floor", true},
		{"nozzle", "near clamp", false}, {"neck", "near clamp (2)", false}, {"torch body", "near clamp (3)", false}, {"cable", "near clamp", true},
		{"nozzle", "sole", false}, {"nozzle (2)", "sole", false}, {"neck", "sole", true},
		{"link3", "link4", true}, {"link2", "link3", false},
		{"cable", "link3", false}, {"cable", "nozzle", false},
		{"sole", "cart table", false}, {"nozzle", "torch body", false},
	} {
		if got := indexOf(s, row.a, row.b) >= 0; got != row.kept {
			t.Errorf("%s and %s: looked at %v, want %v", row.a, row.b, got, row.kept)
		}
	}
	why := map[string]string{}
	for _, c := range s.Choices {
		why[c.A+", "+c.B] = c.Why
	}
	for pair, want := range map[string]string{
		"link2, shop floor": "left out: asked for", "link3, shop floor": "looked at: asked for", "link2, link3": "left out: arm links with one joint between them",
		"sole, cart table": "left out: fixed to each other", "link3, cable": "left out: the cable leads along arm and torch",
	} {
		if why[pair] != want {
			t.Errorf("%s: %q, want %q", pair, why[pair], want)
		}
	}
}

// A pair that is never as far apart as is wanted is held to half of the most.
func TestEased(t *testing.T) {
	j := bare(t)
	c := cellOf(t, j)
	j.Shapes = []job.Shape{{Name: "shelf", Kind: job.ShapePlate, Size: r3.Vec{X: 0.4, Y: 0.4, Z: 0.01}, LinkFromShape: se3.Translation(r3.Vec{X: -0.2, Y: -0.2, Z: 0.17})}}
	s := scenes(t, j, c)
	eased := 0
	for i, p := range s.Model.Pairs() {
		l := s.Limit(scene.Weld, i)
		if !l.Eased {
			continue
		}
		eased++
		a, b := s.Model.Bodies()[p.A], s.Model.Bodies()[p.B]
		if !strings.HasPrefix(a.Name, "link1") || b.Name != "shelf" || !(l.Distance > 0 && l.Distance < j.Clearance.Arm/2) {
			t.Errorf("%s and %s: %+v", a.Name, b.Name, l)
		}
	}
	if eased == 0 || !strings.Contains(codes(s), "bodies-always-near") {
		t.Errorf("%d pairs eased, findings %s", eased, codes(s))
	}
}

func codes(s *scene.Scene) string {
	var all []string
	for _, f := range s.Findings() {
		all = append(all, string(f.Code))
	}
	return strings.Join(all, " ")
}

// What makes no body is said with its place in the document.
func TestUnusable(t *testing.T) {
	j := bare(t)
	c := cellOf(t, j)
	at := job.Place{File: "job.yaml", Line: 7, Column: 3, Field: "members.plates[0]"}
	for _, row := range []struct {
		name   string
		change func(*job.Job)
		want   string
	}{
		{"edges that run the same way", func(j *job.Job) {
			j.Plates = []job.TypedPlate{{Name: "a", Along: r3.Vec{X: 1}, Across: r3.Vec{X: 2}, Length: 1, Width: 1, Thickness: 0.01, At: at}}
		}, `job.yaml:7:3: members.plates[0]: found "a", whose edges run the same way; allowed: two edges square to each other; check along and across`},
		{"a cable on no link of the arm", func(j *job.Job) {
			j.Torch.Cable = []job.CablePiece{{Link: "gone", Diameter: 0.01, At: at}}
		}, `job.yaml:7:3: members.plates[0]: found "gone", which does not hang on the arm; allowed: a link of the arm from base to flange, or one that these carry; found no link "gone" beside or behind the chain's base link; allowed: a link that the chain's joints carry; correct the name`},
		{"a mesh without area", func(j *job.Job) {
			j.Shapes = []job.Shape{{Name: "b", Kind: job.ShapeMesh, At: at, LinkFromShape: se3.Identity(), Mesh: job.MeshFile{File: "b.stl", Mesh: mesh.Mesh{Vertices: []r3.Vec{{}, {X: 1}, {X: 2}}, Triangles: [][3]int32{{0, 1, 2}}}}}}
		}, `job.yaml:7:3: members.plates[0]: found "b.stl", whose triangles all have no area; allowed: a shape; check the unit, and export the shape again`},
	} {
		j := bare(t)
		row.change(j)
		if _, err := scene.New(j, c); err == nil || err.Error() != row.want {
			t.Errorf("%s: got %v, want %s", row.name, err, row.want)
		}
	}
}

// A shape is made anew where its file, its unit or its scale changed, and only
// there; the answers are the same.
func TestKept(t *testing.T) {
	j := decode(t, "header-stand")
	c := cellOf(t, j)
	var k scene.Kept
	shape := func() collision.Shape {
		t.Helper()
		s, err := k.New(j, c)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range s.Model.Bodies() {
			if b.Name == "guard" {
				return b.Shape
			}
		}
		t.Fatal("no guard")
		return collision.Shape{}
	}
	first := shape()
	if again := shape(); again != first {
		t.Error("the same file was looked over again")
	}
	fresh := scenes(t, j, c)
	kept, err := k.New(j, c)
	if err != nil {
		t.Fatal(err)
	}
	if codes(fresh) != codes(kept) || len(fresh.Meshes()) != len(kept.Meshes()) {
		t.Errorf("kept says %s, afresh %s", codes(kept), codes(fresh))
	}
	for i := range j.Shapes {
		j.Shapes[i].Mesh.SHA256[0]++
	}
	if other := shape(); other == first {
		t.Error("another file was taken for the same")
	}
}

// Meshes of the arm's file are scaled by axis, in metres, and hang on their link.
func TestArmMeshes(t *testing.T) {
	urdf, err := os.ReadFile("../../examples/arms/kittiwake.urdf")
	if err != nil {
		t.Fatal(err)
	}
	const flange = `<link name="flange"/>`
	if strings.Count(string(urdf), flange) != 1 {
		t.Fatal("the flange of kittiwake is written otherwise")
	}
	arm := strings.Replace(string(urdf), flange, `<link name="flange"><collision><origin xyz="0 0 0.5"/><geometry><mesh filename="box.obj" scale="0.001 0.002 -0.001"/></geometry></collision></link>`, 1)
	files := texts{"arms/kittiwake.urdf": arm, "arms/box.obj": "v 0 0 0\nv 10 0 0\nv 0 10 0\nv 0 0 10\nf 1 3 2\nf 1 2 4\nf 1 4 3\nf 2 3 4\n"}
	files["job.yaml"] = strings.NewReplacer("arms/whimbrel.urdf", "arms/kittiwake.urdf", ", part_link: table_top", "", "  table: [0 deg, 0 deg]\n", "",
		"[0, 0, 0, -30, 60, 0, 60, 0]", "[0, -30, 60, 0, 60, 0]", "measured_in: part", "measured_in: base").Replace(onTable)
	j, err := job.Decode("job.yaml", files)
	if err != nil {
		t.Fatal(err)
	}
	s := scenes(t, j, cellOf(t, j))
	if len(s.Meshes()) != 1 {
		t.Fatalf("%d meshes, want 1", len(s.Meshes()))
	}
	r := s.Meshes()[0]
	if want := (r3.Vec{X: 0.01, Y: 0.02, Z: 0.01}); r.Name != "flange" || r.File != "arms/box.obj" || r.Left.Box.Size().Dist(want) > 1e-12 || r.Left.Box.Max.Z != 0 || !r.Left.Sound() {
		t.Errorf("%s from %s: %v, sound %v; want the size %v below the origin", r.Name, r.File, r.Left.Box, r.Left.Sound(), want)
	}
}

package motion_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
	"seamwright/robot/urdf"
)

// scene is one of the reference scenes; see testdata/README.md. Numbers are m
// and rad; a pose is 4 x 4, row by row, in the arm's base.
type scene struct {
	Name  string `json:"-"`
	Arm   string
	Boxes []struct {
		T    [16]float64
		Size [3]float64
	}
	Meshes  [][16]float64
	Queries [][2][6]float64
	Paths   [][][6]float64
}

var sceneNames = []string{"sphw6_boxes", "offw6_boxes", "sphw6_mesh", "offw6_mesh"}

func unzip(tb testing.TB, file string) []byte {
	tb.Helper()
	f, err := os.Open("testdata/air/" + file)
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		tb.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

func readScenes(tb testing.TB) []scene {
	tb.Helper()
	var all map[string]scene
	if err := json.Unmarshal(unzip(tb, "scenes.json.gz"), &all); err != nil {
		tb.Fatal(err)
	}
	var list []scene
	for _, name := range sceneNames {
		s := all[name]
		s.Name = name
		if len(s.Queries) != 50 || len(s.Paths) != 50 || len(s.Boxes) == 0 {
			tb.Fatalf("scene %s is not whole", name)
		}
		list = append(list, s)
	}
	return list
}

// readPart returns the part's triangles. The file holds the numbers of vertices
// and of triangles, every corner's vertex number less that of the corner three
// before, and the vertices' float32 by coordinate and byte.
func readPart(tb testing.TB) (vertices []r3.Vec, triangles [][3]int32) {
	tb.Helper()
	r := bytes.NewReader(unzip(tb, "part.mesh.gz"))
	var counts [2]uint32
	read := func(to any) {
		if err := binary.Read(r, binary.LittleEndian, to); err != nil {
			tb.Fatal(err)
		}
	}
	read(&counts)
	steps := make([]int16, 3*counts[1])
	read(steps)
	planes := make([]byte, 12*counts[0])
	read(planes)
	corner := [3]int32{}
	for i, d := range steps {
		if corner[i%3] += int32(d); i%3 == 2 {
			triangles = append(triangles, corner)
		}
	}
	n := int(counts[0])
	for i := range n {
		var v [3]float32
		var raw [12]byte
		for k := range raw {
			raw[k] = planes[k*n+i]
		}
		if err := binary.Read(bytes.NewReader(raw[:]), binary.LittleEndian, &v); err != nil {
			tb.Fatal(err)
		}
		vertices = append(vertices, r3.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])})
	}
	return vertices, triangles
}

func poseOf16(t *[16]float64) se3.Pose {
	return se3.Pose{
		R: se3.Rot{t[0], t[1], t[2], t[4], t[5], t[6], t[8], t[9], t[10]},
		P: r3.Vec{X: t[3], Y: t[7], Z: t[11]},
	}
}

func postureOf(v [6]float64) (q kinematics.Q) {
	copy(q[:], v[:])
	return q
}

func readSceneArm(tb testing.TB, arm string) (*urdf.Robot, *kinematics.Chain) {
	tb.Helper()
	f, err := os.Open("testdata/" + arm + ".urdf")
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	robot, err := urdf.Parse(f, arm)
	if err != nil {
		tb.Fatal(err)
	}
	chain, err := kinematics.NewChain(robot, "link0", "flange")
	if err != nil {
		tb.Fatal(err)
	}
	return robot, chain
}

func solidOf(tb testing.TB, g urdf.Geometry) convex.Solid {
	tb.Helper()
	var s convex.Solid
	var err error
	switch g.Kind {
	case urdf.Box:
		s, err = convex.NewBox(g.Size)
	case urdf.Cylinder:
		s, err = convex.NewCylinder(g.Radius, g.Length)
	case urdf.Sphere:
		s, err = convex.NewSphere(g.Radius)
	default:
		err = fmt.Errorf("geometry %v", g)
	}
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// world is a scene as the planner sees it.
type world struct {
	scene   *scene
	model   *collision.Model
	scratch *collision.Scratch
	regime  collision.Regime
	joints  []motion.AirJoint // with weight 1
}

func (w *world) Clear(q *kinematics.Q) bool { return w.model.Clear(w.scratch, q, w.regime) }

func (w *world) ClearMove(from, to *kinematics.Q) bool {
	return w.model.ClearMove(w.scratch, from, to, w.regime)
}

// clearance is the least distance of any pair up to half a metre, m.
func (w *world) clearance(q *kinematics.Q) float64 {
	near, found := w.model.Least(w.scratch, q, w.regime, 0.5)
	if !found {
		return 0.5
	}
	return near.Slack()
}

// query returns the request of a reference query, from one clear posture to
// another, rad.
func (w *world) query(i int) *motion.AirRequest {
	q := &w.scene.Queries[i]
	return &motion.AirRequest{Start: postureOf(q[0]), Goals: []kinematics.Q{postureOf(q[1])}, Joints: w.joints, Checker: w}
}

// newWorld makes the model of a scene with the pairs of the reference: every arm
// body but link 0's against what stands about it, and against arm bodies that are
// neither on the same nor on neighbouring links, links 3 and 5, 4 and 6 apart.
func newWorld(tb testing.TB, s *scene, part *bvh.Tree) *world {
	tb.Helper()
	robot, chain := readSceneArm(tb, s.Arm)
	var bodies []collision.Body
	for i := range robot.Links {
		for k, shape := range robot.Links[i].Collisions {
			link, err := collision.LinkNamed(chain, robot.Links[i].Name)
			if err != nil {
				tb.Fatal(err)
			}
			bodies = append(bodies, collision.Body{Name: fmt.Sprintf("%s %d", robot.Links[i].Name, k), Group: collision.ArmLink,
				Link: link, LinkFromBody: shape.Origin, Shape: collision.OfSolid(solidOf(tb, shape.Geometry))})
		}
	}
	for i := range s.Boxes {
		b := &s.Boxes[i]
		solid, err := convex.NewBox(r3.Vec{X: b.Size[0], Y: b.Size[1], Z: b.Size[2]})
		if err != nil {
			tb.Fatal(err)
		}
		bodies = append(bodies, collision.Body{Name: fmt.Sprintf("box %d", i), Group: collision.Fixture,
			LinkFromBody: poseOf16(&b.T), Shape: collision.OfSolid(solid)})
	}
	for i := range s.Meshes {
		bodies = append(bodies, collision.Body{Name: fmt.Sprintf("mesh %d", i), Group: collision.Part,
			LinkFromBody: poseOf16(&s.Meshes[i]), Shape: collision.OfTree(part)})
	}
	model, choices, err := collision.NewModel(chain, bodies, wristLeftOut(bodies))
	if err != nil {
		tb.Fatal(err)
	}
	for _, c := range choices {
		if c.Reason == collision.AlwaysTouching {
			tb.Fatalf("%s: %s and %s always touch", s.Name, c.A, c.B)
		}
	}
	joints := motion.AirJoints(chain, &kinematics.Q{}, math.Pi)
	for j := range joints {
		joints[j].Weight = 1
	}
	return &world{scene: s, model: model, scratch: model.Scratch(), regime: model.Wanted(0), joints: joints}
}

func wristLeftOut(bodies []collision.Body) (o collision.PairOptions) {
	for i := range bodies {
		for k := range i {
			a, b := bodies[k].Name, bodies[i].Name
			if strings.HasPrefix(a, "link4") && strings.HasPrefix(b, "link6") || strings.HasPrefix(a, "link3") && strings.HasPrefix(b, "link5") {
				o.LeaveOut = append(o.LeaveOut, [2]string{a, b})
			}
		}
	}
	return o
}

func readWorlds(tb testing.TB) (worlds []*world) {
	tb.Helper()
	part, err := bvh.New(readPart(tb))
	if err != nil {
		tb.Fatal(err)
	}
	scenes := readScenes(tb)
	for i := range scenes {
		worlds = append(worlds, newWorld(tb, &scenes[i], part))
	}
	return worlds
}

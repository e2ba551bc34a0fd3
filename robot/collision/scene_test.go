package collision_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"sort"
	"strings"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// placing is a thing at a pose (4 x 4, row by row, m) in the arm's base.
type placing struct {
	T    [16]float64
	Size [3]float64 // of a box, m
	File string     // of a mesh
}

func (p *placing) pose() se3.Pose {
	t := &p.T
	return se3.Pose{
		R: se3.Rot{t[0], t[1], t[2], t[4], t[5], t[6], t[8], t[9], t[10]},
		P: r3.Vec{X: t[3], Y: t[7], Z: t[11]},
	}
}

// scene is an arm among boxes and meshes; see testdata/README.md.
type scene struct {
	Arm           string
	Boxes, Meshes []placing
}

// state is a posture and whether nothing of a scene touches there.
type state struct {
	Scene string
	ID    int
	Q     []float64
	Valid bool
}

func (s *state) q() (q kinematics.Q) {
	copy(q[:], s.Q)
	return q
}

func unpacked(tb testing.TB, path string) []byte {
	tb.Helper()
	f, err := os.Open(path)
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

func readScenes(tb testing.TB) (scenes map[string]scene) {
	tb.Helper()
	if err := json.Unmarshal(unpacked(tb, "testdata/scenes.json.gz"), &scenes); err != nil {
		tb.Fatal(err)
	}
	return scenes
}

// sceneNames returns the scenes' names in order.
func sceneNames(scenes map[string]scene) (names []string) {
	for name := range scenes {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

// packedPart reads the part that the tests of geom/bvh keep; its README there
// describes the form.
func packedPart(tb testing.TB) *bvh.Tree {
	tb.Helper()
	data := bytes.NewReader(unpacked(tb, "../../geom/bvh/testdata/part.mesh.gz"))
	var head [2]uint32
	mustRead(tb, data, &head)
	corners := make([][3]float32, head[0])
	mustRead(tb, data, corners)
	short := make([][3]uint16, head[1])
	mustRead(tb, data, short)
	var vertices []r3.Vec
	for _, c := range corners {
		vertices = append(vertices, r3.Vec{X: float64(c[0]), Y: float64(c[1]), Z: float64(c[2])})
	}
	var triangles [][3]int32
	for _, t := range short {
		triangles = append(triangles, [3]int32{int32(t[0]), int32(t[1]), int32(t[2])})
	}
	tree, err := bvh.New(vertices, triangles)
	if err != nil {
		tb.Fatal(err)
	}
	return tree
}

func mustRead(tb testing.TB, r io.Reader, data any) {
	tb.Helper()
	if err := binary.Read(r, binary.LittleEndian, data); err != nil {
		tb.Fatal(err)
	}
}

// readRobot reads one of the arms that the tests of robot/kinematics keep.
func readRobot(tb testing.TB, arm string) *urdf.Robot {
	tb.Helper()
	f, err := os.Open("../kinematics/testdata/" + arm + ".urdf")
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	r, err := urdf.Parse(f, arm)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

// solidOf returns the solid of a URDF primitive.
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

// armBodies returns the primitives of a robot's links.
func armBodies(tb testing.TB, r *urdf.Robot, c *kinematics.Chain) (bodies []collision.Body) {
	tb.Helper()
	for i := range r.Links {
		for k, shape := range r.Links[i].Collisions {
			link, err := collision.LinkNamed(c, r.Links[i].Name)
			if err != nil {
				tb.Fatal(err)
			}
			bodies = append(bodies, collision.Body{
				Name: fmt.Sprintf("%s %d", r.Links[i].Name, k), Group: collision.ArmLink, Link: link,
				LinkFromBody: shape.Origin, Shape: collision.OfSolid(solidOf(tb, shape.Geometry)),
			})
		}
	}
	return bodies
}

// model returns the model of a scene with the pairs that the reference tests:
// not link 0 against what stands about it, and not the wrist's own links 3 and
// 5, 4 and 6.
func (sc *scene) model(tb testing.TB, part *bvh.Tree) *collision.Model {
	tb.Helper()
	r := readRobot(tb, sc.Arm)
	chain := newChain(tb, r, "link0", "flange")
	bodies := armBodies(tb, r, chain)
	for i := range sc.Boxes {
		p := &sc.Boxes[i]
		solid, err := convex.NewBox(r3.Vec{X: p.Size[0], Y: p.Size[1], Z: p.Size[2]})
		if err != nil {
			tb.Fatal(err)
		}
		bodies = append(bodies, collision.Body{Name: fmt.Sprintf("box %d", i), Group: collision.Fixture,
			LinkFromBody: p.pose(), Shape: collision.OfSolid(solid)})
	}
	for i := range sc.Meshes {
		bodies = append(bodies, collision.Body{Name: fmt.Sprintf("mesh %d", i), Group: collision.Part,
			LinkFromBody: sc.Meshes[i].pose(), Shape: collision.OfTree(part)})
	}
	var options collision.PairOptions
	for i := range bodies {
		for k := range i {
			a, b := bodies[k].Name, bodies[i].Name
			wrist := strings.HasPrefix(a, "link4") && strings.HasPrefix(b, "link6") ||
				strings.HasPrefix(a, "link3") && strings.HasPrefix(b, "link5")
			if wrist {
				options.LeaveOut = append(options.LeaveOut, [2]string{a, b})
			} else if !fixedOrNeighbours(&bodies[k], &bodies[i]) {
				options.Keep = append(options.Keep, [2]string{a, b})
			}
		}
	}
	m, _, err := collision.NewModel(chain, bodies, options)
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

func fixedOrNeighbours(a, b *collision.Body) bool {
	return a.Link == 0 && b.Link == 0 ||
		a.Group == collision.ArmLink && b.Group == collision.ArmLink && max(a.Link-b.Link, b.Link-a.Link) <= 1
}

// bruteLeast is Least over all pairs, one after the other.
func bruteLeast(m *collision.Model, q *kinematics.Q, r collision.Regime) collision.Near {
	least := collision.Near{Pair: -1, Distance: math.Inf(1)}
	s := m.Scratch()
	for i := range r {
		one := make(collision.Regime, len(r))
		for k := range one {
			one[k] = -1
		}
		if one[i] = r[i]; r[i] < 0 {
			continue
		}
		m.Forget(s)
		if n, _ := m.Least(s, q, one, math.Inf(1)); n.Slack() < least.Slack() {
			least = n
		}
	}
	return least
}

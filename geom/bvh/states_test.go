//go:build reference

package bvh_test

import (
	"bufio"
	"encoding/json"
	"math"
	"os"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// matrix is a pose as the reference writes it: row by row, m.
type matrix [16]float64

func (t *matrix) pose() se3.Pose {
	return se3.Pose{
		R: se3.Rot{t[0], t[1], t[2], t[4], t[5], t[6], t[8], t[9], t[10]},
		P: r3.Vec{X: t[3], Y: t[7], Z: t[11]},
	}
}

// form is a primitive or a mesh at a pose.
type form struct {
	Type           string
	T              matrix
	Size           [3]float64
	Radius, Length float64
	File           string
}

func (f *form) solid() convex.Solid {
	s := convex.Solid{Size: r3.Vec{X: f.Size[0], Y: f.Size[1], Z: f.Size[2]}, Radius: f.Radius, Length: f.Length}
	switch f.Type {
	case "cylinder":
		s.Kind = convex.Cylinder
	case "sphere":
		s.Kind = convex.Sphere
	}
	return s
}

func fullJSON(tb testing.TB, name string, into any) {
	tb.Helper()
	data, err := os.ReadFile(fullPath(tb, name))
	if err == nil {
		err = json.Unmarshal(data, into)
	}
	if err != nil {
		tb.Fatal(err)
	}
}

// stage is a scene of the reference and the arm in it.
type stage struct {
	links  [][]convex.Solid
	from   [][]se3.Pose // link from solid
	origin []matrix
	boxes  []convex.Solid
	at     []se3.Pose
	trees  []*bvh.Tree
	treeAt []se3.Pose
}

func newStage(tb testing.TB, name string) *stage {
	var scenes map[string]struct {
		Arm           string
		Boxes, Meshes []form
	}
	var arms map[string]struct {
		Links  [][]form
		Origin []matrix `json:"joint_origin"`
	}
	fullJSON(tb, "scenes.json", &scenes)
	fullJSON(tb, "arms.json", &arms)
	scene := scenes[name]
	arm := arms[scene.Arm]
	s := &stage{origin: arm.Origin}
	for _, link := range arm.Links {
		var solids []convex.Solid
		var poses []se3.Pose
		for _, f := range link {
			solids, poses = append(solids, f.solid()), append(poses, f.T.pose())
		}
		s.links, s.from = append(s.links, solids), append(s.from, poses)
	}
	for _, f := range scene.Boxes {
		s.boxes, s.at = append(s.boxes, f.solid()), append(s.at, f.T.pose())
	}
	for _, f := range scene.Meshes {
		s.trees, s.treeAt = append(s.trees, fullTree(tb, "part20k")), append(s.treeAt, f.T.pose())
	}
	return s
}

// touches asks every way there is whether two solids touch, and fails where the
// answers differ.
func (s *stage) touches(t *testing.T, a, b *convex.Solid, p *se3.Pose, axis *r3.Vec) bool {
	gap := convex.Distance(a, b, p)
	hit := gap.Distance == 0
	if convex.Clears(a, b, p, 0) == hit || convex.ClearsAlong(a, b, p, 0, axis) == hit {
		t.Fatalf("%v %v: distance %v, %v %v from %v %v", a, b, gap, hit, convex.Clears(a, b, p, 0), *axis, *p)
	}
	depth, _ := convex.Depth(a, b, p)
	if (depth > 0) != hit {
		t.Fatalf("%v %v: distance %g, depth %g", a, b, gap.Distance, depth)
	}
	return hit
}

// TestFullStates compares with the Flexible Collision Library 0.7, whose answers
// for 8,000 postures of two arms the reference holds: link 0 is not held against
// the scene, nor links against those beside them, 3 against 5, or 4 against 6.
func TestFullStates(t *testing.T) {
	for _, name := range []string{"sphw6_boxes", "offw6_boxes", "sphw6_mesh", "offw6_mesh"} {
		s := newStage(t, name)
		f, err := os.Open(fullPath(t, "states_"+name+".jsonl"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		var axis r3.Vec
		least, count := math.Inf(1), 0
		for lines := bufio.NewScanner(f); lines.Scan(); count++ {
			var c struct {
				ID    int
				Q     [6]float64
				Valid bool
			}
			if err := json.Unmarshal(lines.Bytes(), &c); err != nil {
				t.Fatal(err)
			}
			if valid := s.valid(t, &c.Q, &axis, &least); valid != c.Valid {
				t.Errorf("%s %d: valid %v, want %v", name, c.ID, valid, c.Valid)
			}
		}
		t.Logf("%s: %d states, least distance of those that do not touch %.3g m", name, count, least)
	}
}

func (s *stage) valid(t *testing.T, q *[6]float64, axis *r3.Vec, least *float64) bool {
	var poses [][]se3.Pose
	link := se3.Identity()
	for i := range s.links {
		if i > 0 {
			link = link.Mul(s.origin[i-1].pose()).Mul(se3.Pose{R: se3.RotZ(q[i-1])})
		}
		var of []se3.Pose
		for _, p := range s.from[i] {
			of = append(of, link.Mul(p))
		}
		poses = append(poses, of)
	}
	ok := true
	for i, link := range s.links {
		for k := range link {
			a, at := &link[k], poses[i][k]
			hold := func(b *convex.Solid, p se3.Pose) {
				p = at.Inv().Mul(p)
				if s.touches(t, a, b, &p, axis) {
					ok = false
				} else {
					*least = min(*least, convex.Distance(a, b, &p).Distance)
				}
			}
			if i > 0 {
				for j := range s.boxes {
					hold(&s.boxes[j], s.at[j])
				}
				for j, tree := range s.trees {
					p := s.treeAt[j].Inv().Mul(at)
					spot, _ := tree.SolidUnder(a, p, math.Inf(1))
					if tree.ClearsSolid(a, p, 0) == (spot.Distance == 0) {
						t.Fatalf("%v: distance %g and clears differ", a, spot.Distance)
					}
					if spot.Distance == 0 {
						ok = false
					} else {
						*least = min(*least, spot.Distance)
					}
				}
			}
			for j := i + 2; j < len(s.links); j++ {
				if i == 3 && j == 5 || i == 4 && j == 6 {
					continue
				}
				for l := range s.links[j] {
					hold(&s.links[j][l], poses[j][l])
				}
			}
		}
	}
	return ok
}

package picture

import (
	"fmt"
	"math"

	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

const degree = math.Pi / 180 // rad

// temper are the colours of heated steel from straw for no margin to blue for
// an ample one, and the margins that they stand for, deg.
var temper = []struct {
	margin float64
	rgb    [3]float64
}{
	{0, [3]float64{0xe0, 0xb8, 0x4a}}, {15, [3]float64{0xa8, 0x62, 0x2c}}, {30, [3]float64{0x77, 0x3f, 0x74}}, {45, [3]float64{0x2c, 0x5c, 0x9c}},
}

// temperOf is the colour of a margin, rad.
func temperOf(margin float64) string {
	m := math.Max(0, margin/degree)
	c := temper[len(temper)-1].rgb
	for i := 1; i < len(temper); i++ {
		if a, b := temper[i-1], temper[i]; m < b.margin {
			f := (m - a.margin) / (b.margin - a.margin)
			for k := range c {
				c[k] = a.rgb[k] + f*(b.rgb[k]-a.rgb[k])
			}
			break
		}
	}
	return fmt.Sprintf("#%02x%02x%02x", byte(math.Round(c[0])), byte(math.Round(c[1])), byte(math.Round(c[2])))
}

// margin is how far a posture stays from the nearest joint limit and from the
// wrist's singularity, rad.
func margin(p *plan.Plan, q *kinematics.Q) float64 {
	m := p.Cell.Solver.Singularity(q).Wrist
	for i := range p.Cell.Chain.N() {
		j := p.Cell.Chain.Joint(i)
		m = min(m, q[i]-j.Lower, j.Upper-q[i])
	}
	return m
}

// bead is a seam's fillet, drawn wider than it is so that it shows, in the
// colours of the arm's margin along it.
func bead(p *plan.Plan, s *plan.Seam, wide float64) []face {
	m := s.Passes[0].Motion
	var faces []face
	for i := m.First; i < m.Last; i++ {
		a, b := &m.Stations[i], &m.Stations[i+1]
		colour := paint{fill: temperOf((margin(p, &a.Q) + margin(p, &b.Q)) / 2), class: "bead"}
		from, to := section(s, a.Along, wide), section(s, b.Along, wide)
		n := to[1].Sub(from[1]).Cross(from[2].Sub(from[1])).Unit()
		if out := s.Geometry.At(a.Along).Bisector; n.Dot(out) < 0 {
			n = n.Neg()
		}
		f := polygon(n, colour, from[1], to[1], to[2], from[2])
		f.edge = []bool{true, i == m.Last-1, true, i == m.First}
		faces = append(faces, f)
		if i == m.First || i == m.Last-1 {
			end, t := from, s.Geometry.At(a.Along).T.Neg()
			if i == m.Last-1 {
				end, t = to, t.Neg()
			}
			faces = append(faces, polygon(t, colour, end[0], end[1], end[2]))
		}
	}
	return faces
}

// section is root and toes of the fillet at a place of the seam, legs of wide m.
func section(s *plan.Seam, along, wide float64) [3]r3.Vec {
	f := s.Geometry.At(along)
	sin, cos := math.Sincos(f.Included)
	return [3]r3.Vec{f.Origin, f.Origin.AddScaled(wide, f.B), f.Origin.AddScaled(wide*cos, f.B).AddScaled(wide*sin, f.M)}
}

// needle is a torch target: its point on the wire's tip, along the wire.
func needle(pose se3.Pose, length float64, eye r3.Vec, p paint) []face {
	head := pose.P.AddScaled(-length, pose.R.Z())
	return along(pose.P, head, 0, length/26, 8).faces(eye, p)
}

// targets are the needles of a seam: as planned at its ends and where it was
// taught, and as taught with hair lines to where they should have been.
func targets(s *plan.Seam, length float64, eye r3.Vec) []face {
	planned, ghost := paint{fill: "#31434f", class: "needle"}, paint{fill: "#fbf7ea", class: "ghost"}
	var faces []face
	for i := range s.Taught {
		t := &s.Taught[i]
		if t.Role == plan.RoleApproach || t.Role == plan.RoleRetreat {
			continue
		}
		faces = append(faces, needle(t.Wanted, length, eye, planned)...)
		faces = append(faces, needle(t.BaseFromTip, length, eye, ghost)...)
		head := func(p se3.Pose) r3.Vec { return p.P.AddScaled(-length*1.04, p.R.Z()) }
		faces = append(faces, stroke("hair", head(t.BaseFromTip), head(t.Wanted)), stroke("hair", t.BaseFromTip.P, t.Wanted.P))
	}
	return faces
}

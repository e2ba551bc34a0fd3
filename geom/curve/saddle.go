package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// SaddleRequest says how a branch tube stands on a run tube and which part of
// the curve in which their walls meet is walked. Branch.Axis points out of the
// run, along the branch; the two axes may miss each other.
//
// Start and Sweep are angles about Branch.Axis, right-handed where positive.
// Start counts from the side of the branch that faces along Run.Axis: 0 and a
// half turn are the crowns, over the run's back; the quarter turns between them
// are the saddle points, at the run's sides.
type SaddleRequest struct {
	Run, Branch  Tube
	Start, Sweep float64 // rad; a full turn, either way, closes the curve
}

// saddle is the curve by the angle u (rad) about the branch:
//
//	foot + r*(cos(u)*x + sin(u)*y) + t*d,  t = (h + r*cos(u)*cosA)/sinA
//	h = sqrt(R^2 - (e + r*sin(u))^2)
//
// foot is where the branch's axis passes the run's, d its unit direction, y
// square to both axes, x = y x d; e is the distance of the axes along y, A the
// angle between them and h the height over the run's axis.
type saddle struct {
	foot, x, y, d r3.Vec
	r             float64 // m, of the branch
	gaps          [2]float64
	cosA, sinA    float64
	sign          float64
}

// NewSaddle returns the curve in which the outer wall of a branch tube meets the
// outer wall of a run tube, by arc length. It is one smooth piece, or, where the
// branch touches the side of the run (equal radii whose axes meet; within
// JoinTolerance), smooth pieces that meet in sharp corners there. Points lie on
// both walls to a nanometre, touching pieces to JoinTolerance.
//
// It fails for numbers that are not finite, tubes of no radius, axes within
// MinCross of each other, a branch that hangs over the side of the run, and a
// Sweep of nothing or more than a full turn.
// Formula: the development of a branch's end, textbook of sheet-metal layout,
// from memory; tested against both walls and closed forms.
func NewSaddle(r SaddleRequest) (Chain, error) {
	if err := r.Run.check("the run"); err != nil {
		return Chain{}, err
	}
	if err := r.Branch.check("the branch"); err != nil {
		return Chain{}, err
	}
	if err := checkSweep(r.Start, r.Sweep, r.Branch.Radius); err != nil {
		return Chain{}, err
	}
	s, err := newSaddle(r)
	if err != nil {
		return Chain{}, err
	}
	from, to, back := around(r.Start, r.Sweep)
	breaks := []float64{from}
	breaks = append(breaks, s.corners(from, to)...)
	breaks = append(breaks, to)
	pieces := make([]Curve, len(breaks)-1)
	for i := range pieces {
		piece := s
		piece.sign = piece.branchSign((breaks[i] + breaks[i+1]) / 2)
		table, err := newTable(&piece, breaks[i:i+2])
		if err != nil {
			return Chain{}, err
		}
		closed := len(pieces) == 1 && fullTurn(r.Sweep) && s.gaps[0] > 0 && s.gaps[1] > 0
		k := i
		if back {
			k = len(pieces) - 1 - i
		}
		pieces[k] = newSmooth(&piece, table, closed, back)
	}
	return NewChain(pieces...)
}

// newSaddle returns the shape without its sign.
func newSaddle(r SaddleRequest) (saddle, error) {
	along, d := r.Run.Axis.Unit(), r.Branch.Axis.Unit()
	out := d.Reject(along)
	s := saddle{d: d, r: r.Branch.Radius, cosA: along.Dot(d), sinA: out.Norm()}
	if a := math.Asin(min(1, s.sinA)); a < MinCross {
		return s, fmt.Errorf("curve: the axes of run and branch lie %.2f deg from each other: at least %.0f deg are needed", a*180/math.Pi, MinCross*180/math.Pi)
	}
	out = out.Unit()
	s.y = out.Cross(along)
	s.x = s.y.Cross(d)
	toBranch := r.Branch.Point.Sub(r.Run.Point)
	s.foot = r.Branch.Point.AddScaled(-toBranch.Dot(out)/s.sinA, d)
	offset := toBranch.Dot(s.y)
	s.gaps = [2]float64{r.Run.Radius - offset - s.r, r.Run.Radius + offset - s.r}
	for i, gap := range s.gaps {
		if !(gap >= -JoinTolerance) {
			return s, fmt.Errorf("curve: the branch, radius %.6g mm, stands %.1f mm off the axis of the run, radius %.6g mm, and hangs over its side by %.3g mm: the walls do not meet all round; give a smaller branch or offset",
				s.r*mm, math.Abs(offset)*mm, r.Run.Radius*mm, -gap*mm)
		}
		if gap <= JoinTolerance {
			s.gaps[i] = 0
		}
	}
	return s, nil
}

// corners returns the angles (rad), rising, strictly between from and to at
// which the branch touches the side of the run.
func (s *saddle) corners(from, to float64) []float64 {
	var at []float64
	const near = 1e-9 // rad: a start at the corner itself
	for k := math.Ceil((from + near - math.Pi/2) / math.Pi); ; k++ {
		u := math.Pi/2 + k*math.Pi
		if u > to-near {
			return at
		}
		side := 0
		if math.Mod(k, 2) != 0 {
			side = 1
		}
		if s.gaps[side] == 0 {
			at = append(at, u)
		}
	}
}

// branchSign returns the sign that makes the height positive about u (rad).
func (s *saddle) branchSign(u float64) float64 {
	s.sign = 1
	h, _, _ := s.height(u)
	return math.Copysign(1, h)
}

// height returns the height h (m) over the run's axis and its first and second
// derivative (m/rad, m/rad2). It is the product of the roots of R - y and R + y,
// each written so that it keeps its digits where the branch comes near the
// run's side, and is an analytic function of u where it touches.
func (s *saddle) height(u float64) (h, h1, h2 float64) {
	a, a1, a2 := s.side(s.gaps[0], u-math.Pi/2)
	b, b1, b2 := s.side(s.gaps[1], u+math.Pi/2)
	return s.sign * a * b, s.sign * (a1*b + a*b1), s.sign * (a2*b + 2*a1*b1 + a*b2)
}

// side returns sqrt(gap + 2*r*sin(v/2)^2) and its derivatives by v.
func (s *saddle) side(gap, v float64) (f, f1, f2 float64) {
	sin, cos := math.Sincos(v / 2)
	if gap == 0 {
		root := math.Sqrt(2 * s.r)
		return root * sin, root / 2 * cos, -root / 4 * sin
	}
	f = math.Sqrt(gap + 2*s.r*sin*sin)
	f1 = s.r * sin * cos / f
	f2 = (s.r*(cos*cos-sin*sin)/2 - f1*f1) / f
	return f, f1, f2
}

func (s *saddle) at(u float64) (p, d r3.Vec) {
	sin, cos := math.Sincos(u)
	h, h1, _ := s.height(u)
	t := (h + s.r*cos*s.cosA) / s.sinA
	t1 := (h1 - s.r*sin*s.cosA) / s.sinA
	p = s.foot.AddScaled(s.r*cos, s.x).AddScaled(s.r*sin, s.y).AddScaled(t, s.d)
	return p, s.y.Scale(s.r*cos).AddScaled(-s.r*sin, s.x).AddScaled(t1, s.d)
}

func (s *saddle) bend(u float64) r3.Vec {
	sin, cos := math.Sincos(u)
	_, _, h2 := s.height(u)
	t2 := (h2 - s.r*cos*s.cosA) / s.sinA
	return s.x.Scale(-s.r*cos).AddScaled(-s.r*sin, s.y).AddScaled(t2, s.d)
}

func (s *saddle) moved(bFromA se3.Pose) shape { return s.mapped(bFromA.Apply, bFromA.Dir) }

func (s *saddle) mirrored(m Mirror) shape { return s.mapped(m.Point, m.Dir) }

func (s *saddle) mapped(point, dir func(r3.Vec) r3.Vec) shape {
	image := *s
	image.foot, image.x, image.y, image.d = point(s.foot), dir(s.x), dir(s.y), dir(s.d)
	return &image
}

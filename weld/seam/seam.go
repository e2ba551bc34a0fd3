// Package seam holds the line to be welded together with the two plates that
// meet there, and turns the trade's torch angles into poses and back.
//
// All positions (m) and directions of a seam are in one frame, the seam's
// frame: whatever frame its path and its faces were given in. At every arc
// length a Frame says where travel goes (T), how the base plate faces (M) and
// which way the joint opens along the base plate (B). Angles follow AWS A3.0:
// work is measured from the normal of the base plate, the non-butting member,
// so a torch square to a butt joint has work 0 (not 90); travel from the plane
// square to the seam, push positive, drag negative.
//
//	s, err := seam.New(seam.Spec{Path: line, Joint: weld.Tee, Base: base.Face, Other: upright.Face})
//	frameFromTip := s.At(0).Encode(seam.Aim{Work: s.At(0).BisectingWork(), Travel: 10 * math.Pi / 180})
//
// Where a path has sharp corners, a Way leads the torch round them and says what
// that costs in angle; Metal says what a stand there costs in metal. Seams come
// from taught points and told plates (Known), or from typed sizes (MeetPlates,
// MeetPlateTube, MeetTubes), and are moved, mirrored and repeated with the part.
package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/weld"
)

// Keep says what is taken as it is where the path and the plates, each with its
// own errors, are not quite square to each other.
type Keep uint8

// The two readings.
const (
	// KeepTravel takes the path's direction as it is and makes the plates'
	// normals square to it. It is right where the path is known better than the
	// plates, as a long seam is.
	KeepTravel Keep = iota
	// KeepPlates takes the bisector of the plates as it is and makes the
	// direction of travel square to it. It is right where the plates are known
	// better than the path: a plate that is truly level, plates touched at wide
	// spread. Points stay where the path has them; only directions turn.
	KeepPlates
)

// Limits of what is taken for a seam. They keep the frame well defined and
// catch slips; they are no welding rules (common practice, no source).
const (
	// MinSquare is the least angle (rad) between a plate's normal and the
	// travel, either way along it: 30 deg. A seam lies in both plates, so the
	// true angle is 90 deg; anything near 0 is another plate's normal.
	MinSquare = 30 * math.Pi / 180
	// MinIncluded and MaxIncluded bound the angle between the plates (rad) of
	// a tee, a lap or a corner: 15 and 165 deg. Below, no nozzle gets in;
	// above, it is a butt joint.
	MinIncluded = 15 * math.Pi / 180
	MaxIncluded = 165 * math.Pi / 180
	// MinFlat is the least angle between the plates (rad) of a butt or an edge
	// joint: 135 deg. Below, it is a corner.
	MinFlat = 135 * math.Pi / 180
)

// Spec describes a seam to New. Base is the non-butting member of a tee, the
// lower plate of a lap, the plate from which work is measured elsewhere. Other
// is the upright of a tee, the edge of the upper plate of a lap, the other
// plate of a corner; a butt or an edge joint may leave it out.
type Spec struct {
	Path  curve.Curve
	Joint weld.JointType
	Base  Face
	Other Face
	Keep  Keep
}

// Seam is a seam on a part. It never changes once made, and may be used from
// several goroutines.
type Seam struct {
	spec      Spec
	offSquare float64 // rad
}

// New returns the seam that spec describes. It walks the path, at every joint
// of it and every 10 mm or 64th part, whichever is longer, and fails, naming
// the place, where a plate's normal lies within MinSquare of the travel, where
// the angle between the plates does not suit the joint, or where the joint
// changes the side to which it opens.
func New(spec Spec) (*Seam, error) {
	if err := spec.complete(); err != nil {
		return nil, err
	}
	s := &Seam{spec: spec}
	stations, err := walk(spec.Path)
	if err != nil {
		return nil, err
	}
	var open float64 // +1 or -1: whether the joint opens to the left of travel
	for i, arc := range stations {
		side, err := s.check(arc)
		if err != nil {
			return nil, err
		}
		if i > 0 && side != open {
			return nil, fmt.Errorf("seam: the joint opens to the other side from %.1f mm of the path on; give the other plate's face as it stands along the whole path, or split the seam there", arc*1e3)
		}
		open = side
	}
	return s, nil
}

// complete refuses a spec that leaves out what its joint needs.
func (spec Spec) complete() error {
	switch spec.Joint {
	case weld.Tee, weld.Lap, weld.InsideCorner, weld.OutsideCorner, weld.Butt, weld.Edge:
	default:
		return fmt.Errorf("seam: joint type %d is not known; state tee, lap, inside corner, outside corner, butt or edge", spec.Joint)
	}
	switch {
	case spec.Path == nil:
		return fmt.Errorf("seam: no path given")
	case spec.Base == nil:
		return fmt.Errorf("seam: the base plate is not known; say how it faces (up, level, a direction, or touch it at three points)")
	case spec.Other == nil && !flat(spec.Joint):
		return fmt.Errorf("seam: a %v joint needs its other plate; say on which side it stands, or touch it", spec.Joint)
	case spec.Keep > KeepPlates:
		return fmt.Errorf("seam: keep %d: keep the travel (%d) or the plates (%d)", spec.Keep, KeepTravel, KeepPlates)
	}
	return nil
}

// walk returns the arc lengths (m) at which a path is looked at: its ends, its
// joints and every 10 mm or 64th part between, whichever is longer; closer on
// small arcs, whose chords may leave them by 0.1 mm.
func walk(path curve.Curve) ([]float64, error) {
	stations, err := curve.Stations(path, max(0.010, path.Length()/64), 1e-4)
	if err != nil {
		return nil, fmt.Errorf("seam: %w", err)
	}
	return stations, nil
}

// flat reports whether the plates of the joint lie in one plane or side by
// side, so that neither stands on the other.
func flat(j weld.JointType) bool { return j == weld.Butt || j == weld.Edge }

// check refuses the seam at one arc length (m) or returns +1 or -1: the side of
// travel to which the joint opens there, left positive.
func (s *Seam) check(arc float64) (side float64, err error) {
	p, t := s.spec.Path.At(arc)
	n, err := checkNormal("base plate", s.spec.Base, p, t, arc)
	if err != nil {
		return 0, err
	}
	s.offSquare = max(s.offSquare, math.Abs(math.Pi/2-n.Angle(t)))
	if s.spec.Other == nil {
		return 1, nil
	}
	if _, err := checkNormal("other plate", s.spec.Other, p, t, arc); err != nil {
		return 0, err
	}
	f := s.At(arc)
	low, high := MinIncluded, MaxIncluded
	if flat(s.spec.Joint) {
		low, high = MinFlat, math.Pi
	}
	if !(f.Included >= low && f.Included <= high) {
		return 0, fmt.Errorf("seam: the plates of this %v joint meet at %.1f deg at %.1f mm of the path; %.0f to %.0f deg are possible; check which plate was touched, or call the joint by its type",
			s.spec.Joint, deg(f.Included), arc*1e3, deg(low), deg(high))
	}
	return math.Copysign(1, f.B.Dot(f.M.Cross(f.T))), nil
}

// checkNormal returns the face's normal, refusing one that is undefined or lies
// along the travel t.
func checkNormal(what string, face Face, p, t r3.Vec, arc float64) (r3.Vec, error) {
	n := face.Normal(p, t)
	if !(math.Abs(n.Norm()-1) < 1e-6) {
		return n, fmt.Errorf("seam: the %s has no normal at %.1f mm of the path (%v); there the travel runs along the direction by which it is given, or the path meets the tube's axis", what, arc*1e3, n)
	}
	if a := n.Angle(t); a < MinSquare || a > math.Pi-MinSquare {
		return n, fmt.Errorf("seam: the normal of the %s lies %.0f deg from the direction of travel at %.1f mm of the path; a seam lies in its plates, so about 90 deg is right and at least %.0f is needed: was another face touched?",
			what, deg(min(a, math.Pi-a)), arc*1e3, deg(MinSquare))
	}
	return n, nil
}

func deg(rad float64) float64 { return rad * 180 / math.Pi }

// Path returns the line that the wire follows.
func (s *Seam) Path() curve.Curve { return s.spec.Path }

// Joint returns how the plates meet.
func (s *Seam) Joint() weld.JointType { return s.spec.Joint }

// Base returns the plate from which work is measured.
func (s *Seam) Base() Face { return s.spec.Base }

// Other returns the other plate, nil where none was given.
func (s *Seam) Other() Face { return s.spec.Other }

// Length returns the path's length, in metres.
func (s *Seam) Length() float64 { return s.spec.Path.Length() }

// OffSquare returns the largest angle (rad) by which the base normal as given
// and the path are not square to each other, over the stations that New walked.
// A few degrees are errors of touch; more says that path and plate do not
// belong together.
func (s *Seam) OffSquare() float64 { return s.offSquare }

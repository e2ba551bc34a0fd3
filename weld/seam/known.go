package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
)

// Known is a plate's surface as it was told, with what decided it.
type Known struct {
	Face    Face
	Keep    Keep    // how path and plate are to be made square: goes into Spec.Keep when this is the base
	Decided string  // in words: what was told, and what decided the outward side
	Sigma   float64 // rad, standard deviation of the normal where it was measured; 0 where it was stated
}

// MaxClimb is the largest angle (rad) between a level plate and the path taught
// on it: 10 deg. Tips taught 1.5 mm off on 60 mm err by 2 deg; more than five
// times that is a plate that is not level (common practice, no source).
const MaxClimb = 10 * math.Pi / 180

// Up tells a plate whose welded side looks up: its normal is up, the direction
// against gravity in the seam's frame, made square to the travel wherever the
// seam runs. It fails where the seam runs so steeply (within MinSquare of the
// vertical) that up says nothing about the plate.
func Up(path curve.Curve, up r3.Vec) (Known, error) { return vertical(path, up, up, "up") }

// Down tells a plate whose welded side looks down, as overhead; otherwise it is
// as Up.
func Down(path curve.Curve, up r3.Vec) (Known, error) { return vertical(path, up, up.Neg(), "down") }

func vertical(path curve.Curve, up, dir r3.Vec, word string) (Known, error) {
	climb, arc, err := steepest(path, up)
	if err != nil {
		return Known{}, err
	}
	if climb > math.Pi/2-MinSquare {
		return Known{}, fmt.Errorf("seam: the plate is told as %q, but the seam climbs %.0f deg at %.1f mm; above %.0f deg that does not say how the plate faces: touch three points on it, or give a direction",
			word, deg(climb), arc*1e3, deg(math.Pi/2-MinSquare))
	}
	return Known{Face: Towards{Dir: dir.Unit()}, Decided: fmt.Sprintf("told: the welded side looks %s, made square to the travel", word)}, nil
}

// Level tells a plate that is truly level with its welded side up. Its normal
// is up, the direction against gravity in the seam's frame, exactly, and a climb
// of the path counts as an error of touch: the plates are kept (KeepPlates) and
// the travel is made square to their bisector. It fails where the path climbs
// more than MaxClimb.
func Level(path curve.Curve, up r3.Vec) (Known, error) {
	climb, arc, err := steepest(path, up)
	if err != nil {
		return Known{}, err
	}
	if climb > MaxClimb {
		return Known{}, fmt.Errorf("seam: the plate is told as level, but the seam climbs %.1f deg at %.1f mm; a level plate carries at most the error of touch, %.0f deg: tell it as up, or touch three points on it",
			deg(climb), arc*1e3, deg(MaxClimb))
	}
	return Known{
		Face: Plane{N: up.Unit()}, Keep: KeepPlates,
		Decided: fmt.Sprintf("told: the plate is level; the taught climb of %.1f deg is taken as an error of touch", deg(climb)),
	}, nil
}

// steepest returns the largest angle (rad) between the path and the horizontal
// and the arc length (m) where it is.
func steepest(path curve.Curve, up r3.Vec) (climb, arc float64, err error) {
	if path == nil {
		return 0, 0, fmt.Errorf("seam: no path given")
	}
	if n := up.Norm(); !(n > 0.1) || !up.IsFinite() {
		return 0, 0, fmt.Errorf("seam: up is given as %v, which names no direction", up)
	}
	stations, err := walk(path)
	if err != nil {
		return 0, 0, err
	}
	for _, s := range stations {
		_, t := path.At(s)
		if c := math.Abs(math.Pi/2 - up.Angle(t)); c > climb {
			climb, arc = c, s
		}
	}
	return climb, arc, nil
}

// Direction tells a plate by a direction square to it, of any length: a normal
// read from a drawing, a level's reading, a CAD face. Where outward is nil the
// direction itself points out of the plate on the welded side; otherwise its
// sign means nothing and outward decides.
func Direction(dir r3.Vec, outward *Outward) (Known, error) {
	n := dir.Unit()
	if !dir.IsFinite() || n == (r3.Vec{}) {
		return Known{}, fmt.Errorf("seam: the plate's direction is given as %v, which names none", dir)
	}
	if outward == nil {
		return Known{Face: Plane{N: n}, Decided: "told: the direction square to the plate, outward as given"}, nil
	}
	n, why, err := outward.decide(n)
	if err != nil {
		return Known{}, err
	}
	return Known{Face: Plane{N: n}, Decided: "told: the direction square to the plate; outward side: " + why}, nil
}

// Stands tells a plate by the side on which it stands on another and by the
// angle (rad) between the two on the open side, pi/2 for a square tee; see
// Upright. It fails for a side that is not stated and an angle outside
// MinIncluded..MaxIncluded.
func Stands(on Face, side Side, included float64) (Known, error) {
	if on == nil {
		return Known{}, fmt.Errorf("seam: the upright's side is told, but not the plate it stands on")
	}
	if side != Left && side != Right {
		return Known{}, fmt.Errorf("seam: the upright's side is not told; say left or right, seen along the travel with the base plate's welded side up")
	}
	if !(included >= MinIncluded && included <= MaxIncluded) {
		return Known{}, fmt.Errorf("seam: the plates are told to meet at %.1f deg; %.0f to %.0f deg are possible", deg(included), deg(MinIncluded), deg(MaxIncluded))
	}
	return Known{
		Face:    Upright{On: on, Side: side, Included: included},
		Decided: fmt.Sprintf("told: stands on the %v of the travel, %.1f deg from the other plate", side, deg(included)),
	}, nil
}

// MaxTilt is the largest standard deviation (rad) of a touched plate's normal
// that is accepted: 5 deg, the whole tolerance of a torch angle (+-5 deg; common
// practice, no source).
const MaxTilt = 5 * math.Pi / 180

// Touched tells a plate by three or more points (m) touched on its welded side,
// each coordinate with standard deviation sigma (m). The two ends of the seam
// lie in the plate and may be among the points. It fails where fit.Plane does,
// where the normal comes out less certain than MaxTilt, and where outward does
// not decide the side.
func Touched(points []r3.Vec, sigma float64, outward Outward) (Known, error) {
	plane, err := fit.Plane(points, sigma)
	if err != nil {
		return Known{}, fmt.Errorf("seam: plate touched at %d points: %w", len(points), err)
	}
	if plane.TiltSigma > MaxTilt {
		return Known{}, fmt.Errorf("seam: the %d touched points fix the plate's tilt only within %.1f deg (one standard deviation, touches %.2g mm off); %.0f deg at most is of use: touch further apart, to the side of the line through the others",
			len(points), deg(plane.TiltSigma), plane.Sigma*1e3, deg(MaxTilt))
	}
	n, why, err := outward.decide(plane.Normal)
	if err != nil {
		return Known{}, err
	}
	return Known{
		Face: Plane{N: n}, Sigma: plane.TiltSigma,
		Decided: fmt.Sprintf("touched at %d points, normal within %.1f deg; outward side: %s", len(points), deg(plane.TiltSigma), why),
	}, nil
}

// TouchedVertical tells a plate that contains the vertical by two or more
// points (m) touched on its welded side, at any heights. It fails where the
// points, seen from above, lie within fit.MinSpread, and otherwise as Touched.
func TouchedVertical(points []r3.Vec, up r3.Vec, sigma float64, outward Outward) (Known, error) {
	u := up.Unit()
	if !up.IsFinite() || u == (r3.Vec{}) {
		return Known{}, fmt.Errorf("seam: up is given as %v, which names no direction", up)
	}
	plan := make([]r3.Vec, len(points))
	for i, p := range points {
		plan[i] = p.Reject(u)
	}
	line, err := fit.Line(plan, sigma)
	if err != nil {
		return Known{}, fmt.Errorf("seam: vertical plate touched at %d points, seen from above: %w", len(points), err)
	}
	if line.DirSigma > MaxTilt {
		return Known{}, fmt.Errorf("seam: the %d touched points fix the vertical plate only within %.1f deg (one standard deviation); %.0f deg at most is of use: touch further apart",
			len(points), deg(line.DirSigma), deg(MaxTilt))
	}
	n, why, err := outward.decide(u.Cross(line.Dir).Unit())
	if err != nil {
		return Known{}, err
	}
	return Known{
		Face: Plane{N: n}, Sigma: line.DirSigma,
		Decided: fmt.Sprintf("touched at %d points and told vertical, normal within %.1f deg; outward side: %s", len(points), deg(line.DirSigma), why),
	}, nil
}

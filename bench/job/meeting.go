package job

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// MemberFace names a face of a typed plate.
type MemberFace struct {
	Plate string
	Face  FaceName
}

// FaceName is a face of a typed plate: front and rear, and the four narrow ones
// where the length begins and ends and where the width begins and ends.
type FaceName string

// The faces.
const (
	FaceFront FaceName = "front"
	FaceRear  FaceName = "rear"
	FaceStart FaceName = "start"
	FaceEnd   FaceName = "end"
	FaceNear  FaceName = "near"
	FaceFar   FaceName = "far"
)

var faceNames = []FaceName{FaceFront, FaceRear, FaceStart, FaceEnd, FaceNear, FaceFar}

// Meeting is a seam where two typed plates meet: the base plate's welded face
// and the face of the other plate, which Stands left or right of the travel.
// From and To trim it, in m from its start; a To of 0 leaves its end.
type Meeting struct {
	Base, Upright MemberFace
	Stands        PlateKind
	From, To      float64
}

// TubeOnPlate is a seam round a typed tube that stands on a face of a typed
// plate, at any angle. Wall is PlateTubeOutside or PlateTubeInside. Start (rad)
// counts from the side that faces Zero, a direction in the arm's base frame, the
// zero vector where none was given; Sweep (rad) is positive right-handed about
// the tube's axis.
type TubeOnPlate struct {
	Plate        MemberFace
	Tube         string
	Wall         PlateKind
	Zero         r3.Vec
	Start, Sweep float64
}

// Saddle is a seam where a typed branch tube meets a typed run tube. Start (rad)
// counts about the branch from the side that faces along the run; Sweep (rad) is
// positive right-handed about the branch's axis.
type Saddle struct {
	Run, Branch  string
	Start, Sweep float64
}

// metDraft is a path that follows from typed members, while it is read.
type metDraft struct {
	meetBase, meetOther, plate ref
	tube, run, branch          ref
	zero                       []float64
	at                         Place
}

// fullTurn is how far round a tube is welded where the document does not say,
// rad.
const fullTurn = 2 * math.Pi

// fields lists the path forms that need typed members.
func (d *metDraft) fields(s *Seam) []field {
	return []field{
		may("meeting", record{at: &d.at, example: "{base: {plate: sole, face: front}, upright: {plate: rib, face: rear}, stands: left}", fields: []field{
			need("base", faceForm(&s.Meeting.Base, &d.meetBase)),
			need("upright", faceForm(&s.Meeting.Upright, &d.meetOther)),
			need("stands", oneOf(&s.Meeting.Stands, PlateLeft, PlateRight)),
			may("from", quantity(unit.Length, &s.Meeting.From, startBy, "0 mm")),
			may("to", quantity(unit.Length, &s.Meeting.To, startBy, "200 mm")),
		}, check: func(ps *Problems, n node, clean bool) {
			differ(ps, d.meetBase, d.meetOther, "two plates that meet", "name the plate that butts")
			if to, given := n.get("to"); given && clean && s.Meeting.To <= s.Meeting.From {
				ps.add(to.at, to.found()+", which does not lie beyond from", "both counted from the start of the seam, to behind from", "change the two over, or leave to out where the seam runs to its end")
			}
		}}),
		may("tube_on_plate", record{at: &d.at, example: "{plate: {plate: sole, face: front}, tube: post}", fields: []field{
			need("plate", faceForm(&s.TubeOnPlate.Plate, &d.plate)),
			need("tube", named(&d.tube, "post")),
			may("wall", oneOf(&s.TubeOnPlate.Wall, PlateTubeOutside, PlateTubeInside)),
			may("zero", directionForm(&d.zero)),
			may("start", quantity(unit.Angle, &s.TubeOnPlate.Start, wholeTurn, "0 deg")),
			may("sweep", quantity(unit.Angle, &s.TubeOnPlate.Sweep, wholeTurn, "360 deg")),
		}, check: func(ps *Problems, n node, clean bool) {
			if zero, given := n.get("zero"); given && clean {
				s.TubeOnPlate.Zero = direction(ps, zero, d.zero, "write the direction in which the side looks from which start counts, such as [1, 0, 0]")
			}
			sweeps(ps, n, s.TubeOnPlate.Sweep)
		}}),
		may("saddle", record{at: &d.at, example: "{run: header, branch: stub}", fields: []field{
			need("run", named(&d.run, "header")),
			need("branch", named(&d.branch, "stub")),
			may("start", quantity(unit.Angle, &s.Saddle.Start, wholeTurn, "0 deg")),
			may("sweep", quantity(unit.Angle, &s.Saddle.Sweep, wholeTurn, "360 deg")),
		}, check: func(ps *Problems, n node, _ bool) {
			differ(ps, d.run, d.branch, "two tubes that meet", "name the tube that ends on the other")
			sweeps(ps, n, s.Saddle.Sweep)
		}}),
	}
}

// differ refuses a member that meets itself.
func differ(ps *Problems, first, second ref, allowed, mend string) {
	if first.text == second.text && second.text != "" {
		ps.add(second.at, quote(second.text)+" a second time", allowed, mend)
	}
}

// sweeps refuses a walk of no angle.
func sweeps(ps *Problems, n node, sweep float64) {
	if at, given := n.get("sweep"); given && sweep == 0 {
		ps.add(at.at, at.found()+", no way round", "an angle that is not 0; negative goes the other way round", "write how far round it is welded, such as 360 deg")
	}
}

func faceForm(f *MemberFace, plate *ref) record {
	return record{example: "{plate: sole, face: front}", fields: []field{
		need("plate", named(plate, "sole")),
		need("face", faceNameForm(&f.Face)),
	}}
}

// faceNameForm reads a face, and tells the faces apart to who writes another word.
func faceNameForm(dst *FaceName) single {
	s := oneOf(dst, faceNames...)
	take := s.take
	s.take = func(text string) *wrong {
		w := take(text)
		if w != nil && nearest(text, texts(faceNames)) == "" {
			w.mend = "with along to the right and across up, front faces you and rear lies behind it; start and end are the edges at the left and right, near and far those at the bottom and top"
		}
		return w
	}
	return s
}

// names looks up the members that a path names.
func (d *metDraft) names(ps *Problems, plates, tubes known) {
	for _, r := range []ref{d.meetBase, d.meetOther, d.plate} {
		d.check(ps, plates, r)
	}
	for _, r := range []ref{d.tube, d.run, d.branch} {
		d.check(ps, tubes, r)
	}
}

func (d *metDraft) check(ps *Problems, k known, r ref) {
	if len(k.names) == 0 && r.text != "" {
		ps.add(r.at, quote(r.text)+", and the document has no "+k.what, "the name of a "+k.what, "add it to the section members, with its sizes")
		return
	}
	k.check(ps, r)
}

// finish puts the names that were read into the seam, and clears what its path
// does not need.
func (d *metDraft) finish(s *Seam, baseFromMembers se3.Pose) {
	meeting, tube, saddle := s.Meeting, s.TubeOnPlate, s.Saddle
	s.Meeting, s.TubeOnPlate, s.Saddle = Meeting{}, TubeOnPlate{}, Saddle{}
	switch s.Path {
	case PathMeeting:
		meeting.Base.Plate, meeting.Upright.Plate = d.meetBase.text, d.meetOther.text
		s.Meeting = meeting
	case PathTubeOnPlate:
		tube.Plate.Plate, tube.Tube = d.plate.text, d.tube.text
		tube.Zero = baseFromMembers.Dir(tube.Zero)
		s.TubeOnPlate = tube
	case PathSaddle:
		saddle.Run, saddle.Branch = d.run.text, d.branch.text
		s.Saddle = saddle
	}
}

// goesRound reports whether a path of members comes back to its start.
func (s *Seam) goesRound() bool {
	sweep := 0.0
	switch s.Path {
	case PathTubeOnPlate:
		sweep = s.TubeOnPlate.Sweep
	case PathSaddle:
		sweep = s.Saddle.Sweep
	}
	return math.Abs(math.Abs(sweep)-fullTurn) < 1e-9
}

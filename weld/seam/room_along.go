package seam

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/section"
)

// RoomSpec says what a nozzle has to pass along a seam.
type RoomSpec struct {
	Way    Way
	Nozzle Nozzle
	// Groove is what lies between the plates of a butt joint, nil for a joint
	// without one. It stands at the seam as Root says, the line of the seam being
	// there, and with its positive X along Frame.B, or against it where Mirrored.
	Groove   *section.Groove
	Mirrored bool
	Root     section.Point // m
	// OtherThickness is how high the upper plate of a lap stands, m; 0: not known,
	// and then taken as higher than the nozzle.
	OtherThickness float64
	// Beads is the metal of passes that are laid already, m from Root, in the plane
	// across the seam at its start.
	Beads []Bar
}

// Names of the plates in a Gap.
const (
	BasePlate  = "base plate"
	OtherPlate = "upright"
	UpperPlate = "upper plate"
	LeftPlate  = "plate on the left"
	RightPlate = "plate on the right"
	PlateFace  = "face of the plates"
)

// farAway is how far from the seam plates are taken to reach, m: beyond any nozzle.
const farAway = 3.0

// Room is the joint as a nozzle meets it all along a seam. It never changes once
// made.
//
// Each plate is taken straight on along the seam, as it is at the place that is
// looked at. That is exact on a straight seam, and on the safe side where a plate
// curves away from the torch, as the outside of a tube does. Where it comes round
// towards the torch, in an inside corner or inside a tube, the plates of the places
// before and behind are looked at too. Plates other than the two of the joint are not
// here.
type Room struct {
	spec   RoomSpec
	fixed  []slab // grooves and beads, the same all along
	places []roomPlace

	made    []slab  // the plates that were made last, while it is being made
	madeFor float64 // rad
}

// roomPlace is a place of the way with the plates that count there.
type roomPlace struct {
	u      float64 // m of the way
	place  Place
	plates []roomPlate
}

// roomPlate is a plate of the joint as it is at the place of frame, which is the
// place's own or another.
type roomPlate struct {
	own   bool
	frame Frame
	slab  slab
}

// roomStep and roomChord are how far apart (m) the places of a room are at most, and
// by how much their chords may leave the path (m): the plates between two places are
// then told within it.
const (
	roomStep  = 5e-3
	roomChord = 0.02e-3
)

// roomTurn is how far the torch turns at most between places of a turn, rad: 2 deg.
const roomTurn = 2 * math.Pi / 180

// NewRoom returns the room along the way. It fails for a nozzle without sizes, a
// groove at another joint than a butt, outlines of fewer than three corners, and a
// path too long to walk.
func NewRoom(spec RoomSpec) (*Room, error) {
	if err := spec.Nozzle.check(); err != nil {
		return nil, err
	}
	if spec.Way.seam == nil {
		return nil, errors.New("seam: no way given")
	}
	joint := spec.Way.seam.Joint()
	if spec.Groove != nil && joint != weld.Butt {
		return nil, fmt.Errorf("seam: a groove between the edges of a %v joint: a butt joint has one", joint)
	}
	r := &Room{spec: spec}
	for _, b := range append(spec.grooved(), spec.Beads...) {
		if len(b.Outline) < 3 {
			return nil, fmt.Errorf("seam: the %s has %d corners across the seam: 3 or more are needed", b.Name, len(b.Outline))
		}
		moved := Bar{Name: b.Name}
		for _, p := range b.Outline {
			moved.Outline = append(moved.Outline, section.Point{X: p.X - spec.Root.X, Y: p.Y - spec.Root.Y})
		}
		r.fixed = append(r.fixed, newSlab(moved))
	}
	return r, r.walk()
}

// With returns the room as another nozzle, no larger than the room's own, meets it.
func (r *Room) With(n Nozzle) (*Room, error) {
	spec := r.spec
	spec.Nozzle = n
	if spec.Groove != nil { // whose mouth may now be wide enough
		return NewRoom(spec)
	}
	if err := n.check(); err != nil {
		return nil, err
	}
	other := *r
	other.spec = spec
	return &other, nil
}

// grooved is the metal beside the groove, m in its own section. A groove whose mouth
// the nozzle is too wide to enter counts as closed at the plates' face: so the
// clearance of its shoulders does not hang on where across the mouth the torch is,
// which is known to half a wire.
func (spec *RoomSpec) grooved() []Bar {
	g := spec.Groove
	if g == nil {
		return nil
	}
	left, right := LeftPlate, RightPlate // positive X is to the left of the travel
	var out []Bar
	if 2*spec.Nozzle.Radius > g.Mouth() {
		out = append(out, Bar{PlateFace, plate(g.Thickness)})
	}
	for _, p := range g.Plates(farAway) {
		name := right
		if p.Centroid().X > 0 {
			name = left
		}
		if spec.Mirrored {
			p = section.Hull(mirrored(p))
			name = map[string]string{left: right, right: left}[name]
		}
		out = append(out, Bar{name, p})
	}
	return out
}

func mirrored(p section.Polygon) []section.Point {
	out := make([]section.Point, len(p))
	for i, q := range p {
		out[i] = section.Point{X: -q.X, Y: q.Y}
	}
	return out
}

// plate is all below a height (m).
func plate(high float64) section.Polygon {
	return section.Polygon{{X: -farAway, Y: high - farAway}, {X: farAway, Y: high - farAway}, {X: farAway, Y: high}, {X: -farAway, Y: high}}
}

// plates are the plates of the joint where they stand at an angle (rad) to each other.
func (spec *RoomSpec) plates(included float64) []slab {
	sin, cos := math.Sincos(included)
	// behind is all metal behind the other plate's face, which runs up along (cos,
	// sin) from the line of the seam.
	behind := func(from, to float64) section.Polygon {
		foot, head := section.Point{X: from * cos, Y: from * sin}, section.Point{X: to * cos, Y: to * sin}
		back := section.Point{X: -farAway * sin, Y: farAway * cos}
		return section.Polygon{foot, head, {X: head.X + back.X, Y: head.Y + back.Y}, {X: foot.X + back.X, Y: foot.Y + back.Y}}
	}
	base := newSlab(Bar{BasePlate, plate(0)})
	switch joint := spec.Way.seam.Joint(); {
	case spec.Groove != nil:
		return nil
	case joint == weld.Butt || joint == weld.Edge:
		return []slab{base}
	case joint == weld.OutsideCorner:
		return []slab{newSlab(Bar{BasePlate, section.Polygon{{}, {X: -farAway}, {X: -farAway * cos, Y: -farAway * sin}}})}
	case joint == weld.Lap && spec.OtherThickness > 0:
		t := spec.OtherThickness
		return []slab{base, newSlab(Bar{UpperPlate, section.Polygon{{X: -farAway}, {}, {X: t * cos / sin, Y: t}, {X: -farAway, Y: t}}})}
	case joint == weld.Lap:
		return []slab{base, newSlab(Bar{UpperPlate, behind(-farAway, farAway)})}
	}
	return []slab{base, newSlab(Bar{OtherPlate, behind(-farAway, farAway)})}
}

// walk fills in the places.
func (r *Room) walk() error {
	w := r.spec.Way
	path := w.seam.Path()
	step := roomStep
	if _, straight := path.(curve.Line); straight {
		step = path.Length() // its two ends, for the plates may be told by a direction
	}
	arcs, err := curve.Stations(path, step, roomChord)
	if err != nil {
		return fmt.Errorf("seam: %w", err)
	}
	stations := make([]station, len(arcs))
	for i, arc := range arcs {
		f := w.seam.At(arc)
		stations[i] = station{arc: arc, frame: f, plates: r.plates(f.Included)}
	}
	for i, u := range r.along(arcs) {
		p := roomPlace{u: u, place: w.At(u)}
		p.plates = r.near(&p.place, stations)
		if n := len(r.places); i > 0 && n > 0 && r.places[n-1].same(&p) {
			continue
		}
		r.places = append(r.places, p)
	}
	return nil
}

// along lists the places of the way to be looked at: those of the path, and in and
// beside each sharp corner where the torch turns.
func (r *Room) along(arcs []float64) []float64 {
	w := r.spec.Way
	var list []float64
	next := 0
	for _, arc := range arcs {
		for next < len(w.turns) && w.turns[next].From <= arc {
			t := &w.turns[next]
			n := 1 + int(t.InPlace/roomTurn)
			for k := 0; k <= n; k++ {
				list = append(list, t.Start+(t.End-t.Start)*float64(k)/float64(n))
			}
			next++
		}
		list = append(list, w.Of(arc))
	}
	return list
}

// plates are those of the joint at an included angle (rad); most seams have one.
func (r *Room) plates(included float64) []slab {
	if r.made == nil || r.madeFor != included {
		r.made, r.madeFor = r.spec.plates(included), included
	}
	return r.made
}

// station is a place of the path with its plates.
type station struct {
	arc    float64 // m
	frame  Frame
	plates []slab
}

// sameFrame is how far apart the directions of two places may be that are one to a
// nozzle, dimensionless.
const sameFrame = 1e-12

// same reports whether the nozzle meets the same at two places of a straight seam.
func (p *roomPlace) same(q *roomPlace) bool {
	a, b := &p.place, &q.place
	if len(p.plates) != len(q.plates) || a.Frame.Included != b.Frame.Included {
		return false
	}
	for i := range p.plates { // plates of other places stand at another distance
		if !p.plates[i].own || !q.plates[i].own {
			return false
		}
	}
	for _, d := range [][2]r3.Vec{{a.Frame.T, b.Frame.T}, {a.Frame.M, b.Frame.M}, {a.Joint.T, b.Joint.T}, {a.Joint.M, b.Joint.M}} {
		if d[0].Dist(d[1]) > sameFrame {
			return false
		}
	}
	return true
}

// near returns the plates that count at a place: its own, and those before and behind
// it that come round towards the torch, as far as the nozzle reaches.
func (r *Room) near(at *Place, stations []station) []roomPlate {
	var list []roomPlate
	for _, s := range r.plates(at.Joint.Included) {
		list = append(list, roomPlate{true, at.Joint, s})
	}
	// A station at the very place, as in a corner, is the joint behind it.
	ahead := sort.Search(len(stations), func(i int) bool { return stations[i].arc >= at.Arc-roomFlat })
	span := r.spec.Nozzle.span()
	for plate := range list {
		list = append(list, inward(at, stations, ahead, 1, plate, span)...)
		list = append(list, inward(at, stations, ahead-1, -1, plate, span)...)
	}
	return list
}

// inward returns a plate of the joint as it is at stations on one side of a place, for
// as long as it comes round towards the torch there, within span (m).
func inward(at *Place, stations []station, from, way, plate int, span float64) []roomPlate {
	var list []roomPlate
	out, last := 0.0, at.Joint.face(plate)
	for i := from; i >= 0 && i < len(stations); i += way {
		s := &stations[i]
		if plate >= len(s.plates) || s.frame.Origin.Dist(at.Joint.Origin) > span {
			break
		}
		n := s.frame.face(plate)
		// How far before the face the place is, m. In a corner it is on both faces: then
		// the way on the other side of it tells on which side of the face it runs.
		off := at.Joint.Origin.Sub(s.frame.Origin).Dot(n)
		comes := off > out+roomFlat
		if math.Abs(off-out) <= roomFlat && n.Dist(last) > roomFlat {
			comes = -float64(way)*at.Joint.T.Dot(n) > 0
			if !comes {
				break
			}
		}
		if off < out-roomFlat {
			break // the plate curves away from there on
		}
		if comes {
			list = append(list, roomPlate{false, s.frame, s.plates[plate]})
			out, last = off, n
		}
	}
	return list
}

// roomFlat is by how much a face must differ to count as another, m, and its normal,
// dimensionless: rounding.
const roomFlat = 1e-7

// face is the outward normal of the face of a plate that holds the line of the seam.
func (f *Frame) face(plate int) r3.Vec {
	if plate == 0 {
		return f.M
	}
	sin, cos := math.Sincos(f.Included)
	return f.B.Scale(sin).AddScaled(-cos, f.M)
}

// gapAt returns the gap of a tip's pose at a place.
func (r *Room) gapAt(p *roomPlace, frameFromTip *se3.Pose) Gap {
	g := Gap{Clearance: math.Inf(1)}
	own := r.spec.Nozzle.of(&p.place.Joint, frameFromTip)
	for k := range p.plates {
		plate := &p.plates[k]
		seen := own
		if !plate.own {
			seen = r.spec.Nozzle.of(&plate.frame, frameFromTip)
		}
		g.take(&plate.slab, &plate.frame, &seen)
	}
	for k := range r.fixed {
		g.take(&r.fixed[k], &p.place.Joint, &own)
	}
	return g
}

// roomTie is how near two clearances are one, m, so that the first of equals is named on
// every machine.
const roomTie = 1e-9

// take puts metal in place of what is nearest so far where it is nearer.
func (g *Gap) take(s *slab, f *Frame, k *cast) {
	if s.beyond(k, g.Clearance) {
		return
	}
	m, n := s.gap(k, g.Clearance-roomTie)
	if !(m < g.Clearance-roomTie) {
		return
	}
	at, along := k.place(n)
	in := func(p section.Point) r3.Vec {
		return f.Origin.AddScaled(p.X, f.B).AddScaled(p.Y, f.M).AddScaled(along, f.T)
	}
	*g = Gap{Clearance: m, Metal: s.Name, Nozzle: in(at), On: in(section.Point{X: at.X - m*n.X, Y: at.Y - m*n.Y})}
}

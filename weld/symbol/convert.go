package symbol

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// Conversion is a request to write a symbol in another system.
type Conversion struct {
	To System
	// Angle is the included angle between the plates, rad; 0 for a square joint.
	Angle float64
	// Joint is the length of the joint, m. It is needed where a pitch becomes a
	// number of elements.
	Joint float64
}

// Converted is a symbol in another system.
type Converted struct {
	Symbol Symbol
	// Notes say, for people, what the change did and what the other system
	// cannot write.
	Notes []string
}

// Convert writes the symbol in another system. Into AWS A2.4, throats become
// legs by the included angle and clear gaps become pitches; from it, pitches
// become clear gaps with a number of elements, and legs stay legs. What the
// other system has no sign for goes into the tail or into a note; nothing is
// dropped in silence.
func (s Symbol) Convert(c Conversion) (Converted, error) {
	if c.Angle == 0 {
		c.Angle = math.Pi / 2
	}
	if c.To.Family() == 0 {
		return Converted{}, &Error{Name: NoSystem, Found: "no system to convert into", Allowed: names(systemWords), Mend: "name one"}
	}
	if err := s.Validate(); err != nil {
		return Converted{}, err
	}
	conv := converter{Conversion: c}
	if c.To == AWSA24 {
		sized, err := conv.toLegs(s)
		if err != nil {
			return Converted{}, err
		}
		s = sized
	}
	sides := []*Weld{&s.Arrow, &s.Other}
	if s.Symmetric() {
		sides = sides[:1] // both change alike; the notes are wanted once
	}
	symmetric := s.Symmetric()
	for _, w := range sides {
		if w.Kind == 0 {
			continue
		}
		change := conv.toISO
		if c.To == AWSA24 {
			change = conv.toAWS
		}
		if err := change(w); err != nil {
			return Converted{}, err
		}
	}
	if symmetric {
		s.Other = s.Arrow
	}
	conv.tail(&s)
	s.System = c.To
	return Converted{s, conv.notes}, s.Validate()
}

// converter gathers what a conversion has to say.
type converter struct {
	Conversion
	notes []string
	tails []string // what goes into the tail
}

func (c *converter) note(format string, args ...any) {
	c.notes = append(c.notes, fmt.Sprintf(format, args...))
}

// toLegs turns throats into legs, deep penetration into a word of the tail.
func (c *converter) toLegs(s Symbol) (Symbol, error) {
	for _, w := range []*Weld{&s.Arrow, &s.Other} {
		if w.Size.Deep != 0 {
			c.tails = append(c.tails, "deep penetration s"+mm(w.Size.Deep))
			w.Size.Deep = 0
		}
	}
	out, err := s.In(Leg, c.Angle)
	if err != nil {
		return Symbol{}, err
	}
	before, after := s.Welds(), out.Welds()
	for i := range before {
		if before[i].Size != after[i].Size && !(i == 1 && s.Symmetric()) {
			c.note("%v became %v at %s degrees between the plates", before[i].Size, after[i].Size, degrees(c.Angle))
			if math.Abs(c.Angle-math.Pi/2) > squareWithin {
				c.note("the leg lies along the plate; AWS D1.1 measures that of a skewed joint square to the other plate, %s mm", mm(after[i].Size.Value*math.Sin(c.Angle)))
			}
		}
	}
	return out, nil
}

// toAWS writes one weld as AWS A2.4 does.
func (c *converter) toAWS(w *Weld) error {
	if r := w.Run; r.SpacingIs == ClearGap {
		w.Run = Run{Length: r.Length, Spacing: r.Pitch(), SpacingIs: Pitch}
		note := fmt.Sprintf("%v became %v", r, w.Run)
		if r.Elements != 0 {
			extent := float64(r.Elements)*r.Pitch() - r.Gap()
			note += fmt.Sprintf("; A2.4 does not number the elements: dimension the %s mm that they reach over", mm(extent))
		}
		c.notes = append(c.notes, note)
	}
	if w.Contour == ToesBlended {
		w.Contour = 0
		c.tails = append(c.tails, "toes blended")
	}
	if plain := map[Kind]Kind{VRootFace: V, BevelRootFace: Bevel}[w.Kind]; plain != 0 {
		c.note("%v became %v; add the depth of preparation", w.Kind, plain)
		w.Kind = plain
	}
	return nil
}

// toISO writes one weld as ISO 2553 does.
func (c *converter) toISO(w *Weld) error {
	if r := w.Run; r.SpacingIs == Pitch {
		if c.Joint == 0 {
			return &Error{Name: BadRun, Found: "a pitch without the length of the joint", Allowed: "the length, which gives the number of elements", Mend: "measure the joint"}
		}
		over, err := r.Over(c.Joint)
		if err != nil {
			return err
		}
		w.Run = Run{Length: r.Length, Elements: over.Elements, Spacing: r.Gap(), SpacingIs: ClearGap}
		c.note("%v became %v on a joint of %s mm", r, w.Run, mm(c.Joint))
	}
	if w.Finish != 0 {
		c.tails = append(c.tails, "finish "+w.Finish.String())
		w.Finish = 0
	}
	if w.Depth != 0 {
		c.tails = append(c.tails, "depth of preparation "+mm(w.Depth))
		w.Depth = 0
	}
	return nil
}

// tail rewrites the tail: what has no sign goes in, what belongs to the other
// family comes out with a note.
func (c *converter) tail(s *Symbol) {
	t := &s.Tail
	if t.Position != 0 && t.Position.Family() != c.To.Family() {
		c.note("position %v left out: the two codes name positions differently", t.Position)
		t.Position = 0
	}
	if t.Level != "" && c.To.Family() == weld.AWS {
		c.note("level %s left out: it belongs to ISO; name the acceptance of the AWS code", t.Level)
		t.Level = ""
	}
	if len(c.tails) == 0 {
		return
	}
	if t.Note != "" {
		c.tails = append([]string{t.Note}, c.tails...)
	}
	t.Note = strings.Join(c.tails, " + ")
	c.note("the tail now says %q", t.Note)
}

// squareWithin is how far from square a joint still counts as square, rad: AWS
// D1.1:2010 2.4.2.6 has 80 to 100 degrees, read.
const squareWithin = 10 * unit.Deg

package weld

import "fmt"

// JointType is how the members of a weld joint meet (terms: AWS A3.0). The
// zero value is "not stated".
type JointType uint8

// The joint types.
const (
	Tee JointType = iota + 1
	Lap
	InsideCorner
	OutsideCorner
	Butt
	Edge
)

var jointWords = []word[JointType]{
	{Tee, "tee", []string{"t", "t joint", "tee joint"}},
	{Lap, "lap", []string{"lap joint"}},
	{InsideCorner, "inside corner", []string{"inner corner", "inside corner joint"}},
	{OutsideCorner, "outside corner", []string{"outer corner", "outside corner joint"}},
	{Butt, "butt", []string{"butt joint"}},
	{Edge, "edge", []string{"edge joint"}},
}

// String returns the trade's word, such as "inside corner".
func (j JointType) String() string { return nameOf(jointWords, "joint type", j) }

// ParseJointType reads a joint type from words such as "tee", "T-joint" or
// "inside corner". A bare "corner" is refused: the torch angle depends on
// which side of the corner is welded.
func ParseJointType(s string) (JointType, error) {
	if k := normalWord(s); k == "corner" || k == "cornerjoint" {
		return 0, fmt.Errorf("joint type %q does not say which side; write inside corner or outside corner", s)
	}
	return parseWord(jointWords, "joint type", s)
}

// WeldKind is the kind of weld that fills a joint. The zero value is "not
// stated".
type WeldKind uint8

// The weld kinds that this project places.
const (
	Fillet WeldKind = iota + 1
	Groove
)

var kindWords = []word[WeldKind]{
	{Fillet, "fillet", []string{"fillet weld"}},
	{Groove, "groove", []string{"groove weld", "butt weld"}},
}

// String returns "fillet" or "groove".
func (k WeldKind) String() string { return nameOf(kindWords, "weld kind", k) }

// ParseWeldKind reads a weld kind from words such as "fillet" or "butt weld".
func ParseWeldKind(s string) (WeldKind, error) { return parseWord(kindWords, "weld kind", s) }

// SizeKind says which measure of a fillet a size is. Drawings to ISO 2553 must
// say a (throat) or z (leg); drawings to AWS A2.4 give the leg without a
// letter. A bare number must be asked about, never guessed.
type SizeKind uint8

// The two measures of a fillet.
const (
	Leg    SizeKind = iota + 1 // z: root to toe along a plate face
	Throat                     // a: root to face, shortest
)

var sizeWords = []word[SizeKind]{
	{Leg, "leg", []string{"z", "leg length"}},
	{Throat, "throat", []string{"a"}},
}

// String returns "leg" or "throat".
func (k SizeKind) String() string { return nameOf(sizeWords, "size kind", k) }

// ParseSizeKind reads a measure from "leg", "z", "throat" or "a".
func ParseSizeKind(s string) (SizeKind, error) { return parseWord(sizeWords, "size kind", s) }

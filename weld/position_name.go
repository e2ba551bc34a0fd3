package weld

// PositionName is a welding position in the words of one code family: PA to PG
// of ISO 6947, 1F to 4F and 1G to 4G of AWS A3.0. The zero value is "not
// stated".
type PositionName uint8

// The positions of ISO 6947 for plates.
const (
	PA PositionName = iota + 1 // flat
	PB                         // horizontal-vertical (fillet)
	PC                         // horizontal
	PD                         // horizontal-overhead (fillet)
	PE                         // overhead
	PF                         // vertical up
	PG                         // vertical down
)

// The positions of AWS A3.0 for plates.
const (
	Flat1F PositionName = iota + 11
	Horizontal2F
	Vertical3F
	Overhead4F
	Flat1G
	Horizontal2G
	Vertical3G
	Overhead4G
)

var positionWords = []word[PositionName]{
	{PA, "PA", nil}, {PB, "PB", nil}, {PC, "PC", nil}, {PD, "PD", nil},
	{PE, "PE", nil}, {PF, "PF", nil}, {PG, "PG", nil},
	{Flat1F, "1F", nil}, {Horizontal2F, "2F", nil}, {Vertical3F, "3F", nil}, {Overhead4F, "4F", nil},
	{Flat1G, "1G", nil}, {Horizontal2G, "2G", nil}, {Vertical3G, "3G", nil}, {Overhead4G, "4G", nil},
}

// String returns the name as the standard prints it, such as "PB" or "2F".
func (p PositionName) String() string { return nameOf(positionWords, "position", p) }

// ParsePositionName reads a position such as "PB" or "2f".
func ParsePositionName(s string) (PositionName, error) {
	return parseWord(positionWords, "position", s)
}

// Family returns the code family whose word p is; zero for the zero value.
func (p PositionName) Family() CodeFamily {
	switch {
	case p >= PA && p <= PG:
		return ISO
	case p >= Flat1F && p <= Overhead4G:
		return AWS
	}
	return 0
}

// Vertical reports whether p is a vertical position, where uphill and downhill
// are different procedures.
func (p PositionName) Vertical() bool {
	return p == PF || p == PG || p == Vertical3F || p == Vertical3G
}

// Progression is the sense of travel against gravity. The zero value is "not
// stated".
type Progression uint8

// The progressions. They are different procedures only where the position is
// vertical.
const (
	Level Progression = iota + 1
	Uphill
	Downhill
)

var progressionWords = []word[Progression]{
	{Level, "level", nil},
	{Uphill, "uphill", []string{"up", "vertical up"}},
	{Downhill, "downhill", []string{"down", "vertical down"}},
}

// String returns "level", "uphill" or "downhill".
func (p Progression) String() string { return nameOf(progressionWords, "progression", p) }

// ParseProgression reads "level", "uphill" or "downhill".
func ParseProgression(s string) (Progression, error) {
	return parseWord(progressionWords, "progression", s)
}

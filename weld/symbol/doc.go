// Package symbol holds the weld symbols of drawings as data: fillet and groove
// symbols of ISO 2553 and AWS A2.4.
//
// The two standards write different things with the same figures: a fillet
// size is a leg without a letter in one and a lettered throat or leg in the
// other; stitches are given by pitch, centre to centre, in one and by the
// clear gap between them in the other. So no number here stands without its
// kind, and what a drawing leaves open is refused, never guessed.
//
// Lengths are m, angles rad. The text form is this project's own, made to be
// typed and read aloud, in mm and degrees unless it names a unit:
//
//	s, err := symbol.Parse("ISO 2553-A: a5 both sides, 3 x 50 (100), staggered, tail \"135/ISO 5817-C\"")
//	svg, err := s.SVG(unit.Metric)
//
// Sources: fields and sides, workshop articles on A2.4 and pages on A2.4:2020
// and ISO 2553:2013 and 2019 (read, secondary); the shapes of the elementary
// symbols, the place of each figure and the sign for staggered stitches are
// from memory. Check a symbol against the standard that the drawing names.
package symbol

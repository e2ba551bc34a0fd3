// Package section is the geometry of fillet welds and the rules on their size.
//
// A Fillet is a triangle: the included angle between the plates at the root
// and the legs along the plates. Units are SI (m, m2, rad). Each rule is data
// with its code, edition, clause and mark; rules of the ISO family speak of
// the throat a or the leg z, rules of the AWS family of the leg, and no
// function mixes them.
package section

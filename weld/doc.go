// Package weld holds the vocabulary of arc welding that every other weld
// package shares: joints, processes, transfer modes, welding positions, and
// the record of how each figure is known.
//
// Units are SI: m, rad, s, m/s, m3/s. Directions are unit vectors of r3 in any
// one frame, with "up" given by the caller. Nothing here replaces the
// qualified welding procedure, the edition of the code named in the contract
// or the responsible welding coordinator: each limit carries its Source, to be
// shown wherever the limit is shown.
//
//	pos, err := weld.Classify(weld.Fillet, travel, faceNormal, up)
//	fmt.Println(pos.ISO, pos.AWS) // PB 2F
package weld

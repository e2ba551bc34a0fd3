package seam

import (
	"fmt"
	"strings"
)

// Side is a side of the direction of travel, seen along it with the base
// plate's outward normal up. The zero value is "not stated".
type Side uint8

// The two sides.
const (
	Left Side = iota + 1
	Right
)

// String returns "left" or "right".
func (s Side) String() string {
	switch s {
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return fmt.Sprintf("side %d", uint8(s))
}

// ParseSide reads "left" or "right", in any case.
func ParseSide(s string) (Side, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "left":
		return Left, nil
	case "right":
		return Right, nil
	}
	return 0, fmt.Errorf("side %q: write left or right, seen along the travel with the base plate's welded side up", s)
}

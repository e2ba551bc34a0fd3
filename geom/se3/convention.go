package se3

import "strings"

// Convention is one way of writing an orientation down as a row of numbers,
// such as "fixed x-y-z degrees". Conventions are comparable. The zero value is
// no convention: it has no numbers and reads nothing.
//
// Orders of turns are named in words, never by bare letters: the same three
// letters mean different rotations about fixed and about moving axes.
type Convention struct {
	form    form
	moving  bool    // turns: about axes that the earlier turns have moved
	axes    [3]axis // turns: in the order of the numbers
	degrees bool    // angles in degrees, else radians
	second  bool    // quaternion w last; matrix by columns
}

// form is the family of a convention.
type form uint8

const (
	noForm form = iota
	turns
	quaternion
	rotationVector
	axisAngle
	matrix
	toolSpin
)

// axis is 0, 1 or 2 for x, y and z.
type axis uint8

func (a axis) lower() string { return "xyz"[a : a+1] }
func (a axis) upper() string { return "XYZ"[a : a+1] }

// orders are the twelve orders of three turns in which no two neighbours share
// an axis: six with three axes, six that come back to the first.
var orders = [12][3]axis{
	{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0},
	{0, 1, 0}, {0, 2, 0}, {1, 0, 1}, {1, 2, 1}, {2, 0, 2}, {2, 1, 2},
}

// Conventions returns every convention, in a fixed order: the turns about fixed
// and then moving axes in each of twelve orders, the quaternions, the rotation
// vector, axis and angle, the matrix, tool direction and spin; what has angles
// first in degrees, then in radians.
func Conventions() []Convention {
	var all []Convention
	for _, moving := range []bool{false, true} {
		for _, axes := range orders {
			all = append(all,
				Convention{form: turns, moving: moving, axes: axes, degrees: true},
				Convention{form: turns, moving: moving, axes: axes})
		}
	}
	return append(all,
		Convention{form: quaternion},
		Convention{form: quaternion, second: true},
		Convention{form: rotationVector, degrees: true},
		Convention{form: rotationVector},
		Convention{form: axisAngle, degrees: true},
		Convention{form: axisAngle},
		Convention{form: matrix},
		Convention{form: matrix, second: true},
		Convention{form: toolSpin, degrees: true},
		Convention{form: toolSpin},
	)
}

// String returns the canonical words, which ParseConvention reads back.
func (c Convention) String() string {
	switch c.form {
	case turns:
		return c.frames() + " " + c.axes[0].lower() + "-" + c.axes[1].lower() + "-" + c.axes[2].lower() + " " + c.angleUnit()
	case quaternion:
		return pick(c.second, "quaternion w last", "quaternion w first")
	case rotationVector:
		return "rotation vector " + c.angleUnit()
	case axisAngle:
		return "axis and angle " + c.angleUnit()
	case matrix:
		return pick(c.second, "matrix by columns", "matrix by rows")
	case toolSpin:
		return "tool direction and spin " + c.angleUnit()
	}
	return "no convention"
}

// Describe returns the long words for sheets and help, such as "turn about
// fixed X, then fixed Y, then fixed Z, in degrees". ParseConvention reads them
// back too.
func (c Convention) Describe() string {
	switch c.form {
	case turns:
		next := pick(c.moving, "new ", "fixed ")
		return "turn about " + pick(c.moving, "", "fixed ") + c.axes[0].upper() + ", then " + next + c.axes[1].upper() +
			", then " + next + c.axes[2].upper() + ", in " + c.angleUnit()
	case quaternion:
		return "quaternion, " + pick(c.second, "x, y, z and then w", "w and then x, y, z")
	case rotationVector:
		return "rotation vector: the axis times the angle, in " + c.angleUnit()
	case axisAngle:
		return "unit axis and then the angle about it, in " + c.angleUnit()
	case matrix:
		return "rotation matrix, nine numbers, one " + pick(c.second, "column", "row") + " after the other"
	case toolSpin:
		return "unit direction of the tool's Z and then the spin about it, in " + c.angleUnit()
	}
	return "no convention"
}

// Len returns how many numbers a row carries: 3, 4 or 9.
func (c Convention) Len() int { return len(c.Names()) }

// Names returns the column heads of a sheet, one for each number.
func (c Convention) Names() []string {
	switch c.form {
	case turns:
		return c.turnNames()
	case quaternion:
		if c.second {
			return []string{"quaternion x", "quaternion y", "quaternion z", "quaternion w"}
		}
		return []string{"quaternion w", "quaternion x", "quaternion y", "quaternion z"}
	case rotationVector:
		return []string{"rotation vector X", "rotation vector Y", "rotation vector Z"}
	case axisAngle:
		return []string{"axis X", "axis Y", "axis Z", "angle about axis"}
	case matrix:
		return c.matrixNames()
	case toolSpin:
		return []string{"tool direction X", "tool direction Y", "tool direction Z", "spin about tool"}
	}
	return nil
}

// turnNames tells two turns about the same letter apart: by "new" where the
// axes move, by "again" where they are fixed.
func (c Convention) turnNames() []string {
	a := c.axes
	if c.moving {
		return []string{"about " + a[0].upper(), "about new " + a[1].upper(), "about new " + a[2].upper()}
	}
	last := "about fixed " + a[2].upper()
	if a[2] == a[0] {
		last += " again"
	}
	return []string{"about fixed " + a[0].upper(), "about fixed " + a[1].upper(), last}
}

// matrixNames names an entry by the turned axis and its part along an axis of
// the parent frame: "tool X along Y" is row Y, column X.
func (c Convention) matrixNames() []string {
	var names []string
	for i := axis(0); i < 3; i++ {
		for j := axis(0); j < 3; j++ {
			row, column := i, j
			if c.second {
				row, column = j, i
			}
			names = append(names, "tool "+column.upper()+" along "+row.upper())
		}
	}
	return names
}

// Units returns the unit of each number: "deg", "rad" or, for a dimensionless
// one, "".
func (c Convention) Units() []string {
	angle := pick(c.degrees, "deg", "rad")
	switch c.form {
	case turns, rotationVector:
		return []string{angle, angle, angle}
	case axisAngle, toolSpin:
		return []string{"", "", "", angle}
	}
	return make([]string, c.Len())
}

func (c Convention) frames() string    { return pick(c.moving, "moving", "fixed") }
func (c Convention) angleUnit() string { return pick(c.degrees, "degrees", "radians") }

// pick returns yes where the condition holds, else no.
func pick(condition bool, yes, no string) string {
	if condition {
		return yes
	}
	return no
}

// key is the form in which words are compared: small letters without spaces,
// hyphens, commas and colons.
func key(words string) string {
	return strings.NewReplacer(" ", "", "\t", "", "-", "", "–", "", "_", "", ",", "", ":", "").Replace(strings.ToLower(words))
}

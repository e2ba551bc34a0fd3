package se3_test

import (
	"fmt"
	"math"

	"seamwright/geom/se3"
)

func ExampleConvention_Encode() {
	c, _ := se3.ParseConvention("fixed x-y-z degrees")
	var row [3]float64
	_, lock := c.Encode(se3.RotZ(math.Pi/6).Mul(se3.RotX(math.Pi)), row[:])
	fmt.Println(c.Describe())
	fmt.Printf("%.1f, %v\n", row, lock.Rule)
	// Output:
	// turn about fixed X, then fixed Y, then fixed Z, in degrees
	// [180.0 0.0 30.0], the numbers are unique
}

package intake

import "seamwright/geom/se3"

// Point is one row of a table. Its pose is in the frame in which it was
// measured and locates what Words.Point says.
type Point struct {
	Label string
	Line  int // in the table, from 1

	HasPlace bool      // Pose.P was read
	HasTurn  bool      // Pose.R was read too
	Pose     se3.Pose  // m; R is the identity without HasTurn
	Turn     []float64 // the orientation as written: deg, rad or dimensionless, see se3.Convention.Units
	Joints   []float64 // rad, or m for joints that slide; nil in rows with a position

	Move     string  // joint, linear, arc or empty
	Arc      string  // on, off or empty
	Settings string  // settings set
	Speed    float64 // m/s, 0 where not given
	Percent  float64 // percent of full speed, 0 where not given
	Blend    float64 // m
	HasBlend bool
	Comment  string
}

package job

// JointAcceleration limits joint i of the chain, rad/s2 (m/s2 for a sliding joint).
func (a *Arm) JointAcceleration(i int) float64 { return forJoint(a.Acceleration, i) }

// JointJerk limits the rate of the acceleration of joint i of the chain, rad/s3
// (m/s3 for a sliding joint): as the document has it, else the full acceleration
// gathered in DefaultJerkTime.
func (a *Arm) JointJerk(i int) float64 {
	if len(a.Jerk) == 0 {
		return a.JointAcceleration(i) / DefaultJerkTime
	}
	return forJoint(a.Jerk, i)
}

// forJoint is the value of joint i (as of the list) where one value may hold for all.
func forJoint(list []float64, i int) float64 {
	if len(list) == 1 {
		return list[0]
	}
	return list[i]
}

// TipJerk limits the rate of the tip's acceleration on lines, m/s3: the full
// acceleration gathered in DefaultJerkTime.
func (a *Air) TipJerk() float64 { return a.TipAcceleration / DefaultJerkTime }

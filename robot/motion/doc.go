// Package motion decides how the arm moves along a given tip path and when.
//
// It has three parts, none of which solves inverse kinematics:
//
//   - the posture ladder (Ladder, LadderSearch): of all postures and turns about
//     the wire at every station of a pass, the provably cheapest continuous
//     choice, or what stands in its way;
//   - time laws: rest to rest over a distance (SevenPhase), between two joint positions
//     (JointMove), past via points (ViaMove) and along a sampled joint path (PathLaw);
//   - spin smoothing (SpinProfile, SpinKnots): from the ladder's stepped spin to
//     a smooth one and to few via points.
//
// Units are SI: metres, radians, seconds. Joint values are kinematics.Q, in
// radians for a turning joint and metres for a sliding one. Spin is the turn of
// the torch about its wire, in radians. "Station" is a place along a pass.
//
// A pass is searched like this:
//
//	var ladder motion.Ladder
//	for _, station := range stations {
//		ladder.AddRung()
//		for ... { ladder.AddNode(motion.Node{Q: q, Spin: spin, Cost: cost}) }
//	}
//	var search motion.LadderSearch // keep it: it owns the working memory
//	var answer motion.LadderAnswer
//	err := search.Solve(ctx, &motion.LadderRequest{Ladder: &ladder, Joints: joints}, &answer)
package motion

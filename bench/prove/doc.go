// Package prove checks a plan folder from its files alone and says whether the plan
// is fit to release. It is the only thing that may say so.
//
// Nothing in it plans. From the joint values of plan.json, steps.csv
// and trace.csv, from the job and from the arm's file it computes again where the
// torch is, how fast the joints move, what is laid and with what heat, and holds
// each against its limit. Every constraint is one row of the Verdict, with the
// margin and the place of the least; one that could not be checked is a row too.
//
//	folder, err := prove.Read(files)
//	verdict, err := folder.Prove(j)
//
// Lengths are m, angles rad, times s inside; rows carry the unit that they are read
// in. docs/proof.md says what is recomputed from what.
package prove

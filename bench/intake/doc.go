// Package intake reads tables of taught points as people have them: decimal
// comma or point, any separator, with or without heads, in whatever units, with
// joints and poses mixed, and asks about what the data leaves open.
//
// Read proposes: what is stated in the table, or can be read in one way only,
// becomes a Fact with its evidence; what can be read in two ways becomes a
// Question with its choices. Nothing is settled by likelihood alone. Ask the
// first question, put the answer into Known.Answers and read again: one answer
// often settles the next question.
//
//	known := intake.Known{Reach: 1.4, Answers: intake.Answers{"measured_in": "base"}}
//	table, questions, err := intake.Read(data, known)
//	...                                  // until no question is left
//	points, problems := intake.Apply(table)
//	slips := intake.Suspicions(points, table.Stated)
//	csv := intake.Canonical(points, table.Stated)
//
// Positions become metres and joint values radians (metres for joints that
// slide), in the frame in which they were measured. Orientation numbers stay as
// written beside the decoded rotation.
package intake

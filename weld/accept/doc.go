// Package accept holds the limits of visible weld imperfections, ISO 5817 and
// AWS D1.1, as data with edition and mark, and gives the verdict on gauge
// readings.
//
// Lengths are m, angles rad. A verdict names the limit and its source, leaves a
// reading within half a step of the gauge from the limit undecided, and never
// takes silence for a pass: what was not read is "not read", what cannot be
// judged is "undecided" and says what is missing. The two code families are
// never mixed: ISO judges the throat, AWS the leg.
//
//	std := accept.Standard{Code: accept.ISO5817, Edition: "2023", Level: accept.C}
//	w := accept.Weld{Kind: weld.Fillet, Size: 5e-3, SizeIs: weld.Throat, Thickness: 8e-3, Length: 0.4}
//	verdicts, err := accept.Judge(std, w, []accept.Reading{{Measure: accept.Undercut, Value: 0.3e-3, Step: 0.1e-3}})
//
// It does not replace the inspector, nor the edition that the contract names.
package accept

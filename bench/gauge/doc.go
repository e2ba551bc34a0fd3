// Package gauge holds gauge readings against a job: verdicts by its acceptance,
// corrections of travel speed and aim, and what the readings teach about its
// settings sets.
//
//	seams, err := plan.Sized(j)
//	r, err := gauge.Judge(gauge.Request{Job: j, Seams: seams, Readings: readings, Date: "2031-05-12"})
//
// Lengths are m, speeds m/s. A verdict is arithmetic on what was typed: it does
// not replace a qualified inspector, nor the edition that the contract names.
package gauge

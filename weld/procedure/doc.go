// Package procedure holds what a shop has on paper and in its power source:
// settings sets and welding procedure specifications, and the check of one
// against the other.
//
// Units are SI: m, rad, s, m/s, m3/s, V, A, W, J/m. A zero settings field means
// "not known" or the default that its comment names. A limit that a procedure
// does not state is reported as not stated, never as passed, and a check never
// mixes two code families.
//
// A WPS holds the whole document of ISO 15609-1 or the AWS form, with limits run
// by run; a Record and the essential variables of a code give the limits that a
// qualification permits.
//
//	verdicts, err := spec.Check(procedure.Planned{Family: weld.ISO, Settings: set, Travel: 8.2e-3})
package procedure

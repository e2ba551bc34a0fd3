// Package picture draws docs/img/example.svg, the picture of the example job
// in README.md, from its plan: what the plan holds is what is seen.
//
// The package holds tests only. A test draws the picture again and compares it
// with the file; after a change run
//
//	go test ./internal/picture -update
//
// and look at the result. Hidden surfaces are found exactly, by splitting space
// along the surfaces themselves.
package picture

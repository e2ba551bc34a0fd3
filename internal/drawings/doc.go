// Package drawings makes the drawings of docs/img from the geometry that they
// explain: angles are drawn as large as they are written.
//
// The package holds tests only. A test draws everything again and compares it
// with the files; after a change run
//
//	go test ./internal/drawings -update
//
// and look at the result. Edges that are seen are thick and axes thin chain
// lines, cut sections are hatched (ISO 128, from memory).
package drawings

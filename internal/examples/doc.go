// Package examples holds tests that the files under examples are what their
// descriptions say. It has no code of its own.
package examples

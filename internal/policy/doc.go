// Package policy keeps the rules of this repository that a compiler does not:
// which package may import which, what the calculating packages must not
// touch, what every doc comment says, how long code may grow, and what no file
// may mention.
//
// The package holds tests only. Each rule is a function from a tree of files
// to a list of violations, so that it is tried twice: on this repository, and
// on a small made-up tree that breaks it. Files are opened and parsed in
// process, because a test that asks the go command instead is cached and
// misses changes.
package policy

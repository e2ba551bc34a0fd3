package finding

import (
	"fmt"
	"slices"
	"strings"
)

// Code names a check: a stable phrase in trade words, kebab-case.
type Code string

// Check is what a code stands for.
type Check struct {
	Code     Code
	Severity Severity
	// Title says what is wrong when the finding appears, Method what is looked
	// at, Remedy what usually mends it, Source who sets the limit.
	Title, Method, Remedy, Source string
}

// Lookup returns the check of a code. An unregistered code is a mistake of the
// program, never of its input, and panics.
func Lookup(code Code) Check {
	i := slices.IndexFunc(checks, func(c Check) bool { return c.Code == code })
	if i < 0 {
		panic(fmt.Sprintf("finding: code %q is not registered", code))
	}
	return checks[i]
}

// Checks returns every check that exists, in the order of the document that
// lists them.
func Checks() []Check { return slices.Clone(checks) }

// Markdown returns docs/checks.md: every check with its severity, what is
// looked at, the remedy and the source.
func Markdown() string {
	var b strings.Builder
	b.WriteString("# Checks\n\n")
	b.WriteString("Every finding that a plan can carry. This page is generated from `bench/finding`; do not edit it.\n")
	b.WriteString("*stop* forbids the job as it stands, *caution* asks a person to look, *note* is for the reader.\n")
	b.WriteString("The severity is the usual one: a finding may be milder or harsher where its text says why.\n")
	group := ""
	for _, c := range checks {
		if g := groups[c.Code]; g != "" && g != group {
			group = g
			fmt.Fprintf(&b, "\n## %s\n\n| code | severity | what is wrong | what is looked at | usual remedy | source |\n|---|---|---|---|---|---|\n", g)
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s | %s |\n", c.Code, c.Severity, c.Title, c.Method, c.Remedy, c.Source)
	}
	return b.String()
}

package weld

import (
	"fmt"
	"strconv"
	"strings"
)

// CodeFamily is the family of standards a job is bought to. One check never
// mixes the two: a leg limit of one is no throat limit of the other. The zero
// value is "not stated".
type CodeFamily uint8

// The two families.
const (
	ISO CodeFamily = iota + 1 // ISO and EN standards
	AWS                       // AWS codes, D1.1 first
)

var familyWords = []word[CodeFamily]{
	{ISO, "ISO", []string{"EN", "EN ISO"}},
	{AWS, "AWS", []string{"D1.1", "AWS D1.1"}},
}

// String returns "ISO" or "AWS".
func (f CodeFamily) String() string { return nameOf(familyWords, "code family", f) }

// ParseCodeFamily reads "ISO", "EN" or "AWS".
func ParseCodeFamily(s string) (CodeFamily, error) {
	return parseWord(familyWords, "code family", s)
}

// Transfer is how drops cross the arc (terms: AWS A3.0). The zero value is
// "not stated".
type Transfer uint8

// The transfer modes of gas-metal arc welding.
const (
	ShortCircuit Transfer = iota + 1
	Globular
	Spray
	Pulsed
)

var transferWords = []word[Transfer]{
	{ShortCircuit, "short-circuit", []string{"short arc", "dip", "dip transfer", "short circuiting"}},
	{Globular, "globular", nil},
	{Spray, "spray", []string{"spray arc"}},
	{Pulsed, "pulsed", []string{"pulse", "pulsed spray"}},
}

// String returns the trade's word, such as "short-circuit".
func (t Transfer) String() string { return nameOf(transferWords, "transfer mode", t) }

// ParseTransfer reads a transfer mode from words.
func ParseTransfer(s string) (Transfer, error) { return parseWord(transferWords, "transfer mode", s) }

// Process is a welding process by its ISO 4063 number. The zero value is "not
// stated".
type Process uint16

// The processes that appear here. Those from MIG to MetalCored are planned;
// the others stand only in tables of codes, beside the planned ones.
const (
	MIG        Process = 131 // gas-metal arc, inert gas, solid wire
	MAG        Process = 135 // gas-metal arc, active gas, solid wire
	FluxCored  Process = 136 // flux-cored wire, active gas
	MetalCored Process = 138 // metal-cored wire, active gas

	CoveredElectrode Process = 111
	SubmergedArc     Process = 121
	TungstenArc      Process = 141
	PlasmaArc        Process = 15
)

var processWords = []word[Process]{
	{MIG, "MIG", nil},
	{MAG, "MAG", []string{"gmaw"}},
	{FluxCored, "flux-cored", []string{"fcaw", "fcaw-g"}},
	{MetalCored, "metal-cored", nil},
	{CoveredElectrode, "covered electrode", []string{"smaw", "mma"}},
	{SubmergedArc, "submerged arc", []string{"saw"}},
	{TungstenArc, "tungsten arc", []string{"tig", "gtaw"}},
	{PlasmaArc, "plasma arc", []string{"paw"}},
}

// String returns the ISO 4063 number and the word, such as "135 MAG".
func (p Process) String() string {
	if p == 0 {
		return "process not stated"
	}
	return fmt.Sprintf("%d %s", uint16(p), nameOf(processWords, "process", p))
}

// Planned reports whether p is a wire process that this project plans.
func (p Process) Planned() bool {
	return p == MIG || p == MAG || p == FluxCored || p == MetalCored
}

// ParseProcess reads an ISO 4063 number ("135") or a word ("MAG", "GMAW").
func ParseProcess(s string) (Process, error) {
	if n, err := strconv.Atoi(strings.TrimSpace(s)); err == nil {
		for _, w := range processWords {
			if int(w.value) == n {
				return w.value, nil
			}
		}
	}
	return parseWord(processWords, "process", s)
}

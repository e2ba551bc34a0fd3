package thermal

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// PreheatGroup is a group of steels in the prequalified preheat table of AWS
// D1.1. The zero value is a steel that the table does not list.
type PreheatGroup uint8

// The groups of steels, by what the table has of them.
const (
	GroupOrdinary       PreheatGroup = iota + 1 // A36 and the like: category A without low hydrogen, B with it
	GroupLowHydrogen                            // A572-50, A588, A992 and the like: category B, low hydrogen only
	GroupHigherStrength                         // A572-60, A572-65 and the like: category C, low hydrogen only
)

// String returns the group in words.
func (g PreheatGroup) String() string {
	switch g {
	case GroupOrdinary:
		return "ordinary carbon steel (category A or B)"
	case GroupLowHydrogen:
		return "steel for low-hydrogen processes (category B)"
	case GroupHigherStrength:
		return "higher-strength steel for low-hydrogen processes (category C)"
	}
	return "steel that AWS D1.1 does not list"
}

// D11Request is a joint whose preheat is wanted by the table of AWS D1.1.
type D11Request struct {
	Family      weld.CodeFamily // of the job: the table is of the AWS family
	Group       PreheatGroup    // of the plates, the severer of two; see Grade.PreheatGroup
	Thickness   float64         // of the thickest part at the point of welding, m
	Process     weld.Process
	LowHydrogen bool // the covered electrode is of a low-hydrogen class; not read for other processes
}

// d11Row is a band of thickness, m, and the least preheat of each category in
// it, degrees C.
type d11Row struct {
	upTo float64
	a    float64 // ordinary steel without low hydrogen
	b    float64
	c    float64
}

// d11Rows is the prequalified minimum preheat and interpass temperature of AWS
// D1.1/D1.1M:2015 Table 3.3, read in two transcriptions of the page; Table 5.8
// or 5.11 in later editions, read in workshop articles.
var d11Rows = [...]d11Row{
	{20 * unit.MM, 0, 0, 10},
	{38 * unit.MM, 65, 10, 65},
	{65 * unit.MM, 110, 65, 110},
	{300 * unit.MM, 150, 110, 150},
}

var d11Plates = validity{"plate thickness", 3e-3, 300e-3, 1e-3, "mm",
	"the table is meant for no other part: ask the welding coordinator"}

// PreheatByD11 returns the least preheat and interpass temperature of the
// prequalified table of AWS D1.1, degrees C. Steel below 0 degrees C is warmed
// to 20 first; nothing is welded in an ambient below -18. A joint that the
// table has no row for is an error.
//
// Source: AWS D1.1/D1.1M:2015 Table 3.3, read; the edition of the contract
// counts.
func PreheatByD11(r D11Request) (Preheat, error) {
	if r.Family != weld.AWS {
		return Preheat{}, &FamilyError{TableD11.String(), weld.AWS, r.Family, "the job"}
	}
	low, err := r.lowHydrogen()
	if err == nil {
		err = d11Plates.check(r.Thickness)
	}
	if err != nil {
		return Preheat{}, fmt.Errorf("%v: %w", TableD11, err)
	}
	row := d11Rows[0]
	for i := 1; i < len(d11Rows) && !weld.AtMost(row.upTo).Contains(r.Thickness); i++ {
		row = d11Rows[i]
	}
	out := Preheat{Method: TableD11, ColdBelow: 0, WarmTo: shopTemperature, Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
		Code: "AWS D1.1", Edition: "2015", Clause: "Table 3.3", Note: "Table 5.8 or 5.11 in later editions"}}
	switch {
	case r.Group == GroupHigherStrength:
		out.Temperature = row.c
	case low:
		out.Temperature = row.b
	default:
		out.Temperature = row.a
	}
	return out, nil
}

// lowHydrogen reports whether the welding counts as low in hydrogen, or that
// the table has no row for it.
func (r D11Request) lowHydrogen() (bool, error) {
	if r.Group < GroupOrdinary || r.Group > GroupHigherStrength {
		return false, fmt.Errorf("%v; take the group of a grade that it lists, such as A36 or A572-50, or qualify the preheat by test", r.Group)
	}
	low := false
	switch r.Process {
	case weld.MIG, weld.MAG, weld.FluxCored, weld.MetalCored, weld.SubmergedArc:
		low = true
	case weld.CoveredElectrode:
		low = r.LowHydrogen
	default:
		return false, fmt.Errorf("%v has no row; the table knows gas-metal arc, cored wire, submerged arc and covered electrodes", r.Process)
	}
	if !low && r.Group != GroupOrdinary {
		return false, fmt.Errorf("%v with %v of no low-hydrogen class has no row; take a low-hydrogen electrode or a wire process", r.Group, r.Process)
	}
	return low, nil
}

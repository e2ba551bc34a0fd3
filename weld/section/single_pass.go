package section

import (
	"fmt"

	"seamwright/weld"
)

// maxSinglePassLegs is AWS D1.1:2020 Table 5.1, largest single-pass fillet, m.
var maxSinglePassLegs = map[weld.PositionName]struct{ wire, covered float64 }{
	weld.Flat1F:       {12e-3, 10e-3},
	weld.Horizontal2F: {10e-3, 8e-3},
	weld.Vertical3F:   {12e-3, 12e-3},
	weld.Overhead4F:   {8e-3, 8e-3},
}

// MaxSinglePass returns the largest leg in m that a prequalified procedure of
// AWS D1.1 may lay in one pass, for a fillet position of AWS. Source: D1.1:2020
// Table 5.1, read; positions 1F to 4F and wire processes or covered electrodes only,
// others are refused. The often quoted 8 mm in 2F is the covered-electrode figure.
func MaxSinglePass(p weld.Process, position weld.PositionName) (SizeLimit, error) {
	row, ok := maxSinglePassLegs[position]
	if !ok {
		return SizeLimit{}, fmt.Errorf("largest single-pass fillet: position %v is not one of 1F, 2F, 3F, 4F; the table is of the AWS family", position)
	}
	out := SizeLimit{Kind: weld.Leg, Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
		Code: "AWS D1.1", Edition: "2020", Clause: "Table 5.1"}}
	switch {
	case p.Planned():
		out.Size = row.wire
	case p == weld.CoveredElectrode:
		out.Size = row.covered
	default:
		return SizeLimit{}, fmt.Errorf("largest single-pass fillet: %v is not a column of the table here; wire processes and covered electrodes are", p)
	}
	return out, nil
}

// armSinglePassLegs is good practice with 1.2 mm solid wire, m: figure to use,
// and the interval in which shops differ.
var armSinglePassLegs = map[weld.PositionName]struct{ low, high float64 }{
	weld.PA: {8e-3, 8e-3}, weld.PB: {6e-3, 7e-3}, weld.PD: {5e-3, 6e-3}, weld.PE: {5e-3, 6e-3},
	weld.PF: {8e-3, 8e-3}, weld.PG: {5e-3, 5e-3},
}

// PracticalSinglePass returns the largest leg in m that an arm is asked to lay
// in one pass with solid wire of 1.2 mm, for a position of ISO 6947: sag and
// undercut on the upper leg set it, not a code. PF supposes a weave. The value
// is the upper end of what shops allow. From memory. PC is not known here and is
// refused.
func PracticalSinglePass(position weld.PositionName) (weld.Figure, error) {
	row, ok := armSinglePassLegs[position]
	if !ok {
		return weld.Figure{}, fmt.Errorf("practical single-pass fillet: no figure for position %v; known are PA, PB, PD, PE, PF, PG", position)
	}
	return weld.Figure{Value: row.high, Usual: weld.Between(row.low, row.high), Source: weld.Source{
		Mark: weld.Memory, Code: "good practice for an arm with 1.2 mm solid wire"}}, nil
}

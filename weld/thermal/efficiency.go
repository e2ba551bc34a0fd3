package thermal

import (
	"fmt"

	"seamwright/weld"
)

// Efficiency returns the thermal efficiency k, dimensionless, by which EN 1011-1
// turns arc energy into heat input: 0.8 for all gas-metal arc and cored-wire
// processes and covered electrodes, 1.0 submerged arc, 0.6 tungsten and plasma
// arc. Source: EN 1011-1 table, read in a steel maker's support page and in
// public code. Measured values for gas-metal arc run 0.80 to 0.88 (DuPont and
// Marder 1995, as cited there).
func Efficiency(p weld.Process) (weld.Figure, error) {
	f := weld.Figure{Source: weld.Source{Mark: weld.Read, Family: weld.ISO, Code: "EN 1011-1",
		Clause: "thermal efficiency k", Note: "as a steel maker prints it"}}
	switch p {
	case weld.MIG, weld.MAG, weld.FluxCored, weld.MetalCored:
		f.Value, f.Usual = 0.8, weld.Between(0.80, 0.88)
	case weld.CoveredElectrode:
		f.Value = 0.8
	case weld.SubmergedArc:
		f.Value = 1.0
	case weld.TungstenArc, weld.PlasmaArc:
		f.Value = 0.6
	default:
		return weld.Figure{}, fmt.Errorf("thermal efficiency: %v; name a process of ISO 4063 such as 135", p)
	}
	return f, nil
}

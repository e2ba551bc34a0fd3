// Package thermal is the heat of arc welding: the energy laid into each length
// of weld, how fast it leaves, what the steel's composition asks of it, and
// the temperatures around a moving arc.
//
// Three quantities of energy go by similar names and are kept apart: arc
// energy (no efficiency), heat input (arc energy times k) and the heat input
// of AWS and ASME (no k, numerically the arc energy). Whoever shows one says
// which. Cooling times and fields take the heat input with k, the heat that
// reaches the plate.
//
// Units are SI: V, A, W, J, m, s, m/s, J/m (1 kJ/mm is 1e6 J/m, 1 kJ/in is
// 39370 J/m); temperatures are degrees Celsius, differences of temperature
// kelvin; contents of elements are percent by mass.
//
// A formula of a standard holds in a range of validity. Outside it the answer
// is a RangeError that names the range; nothing is extrapolated. Preheat comes
// by the method of one code family; another family's is a FamilyError. What is
// computed here plans a job: the qualified procedure, the code of the contract
// and the welding coordinator decide, and a temperature is measured before the
// next pass is laid.
//
//	q, err := thermal.HeatInput.FromArcEnergy(arcEnergy, weld.MAG)
//	cool, err := thermal.Cooling(thermal.CoolingRequest{HeatInput: q, Preheat: 20,
//		Thickness: 10 * unit.MM, Shape: thermal.TeeFillet})
//	fmt.Println(cool.Time, cool.Plate) // 4.5 s, thin plate
package thermal

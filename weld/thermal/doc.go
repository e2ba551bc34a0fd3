// Package thermal computes the energy an arc puts into each length of weld.
//
// Three quantities go by similar names and are kept apart: arc energy (no
// efficiency), heat input (arc energy times k) and the heat input of AWS and
// ASME (no k, numerically the arc energy). Whoever shows one says which.
// Units are SI: V, A, W, J, m/s, J/m (1 kJ/mm is 1e6 J/m, 1 kJ/in is
// 39370 J/m).
package thermal

package thermal

import (
	"fmt"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// MetalSet is a published set of constants for conduction in a metal. The sets
// for steel differ: the same weld cools 1.7 times faster by one than by
// another, so an answer says which it used. The zero value is SteelGrong.
type MetalSet uint8

// The sets.
const (
	SteelGrong          MetalSet = iota // low-alloy steel, Grong: the set for cooling times
	SteelEasterling                     // carbon steel, Easterling
	SteelHot                            // carbon steel near the weld, lecture notes
	SteelShip                           // ship-welding set
	AusteniticSteel                     // austenitic stainless steel
	AluminiumEasterling                 // aluminium, Easterling
)

// Metal is what conduction needs to know of a metal, taken as constant. Build
// one with MetalOf, or give your own.
type Metal struct {
	Name         string
	Conductivity float64 // lambda, W/(m K)
	HeatCapacity float64 // rho c, heat capacity per volume, J/(m3 K)
	Melting      float64 // end of melting, degrees C; where a picture of temperatures is cut off
	Source       weld.Source
}

// metals are the sets in the order of MetalSet. Melting temperatures are from
// memory.
var metals = [...]Metal{
	SteelGrong:          metal("low-alloy steel (Grong)", 0.025, 0.005, 1500, weld.Memory, "O. Grong"),
	SteelEasterling:     metal("carbon steel (Easterling)", 0.041, 0.0045, 1500, weld.Memory, "K. Easterling"),
	SteelHot:            metal("carbon steel, hot (lecture notes)", 0.028, 0.003454, 1500, weld.Read, "lecture notes in a public repository"),
	SteelShip:           metal("steel (ship-welding set)", 0.040, 0.0047, 1500, weld.Read, "a ship-welding set in public code"),
	AusteniticSteel:     metal("austenitic stainless steel", 0.0249, 0.0047, 1430, weld.Memory, "K. Easterling"),
	AluminiumEasterling: metal("aluminium (Easterling)", 0.229, 0.0027, 650, weld.Memory, "K. Easterling"),
}

// metal returns a set from lambda in W/(mm K), rho c in J/(mm3 K) and degrees C.
func metal(name string, lambda, rhoc, melting float64, mark weld.Mark, code string) Metal {
	return Metal{name, lambda / unit.MM, rhoc / (unit.MM * unit.MM * unit.MM), melting,
		weld.Source{Mark: mark, Code: code, Note: "constants of conduction"}}
}

// MetalOf returns the constants of a set.
func MetalOf(s MetalSet) (Metal, error) {
	if int(s) >= len(metals) {
		names := make([]string, len(metals))
		for i, m := range metals {
			names[i] = m.Name
		}
		return Metal{}, fmt.Errorf("set %d of constants is not known; known are %s", s, strings.Join(names, ", "))
	}
	return metals[s], nil
}

// Diffusivity returns a = lambda / (rho c), m2/s.
func (m Metal) Diffusivity() float64 { return m.Conductivity / m.HeatCapacity }

var (
	conductivities = validity{"conductivity", 5, 450, 1, "W/(m K)", "check the value and its unit; steel has 25 to 50"}
	heatCapacities = validity{"heat capacity per volume", 1e6, 8e6, 1e6, "J/(cm3 K)", "check the value and its unit; steel has 3.4 to 5"}
	meltings       = validity{"melting temperature", 300, 3000, 1, "degC", "check the value and its unit; steel has about 1500"}
)

// Validate returns a RangeError for a constant that no welded metal has.
func (m Metal) Validate() error {
	return within(conductivities.of(m.Conductivity), heatCapacities.of(m.HeatCapacity), meltings.of(m.Melting))
}

// orGrong returns the metal, or the default set for the zero Metal.
func (m Metal) orGrong() Metal {
	if m == (Metal{}) {
		return metals[SteelGrong]
	}
	return m
}

package weld

import "math"

// Limits of sense for a job's numbers. Outside them a value is taken for a
// slip. All are common practice, no source, but where a line says otherwise.
const (
	TravelSpeedLeast = 1e-3  // m/s; below it no arc weld is planned
	TravelSpeedMost  = 25e-3 // m/s; above it no linear weld move is planned

	PercentLeast = 1.0   // percent of joint speed, dimensionless
	PercentMost  = 100.0 // percent of joint speed, dimensionless

	// ReducedSpeed is the most that the tool point may do while a person is
	// near, m/s. ISO 10218, from memory; OSHA technical manual, read in public
	// notes. The site's own limit may be lower.
	ReducedSpeed = 0.250

	PointSpacingLeast = 2e-3 // m; weld points closer than this are a slip of the hand

	WorkAngleMost = math.Pi / 2 // rad; AWS A3.0 defines work angles from 0 to here, read in a glossary

	// TravelAngleCaution is the push or drag angle, rad, above which shielding
	// suffers. 20 degrees read in workshop articles; some say 25 (from memory).
	TravelAngleCaution = 20 * math.Pi / 180
)

// TravelSpeedLimit returns the travel speeds that make sense, m/s.
func TravelSpeedLimit() Limit {
	return Limit{Between(TravelSpeedLeast, TravelSpeedMost), Source{Mark: CommonPractice, Code: "travel speed that makes sense"}}
}

// UsualTravelSpeed returns the travel speeds usual for an arm in a position,
// m/s: fillets PA and PB 5 to 15 mm/s, PF 2 to 5, PG 8 to 20; for any other
// position the whole 2 to 20 mm/s. From memory. Root and weave passes run
// slower, so this is a hint, never a limit.
func UsualTravelSpeed(p PositionName) Limit {
	r := Between(2e-3, 20e-3)
	switch p {
	case PA, PB:
		r = Between(5e-3, 15e-3)
	case PF:
		r = Between(2e-3, 5e-3)
	case PG:
		r = Between(8e-3, 20e-3)
	}
	return Limit{r, Source{Mark: Memory, Code: "usual travel speed of an arm"}}
}

// UsualWireFeed returns the wire feed speeds usual for wire of 0.8 to 1.6 mm,
// m/s: 2 to 16 m/min. Common practice; pairs from 5.3 to 14.2 m/min were read
// in Machinery's Handbook 31, Table 5.
func UsualWireFeed() Limit {
	return Limit{Between(2.0/60, 16.0/60), Source{Mark: CommonPractice, Code: "usual wire feed speed"}}
}

// UsualGasFlow returns the shielding-gas flows usual for gas-metal arc welding,
// m3/s: 8 to 25 L/min; above it the flow turns turbulent. From memory.
func UsualGasFlow() Limit {
	return Limit{Between(8e-3/60, 25e-3/60), Source{Mark: Memory, Code: "usual shielding gas flow"}}
}

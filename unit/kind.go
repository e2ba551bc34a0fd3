package unit

// Kind is a quantity that can be written: what is measured. The zero value is
// no quantity; Parse refuses it.
type Kind uint8

// The quantities, with the SI unit that Parse returns.
const (
	noKind              Kind = iota
	Length                   // m
	Angle                    // rad
	Speed                    // m/s, along a path
	WireFeed                 // m/s, wire fed per time
	AngularSpeed             // rad/s
	AngularAcceleration      // rad/s2
	Acceleration             // m/s2
	AngularJerk              // rad/s3, the rate of an angular acceleration
	Jerk                     // m/s3, the rate of an acceleration
	Time                     // s
	Mass                     // kg
	Temperature              // degC
	Voltage                  // V
	Current                  // A
	Power                    // W
	EnergyPerLength          // J/m, arc energy and heat input
	GasFlow                  // m3/s
	Area                     // m2
	Frequency                // Hz
	MassRate                 // kg/s, metal melted or deposited per time
	Ratio                    // dimensionless, written in percent
	SecondMoment             // m4, second moment of area of a section
	kindCount
)

// preferred is the unit and the number of decimals that a reader of one unit
// system expects.
type preferred struct {
	unit     Unit
	decimals int
}

// quantity describes a Kind. The first unit of units is the metric one that
// messages use as their example.
type quantity struct {
	name   string // with its article, as messages need it
	units  []Unit
	metric preferred
	inch   preferred
}

var quantities = [kindCount]quantity{
	Length: {"a length", []Unit{Millimetres, Centimetres, Metres, Inches, Feet},
		preferred{Millimetres, 1}, preferred{Inches, 3}},
	Angle: {"an angle", []Unit{Degrees, Radians},
		preferred{Degrees, 1}, preferred{Degrees, 1}},
	Speed: {"a speed", []Unit{MillimetresPerSecond, MillimetresPerMinute, CentimetresPerMinute, MetresPerMinute, MetresPerSecond, InchesPerMinute, InchesPerSecond},
		preferred{MillimetresPerSecond, 1}, preferred{InchesPerMinute, 1}},
	WireFeed: {"a wire feed speed", []Unit{MetresPerMinute, InchesPerMinute, MillimetresPerSecond},
		preferred{MetresPerMinute, 1}, preferred{InchesPerMinute, 0}},
	AngularSpeed: {"an angular speed", []Unit{DegreesPerSecond, RadiansPerSecond},
		preferred{DegreesPerSecond, 1}, preferred{DegreesPerSecond, 1}},
	AngularAcceleration: {"an angular acceleration", []Unit{DegreesPerSecond2, RadiansPerSecond2},
		preferred{DegreesPerSecond2, 0}, preferred{DegreesPerSecond2, 0}},
	Acceleration: {"an acceleration", []Unit{MillimetresPerSecond2, MetresPerSecond2, InchesPerSecond2},
		preferred{MillimetresPerSecond2, 0}, preferred{InchesPerSecond2, 1}},
	AngularJerk: {"an angular jerk", []Unit{DegreesPerSecond3, RadiansPerSecond3},
		preferred{DegreesPerSecond3, 0}, preferred{DegreesPerSecond3, 0}},
	Jerk: {"a jerk", []Unit{MillimetresPerSecond3, MetresPerSecond3, InchesPerSecond3},
		preferred{MillimetresPerSecond3, 0}, preferred{InchesPerSecond3, 1}},
	Time: {"a time", []Unit{Seconds, Milliseconds, Minutes, Hours},
		preferred{Seconds, 1}, preferred{Seconds, 1}},
	Mass: {"a mass", []Unit{Kilograms, Grams, Pounds},
		preferred{Kilograms, 2}, preferred{Pounds, 2}},
	Temperature: {"a temperature", []Unit{Celsius, Fahrenheit, Kelvins},
		preferred{Celsius, 0}, preferred{Fahrenheit, 0}},
	Voltage: {"a voltage", []Unit{Volts},
		preferred{Volts, 1}, preferred{Volts, 1}},
	Current: {"a current", []Unit{Amperes},
		preferred{Amperes, 0}, preferred{Amperes, 0}},
	Power: {"a power", []Unit{Kilowatts, Watts},
		preferred{Kilowatts, 2}, preferred{Kilowatts, 2}},
	EnergyPerLength: {"an energy per length", []Unit{KilojoulesPerMillimetre, JoulesPerMillimetre, KilojoulesPerCentimetre, KilojoulesPerInch},
		preferred{KilojoulesPerMillimetre, 2}, preferred{KilojoulesPerInch, 1}},
	GasFlow: {"a gas flow", []Unit{LitresPerMinute, CubicFeetPerHour},
		preferred{LitresPerMinute, 1}, preferred{CubicFeetPerHour, 0}},
	Area: {"an area", []Unit{SquareMillimetres, SquareCentimetres, SquareInches},
		preferred{SquareMillimetres, 1}, preferred{SquareInches, 4}},
	Frequency: {"a frequency", []Unit{Hertz},
		preferred{Hertz, 2}, preferred{Hertz, 2}},
	MassRate: {"a deposition rate", []Unit{KilogramsPerHour, PoundsPerHour},
		preferred{KilogramsPerHour, 2}, preferred{PoundsPerHour, 2}},
	Ratio: {"a percentage", []Unit{Percents},
		preferred{Percents, 0}, preferred{Percents, 0}},
	SecondMoment: {"a second moment of area", []Unit{Millimetres4, Centimetres4, Inches4},
		preferred{Centimetres4, 1}, preferred{Inches4, 2}},
}

// quantity returns the description of k, the empty one for a Kind outside the
// list.
func (k Kind) quantity() quantity {
	if k >= kindCount {
		k = noKind
	}
	return quantities[k]
}

// String returns the name with its article, such as "a length".
func (k Kind) String() string {
	if q := k.quantity(); q.name != "" {
		return q.name
	}
	return "an unknown quantity"
}

// Kinds returns every quantity, in a fixed order.
func Kinds() []Kind {
	kinds := make([]Kind, 0, kindCount-1)
	for k := Length; k < kindCount; k++ {
		kinds = append(kinds, k)
	}
	return kinds
}

// Units returns the units in which the quantity may be written, in a fixed
// order, the usual metric one first.
func (k Kind) Units() []Unit { return append([]Unit(nil), k.quantity().units...) }

// Allows reports whether the quantity may be written in unit u.
func (k Kind) Allows(u Unit) bool {
	for _, v := range k.quantity().units {
		if u == v {
			return true
		}
	}
	return false
}

// Preferred returns the unit in which a reader of the given system expects the
// quantity, and the decimals that the trade uses with it (common practice, no
// source).
func (k Kind) Preferred(s System) (u Unit, decimals int) {
	q := k.quantity()
	if s == InchPound {
		return q.inch.unit, q.inch.decimals
	}
	return q.metric.unit, q.metric.decimals
}

// Package unit reads and prints the quantities that shop people write: "6 mm",
// "1/4 in", "6.8 mm/s", "16 in/min", "10 deg".
//
// Inside the project every number is SI (m, rad, s, kg, A, V, W, J/m; degrees
// Celsius for temperature; 1 for percent). This package is the edge: Parse
// turns text into SI, Format and Exact turn SI into text, and the constants
// turn values in program text, 6*unit.MM, into SI. The set of quantities and of
// units is closed. A number without a unit is an error, and so is a unit of
// another quantity.
package unit

import "math/big"

// Unit is one unit of measure, such as Millimetres. The zero value is no unit.
type Unit uint8

// The units, in the order in which tables and messages list them.
const (
	none Unit = iota
	Millimetres
	Centimetres
	Metres
	Inches
	Feet
	Degrees
	Radians
	MillimetresPerSecond
	MillimetresPerMinute
	CentimetresPerMinute
	MetresPerMinute
	MetresPerSecond
	InchesPerMinute
	InchesPerSecond
	DegreesPerSecond
	RadiansPerSecond
	DegreesPerSecond2
	RadiansPerSecond2
	MillimetresPerSecond2
	MetresPerSecond2
	InchesPerSecond2
	DegreesPerSecond3
	RadiansPerSecond3
	MillimetresPerSecond3
	MetresPerSecond3
	InchesPerSecond3
	Seconds
	Milliseconds
	Minutes
	Hours
	Kilograms
	Grams
	Pounds
	Celsius
	Fahrenheit
	Kelvins
	Volts
	Amperes
	Watts
	Kilowatts
	KilojoulesPerMillimetre
	JoulesPerMillimetre
	KilojoulesPerCentimetre
	KilojoulesPerInch
	LitresPerMinute
	CubicFeetPerHour
	SquareMillimetres
	SquareCentimetres
	SquareInches
	Hertz
	KilogramsPerHour
	PoundsPerHour
	Percents
	Millimetres4
	Centimetres4
	Inches4
	unitCount
)

// scale is how a unit relates to SI: si = value*factor + offset, both exact.
type scale struct {
	symbol string   // the one spelling that is printed
	factor *big.Rat // SI per unit
	offset *big.Rat // SI value of 0; nil is 0
	also   []string // further spellings that are read, as plain writes them
}

// pi to 60 digits, so that 180 deg comes out as the float64 nearest to pi.
var pi, _ = new(big.Rat).SetString("3.14159265358979323846264338327950288419716939937510582097494")

var degree = new(big.Rat).Quo(pi, big.NewRat(180, 1))

var scales = [unitCount]scale{
	Millimetres:             {symbol: "mm", factor: big.NewRat(1, 1000), also: []string{"millimetre", "millimetres", "millimeter", "millimeters"}},
	Centimetres:             {symbol: "cm", factor: big.NewRat(1, 100), also: []string{"centimetre", "centimetres", "centimeter", "centimeters"}},
	Metres:                  {symbol: "m", factor: big.NewRat(1, 1), also: []string{"metre", "metres", "meter", "meters"}},
	Inches:                  {symbol: "in", factor: big.NewRat(254, 10000), also: []string{`"`, "in.", "inch", "inches"}},
	Feet:                    {symbol: "ft", factor: big.NewRat(3048, 10000), also: []string{"'", "ft.", "foot", "feet"}},
	Degrees:                 {symbol: "deg", factor: degree, also: []string{"degree", "degrees"}},
	Radians:                 {symbol: "rad", factor: big.NewRat(1, 1), also: []string{"radian", "radians"}},
	MillimetresPerSecond:    {symbol: "mm/s", factor: big.NewRat(1, 1000)},
	MillimetresPerMinute:    {symbol: "mm/min", factor: big.NewRat(1, 60000)},
	CentimetresPerMinute:    {symbol: "cm/min", factor: big.NewRat(1, 6000)},
	MetresPerMinute:         {symbol: "m/min", factor: big.NewRat(1, 60)},
	MetresPerSecond:         {symbol: "m/s", factor: big.NewRat(1, 1)},
	InchesPerMinute:         {symbol: "in/min", factor: big.NewRat(254, 600000), also: []string{"ipm"}},
	InchesPerSecond:         {symbol: "in/s", factor: big.NewRat(254, 10000)},
	DegreesPerSecond:        {symbol: "deg/s", factor: degree},
	RadiansPerSecond:        {symbol: "rad/s", factor: big.NewRat(1, 1)},
	DegreesPerSecond2:       {symbol: "deg/s2", factor: degree},
	RadiansPerSecond2:       {symbol: "rad/s2", factor: big.NewRat(1, 1)},
	MillimetresPerSecond2:   {symbol: "mm/s2", factor: big.NewRat(1, 1000)},
	MetresPerSecond2:        {symbol: "m/s2", factor: big.NewRat(1, 1)},
	InchesPerSecond2:        {symbol: "in/s2", factor: big.NewRat(254, 10000)},
	DegreesPerSecond3:       {symbol: "deg/s3", factor: degree},
	RadiansPerSecond3:       {symbol: "rad/s3", factor: big.NewRat(1, 1)},
	MillimetresPerSecond3:   {symbol: "mm/s3", factor: big.NewRat(1, 1000)},
	MetresPerSecond3:        {symbol: "m/s3", factor: big.NewRat(1, 1)},
	InchesPerSecond3:        {symbol: "in/s3", factor: big.NewRat(254, 10000)},
	Seconds:                 {symbol: "s", factor: big.NewRat(1, 1), also: []string{"second", "seconds"}},
	Milliseconds:            {symbol: "ms", factor: big.NewRat(1, 1000)},
	Minutes:                 {symbol: "min", factor: big.NewRat(60, 1), also: []string{"minute", "minutes"}},
	Hours:                   {symbol: "h", factor: big.NewRat(3600, 1), also: []string{"hour", "hours"}},
	Kilograms:               {symbol: "kg", factor: big.NewRat(1, 1)},
	Grams:                   {symbol: "g", factor: big.NewRat(1, 1000)},
	Pounds:                  {symbol: "lb", factor: big.NewRat(45359237, 100000000), also: []string{"lbs"}},
	Celsius:                 {symbol: "degC", factor: big.NewRat(1, 1), also: []string{"c"}},
	Fahrenheit:              {symbol: "degF", factor: big.NewRat(5, 9), offset: big.NewRat(-160, 9), also: []string{"f"}},
	Kelvins:                 {symbol: "K", factor: big.NewRat(1, 1), offset: big.NewRat(-27315, 100)},
	Volts:                   {symbol: "V", factor: big.NewRat(1, 1), also: []string{"volt", "volts"}},
	Amperes:                 {symbol: "A", factor: big.NewRat(1, 1), also: []string{"amp", "amps", "ampere", "amperes"}},
	Watts:                   {symbol: "W", factor: big.NewRat(1, 1), also: []string{"watt", "watts"}},
	Kilowatts:               {symbol: "kW", factor: big.NewRat(1000, 1)},
	KilojoulesPerMillimetre: {symbol: "kJ/mm", factor: big.NewRat(1000000, 1)},
	JoulesPerMillimetre:     {symbol: "J/mm", factor: big.NewRat(1000, 1)},
	KilojoulesPerCentimetre: {symbol: "kJ/cm", factor: big.NewRat(100000, 1)},
	KilojoulesPerInch:       {symbol: "kJ/in", factor: big.NewRat(10000000, 254)},
	LitresPerMinute:         {symbol: "L/min", factor: big.NewRat(1, 60000)},
	CubicFeetPerHour:        {symbol: "cfh", factor: big.NewRat(28316846592, 3600e12), also: []string{"ft3/h"}},
	SquareMillimetres:       {symbol: "mm2", factor: big.NewRat(1, 1000000)},
	SquareCentimetres:       {symbol: "cm2", factor: big.NewRat(1, 10000)},
	SquareInches:            {symbol: "in2", factor: big.NewRat(64516, 100000000), also: []string{"sqin"}},
	Hertz:                   {symbol: "Hz", factor: big.NewRat(1, 1)},
	KilogramsPerHour:        {symbol: "kg/h", factor: big.NewRat(1, 3600)},
	PoundsPerHour:           {symbol: "lb/h", factor: big.NewRat(45359237, 360000000000)},
	Millimetres4:            {symbol: "mm4", factor: big.NewRat(1, 1000000000000)},
	Centimetres4:            {symbol: "cm4", factor: big.NewRat(1, 100000000)},
	Inches4:                 {symbol: "in4", factor: big.NewRat(254*254*254*254, 1e16)},
	Percents:                {symbol: "%", factor: big.NewRat(1, 100), also: []string{"percent"}},
}

// String returns the symbol that Format prints, such as "mm/s".
func (u Unit) String() string {
	if u == none || u >= unitCount {
		return "no unit"
	}
	return scales[u].symbol
}

// SI converts a value in this unit into SI (degrees Celsius for temperature).
// A Unit outside the list gives NaN.
func (u Unit) SI(value float64) float64 {
	factor, offset := u.floats()
	return value*factor + offset
}

// Value converts an SI value (degrees Celsius for temperature) into this unit.
// A Unit outside the list gives NaN.
func (u Unit) Value(si float64) float64 {
	factor, offset := u.floats()
	return (si - offset) / factor
}

// floats returns the unit's factor (SI per unit) and offset (SI) as the nearest
// float64.
func (u Unit) floats() (factor, offset float64) {
	if u == none || u >= unitCount {
		return nan, nan
	}
	s := scales[u]
	factor, _ = s.factor.Float64()
	if s.offset != nil {
		offset, _ = s.offset.Float64()
	}
	return factor, offset
}

// exact returns the float64 nearest to value of this unit in SI.
func (u Unit) exact(value *big.Rat) float64 {
	s := scales[u]
	si := new(big.Rat).Mul(value, s.factor)
	if s.offset != nil {
		si.Add(si, s.offset)
	}
	f, _ := si.Float64()
	return f
}

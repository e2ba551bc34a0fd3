package unit

import "math"

// Factors that carry a value into SI by multiplication, 6*unit.MM, and out of
// it by division, x/unit.MM.
//
// Sources. The inch is 25.4 mm and the pound 0.45359237 kg exactly: the
// international yard and pound agreement of 1959, as in NIST Special
// Publication 811 (2008), appendix B.8 (from memory); the foot is 12 inches.
// Decimal multiples and the minute, hour, degree and litre are those of the SI
// Brochure, 9th edition, tables 7 and 8 (from memory).
const (
	MM   = 1e-3   // m in a millimetre
	CM   = 1e-2   // m in a centimetre
	Inch = 0.0254 // m in an inch, exactly
	Foot = 0.3048 // m in a foot, exactly

	Deg = math.Pi / 180 // rad in a degree

	MMPerS   = MM        // m/s in a mm/s
	MMPerMin = MM / 60   // m/s in a mm/min
	CMPerMin = CM / 60   // m/s in a cm/min
	MPerMin  = 1.0 / 60  // m/s in a m/min
	InPerS   = Inch      // m/s in an in/s
	InPerMin = Inch / 60 // m/s in an in/min

	DegPerS  = Deg  // rad/s in a deg/s
	DegPerS2 = Deg  // rad/s2 in a deg/s2
	MMPerS2  = MM   // m/s2 in a mm/s2
	InPerS2  = Inch // m/s2 in an in/s2
	DegPerS3 = Deg  // rad/s3 in a deg/s3
	MMPerS3  = MM   // m/s3 in a mm/s3
	InPerS3  = Inch // m/s3 in an in/s3

	Ms     = 1e-3 // s in a millisecond
	Minute = 60   // s in a minute
	Hour   = 3600 // s in an hour

	Gram  = 1e-3       // kg in a gram
	Pound = 0.45359237 // kg in a pound, exactly

	KW = 1e3 // W in a kilowatt

	KJPerMM = 1e6        // J/m in a kJ/mm
	JPerMM  = 1e3        // J/m in a J/mm
	KJPerCM = 1e5        // J/m in a kJ/cm
	KJPerIn = 1e3 / Inch // J/m in a kJ/in

	LPerMin = 1e-3 / 60                 // m3/s in a L/min
	CFH     = Foot * Foot * Foot / 3600 // m3/s in a cubic foot per hour

	MM2 = MM * MM     // m2 in a mm2
	CM2 = CM * CM     // m2 in a cm2
	In2 = Inch * Inch // m2 in an in2

	MM4 = MM2 * MM2 // m4 in a mm4
	CM4 = CM2 * CM2 // m4 in a cm4
	In4 = In2 * In2 // m4 in an in4

	KGPerH = 1.0 / Hour   // kg/s in a kg/h
	LbPerH = Pound / Hour // kg/s in a lb/h

	Percent = 1e-2 // dimensionless in a percent
)

package unit

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"
)

// maxText is the longest text that is read as a quantity, in bytes.
const maxText = 64

// absoluteZero is the lowest temperature there is, in degC.
const absoluteZero = -273.15

// Parse reads a quantity such as "6.8 mm/s" and returns it in SI: m, rad, m/s,
// rad/s, rad/s2, m/s2, rad/s3, m/s3, s, kg, degC, V, A, W, J/m, m3/s, m2, m4, Hz, kg/s, and 1 for
// 100 %. The result is the float64 nearest to what was written.
//
// A number is a decimal ("6.8", "-3", "1e-3"), a fraction ("1/4") or a whole
// number with a fraction ("1 1/2", "1-1/2"). The decimal mark is the point. A
// comma is read as the decimal mark where it can mean nothing else ("6,8",
// "0,035"), and refused where it may separate thousands ("1,250"). The unit
// must follow the number and belong to the quantity; capitals and spaces in it
// do not matter, and 10", 10°, mm², mm^2 and °C are read as in, deg, mm2 and
// degC. Temperatures below absolute zero are refused.
//
// Every error is an *Error.
func Parse(k Kind, text string) (si float64, err error) {
	trimmed := strings.Join(strings.Fields(text), " ")
	if len(trimmed) > maxText {
		return 0, k.refuse(strings.ToValidUTF8(trimmed[:maxText], ""), complaint{fmt.Sprintf("it is longer than %d characters", maxText), ""})
	}
	value, rest, wrong := splitNumber(trimmed)
	if wrong != nil {
		return 0, k.refuse(trimmed, *wrong)
	}
	u, wrong := k.readUnit(rest, value)
	if wrong != nil {
		return 0, k.refuse(trimmed, *wrong)
	}
	si = u.exact(value)
	if wrong := k.checkRange(si, value); wrong != nil {
		return 0, k.refuse(trimmed, *wrong)
	}
	return si, nil
}

// refuse makes the error; a complaint without its own mend gets an example.
func (k Kind) refuse(text string, wrong complaint) error {
	units := k.Units()
	if wrong.mend == "" {
		wrong.mend = "write a number and a unit"
		if len(units) > 0 {
			wrong.mend = fmt.Sprintf("write a number and a unit, such as \"6 %v\"", units[0])
		}
	}
	return &Error{Kind: k, Text: text, Found: wrong.found, Allowed: units, Mend: wrong.mend}
}

// checkRange refuses what float64 cannot hold and what cannot be.
func (k Kind) checkRange(si float64, value *big.Rat) *complaint {
	switch {
	case math.IsInf(si, 0):
		return &complaint{"the number is too large", "write a smaller number"}
	case si == 0 && value.Sign() != 0 && k != Temperature:
		return &complaint{"the number is too small", "write 0 or a larger number"}
	case k == Temperature && si < absoluteZero:
		return &complaint{"it lies below absolute zero, -273.15 degC", "write a higher temperature"}
	}
	return nil
}

// secondNumber is what a range, a sum or a list leaves behind its first number.
var secondNumber = regexp.MustCompile(`^[-–+*/x×;:, ]?\s*[0-9.,]`)

// readUnit reads the text behind the number as a unit of the quantity.
func (k Kind) readUnit(text string, value *big.Rat) (Unit, *complaint) {
	if text == "" {
		return none, &complaint{"it has no unit", k.exampleWith(value)}
	}
	if secondNumber.MatchString(text) {
		return none, &complaint{"it has more than one number", "write one number and one unit"}
	}
	found, known := spellings[plain(text)]
	if !known {
		w := complaint{fmt.Sprintf("the unit %q is not known", text), ""}
		if near := k.nearest(plain(text)); near != none {
			w.mend = fmt.Sprintf("write %q", number(value)+" "+near.String())
		}
		return none, &w
	}
	switch {
	case k.Allows(found):
		return found, nil
	case k == WireFeed && Speed.Allows(found):
		return none, &complaint{fmt.Sprintf("%v is not used for it", found),
			fmt.Sprintf("write %q", Exact(found.exact(value), MetresPerMinute))}
	}
	return none, &complaint{fmt.Sprintf("its unit %v makes it %s", found, found.kinds()), k.exampleWith(value)}
}

// exampleWith proposes the same number with the usual metric unit and, where
// there is one, with the usual inch unit.
func (k Kind) exampleWith(value *big.Rat) string {
	metric, _ := k.Preferred(Metric)
	inch, _ := k.Preferred(InchPound)
	switch {
	case metric == none:
		return "ask for a quantity that exists"
	case metric == inch:
		return fmt.Sprintf("write the unit, such as %q", number(value)+" "+metric.String())
	}
	return fmt.Sprintf("write the unit, such as %q or %q",
		number(value)+" "+metric.String(), number(value)+" "+inch.String())
}

// number prints a value for a proposal, with the digits it needs.
func number(value *big.Rat) string {
	f, _ := value.Float64()
	return fmt.Sprintf("%.12g", f)
}

package unit

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

var (
	// written finds the sign and the number that a quantity begins with.
	written = regexp.MustCompile(`^([+\-−]?)\s*((?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9.,]*[0-9][0-9.,]*(?:[eE][+\-]?[0-9]{1,3})?)`)
	// fraction takes 1/4, 1 1/2 and 1-1/2 apart.
	fraction = regexp.MustCompile(`^(?:([0-9]+)[ -])?([0-9]+)/([0-9]+)$`)
	// decimal is a number that big.Rat reads as we mean it.
	decimal = regexp.MustCompile(`^-?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+\-]?[0-9]{1,3})?$`)
	// comma takes a number with one decimal comma apart.
	comma = regexp.MustCompile(`^([0-9]*),([0-9]+)$`)
)

// complaint is what is wrong with a text and how to mend it, in words.
type complaint struct{ found, mend string }

// splitNumber reads the number at the start of text, exactly, and returns the
// rest, which is the unit.
func splitNumber(text string) (value *big.Rat, rest string, wrong *complaint) {
	m := written.FindStringSubmatch(text)
	if m == nil {
		return nil, "", &complaint{"it does not begin with a number", ""}
	}
	value, wrong = readNumber(m[2])
	if wrong != nil {
		return nil, "", wrong
	}
	if m[1] == "-" || m[1] == "−" {
		value.Neg(value)
	}
	return value, strings.TrimSpace(text[len(m[0]):]), nil
}

// readNumber reads an unsigned number: a decimal, a fraction or a whole number
// and a fraction.
func readNumber(digits string) (*big.Rat, *complaint) {
	if m := fraction.FindStringSubmatch(digits); m != nil {
		part, _ := new(big.Rat).SetString(m[2])
		below, _ := new(big.Rat).SetString(m[3])
		if below.Sign() == 0 {
			return nil, &complaint{"the fraction " + digits + " divides by zero", "write a number below the line that is not 0"}
		}
		part.Quo(part, below)
		if m[1] != "" {
			whole, _ := new(big.Rat).SetString(m[1])
			part.Add(part, whole)
		}
		return part, nil
	}
	plain, wrong := withoutComma(digits)
	if wrong != nil {
		return nil, wrong
	}
	value, ok := rational(plain)
	if !ok {
		return nil, &complaint{digits + " is not a number", "write one point at most, as in 6.8"}
	}
	return value, nil
}

// withoutComma turns a decimal comma into a point where it can mean nothing
// else. Three digits behind it, as in 1,250, may be thousands: such a number is
// refused unless it begins with 0 or with more than three digits.
func withoutComma(digits string) (string, *complaint) {
	if !strings.Contains(digits, ",") {
		return digits, nil
	}
	m := comma.FindStringSubmatch(digits)
	if m == nil {
		return "", &complaint{digits + " has a comma that cannot be read", "write one point for the decimals and nothing between thousands"}
	}
	whole, part := m[1], m[2]
	if len(part) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
		return "", &complaint{
			fmt.Sprintf("the comma in %s may mark decimals or thousands", digits),
			fmt.Sprintf("write %s.%s or %s%s", whole, part, whole, part)}
	}
	return whole + "." + part, nil
}

// rational reads a decimal number with a point, exactly.
func rational(text string) (*big.Rat, bool) {
	if !decimal.MatchString(text) {
		return nil, false
	}
	return new(big.Rat).SetString(text)
}

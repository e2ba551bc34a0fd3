package thermal

import "seamwright/weld"

// Composition is what a steel holds besides iron, in percent by mass: C of 0.16
// is 0.16 %. An element that is not there is 0. Carbon is never 0: a zero
// Composition is one that nobody stated, and is refused. Take it from the
// certificate of the plate; that of a Grade is only a stand-in.
type Composition struct {
	C, Si, Mn, Cr, Ni, Mo, Cu, V, Nb, Ti, B float64
}

// content returns the range of sense of an element, percent by mass: wider
// than any unalloyed or low-alloy steel. Common practice, no source.
func content(element string, low, high float64) validity {
	return validity{"content of " + element, low, high, 1, "% by mass",
		"give percent by mass, as the certificate prints it, of an unalloyed or low-alloy steel"}
}

// The contents that make sense.
var (
	carbons     = content("carbon", 0.005, 1)
	silicons    = content("silicon", 0, 3)
	manganeses  = content("manganese", 0, 5)
	chromiums   = content("chromium", 0, 5)
	nickels     = content("nickel", 0, 10)
	molybdenums = content("molybdenum", 0, 2)
	coppers     = content("copper", 0, 3)
	vanadiums   = content("vanadium", 0, 1)
	niobiums    = content("niobium", 0, 0.5)
	titaniums   = content("titanium", 0, 0.5)
	borons      = content("boron", 0, 0.02)
)

// Validate returns a RangeError for the first element that is missing, negative,
// not a number, or beyond any unalloyed or low-alloy steel.
func (c Composition) Validate() error {
	return within(carbons.of(c.C), silicons.of(c.Si), manganeses.of(c.Mn), chromiums.of(c.Cr), nickels.of(c.Ni),
		molybdenums.of(c.Mo), coppers.of(c.Cu), vanadiums.of(c.V), niobiums.of(c.Nb), titaniums.of(c.Ti), borons.of(c.B))
}

// limit returns the range of an element in which a formula holds, percent by
// mass.
func limit(element string, low, high float64) validity {
	return validity{"content of " + element, low, high, 1, "% by mass", "take another carbon equivalent"}
}

// The composition limits of CET. EN 1011-2, read in a steel maker's help text
// and in public code.
var (
	cetCarbon     = limit("carbon", 0.05, 0.32)
	cetSilicon    = limit("silicon", 0, 0.8)
	cetManganese  = limit("manganese", 0.5, 1.9)
	cetChromium   = limit("chromium", 0, 1.5)
	cetNickel     = limit("nickel", 0, 2.5)
	cetMolybdenum = limit("molybdenum", 0, 0.75)
	cetCopper     = limit("copper", 0, 0.7)
	cetVanadium   = limit("vanadium", 0, 0.18)
	cetNiobium    = limit("niobium", 0, 0.06)
	cetTitanium   = limit("titanium", 0, 0.12)
	cetBoron      = limit("boron", 0, 0.005)
)

// withinCET returns a RangeError for an element outside the limits of CET.
func (c Composition) withinCET() error {
	return within(cetCarbon.of(c.C), cetSilicon.of(c.Si), cetManganese.of(c.Mn), cetChromium.of(c.Cr), cetNickel.of(c.Ni),
		cetMolybdenum.of(c.Mo), cetCopper.of(c.Cu), cetVanadium.of(c.V), cetNiobium.of(c.Nb), cetTitanium.of(c.Ti), cetBoron.of(c.B))
}

// The other limits of the carbon equivalents. Read in a steel maker's help text
// and in public code; some set the lower carbon limit of CE (IIW) at 0.18, and
// that of Pcm at 0.12.
var (
	iiwCarbon = limit("carbon", 0.12, 0.60)
	iiwValue  = validity{"CE (IIW)", 0.30, 0.70, 1, "", "take another carbon equivalent"}
	pcmCarbon = limit("carbon", 0.005, 0.18)
)

// iiw, cet and pcm return the weighted sums, percent by mass.
func (c Composition) iiw() float64 {
	return c.C + c.Mn/6 + (c.Cr+c.Mo+c.V)/5 + (c.Ni+c.Cu)/15
}

func (c Composition) cet() float64 {
	return c.C + (c.Mn+c.Mo)/10 + (c.Cr+c.Cu)/20 + c.Ni/40
}

func (c Composition) pcm() float64 {
	return c.C + c.Si/30 + (c.Mn+c.Cu+c.Cr)/20 + c.Ni/60 + c.Mo/15 + c.V/10 + 5*c.B
}

// readFormula is the source of all four formulas.
func readFormula(family weld.CodeFamily, code string) weld.Source {
	return weld.Source{Mark: weld.Read, Family: family, Code: code, Note: "as a steel maker's help text and public code have it"}
}

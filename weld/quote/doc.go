// Package quote reads a weld list and says what the welds take and cost: metal,
// wire, gas, time, money, and from which batch size an arm is no dearer than
// welding by hand.
//
// A weld list is a table in CSV, one line for each kind of seam of a part:
//
//	mark,weld,seam,count,settings,passes,by,angle,area
//	W1,"z6 both sides, 50 pitch 100, staggered",1200 mm,2,11,1,arm,90 deg,
//	W2,"V s10 arrow side, root 2, angle 60",300 mm,1,12,3,hand,,66.8 mm2
//
// Quantities carry their unit, welds are in the text form of package symbol,
// settings are those of package procedure. Inside, all is SI: m, m2, kg, s, m3,
// J; money is in currency units of the caller's choice. What a quote assumes
// comes with it, each figure with its source.
package quote

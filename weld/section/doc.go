// Package section is the geometry of weld sections: fillets and grooves before
// and after welding, the rules on their size, and the passes that fill them.
//
// A Fillet is a triangle: the included angle between the plates at the root
// and the legs along the plates. A Groove is the gap between two prepared edges.
// Both have closed forms for their areas and outlines (Polygon) to draw them.
// PlanFillet and PlanGroove lay beads one on the other until the section is full: a
// Plan of passes, each with its metal, aim, work angle and outline. Units
// are SI (m, m2, rad). Each rule is data with its code, edition, clause and mark;
// rules of the ISO family speak of the throat a or the leg z, rules of the AWS
// family of the leg, and no function mixes them. Input that is no sense to compute
// with is refused by name (InputError), never stretched to fit.
package section

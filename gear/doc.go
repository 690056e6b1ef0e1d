// Package gear designs pairs of involute spur gears for printed reduction
// drives: from module, teeth, profile shift, backlash and the bodies the teeth
// sit on it makes the two parts, the numbers a builder measures, and the checks
// that go with them.
//
// Lengths are millimetres, angles radians; a name ending in Deg is in degrees.
// Gear 1 is the pinion (on the servo), gear 2 the wheel; tooth 1 of each is
// centred on its +x axis and positive rotation is anticlockwise.
//
// Symbols and signs are those of ISO 21771:2007 (definitions recalled, formulas
// derived): the number of teeth of an internal gear is negative and a positive
// profile shift always thickens the tooth, so x2 = -x2 of the handbooks that
// keep z2 > 0. Diameters of an internal gear and centre distances are
// magnitudes. Only the wheel can be an internal gear.
//
// The flank is the involute of the base circle, inv(a) = tan(a) - a. Flank and
// root fillet are what the basic rack of ISO 53 leaves when it rolls on the
// reference circle; an undercut is therefore drawn as it would be cut. The fillet
// of an internal gear is what a pinion-type shaper leaves whose teeth are those
// of its mate, taller by the clearance and rounded at the tip. For backlash each
// tooth is thinned as if the tool's tooth were thicker: the root circle stays.
//
// The package does not choose pairs, place parts or write files.
package gear

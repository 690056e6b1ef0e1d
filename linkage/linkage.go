// Package linkage designs what stands between a servo's horn and a joint: bars,
// rigid plates, sliders and slots joined by pins, and above all the four-bar of
// horn, pushrod and lever. It follows a mechanism through its whole stroke and
// judges motion, forces and strength.
//
// Lengths are millimetres, forces N, torques N·m, stresses MPa and angles
// radians, except where a name ends in Deg. Everything lies in one plane and is
// seen so that positive turns are anticlockwise. The servo's axis O2 is the
// origin and the lever's axis O4 stands at (frame, 0); angles are counted from
// the line O2-O4. A four-bar has two ways to be put together: open, with the
// lever's pin on the left of the line from the horn's pin to O4, or crossed.
//
// The transmission angle is the angle between pushrod and lever, the horn angle
// that between horn and pushrod; 90 deg is best and 0 or 180 a dead point. The
// velocity ratio is the lever's speed over the horn's. Formulas are those of
// plane geometry and of virtual work; where one has another source it is named.
//
// The package shapes no parts, reads no files and knows no joint: package joint
// does.
package linkage

import "math"

const deg = math.Pi / 180 // one degree

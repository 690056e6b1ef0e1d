package gear

import (
	"math"

	"pintle/geom"
)

// A shaper is the pinion-type cutter of an internal gear, by its number of teeth
// and its shift in modules.
type shaper struct {
	z int
	x float64
}

// A rounding is how a shaper's rounded tip stands when it cuts a fillet.
type rounding struct {
	z    int     // teeth of the shaper
	axis float64 // from the gear's axis to the shaper's
	tip  float64 // radius on which the rounding's centre turns
	lead float64 // angle of that centre from the middle of the shaper's tooth
}

// newInner returns the tooth of an internal gear with z teeth, as newTooth does
// for an external one. Its form is that of the space, which stands in the places
// of newTooth's tooth: base is half the space angle at the base circle, roll
// angles run from the root (from) inwards to the tip (to), and the frame of
// flank and fillet has the middle of the space on +x.
//
// No rack cuts such a tooth: its fillet is what the tip of a shaper leaves, which
// rolls inside it at the distance of their shifts and reaches down to the root
// circle. The tip has the rack's fillet radius, or the full round that its tooth
// allows, whichever is less; for thinning the shaper's tooth is thicker.
func newInner(z int, m, alpha, x float64, rack Rack, tool shaper, thin, inset float64) tooth {
	t := tooth{z: z, m: m, alpha: alpha, r: m * float64(z) / 2, inner: true}
	t.rb = t.r * math.Cos(alpha)
	t.ra = t.r - m*(rack.Addendum+x) + inset
	s := m*(math.Pi/2+2*x*math.Tan(alpha)) - thin
	t.base = math.Pi/float64(z) - s/(2*t.r) + Involute(alpha)
	t.to = rollAt(t.ra, t.rb)
	t.shaped(tool, x, m*rack.FilletRadius, t.r+m*(rack.dedendum()-x))
	t.base += inset / t.rb
	t.psi = s/(2*t.r) - inset/t.rb
	t.from += inset / t.rb
	t.rf += inset
	t.rho = math.Max(t.rho+inset, 0)
	t.along = t.tool.lead * float64(tool.z) / float64(z) * t.rf
	return t
}

// leastRounding is the least radius of a shaper's tip in modules: a sharper one
// would not last (design choice).
const leastRounding = 0.1

// shaped sets the fillet that a shaper cuts down to the root radius, its tip
// rounded by rho at most. Where its tooth is too pointed to reach so far with a
// rounded tip, the root lies where it does; where its tip does not reach beyond
// the pitch point no flank is left.
func (t *tooth) shaped(tool shaper, x, rho, root float64) {
	differ := float64(t.z - tool.z)
	rb := t.rb * float64(tool.z) / float64(t.z)
	alphaW := InverseInvolute(Involute(t.alpha) - 2*math.Tan(t.alpha)*(tool.x+x)/differ)
	axis := (t.rb - rb) / math.Cos(alphaW)
	base := (t.base*float64(t.z) - differ*Involute(alphaW)) / float64(tool.z)
	lead := func(root, rho float64) float64 {
		return base - rho/rb - rollInvolute(rollAt(root-axis-rho, rb))
	}
	least := math.Min(rho, leastRounding*t.m)
	t.rf = largest(axis, root, func(root float64) bool { return lead(root, least) >= 0 })
	t.rho = largest(least, rho, func(rho float64) bool { return lead(t.rf, rho) >= 0 })
	t.tool = rounding{tool.z, axis, t.rf - axis - t.rho, lead(t.rf, t.rho)}
	roll := rollAt(t.tool.tip, rb)
	t.from = (axis*math.Sin(alphaW) + roll*rb + t.rho) / t.rb
	if t.bottom = math.Atan(roll) - alphaW; t.bottom <= 0 || t.tool.lead < 0 {
		t.from = 0
	}
}

// largest returns the largest number from lo to hi that holds, by halving: what
// holds does so up to some number and not beyond. Where nothing does it is lo.
func largest(lo, hi float64, holds func(float64) bool) float64 {
	if holds(hi) {
		return hi
	}
	for range 60 {
		if mid := (lo + hi) / 2; holds(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// innerFillet is fillet for an internal gear: the rounding's centre stands at the
// angle turn about the shaper's axis, 0 at the root circle, and the normal passes
// the pitch point.
func (t tooth) innerFillet(turn float64) (p, dp geom.Point) {
	ratio := float64(t.tool.z) / float64(t.z)
	sin, cos := math.Sincos(turn)
	centre, speed := geom.Point{X: t.tool.axis + t.tool.tip*cos, Y: t.tool.tip * sin}, geom.Point{X: -t.tool.tip * sin, Y: t.tool.tip * cos}
	away := centre.Sub(geom.Point{X: t.tool.axis / (1 - ratio)})
	out := away.Scale(1 / away.Len())
	swing := speed.Sub(out.Scale(out.X*speed.X + out.Y*speed.Y)).Scale(1 / away.Len())
	at, along := centre.Add(out.Scale(t.rho)), speed.Add(swing.Scale(t.rho))
	back := (t.tool.lead - turn) * ratio
	return at.Rotate(back), along.Sub(geom.Point{X: -at.Y, Y: at.X}.Scale(ratio)).Rotate(back)
}

// internalFillets returns by how much, on the radius, the involutes of both
// gears reach beyond where the mate's tip works: negative where a tip meets a
// fillet.
func (c contact) internalFillets() float64 {
	pinion := c.active(0)/2 - c.t[0].form()
	if c.start < 0 { // a tip beyond the tangent point
		pinion = c.start + c.t[0].rb - c.t[0].form()
	}
	return math.Min(pinion, c.t[1].form()-c.active(1)/2)
}

// internalInvolute returns z1/z2 - 1 + tan(alpha_a2)/tan(alpha_w), which must
// not be negative: the tip of the internal gear would meet the pinion's flank
// inside its base circle (from memory).
func (c contact) internalInvolute() float64 {
	return float64(c.t[0].z)/float64(c.t[1].z) - 1 + c.t[1].to/math.Tan(c.alphaW)
}

// trochoid returns theta_1 z1/z2 + inv alpha_w - inv alpha_a2 - theta_2 in rad,
// which must not be negative: the tips would meet as the pinion's leave the
// spaces (SDP/SI, Elements of Metric Gear Technology, p. T-45, eq. 5-6 and 5-7).
func (c contact) trochoid() float64 {
	ra1, ra2 := c.t[0].ra, c.t[1].ra
	inside := func(v float64) float64 { return math.Acos(math.Max(math.Min(v, 1), -1)) }
	theta1 := inside((ra2*ra2-ra1*ra1-c.a*c.a)/(2*c.a*ra1)) + rollInvolute(c.t[0].to) - Involute(c.alphaW)
	theta2 := inside((c.a*c.a + ra2*ra2 - ra1*ra1) / (2 * c.a * ra2))
	u := float64(c.t[0].z) / float64(c.t[1].z)
	return theta1*u + Involute(c.alphaW) - rollInvolute(c.t[1].to) - theta2
}

// trimming returns theta_1 + inv alpha_a1 - inv alpha_w - (z2/z1)(theta_2 + inv
// alpha_a2 - inv alpha_w) in rad; where it is negative the pinion cannot be put
// in along the line of centres (same page, eq. 5-9 and 5-10).
func (c contact) trimming() float64 {
	u := float64(c.t[1].z) / float64(c.t[0].z)
	cos := c.t[0].rb / c.t[0].ra / (c.t[1].rb / c.t[1].ra) // cos alpha_a1 / cos alpha_a2
	part := func(v float64) float64 { return math.Asin(math.Sqrt(math.Max(math.Min(v, 1), 0))) }
	theta1 := part((1 - cos*cos) / (1 - 1/(u*u)))
	theta2 := part((1/(cos*cos) - 1) / (u*u - 1))
	w := Involute(c.alphaW)
	return theta1 + rollInvolute(c.t[0].to) - w - u*(theta2+rollInvolute(c.t[1].to)-w)
}

// rollInvolute returns inv(alpha) for tan(alpha).
func rollInvolute(roll float64) float64 { return roll - math.Atan(roll) }

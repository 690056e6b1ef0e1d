package gear

import (
	"math"

	"pintle/geom"
)

// newInner returns the tooth of an internal gear with z teeth, as newTooth does
// for an external one. Its form is that of the space, which stands in the places
// of newTooth's tooth: base is half the space angle at the base circle, roll
// angles run from the root (from) inwards to the tip (to), and the frame of
// flank and fillet has the middle of the space on +x. No rack cuts such a tooth:
// the fillet is an arc that touches flank and root circle, of the rack's fillet
// radius or the full round of the space, whichever is less.
func newInner(z int, m, alpha, x float64, rack Rack, thin, inset float64) tooth {
	t := tooth{z: z, m: m, alpha: alpha, r: m * float64(z) / 2, inner: true}
	t.rb = t.r * math.Cos(alpha)
	t.ra = t.r - m*(rack.Addendum+x) + inset
	t.rf = t.r + m*(rack.dedendum()-x) + inset
	s := m*(math.Pi/2+2*x*math.Tan(alpha)) - thin - 2*inset/math.Cos(alpha)
	t.psi = s / (2 * t.r)
	t.base = math.Pi/float64(z) - t.psi + Involute(alpha)
	t.to = rollAt(t.ra, t.rb)
	lo, hi := 0.0, math.Max(m*rack.FilletRadius-inset, 0)
	if t.filletAngle(hi) < 0 {
		for range 60 {
			if mid := (lo + hi) / 2; t.filletAngle(mid) < 0 {
				hi = mid
			} else {
				lo = mid
			}
		}
		hi = lo
	}
	t.rho = hi
	roll := rollAt(t.rf-t.rho, t.rb)
	t.along = t.filletAngle(t.rho) * t.rf
	t.from = roll + t.rho/t.rb
	t.bottom = t.base - t.rho/t.rb - roll + math.Pi/2 - t.along/t.rf
	return t
}

// filletAngle returns the angle from the middle of an internal gear's space to
// the centre of a fillet of radius rho: a point of the flank's parallel.
func (t tooth) filletAngle(rho float64) float64 {
	roll := rollAt(t.rf-rho, t.rb)
	return t.base - rho/t.rb - (roll - math.Atan(roll))
}

// innerFillet is fillet for an internal gear: lean turns from the direction of
// the root circle towards the flank.
func (t tooth) innerFillet(lean float64) (p, dp geom.Point) {
	at := t.along / t.rf
	p = geom.Polar(t.rf-t.rho, at).Add(geom.Polar(t.rho, at+lean))
	return p, geom.Polar(t.rho, at+lean+math.Pi/2)
}

// internalFillets returns by how much, on the radius, the involutes of both
// gears reach beyond where the mate's tip works: negative where a tip meets a
// fillet.
func (c contact) internalFillets() float64 {
	pinion := -c.t[0].rb // a tip beyond the tangent point
	if c.start >= 0 {
		pinion = c.active(0)/2 - c.t[0].form()
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

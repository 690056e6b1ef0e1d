package gear

import "math"

// A contact is two nominal teeth at work at a centre distance. Positions along
// the line of action are measured from the tangent point on the base circle of
// gear 1. Where the formulas of external and internal pairs differ in a sign
// only, sign is it: +1 or -1.
type contact struct {
	t      [2]tooth
	sign   float64
	a      float64    // working centre distance, mm
	alphaW float64    // working pressure angle
	length float64    // a sin alpha_w, from tangent point to tangent point
	start  float64    // A, where the tip of gear 2 enters
	end    float64    // E, where the tip of gear 1 leaves
	form   [2]float64 // roll length at the form circle of each gear
}

func newContact(t1, t2 tooth, a float64) contact {
	c := contact{t: [2]tooth{t1, t2}, sign: 1, a: a}
	if t2.inner {
		c.sign = -1
	}
	c.alphaW = math.Acos(math.Min(math.Abs(c.base())/a, 1))
	c.length = a * math.Sin(c.alphaW)
	c.start = c.sign * (c.length - t2.to*t2.rb)
	c.end = t1.to * t1.rb
	c.form = [2]float64{t1.from * t1.rb, t2.from * t2.rb}
	return c
}

// base returns the sum of the base radii, or for an internal pair the wheel's
// less the pinion's.
func (c contact) base() float64 { return c.t[1].rb + c.sign*c.t[0].rb }

// basePitch returns p_b.
func (c contact) basePitch() float64 { return math.Pi * c.t[0].m * math.Cos(c.t[0].alpha) }

// ratio returns the contact ratio over the flanks that are there: the path ends
// where a tip leaves or where the mate's involute begins. At 0 or below the
// flanks never work together.
func (c contact) ratio() float64 {
	start := math.Max(c.start, c.form[0])
	end := math.Min(c.end, c.sign*(c.length-c.form[1]))
	return (end - start) / c.basePitch()
}

// at returns the same teeth at another centre distance.
func (c contact) at(a float64) contact { return newContact(c.t[0], c.t[1], a) }

// closer returns the same teeth with the axes moved by d mm the way that takes
// backlash: together, or apart for an internal pair.
func (c contact) closer(d float64) contact { return c.at(c.a - c.sign*d) }

// tight returns the centre distance at which the backlash is zero: there the
// two teeth fill the pitch, base_1 z_1 + base_2 z_2 = pi + (z_1 + z_2) inv. A
// tooth of an internal pair fills the wheel's space instead.
func (c contact) tight() float64 { return c.distanceAt(0) }

// tightInvolute returns inv(alpha_w) at zero backlash.
func (c contact) tightInvolute() float64 {
	z1, z2 := float64(c.t[0].z), float64(c.t[1].z)
	if c.sign < 0 {
		return (c.t[1].base*z2 - c.t[0].base*z1) / (z2 - z1)
	}
	return (c.t[0].base*z1 + c.t[1].base*z2 - math.Pi) / (z1 + z2)
}

// distanceAt returns the centre distance in mm at which the normal backlash has
// a value.
func (c contact) distanceAt(backlash float64) float64 {
	return c.base() / math.Cos(InverseInvolute(c.tightInvolute()+c.sign*backlash/(2*c.base())))
}

// distanceAtRatio returns the centre distance in mm at which the contact ratio
// falls to a value as the axes give way, and false where it is below it already.
func (c contact) distanceAtRatio(ratio float64) (float64, bool) {
	if c.ratio() < ratio {
		return 0, false
	}
	lo, hi := 0.0, 3*c.t[0].m
	for range 50 {
		if mid := (lo + hi) / 2; c.closer(-mid).ratio() >= ratio {
			lo = mid
		} else {
			hi = mid
		}
	}
	return c.a + c.sign*lo, true
}

// normalBacklash returns j_bn = (d_b1 + d_b2)(inv alpha_w - inv alpha_tight) at
// the centre distance; negative where the teeth jam.
func (c contact) normalBacklash() float64 {
	return c.sign * 2 * c.base() * (Involute(c.alphaW) - c.tightInvolute())
}

// backlash returns j_wt at the working pitch circle.
func (c contact) backlash() float64 { return c.normalBacklash() / math.Cos(c.alphaW) }

// working returns the working pitch radius of gear 1 or 2 (i 0 or 1).
func (c contact) working(i int) float64 { return c.t[i].rb / math.Cos(c.alphaW) }

// active returns d_Nf of gear i, the diameter at which its mate's tip would
// meet the flank.
func (c contact) active(i int) float64 {
	return 2 * math.Hypot(c.t[i].rb, c.rollOfMate(i))
}

// rollOfMate returns where on the flank of gear i its mate's tip works, as a
// length from the tangent point; negative beyond it.
func (c contact) rollOfMate(i int) float64 {
	if i == 0 {
		return c.start
	}
	return c.length - c.sign*c.end
}

// tipClearance returns c between the root of gear i and its mate's tip.
func (c contact) tipClearance(i int) float64 {
	if c.sign < 0 {
		return [2]float64{c.t[1].ra - c.a - c.t[0].rf, c.t[1].rf - c.a - c.t[0].ra}[i]
	}
	return c.a - c.t[1-i].ra - c.t[i].rf
}

// sliding returns the specific sliding zeta of gear i at the end of the path
// where its root works: -Inf where that end lies on the base circle or beyond.
func (c contact) sliding(i int) float64 {
	own := c.rollOfMate(i)
	if own <= 0 {
		return math.Inf(-1)
	}
	mate := c.length - own
	if c.sign < 0 {
		mate = [2]float64{c.length + own, c.end}[i]
	}
	u := float64(c.t[1-i].z) / float64(c.t[i].z)
	return 1 - mate/(u*own)
}

// tipSliding returns the specific sliding of gear i where its tip works on the
// root of its mate: zeta/(zeta - 1) of the mate's, 1 where that is without bound.
func (c contact) tipSliding(i int) float64 {
	mate := c.sliding(1 - i)
	if math.IsInf(mate, -1) {
		return 1
	}
	return mate / (mate - 1)
}

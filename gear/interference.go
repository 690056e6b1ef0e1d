package gear

import "math"

// interference returns the least room in mm between the tip of either gear and
// the root fillet of the other: negative where they cross.
func (c contact) interference() float64 {
	if c.sign < 0 {
		return c.internalFillets()
	}
	swapped := newContact(c.t[1], c.t[0], c.a)
	return math.Min(c.tipOnFillet(), swapped.tipOnFillet())
}

// tipOnFillet is interference for the tip of gear 2 and the fillet of gear 1.
// The tip's corner is followed in the frame of gear 1's tooth, with the flanks
// touching, for as long as it is below the form circle. A corner that never
// gets there has its distance from the form circle.
func (c contact) tipOnFillet() float64 {
	t, ra := c.t[0], c.t[1].ra
	form := t.form()
	if c.a-ra >= form {
		return c.a - ra - form
	}
	u := float64(c.t[1].z) / float64(t.z)
	sin, cos := math.Sincos(c.alphaW)
	x, y := t.rb*cos+c.start*sin, -t.rb*sin+c.start*cos // the corner where it meets the line of action
	turnA := -c.alphaW - t.base + c.start/t.rb          // gear 1 at that moment
	angleA := math.Atan2(-y, c.a-x)                     // the corner about gear 2, from the line of centres
	reach := math.Acos(math.Min((c.a*c.a+ra*ra-form*form)/(2*c.a*ra), 1))
	least := math.Inf(1)
	const steps = 64
	for i := range steps + 1 {
		angle := reach * (1 - 2*float64(i)/steps)
		turn := turnA + (angleA-angle)*u
		sin, cos := math.Sincos(angle)
		px, py := c.a-ra*cos, -ra*sin
		least = math.Min(least, t.roomAt(math.Hypot(px, py), math.Atan2(py, px)-turn))
	}
	return least
}

// roomAt returns how far a point at radius r and angle from the tooth centre
// lies outside the fillet, along the circle; inside the root circle it is the
// depth below it, as a negative number.
func (t tooth) roomAt(r, angle float64) float64 {
	if r <= t.rf {
		return r - t.rf
	}
	p, _ := t.fillet(t.leanAt(r))
	return r * (angle - p.Angle())
}

// leanAt returns the tool angle at which the fillet has radius r: Newton inside
// a bracket, since radii grow along the fillet, slowly at first.
func (t tooth) leanAt(r float64) float64 {
	lo, hi := 0.0, t.bottom
	lean := hi / 2
	for range 60 {
		p, dp := t.fillet(lean)
		off := p.Len() - r
		if off > 0 {
			hi = lean
		} else {
			lo = lean
		}
		slope := (p.X*dp.X + p.Y*dp.Y) / p.Len()
		next := lean - off/slope
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-lean) < 1e-12 {
			break
		}
		lean = next
	}
	return lean
}

package bearing

import "math"

// handTight is the share of the plastic's strength under the head of a clamp
// screw, or in the thread that it cuts, to which a hand turns it: more settles, or
// strips the thread (common practice, no source). threadShear is the share of the
// tensile strength that plastic bears in shear (from memory).
const (
	handTight   = 0.25
	threadShear = 0.5
)

// clampTension returns the tension in N of a clamp screw turned tight by hand, an
// estimate: as much as head or thread press on the plastic at a quarter of its
// strength.
func (h *Housing) clampTension() float64 {
	c, strength := h.spec.Clamp, h.spec.Material.Strength
	head := math.Pi / 4 * (c.Screw.HeadDiameter*c.Screw.HeadDiameter - h.clamp.hole.Drawn*h.clamp.hole.Drawn)
	tension := handTight * strength * max(head, 0)
	if c.Nut {
		return tension
	}
	return math.Min(tension, handTight*threadShear*strength*math.Pi*c.Screw.Diameter*c.Thickness)
}

// clampClosing returns the force in N that the screw takes to close the slit
// until the seat grips: a ring cut open gives 3 pi F R³ / (E I) between its ends
// (Castigliano, thin ring; derived).
func (h *Housing) clampClosing() float64 {
	mean := (h.seat.Drawn + h.wall) / 2
	inertia := h.Height() * math.Pow(h.wall, 3) / 12
	return math.Pi * h.spec.Card.Slip() * h.spec.Material.Modulus * inertia / (3 * math.Pi * math.Pow(mean, 3))
}

// clampHold returns the force in N that pulls the bearing out of a fresh clamp:
// friction of a band round the ring, drawn from both ends, which loses tension
// along the ring, 2 F (1 - e^(-mu pi)) (rope friction, derived). The leverage of
// the ears is left out.
func (h *Housing) clampHold() float64 {
	band := max(h.clampTension()-h.clampClosing(), 0)
	return 2 * band * (1 - math.Exp(-frictionLow*math.Pi))
}

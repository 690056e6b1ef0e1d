package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// pushHoles are round holes through the shoulder under the ring's face. Wanted is
// the diameter of the rod that pushes, with room to slide.
type pushHoles struct {
	count  int
	hole   fit.Fit
	radius float64 // mm, of the circle of their centres
}

// leastPush is the thinnest rod in mm to push with, as with slots.
const leastPush = 1.5

// reach returns how far out in mm the holes open the shoulder.
func (p pushHoles) reach() float64 { return p.radius + p.hole.Drawn/2 }

// placePush puts round holes as near to the seat as slots end, and refuses them
// where less than a bead of shoulder stays between their chamfers and that of the
// shoulder hole.
func (h *Housing) placePush(k KnockOut) error {
	card := h.spec.Card
	outer := h.footRadius() - slotMargin
	inner := h.hole.Drawn/2 + 2*card.BedChamfer() + card.BeadWidth
	if h.spec.KnockOut.Width == 0 {
		k.Width = math.Min(knockOutWidth, floorTo(outer-inner-(card.Hole("", "", 1).Drawn-1), 0.1))
	}
	p := pushHoles{count: k.Count, hole: card.Hole(h.partName(), "knock-out hole", max(k.Width, leastPush))}
	p.radius = outer - p.hole.Drawn/2
	if lacks := inner - (outer - p.hole.Drawn); lacks > 1e-9 {
		lo, _ := HousingShoulder(h.spec.Bearing)
		remedy := "use slots: leave round out"
		if most := h.hole.Wanted - 2*lacks - 0.01; most >= lo {
			remedy = fmt.Sprintf("use %s mm or less, or slots", floor(most, 0.01))
		}
		return &check.FieldError{
			Field: "shoulder hole", Value: math.Round(h.hole.Wanted*1000) / 1000, Unit: "mm", Reason: fmt.Sprintf("leaves no bead of shoulder beside round knock-out holes of %s mm", check.Number(p.hole.Wanted)),
			Remedy: remedy,
		}
	}
	half := math.Sin(math.Pi / float64(k.Count)) // of the way to the next one, where an inspection slot may be
	near := 2*p.radius*half < p.hole.Drawn+2*card.BedChamfer()+card.BeadWidth
	if h.spec.InspectionSlots > 0 {
		near = near || p.radius*half < (p.hole.Drawn+sightWidth)/2+2*card.BedChamfer()+card.BeadWidth
	}
	if near {
		return &check.FieldError{
			Field: "knock-out width", Value: p.hole.Wanted, Unit: "mm", Reason: fmt.Sprintf("leaves no shoulder between %d round holes", k.Count),
			Remedy: "use fewer or smaller holes, or leave inspection slots out",
		}
	}
	h.push = p
	return nil
}

func floorTo(v, step float64) float64 { return math.Floor(v/step+1e-9) * step }

// pushProfile draws the round holes, widened by a chamfer at the bed; midway
// between inspection slots, as slots would be.
func (h *Housing) pushProfile() profile {
	var holes, bed []geom.Contour
	for i := range h.push.count {
		at := geom.Polar(h.push.radius, math.Pi/2+2*math.Pi*float64(i)/float64(h.push.count))
		hole := geom.Bore(at, h.push.hole.Drawn, geom.ChordPlain)
		holes, bed = append(holes, hole), append(bed, hole.Resize(h.push.hole.Drawn+2*h.chamfer))
	}
	var p profile
	p.add(h.chamfer, bed, holes)
	p.add(h.spec.ShoulderThickness, holes, nil)
	return p
}

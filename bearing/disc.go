package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

const (
	discPlay = 0.4 // mm on the diameter between pressing disc and seat (common practice, no source)
	discBase = 6.0 // mm of disc behind the recess (common practice, no source)
)

// A pressingDisc is NAME-pressing-disc: it touches only the face of the ring that
// goes into the seat. A screw of the vice or a threaded rod may pass its middle.
type pressingDisc struct {
	outside, recess, hole fit.Fit // hole is zero for a bearing no screw passes
	depth                 float64 // of the recess
}

func (h *Housing) placeDisc() error {
	if !h.spec.PressingDisc {
		return nil
	}
	b, card, part := h.spec.Bearing, h.spec.Card, h.spec.Name+"-pressing-disc"
	h.disc = &pressingDisc{outside: card.Peg(part, "outside", b.Outside-discPlay), depth: 1}
	h.disc.recess = card.Hole(part, "recess", b.discRecess())
	if b.Kind == Tapered {
		h.disc.depth += b.Width - b.SeatWidth()
	}
	if screw, ok := fit.LargestThrough(math.Min(b.Bore, h.disc.recess.Drawn/2)); ok {
		h.disc.hole = card.Hole(part, "centre hole", screw.Clearance)
	}
	if land := (h.disc.outside.Drawn - h.disc.recess.Drawn) / 2; land < card.BeadWidth {
		return &check.FieldError{
			Field: "pressing disc", Text: "asked for",
			Reason: fmt.Sprintf("would touch the ring on %s mm only, less than a bead", check.Number(max(0, math.Round(land*100)/100))),
			Remedy: "leave it out, and press with a turned ring or a socket of the bearing's size",
		}
	}
	return nil
}

// discRecess returns the diameter that a pressing disc leaves free: what turns,
// or a washer's groove.
func (b Bearing) discRecess() float64 {
	if b.Kind == ThrustBall {
		return (b.Bore + 3*b.Outside) / 4
	}
	return b.front()
}

func (d *pressingDisc) part(name string, card fit.Card) (geom.Part, error) {
	chamfer := card.BedChamfer()
	rim := geom.Peg(geom.Point{}, d.outside.Drawn, geom.ChordPlain)
	low := []geom.Contour{rim}
	if d.hole.Drawn > 0 {
		low = append(low, geom.Bore(geom.Point{}, d.hole.Drawn, geom.ChordPlain))
	}
	var body profile
	body.add(chamfer, relieved(low, chamfer), low)
	body.add(discBase, low, nil)
	body.add(discBase+d.depth, []geom.Contour{rim, geom.Bore(geom.Point{}, d.recess.Drawn, geom.ChordPlain)}, nil)
	return geom.NewPart(name+"-pressing-disc", slabs(body)...)
}

func (d *pressingDisc) fits() []fit.Fit {
	if d == nil {
		return nil
	}
	fits := []fit.Fit{d.outside, d.recess}
	if d.hole.Drawn > 0 {
		fits = append(fits, d.hole)
	}
	return fits
}

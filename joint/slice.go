package joint

import (
	"fmt"

	"pintle/fit"
	"pintle/gear"
	"pintle/geom"
)

// A test slice is the thinnest honest sample of a joint: the very outlines of
// its fits, a few layers high, to print in minutes before the parts that take
// hours. Heights and widths in mm (common practice, no source).
const (
	sliceHeight = 3.0 // of the seat's ring: enough to feel the press, not to hold
	sliceTooth  = 2.4 // of the toothed rims: twelve layers of 0.2 mm
	sliceRim    = 4.0 // under the roots of the rims
	sliceFloor  = 0.8 // under the horn's pocket
)

// slice puts the test slice in the place of the joint's parts. The findings stay
// those of the whole joint.
func (b *builder) slice() error {
	b.bodies, b.arrangements = nil, nil
	for _, name := range sorted(b.turnings) {
		t := b.turnings[name]
		material, err := b.material("gears."+name, t.table.Material)
		if err != nil {
			return err
		}
		for _, g := range []*gear.Gear{t.pair.Pinion(), t.pair.Wheel()} {
			part, err := toothSlice(g)
			if err != nil {
				return err
			}
			b.addBody("gears."+name, part, material, sheetNotes{lines: []string{
				fmt.Sprintf("Span W over %d teeth: %.3f mm on the finished print; hold both rims flat on a table to feel the mesh", g.Span().Teeth, g.Span().Width),
			}})
		}
		pocket, ok, err := pocketSlice(t, b.card)
		if err != nil {
			return err
		}
		if ok {
			b.addBody("gears."+name, pocket, material, sheetNotes{lines: []string{"The horn must drop in by hand and not turn"}})
		}
	}
	for _, name := range sorted(b.housings) {
		ring := b.housings[name]
		material, err := b.material("housing."+name, b.file.Housings[name].Material)
		if err != nil {
			return err
		}
		part, err := seatSlice(name, ring.Fits()[0], ring.OutsideDiameter(), b.card)
		if err != nil {
			return err
		}
		b.addBody("housing."+name, part, material, sheetNotes{lines: []string{"Press the bearing in by hand: it must go in straight and stay"}})
	}
	return nil
}

// onBedSide returns the two lowest slabs of a slice: a chamfer that relieves the
// first layers, and the plain height above it.
func onBedSide(card fit.Card, height, most float64, contours ...geom.Contour) []geom.Slab {
	c := min(card.BedChamfer(), height/3, most)
	return []geom.Slab{
		{Z0: 0, Z1: c, Bottom: geom.FattenAll(contours, -c), Top: contours},
		{Z0: c, Z1: height, Bottom: contours},
	}
}

// toothSlice is the rim of a gear: all its teeth over a narrow band.
func toothSlice(g *gear.Gear) (geom.Part, error) {
	hole := geom.Bore(geom.Point{}, g.RootDiameter()-2*sliceRim, geom.ChordPlain)
	return geom.NewPart(g.Part().Name()+"-slice",
		geom.Slab{Z0: 0, Z1: sliceTooth, Bottom: []geom.Contour{g.Outline(), hole}})
}

// seatSlice is the seat's mouth: the drawn bore in a ring of the true wall.
func seatSlice(name string, seat fit.Fit, outside float64, card fit.Card) (geom.Part, error) {
	return geom.NewPart(name+"-ring-slice", onBedSide(card, sliceHeight, 1,
		geom.Peg(geom.Point{}, outside, geom.ChordPlain), geom.Bore(geom.Point{}, seat.Drawn, geom.ChordFit))...)
}

// pocketSlice is the horn's pocket on a thin floor with the hub's hole.
func pocketSlice(t *turning, card fit.Card) (geom.Part, bool, error) {
	var pocket, hub fit.Fit
	for _, f := range t.pair.Pinion().Fits() {
		switch f.Feature {
		case "horn pocket":
			pocket = f
		case "horn hub hole":
			hub = f
		}
	}
	if pocket.Drawn == 0 || hub.Drawn == 0 {
		return geom.Part{}, false, nil
	}
	rim := geom.Peg(geom.Point{}, pocket.Drawn+8*card.BeadWidth, geom.ChordPlain)
	floor := onBedSide(card, sliceFloor, 1, rim, geom.Bore(geom.Point{}, hub.Drawn, geom.ChordPlain))
	height := sliceFloor + min(t.servo.Horn.Thickness, 2)
	part, err := geom.NewPart(t.name+"-horn-slice", append(floor, geom.Slab{
		Z0: sliceFloor, Z1: height, Bottom: []geom.Contour{rim, geom.Bore(geom.Point{}, pocket.Drawn, geom.ChordFit)},
	})...)
	return part, true, err
}

package coupon

import (
	"math"

	"pintle/fit"
	"pintle/gear"
	"pintle/geom"
)

// hubStep is how much wider in mm the round of a pocket for arms is than the hub's
// hole in the floor, so that the two outlines keep apart.
const hubStep = 0.6

// pockets draws a plate with a pocket for the horn for each clearance.
func (d *design) pockets() error {
	s, h := d.spec, d.spec.Horn
	const floor = 1.6
	reach := h.Diameter / 2
	if h.Kind != "disc" {
		reach = h.Arm
	}
	var texts []string
	for _, c := range s.Pockets {
		texts = append(texts, fit.Mark(c))
	}
	size, err := d.widest(texts)
	if err != nil {
		return err
	}
	rows := section{piece: "pockets", title: "Pockets for the horn", trial: pocketTrial}
	cell := max(2*reach+6, size.X+2*margin)
	var pieces []piece
	for i, c := range s.Pockets {
		pocket, err := d.pocket(c)
		if err != nil {
			return err
		}
		low, high := -reach-2-2*margin-size.Y, reach+3
		plate := geom.Rectangle(geom.Point{Y: (low + high) / 2}, cell, high-low, 2, 0, geom.ChordPlain)
		hub := geom.Bore(geom.Point{}, h.HubDiameter+gear.HubRoom, geom.ChordFlank)
		letters, _, err := d.mark(texts[i], geom.Point{Y: -reach - 2 - margin - size.Y/2})
		if err != nil {
			return err
		}
		top := floor + h.Thickness
		pieces = append(pieces, newPiece(
			geom.Slab{Z1: floor, Bottom: []geom.Contour{plate, hub}},
			geom.Slab{Z0: floor, Z1: top, Bottom: append([]geom.Contour{plate}, pocket...)},
			geom.Slab{Z0: top, Z1: top + relief, Bottom: letters}))
		rows.add(texts[i], c)
		if h.Kind == "disc" {
			d.note("pockets", "pocket marked "+texts[i], h.Diameter+c, s.Card.Bore)
		}
	}
	d.sections = append(d.sections, rows)
	return d.plates("pockets", pieces)
}

// pocket returns the outline of the horn as a hole, wider by the clearance.
func (d *design) pocket(clearance float64) ([]geom.Contour, error) {
	h := d.spec.Horn
	if h.Kind == "disc" {
		return []geom.Contour{geom.Bore(geom.Point{}, h.Diameter+clearance, geom.ChordFit)}, nil
	}
	arms := max(h.Arms, map[string]int{"arm": 1, "double-arm": 2, "cross": 4}[h.Kind], 1)
	whole, err := geom.RegionOf([]geom.Contour{geom.Peg(geom.Point{}, h.HubDiameter+gear.HubRoom+hubStep, geom.ChordFlank)})
	if err != nil {
		return nil, err
	}
	for i := range arms {
		arm, err := geom.RegionOf([]geom.Contour{h.armOutline(clearance).Move(geom.Motion{Turn: 2 * math.Pi * float64(i) / float64(arms)})})
		if err != nil {
			return nil, err
		}
		if whole, err = geom.Unite(whole, arm, d.spec.Card.BeadWidth); err != nil {
			return nil, err
		}
	}
	var holes []geom.Contour
	for _, l := range whole.Loops() {
		var c geom.Contour
		for k := range l {
			c.Points = append(c.Points, l[len(l)-1-k].Point())
		}
		holes = append(holes, c)
	}
	return holes, nil
}

// armOutline returns one arm from the axis to its rounded end along x.
func (h Horn) armOutline(clearance float64) geom.Contour {
	root, tip := (h.WidthAtHub+clearance)/2, (h.WidthAtTip+clearance)/2
	end := h.Arm + clearance/2 - tip
	return geom.NewContour([]geom.Curve{
		geom.Line{A: geom.Point{Y: root}, B: geom.Point{Y: -root}},
		geom.Line{A: geom.Point{Y: -root}, B: geom.Point{X: end, Y: -tip}},
		geom.Arc{Centre: geom.Point{X: end}, Radius: tip, From: -math.Pi / 2, To: math.Pi / 2},
		geom.Line{A: geom.Point{X: end, Y: tip}, B: geom.Point{Y: root}},
	}, geom.ChordFlank)
}

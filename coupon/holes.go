package coupon

import (
	"fmt"

	"pintle/check"
	"pintle/geom"
)

// thickness in mm of plates with holes.
const thickness = 6.0

// holes draws a strip of holes with upright axes, and a block with one that
// lies.
func (d *design) holes() error {
	s := d.spec
	var texts []string
	for _, v := range s.Holes {
		texts = append(texts, check.Number(v))
	}
	size, err := d.widest(texts)
	if err != nil {
		return err
	}
	chamfer := s.Card.BedChamfer()
	most := s.Holes[len(s.Holes)-1]
	width := 0.0
	var opened, straight, letters []geom.Contour
	rows := section{piece: "holes", title: "Holes for rods and screws, axis upright", key: "bores", hint: "below 5 mm try drill shanks instead of a caliper"}
	for i, v := range s.Holes {
		cell := max(v+6, size.X+2*margin)
		centre := geom.Point{X: width + cell/2}
		width += cell
		bore := geom.Bore(centre, v, geom.ChordFit)
		straight = append(straight, bore)
		opened = append(opened, bore.Resize(v+2*chamfer))
		l, _, err := d.mark(texts[i], geom.Point{X: centre.X, Y: -most/2 - 2 - margin - size.Y/2})
		if err != nil {
			return err
		}
		letters = append(letters, l...)
		rows.add(texts[i], v)
		d.note("holes", "hole marked "+texts[i], v, s.Card.Bore)
	}
	d.sections = append(d.sections, rows)
	low, high := -most/2-2-2*margin-size.Y, most/2+3
	plate := geom.Rectangle(geom.Point{X: width / 2, Y: (low + high) / 2}, width, high-low, 2, 0, geom.ChordPlain)
	if err := d.add(s.Name+"-holes",
		geom.Slab{Z1: chamfer, Bottom: append([]geom.Contour{plate}, opened...), Top: append([]geom.Contour{plate}, straight...)},
		geom.Slab{Z0: chamfer, Z1: thickness, Bottom: append([]geom.Contour{plate}, straight...)},
		geom.Slab{Z0: thickness, Z1: thickness + relief, Bottom: letters},
	); err != nil {
		return err
	}
	return d.crossHole()
}

// crossHole draws a block with a hole whose axis is level.
func (d *design) crossHole() error {
	v, card := d.spec.CrossHole, d.spec.Card
	text := check.Number(v)
	size, err := d.size(text)
	if err != nil {
		return err
	}
	long, wide, height := max(14, size.X+2*margin), max(v+8, size.Y+2*margin), v*1.5+5
	block := geom.Rectangle(geom.Point{}, long, wide, 1, 0, geom.ChordPlain)
	slabs, err := geom.Drill([]geom.Slab{{Z1: height, Bottom: []geom.Contour{block}}}, card.LayerThickness, card.BeadWidth,
		geom.CrossHole{Height: 2.5 + v/2, Diameter: v, From: -long/2 - 1, To: long/2 + 1})
	if err != nil {
		return err
	}
	letters, _, err := d.mark(text, geom.Point{})
	if err != nil {
		return err
	}
	rows := section{piece: "holes", title: "Hole that lies, axis along the bed", key: "cross_holes", hint: "its roof leans: measure across"}
	rows.add(text, v)
	d.sections = append(d.sections, rows)
	d.note("cross-hole", "hole that lies", v, card.Bore)
	return d.add(d.spec.Name+"-cross-hole", append(slabs, geom.Slab{Z0: height, Z1: height + relief, Bottom: letters})...)
}

// Sizes in mm of block and bar.
const (
	blockSide   = 30.0
	blockHeight = 8.0
	barLength   = 100.0
	barWidth    = 12.0
	barHeight   = 4.0
)

// firstLayer draws a plain block whose edge on the bed has no chamfer.
func (d *design) firstLayer() error {
	letters, _, err := d.mark("30", geom.Point{})
	if err != nil {
		return err
	}
	block := geom.Rectangle(geom.Point{}, blockSide, blockSide, 0, 0, geom.ChordPlain)
	rows := section{piece: "first-layer", title: "Block for the first layers, plain edge on the bed", key: "outsides", hint: "above: 4 mm from the bed; on the bed: jaws on the lowest layer", block: true}
	rows.add("above", blockSide)
	rows.add("on bed", blockSide)
	d.sections = append(d.sections, rows)
	d.note("first-layer", "block above the first layers", blockSide, d.spec.Card.Outside)
	return d.add(d.spec.Name+"-first-layer",
		geom.Slab{Z1: blockHeight, Bottom: []geom.Contour{block}},
		geom.Slab{Z0: blockHeight, Z1: blockHeight + relief, Bottom: letters})
}

// bar draws a bar for scale and shrinkage, its ends relieved at the bed.
func (d *design) bar() error {
	letters, _, err := d.mark("100 x", geom.Point{})
	if err != nil {
		return err
	}
	chamfer := d.spec.Card.BedChamfer()
	bar := geom.Rectangle(geom.Point{}, barLength, barWidth, 0, 0, geom.ChordPlain)
	rows := section{piece: "bar", title: "Bar, printed along x", key: "outsides", hint: fmt.Sprintf("%g mm long and %g mm wide", barLength, barWidth)}
	rows.add("long", barLength)
	rows.add("wide", barWidth)
	d.sections = append(d.sections, rows)
	d.note("bar", "length", barLength, d.spec.Card.Outside)
	d.note("bar", "width", barWidth, d.spec.Card.Outside)
	return d.add(d.spec.Name+"-bar",
		geom.Slab{Z1: chamfer, Bottom: []geom.Contour{bar.Fatten(-chamfer)}, Top: []geom.Contour{bar}},
		geom.Slab{Z0: chamfer, Z1: barHeight, Bottom: []geom.Contour{bar}},
		geom.Slab{Z0: barHeight, Z1: barHeight + relief, Bottom: letters})
}

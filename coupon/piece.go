package coupon

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
	"pintle/geom/lettering"
)

// relief is how far marks stand out, in mm.
const relief = 0.6

// A piece is one body about its own origin. Pieces of one plate have the same
// heights.
type piece struct {
	slabs  []geom.Slab
	lo, hi geom.Point
}

// mark returns the outlines of a text of the least height that the printer draws
// readably, with its middle at a place, and its size.
func (d *design) mark(text string, middle geom.Point) ([]geom.Contour, geom.Point, error) {
	return d.markOf(text, middle, lettering.LeastHeight(d.spec.Card.BeadWidth))
}

func (d *design) markOf(text string, middle geom.Point, height float64) ([]geom.Contour, geom.Point, error) {
	contours, _, err := lettering.Text(text, height, geom.ChordPlain)
	if err != nil {
		return nil, geom.Point{}, err
	}
	lo, hi := bounds(contours)
	shift := middle.Sub(lo.Add(hi).Scale(0.5))
	return lettering.Place(contours, shift, 0), hi.Sub(lo), nil
}

// size returns the room that a mark takes.
func (d *design) size(text string) (geom.Point, error) {
	_, size, err := d.mark(text, geom.Point{})
	return size, err
}

// widest returns the room of the largest of several marks.
func (d *design) widest(texts []string) (geom.Point, error) {
	var most geom.Point
	for _, t := range texts {
		s, err := d.size(t)
		if err != nil {
			return most, err
		}
		most = geom.Point{X: max(most.X, s.X), Y: max(most.Y, s.Y)}
	}
	return most, nil
}

func bounds(contours []geom.Contour) (lo, hi geom.Point) {
	lo, hi = geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, c := range contours {
		for _, p := range c.Points {
			lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
	}
	return lo, hi
}

func newPiece(slabs ...geom.Slab) piece {
	p := piece{slabs: slabs}
	var all []geom.Contour
	for _, s := range slabs {
		all = append(append(all, s.Bottom...), s.Top...)
	}
	p.lo, p.hi = bounds(all)
	return p
}

// plates lays pieces in rows on as few plates as the rows need and returns a
// part for each: NAME, or NAME-1, NAME-2 and so on. Pieces move by whole
// millimetres, so that what was drawn stays as it was drawn.
func (d *design) plates(name string, pieces []piece) error {
	var plates [][]piece
	var here []piece
	var x, y, depth float64
	for _, p := range pieces {
		w, h := math.Ceil(p.hi.X-p.lo.X), math.Ceil(p.hi.Y-p.lo.Y)
		if w > Side-1 || h > Side-1 {
			return &check.FieldError{Field: name, Value: max(w, h), Unit: "mm", Reason: fmt.Sprintf("is larger than a plate of %g mm", Side), Remedy: "leave it out with only, or print the real part once"}
		}
		if x > 0 && x+w > Side-1 {
			x, y, depth = 0, y+depth+gap, 0
		}
		if y > 0 && y+h > Side-1 {
			plates, here = append(plates, here), nil
			x, y, depth = 0, 0, 0
		}
		here = append(here, p.moved(geom.Point{X: x - math.Floor(p.lo.X), Y: y - math.Floor(p.lo.Y)}))
		x += w + gap
		depth = max(depth, h)
	}
	plates = append(plates, here)
	for i, plate := range plates {
		full := d.spec.Name + "-" + name
		if len(plates) > 1 {
			full = fmt.Sprintf("%s-%d", full, i+1)
		}
		if err := d.add(full, merged(plate)...); err != nil {
			return err
		}
	}
	return nil
}

func (p piece) moved(by geom.Point) piece {
	shift := geom.Motion{Shift: by}
	all := func(contours []geom.Contour) []geom.Contour {
		if contours == nil {
			return nil
		}
		moved := make([]geom.Contour, len(contours))
		for i, c := range contours {
			moved[i] = c.Move(shift)
		}
		return moved
	}
	m := piece{lo: p.lo.Add(by), hi: p.hi.Add(by)}
	for _, s := range p.slabs {
		m.slabs = append(m.slabs, geom.Slab{Z0: s.Z0, Z1: s.Z1, Bottom: all(s.Bottom), Top: all(s.Top)})
	}
	return m
}

// merged puts the layers of pieces side by side.
func merged(pieces []piece) []geom.Slab {
	slabs := make([]geom.Slab, len(pieces[0].slabs))
	for i := range slabs {
		first := pieces[0].slabs[i]
		slabs[i].Z0, slabs[i].Z1 = first.Z0, first.Z1
		for _, p := range pieces {
			if p.slabs[i].Z0 != first.Z0 || p.slabs[i].Z1 != first.Z1 {
				panic("coupon: pieces of one plate differ in height")
			}
			slabs[i].Bottom = append(slabs[i].Bottom, p.slabs[i].Bottom...)
			slabs[i].Top = append(slabs[i].Top, p.slabs[i].Top...)
		}
	}
	return slabs
}

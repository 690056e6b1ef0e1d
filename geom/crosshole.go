package geom

import (
	"errors"
	"fmt"
	"math"
	"slices"

	plane "github.com/peterstace/simplefeatures/geom"
)

// A CrossHole is a round hole that lies: for a set screw, a clamp, a pin. Its
// axis is level. Printed, its roof leans at 45 degrees from a quarter turn's
// half on, up to a flat one bead wide, so that it needs no support.
type CrossHole struct {
	Centre    Point   // a place on the axis in plan, mm
	Height    float64 // of the axis above the bed, mm
	Diameter  float64 // mm; nowhere is the printed hole narrower
	Direction float64 // of the axis in plan, rad
	From, To  float64 // where it begins and ends along the axis, mm from Centre
}

// A Slot is an upright cut with level floor and ceiling: a slit, a pocket for a
// nut that lies.
type Slot struct {
	Centre    Point   // in plan, mm
	Direction float64 // of its length in plan, rad
	Length    float64 // mm
	Width     float64 // mm, across
	Z0, Z1    float64 // mm over the bed, within the part
}

// A Cut is what CutAcross takes from a part: a CrossHole or a Slot.
type Cut interface {
	slices(layer, bead float64) ([]slice, error)
}

func (s Slot) slices(_, _ float64) ([]slice, error) {
	if !(s.Length > 0 && s.Width > 0 && s.Z0 < s.Z1) {
		return nil, fmt.Errorf("a slot of %g x %g mm from %g to %g mm is nothing to cut", s.Length, s.Width, s.Z0, s.Z1)
	}
	strip, err := RegionOf([]Contour{Rectangle(s.Centre, s.Length, s.Width, 0, s.Direction, ChordPlain)})
	if err != nil {
		return nil, err
	}
	return []slice{{SnapLength(s.Z0), SnapLength(s.Z1), strip}}, nil
}

// halfWidth returns half the width of the hole at a height over the axis, or a
// number below zero.
func (h CrossHole) halfWidth(z float64) float64 {
	r := h.Diameter / 2
	if z <= r*math.Sqrt2/2 {
		return math.Sqrt(max(r*r-z*z, 0))
	}
	return r*math.Sqrt2 - z
}

// A slice is a piece of a hole between two heights, with the strip it takes.
type slice struct {
	z0, z1 int32
	strip  Region
}

// leastStep is the least by which neighbouring slices differ in width, in grid
// steps; less is drawn as one slice.
const leastStep = 16

// slices cuts the hole in slices no thicker than a layer. Each is as wide as
// the hole is anywhere in it.
func (h CrossHole) slices(layer, bead float64) ([]slice, error) {
	switch {
	case !(h.Diameter > bead && bead > 0 && layer > 0):
		return nil, fmt.Errorf("a cross hole of diameter %g mm needs a bead (here %g) narrower than that, and a layer (%g)", h.Diameter, bead, layer)
	case !(h.From < h.To):
		return nil, fmt.Errorf("a cross hole must begin before it ends: from %g to %g mm", h.From, h.To)
	}
	low, high := -h.Diameter/2, h.Diameter/2*math.Sqrt2-bead/2
	n := math.Ceil((high-low)/layer - 1e-9)
	var all []slice
	width := math.Inf(-1)
	for i := range int(n) {
		z0, z1 := low+(high-low)*float64(i)/n, low+(high-low)*float64(i+1)/n
		widest := 2 * max(h.halfWidth(z0), h.halfWidth(z1))
		if z0 < 0 && z1 > 0 {
			widest = h.Diameter
		}
		top := SnapLength(h.Height + z1)
		if math.Abs(widest-width)*PerMM < 2*leastStep {
			all[len(all)-1].z1 = top
			continue
		}
		width = widest
		middle := Point{X: (h.From + h.To) / 2}.Rotate(h.Direction).Add(h.Centre)
		strip, err := RegionOf([]Contour{Rectangle(middle, h.To-h.From, width, 0, h.Direction, ChordPlain)})
		if err != nil {
			return nil, err
		}
		all = append(all, slice{SnapLength(h.Height + z0), top, strip})
	}
	return all, nil
}

// Drill returns the slabs with holes drilled across, like CutAcross.
func Drill(slabs []Slab, layer, bead float64, holes ...CrossHole) ([]Slab, error) {
	cuts := make([]Cut, len(holes))
	for i, h := range holes {
		cuts[i] = h
	}
	return CutAcross(slabs, layer, bead, cuts...)
}

// CutAcross returns the slabs with holes and slots cut into them. A slab that a hole meets
// is cut in slices no thicker than the layer the printer lays, each less a
// strip of the hole's width there; where a step would show, the layers step
// too. Neighbouring slabs get corners where slices end on their outlines. Loops
// below one bead squared are dropped. A hole must not reach into a loft, above
// the top or below the bed.
func CutAcross(slabs []Slab, layer, bead float64, cuts ...Cut) ([]Slab, error) {
	d := drill{bead: bead, known: newWelder()}
	for i, h := range cuts {
		cuts, err := h.slices(layer, bead)
		if err != nil {
			return nil, fmt.Errorf("cross hole %d: %w", i+1, err)
		}
		if top := slabs[len(slabs)-1].Z1; cuts[0].z0 < 0 || cuts[len(cuts)-1].z1 > SnapLength(top) {
			return nil, fmt.Errorf("cross hole %d: from %.3f to %.3f mm it is not inside the part, which ends at %.3f mm",
				i+1, float64(cuts[0].z0)/PerMM, float64(cuts[len(cuts)-1].z1)/PerMM, top)
		}
		d.cuts = append(d.cuts, cuts)
	}
	for _, s := range slabs {
		c, err := newCourse(s)
		if err != nil {
			return nil, err
		}
		d.known.addAll(c.bottom)
		if err := d.add(c); err != nil {
			return nil, fmt.Errorf("layer from %.3f to %.3f mm: %w", s.Z0, s.Z1, err)
		}
	}
	knit(d.courses)
	var out []Slab
	for _, c := range d.courses {
		out = append(out, c.slab())
	}
	return out, nil
}

type drill struct {
	bead    float64
	cuts    [][]slice // by hole
	known   welder
	courses []course
}

// add cuts a course where holes meet it.
func (d *drill) add(c course) error {
	heights := []int32{c.z0, c.z1}
	for _, cuts := range d.cuts {
		for _, s := range cuts {
			for _, z := range []int32{s.z0, s.z1} {
				if c.z0 < z && z < c.z1 {
					heights = append(heights, z)
				}
			}
		}
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	for i := 1; i < len(heights); i++ {
		piece := c
		piece.z0, piece.z1 = heights[i-1], heights[i]
		if err := d.cut(&piece); err != nil {
			return err
		}
		d.courses = append(d.courses, piece)
	}
	return nil
}

// cut takes the strips of all holes from a course.
func (d *drill) cut(c *course) error {
	loops := slices.Clone(c.bottom)
	for _, cuts := range d.cuts {
		for _, s := range cuts {
			if s.z1 <= c.z0 || s.z0 >= c.z1 {
				continue
			}
			if c.top != nil {
				return errors.New("a cross hole reaches into a sloping wall: move it")
			}
			region, err := NewRegion(loops)
			if err != nil {
				return err
			}
			if loops, err = overlayLoops(plane.Difference, region, s.strip, d.bead, d.known); err != nil {
				return err
			}
			c.cut = true
		}
	}
	if len(loops) == 0 {
		return errors.New("a cross hole leaves nothing of the layer")
	}
	c.bottom = loops // its own, which knitting may change
	return nil
}

func newCourse(s Slab) (course, error) {
	c := course{z0: SnapLength(s.Z0), z1: SnapLength(s.Z1), from: s.Bottom, fromTop: s.Top}
	if s.Top != nil {
		var err error
		c.bottom, c.top, err = pairedLoops(s.Bottom, s.Top)
		return c, err
	}
	for _, contour := range s.Bottom {
		if err := inExtent(contour); err != nil {
			return course{}, err
		}
		c.bottom = append(c.bottom, contour.loop())
	}
	return c, nil
}

// slab returns the course as a slab. Curves stay where corners were only added.
func (c course) slab() Slab {
	s := Slab{Z0: float64(c.z0) / PerMM, Z1: float64(c.z1) / PerMM, Bottom: c.from, Top: c.fromTop}
	contours := func(loops []Loop, from []Contour) []Contour {
		all := make([]Contour, len(loops))
		for i, l := range loops {
			for _, v := range l {
				all[i].Points = append(all[i].Points, v.Point())
			}
			if !c.cut {
				all[i].Curves = from[i].Curves
			}
		}
		return all
	}
	if c.cut || c.changed {
		s.Bottom = contours(c.bottom, c.from)
		if c.top != nil {
			s.Top = contours(c.top, c.fromTop)
		}
	}
	return s
}

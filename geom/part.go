package geom

import (
	"fmt"
	"math"
)

// A Slab is one layer as a design draws it: what stands between two heights.
// With Top nil it is a prism over Bottom; otherwise a loft whose contours pair
// with those of Bottom one by one and vertex by vertex (a chamfer, a lead-in).
type Slab struct {
	Z0, Z1 float64 // mm, Z0 < Z1
	Bottom []Contour
	Top    []Contour
}

// A Layer is a proved Slab on the grid. Bottom and Top are the same Region for
// a prism; for a loft they have paired loops.
type Layer struct {
	Z0, Z1      int32 // grid steps
	Bottom, Top Region
	Loft        bool
}

// A Part is one body to print, in its print frame: bed side down, z = 0 the bed.
type Part struct {
	name   string
	slabs  []Slab
	layers []Layer
}

// NewPart snaps the slabs to the grid, proves every region and loft, and
// returns the part. Slabs must follow each other without gaps from z = 0 up.
// The error names the part, the layer and the place.
func NewPart(name string, slabs ...Slab) (Part, error) {
	p := Part{name: name, slabs: slabs}
	z := int32(0)
	for i, s := range slabs {
		layer, err := newLayer(s)
		if err != nil {
			return Part{}, fmt.Errorf("%s, layer %d from %.3f to %.3f mm: %w", name, i+1, s.Z0, s.Z1, err)
		}
		if layer.Z0 != z || layer.Z1 <= layer.Z0 {
			return Part{}, fmt.Errorf("%s, layer %d from %.3f to %.3f mm: must start where the layer below ends and have a height", name, i+1, s.Z0, s.Z1)
		}
		z = layer.Z1
		p.layers = append(p.layers, layer)
	}
	if len(slabs) == 0 {
		return Part{}, fmt.Errorf("%s: a part needs a layer", name)
	}
	return p, nil
}

func newLayer(s Slab) (Layer, error) {
	if !(math.Abs(s.Z0) <= Extent && math.Abs(s.Z1) <= Extent) {
		return Layer{}, fmt.Errorf("reaches beyond %g mm from the origin", Extent)
	}
	l := Layer{Z0: SnapLength(s.Z0), Z1: SnapLength(s.Z1)}
	if s.Top == nil {
		region, err := RegionOf(s.Bottom)
		if err != nil {
			return Layer{}, err
		}
		l.Bottom, l.Top = region, region
		return l, nil
	}
	bottom, top, err := pairedLoops(s.Bottom, s.Top)
	if err != nil {
		return Layer{}, err
	}
	if l.Bottom, err = NewRegion(bottom); err != nil {
		return Layer{}, err
	}
	if l.Top, err = NewRegion(top); err != nil {
		return Layer{}, err
	}
	l.Loft = true
	return l, proveLoft(bottom, top)
}

// RegionOf snaps contours to the grid and proves that they bound a region. The
// error is a *RegionError, or says which contour reaches beyond Extent.
func RegionOf(contours []Contour) (Region, error) {
	loops := make([]Loop, len(contours))
	for i, c := range contours {
		if err := inExtent(c); err != nil {
			return Region{}, err
		}
		loops[i] = c.loop()
	}
	return NewRegion(loops)
}

func inExtent(c Contour) error {
	for _, p := range c.Points {
		if !(math.Abs(p.X) <= Extent && math.Abs(p.Y) <= Extent) {
			return fmt.Errorf("the outline reaches (%g, %g): beyond %g mm from the origin", p.X, p.Y, Extent)
		}
	}
	return nil
}

// Name returns the part's name.
func (p Part) Name() string { return p.name }

// Renamed returns the same part under another name.
func (p Part) Renamed(name string) Part { p.name = name; return p }

// Slabs returns the layers as they were drawn, for drawings.
func (p Part) Slabs() []Slab { return p.slabs }

// Layers returns the proved layers from the bed up.
func (p Part) Layers() []Layer { return p.layers }

// Height returns the height of the part in mm.
func (p Part) Height() float64 { return float64(p.layers[len(p.layers)-1].Z1) / PerMM }

// Bounds returns the smallest and largest x, y of the part in mm.
func (p Part) Bounds() (lo, hi Point) {
	lo, hi = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, l := range p.layers {
		for _, r := range []Region{l.Bottom, l.Top} {
			for _, loop := range r.loops {
				for _, v := range loop {
					q := v.Point()
					lo = Point{min(lo.X, q.X), min(lo.Y, q.Y)}
					hi = Point{max(hi.X, q.X), max(hi.Y, q.Y)}
				}
			}
		}
	}
	return lo, hi
}

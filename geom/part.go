package geom

import (
	"fmt"
	"math"
	"slices"
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
		region, err := regionOf(s.Bottom)
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

func regionOf(contours []Contour) (Region, error) {
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

// pairedLoops snaps both ends of a loft. A pair of neighbouring vertices is
// dropped only where it coincides at both ends, so the pairing holds.
func pairedLoops(bottom, top []Contour) (b, t []Loop, err error) {
	if len(bottom) != len(top) {
		return nil, nil, fmt.Errorf("a loft joins %d loops below to %d above", len(bottom), len(top))
	}
	for i := range bottom {
		if len(bottom[i].Points) != len(top[i].Points) {
			return nil, nil, fmt.Errorf("a loft joins a loop of %d points below to one of %d above", len(bottom[i].Points), len(top[i].Points))
		}
		for _, c := range []Contour{bottom[i], top[i]} {
			if err := inExtent(c); err != nil {
				return nil, nil, err
			}
		}
		var lb, lt Loop
		for k := range bottom[i].Points {
			vb, vt := Snap(bottom[i].Points[k]), Snap(top[i].Points[k])
			if n := len(lb); n > 0 && lb[n-1] == vb && lt[n-1] == vt {
				continue
			}
			lb, lt = append(lb, vb), append(lt, vt)
		}
		b, t = append(b, lb), append(t, lt)
	}
	return b, t, nil
}

// proveLoft proves that the walls of a loft meet nothing. In plan the strip
// between paired loops is cut into triangles (b0 b1 t1) and (b0 t1 t0). Both
// ends are proved regions, so each covers the plane 0 or 1 times; the strips
// together cover each point as often as the two ends differ there. If all
// triangles have the same strict sense, that count is 0 or 1 everywhere, so no
// two triangles overlap, and neither do the walls above them. Where paired
// vertices coincide in plan the wall stands upright over an edge of the two
// ends, and its triangle shows no area.
func proveLoft(bottom, top []Loop) error {
	sense := int64(0)
	for i, b := range bottom {
		t := top[i]
		if slices.Equal(b, t) {
			continue // an upright wall covers nothing
		}
		for k := range b {
			n := (k + 1) % len(b)
			for _, c := range [2]struct {
				upright bool
				turn    int64
			}{
				{b[n] == t[n], orient(b[k], b[n], t[n])},
				{b[k] == t[k], orient(b[k], t[n], t[k])},
			} {
				if c.upright {
					continue
				}
				if c.turn == 0 || (sense != 0 && (c.turn > 0) != (sense > 0)) {
					p := b[k].Point()
					return fmt.Errorf("the sloping wall at (%.4f, %.4f) folds over: make the chamfer smaller", p.X, p.Y)
				}
				sense = c.turn
			}
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

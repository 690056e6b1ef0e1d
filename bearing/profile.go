package bearing

import (
	"math"
	"slices"

	"pintle/geom"
)

// A piece is what a profile shows between two heights: contours that stay, or
// that go over pair by pair into those of top.
type piece struct {
	z0, z1      float64
	bottom, top []geom.Contour
}

// A profile is a stack of pieces, lowest first: the outside of a ring, its bore,
// or a set of holes. Heights without a piece show nothing of it.
type profile []piece

// thinnest is the least height in mm of a layer; two heights nearer to each
// other than that are one.
const thinnest = 1e-3

// add puts a piece on top, or nothing where no height is left for it.
func (p *profile) add(z1 float64, bottom, top []geom.Contour) {
	z0 := 0.0
	if n := len(*p); n > 0 {
		z0 = (*p)[n-1].z1
	}
	if z1 > z0+thinnest {
		*p = append(*p, piece{z0, z1, bottom, top})
	}
}

// slabs cuts the profiles where any of them changes and joins them layer by
// layer.
func slabs(profiles ...profile) []geom.Slab {
	var cuts []float64
	for _, p := range profiles {
		for _, piece := range p {
			cuts = append(cuts, piece.z0, piece.z1)
		}
	}
	slices.Sort(cuts)
	cuts = slices.CompactFunc(cuts, func(a, b float64) bool { return math.Abs(b-a) <= thinnest })
	var all []geom.Slab
	for i, z1 := range cuts[1:] {
		slab := geom.Slab{Z0: cuts[i], Z1: z1}
		loft := false
		var top []geom.Contour
		for _, p := range profiles {
			piece, ok := p.at((slab.Z0 + z1) / 2)
			if !ok {
				continue
			}
			slab.Bottom = append(slab.Bottom, piece.cut(slab.Z0)...)
			top = append(top, piece.cut(z1)...)
			loft = loft || piece.top != nil
		}
		if loft {
			slab.Top = top
		}
		all = append(all, slab)
	}
	return all
}

func (p profile) at(z float64) (piece, bool) {
	for _, piece := range p {
		if piece.z0 < z && z < piece.z1 {
			return piece, true
		}
	}
	return piece{}, false
}

// cut returns the piece's contours at a height.
func (p piece) cut(z float64) []geom.Contour {
	t := min(max((z-p.z0)/(p.z1-p.z0), 0), 1)
	switch {
	case p.top == nil || t < 1e-9:
		return p.bottom
	case t > 1-1e-9:
		return p.top
	}
	between := make([]geom.Contour, len(p.bottom))
	for i, b := range p.bottom {
		between[i] = blend(b, p.top[i], t)
	}
	return between
}

// blend returns the contour a share t of the way from a to its partner b.
func blend(a, b geom.Contour, t float64) geom.Contour {
	if from, to := a.Diameter(), b.Diameter(); from > 0 && to > 0 && a.Points[0] != b.Points[0] {
		return a.Resize(from + t*(to-from))
	}
	points := make([]geom.Point, len(a.Points))
	for i, p := range a.Points {
		points[i] = p.Add(b.Points[i].Sub(p).Scale(t))
	}
	return geom.Contour{Curves: a.Curves, Points: points}
}

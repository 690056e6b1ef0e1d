package joint

import (
	"cmp"
	"slices"
)

// bedGap is the room in mm between two parts on the bed (common practice, no
// source).
const bedGap = 5.0

// bedEdge is the room in mm to the bed's edges (common practice, no source).
const bedEdge = 2.0

// A Spot is where a part lies: the corner of its bounding box with the smallest
// coordinates, in mm from the corner of the first bed, and whether the part is
// turned by 90 degrees anticlockwise.
type Spot struct {
	X, Y   float64
	Turned bool
	Bed    int // from 0; further beds stand beside the first along x, a gap apart
}

// LayOut lays bounding boxes of the sizes out on beds of a size, in mm, with
// 5 mm between them and 2 mm to the edges, centred on each bed. A box that is too long for the bed is
// turned where that helps; one that is too large either way hangs over the edges
// of a bed of its own.
//
// Boxes stand in rows, the deepest first, each in the first row with room for
// it (first fit by decreasing depth).
func LayOut(sizes [][2]float64, bed [2]float64) []Spot {
	spots := make([]Spot, len(sizes))
	boxes := make([]footprint, len(sizes))
	inner := [2]float64{bed[0] - 2*bedEdge, bed[1] - 2*bedEdge}
	for i, size := range sizes {
		boxes[i] = newFootprint(i, size, inner)
	}
	slices.SortStableFunc(boxes, func(a, b footprint) int {
		return cmp.Or(cmp.Compare(b.depth, a.depth), cmp.Compare(b.width, a.width))
	})
	var beds []rows
	for _, box := range boxes {
		n := 0
		for n < len(beds) && !beds[n].fits(box, inner) {
			n++
		}
		if n == len(beds) {
			beds = append(beds, rows{})
		}
		x, y := beds[n].put(box, inner)
		spots[box.index] = Spot{X: x, Y: y, Turned: box.turned, Bed: n}
	}
	left := 0.0 // of the bed at hand
	for n, r := range beds {
		width, depth := r.used()
		room := max(width, bed[0])
		for i := range spots {
			if spots[i].Bed == n {
				spots[i].X += left + (room-width)/2
				spots[i].Y += (bed[1] - depth) / 2
			}
		}
		left += room + bedGap
	}
	return spots
}

// A footprint is a bounding box, turned if that makes it fit.
type footprint struct {
	index        int
	width, depth float64 // along x and y
	turned       bool
}

func newFootprint(index int, size, bed [2]float64) footprint {
	if (size[0] > bed[0] || size[1] > bed[1]) && size[0] <= bed[1] && size[1] <= bed[0] {
		return footprint{index, size[1], size[0], true}
	}
	return footprint{index, size[0], size[1], false}
}

// A row is a run of boxes along x. The first is the deepest.
type row struct{ y, depth, width float64 }

// rows are what stands on one bed, from the front to the back.
type rows []row

// find returns the row with room for a box and whether it is a new one; -1
// where neither is possible. An empty bed takes every box.
func (r rows) find(box footprint, bed [2]float64) int {
	if len(r) == 0 {
		return 0
	}
	width, depth := r.used()
	if max(width, box.width) > bed[0] || max(depth, box.depth) > bed[1] {
		return -1
	}
	for i, at := range r {
		if box.depth <= at.depth && at.width+bedGap+box.width <= bed[0] {
			return i
		}
	}
	if depth+bedGap+box.depth <= bed[1] {
		return len(r)
	}
	return -1
}

func (r rows) fits(box footprint, bed [2]float64) bool { return r.find(box, bed) >= 0 }

// put places a box where find found room and returns its corner.
func (r *rows) put(box footprint, bed [2]float64) (x, y float64) {
	i := r.find(box, bed)
	if i == len(*r) {
		if i > 0 {
			_, depth := r.used()
			y = depth + bedGap
		}
		*r = append(*r, row{y, box.depth, box.width})
		return 0, y
	}
	at := &(*r)[i]
	x = at.width + bedGap
	at.width = x + box.width
	return x, at.y
}

// used returns the size of what stands on the bed.
func (r rows) used() (width, depth float64) {
	for _, at := range r {
		width, depth = max(width, at.width), at.y+at.depth
	}
	return width, depth
}

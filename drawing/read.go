package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pintle/geom"
)

// An Allowance ties a diameter as drawn for a printer to what the finished part
// should measure, in mm.
type Allowance struct {
	Drawn, Wanted float64
	Tolerance     float64 // either way; 0 for the general tolerance
}

// alike is how close sizes and places are that mean the same, in mm.
const alike = 1e-3

// A reader finds the sizes of a part that nobody named.
type reader struct {
	part    geom.Part
	given   []Dimension
	circles []roundWall
	dims    []Dimension
}

// A roundWall is an upright wall that is a full circle.
type roundWall struct {
	geom.Arc
	z0, z1 float64
}

// read returns the given dimensions and those read from the part: diameters and
// heights in the section, overall sizes, holes and roundings in the plan.
func read(part geom.Part, section View, details Details) []Dimension {
	r := reader{part: part, given: details.Dimensions}
	for _, s := range part.Slabs() {
		for _, c := range s.Bottom {
			if s.Top != nil || details.Toothed.stands(c) {
				continue
			}
			for _, arc := range circlesIn(c.Curves) {
				r.addCircle(roundWall{arc, s.Z0, s.Z1})
			}
		}
	}
	r.readAxis(details.Toothed)
	r.readOverall(details.Toothed)
	r.readHoles()
	if details.Toothed == nil {
		r.readRoundings()
	}
	r.readHeights(section)
	r.readBevels(section)
	return append(slices.Clone(r.given), r.dims...)
}

func (r *reader) addCircle(w roundWall) {
	for i, c := range r.circles {
		if c.Centre.Sub(w.Centre).Len() < alike && math.Abs(c.Radius-w.Radius) < alike {
			r.circles[i].z1 = w.z1
			return
		}
	}
	r.circles = append(r.circles, w)
}

// named says whether the design named the diameter of a circle itself: of one
// about the origin, or of any beside it that is as large.
func (r *reader) named(centre geom.Point, diameter float64) bool {
	return slices.ContainsFunc(r.given, func(d Dimension) bool {
		if d.Kind != Diameter || math.Abs(d.B.Sub(d.A).Len()-diameter) > alike {
			return false
		}
		beside := d.Facing == Plan && d.A.Add(d.B).Len() > alike
		return beside == (centre.Len() > alike)
	})
}

func (r *reader) onAxis(c roundWall) bool { return c.Centre.Len() < alike }

// alone says whether a circle is about the origin and not one of a pattern.
func (r *reader) alone(c roundWall) bool {
	return r.onAxis(c) && !slices.ContainsFunc(r.circles, func(o roundWall) bool {
		return !r.onAxis(o) && math.Abs(o.Radius-c.Radius) < alike
	})
}

// readAxis dimensions the circles about the part's origin, in the section.
func (r *reader) readAxis(toothed *Toothed) {
	if toothed != nil && !r.named(toothed.Centre, toothed.Tip) && toothed.Centre.Len() < alike {
		r.dims = append(r.dims, Turned(toothed.Tip, 0))
	}
	for _, c := range r.circles {
		if r.alone(c) && !r.named(c.Centre, 2*c.Radius) {
			r.dims = append(r.dims, Turned(2*c.Radius, (c.z0+c.z1)/2))
		}
	}
}

// readOverall dimensions length and width, unless a circle shows them.
func (r *reader) readOverall(toothed *Toothed) {
	lo, hi := r.part.Bounds()
	if toothed != nil && hi.X <= max(toothed.Tip, toothed.Root)/2+alike {
		return
	}
	for _, c := range r.circles {
		round := geom.Point{X: c.Radius, Y: c.Radius}
		if r.onAxis(c) && hi.Sub(round).Len() < 0.01 && lo.Add(round).Len() < 0.01 {
			return
		}
	}
	r.between(geom.Point{X: lo.X, Y: lo.Y}, geom.Point{X: hi.X, Y: lo.Y})
	r.between(geom.Point{X: lo.X, Y: lo.Y}, geom.Point{X: lo.X, Y: hi.Y})
}

// between adds a length of the plan that neither the design nor a circle before
// named.
func (r *reader) between(a, b geom.Point) {
	for _, d := range append(slices.Clone(r.given), r.dims...) {
		if d.Kind == Linear && d.Facing == Plan && sameExtent(d, a, b) {
			return
		}
	}
	r.dims = append(r.dims, Between(a, b))
}

func sameExtent(d Dimension, a, b geom.Point) bool {
	near := func(p, q float64) bool { return math.Abs(p-q) < 0.01 }
	if near(a.Y, b.Y) {
		return near(d.A.Y, d.B.Y) && near(min(d.A.X, d.B.X), min(a.X, b.X)) && near(max(d.A.X, d.B.X), max(a.X, b.X))
	}
	return near(d.A.X, d.B.X) && near(min(d.A.Y, d.B.Y), min(a.Y, b.Y)) && near(max(d.A.Y, d.B.Y), max(a.Y, b.Y))
}

// A hole pattern of more places than this in x or y is not dimensioned hole by
// hole (design choice): the drawing would be a table.
const mostPlaces = 6

// readHoles dimensions the circles off the axis, equal ones together: evenly on
// a pitch circle about the origin, or by their rows in x and y.
func (r *reader) readHoles() {
	groups := map[int][]roundWall{}
	var sizes []int
	for _, c := range r.circles {
		if r.alone(c) {
			continue
		}
		size := int(math.Round(2 * c.Radius / alike))
		if groups[size] == nil {
			sizes = append(sizes, size)
		}
		groups[size] = append(groups[size], c)
	}
	slices.SortFunc(sizes, func(a, b int) int { return cmp.Compare(b, a) })
	for _, size := range sizes {
		group := groups[size]
		right := slices.MaxFunc(group, func(a, b roundWall) int { return cmp.Compare(a.Centre.X, b.Centre.X) }) // nearest to the text
		d := Circle(right.Centre, 2*right.Radius).Times(len(group))
		note, even := pitchCircle(group)
		if !r.named(group[0].Centre, 2*group[0].Radius) {
			r.dims = append(r.dims, d.Saying(note))
		}
		if !even {
			r.rows(group)
		}
	}
}

// pitchCircle says how equal circles stand evenly about the origin.
func pitchCircle(group []roundWall) (note string, even bool) {
	n := len(group)
	radius := group[0].Centre.Len()
	var angles []float64
	for _, c := range group {
		if math.Abs(c.Centre.Len()-radius) > 0.01 {
			return "", false
		}
		angles = append(angles, math.Mod(math.Atan2(c.Centre.Y, c.Centre.X)+2*math.Pi+1e-9, 2*math.Pi))
	}
	slices.Sort(angles)
	for i := range angles[1:] {
		if math.Abs(angles[i+1]-angles[i]-2*math.Pi/float64(n)) > 1e-3 {
			return "", false
		}
	}
	if n < 3 {
		return "", false
	}
	note = "evenly on Ø" + rounded(2*radius)
	if first := angles[0] * 180 / math.Pi; first > 0.01 {
		note += fmt.Sprintf(", from %s°", rounded(first))
	}
	return note, true
}

// rows dimensions where circles stand: between the outer rows, and from the
// origin where they do not stand evenly about it.
func (r *reader) rows(group []roundWall) {
	xs, ys := places(group, func(p geom.Point) float64 { return p.X }), places(group, func(p geom.Point) float64 { return p.Y })
	if len(xs) > mostPlaces || len(ys) > mostPlaces {
		return
	}
	top, left := ys[len(ys)-1], xs[0]
	for _, s := range steps(xs) {
		r.between(geom.Point{X: s[0], Y: top}, geom.Point{X: s[1], Y: top})
	}
	for _, s := range steps(ys) {
		r.between(geom.Point{X: left, Y: s[0]}, geom.Point{X: left, Y: s[1]})
	}
}

func places(group []roundWall, of func(geom.Point) float64) []float64 {
	var at []float64
	for _, c := range group {
		at = append(at, of(c.Centre))
	}
	slices.Sort(at)
	return slices.CompactFunc(at, func(a, b float64) bool { return math.Abs(a-b) < 0.01 })
}

// steps returns the lengths that fix the places: pairs that stand evenly about
// the origin are measured across it, others from it.
func steps(at []float64) [][2]float64 {
	var lengths [][2]float64
	for _, v := range at {
		even := slices.ContainsFunc(at, func(w float64) bool { return math.Abs(v+w) < 0.01 })
		switch {
		case math.Abs(v) < 0.01 || even && v < 0:
		case even:
			lengths = append(lengths, [2]float64{-v, v})
		default:
			lengths = append(lengths, [2]float64{0, v})
		}
	}
	return lengths
}

// readRoundings dimensions the round corners of upright walls, the largest three
// radii.
func (r *reader) readRoundings() {
	count := map[int]int{}
	first := map[int]geom.Arc{}
	seen := map[geom.Curve]bool{}
	for _, s := range r.part.Slabs() {
		for _, contour := range s.Bottom {
			for _, curve := range contour.Curves {
				arc, ok := curve.(geom.Arc)
				if !ok || s.Top != nil || len(contour.Curves) < 3 || len(contour.Curves) > 16 || seen[curve] || arc.Radius < 1 {
					continue
				}
				seen[curve] = true
				size := int(math.Round(arc.Radius / alike))
				if count[size]++; count[size] == 1 {
					first[size] = arc
				}
			}
		}
	}
	var sizes []int
	for size := range count {
		sizes = append(sizes, size)
	}
	slices.SortFunc(sizes, func(a, b int) int { return cmp.Compare(b, a) })
	for _, size := range sizes[:min(len(sizes), 3)] {
		arc := first[size]
		if !slices.ContainsFunc(r.given, func(d Dimension) bool { return d.Kind == Radius && math.Abs(d.Size()-arc.Radius) < alike }) {
			r.dims = append(r.dims, Rounding(arc.Centre, arc.Radius, (arc.From+arc.To)/2).Times(count[size]))
		}
	}
}

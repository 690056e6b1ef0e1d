package geom

import (
	"fmt"

	plane "github.com/peterstace/simplefeatures/geom"
)

// Unite returns what lies in a or b, whose outlines may cross. The result is
// computed in float64, snapped to the grid and proved again. Loops of less area
// than a bead squared are dropped, since no printer draws them. The error is a
// *RegionError where the result touches itself.
func Unite(a, b Region, bead float64) (Region, error) { return overlay(plane.Union, a, b, bead) }

// Intersect returns what lies in a and b, like Unite; the zero Region if that
// is nothing.
func Intersect(a, b Region, bead float64) (Region, error) {
	return overlay(plane.Intersection, a, b, bead)
}

// Subtract returns what lies in a but not in b, like Unite; the zero Region if
// that is nothing.
func Subtract(a, b Region, bead float64) (Region, error) {
	return overlay(plane.Difference, a, b, bead)
}

type overlayRule func(a, b plane.Geometry) (plane.Geometry, error)

func overlay(rule overlayRule, a, b Region, bead float64) (Region, error) {
	known := newWelder()
	known.addAll(a.loops)
	known.addAll(b.loops)
	loops, err := overlayLoops(rule, a, b, bead, known)
	if err != nil || len(loops) == 0 {
		return Region{}, err
	}
	return NewRegion(loops)
}

// overlayLoops returns the snapped loops of an overlay. New corners beside
// known ones fall on them.
func overlayLoops(rule overlayRule, a, b Region, bead float64, known welder) ([]Loop, error) {
	result, err := rule(a.asGeometry(), b.asGeometry())
	if err != nil {
		return nil, fmt.Errorf("overlay of outlines: %w", err)
	}
	least := int64(2 * bead * bead * PerMM * PerMM) // twice the area
	var loops []Loop
	for _, piece := range result.Dump() {
		if piece.Type() != plane.TypePolygon {
			continue // outlines that only touch leave points and lines
		}
		polygon := piece.MustAsPolygon().ForceCCW()
		for i, ring := range polygon.DumpRings() {
			l := known.loop(ring.Coordinates())
			area := l.doubleArea()
			if max(area, -area) >= max(least, 1) {
				loops = append(loops, l)
			} else if i == 0 {
				break // with the outline its holes go too
			}
		}
	}
	return loops, nil
}

// asGeometry returns the region as polygons with holes.
func (r Region) asGeometry() plane.Geometry {
	var polygons []plane.Polygon
	for _, body := range r.bodies() {
		var rings [][]float64
		for _, i := range body {
			rings = append(rings, r.ring(i))
		}
		polygons = append(polygons, plane.NewPolygonXY(rings...))
	}
	return plane.NewMultiPolygon(polygons).AsGeometry()
}

// ring returns the coordinates of a loop, the first point again at the end.
func (r Region) ring(loop int) []float64 {
	l := r.loops[loop]
	ring := make([]float64, 0, 2*len(l)+2)
	for k := range len(l) + 1 {
		p := l[k%len(l)].Point()
		ring = append(ring, p.X, p.Y)
	}
	return ring
}

// bodies groups the loops: each outer loop, followed by its holes. Directly
// below the leftmost corner of a hole lies an edge of its outer loop, or of
// another hole of the same body.
func (r Region) bodies() [][]int {
	loopOf := make([]int, 0, len(r.verts))
	for i, l := range r.loops {
		for range l {
			loopOf = append(loopOf, i)
		}
	}
	body := make([]int, len(r.loops)) // by loop: 1 + its body
	var bodies [][]int
	for _, v := range r.order {
		i := loopOf[v]
		switch {
		case body[i] > 0:
		case r.loops[i].doubleArea() > 0:
			bodies = append(bodies, []int{i})
			body[i] = len(bodies)
		default:
			body[i] = body[loopOf[r.below[v]]]
			bodies[body[i]-1] = append(bodies[body[i]-1], i)
		}
	}
	return bodies
}

// A welder knows the corners drawn so far. Where outlines are cut, a new corner
// within two grid steps of a known one is that corner.
type welder map[Vertex][]Vertex

const weldSteps = 2

func newWelder() welder { return welder{} }

func (w welder) cell(v Vertex) Vertex { return Vertex{v.X >> 2, v.Y >> 2} }

func (w welder) addAll(loops []Loop) {
	for _, l := range loops {
		for _, v := range l {
			w.add(v)
		}
	}
}

func (w welder) add(v Vertex) { w[w.cell(v)] = append(w[w.cell(v)], v) }

// weld returns the known corner nearest to v, or v, which then is known.
func (w welder) weld(v Vertex) Vertex {
	best, found := int64(weldSteps*weldSteps), false
	at, c := v, w.cell(v)
	for x := c.X - 1; x <= c.X+1; x++ {
		for y := c.Y - 1; y <= c.Y+1; y++ {
			for _, u := range w[Vertex{x, y}] {
				dx, dy := int64(u.X-v.X), int64(u.Y-v.Y)
				if d := dx*dx + dy*dy; d < best || d == best && !found {
					at, best, found = u, d, true
				}
			}
		}
	}
	if !found {
		w.add(v)
	}
	return at
}

// loop snaps and welds a closed ring, which ends where it starts.
func (w welder) loop(ring plane.Sequence) Loop {
	points := make([]Point, 0, ring.Length())
	for i := range ring.Length() - 1 {
		p := ring.GetXY(i)
		points = append(points, w.weld(Snap(Point{p.X, p.Y})).Point())
	}
	return Contour{Points: points}.loop()
}

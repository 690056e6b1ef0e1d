package gear

import (
	"math"

	"pintle/geom"
)

// A side is one side of a tooth as a chain of points from root to tip, in the
// frame of the tooth (its centre line on +x), mirrored so that y >= 0.
type side []geom.Point

// A toothed is a gear as polylines, ready to be turned against another: the two
// sides of each tooth that may come to the mesh, by tooth number.
type toothed struct {
	z            int
	rb           float64
	upper, lower map[int]side
	near, far    float64 // smallest and largest radius of all points
}

func newToothed(t tooth) *toothed {
	return &toothed{z: t.z, rb: t.rb, upper: map[int]side{}, lower: map[int]side{}, near: math.Inf(1)}
}

// add takes one more tooth.
func (g *toothed) add(k int, upper, lower side) {
	g.upper[k], g.lower[k] = upper, lower
	for _, s := range []side{upper, lower} {
		for _, p := range s {
			g.near, g.far = math.Min(g.near, p.Len()), math.Max(g.far, p.Len())
		}
	}
}

// reach returns how many teeth on either side of tooth 0 may come to the mesh
// within one cycle.
func (t tooth) reach() int { return min(4, t.z/2) }

// wrapped returns the number of tooth k of z, from above -z/2 to z/2.
func wrapped(k, z int) int {
	switch {
	case 2*k > z:
		return k - z
	case 2*k <= -z:
		return k + z
	}
	return k
}

// ofPoints cuts the teeth around tooth 0 out of a closed outline.
func ofPoints(t tooth, outline []geom.Point) *toothed {
	pitch := 2 * math.Pi / float64(t.z)
	number := func(p geom.Point) int { return wrapped(int(math.Round(p.Angle()/pitch)), t.z) }
	first := 0 // where a tooth begins
	for i, p := range outline {
		if number(p) != number(outline[(i+len(outline)-1)%len(outline)]) {
			first = i
			break
		}
	}
	const onAxis = 1.0 / geom.PerMM
	upper, lower := map[int]side{}, map[int]side{}
	for i := range outline {
		p := outline[(first+i)%len(outline)]
		k := number(p)
		if max(k, -k) > t.reach() {
			continue
		}
		own := p.Rotate(-pitch * float64(k))
		if own.Y >= -onAxis {
			upper[k] = append(upper[k], own)
		}
		if own.Y <= onAxis {
			lower[k] = append(lower[k], geom.Point{X: own.X, Y: -own.Y})
		}
	}
	g := newToothed(t)
	for k, s := range upper {
		for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
			s[i], s[j] = s[j], s[i]
		}
		g.add(k, s, lower[k])
	}
	return g
}

// ofLoop is ofPoints for an outline on the grid: the very points of the
// exported file.
func ofLoop(t tooth, loop geom.Loop) *toothed {
	points := make([]geom.Point, len(loop))
	for i, v := range loop {
		points[i] = v.Point()
	}
	return ofPoints(t, points)
}

// ofCurve samples the teeth from their formulas, n steps to a flank.
func ofCurve(t tooth, n int) *toothed {
	var half side
	for i := range n / 2 {
		p, _ := t.fillet(t.bottom * float64(i) / float64(n/2))
		half = append(half, p)
	}
	for i := range n + 1 {
		p, _ := t.flank(t.from + (t.to-t.from)*float64(i)/float64(n))
		half = append(half, p)
	}
	g := newToothed(t)
	for k := -t.reach(); k <= t.reach(); k++ {
		g.add(wrapped(k, t.z), half, half)
	}
	return g
}

// A chain is the side of a wheel's tooth with radii that rise strictly: as seen
// from its own axis it is a function of the radius.
type chain struct {
	p []geom.Point
	r []float64
}

func newChain(s side) chain {
	var c chain
	for _, p := range s {
		r := p.Len()
		if n := len(c.r); n > 0 && r <= c.r[n-1] {
			continue
		}
		c.p, c.r = append(c.p, p), append(c.r, r)
	}
	return c
}

// halfAngle returns the angle of the chain from the tooth's centre line at a
// radius within its range.
func (c chain) halfAngle(r float64) float64 {
	lo, hi := 0, len(c.r)-1
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; c.r[mid] <= r {
			lo = mid
		} else {
			hi = mid
		}
	}
	return crossing(c.p[lo], c.p[hi], r).Angle()
}

// crossing returns where the line from a to b, outwards, has the radius r.
func crossing(a, b geom.Point, r float64) geom.Point {
	d := b.Sub(a)
	along, square := a.X*d.X+a.Y*d.Y, d.X*d.X+d.Y*d.Y
	rest := along*along + square*(r*r-a.X*a.X-a.Y*a.Y)
	return a.Add(d.Scale((math.Sqrt(math.Max(rest, 0)) - along) / square))
}

package gear

import (
	"math"
	"slices"

	"pintle/geom"
)

// A side is one side of a tooth as a chain of points from root to tip, in the
// frame of the tooth (its centre line on +x), mirrored so that y >= 0.
type side []geom.Point

// A toothed is a gear as polylines, ready to be turned against another: the two
// sides of each tooth that may come to the mesh, by tooth number.
type toothed struct {
	z            int
	inner        bool
	rb           float64
	upper, lower map[int]side
	near, far    float64 // smallest and largest radius of all points
}

func newToothed(t tooth) *toothed {
	return &toothed{z: t.z, inner: t.inner, rb: t.rb, upper: map[int]side{}, lower: map[int]side{}, near: math.Inf(1)}
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

// ofPoints cuts the teeth around tooth 0 out of a closed outline, n to either
// side.
func ofPoints(t tooth, outline []geom.Point, n int) *toothed {
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
		if max(k, -k) > n {
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
		g.add(k, fromRoot(s, t.inner), fromRoot(lower[k], t.inner))
	}
	return g
}

// fromRoot returns the points of a side in the order from root to tip.
func fromRoot(s side, inner bool) side {
	if first, last := s[0].Len(), s[len(s)-1].Len(); (first > last) != inner {
		slices.Reverse(s)
	}
	return s
}

// ofLoop is ofPoints for an outline on the grid: the very points of the
// exported file.
func ofLoop(t tooth, loop geom.Loop, n int) *toothed {
	points := make([]geom.Point, len(loop))
	for i, v := range loop {
		points[i] = v.Point()
	}
	return ofPoints(t, points, n)
}

// ofCurve samples the teeth from their formulas in steps to a flank, n teeth to
// either side.
func ofCurve(t tooth, steps, n int) *toothed {
	var half side
	for i := range steps / 2 {
		p, _ := t.fillet(t.bottom * float64(i) / float64(steps/2))
		half = append(half, p)
	}
	for i := range steps + 1 {
		p, _ := t.flank(t.from + (t.to-t.from)*float64(i)/float64(steps))
		half = append(half, p)
	}
	if t.inner { // the space's side is that of the tooth beside it
		for i, p := range half {
			p = p.Rotate(-math.Pi / float64(t.z))
			half[i] = geom.Point{X: p.X, Y: -p.Y}
		}
	}
	g := newToothed(t)
	for k := -min(n, t.z/2); k <= min(n, t.z/2); k++ {
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
	inwards := len(s) > 1 && s[0].Len() > s[len(s)-1].Len() // an internal gear's
	for i := range s {
		p := s[i]
		if inwards {
			p = s[len(s)-1-i]
		}
		r := p.Len()
		for n := len(c.r); inwards && n > 0 && r <= c.r[n-1]; n-- {
			c.p, c.r = c.p[:n-1], c.r[:n-1] // the tip's corner counts, not its arc
		}
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

// most returns the largest n with all teeth from -n to n there.
func (g *toothed) most() int {
	n := 0
	for n+1 <= g.z/2 && g.upper[wrapped(n+1, g.z)] != nil && g.upper[wrapped(-n-1, g.z)] != nil {
		n++
	}
	return n
}

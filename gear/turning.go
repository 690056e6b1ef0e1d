package gear

import (
	"math"

	"pintle/geom"
)

// A meshing is two gears as polylines at a centre distance. Angles are measured
// at each axis from the line of centres and grow the way both flanks move.
type meshing struct {
	pinion *toothed
	inner  bool // the wheel is an internal gear
	a      float64
	ratio  float64 // z1/z2
	pitch  [2]float64
	chains [2]map[int]chain // the wheel's sides that the pinion's upper and lower sides meet, by the pinion's tooth
	rb     float64          // the wheel's base radius
	root   float64          // least room between tips and roots
	teeth  int              // teeth of the pinion on either side that are followed
}

// reach returns how many teeth on either side of tooth 0 may come to the mesh
// within one cycle: those of the smaller gear inside the mate's tip circle, and
// two more.
func (c contact) reach() int {
	ra1, ra2 := c.t[0].ra, c.t[1].ra
	cos := c.sign * (c.a*c.a + ra1*ra1 - ra2*ra2) / (2 * c.a * ra1)
	half := math.Acos(math.Max(math.Min(cos, 1), -1))
	n := int(math.Ceil(half*float64(c.t[0].z)/(2*math.Pi))) + 2
	return min(n, (c.t[0].z-1)/2, (c.t[1].z-1)/2)
}

func newMeshing(pinion, wheel *toothed, a float64) *meshing {
	m := &meshing{pinion: pinion, inner: wheel.inner, a: a, ratio: float64(pinion.z) / float64(wheel.z), rb: wheel.rb}
	m.pitch = [2]float64{2 * math.Pi / float64(pinion.z), 2 * math.Pi / float64(wheel.z)}
	m.root = a - math.Max(pinion.far+wheel.near, wheel.far+pinion.near)
	if wheel.inner {
		m.root = math.Min(wheel.near-pinion.near, wheel.far-pinion.far) - a
	}
	m.teeth = min(pinion.most()-1, wheel.most()-1)
	for s := range m.chains {
		m.chains[s] = map[int]chain{}
	}
	for k := -m.teeth; k <= m.teeth; k++ {
		if wheel.inner {
			m.chains[0][k] = newChain(wheel.lower[wrapped(k, wheel.z)])
			m.chains[1][k] = newChain(wheel.upper[wrapped(k-1, wheel.z)])
			continue
		}
		m.chains[0][k] = newChain(wheel.upper[wrapped(-k, wheel.z)])
		m.chains[1][k] = newChain(wheel.lower[wrapped(1-k, wheel.z)])
	}
	return m
}

// free returns how far the wheel can turn back from its nominal place until a
// tooth of the pinion stops it, in rad, by tooth of the pinion: on the upper
// sides of the pinion's teeth (s = 0) or on the lower ones (s = 1). +Inf is a
// tooth out of reach. The pinion stands turned by the angle.
func (m *meshing) free(s int, turn float64, room []float64) []float64 {
	room = room[:0]
	sides, sign := m.pinion.upper, 1.0
	if s == 1 {
		sides, sign = m.pinion.lower, -1
	}
	for k := -m.teeth; k <= m.teeth; k++ {
		at := sign * (turn + float64(k)*m.pitch[0])
		room = append(room, m.between(sides[k], m.chains[s][k], at))
	}
	return room
}

// between returns the room between one side of a pinion's tooth, turned by at,
// and the wheel's side that faces it. Polygons that turn into each other first
// touch at a vertex of one of them: each vertex in reach is held against the
// other's edges.
func (m *meshing) between(pinion side, wheel chain, at float64) float64 {
	sin, cos := math.Sincos(at)
	middle := at*m.ratio + m.pitch[1]/2
	low, high := wheel.r[0], wheel.r[len(wheel.r)-1]
	least := math.Inf(1)
	var last geom.Point
	lastR := 0.0
	for i := len(pinion) - 1; i >= 0; i-- { // from the tip down
		p := pinion[i]
		seen := geom.Point{X: p.X*cos - p.Y*sin, Y: p.X*sin + p.Y*cos} // from the wheel's axis
		if seen.X += m.a; !m.inner {
			seen.X = 2*m.a - seen.X
		}
		r := seen.Len()
		if r >= low && r <= high {
			least = math.Min(least, middle-wheel.halfAngle(r)-seen.Angle())
		}
		if i < len(pinion)-1 && math.Min(r, lastR) <= high && math.Max(r, lastR) >= low {
			least = math.Min(least, middle-m.onEdge(wheel, last, seen, lastR, r))
		}
		last, lastR = seen, r
	}
	return least
}

// onEdge returns the largest sum of the angles of a wheel's vertex and the edge
// of the pinion at its radius, -Inf where the edge passes none.
func (m *meshing) onEdge(wheel chain, p, q geom.Point, rp, rq float64) float64 {
	if rp > rq {
		p, q, rp, rq = q, p, rq, rp
	}
	lo, hi := 0, len(wheel.r)
	for lo < hi {
		if mid := (lo + hi) / 2; wheel.r[mid] < rp {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	most := math.Inf(-1)
	for i := lo; i < len(wheel.r) && wheel.r[i] <= rq && rq > rp; i++ {
		most = math.Max(most, wheel.p[i].Angle()+crossing(p, q, wheel.r[i]).Angle())
	}
	return most
}

package gear

import (
	"math"

	"pintle/geom"
)

// A tooth is one tooth of an external gear as its rack leaves it, centred on
// the +x axis. The half above the axis is described; the other mirrors it.
//
// The same form serves the nominal tooth and the drawn one: a rack grown by an
// allowance along its normals cuts the parallel curve of the nominal tooth.
type tooth struct {
	z      int
	m      float64
	alpha  float64
	r, rb  float64 // reference and base radius
	ra, rf float64 // tip and root radius
	rho    float64 // radius of the tool's tip
	centre float64 // depth of the tool tip's centre below the reference circle
	psi    float64 // half the tooth angle at the reference circle
	along  float64 // the tool tip's centre along the rolling line, from the tooth centre
	base   float64 // half the tooth angle at the base circle
	from   float64 // roll angle, tan of the pressure angle, where the involute begins
	to     float64 // roll angle at the tip
	bottom float64 // tool angle where the fillet ends and the involute begins
	cut    bool    // undercut: fillet and involute meet at a corner
	inner  bool    // of an internal gear: see newInner
	tool   rounding
}

// newTooth returns the tooth of z teeth with profile shift x (in modules),
// thinned by thin on the reference circle and moved in by inset along its
// normals (mm; 0 for the nominal tooth).
func newTooth(z int, m, alpha, x float64, rack Rack, thin, inset float64) tooth {
	t := tooth{z: z, m: m, alpha: alpha, r: m * float64(z) / 2}
	t.rb = t.r * math.Cos(alpha)
	t.ra = t.r + m*(rack.Addendum+x) - inset
	t.rf = t.r - m*(rack.dedendum()-x) - inset
	t.rho = m*rack.FilletRadius + inset
	t.centre = m * (rack.dedendum() - rack.FilletRadius - x)
	s := m*(math.Pi/2+2*x*math.Tan(alpha)) - thin - 2*inset/math.Cos(alpha)
	t.psi = s / (2 * t.r)
	t.along = s/2 + t.centre*math.Tan(alpha) + t.rho/math.Cos(alpha)
	t.base = t.psi + Involute(alpha)
	t.to = rollAt(t.ra, t.rb)
	t.bottom = math.Pi/2 - alpha
	t.from = math.Tan(alpha) - (t.centre+t.rho*math.Sin(alpha))/(math.Sin(alpha)*t.rb)
	if t.cut = t.from < 0; t.cut {
		t.bottom, t.from = t.crossing()
	}
	return t
}

// altered returns the tooth with its tip moved out by k modules (in, for k < 0).
func (t tooth) altered(k float64) tooth {
	if t.inner {
		k = -k
	}
	t.ra += k * t.m
	t.to = rollAt(t.ra, t.rb)
	return t
}

// rollAt returns tan of the pressure angle at a radius, 0 inside the base circle.
func rollAt(r, rb float64) float64 {
	if r <= rb {
		return 0
	}
	return math.Sqrt((r-rb)*(r+rb)) / rb
}

// flank returns the point of the involute at roll angle t, and its derivative.
// Its outward normal stands at right angles to the derivative.
func (t tooth) flank(roll float64) (p, dp geom.Point) {
	sin, cos := math.Sincos(t.base - roll)
	p = geom.Point{X: t.rb * (cos - roll*sin), Y: t.rb * (sin + roll*cos)}
	return p, geom.Point{X: t.rb * roll * cos, Y: t.rb * roll * sin}
}

// fillet returns the point of the root fillet where the tool tip's normal leans
// by lean from the line to the gear's centre (0 at the root circle), and its
// derivative. The contact normal passes the pitch point, which rolls at phi.
func (t tooth) fillet(lean float64) (p, dp geom.Point) {
	if t.inner {
		return t.innerFillet(lean)
	}
	sin, cos := math.Sincos(lean)
	phi := (t.along + t.centre*sin/cos) / t.r
	w := t.centre/cos + t.rho
	p = geom.Polar(t.r, phi).Sub(geom.Polar(w, phi+lean))
	speed := t.rho + w*t.centre/(t.r*cos*cos)
	return p, geom.Polar(-speed, phi+lean+math.Pi/2)
}

// crossing returns where an undercut fillet crosses the involute: the tool
// angle and the roll angle. Radii grow along the fillet, which passes the foot
// of the involute on the inside and its own end on the outside.
func (t tooth) crossing() (lean, roll float64) {
	lo, hi := 0.0, t.bottom
	outside := func(lean float64) bool {
		p, _ := t.fillet(lean)
		if p.Len() <= t.rb {
			return false
		}
		return p.Angle() > t.angleAt(p.Len())
	}
	for range 100 {
		mid := (lo + hi) / 2
		if mid == lo || mid == hi {
			break
		}
		if outside(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	p, _ := t.fillet(hi)
	return hi, rollAt(p.Len(), t.rb)
}

// angleAt returns half the angle of the tooth at a radius on its involute.
func (t tooth) angleAt(r float64) float64 {
	half := t.base - rollInvolute(rollAt(r, t.rb))
	if t.inner {
		return math.Pi/float64(t.z) - half
	}
	return half
}

// thickness returns the thickness of the tooth along the circle of radius r, on
// the involute. Negative means that the flanks have met below r.
func (t tooth) thickness(r float64) float64 { return 2 * r * t.angleAt(r) }

// form returns the radius at which the involute begins.
func (t tooth) form() float64 { return t.rb * math.Sqrt(1+t.from*t.from) }

// neck returns the smallest half thickness of the fillet in mm: an undercut can
// cut a tooth through.
func (t tooth) neck() float64 {
	if t.inner {
		return t.thickness(t.ra) / 2
	}
	least := math.Inf(1)
	const steps = 64
	for i := range steps + 1 {
		p, _ := t.fillet(t.bottom * float64(i) / steps)
		least = math.Min(least, p.Y)
	}
	return least
}

package gear

import (
	"math"
	"math/rand/v2"
	"testing"

	"pintle/geom"
)

// rollingRack is the tool in plain geometry, without envelope formulas: flank
// line, tip line and tip circle of one side, seen from a tooth centred on +x.
type rollingRack struct {
	r, half, alpha float64 // rolling radius, half tooth thickness, pressure angle
	depth, rho     float64 // of the tip below the rolling line, tip radius
}

// distance returns how far p lies outside the tool when the rolling point
// stands at angle phi; negative inside.
func (k rollingRack) distance(p geom.Point, phi float64) float64 {
	sin, cos := math.Sincos(phi)
	along := math.Abs(-p.X*sin + p.Y*cos + k.r*phi)
	down := k.r - (p.X*cos + p.Y*sin)
	sa, ca := math.Sincos(k.alpha)
	flank := (k.half-along)*ca + down*sa
	tip := down - k.depth
	cy := k.depth - k.rho
	cx := k.half + cy*sa/ca + k.rho/ca
	dx, dy := along-cx, down-cy
	if dx < 0 && dx*sa+dy*ca > 0 { // between the normals of flank and tip line
		return math.Hypot(dx, dy) - k.rho
	}
	return math.Max(flank, tip)
}

// clearance returns the least distance of p from the tool in all its positions.
func (k rollingRack) clearance(p geom.Point) float64 {
	best, at := math.Inf(1), 0.0
	const n = 600
	span := 2.2
	for i := range n + 1 {
		phi := span * (2*float64(i)/n - 1)
		if d := k.distance(p, phi); d < best {
			best, at = d, phi
		}
	}
	lo, hi := at-2*span/n, at+2*span/n
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if k.distance(p, a) < k.distance(p, b) {
			hi = b
		} else {
			lo = a
		}
	}
	return math.Min(best, k.distance(p, (lo+hi)/2))
}

func rackOf(z int, m, alpha, x float64, rack Rack, thin float64) rollingRack {
	return rollingRack{
		r: m * float64(z) / 2, half: (m*(math.Pi/2+2*x*math.Tan(alpha)) - thin) / 2, alpha: alpha,
		depth: m * (rack.Addendum + rack.Clearance - x), rho: m * rack.FilletRadius,
	}
}

// A legalTooth is a random gear that the rack leaves standing.
type legalTooth struct {
	z                 int
	m, alpha, x, thin float64
	rack              Rack
	tooth             tooth
	rolling           rollingRack
	outline           geom.Contour
	chord             float64
}

func randomTooth(rnd *rand.Rand) legalTooth {
	for {
		l := legalTooth{
			z: 6 + rnd.IntN(60), m: 0.5 + 2.5*rnd.Float64(), x: -0.5 + 1.4*rnd.Float64(),
			alpha: []float64{14.5, 20, 20, 20, 22.5, 25}[rnd.IntN(6)] * degree, chord: 0.005,
		}
		l.thin = 0.1 * l.m * rnd.Float64()
		l.rack = []Rack{ProfileA(), ProfileB(), ProfileC(), ProfileD(), {0.8, 0.3, 0}}[rnd.IntN(5)]
		if l.rack.validate(l.alpha) != nil {
			l.rack = ProfileA().Fitted(l.alpha)
		}
		l.tooth = newTooth(l.z, l.m, l.alpha, l.x, l.rack, l.thin, 0)
		s := solution{spec: PairSpec{Teeth: [2]int{l.z, l.z}, PressureAngle: l.alpha, Rack: l.rack}}
		if s.possible(0, l.tooth) != nil {
			continue
		}
		l.rolling = rackOf(l.z, l.m, l.alpha, l.x, l.rack, l.thin)
		l.outline = l.tooth.outline(l.chord)
		return l
	}
}

// ownTooth returns the outline's points within half a pitch of the +x axis.
func (l legalTooth) ownTooth() []geom.Point {
	var own []geom.Point
	for _, p := range l.outline.Points {
		if math.Abs(p.Angle()) <= math.Pi/float64(l.z) {
			own = append(own, p)
		}
	}
	return own
}

// Every vertex below the tip circle touches the rolling rack, undercut or not:
// its distance from the tool's nearest position is 0 within half a micrometre.
// The outline is simple, and its region keeps as many loops as it has: one.
func TestOutlineIsWhatTheRackLeaves(t *testing.T) {
	const seed = 3
	rnd := rand.New(rand.NewPCG(seed, seed))
	cut := 0
	for i := range 60 {
		l := randomTooth(rnd)
		if l.tooth.cut {
			cut++
		}
		for _, p := range l.ownTooth() {
			d := l.rolling.clearance(p)
			if r := p.Len(); r > l.tooth.ra-1e-6 && d > -5e-4 {
				continue // tip arc: clear of the tool
			}
			if math.Abs(d) > 5e-4 {
				t.Fatalf("seed %d case %d: %+v: vertex (%g, %g) at radius %g is %g mm from the tool", seed, i, l.tooth, p.X, p.Y, p.Len(), d)
			}
		}
		if _, err := geom.NewPart("gear", geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{l.outline}}); err != nil {
			t.Fatalf("seed %d case %d: %+v: %v", seed, i, l.tooth, err)
		}
	}
	if cut < 5 {
		t.Errorf("only %d of the teeth are undercut", cut)
	}
}

// The drawn outline is the parallel curve of the nominal tooth: each vertex lies
// the inset away from the tool that cuts the nominal tooth.
func TestInsetOutlineIsParallel(t *testing.T) {
	const seed = 4
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 30 {
		l := randomTooth(rnd)
		inset := math.Min(0.06*l.m, 0.08) * (2*rnd.Float64() - 0.7)
		inset = math.Max(inset, -l.tooth.rho)
		drawn := newTooth(l.z, l.m, l.alpha, l.x, l.rack, l.thin, inset)
		if drawn.thickness(drawn.ra) < 0.05 || drawn.form() >= drawn.ra {
			continue
		}
		near(t, "tip radius", drawn.ra, l.tooth.ra-inset, 1e-12)
		l.outline = drawn.outline(l.chord)
		for _, p := range l.ownTooth() {
			if p.Len() > drawn.ra-1e-6 {
				continue
			}
			if d := l.rolling.clearance(p); math.Abs(d-inset) > 5e-4 {
				t.Fatalf("seed %d case %d: %+v: vertex at radius %g is %g mm inside the nominal tooth, want %g", seed, i, drawn, p.Len(), d, inset)
			}
		}
	}
}

// Points between the vertices stay within the chord error of the tooth, and
// every tooth is the mirrored and turned copy of the first.
func TestOutlineChordsAndSymmetry(t *testing.T) {
	const seed = 5
	rnd := rand.New(rand.NewPCG(seed, seed))
	for range 30 {
		l := randomTooth(rnd)
		own := l.ownTooth()
		per := len(l.outline.Points) / l.z
		for k := 1; k < per; k++ {
			a, b := l.outline.Points[k-1], l.outline.Points[k]
			mid := a.Add(b).Scale(0.5)
			if math.Min(a.Len(), b.Len()) > l.tooth.ra-1e-6 {
				continue // tip arc
			}
			if d := l.rolling.clearance(mid); math.Abs(d) > l.chord+5e-4 {
				t.Fatalf("seed %d: %+v: a chord strays by %g mm at radius %g", seed, l.tooth, d, mid.Len())
			}
		}
		if len(l.outline.Points) != per*l.z {
			t.Fatalf("%d points on %d teeth", len(l.outline.Points), l.z)
		}
		for k, p := range l.outline.Points {
			next := l.outline.Points[(k+per)%len(l.outline.Points)]
			if off := p.Rotate(2 * math.Pi / float64(l.z)).Sub(next).Len(); off > 1e-9 {
				t.Fatalf("tooth turned by a pitch is off by %g mm", off)
			}
		}
		for _, p := range own {
			best := math.Inf(1)
			for _, q := range own {
				best = math.Min(best, geom.Point{X: p.X, Y: -p.Y}.Sub(q).Len())
			}
			if best > 1e-9 && p.Len() > l.tooth.rf+1e-6 {
				t.Fatalf("the mirror image of (%g, %g) is %g mm off", p.X, p.Y, best)
			}
		}
	}
}

// polygonArea is the shoelace formula.
func polygonArea(points []geom.Point) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum / 2
}

// The area of the outline is that of the root circle plus, over all radii above
// it, the tooth's width as the rolling rack leaves it (Simpson's rule). Chords
// may take their error along the whole outline.
func TestOutlineArea(t *testing.T) {
	for _, q := range []struct {
		z int
		x float64
	}{{9, 0}, {20, 0}, {35, 0.3}} {
		const m, n = 1.5, 200
		tooth := newTooth(q.z, m, 20*degree, q.x, ProfileA(), 0.1, 0)
		rack := rackOf(q.z, m, 20*degree, q.x, ProfileA(), 0.1)
		width := func(r float64) float64 { // on the circle of radius r
			lo, hi := 0.0, math.Pi/float64(q.z)
			for range 30 {
				if mid := (lo + hi) / 2; rack.clearance(geom.Polar(r, mid)) > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			return 2 * r * lo
		}
		sum, h := 0.0, (tooth.ra-tooth.rf)/n
		for i := range n + 1 {
			weight := 2 + 2*float64(i%2)
			if i == 0 || i == n {
				weight = 1
			}
			sum += weight * width(tooth.rf+1e-9+h*float64(i)*(1-1e-9)) * h / 3
		}
		want := math.Pi*tooth.rf*tooth.rf + float64(q.z)*sum
		got := polygonArea(tooth.outline(0.001).Points)
		near(t, "area", got, want, want*2e-4)
	}
}

// A caliper over k teeth of the sampled outline reads W_k: the farthest points
// of the first and the last tooth across the middle of the group, less at most
// one chord error a side.
func TestSpanOnOutline(t *testing.T) {
	const seed = 6
	rnd := rand.New(rand.NewPCG(seed, seed))
	measured := 0
	for range 60 {
		l := randomTooth(rnd)
		span := l.tooth.span(l.x)
		if !span.OnFlank {
			continue
		}
		measured++
		pitch := 2 * math.Pi / float64(l.z)
		across := geom.Polar(1, pitch*float64(span.Teeth-1)/2+math.Pi/2)
		reach := func(tooth int, sign float64) float64 {
			far := math.Inf(-1)
			for _, p := range l.ownTooth() {
				if p.Len() < l.tooth.form() {
					continue // the root fillet may reach further, but no anvil gets there
				}
				q := p.Rotate(pitch * float64(tooth))
				far = math.Max(far, sign*(q.X*across.X+q.Y*across.Y))
			}
			return far
		}
		got := reach(span.Teeth-1, 1) + reach(0, -1)
		if got > span.Width+0.001 || got < span.Width-2*l.chord-0.001 {
			t.Fatalf("%+v: caliper reads %g over %d teeth, want %g", l.tooth, got, span.Teeth, span.Width)
		}
	}
	if measured < 20 {
		t.Errorf("only %d spans touch inside the flank", measured)
	}
}

// Twice the module is twice the tooth, to the rounding of one tooth's fit.
func TestToothScales(t *testing.T) {
	small := newTooth(17, 1, 20*degree, 0.1, ProfileA(), 0.05, 0.01)
	large := newTooth(17, 2, 20*degree, 0.1, ProfileA(), 0.1, 0.02)
	for i := range 11 {
		s := float64(i) / 10
		a, _ := small.fillet(small.bottom * s)
		b, _ := large.fillet(large.bottom * s)
		near(t, "fillet", b.Sub(a.Scale(2)).Len(), 0, 1e-11)
		a, _ = small.flank(small.from + (small.to-small.from)*s)
		b, _ = large.flank(large.from + (large.to-large.from)*s)
		near(t, "flank", b.Sub(a.Scale(2)).Len(), 0, 1e-11)
	}
}

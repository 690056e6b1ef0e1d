package gear

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/fit"
	"pintle/geom"
)

// randomBody returns a pair with a bored and bolted wheel of random proportions.
func randomBody(rnd *rand.Rand) PairSpec {
	m3, _ := fit.ScrewNamed("M3")
	spec := bareSpec(6+rnd.IntN(40), 10+rnd.IntN(70))
	spec.Module = 0.6 + 2.4*rnd.Float64()
	spec.Shift = [2]float64{1.2*rnd.Float64() - 0.4, 1.2*rnd.Float64() - 0.4}
	spec.PressureAngle = []float64{14.5, 20, 20, 25}[rnd.IntN(4)] * degree
	spec.Backlash, spec.FaceWidth = 0.3*rnd.Float64(), 2+10*rnd.Float64()
	spec.Card.Outside.Offset = 0.4*rnd.Float64() - 0.2
	spec.Card.FirstLayerGrowth = 0.6 * rnd.Float64()
	root := spec.Module * (float64(spec.Teeth[1]) - 2.5)
	spec.Wheel = Body{
		Bore:  2 + root*rnd.Float64()/2,
		Bolts: &BoltCircle{Diameter: root * (0.5 + rnd.Float64()/2), Screw: m3, Count: 1 + rnd.IntN(10)},
	}
	return spec
}

// A body that is accepted can always be made of layers, its bed-side layer
// spreads upwards everywhere, and a reduced chamfer leaves the tip one bead.
func TestBedSideChamfer(t *testing.T) {
	const seed = 10
	rnd := rand.New(rand.NewPCG(seed, seed))
	sloping, reduced := 0, 0
	for i := range 300 {
		p, err := NewPair(randomBody(rnd))
		if err != nil {
			if strings.Contains(err.Error(), "cannot be made of layers") {
				t.Errorf("seed %d case %d: %v", seed, i, err)
			}
			continue
		}
		full, bead := p.spec.Card.BedChamfer(), p.spec.Card.BeadWidth
		for _, g := range p.gears {
			bed := g.part.Layers()[0]
			if !bed.Loft || g.Chamfer() == 0 {
				continue
			}
			sloping++
			if !(area(bed.Bottom) < area(bed.Top)) {
				t.Fatalf("seed %d case %d: the bed-side layer does not grow upwards", seed, i)
			}
			near(t, "bed tip radius", farthest(bed.Bottom), g.drawn.ra-g.Chamfer(), 3e-4)
			if g.Chamfer() < full {
				reduced++
				if land := tipLand(bed.Bottom, g.Teeth()); land < bead-0.02 {
					t.Fatalf("seed %d case %d: chamfer %g leaves %g mm of the tip, want a bead of %g", seed, i, g.Chamfer(), land, bead)
				}
			}
		}
	}
	if sloping < 300 || reduced < 100 {
		t.Errorf("only %d sloping layers, %d of them reduced", sloping, reduced)
	}
}

func area(r geom.Region) float64 {
	sum := 0.0
	for _, l := range r.Loops() {
		var points []geom.Point
		for _, v := range l {
			points = append(points, v.Point())
		}
		sum += polygonArea(points)
	}
	return sum
}

func farthest(r geom.Region) float64 {
	far := 0.0
	for _, v := range r.Loops()[0] {
		far = math.Max(far, v.Point().Len())
	}
	return far
}

// tipLand returns the width of tooth 1 between its outermost vertices.
func tipLand(r geom.Region, z int) float64 {
	far := farthest(r)
	lo, hi := 0.0, 0.0
	for _, v := range r.Loops()[0] {
		if p := v.Point(); p.Len() > far-0.001 && math.Abs(p.Angle()) < math.Pi/float64(z) {
			lo, hi = math.Min(lo, p.Y), math.Max(hi, p.Y)
		}
	}
	return hi - lo
}

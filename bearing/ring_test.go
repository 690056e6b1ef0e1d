package bearing_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// Regular polygons of n sides (elementary): inscribed in a circle of diameter d,
// n r² sin(2 pi / n) / 2; circumscribed, n r² tan(pi / n).
func pegArea(d, chord float64) float64 {
	n := float64(geom.CircleSides(d/2, chord))
	return n * d * d / 8 * math.Sin(2*math.Pi/n)
}

func boreArea(d, chord float64) float64 {
	n := float64(geom.CircleSides(d/2, chord))
	return n * d * d / 4 * math.Tan(math.Pi/n)
}

// frustum is the volume between two similar figures (Heron): the first area, the
// ratio of the second's diameter to the first's, and the height.
func frustum(area, ratio, height float64) float64 {
	return height / 3 * area * (1 + ratio + ratio*ratio)
}

// ringVolume is the closed form of a ring from what it says of itself.
func ringVolume(h *bearing.Housing, spec bearing.HousingSpec, chamfer, leadHeight, leadWidth, edge float64) float64 {
	const plain = geom.ChordPlain
	tube, foot, low := h.OutsideDiameter(), h.FlangeDiameter(), h.SeatHeight()
	seat := h.Fits()[0].Drawn
	chord := spec.ChordError
	if chord == 0 {
		chord = geom.ChordFit
	}
	flange := h.FlangeThickness()
	if flange == 0 {
		flange = chamfer
	}
	mouth := h.Height() - leadHeight
	v := frustum(pegArea(foot, plain), (foot-2*chamfer)/foot, chamfer) + pegArea(foot, plain)*(flange-chamfer)
	v += pegArea(tube, plain)*(mouth-flange) + frustum(pegArea(tube, plain), (tube-2*edge)/tube, leadHeight)
	v -= chamfer/6*(openArea(h, 0)+4*openArea(h, chamfer/2)+openArea(h, chamfer)) + openArea(h, 0)*(low-chamfer)
	width, depth := value(h, "corner_relief_width"), value(h, "corner_relief_depth")
	groove := (seat + 2*width) / seat
	v -= boreArea(seat, chord)*groove*groove*depth + frustum(boreArea(seat, chord), groove, width)
	v -= boreArea(seat, chord)*(mouth-low-depth-width) + frustum(boreArea(seat, chord), (seat+2*leadWidth)/seat, leadHeight)
	if spec.Flange != nil {
		screw := h.Fits()[2].Drawn
		one := frustum(boreArea(screw, plain), (screw+2*chamfer)/screw, chamfer) + boreArea(screw, plain)*(flange-chamfer)
		v -= float64(spec.Flange.Count) * one
	}
	return v
}

func value(h *bearing.Housing, key string) float64 {
	switch v := h.Values()[key].(type) {
	case float64:
		return v
	case int:
		return float64(v)
	}
	return 0
}

// openArea is the area of the hole behind the ring, grown on the radius: a circle
// and, for each slot of parallel sides, what of its strip lies between the circle
// and the slot's end (elementary). Without slots it is that of the polygon.
func openArea(h *bearing.Housing, grow float64) float64 {
	hole := h.Fits()[1].Drawn
	n, width := value(h, "knock_out_count"), value(h, "knock_out_width")
	if n == 0 {
		k := (hole + 2*grow) / hole
		return boreArea(hole, geom.ChordPlain) * k * k
	}
	half := width/2 + grow
	strip := func(r float64) float64 { return half*math.Sqrt(r*r-half*half) + r*r*math.Asin(half/r) }
	seat := h.Fits()[0].Drawn / 2
	return math.Pi*(hole/2+grow)*(hole/2+grow) + n*(strip(seat-0.3+grow)-strip(hole/2+grow))
}

// randomSpec is a legal or nearly legal ring round any bearing of the table.
func randomSpec(t *testing.T, rnd *rand.Rand) bearing.HousingSpec {
	all, plastics, screws := bearing.All(), fit.Materials(), fit.Screws()
	bead := 0.3 + 0.5*rnd.Float64()
	spec := bearing.HousingSpec{
		Name: "any", Bearing: all[rnd.IntN(len(all))], Fit: bearing.Press, Material: plastics[rnd.IntN(len(plastics))],
		Card: fit.Card{
			Name: "none", BeadWidth: bead, LayerThickness: 0.1 + 0.2*rnd.Float64(), FirstLayerGrowth: 0.9 * rnd.Float64(), Bed: [2]float64{220, 220},
			Bore: fit.Error{Offset: 0.2 - 0.6*rnd.Float64(), PerMM: 0.002 * (rnd.Float64() - 0.5), Sigma: 0.1 * rnd.Float64()},
		},
		Load: bearing.Load{Axial: 60 * (rnd.Float64() - 0.5)}, HottestC: 20 + 60*rnd.Float64(),
	}
	if rnd.IntN(3) == 0 {
		spec.Fit = bearing.Slip
	} else if rnd.IntN(2) == 0 {
		spec.Interference = 0.012 * rnd.Float64() * spec.Bearing.Outside
	}
	if rnd.IntN(2) == 0 {
		spec.Wall = 0.2 + 8*rnd.Float64()
	}
	if rnd.IntN(2) == 0 {
		spec.ShoulderThickness = 0.3 + 8*rnd.Float64()
	}
	if rnd.IntN(3) == 0 {
		lo, hi := bearing.HousingShoulder(spec.Bearing)
		spec.ShoulderHole = lo - 1 + (hi-lo+2)*rnd.Float64()
	}
	if rnd.IntN(2) == 0 {
		spec.Flange = &bearing.Flange{Screw: screws[rnd.IntN(len(screws))], Count: 2 + rnd.IntN(8)}
		if rnd.IntN(2) == 0 {
			spec.Flange.Thickness = 0.5 + 12*rnd.Float64()
		}
	}
	return spec
}

// Whatever the ring, it is built with the size and volume of the closed form, or
// refused by a FieldError that names a quantity; nothing else happens. Half a
// grid step on the radii is what the volume may differ by.
func TestRandomRings(t *testing.T) {
	const seed = 3
	rnd := rand.New(rand.NewPCG(seed, seed))
	built := 0
	for i := range 1300 {
		spec := randomSpec(t, rnd)
		h, err := bearing.NewHousing(spec)
		var wrong *check.FieldError
		if err != nil {
			if !errors.As(err, &wrong) {
				t.Fatalf("seed %d, case %d: %v\n%+v", seed, i, err, spec)
			}
			continue
		}
		built++
		part := h.Parts()[0]
		layers := part.Layers()
		first, last := layers[0], layers[len(layers)-1]
		chamfer, leadHeight := part.Slabs()[0].Z1, h.Height()-part.Slabs()[len(layers)-1].Z0
		edge := (last.Bottom.Loops()[0][0].Point().Len() - last.Top.Loops()[0][0].Point().Len())
		lead := h.Values()["lead_in"].(float64)
		if !first.Loft || !last.Loft || !near(part.Height(), h.Height(), 1e-3) {
			t.Fatalf("seed %d, case %d: no chamfers, or %v high for %v", seed, i, part.Height(), h.Height())
		}
		lo, hi := part.Bounds()
		if !near(hi.X-lo.X, h.FlangeDiameter(), 1e-3) || !near(hi.Y-lo.Y, h.FlangeDiameter(), 1e-3) {
			t.Errorf("seed %d, case %d: %v x %v, want %v", seed, i, hi.X-lo.X, hi.Y-lo.Y, h.FlangeDiameter())
		}
		want := ringVolume(h, spec, chamfer, leadHeight, lead, edge)
		surface := math.Pi * (h.FlangeDiameter() + h.Fits()[0].Drawn + h.FlangeDiameter()) * h.Height()
		tol := surface / geom.PerMM
		if value(h, "knock_out_count") > 0 { // its circles are drawn within the chord error
			tol += geom.ChordPlain * math.Pi * h.Fits()[0].Drawn * h.SeatHeight()
		}
		if got := part.Volume(); !near(got, want, tol) {
			t.Errorf("seed %d, case %d (%s): volume %v, want %v", seed, i, spec.Bearing.Designation, got, want)
		}
		for _, f := range h.Findings() {
			if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) || f.Verdict == "" || f.Check == "" {
				t.Errorf("seed %d, case %d: %+v", seed, i, f)
			}
			if (f.Verdict == check.Caution || f.Verdict == check.Fail) && f.Remedy == "" {
				t.Errorf("seed %d, case %d: no remedy: %+v", seed, i, f)
			}
		}
	}
	if built < 650 {
		t.Errorf("only %d of 1300 rings were built", built)
	}
}

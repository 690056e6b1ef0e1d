package gear

import (
	"math"
	"testing"

	"pintle/fit"
	"pintle/geom"
	"pintle/mesh"
)

// blank is a wheel of 60 teeth, module 1, printed true: what is drawn is wanted.
func blank(b Body) PairSpec {
	spec := bareSpec(20, 60)
	spec.Module, spec.FaceWidth = 1, 8
	spec.Card = fit.Card{Name: "true", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220}}
	spec.Wheel = b
	return spec
}

// soundMesh returns the closed mesh of a gear and proves it by both judges.
func soundMesh(t *testing.T, part geom.Part) *mesh.Mesh {
	t.Helper()
	m, err := mesh.FromPart(part)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Verify(); err != nil {
		t.Fatal(err)
	}
	if e := mesh.Inspect(m.Soup()); !e.Sound() || e.Shells != 1 {
		t.Fatalf("%d bodies, %+v", e.Shells, e.Faults)
	}
	return m
}

// taken returns what a body takes out of a solid wheel and what it adds, in mm³,
// between the heights z0 and z1, from the mesh's layers.
func slabVolume(p geom.Part, z0, z1 float64) float64 {
	v := 0.0
	for _, l := range p.Layers() {
		if lo, hi := float64(l.Z0)/geom.PerMM, float64(l.Z1)/geom.PerMM; lo >= z0-1e-3 && hi <= z1+1e-3 {
			v += l.Volume()
		}
	}
	return v
}

// The open area of each bore in closed form: circle, circle less a segment,
// regular polygon with a relief at each corner, circle with a key's seat. The
// clearance is the slip of 0.1 mm on the diameter and across the flats.
func TestBoreAreas(t *testing.T) {
	const r = 4.05                           // of a bore for a rod of 8 mm
	segment := func(depth float64) float64 { // of a circle of radius r: (theta - sin theta) r²/2
		theta := 2 * math.Acos((r-depth)/r)
		return (theta - math.Sin(theta)) * r * r / 2
	}
	polygon := func(across float64, n float64) float64 {
		const relief = 0.225 // half a bead
		corner := math.Pi * (1 - 2/n)
		return n*across*across/4*math.Tan(math.Pi/n) + n*(2*math.Pi-corner)/2*relief*relief
	}
	key := func() float64 { // slot of 2.1 mm, 1 mm deep over the bore, less what the circle has of it
		half := 1.05
		leave := math.Asin(half / r)
		return math.Pi*r*r + 2*half*(r+1-r*math.Cos(leave)) - (2*leave-math.Sin(2*leave))*r*r/2
	}
	for _, q := range []struct {
		shaft Shaft
		want  float64
	}{
		{Shaft{Kind: RoundBore, Size: 8}, math.Pi * r * r},
		{Shaft{Kind: RoundBore, Size: 8, Fit: FitTurning}, math.Pi * 4.1 * 4.1},
		{Shaft{Kind: RoundBore, Size: 8, Fit: FitPress}, math.Pi * 3.975 * 3.975},
		{Shaft{Kind: DBore, Size: 8, Over: 7}, math.Pi*r*r - segment(1)},
		{Shaft{Kind: HexBore, Size: 8}, polygon(8.1, 6)},
		{Shaft{Kind: SquareBore, Size: 8}, polygon(8.1, 4)},
		{Shaft{Kind: Keyway, Size: 8}, key()},
	} {
		solid, p := mustPair(t, blank(Body{})), mustPair(t, blank(Body{Shaft: &q.shaft}))
		soundMesh(t, p.Wheel().Part())
		got := (slabVolume(solid.Wheel().Part(), 0.4, 8) - slabVolume(p.Wheel().Part(), 0.4, 8)) / 7.6
		// Chords of 2.5 µm lie outside the arcs: up to 2/3 of that along 26 mm.
		if got < q.want-1e-3 || got > q.want+0.05 {
			t.Errorf("%s of %g mm: open area %.4f, want %.4f", q.shaft.Kind, q.shaft.Size, got, q.want)
		}
	}
}

// The flat nobody measured is a tenth of the rod deep, deeper where the set
// screw is wider than such a flat: on a rod of 5 mm an M4 needs a chord of 4 mm,
// 1 mm below the round.
func TestFlatDepth(t *testing.T) {
	m3, _ := fit.ScrewNamed("M3")
	m4, _ := fit.ScrewNamed("M4")
	for _, q := range []struct {
		size, over float64
		set        *SetScrew
		want       float64
	}{{8, 0, nil, 0.8}, {5, 0, &SetScrew{Screw: m3}, 0.5}, {5, 0, &SetScrew{Screw: m4}, 1}, {6, 5.5, &SetScrew{Screw: m3}, 0.5}} {
		near(t, "depth", Shaft{Kind: DBore, Size: q.size, Over: q.over}.flatDepth(q.set), q.want, 1e-12)
	}
}

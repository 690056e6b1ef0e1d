package joint

import (
	"io"
	"math"
	"strings"
	"testing"

	"pintle/geom"
	"pintle/mesh"
)

func plateOf(t *testing.T, changes ...string) geom.Part {
	t.Helper()
	file := read(t, changes...)
	b := newBuilder(file, Options{})
	if err := b.run(); err != nil {
		t.Fatal(err)
	}
	for _, body := range b.bodies {
		if body.part.Name() == "lamp-plate" {
			return body.part
		}
	}
	t.Fatal("no plate")
	return geom.Part{}
}

// holes returns the centre and size in x, y of each hole of a part's layer.
func holes(part geom.Part, layer int) (centres, sizes []geom.Point) {
	for _, loop := range part.Layers()[layer].Top.Loops()[1:] {
		lo, hi := geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
		for _, v := range loop {
			p := v.Point()
			lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
		centres = append(centres, lo.Add(hi).Scale(0.5))
		sizes = append(sizes, hi.Sub(lo))
	}
	return centres, sizes
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 2.0/geom.PerMM {
		t.Errorf("%s = %.4f, want %.4f", what, got, want)
	}
}

// Read back from the plate's layers: where a measured servo of 40.4 x 20.1 mm
// with its shaft 10.1 mm from one end must lie for its shaft to stand at the
// working centre distance of 48 mm, whichever way it is turned; openings as
// wanted plus the bore error of -0.18 mm.
func TestPlateHoldsServo(t *testing.T) {
	for _, test := range []struct {
		turn         string
		along        geom.Point // direction of the servo's long side
		length, wide float64
	}{
		{"90", geom.Point{Y: 1}, 20.1, 40.4},
		{"270", geom.Point{Y: -1}, 20.1, 40.4},
		{"0", geom.Point{X: 1}, 40.4, 20.1},
	} {
		t.Run(test.turn, func(t *testing.T) {
			// Only 72 mm between the axes leave room for a servo along the line of centres.
			part := plateOf(t, "servo_turn = 90", "servo_turn = "+test.turn, "teeth = [28, 36]", "teeth = [28, 68]", "swing = 130", "swing = 60")
			centres, sizes := holes(part, 1)
			body := geom.Point{X: 72}.Add(test.along.Scale(40.4/2 - 10.1))
			near(t, "cut-out x", centres[0].X, body.X)
			near(t, "cut-out y", centres[0].Y, body.Y)
			near(t, "cut-out length", sizes[0].X, test.length+2*0.3+0.18)
			near(t, "cut-out width", sizes[0].Y, test.wide+2*0.3+0.18)
			side := geom.Point{X: -test.along.Y, Y: test.along.X}
			for _, hole := range centres[1:5] {
				off := hole.Sub(body)
				near(t, "tab hole along the servo", math.Abs(off.X*test.along.X+off.Y*test.along.Y), 49.4/2)
				near(t, "tab hole across the servo", math.Abs(off.X*side.X+off.Y*side.Y), 10.2/2)
			}
		})
	}
}

// Slots give the servo its way along the line of centres, at both openings.
func TestPlateSlots(t *testing.T) {
	_, round := holes(plateOf(t), 1)
	_, slots := holes(plateOf(t, "servo_turn = 90", "servo_turn = 90\nservo_slots = 1.5"), 1)
	for i := range 5 {
		near(t, "opening along the line of centres", slots[i].X-round[i].X, 2*1.5)
		near(t, "opening across it", slots[i].Y, round[i].Y)
	}
}

// Volume by another route: the rim's area less the openings, layer by layer.
func TestPlateVolume(t *testing.T) {
	part := plateOf(t)
	m, err := mesh.FromPart(part)
	if err != nil {
		t.Fatal(err)
	}
	lo, hi := part.Bounds()
	corner := (7.0 + 4) / 2 // radius of the rim: half the margin for an M4 head
	rim := (hi.X-lo.X)*(hi.Y-lo.Y) - (4-math.Pi)*corner*corner
	circle := func(d float64) float64 { return math.Pi * d * d / 4 }
	const bore = 0.18
	cut := (20.7+bore)*(41+bore) - (4-math.Pi)*0.5*0.5
	common := rim - cut - 8*circle(4.5+bore)
	flange := 65.5 // checked where the ring is tested
	low := common - circle(33.75) - 4*circle(3.4+bore)
	high := common - circle(flange+0.08+0.2+bore)
	want := low*4 + high*2
	if got := m.Volume(); math.Abs(got-want) > 0.003*want { // the bed chamfer takes 0.2 %
		t.Errorf("volume %.1f mm³, want %.1f less the bed chamfer", got, want)
	} else if got >= want {
		t.Errorf("volume %.1f mm³ lacks the bed chamfer, want below %.1f", got, want)
	}
}

// A test slice has the very bores of the joint and weighs a few grams.
func TestSlice(t *testing.T) {
	whole := build(t)
	sliced, err := Design(read(t), Options{Slice: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range sliced.Files {
		if strings.Contains(f.Name, "joint") {
			t.Errorf("a slice is no joint, yet %s is written", f.Name)
		}
		if err := f.Write(io.Discard); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
	}
	mass := func(r *Result) (sum float64) {
		for _, p := range r.Report.Parts {
			sum += p.MassG
		}
		return sum
	}
	if len(sliced.Report.Parts) != 4 || mass(sliced) > 12 || mass(sliced) > mass(whole)/5 {
		t.Errorf("%d slices of %.1f g, the joint has %.1f g", len(sliced.Report.Parts), mass(sliced), mass(whole))
	}
	size := map[string][3]float64{}
	for _, p := range append(whole.Report.Parts, sliced.Report.Parts...) {
		size[p.Name] = p.SizeMM
	}
	near(t, "wheel across its tips", size["lamp-wheel-slice"][0], size["lamp-wheel"][0])
	near(t, "pinion across its tips", size["lamp-pinion-slice"][0], size["lamp-pinion"][0])
}

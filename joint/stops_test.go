package joint

import (
	"math"
	"strings"
	"testing"

	"pintle/geom"
)

// angles returns the least and largest angle of a loop's vertices about the
// axis, from the direction opposite the pinion, in deg.
func angles(loop geom.Loop) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, v := range loop {
		p := v.Point()
		a := geom.Point{X: -p.X, Y: -p.Y}.Angle() * 180 / math.Pi
		lo, hi = min(lo, a), max(hi, a)
	}
	return lo, hi
}

// Read back from the parts as they stand in the joint: at 65 + 4 degrees from
// the middle the lug's flank meets the stop's, not before and not after.
func TestStopsMeetBeyondSwing(t *testing.T) {
	for name, retention := range map[string]string{"plain ring": "", "ring with a lip": "\n[housing.lamp.retention]\nkind = \"lip\"\n"} {
		t.Run(name, func(t *testing.T) { stopsMeet(t, retention) })
	}
}

func stopsMeet(t *testing.T, retention string) {
	b := newBuilder(read(t, "servo_turn = 90", "servo_turn = 90\nstops = 4"+retention), Options{})
	if err := b.run(); err != nil {
		t.Fatal(err)
	}
	parts := map[string]geom.Part{}
	for _, body := range b.bodies {
		parts[body.part.Name()] = body.part
	}
	ring := parts["lamp-ring"].Layers()
	stops := ring[len(ring)-1].Top.Loops()
	if len(stops) != 2 {
		t.Fatalf("%d stops on the ring", len(stops))
	}
	var lug geom.Loop
	for _, layer := range parts["lamp-wheel"].Layers() {
		for _, loop := range layer.Top.Loops()[1:] {
			if layer.Z0 > geom.SnapLength(9.99) && loop[0].Point().Len() > 20 { // the bore is nearer
				lug = loop
			}
		}
	}
	if lug == nil {
		t.Fatal("no lug under the wheel")
	}
	turn := 180.0 / 36
	placed := make(geom.Loop, len(lug)) // turned over, then by half a pitch
	for i, v := range lug {
		placed[i] = geom.Snap(geom.Point{X: v.Point().X, Y: -v.Point().Y}.Rotate(turn * math.Pi / 180))
	}
	lo, hi := angles(placed)
	if math.Abs(lo+hi) > 0.01 {
		t.Errorf("the lug stands from %.3f to %.3f deg, not opposite the pinion", lo, hi)
	}
	for _, stop := range stops {
		from, to := angles(stop)
		free := from - hi
		if from < 0 {
			free = lo - to
		}
		if math.Abs(free-69) > 0.01 {
			t.Errorf("the wheel turns %.3f deg to a stop, want 65 + 4", free)
		}
	}
	for _, f := range b.report.Findings {
		if (f.Check == "end-stop" || f.Check == "end-stop-shear") && f.Verdict != "pass" {
			t.Errorf("%+v", f)
		}
	}
}

// A cap covers the rim that carries the stops, and a lip that reaches up to the
// wheel leaves them no height.
func TestStopsRefused(t *testing.T) {
	b := newBuilder(read(t, "servo_turn = 90", "servo_turn = 90\nstops = 4\n[housing.lamp.retention]\nkind = \"cap\"\nscrew_size = \"M2\"\nscrew_count = 3"), Options{})
	if err := b.run(); err == nil || !strings.Contains(err.Error(), "a cap and its screws cover") {
		t.Errorf("stops and a cap: %v", err)
	}
}

package linkage_test

import (
	"math"
	"strings"
	"testing"

	"pintle/drawing"
	"pintle/geom"
	"pintle/linkage"
)

// The view shows three bars at rest and at both ends, and the band it draws holds
// every bar at every place between.
func TestViewHoldsTheMotion(t *testing.T) {
	s := stroke(t, heron())
	v := s.View()
	kinds := map[drawing.LineKind]int{}
	for _, st := range v.Strokes {
		kinds[st.Kind]++
	}
	if kinds[drawing.Adjacent] != 6 || kinds[drawing.Outline] != 7 || kinds[drawing.Edge] != 3 || kinds[drawing.Hidden] == 0 {
		t.Errorf("lines by kind: %v", kinds)
	}
	var contours []geom.Contour
	for _, band := range s.Swept() {
		var c geom.Contour
		for _, line := range band {
			c.Points = append(c.Points, line.Start())
		}
		contours = append(contours, c)
	}
	band, err := geom.RegionOf(contours)
	if err != nil {
		t.Fatal(err)
	}
	used := s.Used()
	for i := range 101 {
		st, _ := s.At(used.HornFromDeg + (used.HornToDeg-used.HornFromDeg)*float64(i)/100)
		for _, p := range []geom.Point{st.HornPin, st.LeverPin, st.HornPin.Add(st.LeverPin).Scale(0.5)} {
			if !inside(band, p) {
				t.Fatalf("the band leaves out %v with the horn at %v", p, st.HornDeg)
			}
		}
	}
	// By hand: the lever's bar, 6 wide, sweeps 30 + 3 mm out from its axis.
	lo, hi := v.Bounds()
	if hi.Y < 32 || hi.Y > 33.01 || lo.Y < -3.01 {
		t.Errorf("the view reaches from %v to %v", lo, hi)
	}
	if got := v.Dimensions[2].Size(); math.Abs(got-90.55) > 1e-9 {
		t.Errorf("the rod is dimensioned as %v", got)
	}
}

// inside counts the edges to the right of a point.
func inside(r geom.Region, p geom.Point) bool {
	in := false
	for _, loop := range r.Loops() {
		for i, v := range loop {
			a, b := v.Point(), loop[(i+1)%len(loop)].Point()
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
				in = !in
			}
		}
	}
	return in
}

// The moving picture starts and ends where the swing does, follows the motion's
// law in time, never flickers, and keeps the pins together.
func TestMoving(t *testing.T) {
	s := stroke(t, heron())
	m := s.Moving()
	if m.Seconds != 1 || !strings.Contains(m.Caption, "slowed down 1.3 times") {
		t.Errorf("%v s: %s", m.Seconds, m.Caption)
	}
	horn, rod, lever := m.Bars[0], m.Bars[1], m.Bars[2]
	used := s.Used()
	n := len(lever.Places)
	for i, want := range map[int]float64{0: used.LeverFromDeg, n - 1: used.LeverToDeg, n / 2: (used.LeverFromDeg + used.LeverToDeg) / 2} {
		if math.Abs(lever.Places[i].Turn/deg-want) > 1e-6 {
			t.Errorf("place %d of the lever is turned %v, want %v", i, lever.Places[i].Turn/deg, want)
		}
	}
	for i := range n {
		at := func(p drawing.Place) geom.Point { return geom.Point{X: p.X, Y: p.Y} }
		end := at(rod.Places[i]).Add(geom.Polar(90.55, rod.Places[i].Turn))
		pin := at(lever.Places[i]).Add(geom.Polar(30, lever.Places[i].Turn))
		if end.Sub(pin).Len() > 1e-9 || at(rod.Places[i]).Sub(geom.Polar(20, horn.Places[i].Turn)).Len() > 1e-9 {
			t.Fatalf("place %d comes apart", i)
		}
	}
	turning := ferrywoman()
	turning.Motor = &linkage.Motor{StallTorque: 1, RPM: 12}
	m = stroke(t, turning).Moving()
	last := m.Bars[0].Places[len(m.Bars[0].Places)-1]
	if m.Seconds != 5 || math.Abs(last.Turn-m.Bars[0].Places[0].Turn-2*math.Pi) > 1e-9 {
		t.Errorf("a turn takes %v s and ends at %v", m.Seconds, last.Turn)
	}
}

// Plots pass through the figures of the scenario: 0.124 N·m at the most.
func TestPlots(t *testing.T) {
	plots := stroke(t, heron()).Plots()
	if len(plots) != 3 {
		t.Fatalf("%d plots", len(plots))
	}
	most := 0.0
	for _, p := range plots[2].At {
		most = max(most, p[1])
	}
	if math.Abs(most-0.1244) > 1e-4 || len(plots[0].At) != linkage.DefaultStations {
		t.Errorf("the torque peaks at %v over %d stations", most, len(plots[0].At))
	}
	if first := plots[1].At[0]; first[0] != 45 || math.Abs(first[1]-54.63) > 0.005 {
		t.Errorf("the transmission angle starts at %v", first)
	}
}

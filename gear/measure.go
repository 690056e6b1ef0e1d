package gear

import "math"

// A Span is a measurement over k teeth between parallel anvils.
type Span struct {
	Teeth    int     // k
	Width    float64 // W_k in mm
	Touching float64 // diameter in mm at which the anvils touch
	OnFlank  bool    // the anvils touch the involute between form circle and tip
}

// span returns W_k with k = max(2, ceil(v - 0.5)), v from the pressure angle at
// the circle d + 2 x m; a tie goes to the smaller k.
func (t tooth) span(x float64) Span {
	if t.inner {
		return Span{} // no caliper gets behind the teeth
	}
	at := math.Max(t.r+x*t.m, t.rb)
	roll := rollAt(at, t.rb)
	z := float64(t.z)
	v := z/math.Pi*(roll-Involute(t.alpha)-2*x/z*math.Tan(t.alpha)) + 0.5
	k := max(2, int(math.Ceil(v-0.5-1e-9)))
	s := Span{Teeth: k, Width: t.spanOver(k)}
	s.Touching = 2 * math.Hypot(t.rb, s.Width/2)
	s.OnFlank = s.Touching > 2*t.form() && s.Touching < 2*t.ra
	return s
}

// spanOver returns W_k = (k - 1) p_b + s_b: base pitches and one base thickness.
func (t tooth) spanOver(k int) float64 {
	return 2 * t.rb * (math.Pi*float64(k-1)/float64(t.z) + t.base)
}

// Pins is a measurement over two pins in opposite tooth spaces, or in the
// nearest to opposite where the number of teeth is odd.
type Pins struct {
	Diameter float64 // of the pins, D_M in mm; 0 where no pin suits
	Over     float64 // M_d in mm
	Touching float64 // diameter in mm at which the pins touch the flanks
}

// over returns the measurement with pins of a diameter, and whether they touch
// the involute, stand above the tips and clear the root.
func (t tooth) over(pin float64) (Pins, bool) {
	if t.inner {
		return t.between(pin)
	}
	space := math.Pi/float64(t.z) - t.base // half the space angle at the base circle, may be negative
	inv := pin/(2*t.rb) - space
	if inv <= 0 {
		return Pins{}, false
	}
	a := InverseInvolute(inv)
	touch := a - space // tan of the pressure angle at the touching point
	centre := t.rb / math.Cos(a)
	p := Pins{Diameter: pin, Touching: 2 * t.rb * math.Hypot(1, touch)}
	p.Over = 2*centre + pin
	if t.z%2 == 1 {
		p.Over = 2*centre*math.Cos(math.Pi/(2*float64(t.z))) + pin
	}
	ok := touch > t.from && p.Touching < 2*t.ra && centre+pin/2 > t.ra && centre-pin/2 > t.rf
	return p, ok
}

// between is over for an internal gear: the measurement between two pins.
func (t tooth) between(pin float64) (Pins, bool) {
	inv := t.base - pin/(2*t.rb)
	if inv <= 0 {
		return Pins{}, false
	}
	a := InverseInvolute(inv)
	touch := math.Tan(a) + pin/(2*t.rb)
	centre := t.rb / math.Cos(a)
	p := Pins{Diameter: pin, Touching: 2 * t.rb * math.Hypot(1, touch)}
	p.Over = 2*centre - pin
	if t.z%2 == 1 {
		p.Over = 2*centre*math.Cos(math.Pi/(2*float64(t.z))) - pin
	}
	ok := touch < t.from && touch > t.to && centre-pin/2 < t.ra && centre+pin/2 < t.rf
	return p, ok
}

// idealPin returns the pin that touches the circle d + 2 x m, or d - 2 x m of an
// internal gear.
func (t tooth) idealPin(x float64) float64 {
	if t.inner {
		roll := math.Min(rollAt(t.r-x*t.m, t.rb), t.from)
		return 2 * t.rb * (roll - math.Tan(roll-t.base))
	}
	roll := math.Max(rollAt(t.r+x*t.m, t.rb), t.from)
	return 2 * t.rb * (math.Tan(roll+math.Pi/float64(t.z)-t.base) - roll)
}

// pins chooses what a builder can buy: the dowel pin or stock rod nearest to
// the pin that touches the circle d + 2 x m, and where none suits the nearest
// drill.
func (t tooth) pins(x float64) Pins {
	ideal := t.idealPin(x)
	for _, sizes := range [][]float64{pinSizes(), drillSizes()} {
		best, found := Pins{}, false
		for _, d := range sizes {
			if p, ok := t.over(d); ok && (!found || math.Abs(d-ideal) < math.Abs(best.Diameter-ideal)) {
				best, found = p, true
			}
		}
		if found {
			return best
		}
	}
	return Pins{}
}

// pinSizes returns the diameters of dowel pins (ISO 8734, DIN 6325 tables of
// public fastener pages) and of stock round rod (from memory), in mm.
func pinSizes() []float64 {
	return []float64{1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 10, 12}
}

// drillSizes returns twist drills in mm: steps of 0.05 to 2.95, 0.1 to 13.9,
// 0.25 to 25 (BS 328 as printed by two public pages). A shank is no gauge: a
// builder measures it first.
func drillSizes() []float64 {
	var sizes []float64
	for i := 20; i < 60; i++ {
		sizes = append(sizes, float64(i)/20)
	}
	for i := 30; i < 140; i++ {
		sizes = append(sizes, float64(i)/10)
	}
	for i := 56; i <= 100; i++ {
		sizes = append(sizes, float64(i)/4)
	}
	return sizes
}

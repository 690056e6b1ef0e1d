package bearing

import "math"

// shoulderHeights are h in mm by smallest chamfer r, of the shoulder that backs
// a ring. 0.6, 1 and 1.5 are recovered from 16 rows of a maker's tapered table
// (2h = 4.5, 5.5, 8.5 exactly); the others are from memory.
var shoulderHeights = [...]struct{ r, h float64 }{
	{0.1, 0.4}, {0.15, 0.6}, {0.2, 0.8}, {0.3, 1.25}, {0.6, 2.25}, {1, 2.75}, {1.1, 3.5}, {1.5, 4.25}, {2, 5}, {2.1, 6},
}

// shoulderHeight returns h for the bearing's chamfer; for an unknown chamfer
// 0.12 of D - d, the middle of those 16 rows.
func (b Bearing) shoulderHeight() float64 {
	if b.RMin == 0 {
		return 0.12 * (b.Outside - b.Bore)
	}
	for _, row := range shoulderHeights {
		if b.RMin <= row.r {
			return row.h
		}
	}
	return 3 * b.RMin
}

// HousingShoulder returns the limits in mm of the hole behind the outer ring, a
// cup or a housing washer: the ring's face is supported up to max, and nothing
// that turns is touched from min on.
//
// Tapered: the maker's columns where the row has them, else D - 2h and 0.5 mm
// less (the narrowest span of 16 rows). Thrust ball: the housing washer's bore, else d + 1, to d + 0.35 (D - d),
// from memory. Otherwise (2d + D) / 3, the fallback for an unknown inner-ring
// land (from memory), to D - 2h.
func HousingShoulder(b Bearing) (lo, hi float64) {
	switch {
	case b.Abutment.DaHousingMin > 0 && b.Abutment.DaHousingMax > 0:
		return b.Abutment.DaHousingMin, b.Abutment.DaHousingMax
	case b.Kind == Tapered:
		hi = b.Outside - 2*b.shoulderHeight()
		return hi - 0.5, hi
	case b.Kind == ThrustBall:
		lo = orElse(b.WasherBore, b.Bore+1)
		return lo, math.Max(b.Bore+0.35*(b.Outside-b.Bore), lo)
	}
	lo = (2*b.Bore + b.Outside) / 3
	return lo, math.Max(b.Outside-2*b.shoulderHeight(), lo)
}

// ShaftShoulder returns the limits in mm of the turning part's shoulder on the
// inner ring, cone or shaft washer: from the maker's da_min (else d + 2h) up to
// (2d + D) / 3, the fallback for an unknown inner-ring land (from memory). A
// shaft washer is supported from d + 0.65 (D - d) to D - 1 (from memory).
func ShaftShoulder(b Bearing) (lo, hi float64) {
	if b.Kind == ThrustBall {
		lo = b.Bore + 0.65*(b.Outside-b.Bore)
		return lo, math.Max(b.Outside-1, lo)
	}
	hi = (2*b.Bore + b.Outside) / 3
	lo = b.Bore + 2*b.shoulderHeight()
	if b.Abutment.DaShaftMin > 0 {
		lo = b.Abutment.DaShaftMin
	}
	return math.Min(lo, hi), hi
}

// chosenHole returns the shoulder hole a ring gets where nobody asks for one: the
// middle of its limits, but behind a ball bearing as large as leaves 0.3 mm to
// the upper limit, so that the outer ring's face shows and can be pushed out.
func (b Bearing) chosenHole() float64 {
	lo, hi := HousingShoulder(b)
	middle := (lo + hi) / 2
	if b.Kind == DeepGroove || b.Kind == Unknown {
		return math.Max(middle, hi-0.3)
	}
	return middle
}

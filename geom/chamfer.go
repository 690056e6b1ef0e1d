package geom

// Chamfer returns the contours as they stand at the narrow end of a chamfer or
// lead-in, and the chamfer in mm that they got: each side moves into the
// material by the chamfer wanted, or by a half, a quarter and so on of it until
// the loft from the given contours to the result proves. A corner between long
// sides allows what is wanted, a tooth often less. Where not even eight grid
// steps remain, the contours come back as they are, with 0.
func Chamfer(contours []Contour, wanted float64) ([]Contour, float64) {
	for got := wanted; got*PerMM >= 8; got /= 2 {
		top := FattenAll(contours, -got)
		if _, err := newLayer(Slab{Z1: 1, Bottom: contours, Top: top}); err == nil {
			return top, got
		}
	}
	return contours, 0
}

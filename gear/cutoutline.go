package gear

import (
	"fmt"

	"pintle/check"
	"pintle/geom"
)

// CutOutline returns the path that cuts the teeth of the nominal gear from
// sheet with a beam or cutter of a width of kerf mm: it runs half of that
// outside the teeth, in as few curves as stay within the chord error. The
// printer card plays no part. The error is a *check.FieldError for a kerf that
// does not reach into the root fillet.
func (g *Gear) CutOutline(kerf float64) (geom.Contour, error) {
	if g.sector > 0 {
		return geom.Contour{}, &check.FieldError{
			Field: "teeth of the sector", Value: float64(g.sector), Reason: "is not made as a cut outline", Remedy: "print the sector, or cut the whole gear",
		}
	}
	most := 2 * g.nominal.rho
	if err := check.InRange("kerf", kerf, "mm", 0, most, fmt.Sprintf("the root fillet takes a kerf of up to %s mm: use a larger module or a narrower beam", check.Number(most))); err != nil {
		return geom.Contour{}, err
	}
	t := g.outside(kerf / 2)
	return geom.NewContour(t.curves(g.chord), g.chord), nil
}

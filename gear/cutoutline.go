package gear

import "pintle/geom"

// CutOutline returns the path that cuts the teeth of the nominal gear from
// sheet with a beam or cutter of a width of kerf mm: it runs half of that
// outside the material, in as few curves as stay within the chord error. A
// sector's straight sides and its round body are moved out alike. The printer
// card plays no part. The error is a *check.FieldError for a kerf that does not
// reach into the root fillet.
func (g *Gear) CutOutline(kerf float64) (geom.Contour, error) {
	if err := kerfFits(kerf, g.nominal.rho); err != nil {
		return geom.Contour{}, err
	}
	t := g.outside(kerf / 2)
	curves := t.curves(g.chord)
	if g.sector > 0 {
		curves = t.sectorCurves(g.sector, g.body.spec.hubDiameter(2*g.nominal.rf)+kerf, kerf/2, g.chord)
	}
	return geom.NewContour(curves, g.chord), nil
}

// Package grille designs perforated plates: it takes an outline, a pattern of
// holes and a printer card and returns the plate with the checks that go with
// it: bars between holes, open area, passage of sound, reach of a finger.
//
// The grille is centred on the origin, its bed side at z = 0. Only whole holes
// are made: each lies inside the rim and clear of the screw holes. The pattern
// stands symmetrically about both axes, with a hole or a bar in the centre,
// whichever gives more holes. The outer edge of the bed side is chamfered.
//
// Open areas of endless patterns follow from their cells as in the tables for
// perforated sheet (ISO 7806, perforators' specifications): R T 90.69 w²/t²,
// R U 78.54 w²/t², C U and H T 100 w²/t², LR Z 100 (w l - 0.2146 w²) / (0.5 t1
// t2), in per cent for a width w, length l and pitch t.
//
// The package writes no files and knows nothing of loudspeakers but what its
// rules cite.
package grille

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Grille is a checked design; New makes it.
type Grille struct {
	spec             Spec // filled
	wanted, drawn    shape
	lattice          lattice
	holes            []cell // in rows from below
	screws           []geom.Point
	printed, asDrawn bars // as it should measure, as it is drawn
	screwFit         fit.Fit
	chamfer          float64
	part             geom.Part
	holeFit, endFit  fit.Fit
}

// New designs a grille and proves its part. The error is a *check.FieldError.
func New(spec Spec) (*Grille, error) {
	spec = spec.filled()
	if err := spec.validate(); err != nil {
		return nil, err
	}
	width, length := spec.drawn()
	g := &Grille{
		spec:    spec,
		wanted:  shapeOf(spec.Pattern, spec.Hole, spec.SlotLength),
		drawn:   shapeOf(spec.Pattern, width, length),
		lattice: latticeOf(spec.Pattern, spec.Pitch, spec.PitchAlong),
		holeFit: spec.Card.Hole(spec.partName(), "hole", spec.Hole),
		endFit:  spec.Card.Hole(spec.partName(), "slot length", spec.SlotLength),
	}
	if err := g.placeScrews(); err != nil {
		return nil, err
	}
	g.holes = g.place()
	if len(g.holes) == 0 {
		return nil, &check.FieldError{
			Field: "hole", Value: spec.Hole, Unit: "mm",
			Reason: fmt.Sprintf("not one whole hole fits inside a rim of %s mm and clear of the screws", check.Number(spec.Margin)),
			Remedy: "use a smaller hole, pitch or margin, or a larger outline",
		}
	}
	g.printed = g.bars(g.wanted, g.screwFit.Wanted)
	g.asDrawn = g.bars(g.drawn, g.screwFit.Drawn)
	part, err := geom.NewPart(spec.partName(), g.slabs()...)
	if err != nil {
		panic("grille: " + err.Error())
	}
	g.part = part
	return g, nil
}

// placeScrews validates the screws and sets their places.
func (g *Grille) placeScrews() error {
	if g.spec.Screws == nil {
		return nil
	}
	screws := g.spec.Screws.fittedTo(g.spec.Outline)
	g.screwFit = g.spec.Card.Hole(g.spec.partName(), "screw hole", screws.Screw.Clearance)
	bar := max(2*g.spec.Card.BeadWidth, 4*g.spec.ChordError)
	if err := screws.validate(g.spec.Outline, max(g.screwFit.Wanted, g.screwFit.Drawn), bar); err != nil {
		return err
	}
	g.spec.Screws = &screws
	g.screws = screws.places(g.spec.Outline)
	return nil
}

// slabs returns the layers: one with a chamfer on the outer edge and the screw
// holes of the bed side, then the plate. A chamfer takes at most a third of the
// thickness and of the material beside it.
func (g *Grille) slabs() []geom.Slab {
	chord, top := g.spec.ChordError, g.spec.Thickness
	above := make([]geom.Contour, 0, 1+len(g.holes)+len(g.screws))
	above = append(above, g.spec.Outline.contour(chord))
	for _, c := range g.holes {
		above = append(above, g.drawn.contour(g.lattice.at(c), chord))
	}
	for _, p := range g.screws {
		above = append(above, geom.Bore(p, g.screwFit.Drawn, chord))
	}
	beside := min(g.asDrawn.screwToRim, g.asDrawn.screwToHole, g.asDrawn.screws) / 3
	g.chamfer = min(g.spec.Card.BedChamfer(), top/3, g.asDrawn.rim/3, beside)
	below := []geom.Contour{g.spec.Outline.edge().drawnIn(above[0], g.chamfer)}
	below = append(below, above[1:1+len(g.holes)]...)
	below = append(below, geom.FattenAll(above[1+len(g.holes):], -g.chamfer)...)
	return []geom.Slab{
		{Z0: 0, Z1: g.chamfer, Bottom: below, Top: above},
		{Z0: g.chamfer, Z1: top, Bottom: above},
	}
}

// Parts returns the plate.
func (g *Grille) Parts() []geom.Part { return []geom.Part{g.part} }

// Fits returns what is drawn for the holes so that they measure what is wanted.
func (g *Grille) Fits() []fit.Fit {
	fits := []fit.Fit{g.holeFit}
	if g.spec.Pattern == Slot {
		fits = append(fits, g.endFit)
	}
	if len(g.screws) > 0 {
		fits = append(fits, g.screwFit)
	}
	return fits
}

// OpenArea returns the open share of the endless pattern.
func (g *Grille) OpenArea() float64 { return g.wanted.area / g.lattice.share() }

// OpenAreaInside returns the area of the holes that are made over the area
// inside the rim.
func (g *Grille) OpenAreaInside() float64 { return g.openWithin(g.spec.Margin) }

// OpenAreaOfFace returns the area of the holes that are made over the whole
// face, rim included.
func (g *Grille) OpenAreaOfFace() float64 { return g.openWithin(0) }

func (g *Grille) openWithin(margin float64) float64 {
	return float64(len(g.holes)) * g.wanted.area / g.spec.Outline.edge().area(margin)
}

// Web returns the narrowest bar in mm that the print should have: between two
// holes, a hole and the edge, or beside a screw hole.
func (g *Grille) Web() float64 { return g.printed.least() }

// Holes returns the centres of the holes in mm, row by row from below.
func (g *Grille) Holes() []geom.Point {
	centres := make([]geom.Point, len(g.holes))
	for i, c := range g.holes {
		centres[i] = g.lattice.at(c)
	}
	return centres
}

// TransparencyIndex returns n d² / (t a²) for round holes, with n holes per
// square inch, diameter d, thickness t and bar a in inches; 0 for other holes.
// Source: perforators' association, acoustical handbook (iperf.org). At 10 000
// the loss at 10 kHz is 1 dB, at 2000 2.5 dB, at 445 4.4 dB.
func (g *Grille) TransparencyIndex() float64 {
	if g.spec.Pattern != RoundStaggered && g.spec.Pattern != RoundInline {
		return 0
	}
	n, d, t, a := 1/g.lattice.share(), g.spec.Hole, g.spec.Thickness, g.lattice.bar(g.wanted)
	return n * d * d / (t * a * a) * math.Pow(25.4, 3) // n/mm² and 1/mm to n/in² and 1/in
}

// Values returns the grille's numbers for the report, in mm and shares.
// transparency_index is left out for holes that are not round.
func (g *Grille) Values() map[string]any {
	e := g.spec.Outline.edge()
	values := map[string]any{
		"open_area_formula": g.OpenArea(),
		"open_area_real":    g.OpenAreaInside(),
		"open_area_face":    g.OpenAreaOfFace(),
		"holes":             len(g.holes),
		"hole":              g.spec.Hole,
		"pitch":             g.spec.Pitch,
		"web":               g.Web(),
		"web_drawn":         g.asDrawn.least(),
		"margin":            g.spec.Margin,
		"thickness":         g.spec.Thickness,
		"hole_to_thickness": g.spec.Hole / g.spec.Thickness,
		"bed_chamfer":       g.chamfer,
		"size_mm":           []float64{2 * e.x, 2 * e.y, g.spec.Thickness},
	}
	if index := g.TransparencyIndex(); index > 0 {
		values["transparency_index"] = index
	}
	if g.spec.Pattern == Slot {
		values["slot_length"], values["pitch_along"] = g.spec.SlotLength, g.spec.PitchAlong
	}
	return values
}

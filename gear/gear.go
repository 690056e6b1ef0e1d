package gear

import (
	"math"

	"pintle/fit"
	"pintle/geom"
)

// A Gear is one finished gear of a Pair. Diameters and measurements are those
// the print should have; only Outline and Part hold the allowances of the
// printer card. Lengths are mm.
type Gear struct {
	nominal, drawn tooth
	x              float64
	chord          float64               // chord error of the outline
	sector         int                   // teeth that are made, 0 for all
	inset          float64               // of the drawn flanks, inside the nominal ones
	outside        func(d float64) tooth // the nominal tooth with its outline moved out by d mm
	left           float64               // what is expected to be missing on a printed flank
	outline        geom.Contour          // drawn
	body           structure
	part           geom.Part
	fits           []fit.Fit
}

// Teeth returns the number of teeth z.
func (g *Gear) Teeth() int { return g.nominal.z }

// Module returns the module m.
func (g *Gear) Module() float64 { return g.nominal.m }

// Shift returns the profile shift x in modules.
func (g *Gear) Shift() float64 { return g.x }

// ReferenceDiameter returns d = m z.
func (g *Gear) ReferenceDiameter() float64 { return 2 * g.nominal.r }

// BaseDiameter returns d_b.
func (g *Gear) BaseDiameter() float64 { return 2 * g.nominal.rb }

// TipDiameter returns d_a.
func (g *Gear) TipDiameter() float64 { return 2 * g.nominal.ra }

// RootDiameter returns d_f.
func (g *Gear) RootDiameter() float64 { return 2 * g.nominal.rf }

// FormDiameter returns d_Ff, at which the involute begins: the end of the root
// fillet, or the corner an undercut leaves.
func (g *Gear) FormDiameter() float64 { return 2 * g.nominal.form() }

// ToothThickness returns s on the reference circle, thinned.
func (g *Gear) ToothThickness() float64 { return 2 * g.nominal.r * g.nominal.psi }

// TipThickness returns s_a on the tip circle, thinned.
func (g *Gear) TipThickness() float64 { return g.nominal.thickness(g.nominal.ra) }

// Undercut says whether the rack cuts into the involute.
func (g *Gear) Undercut() bool { return g.nominal.cut }

// Span returns the span measurement, thinning included; of a sector with fewer
// teeth than that, and of an internal gear, it is zero.
func (g *Gear) Span() Span {
	s := g.nominal.span(g.x)
	if g.sector > 0 && s.Teeth > g.sector {
		return Span{}
	}
	return s
}

// Pins returns the measurement over pins, thinning included. A sector has no
// spaces opposite each other: its measurement is zero.
func (g *Gear) Pins() Pins {
	if g.sector > 0 {
		return Pins{}
	}
	return g.nominal.pins(g.x)
}

// FaceWidth returns b, the height of the teeth above the bed.
func (g *Gear) FaceWidth() float64 { return g.body.face }

// Height returns the height of the whole part.
func (g *Gear) Height() float64 { return g.part.Height() }

// PocketFloor returns the height of the horn pocket's floor above the bed, and
// false for a gear without one.
func (g *Gear) PocketFloor() (float64, bool) { return g.body.floor, g.body.spec.Horn != nil }

// JournalFoot returns the height at which the journal leaves its shoulder, and
// false for a gear without one.
func (g *Gear) JournalFoot() (float64, bool) { return g.body.foot, g.body.spec.Journal != nil }

// journalBore returns the bore of the ring on the journal, 0 without one.
func (g *Gear) journalBore() float64 {
	if g.body.spec.Journal == nil {
		return 0
	}
	return g.body.spec.Journal.Bore
}

// BossDiameter returns the largest diameter of what stands on the toothed part:
// a horn's boss or a journal's shoulder as drawn; 0 where nothing does.
func (g *Gear) BossDiameter() float64 {
	d := 0.0
	for _, o := range g.body.solids[1:] {
		d = math.Max(d, o.contour.Diameter())
	}
	return d
}

// HornHoles returns how far from the axis the horn's screws stand that are
// used, in mm, the outermost first.
func (g *Gear) HornHoles() []float64 { return g.body.hornHoles }

// HornSunk returns how deep the heads of the horn's screws lie below the bed
// face, in mm: 0 where they stand on it.
func (g *Gear) HornSunk() float64 { return g.body.hornSunk }

// HornScrews returns how many screws join gear and horn: 0 without a horn, or
// one without holes.
func (g *Gear) HornScrews() int {
	h := g.body.spec.Horn
	switch {
	case h == nil:
		return 0
	case h.arms() > 0:
		return h.arms() * len(g.body.hornHoles)
	}
	return h.Holes
}

// Chamfer returns the bed-side chamfer on the teeth: 0 where they leave no room.
func (g *Gear) Chamfer() float64 { return g.body.chamfer }

// Outline returns the drawn teeth, with tooth 1 on the +x axis.
func (g *Gear) Outline() geom.Contour { return g.outline }

// Part returns the part in its print frame.
func (g *Gear) Part() geom.Part { return g.part }

// Fits returns what the card changes on this gear.
func (g *Gear) Fits() []fit.Fit { return g.fits }

// drawn returns the tooth to draw for gear i and how far its flanks lie inside
// the nominal ones: half the outside error of the reference diameter and half of
// what earlier prints read too much over the span, bounded to 0.1 modules
// (beyond that the allowance would be a different tooth: design choice), inwards
// also to what leaves a tip and outwards to the tool's tip radius.
func (s solution) drawn(i int) (drawn tooth, inset float64) {
	nominal, c := s.contact.t[i], s.correction(i)
	bound, card := 0.1*nominal.m, s.cardInset(i)
	inset = math.Max(math.Min(card+c.span/2, bound), -math.Min(bound, nominal.rho))
	for range 8 {
		t := s.tooth(i, s.thin, inset+s.outwards(i))
		if c.tipRead {
			t = t.altered((inset - card - c.tip) / t.m)
		}
		if t.psi > 0 && (t.form() < t.ra) != t.inner && t.thickness(t.ra) > 0.01*t.m && t.neck() > 0.05*t.m {
			return t, inset
		}
		inset /= 2
	}
	return nominal, 0
}

// cardInset returns how far the card's error moves the drawn outline into the
// nominal one: half the outside error, or half the bore error of an internal
// gear.
func (s solution) cardInset(i int) float64 {
	d := 2 * s.contact.t[i].r
	if s.contact.t[i].inner {
		return (s.spec.Card.Bore.Draw(d) - d) / 2
	}
	return (d - s.spec.Card.Outside.Draw(d)) / 2
}

// printedGrowth returns how far a flank drawn with an inset comes out beyond it.
func (s solution) printedGrowth(i int, inset float64) float64 {
	d := 2 * s.contact.t[i].r
	if s.contact.t[i].inner {
		return -s.spec.Card.Bore.At(d+2*inset) / 2
	}
	return s.spec.Card.Outside.At(d-2*inset) / 2
}

// outwards is how much further in the hollow flanks of an internal gear are
// drawn, so that their chords touch the flank from outside the material, as a
// bore's do.
func (s solution) outwards(i int) float64 {
	if s.contact.t[i].inner {
		return s.spec.ChordError
	}
	return 0
}

// toothFits returns what card and readings change on the teeth: tip circle and
// span.
func (s solution) toothFits(i int, drawn tooth) []fit.Fit {
	card, part, nominal, c := s.spec.Card, s.spec.partName(i), s.contact.t[i], s.correction(i)
	tip := card.Peg(part, "tip circle", 2*nominal.ra)
	tip.Drawn = 2 * drawn.ra
	tip.Expected = tip.Drawn + card.Outside.At(tip.Drawn) + c.span
	if c.tipRead {
		tip.Expected += 2*c.tip - c.span
	}
	if nominal.inner {
		return s.innerFits(i, drawn)
	}
	span := nominal.span(s.x[i])
	over := card.Peg(part, "span", span.Width)
	over.Drawn = drawn.spanOver(span.Teeth)
	over.Expected = over.Drawn + card.Outside.At(2*drawn.r) + c.span
	return []fit.Fit{tip, over}
}

// innerFits is toothFits for an internal gear: tip circle and measurement
// between pins.
func (s solution) innerFits(i int, drawn tooth) []fit.Fit {
	card, part, nominal := s.spec.Card, s.spec.partName(i), s.contact.t[i]
	tip := card.Hole(part, "tip circle", 2*nominal.ra)
	tip.Drawn = 2 * drawn.ra
	tip.Expected = tip.Drawn + card.Bore.At(tip.Drawn)
	pins := nominal.pins(s.x[i])
	if pins.Diameter == 0 {
		return []fit.Fit{tip, tip}
	}
	between := card.Hole(part, "between pins", pins.Over)
	as, _ := drawn.over(pins.Diameter)
	_, inset := s.drawn(i)
	made, _ := nominal.grown(s.printedGrowth(i, inset) - inset + s.correction(i).span/2).over(pins.Diameter)
	between.Drawn, between.Expected = as.Over, made.Over
	return []fit.Fit{tip, between}
}

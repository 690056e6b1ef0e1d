package joint

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// addSpacer adds the disc that lifts what is screwed onto a wheel clear of the
// pinion, where the file asks for one.
func (b *builder) addSpacer(t *turning) error {
	w := t.table.Wheel
	if w.Spacer == 0 {
		return nil
	}
	table := "gears." + t.name + ".wheel"
	if err := check.InRange("spacer", w.Spacer, "mm", 1, 100, "3 mm clears the pinion and its screw heads"); err != nil {
		return b.file.Blame(table, err)
	}
	if w.BoltCircle == 0 {
		return b.file.Blame(table, &check.FieldError{
			Field: "spacer", Value: w.Spacer, Unit: "mm", Reason: "needs the bolt circle that holds it", Remedy: "add bolt_circle, screw_size and screw_count",
		})
	}
	screw, err := b.screw(table, w.ScrewSize, "M3")
	if err != nil {
		return err
	}
	material, err := b.material("gears."+t.name, t.table.Material)
	if err != nil {
		return err
	}
	part, holes, err := b.spacer(t, screw)
	if err != nil {
		return b.file.Blame(table, err)
	}
	b.report.Fits = append(b.report.Fits, holes)
	b.addBody("gears."+t.name, part, material, sheetNotes{lines: []string{"Between wheel and table; screws longer by its height"}})
	return nil
}

// spacer draws the disc: as wide as the pinion lets it be and the bolts need,
// open in the middle.
func (b *builder) spacer(t *turning, screw fit.Screw) (geom.Part, fit.Fit, error) {
	w, name := t.table.Wheel, t.name+"-spacer"
	holes := b.card.Hole(name, "screw holes", screw.Clearance)
	web := max(screw.Diameter, 3)
	outside := w.BoltCircle + screw.Clearance + 2*web
	if free := 2 * math.Floor(t.tableRadius()); t.plate != nil && outside > free {
		return geom.Part{}, holes, &check.FieldError{
			Field: "bolt circle", Value: w.BoltCircle, Unit: "mm",
			Reason: "leaves the spacer no rim inside " + check.Number(free) + " mm, where the pinion starts",
			Remedy: "use a bolt circle of " + check.Number(free-screw.Clearance-2*web) + " mm or less",
		}
	}
	contours := []geom.Contour{geom.Peg(geom.Point{}, outside, geom.ChordPlain)}
	if open := w.BoltCircle - screw.Clearance - 2*web; open > 4 {
		contours = append(contours, geom.Bore(geom.Point{}, open, geom.ChordPlain))
	}
	for i := range w.ScrewCount {
		at := geom.Polar(w.BoltCircle/2, 2*math.Pi*float64(i)/float64(w.ScrewCount))
		contours = append(contours, geom.Bore(at, holes.Drawn, geom.ChordPlain))
	}
	part, err := geom.NewPart(name, onBedSide(b.card, w.Spacer, web/3, contours...)...)
	return part, holes, err
}

// tableRadius returns how far what lies flat on the wheel may reach, in mm: to
// 1 mm before the pinion's tips.
func (t *turning) tableRadius() float64 {
	return t.pair.CentreDistance() - t.pair.Pinion().TipDiameter()/2 - 1
}

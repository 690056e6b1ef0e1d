package coupon

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Sheet is what a laser will cut the flat parts from.
type Sheet struct {
	Material  string  // as the seller calls it
	Thickness float64 // mm, measured; 0 for no kerf pieces
}

// CutName is the file of the kerf pieces: they are cut, not printed.
const CutName = "coupon-kerf-cut.svg"

// BarsTogether is what the bars measure together as drawn, in mm.
const BarsTogether = Bars * barWide

// Sizes in mm of the kerf pieces (common practice, no source). Slots are longer
// than the tab is wide, so that the sheet's thickness alone decides.
const (
	Bars      = 10 // that are pushed together
	barWide   = 10.0
	barTall   = 30.0
	tabWide   = 10.0
	tabs      = 3
	slotRoom  = 0.6
	Window    = 20.0 // side of the square window
	cutGap    = 3.0  // between pieces
	slotRib   = 4.0  // between slots
	mostSlots = 140.0
)

// kerf draws the pieces for a cutter, on the line, without any kerf: ten bars that
// are pushed together to read ten kerfs at once, a window, a comb of slots around
// the thickness of the sheet, and tabs to try in them. A corner is cut off beside
// the tightest slot: there is no text in a cut file.
func (d *design) kerf() error {
	s := d.spec
	for i := range Bars {
		d.outside(geom.Rectangle(geom.Point{X: barWide/2 + float64(i)*(barWide+cutGap), Y: barTall / 2}, barWide, barTall, 0, 0, geom.ChordPlain))
	}
	low := -cutGap
	low = d.slots(low)
	side := Window + 10
	middle := geom.Point{X: side / 2, Y: low - side/2}
	d.outside(geom.Rectangle(middle, side, side, 0, 0, geom.ChordPlain))
	d.inside(geom.Window(middle, Window, Window, 0, 0, geom.ChordPlain))
	for i := range tabs {
		d.outside(tab(geom.Point{X: side + cutGap + float64(i)*(2*tabWide+cutGap), Y: low - side}, s.Sheet.Thickness+2))
	}
	rows := section{piece: "kerf", title: fmt.Sprintf("Kerf, cut from sheet of %s mm", check.Number(s.Sheet.Thickness)), key: "kerf", trial: kerfTrial}
	rows.hint = fmt.Sprintf("all bars pushed together; slots from the cut corner: %s by %s to %s", fit.Mark(s.Slots.From), check.Number(math.Round(s.Slots.Step*100)), fit.Mark(s.Slots.To))
	rows.add("bars", BarsTogether)
	rows.add("window", Window)
	d.sections = append(d.sections, rows)
	return nil
}

// slots draws the slots in as many rows as they need, from a height down, and
// returns the height below them.
func (d *design) slots(low float64) float64 {
	t := d.spec.Sheet.Thickness
	steps := d.spec.Slots.At()
	pitch := t + slotRib
	each := max(1, int((mostSlots-slotRib)/pitch))
	for from := 0; from < len(steps); from += each {
		row := steps[from:min(from+each, len(steps))]
		wide, high := float64(len(row))*pitch+slotRib, tabWide+slotRoom+2*slotRib
		d.outside(cornered(geom.Point{X: 0, Y: low - high}, wide, high, from == 0))
		for i, step := range row {
			at := geom.Point{X: slotRib + t/2 + float64(i)*pitch, Y: low - high/2}
			d.inside(geom.Window(at, t+step, tabWide+slotRoom, 0, 0, geom.ChordPlain))
		}
		low -= high + cutGap
	}
	return low
}

func (d *design) outside(c geom.Contour) { d.cutOutside = append(d.cutOutside, c.Curves) }
func (d *design) inside(c geom.Contour)  { d.cutInside = append(d.cutInside, c.Curves) }

// Cut returns the closed curves of the kerf pieces: windows and slots first, then
// outlines; none without a sheet.
func (c *Coupon) Cut() (inside, outside [][]geom.Curve) { return c.cutInside, c.cutOutside }

// cornered is a rectangle from its lower left corner; the upper left one is cut off
// where asked for.
func cornered(at geom.Point, wide, high float64, cut bool) geom.Contour {
	const off = 3.0
	points := []geom.Point{{}, {X: wide}, {X: wide, Y: high}, {Y: high}}
	if cut {
		points = append(points[:3], geom.Point{X: off, Y: high}, geom.Point{Y: high - off})
	}
	return polygon(at, points)
}

// tab is a block with a tongue of tabWide upwards, longer than the sheet is thick.
func tab(at geom.Point, reach float64) geom.Contour {
	const block = 12.0
	edge := tabWide / 2
	return polygon(at, []geom.Point{
		{},
		{X: 2 * tabWide},
		{X: 2 * tabWide, Y: block},
		{X: 2*tabWide - edge, Y: block},
		{X: 2*tabWide - edge, Y: block + reach},
		{X: edge, Y: block + reach},
		{X: edge, Y: block},
		{Y: block},
	})
}

func polygon(at geom.Point, points []geom.Point) geom.Contour {
	var curves []geom.Curve
	for i, p := range points {
		curves = append(curves, geom.Line{A: at.Add(p), B: at.Add(points[(i+1)%len(points)])})
	}
	return geom.NewContour(curves, geom.ChordPlain)
}

var kerfTrial = trial{{"slot", "tightest slot that a tab goes into by hand"}}

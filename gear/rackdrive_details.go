package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// Details returns what the drawing of pinion or rack needs beside its outline.
func (d *RackDrive) Details(part string) drawing.Details {
	if part != d.name() {
		details := d.pair.Details(part)
		t := d.pair.toothTable(0)
		t.Row("Mating rack", "", fmt.Sprintf("%s, %d teeth", d.name(), d.teeth))
		d.addMesh(&t)
		details.Tables = []drawing.Table{t}
		return details
	}
	p := d.spec.Pair
	t := drawing.Table{Title: "Rack data"}
	t.Row("Module", "m", drawing.Figure(p.Module))
	t.Row("Number of teeth", "", fmt.Sprint(d.teeth))
	t.Row("Basic rack", "", p.Rack.words())
	t.Row("Pressure angle", "α", drawing.Figure(p.PressureAngle*180/math.Pi)+"°")
	t.Row("Pitch", "p", drawing.Figure(d.bar.pitch))
	t.Row("Tooth thickness at the reference line", "s", drawing.Figure(d.bar.thick))
	band := " ±" + drawing.Figure(2*p.Card.Outside.Sigma)
	t.Row("Back to reference line", "", drawing.Figure(d.backToLine()))
	t.Row("Back to tips", "", drawing.Figure(d.backToLine()+d.bar.tip)+band)
	if pin, over := d.bar.pin(); pin > 0 {
		t.Row("Back over a pin Ø"+check.Number(pin), "M", drawing.Figure(over+d.backToLine())+band)
	}
	t.Row("Face width", "b", drawing.Figure(p.FaceWidth))
	t.Row("Mating gear", "", fmt.Sprintf("%s, z %d", p.partName(0), p.Teeth[0]))
	d.addMesh(&t)
	line := drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{geom.Line{B: geom.Point{X: d.Length()}}}}
	across := d.Length() / math.Max(2*float64(d.spec.Screws), 2) // through the first hole, else the middle
	cut := &drawing.Cut{From: geom.Point{X: across, Y: d.bar.root - d.spec.Height}, To: geom.Point{X: across, Y: d.bar.tip}}
	return drawing.Details{Tables: []drawing.Table{t}, Strokes: []drawing.Stroke{line}, Cut: cut}
}

// addMesh adds what pinion and rack share.
func (d *RackDrive) addMesh(t *drawing.Table) {
	p := d.spec.Pair
	t.Row("Axis to reference line", "a", drawing.Figure(d.AxisDistance())+" ±"+drawing.Figure(p.CentreTolerance))
	t.Row("Backlash", "j_wt", drawing.Figure(p.Backlash))
	t.Row("Accuracy grade", "", "none")
}

// Reading says what a caliper should read on the pinion (i = 0) or the rack (i =
// 1), and how far a good print may be off.
func (d *RackDrive) Reading(i int) string {
	if i == 0 {
		return d.pair.readingLine(0)
	}
	band := 2 * d.spec.Pair.Card.Outside.Sigma
	text := fmt.Sprintf("%s: %s mm from back to tips", d.name(), short(d.backToLine()+d.bar.tip))
	if pin, over := d.bar.pin(); pin > 0 {
		text += fmt.Sprintf(", %s mm from back over a pin of %s mm", short(over+d.backToLine()), check.Number(pin))
	}
	return text + fmt.Sprintf(", each within %s mm", short(band))
}

// Assembly returns what whoever measures the prints and puts the drive together
// has to know, one sentence a line.
func (d *RackDrive) Assembly() []string {
	lines := append([]string{d.Reading(0), d.Reading(1)}, d.pair.hornLines()...)
	if f, ok := d.saySpline(); ok && f.Remedy != "" {
		lines = append(lines, f.Remedy)
	}
	lines = append(lines, d.Pinion().Assembly()...)
	return append(lines, fmt.Sprintf(
		"guide the rack so that its back runs %s mm from the pinion's axis; with the pinion held still the rack should slide freely by %s mm: pinch a strip of paper of 0.1 mm in the mesh, push together, fasten, and turn the strip out",
		short(d.AxisDistance()+d.backToLine()), short(d.spec.Pair.Backlash)))
}

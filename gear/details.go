package gear

import (
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// Details returns what the drawing of a gear needs beside its outline: the rim
// as ISO 2203 draws it, the data that ISO 1340 asks for (from memory), and what
// matters of its body. A sector keeps its teeth.
func (p *Pair) Details(part string) drawing.Details {
	for i, g := range p.gears {
		if g.part.Name() != part {
			continue
		}
		d := drawing.Details{Dimensions: g.body.dims, Notes: g.body.notes(), Tables: []drawing.Table{p.dataTable(i)}}
		d.As, d.Strokes, d.InSection = g.drawnAs(), g.body.axes, g.body.sideAxes
		if g.sector > 0 {
			d.Dimensions = append(slices.Clone(d.Dimensions), g.sectorSizes(2*p.spec.Card.Outside.Sigma)...)
		} else {
			tip := 2 * g.drawn.ra
			d.Toothed = &drawing.Toothed{Tip: tip, Reference: g.ReferenceDiameter(), Root: 2 * g.drawn.rf}
		}
		return d
	}
	return drawing.Details{}
}

// sectorSizes dimensions what a sector's outline shows: the radius of the tips
// with its band in mm, the round body, and in brackets the overall sizes of the
// finished part.
func (g *Gear) sectorSizes(band float64) []drawing.Dimension {
	hub, drawn := g.body.root/2, g.body.drawn/2
	lo, hi := g.part.Bounds()
	wanted := func(v float64) float64 { // a bound of the finished part
		if reach := math.Abs(v); reach > drawn+curveError {
			return reach * g.nominal.ra / g.drawn.ra
		}
		return hub
	}
	return []drawing.Dimension{
		drawing.Rounding(geom.Point{}, g.drawn.ra, 0).Measuring(g.nominal.ra).Within(-band/2, band/2).Saying("tips"),
		drawing.Rounding(geom.Point{}, drawn, 5*math.Pi/6).Measuring(hub).Saying("hub of the sector"),
		drawing.Between(lo, geom.Point{X: hi.X, Y: lo.Y}).Measuring(wanted(lo.X) + wanted(hi.X)).InBrackets(),
		drawing.Between(lo, geom.Point{X: lo.X, Y: hi.Y}).Measuring(wanted(lo.Y) + wanted(hi.Y)).InBrackets(),
	}
}

// dataTable lists the data of gear i and of its mesh.
func (p *Pair) dataTable(i int) drawing.Table {
	t, mate := p.toothTable(i), p.gears[1-i]
	t.Row("Mating gear", "", mate.part.Name()+fmt.Sprintf(", z %d", p.spec.Teeth[1-i]))
	t.Row("Centre distance", "a", drawing.Figure(p.CentreDistance())+" ±"+drawing.Figure(p.spec.CentreTolerance))
	t.Row("Backlash", "j_wt", drawing.Figure(p.Backlash()))
	t.Row("Accuracy grade", "", "none")
	return t
}

// toothTable lists the tooth data of gear i with the limits of its measurements.
func (p *Pair) toothTable(i int) drawing.Table {
	const degree = math.Pi / 180
	g := p.gears[i]
	t := drawing.Table{Title: "Gear data"}
	mm := func(name, symbol string, value float64) { t.Row(name, symbol, drawing.Figure(value)) }
	mm("Module", "m", g.Module())
	t.Row("Number of teeth", "z", fmt.Sprint(p.spec.Teeth[i]))
	if g.sector > 0 {
		t.Row("Teeth of the sector", "", fmt.Sprint(g.sector))
	}
	t.Row("Basic rack", "", p.spec.Rack.words())
	t.Row("Pressure angle", "α", drawing.Figure(p.spec.PressureAngle/degree)+"°")
	t.Row("Helix angle", "β", "0°")
	mm("Profile shift", "x", g.x)
	mm("Reference diameter", "d", g.ReferenceDiameter())
	mm("Base diameter", "d_b", g.BaseDiameter())
	mm("Tip diameter", "d_a", g.TipDiameter())
	mm("Root diameter", "d_f", g.RootDiameter())
	mm("Tooth thickness at d", "s", g.ToothThickness())
	band := 2 * p.spec.Card.Outside.Sigma
	if s := g.Span(); s.Teeth > 0 {
		t.Row(fmt.Sprintf("Span over %d teeth", s.Teeth), fmt.Sprintf("W_%d", s.Teeth), drawing.Figure(s.Width)+" ±"+drawing.Figure(band))
	}
	if pins := g.Pins(); pins.Diameter > 0 {
		where := "over"
		if g.nominal.inner {
			where, band = "between", 2*p.spec.Card.Bore.Sigma
		}
		t.Row(fmt.Sprintf("Size %s pins Ø%s", where, check.Number(pins.Diameter)), "M", drawing.Figure(pins.Over)+" ±"+drawing.Figure(p.pinBand(i, band)))
	}
	mm("Face width", "b", g.FaceWidth())
	if g.nominal.inner {
		t.Row("Shaper of the roots", "z_0", fmt.Sprintf("%d, x_0 %s, tip radius %s", p.spec.cutter.z, drawing.Figure(p.spec.cutter.x), drawing.Figure(g.nominal.rho)))
	}
	return t
}

// words names the profile: by its letter in ISO 53, or by addendum, clearance and
// fillet radius in modules.
func (r Rack) words() string {
	for _, letter := range RackProfiles() {
		if named, _ := RackNamed(letter); named == r {
			return "ISO 53 " + letter
		}
	}
	return fmt.Sprintf("%s/%s/%s m", drawing.Figure(r.Addendum), drawing.Figure(r.Clearance), drawing.Figure(r.FilletRadius))
}

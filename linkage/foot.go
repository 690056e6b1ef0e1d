package linkage

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// stand returns the bracket's slabs: the plate alone, or with the foot standing
// on its lower edge. The foot's ribs lean back at 45 degrees, so that nothing
// needs support; its screw holes lie above them.
func (b *Bracket) stand(body *layers) ([]geom.Slab, error) {
	f := b.spec.Foot
	if f == nil {
		return body.slabs(), nil
	}
	s := b.spec
	thick := b.footThickness()
	hole := s.Card.Hole(s.Name, "foot screw holes, "+f.Screw.Size, f.Screw.Clearance)
	b.fits = append(b.fits, hole)
	r := hole.Drawn / 2
	above := max(r*math.Sqrt2, f.Screw.HeadDiameter/2) + bracketRim/2
	at := ribHeight + max(r, f.Screw.HeadDiameter/2) + 1 // over the top
	b.foot = at + above
	if f.Height > 0 {
		if f.Height < b.foot-1e-9 {
			return nil, b.refuse("foot height", f.Height, "leaves no room for its screws above the ribs", "foot height >= "+upTo(b.foot)+" mm, or a smaller screw")
		}
		b.foot = f.Height
	}
	wide := b.hi.X - b.lo.X
	apart := wide / float64(f.Count)
	if apart < f.Screw.HeadDiameter+4 {
		return nil, b.refuse("foot screws", float64(f.Count), "do not find room side by side", "use fewer screws")
	}
	top := s.Thickness
	back := b.lo.Y + thick
	long, short := b.comb(back+ribHeight, back), b.comb(back+leastRib, back)
	body.solids = append(body.solids, course{top, top + ribHeight - leastRib, []geom.Contour{long}, []geom.Contour{short}})
	body.add(top+ribHeight-leastRib, top+b.foot, geom.Rectangle(geom.Point{X: (b.lo.X + b.hi.X) / 2, Y: b.lo.Y + inset + (thick-inset)/2}, wide-2*inset, thick-inset, 0, 0, geom.ChordPlain))
	var holes []geom.CrossHole
	for k := range f.Count {
		holes = append(holes, geom.CrossHole{
			Centre: geom.Point{X: b.lo.X + apart*(float64(k)+0.5), Y: b.lo.Y}, Height: top + at, Diameter: hole.Drawn,
			Direction: math.Pi / 2, From: -1, To: thick + 1,
		})
	}
	return geom.Drill(body.slabs(), s.Card.LayerThickness, s.Card.BeadWidth, holes...)
}

// footThickness returns the thickness of the wall in mm.
func (b *Bracket) footThickness() float64 {
	return max(b.spec.Thickness, b.spec.Foot.Screw.Diameter+4*b.spec.Card.BeadWidth)
}

const (
	inset    = 0.4 // mm that the foot stands back from the plate's rim
	leastRib = 0.6 // mm of a rib where it ends at the wall
)

// comb is the foot's plan with a rib at either end: the ribs reach to y.
func (b *Bracket) comb(y, back float64) geom.Contour {
	x0, x1, y0 := b.lo.X+inset, b.hi.X-inset, b.lo.Y+inset
	points := []geom.Point{
		{X: x0, Y: y0},
		{X: x1, Y: y0},
		{X: x1, Y: y},
		{X: x1 - ribThickness, Y: y},
		{X: x1 - ribThickness, Y: back},
		{X: x0 + ribThickness, Y: back},
		{X: x0 + ribThickness, Y: y},
		{X: x0, Y: y},
	}
	var curves []geom.Curve
	for i, p := range points {
		curves = append(curves, geom.Line{A: p, B: points[(i+1)%len(points)]})
	}
	return geom.NewContour(curves, geom.ChordPlain)
}

// ruleBracketWall judges what a bracket keeps between its openings.
var ruleBracketWall = check.Rule{
	Name: "bracket-wall", Unit: "mm",
	Meaning: "The thinnest wall of a servo bracket between two openings, or between the window and the post.",
	Formula: "least distance of the finished surfaces; caution below 4 beads, fail below 2 beads",
	Source:  check.CommonPractice,
	Change:  "move the pivot out, or turn the servo",
	Sense:   check.AtLeast,
}

// Part returns the bracket in its print frame, the servo's shaft at the origin.
func (b *Bracket) Part() geom.Part { return b.part }

// Parts returns the bracket alone.
func (b *Bracket) Parts() []geom.Part { return []geom.Part{b.part} }

// Fits returns what was wanted and drawn for each opening.
func (b *Bracket) Fits() []fit.Fit { return b.fits }

// Spec returns what the bracket was made from.
func (b *Bracket) Spec() BracketSpec { return b.spec }

// TabScrew returns the screw that holds the servo by its tabs.
func (b *Bracket) TabScrew() fit.Screw { return b.tabScrew }

// TabHoles returns where the tab screws stand, from the servo's shaft, in mm.
func (b *Bracket) TabHoles() []geom.Point { return b.places("a tab hole") }

// Corners returns where the screws stand that hold the plate down, in mm; none
// with a foot.
func (b *Bracket) Corners() []geom.Point { return b.places("a corner hole") }

func (b *Bracket) places(what string) []geom.Point {
	var at []geom.Point
	for _, h := range b.placed {
		if h.what == what {
			at = append(at, h.at)
		}
	}
	return at
}

// Values returns the bracket's numbers for the report, in mm and degrees.
func (b *Bracket) Values() map[string]any {
	v := map[string]any{
		"bracket_length": b.hi.X - b.lo.X, "bracket_width": b.hi.Y - b.lo.Y, "bracket_thickness": b.spec.Thickness,
		"servo_turn_deg": b.spec.Turn * 180 / math.Pi, "tab_screw": b.tabScrew.Size, "foot_height": b.foot,
	}
	if p := b.spec.Pivot; p != nil {
		v["pivot_distance"], v["post_height"] = p.Distance, p.Height
	}
	return v
}

// Findings judges the thinnest wall.
func (b *Bracket) Findings() []check.Finding {
	return []check.Finding{judgeWalls(ruleBracketWall, b.walls, b.spec.Name, b.spec.Card, b.spec.Limits)}
}

package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/fit"
	"pintle/geom"
)

// A bolt is one screw hole of a circle as drawn: its bore, its recess, and the
// largest diameter of both.
type bolt struct {
	fit.ScrewHole
	bore, recess  fit.Fit
	wanted, drawn float64
}

// layBolt returns the hole of a kind, its fits noted.
func (s *structure) layBolt(b BoltCircle) (bolt, error) {
	kind := b.Kind
	if kind == "" {
		kind = fit.SelfCutting
	}
	h, ok := b.Screw.Hole(kind, s.card.Slip(), s.card.LayerThickness)
	if !ok && b.Kind != "" {
		return bolt{}, &check.FieldError{
			Field: "screw holes of " + s.part, Text: kind, Reason: "are not made for " + b.Screw.Size,
			Remedy: "use self-cutting, clearance, insert, counterbore, countersink or nut, with M2 to M6",
		}
	}
	name := map[string]string{fit.SelfCutting: "pilot", fit.Insert: "insert"}[kind]
	if name == "" {
		name = "clearance"
	}
	p := bolt{ScrewHole: h, bore: s.fitted(s.card.Hole(s.part, b.Screw.Size+" "+name+" hole", h.Bore))}
	p.wanted, p.drawn = p.bore.Wanted, p.bore.Drawn
	if h.Recess > 0 {
		name := map[string]string{fit.Counterbore: " counterbore", fit.Countersink: " countersink", fit.Nut: " nut across flats"}[kind]
		p.recess = s.fitted(s.card.Hole(s.part, b.Screw.Size+name, h.Recess))
		p.wanted, p.drawn = p.recess.Wanted, p.recess.Drawn
		if kind == fit.Nut {
			p.wanted, p.drawn = p.wanted*2/math.Sqrt(3), p.drawn*2/math.Sqrt(3)
		}
	}
	if floor := s.card.BedChamfer() + 2*s.card.LayerThickness; h.Recess > 0 && s.face < h.Depth+floor {
		return p, s.refuse("screw", b.Screw.Diameter, "mm", "has a recess deeper than the gear bears", "face width >= "+check.Number(ceilTo(h.Depth+floor))+" mm")
	}
	return p, nil
}

// addBolts makes the screw holes, clear of the shoulder that stands above.
func (s *structure) addBolts(b BoltCircle) error {
	if err := check.InRange("bolt count of "+s.part, float64(b.Count), "", 1, 60, "use 3 or 4 screws"); err != nil {
		return err
	}
	if err := check.Positive("pilot hole of "+s.part, b.Screw.Pilot, "mm", "choose a screw, such as M3"); err != nil {
		return err
	}
	if err := check.Positive("bolt circle of "+s.part, b.Diameter, "mm", "use a circle between hub and teeth"); err != nil {
		return err
	}
	p, err := s.layBolt(b)
	if err != nil {
		return err
	}
	inner := s.core()
	for k := range b.Count {
		s.addBolt(p, geom.Polar(b.Diameter/2, 2*math.Pi*float64(k)/float64(b.Count)))
	}
	if s.thin((b.Diameter - p.drawn - inner) / 2) {
		return s.refuse("bolt circle", b.Diameter, "mm", "brings its holes into the hub", "bolt circle >= "+check.Number(ceilTo(inner+p.drawn+2*s.card.BeadWidth)))
	}
	s.margins = append(s.margins, margin{"hole-web", (b.Diameter - p.wanted - inner) / 2, "between bolt holes and hub", atLeast("bolt circle", b.Diameter, 2)})
	if err := s.inRoot("bolt circle", b.Diameter, b.Diameter+p.wanted, b.Diameter+p.drawn, atMost("bolt circle", b.Diameter, 2)); err != nil {
		return err
	}
	s.around = math.Max(s.around, b.Diameter+p.drawn)
	s.dimBolts(b, p)
	if b.Count == 1 {
		return nil
	}
	apart := math.Sin(math.Pi / float64(b.Count))
	if s.thin(b.Diameter*apart - p.drawn) {
		return s.refuse("bolt count", float64(b.Count), "", "brings the bolt holes into each other", "use fewer screws")
	}
	s.margins = append(s.margins, margin{"hole-web", b.Diameter*apart - p.wanted, "between bolt holes", atLeast("bolt circle", b.Diameter, 1/apart)})
	return nil
}

// addBolt makes one hole with its recess at the face.
func (s *structure) addBolt(p bolt, at geom.Point) {
	foot := s.face - p.Depth
	switch p.Kind {
	case fit.Counterbore:
		s.holes = append(s.holes, hole{foot, s.face, geom.Bore(at, p.recess.Drawn, geom.ChordFlank)})
		s.addHole(p.bore, at, 0, foot, geom.ChordFlank)
	case fit.Nut:
		s.holes = append(s.holes, hole{foot, s.face, hexagon(at, p.recess.Drawn, at.Angle())})
		s.addHole(p.bore, at, 0, foot, geom.ChordFlank)
	case fit.Countersink:
		foot = s.face - (p.recess.Drawn-p.bore.Drawn)/2
		wide := geom.Bore(at, p.recess.Drawn, geom.ChordFlank)
		narrow := wide.Resize(p.bore.Drawn)
		s.slopes = append(s.slopes, slope{foot, s.face, narrow, wide})
		s.holes = append(s.holes, hole{0, foot, narrow})
	case fit.Insert:
		foot = math.Max(foot, 0)
		if floor := s.card.BedChamfer() + 2*s.card.LayerThickness; foot < floor {
			foot = 0
		}
		s.addHole(p.bore, at, foot, s.face, geom.ChordFlank)
	default:
		s.addHole(p.bore, at, 0, s.face, geom.ChordFlank)
	}
}

// hexagon is a nut's pocket as a hole: flats across, a corner in the direction
// turn.
func hexagon(at geom.Point, across, turn float64) geom.Contour {
	corner := across / math.Sqrt(3)
	var curves []geom.Curve
	for k := range 6 {
		a := turn - math.Pi/3*float64(k)
		curves = append(curves, geom.Line{A: at.Add(geom.Polar(corner, a)), B: at.Add(geom.Polar(corner, a-math.Pi/3))})
	}
	return geom.NewContour(curves, geom.ChordFlank)
}

// dimBolts dimensions what the circles of the holes do not show.
func (s *structure) dimBolts(b BoltCircle, p bolt) {
	said := fmt.Sprintf("%d × %s, %s", b.Count, b.Screw.Size, p.Kind)
	if p.Recess > 0 {
		said += fmt.Sprintf(" %s × %s deep", check.Number(p.Recess), check.Number(p.Depth))
	}
	s.noted = append(s.noted, said+" on a bolt circle of "+check.Number(b.Diameter)+" mm")
	if p.Kind == fit.Nut {
		half := geom.Point{Y: p.recess.Drawn / 2}
		at := geom.Point{X: b.Diameter / 2}
		s.dims = append(s.dims, drawing.Between(at.Sub(half), at.Add(half)).Measuring(p.recess.Wanted).Times(b.Count).Saying("nut's flats"))
	}
	if p.Recess > 0 {
		s.dims = append(s.dims, drawing.Heights(b.Diameter/2, s.face-p.Depth, s.face).Saying("deep"))
	}
	s.values["bolt_circle"], s.values["bolt_hole"] = b.Diameter, p.Bore
}

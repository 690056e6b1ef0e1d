package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/fit"
	"pintle/geom"
)

// A Seat is the pocket for a bearing on which the gear turns, open away from the
// bed: outlines about the axis by height above the shoulder's foot, mm. Package
// bearing works it out.
type Seat struct {
	Bearing string  // its name, for notes
	Outside float64 // of the bearing
	Wall    float64 // around the seat where it stands beyond the teeth

	Hole   geom.Contour // through the shoulder
	Bore   geom.Contour
	Mouth  geom.Contour // wide end of the lead-in
	Groove geom.Contour // corner relief; without points where there is none

	ShoulderTop, GrooveTop, SlopeTop, MouthFoot, Top float64
	Fits                                             []fit.Fit
}

// addSeat opens the pocket. A gear wider than the seat gets a thicker shoulder,
// a narrower one a tube beyond its face.
func (s *structure) addSeat(b Seat) error {
	for _, q := range []struct {
		field string
		value float64
	}{{"outside of the bearing", b.Outside}, {"depth of the bearing's seat", b.Top}} {
		if err := check.Positive(q.field+" of "+s.part, q.value, "mm", "measure the bearing"); err != nil {
			return err
		}
	}
	lift := math.Max(s.face-b.Top, 0)
	s.height = math.Max(s.face, b.Top)
	reach := b.Mouth.Diameter()
	if reach == 0 {
		reach = farthestPoint(b.Mouth) * 2
	}
	if err := s.inRoot("outside of the bearing", b.Outside, b.Outside, reach, s.moreTeeth); err != nil {
		return err
	}
	z := func(h float64) float64 { return h + lift }
	s.holes = append(s.holes, hole{0, z(b.ShoulderTop), b.Hole})
	foot := b.ShoulderTop
	if len(b.Groove.Points) > 0 {
		s.holes = append(s.holes, hole{z(foot), z(b.GrooveTop), b.Groove})
		s.slopes = append(s.slopes, slope{z(b.GrooveTop), z(b.SlopeTop), b.Groove, b.Bore})
		foot = b.SlopeTop
	}
	s.holes = append(s.holes, hole{z(foot), z(b.MouthFoot), b.Bore})
	if b.Top > b.MouthFoot {
		s.slopes = append(s.slopes, slope{z(b.MouthFoot), z(b.Top), b.Bore, b.Mouth})
	}
	s.around = math.Max(s.around, reach)
	wanted := b.Outside
	for _, f := range b.Fits {
		f.Part = s.part
		if f.Feature == "seat" {
			wanted = f.Wanted
		}
		s.fits = append(s.fits, f)
	}
	s.values["bearing_outside"], s.values["seat_shoulder"] = b.Outside, z(b.ShoulderTop)
	s.dims = append(s.dims, drawing.Turned(b.Bore.Diameter(), s.height).Measuring(wanted).ToCheck().Saying("seat for "+b.Bearing),
		drawing.Heights(0, 0, z(b.ShoulderTop)).Saying("shoulder"))
	s.steps = append(s.steps, "press the "+b.Bearing+" bearing into the "+s.part+" from the side away from the bed, on its outer ring only")
	if s.height > s.face {
		return s.addTube(b)
	}
	return nil
}

// addTube carries the seat's wall beyond the teeth.
func (s *structure) addTube(b Seat) error {
	f := s.fitted(s.card.Peg(s.part, "tube around the seat", b.Outside+2*b.Wall))
	if s.thin((s.drawn - f.Drawn) / 2) {
		return s.refuse("face width", s.face, "mm", "is less than the seat is deep, and a tube around it does not fit inside the roots",
			"face width >= "+check.Number(ceilTo(s.height))+" mm")
	}
	s.solids = append(s.solids, solid{s.face, s.height, geom.Peg(geom.Point{}, f.Drawn, geom.ChordFlank)})
	s.margins = append(s.margins, margin{"hub-wall", b.Wall, "tube around the bearing's seat", func(float64) string { return "face width >= " + check.Number(ceilTo(s.height)) + " mm" }})
	return nil
}

func farthestPoint(c geom.Contour) float64 {
	far := 0.0
	for _, p := range c.Points {
		far = math.Max(far, p.Len())
	}
	return far
}

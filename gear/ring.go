package gear

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// ringModules is the rim around an internal gear's roots in modules where none
// is given (common practice, no source: 2 and more).
const ringModules = 3

// newRing lays out an internal gear: a rim around the roots with screw holes.
func newRing(s structure, nominal tooth, outline geom.Contour) (structure, error) {
	b := s.spec
	if b.Horn != nil || b.Journal != nil || b.Bore != 0 || b.Retain != nil || b.Shaft != nil || b.Seat != nil || b.Hub != nil || b.SetScrew != nil || b.Clamp != nil || b.Lighten != nil {
		return s, &check.FieldError{
			Field: "hub of " + s.part, Text: "internal gear", Reason: "has no room in an internal gear",
			Remedy: "leave hub and bore out; screw the rim to what turns with a bolt circle",
		}
	}
	rim := b.Rim
	if rim == 0 {
		rim = math.Max(ringModules*s.module, 4*s.card.BeadWidth)
		if b.Bolts != nil {
			rim = math.Max(rim, (b.Bolts.Diameter+b.Bolts.Screw.Pilot)/2+math.Max(2*s.module, 4*s.card.BeadWidth)-nominal.rf)
		}
	}
	if err := check.InRange("rim of "+s.part, rim, "mm", 2*s.card.BeadWidth, geom.Extent, "use 2 to 3 modules"); err != nil {
		return s, err
	}
	f := s.card.Peg(s.part, "outside of the rim", 2*(nominal.rf+rim))
	s.fits = append(s.fits, f)
	s.solids = []solid{{0, s.face, geom.Peg(geom.Point{}, f.Drawn, geom.ChordFlank)}}
	s.holes = []hole{{0, s.face, outline}}
	s.margins = append(s.margins, margin{"rim", rim, "around the roots", atLeast("rim", rim, 1)})
	if b.Bolts == nil {
		return s, nil
	}
	return s, s.addRimBolts(*b.Bolts, f)
}

// addRimBolts makes the screw holes of an internal gear, between its roots and
// the outside of its rim.
func (s *structure) addRimBolts(b BoltCircle, outside fit.Fit) error {
	if err := check.InRange("bolt count of "+s.part, float64(b.Count), "", 1, 60, "use 3 or 4 screws"); err != nil {
		return err
	}
	if err := check.Positive("pilot hole of "+s.part, b.Screw.Pilot, "mm", "choose a screw, such as M3"); err != nil {
		return err
	}
	if b.Kind != "" && b.Kind != fit.SelfCutting && b.Kind != fit.Clearance {
		return &check.FieldError{Field: "screw holes of " + s.part, Text: b.Kind, Reason: "are not made in the rim of an internal gear", Remedy: `use "self-cutting" or "clearance"`}
	}
	p, err := s.layBolt(b)
	if err != nil {
		return err
	}
	f := p.bore
	in, out := (b.Diameter-f.Wanted-s.root)/2, (outside.Wanted-b.Diameter-f.Wanted)/2
	switch {
	case s.thin((b.Diameter - f.Drawn - s.drawn) / 2):
		return s.refuse("bolt circle", b.Diameter, "mm", "brings its holes into the teeth", "bolt circle >= "+check.Number(ceilTo(s.root+f.Wanted+4*s.card.BeadWidth))+" mm")
	case s.thin((outside.Drawn - b.Diameter - f.Drawn) / 2):
		return s.refuse("bolt circle", b.Diameter, "mm", "breaks out of the rim", "use a wider rim")
	}
	apart := math.Sin(math.Pi / float64(b.Count))
	if b.Count > 1 && s.thin(b.Diameter*apart-f.Drawn) {
		return s.refuse("bolt count", float64(b.Count), "", "brings the bolt holes into each other", "use fewer screws")
	}
	s.margins = append(
		s.margins,
		margin{"hole-web", in, "between bolt holes and teeth", atLeast("bolt circle", b.Diameter, 2)},
		margin{"hole-web", out, "outside the bolt holes", func(float64) string { return "use a wider rim" }},
	)
	for k := range b.Count {
		s.addHole(f, geom.Polar(b.Diameter/2, 2*math.Pi*float64(k)/float64(b.Count)), 0, s.face, geom.ChordFlank)
	}
	return nil
}

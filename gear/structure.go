package gear

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A structure is how a gear's body stands in its print frame: what is solid and
// what is hollow between which heights above the bed.
type structure struct {
	spec      Body
	part      string
	card      fit.Card
	face      float64 // height of the teeth
	height    float64
	floor     float64   // of the horn pocket
	foot      float64   // of the journal
	chamfer   float64   // on the teeth, at the bed
	relief    float64   // on the holes, at the bed
	lead      float64   // lead-in of the journal
	hornHoles []float64 // distances of the horn's screw holes that are used, mm
	root      float64   // wanted root diameter
	drawn     float64   // drawn root diameter
	module    float64
	teeth     string // symbol of the gear's number of teeth
	count     int
	sector    bool // a part-turn gear: root is its round body
	round     bool // no gear at all: root is the round of another part
	inner     bool // an internal gear: its teeth are the first hole
	solids    []solid
	holes     []hole
	margins   []margin
	fits      []fit.Fit
}

// A solid is the outer contour between two heights.
type solid struct {
	z0, z1  float64
	contour geom.Contour
}

// A hole is a hole between two heights.
type hole struct {
	z0, z1  float64
	contour geom.Contour
}

// A margin is the material between two surfaces of the finished part, and what
// to change where it lacks some.
type margin struct {
	rule  string
	value float64 // mm
	where string
	fix   func(lack float64) string
}

// newStructure lays out the body of gear i. It refuses what leaves less than
// half a bead of drawn material anywhere, since no layer could be printed there.
func newStructure(spec PairSpec, i int, nominal, drawn tooth, outline geom.Contour) (structure, error) {
	s := structure{
		spec: spec.body(i), part: spec.partName(i), card: spec.Card,
		face: spec.FaceWidth, height: spec.FaceWidth,
		root: 2 * nominal.rf, drawn: 2 * drawn.rf, module: spec.Module,
		teeth: [2]string{"z1", "z2"}[i], count: nominal.z, inner: nominal.inner,
	}
	if nominal.inner {
		s, err := newRing(s, nominal, outline)
		if err == nil {
			s.chamfers(drawn)
		}
		return s, err
	}
	if s.spec.Sector > 0 {
		s.sector = true
		s.root, s.drawn = s.spec.hubDiameter(s.root), s.spec.hubDiameter(s.drawn)
	}
	s.solids = []solid{{0, s.face, outline}}
	if err := s.oneHub(); err != nil {
		return s, err
	}
	var err error
	switch b := s.spec; {
	case b.Horn != nil:
		err = s.addHorn(*b.Horn)
	case b.Journal != nil:
		err = s.addJournal(*b.Journal)
	case b.Bore != 0:
		err = s.addBore(b.Bore)
	}
	if err == nil && s.spec.Bolts != nil {
		err = s.addBolts(*s.spec.Bolts)
	}
	if err == nil {
		s.chamfers(drawn)
	}
	return s, err
}

func (s *structure) oneHub() error {
	n := 0
	for _, has := range []bool{s.spec.Horn != nil, s.spec.Journal != nil, s.spec.Bore != 0} {
		if has {
			n++
		}
	}
	switch {
	case n > 1:
		return s.refuse("hub", float64(n), "", "has more than one kind", "choose a horn pocket, a journal or a bore")
	case s.spec.Retain != nil && s.spec.Journal == nil:
		return &check.FieldError{Field: "kind of retainer of " + s.part, Text: s.spec.Retain.Kind, Reason: "has no journal to hold", Remedy: "leave it out, or give the gear a journal"}
	case s.spec.Horn != nil && s.spec.Bolts != nil:
		return s.refuse("bolt circle", s.spec.Bolts.Diameter, "mm", "is not made on a gear with a horn pocket", "bolt to the other gear, or use a bore")
	}
	return nil
}

func (s *structure) refuse(field string, value float64, unit, reason, remedy string) error {
	return &check.FieldError{Field: field + " of " + s.part, Value: value, Unit: unit, Reason: reason, Remedy: remedy}
}

// thin says whether drawn material is too thin to be a layer at all.
func (s *structure) thin(material float64) bool { return material < s.card.BeadWidth/2 }

// moreTeeth is the fix where the root circle is too small.
func (s *structure) moreTeeth(lack float64) string {
	if s.round {
		return "hub diameter >= " + check.Number(ceilTo(s.root+2*lack)) + " mm"
	}
	if s.sector {
		return "hub of the sector >= " + check.Number(ceilTo(s.root+2*lack)) + " mm"
	}
	return s.teeth + " >= " + check.Number(float64(s.count)+math.Ceil(2*lack/s.module-1e-9))
}

// inRoot adds the margin between the root circle and a circle of the wanted
// diameter about the axis, drawn at another; it refuses one that breaks out.
func (s *structure) inRoot(field string, value, wanted, drawn float64, fix func(float64) string) error {
	rim := (s.root - wanted) / 2
	s.margins = append(s.margins, margin{"rim", rim, field, fix})
	if s.thin((s.drawn - drawn) / 2) {
		return s.refuse(field, value, "mm", "leaves no rim inside the root diameter "+check.Number(s.root)+" mm", fix(2*s.card.BeadWidth-rim))
	}
	return nil
}

// addHole records a fit and makes the hole.
func (s *structure) addHole(f fit.Fit, centre geom.Point, z0, z1, chord float64) {
	s.holes = append(s.holes, hole{z0, z1, geom.Bore(centre, f.Drawn, chord)})
}

// addBore makes the plain round bore. Other bores stand beside it here.
func (s *structure) addBore(d float64) error {
	if err := check.InRange("bore of "+s.part, d, "mm", 1, geom.Extent, "use the diameter of the shaft plus its clearance"); err != nil {
		return err
	}
	f := s.card.Hole(s.part, "bore", d)
	s.fits = append(s.fits, f)
	s.addHole(f, geom.Point{}, 0, s.face, geom.ChordFit)
	return s.inRoot("bore", d, d, f.Drawn, atMost("bore", d, 2))
}

// addBolts makes the pilot holes, clear of the shoulder that stands above.
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
	f := s.card.Hole(s.part, b.Screw.Size+" pilot hole", b.Screw.Pilot)
	s.fits = append(s.fits, f)
	for k := range b.Count {
		centre := geom.Polar(b.Diameter/2, 2*math.Pi*float64(k)/float64(b.Count))
		s.addHole(f, centre, 0, s.face, geom.ChordFlank)
	}
	inner := s.core()
	if s.thin((b.Diameter - f.Drawn - inner) / 2) {
		return s.refuse("bolt circle", b.Diameter, "mm", "brings its holes into the hub", "bolt circle >= "+check.Number(ceilTo(inner+f.Drawn+2*s.card.BeadWidth)))
	}
	s.margins = append(s.margins, margin{"hole-web", (b.Diameter - f.Wanted - inner) / 2, "between bolt holes and hub", atLeast("bolt circle", b.Diameter, 2)})
	if err := s.inRoot("bolt circle", b.Diameter, b.Diameter+f.Wanted, b.Diameter+f.Drawn, atMost("bolt circle", b.Diameter, 2)); err != nil {
		return err
	}
	if b.Count == 1 {
		return nil
	}
	apart := math.Sin(math.Pi / float64(b.Count))
	if s.thin(b.Diameter*apart - f.Drawn) {
		return s.refuse("bolt count", float64(b.Count), "", "brings the bolt holes into each other", "use fewer screws")
	}
	s.margins = append(s.margins, margin{"hole-web", b.Diameter*apart - f.Wanted, "between bolt holes", atLeast("bolt circle", b.Diameter, 1/apart)})
	return nil
}

// core returns the drawn diameter of what stands or opens around the axis.
func (s *structure) core() float64 {
	d := 0.0
	for _, o := range s.solids[1:] {
		d = math.Max(d, o.contour.Diameter())
	}
	for _, h := range s.holes {
		switch c := h.contour.Curves[0].(type) {
		case geom.Arc:
			if c.Centre == (geom.Point{}) {
				d = math.Max(d, 2*c.Radius)
			}
		case geom.Line: // a nut pocket
			d = math.Max(d, 2*c.A.Len())
		}
	}
	return d
}

// atMost returns a fix that lowers a quantity by per mm for each mm lacking.
func atMost(name string, value, per float64) func(float64) string {
	return func(lack float64) string {
		return name + " <= " + check.Number(math.Floor((value-per*lack)*100+1e-6)/100) + " mm"
	}
}

// atLeast returns a fix that raises a quantity by per mm for each mm lacking.
func atLeast(name string, value, per float64) func(float64) string {
	return func(lack float64) string { return name + " >= " + check.Number(ceilTo(value+per*lack)) + " mm" }
}

// ceilTo rounds up to 0.01 mm.
func ceilTo(v float64) float64 { return math.Ceil(v*100-1e-6) / 100 }

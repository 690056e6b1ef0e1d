package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
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
	lead      float64   // lead-in of the journal, chamfer of a hub's end
	topTeeth  float64   // chamfer on the teeth, at the top
	topHoles  float64   // on the holes, at the top
	hornSunk  float64   // mm, of the heads of the horn's screws under the bed face
	hornHoles []float64 // distances of the horn's screw holes that are used, mm
	root      float64   // wanted root diameter
	drawn     float64   // drawn root diameter
	module    float64
	teeth     string // symbol of the gear's number of teeth
	count     int
	sector    bool    // a part-turn gear: root is its round body
	mostHub   float64 // mm, diameter that this body may have
	round     bool    // no gear at all: root is the round of another part
	inner     bool    // an internal gear: its teeth are the first hole
	solids    []solid
	holes     []hole
	slopes    []slope
	cuts      []geom.Cut
	margins   []margin
	fits      []fit.Fit
	letters   []hole  // of a mark: drawn as they are, never chamfered
	around    float64 // drawn diameter of what the axis needs beyond core
	middle    float64 // drawn diameter of all about the axis but bolts
	shaft     boreShape
	hubDrawn  float64 // diameter of the hub cylinder
	webFoot   float64 // sloping foot of a web
	saved     float64 // mm³ that lightening takes out
	values    map[string]float64
	dims      []drawing.Dimension
	noted     []string         // on the drawing
	axes      []drawing.Stroke // of cross holes, in the plan
	sideAxes  []drawing.Stroke // of cross holes, in the section along x
	steps     []string         // of the assembly
	marks     []string         // what it says of itself, for the drawing
	unmarked  []string         // what a mark had no room for
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

// A slope is a contour that changes between two heights, point by point.
type slope struct {
	z0, z1      float64
	bottom, top geom.Contour
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
		values: map[string]float64{},
	}
	if err := check.InRange("top chamfer of "+s.part, s.spec.TopChamfer, "mm", 0, s.face/4, "use 0.4 mm, or 0 for none"); err != nil {
		return s, err
	}
	if nominal.inner {
		s, err := newRing(s, nominal, outline)
		if err == nil {
			s.chamfers(drawn)
		}
		return s, err
	}
	if s.spec.Sector > 0 {
		s.sector, s.mostHub = true, spec.mostSectorHub(i)
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
	case b.Shaft != nil:
		err = s.addShaft(*b.Shaft)
	case b.Seat != nil:
		err = s.addSeat(*b.Seat)
	}
	s.middle = s.core()
	if err == nil && s.spec.Bolts != nil {
		err = s.addBolts(*s.spec.Bolts)
	}
	if err == nil && s.spec.Lighten != nil {
		s.around = math.Max(s.around, s.core())
		err = s.addLighten(*s.spec.Lighten)
	}
	if err == nil && s.spec.Mark != nil {
		err = s.addMark(*s.spec.Mark)
	}
	if err == nil {
		s.chamfers(drawn)
	}
	return s, err
}

func (s *structure) oneHub() error {
	n := 0
	for _, has := range []bool{s.spec.Horn != nil, s.spec.Journal != nil, s.spec.Bore != 0, s.spec.Shaft != nil, s.spec.Seat != nil} {
		if has {
			n++
		}
	}
	switch {
	case n > 1:
		return s.refuse("hub", float64(n), "", "has more than one kind", "choose a horn pocket, a journal, a bore or a bearing's seat")
	case s.spec.Shaft == nil && (s.spec.Hub != nil || s.spec.SetScrew != nil || s.spec.Clamp != nil):
		return &check.FieldError{Field: "hub of " + s.part, Text: "cylinder", Reason: "has no shaft to hold", Remedy: "give the shaft's size, or leave hub, set screw and clamp out"}
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
	return s.teeth + " >= " + check.Number(float64(s.count)+math.Ceil(2*lack/s.module-1e-9)) + " teeth"
}

// outside names what the body ends at.
func (s *structure) outside() string {
	if s.sector {
		return "the sector's hub of " + check.Number(s.root) + " mm"
	}
	return "the root diameter " + check.Number(s.root) + " mm"
}

// orWider adds the other way out to a remedy: a hub of the sector around a
// circle of the wanted diameter.
func (s *structure) orWider(wanted float64) string {
	hub := ceilTo(wanted + 4*s.card.BeadWidth)
	if !s.sector || hub > s.mostHub {
		return ""
	}
	return ", or hub of the sector >= " + check.Number(hub) + " mm"
}

// inRoot adds the margin between the root circle and a circle of the wanted
// diameter about the axis, drawn at another; it refuses one that breaks out.
func (s *structure) inRoot(field string, value, wanted, drawn float64, fix func(float64) string) error {
	rim := (s.root - wanted) / 2
	s.margins = append(s.margins, margin{"rim", rim, field, fix})
	if s.thin((s.drawn - drawn) / 2) {
		return s.refuse(field, value, "mm", "leaves no rim inside "+s.outside(), fix(2*s.card.BeadWidth-rim)+s.orWider(wanted))
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

// core returns the drawn diameter of what stands or opens around the axis.
func (s *structure) core() float64 {
	d := s.around
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

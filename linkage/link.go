package linkage

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A LinkSpec describes one printed link of a linkage: a hub from which arms
// reach to eyes. A lever and a horn arm have one arm, a bell crank two, and a
// bar is a link whose hub is an eye like the other. Lengths are mm.
type LinkSpec struct {
	Name      string // of the part, such as "nod-lever"
	Hub       Hub
	Arms      []Arm   // 1 to 6
	Thickness float64 // of arms, hub and eyes; bosses stand on it
	Mark      string  // what is sunk into the top, with the eye distance; "" for nothing

	Card   fit.Card
	Limits check.Limits
}

// A Hub is the middle of a link, about the origin.
type Hub struct {
	Diameter float64 // outside
	Hole     float64 // wanted diameter of the bore right through; 0 for none
	What     string  // what the bore takes, for the list of fits: "running hole for M4"
	Boss     float64 // mm that a round of the hub's size stands on the link's top; 0 for none
	Openings []Opening
	Bolts    *BoltCircle
	Clamp    *Clamp
}

// An Opening is a hole of the hub that another design drew: a horn's pocket, a
// bearing's seat.
type Opening struct {
	Z0, Z1 float64      // mm above the bed
	Bottom geom.Contour // a hole
	Top    geom.Contour // its partner where the walls slope; no points where they stand upright
}

// A BoltCircle is a circle of holes about the hub's axis in which screws cut
// their own thread, for what the link carries.
type BoltCircle struct {
	Diameter float64 // of the circle through the centres, mm
	Screw    fit.Screw
	Count    int
}

// An Arm is one arm of a link.
type Arm struct {
	Length float64 // hub's centre to eye's centre, mm
	Angle  float64 // rad, anticlockwise from the x axis
	Width  float64 // mm, at most the eye's diameter
	Eye    Eye
}

// An Eye is the round at an arm's end that a pin passes.
type Eye struct {
	Diameter float64 // outside, mm
	Hole     float64 // wanted diameter, mm
	What     string  // what the hole takes, for the list of fits
	Boss     float64 // mm that a round stands on the link's top; 0 for none
}

// A Link is one printed link, proved, in its print frame: hub at the origin,
// bed side down.
type Link struct {
	spec     LinkSpec
	part     geom.Part
	fits     []fit.Fit
	bore     fit.Fit   // of the hub
	eyes     []fit.Fit // by arm
	walls    []wall
	hub      float64 // outside diameter as made, mm
	mark     string
	markRoom float64 // cap height that the marks had, mm
}

// Sizes of a printed link in mm that no spec gives (common practice, no source).
const (
	armFillet = 3.0 // where an arm meets hub and eye, where there is room
	bossStep  = 0.4 // a boss stands back from the outline below it
)

// NewLink draws the link. The error is a *check.FieldError for sizes that no
// link can be made of: holes that meet or break out, arms that run into each
// other, a clamp whose screw finds no room.
func NewLink(spec LinkSpec) (*Link, error) {
	if err := spec.validate(); err != nil {
		return nil, err
	}
	l := &Link{spec: spec, hub: spec.Hub.Diameter}
	shape, err := l.outline()
	if err != nil {
		return nil, err
	}
	body := layers{card: spec.Card}
	if spec.Hub.Clamp != nil {
		if shape, err = l.addClamp(shape); err != nil {
			return nil, err
		}
	}
	body.add(0, spec.Thickness, shape...)
	if err := l.addHub(&body); err != nil {
		return nil, err
	}
	for i := range spec.Arms {
		if err := l.addEye(&body, i); err != nil {
			return nil, err
		}
	}
	if err := l.judgeOpenings(shape[0]); err != nil {
		return nil, err
	}
	if err := l.judgeable(); err != nil {
		return nil, err
	}
	l.addMark(&body)
	slabs := body.slabs()
	if c := spec.Hub.Clamp; c != nil {
		if slabs, err = c.drill(slabs, l); err != nil {
			return nil, err
		}
	}
	l.part, err = geom.NewPart(spec.Name, slabs...)
	return l, err
}

func (s LinkSpec) validate() error {
	type quantity struct {
		field         string
		value, lo, hi float64
		remedy        string
	}
	least := s.Card.BedChamfer() + 2*s.Card.LayerThickness
	list := []quantity{
		{"thickness", s.Thickness, least, 100, "4 to 6 mm is usual"},
		{"hub diameter", s.Hub.Diameter, 2, geom.Extent, "three times the bore is usual"},
		{"hub bore", s.Hub.Hole, 0, s.Hub.Diameter, "give the diameter of what it turns on"},
		{"hub boss", s.Hub.Boss, 0, 200, "the height to the next layer, less a washer"},
		{"number of arms", float64(len(s.Arms)), 1, 6, "a lever has one arm, a bell crank two"},
	}
	for i, a := range s.Arms {
		n := s.armName(i)
		list = append(list,
			quantity{n + " length", a.Length, 1, geom.Extent / 2, "measure from axis to axis"},
			quantity{n + " width", a.Width, 2 * s.Card.BeadWidth, a.Eye.Diameter, "at most the diameter of its eye"},
			quantity{n + " angle", a.Angle * 180 / math.Pi, -720, 720, "give degrees from the first arm"},
			quantity{n + " eye", a.Eye.Diameter, 2, 200, "three times the hole is usual"},
			quantity{n + " eye hole", a.Eye.Hole, 0.5, a.Eye.Diameter, "give the diameter of the pin and its clearance"},
			quantity{n + " eye boss", a.Eye.Boss, 0, 200, "the height to the next layer, less a washer"},
		)
	}
	for _, q := range list {
		unit := "mm"
		switch q.field {
		case "number of arms":
			unit = ""
		default:
			if q.hi == 720 {
				unit = "deg"
			}
		}
		if err := check.InRange(q.field+" of "+s.Name, q.value, unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	return nil
}

// armName is how an error calls an arm: "arm" where there is but one.
func (s LinkSpec) armName(i int) string {
	if len(s.Arms) == 1 {
		return "arm"
	}
	return fmt.Sprintf("arm %d", i+1)
}

func (l *Link) refuse(field string, value float64, reason, remedy string) error {
	return &check.FieldError{Field: field + " of " + l.spec.Name, Value: value, Unit: "mm", Reason: reason, Remedy: remedy}
}

// outline returns the plan of the link: hub and arms, as drawn through the card.
func (l *Link) outline() ([]geom.Contour, error) {
	s := l.spec
	drawn := func(d float64) float64 { return s.Card.Outside.Draw(d) }
	arms := make([]armShape, 0, len(s.Arms))
	order := make([]int, 0, len(s.Arms))
	for again := true; again; { // a hub that takes in an eye may take in another
		again, arms, order = false, arms[:0], order[:0]
		for i, a := range s.Arms {
			shape, ok := armShape{
				angle: turned(a.Angle), length: a.Length, half: drawn(a.Width) / 2,
				eye: drawn(a.Eye.Diameter) / 2, fillet: armFillet,
			}.fitted(drawn(l.hub) / 2)
			if ok {
				arms, order = append(arms, shape), append(order, i)
			} else if round := 2*a.Length + a.Eye.Diameter; round > l.hub {
				l.hub, again = round, true
			}
		}
	}
	if len(arms) == 0 {
		return []geom.Contour{geom.Peg(geom.Point{}, drawn(l.hub), geom.ChordPlain)}, nil
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(turned(s.Arms[i].Angle), turned(s.Arms[j].Angle)) })
	slices.SortStableFunc(arms, func(a, b armShape) int { return cmp.Compare(a.angle, b.angle) })
	if err := l.apart(arms, order); err != nil {
		return nil, err
	}
	c, clash := starOutline(drawn(l.hub)/2, arms, geom.ChordPlain)
	if clash >= 0 {
		return nil, l.tooNear(order[clash], order[(clash+1)%len(order)])
	}
	return []geom.Contour{c}, nil
}

// turned returns an angle from 0 up to a turn.
func turned(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// apart refuses arms whose eyes or sides come nearer than a bead.
func (l *Link) apart(arms []armShape, order []int) error {
	bead := l.spec.Card.BeadWidth
	for i, a := range arms {
		for j, b := range arms {
			if i == j {
				continue
			}
			eye := geom.Polar(a.length, a.angle).Rotate(-b.angle) // in b's frame
			along := min(max(eye.X, 0), b.length)
			toArm := eye.Sub(geom.Point{X: along}).Len() - a.eye - b.half
			toEye := eye.Sub(geom.Point{X: b.length}).Len() - a.eye - b.eye
			if min(toArm, toEye) < bead {
				return l.tooNear(order[i], order[j])
			}
		}
	}
	return nil
}

func (l *Link) tooNear(i, j int) error {
	a, b := l.spec.Arms[i], l.spec.Arms[j]
	between := math.Abs(math.Remainder(a.Angle-b.Angle, 2*math.Pi)) * 180 / math.Pi
	return &check.FieldError{
		Field: "angle between arms of " + l.spec.Name, Value: math.Round(between*100) / 100, Unit: "deg",
		Reason: fmt.Sprintf("brings arm %d and arm %d into each other", min(i, j)+1, max(i, j)+1),
		Remedy: "spread the arms, or make arms and eyes narrower",
	}
}

package linkage

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A BracketSpec describes the printed plate that holds a servo by its tabs, with
// its shaft at the origin, and beside it the lever's pivot at the frame's
// distance along x. The tabs rest on the top. Lengths are mm.
type BracketSpec struct {
	Name      string
	Body      ServoBody
	Turn      float64 // rad, of the servo's long side from the x axis, its far end that way
	Thickness float64
	Pivot     *Pivot    // nil where the lever turns on something else
	Foot      *Foot     // nil for a plate screwed down flat
	Corner    fit.Screw // of the holes that screw the plate down; unused with a foot

	Card   fit.Card
	Limits check.Limits
}

// A ServoBody is a servo as measured for its bracket, in mm.
type ServoBody struct {
	Length, Width float64    // of the body
	Tabs          float64    // length over both tabs
	Holes         [2]float64 // spacing along and across; across 0 for one hole in each tab
	Hole          float64    // diameter of the holes
	ShaftFromEnd  float64    // from the body's nearer end to the shaft's axis
}

// A Pivot is a post that the lever turns on: a screw in its axis cuts its thread
// into the post.
type Pivot struct {
	Distance float64 // from the servo's shaft
	Screw    fit.Screw
	Height   float64 // of the post on the plate's top; 0 for a hole alone
	Diameter float64 // of the post
	Hole     float64 // wanted diameter through post and plate; 0 for the screw's pilot hole
}

// A Foot is a wall along the plate's edge below the servo, ribbed at its ends,
// that is screwed to a base square to the plate.
type Foot struct {
	Height float64 // above the plate's top; 0 for what the screws need
	Screw  fit.Screw
	Count  int
}

// A Bracket is one servo bracket, proved, in its print frame: servo's shaft at
// the origin, bed side down, z = 0 the bed.
type Bracket struct {
	spec     BracketSpec
	part     geom.Part
	fits     []fit.Fit
	walls    []wall
	tabScrew fit.Screw
	placed   []bracketHole
	foot     float64 // height of the foot over the top, mm; 0 without
	lo, hi   geom.Point
}

// Allowances of a bracket in mm (common practice, no source).
const (
	bodyPlay     = 0.3 // per side of the servo's body in its window
	bracketRim   = 4.0 // outside tabs, holes and post
	ribHeight    = 8.0
	ribThickness = 3.0
)

// NewBracket draws the bracket. The error is a *check.FieldError for sizes of
// which no bracket can be made.
func NewBracket(spec BracketSpec) (*Bracket, error) {
	b := &Bracket{spec: spec}
	if err := b.validate(); err != nil {
		return nil, err
	}
	holes := b.holes()
	b.placed = holes
	if err := b.judgeable(holes); err != nil {
		return nil, err
	}
	b.lo, b.hi = b.bounds(holes)
	if spec.Foot != nil { // clear of the tabs
		b.lo.Y -= b.footThickness() + ribHeight - bracketRim + 1
	}
	rim := geom.Rectangle(b.lo.Add(b.hi).Scale(0.5), b.hi.X-b.lo.X, b.hi.Y-b.lo.Y, b.corner(), 0, geom.ChordPlain)
	body := layers{card: spec.Card}
	body.add(0, spec.Thickness, rim)
	body.open(0, spec.Thickness, b.window())
	for _, h := range holes {
		body.open(0, spec.Thickness, h.contour)
	}
	if p := spec.Pivot; p != nil && p.Height > 0 {
		top := spec.Thickness + p.Height
		body.add(spec.Thickness, top, geom.Peg(geom.Point{X: p.Distance}, spec.Card.Outside.Draw(p.Diameter), geom.ChordPlain))
		for _, h := range holes {
			if h.pivot {
				body.open(spec.Thickness, top, h.contour)
			}
		}
	}
	slabs, err := b.stand(&body)
	if err != nil {
		return nil, err
	}
	b.part, err = geom.NewPart(spec.Name, slabs...)
	return b, err
}

// A bracketHole is one round hole of the plate.
type bracketHole struct {
	at      geom.Point
	wanted  float64
	contour geom.Contour
	pivot   bool
	what    string
	edge    float64 // radius round it that must be plate: a screw's head, the post
}

func (b *Bracket) validate() error {
	s, body := b.spec, b.spec.Body
	const measure = "measure the servo"
	type quantity struct {
		field         string
		value, lo, hi float64
		remedy        string
	}
	list := []quantity{
		{"plate thickness", s.Thickness, s.Card.BedChamfer() + 2*s.Card.LayerThickness, 50, "4 to 6 mm is usual"},
		{"body length", body.Length, 5, 300, measure},
		{"body width", body.Width, 3, 300, measure},
		{"tab length", body.Tabs, body.Length, 400, measure + " over both tabs"},
		{"tab hole spacing", body.Holes[0], body.Length, body.Tabs, measure + " between the holes' centres along its length"},
		{"tab hole spacing across", body.Holes[1], 0, body.Width, measure + " between the holes' centres across"},
		{"distance of the shaft from the body's end", body.ShaftFromEnd, 0, body.Length, measure},
	}
	if p := s.Pivot; p != nil {
		list = append(
			list,
			quantity{"frame", p.Distance, 1, geom.Extent / 2, "measure from the servo's shaft to the lever's pivot"},
			quantity{"post height", p.Height, 0, 200, "what brings the lever level with the horn"},
			quantity{"pivot screw", p.Screw.Diameter, 1, 20, "choose a screw, such as M4"},
		)
		if p.Height > 0 {
			list = append(list, quantity{"post diameter", p.Diameter, p.hole() + 4*s.Card.BeadWidth, 100, "three times the screw is usual"})
		}
	}
	if f := s.Foot; f != nil {
		list = append(list, quantity{"foot screws", float64(f.Count), 1, 20, "use two"}, quantity{"foot height", f.Height, 0, 200, "leave it out to have it chosen"})
	}
	for _, q := range list {
		if err := check.InRange(q.field+" of "+s.Name, q.value, "mm", q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	var ok bool
	if b.tabScrew, ok = fit.LargestThrough(body.Hole); !ok {
		return b.refuse("tab hole diameter", body.Hole, "passes no metric screw", measure+"'s tab holes again: M2 needs 2 mm")
	}
	return nil
}

func (b *Bracket) refuse(field string, value float64, reason, remedy string) error {
	return &check.FieldError{Field: field + " of " + b.spec.Name, Value: value, Unit: "mm", Reason: reason, Remedy: remedy}
}

// hole returns the wanted diameter of the pivot's hole.
func (p *Pivot) hole() float64 {
	if p.Hole > 0 {
		return p.Hole
	}
	return p.Screw.Pilot
}

// ServoCentre returns the middle of the servo's body in plan, its shaft at the
// origin.
func (s BracketSpec) ServoCentre() geom.Point {
	return geom.Polar(s.Body.Length/2-s.Body.ShaftFromEnd, s.Turn)
}

// holes lists the holes of the plate but those of the corners, fits noted. Tab
// screws cut their thread into the plate.
func (b *Bracket) holes() []bracketHole {
	s := b.spec
	var all []bracketHole
	tab := s.Card.Hole(s.Name, "tab pilot holes, "+b.tabScrew.Size, b.tabScrew.Pilot)
	b.fits = append(b.fits, tab)
	x, y := s.Body.Holes[0]/2, s.Body.Holes[1]/2
	places := []geom.Point{{X: x, Y: y}, {X: -x, Y: y}, {X: -x, Y: -y}, {X: x, Y: -y}}
	if y == 0 {
		places = []geom.Point{{X: x}, {X: -x}}
	}
	for _, q := range places {
		at := q.Rotate(s.Turn).Add(s.ServoCentre())
		all = append(all, bracketHole{at: at, wanted: tab.Wanted, contour: geom.Bore(at, tab.Drawn, geom.ChordPlain), what: "a tab hole", edge: b.tabScrew.HeadDiameter / 2})
	}
	if p := s.Pivot; p != nil {
		at := geom.Point{X: p.Distance}
		f := s.Card.Hole(s.Name, "pivot, "+p.Screw.Size, p.hole())
		b.fits = append(b.fits, f)
		all = append(all, bracketHole{at, f.Wanted, geom.Bore(at, f.Drawn, geom.ChordFit), true, "the pivot", max(p.Diameter, p.Screw.HeadDiameter) / 2})
	}
	if s.Foot == nil {
		all = append(all, b.corners(all)...)
	}
	return all
}

// window returns the opening for the servo's body.
func (b *Bracket) window() geom.Contour {
	s := b.spec
	length := s.Card.Hole(s.Name, "servo window, length", s.Body.Length+2*bodyPlay)
	width := s.Card.Hole(s.Name, "servo window, width", s.Body.Width+2*bodyPlay)
	b.fits = append(b.fits, length, width)
	return geom.Window(s.ServoCentre(), length.Drawn, width.Drawn, 0.5, s.Turn, geom.ChordPlain)
}

// bounds returns the plate's corners round tabs, holes and post.
func (b *Bracket) bounds(holes []bracketHole) (lo, hi geom.Point) {
	s := b.spec
	lo, hi = geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	take := func(p geom.Point, r float64) {
		lo = geom.Point{X: min(lo.X, p.X-r), Y: min(lo.Y, p.Y-r)}
		hi = geom.Point{X: max(hi.X, p.X+r), Y: max(hi.Y, p.Y+r)}
	}
	half := geom.Point{X: s.Body.Tabs / 2, Y: s.Body.Width / 2}
	for _, q := range []geom.Point{half, {X: half.X, Y: -half.Y}} {
		q = q.Rotate(s.Turn)
		take(s.ServoCentre().Add(q), bracketRim)
		take(s.ServoCentre().Sub(q), bracketRim)
	}
	for _, h := range holes {
		take(h.at, h.edge+bracketRim/2)
	}
	return lo, hi
}

func (b *Bracket) corner() float64 {
	if b.spec.Foot != nil {
		return inset
	}
	return b.spec.Corner.HeadDiameter/2 + bracketRim/2
}

// corners returns the holes that screw the plate down: outside what it holds.
func (b *Bracket) corners(inside []bracketHole) []bracketHole {
	screw := b.spec.Corner
	lo, hi := b.bounds(inside)
	f := b.spec.Card.Hole(b.spec.Name, "corner screw holes, "+screw.Size, screw.Clearance)
	b.fits = append(b.fits, f)
	r := screw.HeadDiameter / 2
	lo, hi = geom.Point{X: lo.X - r, Y: lo.Y}, geom.Point{X: hi.X + r, Y: hi.Y}
	var all []bracketHole
	for _, at := range []geom.Point{{X: hi.X, Y: hi.Y - r}, {X: lo.X, Y: hi.Y - r}, {X: lo.X, Y: lo.Y + r}, {X: hi.X, Y: lo.Y + r}} {
		all = append(all, bracketHole{at: at, wanted: f.Wanted, contour: geom.Bore(at, f.Drawn, geom.ChordPlain), what: "a corner hole", edge: r})
	}
	return all
}

// fromWindow returns how far a place is from the servo's window, in mm.
func (s BracketSpec) fromWindow(at geom.Point) float64 {
	local := at.Sub(s.ServoCentre()).Rotate(-s.Turn)
	dx, dy := math.Abs(local.X)-s.Body.Length/2-bodyPlay, math.Abs(local.Y)-s.Body.Width/2-bodyPlay
	return math.Hypot(max(dx, 0), max(dy, 0)) + min(max(dx, dy), 0)
}

// judgeable refuses holes that run into the window or each other, and notes the
// walls between them. Round the pivot the post and the heads of the screws beside
// it must find room.
func (b *Bracket) judgeable(holes []bracketHole) error {
	s := b.spec
	for i, h := range holes {
		if h.pivot {
			continue
		}
		value, what := s.fromWindow(h.at)-h.wanted/2, "between "+h.what+" and the servo's window"
		for _, o := range holes[:i] {
			if d := h.at.Sub(o.at).Len() - (h.wanted+o.wanted)/2; d < value {
				value, what = d, "between "+h.what+" and "+o.what
			}
		}
		const remedy = "measure the servo's tabs again"
		b.walls = append(b.walls, wall{value, what, func(float64) string { return remedy }})
		if value < s.Card.BeadWidth {
			return b.refuse("tab hole spacing", s.Body.Holes[0], "leaves nothing to print "+what, remedy)
		}
	}
	if s.Pivot == nil {
		return nil
	}
	value, what := b.aroundPivot(holes, s.Pivot.Distance)
	remedy := func(lack float64) string {
		wanted, distance := value+lack, s.Pivot.Distance
		for least, _ := b.aroundPivot(holes, distance); least < wanted && distance < 2*geom.Extent; least, _ = b.aroundPivot(holes, distance) {
			distance = math.Floor(distance*10+1+1e-9) / 10
		}
		return "frame >= " + upTo(distance) + " mm, or turn the servo (servo_turn)"
	}
	b.walls = append(b.walls, wall{value, what, remedy})
	if value < s.Card.BeadWidth {
		return b.refuse("frame", s.Pivot.Distance, "leaves nothing to print "+what, remedy(4*s.Card.BeadWidth-value))
	}
	return nil
}

// aroundPivot returns the least room round the pivot's post at a distance from
// the servo, and what is there. Corner holes move out with the pivot.
func (b *Bracket) aroundPivot(holes []bracketHole, distance float64) (least float64, what string) {
	at, edge := geom.Point{X: distance}, 0.0
	for _, h := range holes {
		if h.pivot {
			edge = h.edge
		}
	}
	least, what = b.spec.fromWindow(at)-edge, "between the pivot and the servo's window"
	for _, o := range holes {
		if o.pivot || o.what == "a corner hole" {
			continue
		}
		if d := o.at.Sub(at).Len() - edge - o.edge; d < least {
			least, what = d, "between the pivot and the head on "+o.what
		}
	}
	return least, what
}

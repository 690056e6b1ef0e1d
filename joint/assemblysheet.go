package joint

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pintle/check"
	"pintle/drawing"
	"pintle/export"
	"pintle/geom"
)

// An assemblySheet gathers the drawing of one joint put together.
type assemblySheet struct {
	b      *builder
	t      *turning
	bodies []drawing.Body
	marks  []drawing.Balloon
	items  drawing.Table
}

// assemblies returns how to draw each joint that stands on a plate, by the name
// of its files.
func (b *builder) assemblies() map[string]func() ([]byte, error) {
	draw := map[string]func() ([]byte, error){}
	for _, a := range b.arrangements {
		t, ok := b.turnings[a.name]
		if !ok || t.plate == nil || t.ring == nil || b.options.Slice {
			continue
		}
		draw[a.name+jointSuffix] = func() ([]byte, error) {
			var sheet bytes.Buffer
			err := writeSheet(&sheet, b.assemblySheet(a, t))
			return sheet.Bytes(), err
		}
	}
	return draw
}

// assemblySheet draws the section along the line of centres, lists the items and
// says how they go together.
func (b *builder) assemblySheet(a *arrangement, t *turning) drawing.Sheet {
	s := &assemblySheet{b: b, t: t, items: drawing.Table{Title: "Items", Columns: []string{"No.", "Qty", "Description", "Material", "Remarks"}}}
	for i, p := range a.placed {
		s.addPart(p.Placed, i)
	}
	bearing := t.kit.bearing
	s.add(t.bearingBody(), 1, "Bearing "+bearing.Name(), "", fmt.Sprintf("buy, %s×%s×%s", check.Number(bearing.Bore), check.Number(bearing.Outside), check.Number(bearing.Width)))
	s.add(t.servoBody(), 1, "Servo "+t.table.Servo, "", "buy")
	s.add(t.hornBody(), 1, "Horn of the servo", "", "comes with it")
	axes := s.screwAxes()
	for _, item := range b.bought(t) {
		number := strconv.Itoa(len(s.items.Rows) + 1)
		for _, what := range sorted(axes) {
			if strings.Contains(item.Name, "screw") && slices.Contains(strings.Split(item.For, "; "), what) {
				s.marks = append(s.marks, drawing.Balloon{At: axes[what].B, Item: number})
			}
		}
		s.items.Row(number, strconv.Itoa(item.Count), item.Name, "", "buy")
	}
	view := drawing.AssemblyOf(s.bodies)
	view.Title, view.Balloons = "A-A", s.marks
	view.Strokes = append(view.Strokes, s.axes(view)...)
	for _, what := range sorted(axes) {
		view.Strokes = append(view.Strokes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{axes[what]}})
	}
	view.Dimensions = s.dimensions()
	sheet := drawing.Sheet{Views: []drawing.View{view}, Tables: []drawing.Table{s.items}, Notes: s.notes()}
	sheet.Block = b.titleBlock(a.name+jointSuffix, "Assembly drawing")
	var parts []geom.Part
	for _, body := range b.bodies {
		parts = append(parts, body.part)
	}
	sheet.Block.Material = "see items"
	sheet.Block.Revision = revision(sheet, parts...)
	return sheet
}

// addPart adds one of the joint's own parts, its hatching unlike its neighbours'.
func (s *assemblySheet) addPart(p export.Placed, i int) {
	for _, body := range s.b.bodies {
		if body.part.Name() != p.Part {
			continue
		}
		turn := math.Pi / 4
		if i%2 == 1 {
			turn = -turn
		}
		how := "print"
		if body.cut != nil {
			how = "cut"
		}
		place := drawing.Place{X: p.X, Y: p.Y, Z: p.Z, Turn: p.TurnDeg * math.Pi / 180, Flip: p.Flip}
		s.add(drawing.CutBody(body.part, body.sheet.details.Toothed, place, turn, 2+0.6*float64(i%3)),
			1, strings.ReplaceAll(p.Part, "-", " "), body.material.Name, how+", drawing "+p.Part)
	}
}

func (s *assemblySheet) add(body drawing.Body, count int, name, material, remarks string) {
	number := strconv.Itoa(len(s.items.Rows) + 1)
	s.bodies = append(s.bodies, body)
	s.marks = append(s.marks, drawing.Balloon{At: body.Middle(), Item: number})
	s.items.Row(number, strconv.Itoa(count), name, material, remarks)
}

// axes draws the axes of wheel and servo.
func (s *assemblySheet) axes(v drawing.View) []drawing.Stroke {
	lo, hi := v.Bounds()
	var strokes []drawing.Stroke
	for _, x := range []float64{0, s.t.pair.CentreDistance()} {
		line := geom.Line{A: geom.Point{X: x, Y: lo.Y - 3}, B: geom.Point{X: x, Y: hi.Y + 3}}
		strokes = append(strokes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{line}})
	}
	return strokes
}

// screwAxes returns the axes of the screws by what they hold, turned into the
// section; each ends where its heads or its nuts are seen.
func (s *assemblySheet) screwAxes() map[string]geom.Line {
	const beyond = 4.0 // mm past what the screw holds
	t, p := s.t, s.t.plate.spec
	top := t.wheelFoot + t.table.FaceWidth
	upright := func(x, from, to float64) geom.Line {
		return geom.Line{A: geom.Point{X: x, Y: from}, B: geom.Point{X: x, Y: to}}
	}
	axes := map[string]geom.Line{}
	if len(p.bolts) > 0 {
		axes["ring to plate"] = upright(-p.bolts[0].Len(), t.ring.FlangeThickness()-recessDepth+beyond, -p.thickness-beyond)
	}
	if w := t.table.Wheel; w.BoltCircle > 0 {
		axes["table to wheel"] = upright(-w.BoltCircle/2, t.wheelFoot-beyond/2, top+w.Spacer+beyond)
	}
	if _, ok := t.hornJoint(); ok {
		axes["pinion to horn"] = upright(t.pair.CentreDistance()+t.servo.Horn.HoleCircle/2, t.wheelFoot-t.servo.Horn.Thickness, top+beyond)
	}
	return axes
}

// dimensions gives what must be set or felt when the joint is put together.
func (s *assemblySheet) dimensions() []drawing.Dimension {
	t := s.t
	top := t.wheelFoot + t.table.FaceWidth
	tolerance := t.pair.Spec().CentreTolerance
	centres := drawing.Dimension{
		Facing: drawing.Section, A: geom.Point{Y: top + t.table.Wheel.Spacer}, B: geom.Point{X: t.pair.CentreDistance(), Y: top},
	}
	centres.A.Y = max(centres.A.Y, centres.B.Y)
	centres.B.Y = centres.A.Y
	return []drawing.Dimension{
		centres.Within(-tolerance, tolerance).ToCheck(),
		drawing.Heights(t.pair.Wheel().TipDiameter()/2, 0, t.wheelFoot),
		drawing.Heights(t.pair.Wheel().TipDiameter()/2, 0, top),
	}
}

// notes number the order of assembly.
func (s *assemblySheet) notes() []string {
	notes := []string{"Section along the line of centres; screws by their axes, turned into it. Bought parts are simplified. Order of assembly:"}
	for i, line := range s.t.assembly() {
		notes = append(notes, fmt.Sprintf("%d  %s.", i+1, strings.TrimSuffix(line, ".")))
	}
	return notes
}

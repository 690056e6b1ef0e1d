package joint

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"pintle/check"
	"pintle/drawing"
	"pintle/export"
	"pintle/gear"
	"pintle/geom"
)

var (
	ruleSheetMaterial = check.Rule{
		Name:    "sheet-material",
		Meaning: "Some sheets must never be cut by laser: PVC and other vinyls give off hydrogen chloride, which hurts people and ruins the machine; ABS melts and gives off cyanide; polycarbonate burns and chars.",
		Formula: "words in the name of the sheet's material",
		Source:  "list of approved laser materials of a university workshop",
		Change:  "use acrylic, plywood, card or polyoxymethylene made for laser cutting",
		Sense:   check.Informs,
	}
	ruleSheetThickness = check.Rule{
		Name: "sheet-thickness", Unit: "mm",
		Meaning: "A part cut from sheet becomes as thick as the sheet, whatever height it was designed with. Sheets differ from their nominal thickness by a tenth or more.",
		Formula: "height of the part as designed less the measured thickness of the sheet; 0.05 mm are let pass",
		Source:  check.CommonPractice, Change: "design the part as thick as the sheet measures",
		Sense: check.Informs,
	}
)

// A cutting is one part as it is cut from sheet: closed curves, the kerf in.
type cutting struct {
	inside, outside [][]geom.Curve
	part            geom.Part // as it comes off the cutter: without the chamfers of a print
}

// addSheet finds the parts to cut from sheet, moves their outlines by half the
// kerf and judges the sheet.
func (b *builder) addSheet() error {
	stock := b.file.Sheet
	if stock.Material == "" || b.options.Slice {
		return nil
	}
	if err := b.validateStock(stock); err != nil {
		return err
	}
	b.find("sheet", judgeSheet(stock.Material))
	b.report.Designs["sheet"] = map[string]any{
		"material": stock.Material, "thickness": stock.Thickness, "kerf": stock.Kerf, "kerf_applied": stock.Kerf > 0, "count": max(stock.Count, 1),
	}
	for i := range b.bodies {
		body := &b.bodies[i]
		name := body.part.Name()
		named := slices.Contains(stock.Parts, name)
		if len(stock.Parts) > 0 && !named {
			continue
		}
		contours, flat := flatOutline(body.part)
		if !flat {
			if named {
				return b.refuseCut(name, "is not flat: its outline changes with the height")
			}
			continue
		}
		cut, err := b.cutting(*body, contours)
		if err != nil {
			return b.refuseCut(name, err.Error())
		}
		if cut.part, err = geom.NewPart(name, geom.Slab{Z1: body.part.Height(), Bottom: contours}); err != nil {
			return b.refuseCut(name, err.Error())
		}
		body.cut = cut
		if off := body.part.Height() - stock.Thickness; math.Abs(off) > 0.05 {
			f := ruleSheetThickness.Say(check.Note, off, fmt.Sprintf("%s is %s mm high as designed, the sheet %s mm", name, check.Number(body.part.Height()), check.Number(stock.Thickness)),
				fmt.Sprintf("make it %s mm, or leave it so", check.Number(stock.Thickness)))
			f.Part = name
			b.find(body.design, f)
		}
	}
	return nil
}

func (b *builder) refuseCut(part, reason string) error {
	return b.file.Blame("sheet", &check.FieldError{
		Field: "parts", Text: part, Reason: reason,
		Remedy: "leave the part out of parts, and print it",
	})
}

func (b *builder) validateStock(s Stock) error {
	names := map[string]bool{}
	for _, body := range b.bodies {
		names[body.part.Name()] = true
	}
	for _, name := range s.Parts {
		if !names[name] {
			return b.file.Blame("sheet", &check.FieldError{
				Field: "parts", Text: name, Reason: "is no part of this joint", Remedy: "the parts are " + strings.Join(sorted(names), ", "),
			})
		}
	}
	for _, q := range []struct {
		field         string
		value, lo, hi float64
		unit, remedy  string
	}{
		{"thickness", s.Thickness, 0.1, 100, "mm", "measure the sheet with a caliper"},
		{"kerf", s.Kerf, 0, 3, "mm", "cut a 20 mm square and measure: 20 less what it measures; 0.15 to 0.25 is usual for a laser"},
		{"density", s.Density, 0, 25, "g/cm³", "weigh a piece, or leave it out"},
		{"count", float64(s.Count), 0, 1e6, "", "the number of pieces of each part"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return b.file.Blame("sheet", err)
		}
	}
	return nil
}

// judgeSheet fails sheets that no laser may cut, by the words of their name.
func judgeSheet(material string) check.Finding {
	words := strings.FieldsFunc(strings.ToLower(material), func(r rune) bool { return r < 'a' || r > 'z' })
	for _, w := range words {
		switch {
		case w == "pvc" || strings.HasPrefix(w, "vinyl") || strings.HasPrefix(w, "polyvinyl"):
			return ruleSheetMaterial.Say(check.Fail, 0, material+" must never be cut by laser: it gives off hydrogen chloride", ruleSheetMaterial.Change)
		case w == "pc" || w == "abs" || strings.HasPrefix(w, "polycarbonate"):
			return ruleSheetMaterial.Say(check.Caution, 0, material+" is not fit for a laser: it chars, melts or gives off poison; saw or mill it", ruleSheetMaterial.Change)
		}
	}
	return ruleSheetMaterial.Say(check.Pass, 0, material, "")
}

// flatOutline returns the outline of a part that has the same one at every
// height, chamfers aside.
func flatOutline(part geom.Part) ([]geom.Contour, bool) {
	const chamfer = 1.5 // mm, no slope of a flat part is higher
	var outline []geom.Contour
	for _, s := range part.Slabs() {
		switch {
		case s.Top != nil && s.Z1-s.Z0 < chamfer:
		case s.Top != nil:
			return nil, false
		case outline == nil:
			outline = s.Bottom
		case !sameOutline(outline, s.Bottom):
			return nil, false
		}
	}
	return outline, outline != nil
}

func sameOutline(a, b []geom.Contour) bool {
	return slices.EqualFunc(a, b, func(p, q geom.Contour) bool { return slices.Equal(p.Curves, q.Curves) })
}

// cutting moves each outline of a flat part by half the kerf: teeth by their
// formula, circles from their wanted size, others as they are drawn.
func (b *builder) cutting(body body, contours []geom.Contour) (*cutting, error) {
	kerf := b.file.Sheet.Kerf
	for _, name := range sorted(b.racks) {
		if rack := b.racks[name]; rack.Parts()[1].Name() == body.part.Name() {
			return cutRack(rack, kerf)
		}
	}
	toothed := b.gearOf(body.part.Name())
	allowances := b.allowances(body.part.Name())
	cut := &cutting{}
	for _, c := range contours {
		var curves []geom.Curve
		var err error
		switch {
		case len(c.Curves) == 0:
			return nil, fmt.Errorf("has an outline that is no curve")
		case toothed != nil && slices.Equal(c.Curves, toothed.Outline().Curves):
			var teeth geom.Contour
			if teeth, err = toothed.CutOutline(kerf); err == nil {
				curves = teeth.Curves
			}
		case c.Diameter() > 0:
			curves, err = geom.Offset([]geom.Curve{wantedCircle(c.Curves[0].(geom.Arc), allowances)}, kerf/2)
		default:
			curves, err = geom.Offset(c.Curves, kerf/2)
		}
		if err != nil {
			return nil, err
		}
		if signedArea(c.Points) < 0 {
			cut.inside = append(cut.inside, curves)
		} else {
			cut.outside = append(cut.outside, curves)
		}
	}
	return cut, nil
}

// cutRack moves the nominal outline of a toothed rack, and its holes.
func cutRack(rack *gear.RackDrive, kerf float64) (*cutting, error) {
	contours, err := rack.CutOutline(kerf)
	if err != nil {
		return nil, err
	}
	cut := &cutting{outside: [][]geom.Curve{contours[0].Curves}}
	for _, hole := range contours[1:] {
		cut.inside = append(cut.inside, hole.Curves)
	}
	return cut, nil
}

// wantedCircle returns the circle that the finished part should have.
func wantedCircle(drawn geom.Arc, allowances []drawing.Allowance) geom.Arc {
	for _, a := range allowances {
		if math.Abs(a.Drawn-2*drawn.Radius) < 1e-6 {
			drawn.Radius = a.Wanted / 2
			break
		}
	}
	return drawn
}

func signedArea(points []geom.Point) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum / 2
}

// cutColour is that of every line to cut, unless the file says otherwise.
const cutColour = "#000000"

// writeCut writes what the cutter gets: holes first, then outlines.
func (b *builder) writeCut(w io.Writer, body body) error {
	colour := func(given string) string {
		if given == "" {
			return cutColour
		}
		return given
	}
	return export.WriteCut(w, body.part.Name(), []export.Operation{
		{Name: "inside", Colour: colour(b.file.Sheet.Inside), Paths: body.cut.inside},
		{Name: "outside", Colour: colour(b.file.Sheet.Outside), Paths: body.cut.outside},
	})
}

package paper_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pintle/drawing"
	"pintle/drawing/paper"
	"pintle/geom"
)

var origin geom.Point

func box(t *testing.T, length, width, height float64) geom.Part {
	t.Helper()
	p, err := geom.NewPart("box", geom.Slab{Z1: height, Bottom: []geom.Contour{geom.Rectangle(origin, length, width, 0, 0, 0.02)}})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func set(t *testing.T, sheet drawing.Sheet) drawing.Page {
	t.Helper()
	page, err := paper.Set(sheet)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// The smallest sheet at true size, else the next scale of ISO 5455 that fits;
// the smallest parts are enlarged. Sheets of ISO 216.
func TestSheetAndScale(t *testing.T) {
	for _, test := range []struct {
		why           string
		l, w, h       float64
		format, scale string
	}{
		{"a small part is enlarged", 10, 8, 3, "A4", "5:1"},
		{"one below 20 mm doubled", 18, 12, 3, "A4", "2:1"},
		{"one that can be read at true size", 25, 20, 3, "A4", "1:1"},
		{"true size on A4", 60, 40, 10, "A4", "1:1"},
		{"true size on A3 before a smaller scale", 200, 100, 10, "A3", "1:1"},
		{"half size", 260, 240, 20, "A4", "1:2"},
		{"a fifth", 900, 600, 20, "A3", "1:5"},
	} {
		t.Run(test.why, func(t *testing.T) {
			page := set(t, drawing.OfPart(box(t, test.l, test.w, test.h), drawing.Details{}, nil))
			if page.Format != test.format || page.Scale != test.scale {
				t.Errorf("%s at %s, want %s at %s", page.Format, page.Scale, test.format, test.scale)
			}
			want := map[string][2]float64{"A4": {210, 297}, "A3": {420, 297}}[page.Format]
			if page.Width != want[0] || page.Height != want[1] {
				t.Errorf("%g x %g mm", page.Width, page.Height)
			}
		})
	}
}

// Each dimension is drawn as long as it says, times the scale, between two
// arrowheads: read back from the page.
func TestDimensionLinesAreTrue(t *testing.T) {
	for _, scaled := range []struct {
		l, w, scale float64
	}{{60, 44, 1}, {12, 7, 5}, {300, 288, 0.5}} {
		page := set(t, drawing.OfPart(box(t, scaled.l, scaled.w, 10), drawing.Details{}, nil))
		var tips []geom.Point
		for _, s := range page.Strokes {
			if s.Kind == drawing.Solid {
				tips = append(tips, s.Curves[0].Start())
			}
		}
		for _, size := range []float64{scaled.l, scaled.w, 10} {
			found := false
			for i, p := range tips {
				for _, q := range tips[i+1:] {
					d := q.Sub(p)
					along := math.Min(math.Abs(d.X), math.Abs(d.Y)) < 1e-9
					found = found || along && math.Abs(d.Len()-size*scaled.scale) < 1e-6
				}
			}
			if !found {
				t.Errorf("%g x %g: no two arrows stand %g mm apart", scaled.l, scaled.w, size*scaled.scale)
			}
		}
	}
}

// A dimension for which there is no room is listed, not lost: every figure of a
// crowded view stands somewhere on the sheet.
func TestNoDimensionIsLost(t *testing.T) {
	details := drawing.Details{}
	for i := range 40 {
		at := geom.Point{X: -40 + 2*float64(i), Y: -5 + float64(i%7)}
		details.Dimensions = append(details.Dimensions,
			drawing.Circle(at, 0.5+float64(i)/100),
			drawing.Between(geom.Point{X: -45, Y: -8}, at).Within(-0.1, 0.1).ToCheck(),
			drawing.Opening(at, at.Add(geom.Point{X: 3}), at.Add(geom.Polar(3, 0.3+float64(i)/50))))
	}
	sheet := drawing.OfPart(box(t, 90, 20, 5), details, nil)
	page := set(t, sheet)
	words := map[string]bool{}
	for _, text := range page.Texts {
		words[text.Text] = true
	}
	listed := words["Further sizes"]
	for _, v := range sheet.Views {
		for _, d := range v.Dimensions {
			text := d.Text()
			if !words[text] && !words[text+" "] {
				t.Errorf("%s is lost (further sizes listed: %v)", text, listed)
			}
		}
	}
}

// Widths are those of the fonts: of DejaVu Sans a digit is 0.636 of the size and
// an em dash 1 (its advance widths, 1303 and 2048 of 2048), and no common
// sans-serif font is wider.
func TestWidth(t *testing.T) {
	for text, ems := range map[string]float64{"0": 0.637, "00": 1.274, "M": 0.863, "": 0, "W": 0.989} {
		if got := paper.Width(text, 0.716); math.Abs(got-ems) > 1e-9 {
			t.Errorf("%q is %.4f mm wide at a font size of 1 mm, want %.4f", text, got, ems)
		}
	}
	if paper.Width("漢", 0.716) < 1 {
		t.Error("an unknown letter gets less room than a square")
	}
}

// More tables and notes than a sheet holds do not stop a drawing.
func TestTooMuchToSay(t *testing.T) {
	sheet := drawing.OfPart(box(t, 60, 40, 10), drawing.Details{}, nil)
	for i := range 300 {
		sheet.Notes = append(sheet.Notes, fmt.Sprintf("note %d", i))
	}
	page := set(t, sheet)
	if page.Format != "A4" {
		t.Errorf("format %s", page.Format)
	}
}

// The leader of a hole's diameter points at its centre and ends with its arrow on
// the circle.
func TestLeaderEndsOnTheCircle(t *testing.T) {
	at := geom.Point{X: 20, Y: 5}
	part, err := geom.NewPart("plate", geom.Slab{Z1: 5, Bottom: []geom.Contour{geom.Rectangle(origin, 80, 40, 0, 0, 0.02), geom.Bore(at, 16, 0.02)}})
	if err != nil {
		t.Fatal(err)
	}
	page := set(t, drawing.OfPart(part, drawing.Details{}, nil))
	var centre geom.Point
	for _, s := range page.Strokes {
		if arc, ok := s.Curves[0].(geom.Arc); ok && s.Kind == drawing.Outline && arc.Radius == 8 {
			centre = arc.Centre
		}
	}
	for _, s := range page.Strokes {
		if s.Kind != drawing.Solid {
			continue
		}
		tip, back := s.Curves[0].Start(), s.Curves[1].Start().Add(s.Curves[1].End()).Scale(0.5)
		in, along := centre.Sub(tip), tip.Sub(back)
		if math.Abs(in.Len()-8) < 1e-6 && math.Abs(in.X*along.Y-in.Y*along.X) < 1e-6 && in.X*along.X+in.Y*along.Y > 0 {
			return
		}
	}
	t.Errorf("no arrow ends on the circle about %v", centre)
}

// The length of a bar that stands nearly upright is read from the right, whichever
// way it leans, and stands clear of all else that the view shows (ISO 129-1, from
// memory).
func TestNearlyUprightLength(t *testing.T) {
	frame := geom.Rectangle(geom.Point{X: 30, Y: 20}, 60, 40, 0, 0, 0.02)
	var outline drawing.Stroke
	for i, p := range frame.Points {
		outline.Curves = append(outline.Curves, geom.Line{A: p, B: frame.Points[(i+1)%len(frame.Points)]})
	}
	outline.Kind, outline.Closed = drawing.Outline, true
	for _, lean := range []float64{-6, -0.01, 0.01, 6} {
		for _, x := range []float64{15, 45} {
			size := drawing.Between(geom.Point{X: x, Y: 5}, geom.Point{X: x + lean, Y: 35}).Measuring(31)
			page := set(t, drawing.Sheet{Views: []drawing.View{{Strokes: []drawing.Stroke{outline}, Dimensions: []drawing.Dimension{size}}}})
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, s := range page.Strokes {
				if s.Kind == drawing.Outline && len(s.Curves) == 4 {
					for _, c := range s.Curves {
						lo, hi = min(lo, c.Start().X), max(hi, c.Start().X)
					}
				}
			}
			for _, text := range page.Texts {
				if text.Text != "31" {
					continue
				}
				if turn := text.Turn * 180 / math.Pi; turn < 75 || turn > 105 {
					t.Errorf("leaning %v mm: the figure is turned %v deg", lean, turn)
				}
				if right := x > 30; right && text.At.X < hi || !right && text.At.X > lo {
					t.Errorf("leaning %v mm at %v: the figure stands at %v, the outline from %v to %v", lean, x, text.At.X, lo, hi)
				}
			}
		}
	}
}

// A cell too long for its column goes on in the next line: no word of it is lost,
// and its table stays as wide as the drawing space of A4.
func TestLongCellsAreBroken(t *testing.T) {
	long := "M4 screw, as long as the plate 6 mm plus what it goes into, with a washer under its head and a nut that grips"
	sheet := drawing.OfPart(box(t, 60, 40, 10), drawing.Details{}, nil)
	items := drawing.Table{Title: "Items"}
	items.Row("1", long, "print, drawing lamp-wheel")
	items.Row("2", "below", "buy")
	sheet.Tables = []drawing.Table{items}
	page := set(t, sheet)
	var words []string
	var last, below float64
	for _, text := range page.Texts {
		if strings.Contains(long, text.Text) && len(text.Text) > 10 {
			words = append(words, text.Text)
			last = text.At.Y
		}
		if text.Text == "below" {
			below = text.At.Y
		}
	}
	if got := strings.Join(words, " "); got != long || len(words) < 2 {
		t.Errorf("the cell reads %q", words)
	}
	if below > last-4 {
		t.Errorf("the next row stands at %.1f, the cell ends at %.1f", below, last)
	}
}

// A note too long to stand between short extension lines goes below the
// dimension line, close by, its figure above: 5.6 mm at true size here.
func TestNoteStandsBelowItsFigure(t *testing.T) {
	details := drawing.Details{Dimensions: []drawing.Dimension{
		drawing.Between(geom.Point{X: 20, Y: -2.8}, geom.Point{X: 20, Y: 2.8}).Saying("over the nut's flats"),
	}}
	page := set(t, drawing.OfPart(box(t, 60, 40, 10), details, nil))
	at := map[string]geom.Point{}
	for _, text := range page.Texts {
		at[text.Text] = text.At
	}
	figure, ok := at["5.6"]
	note, below := at["over the nut's flats"]
	if !ok || !below {
		t.Fatalf("the texts are %v", at)
	}
	if figure.Y != note.Y || note.X < figure.X+3 || note.X > figure.X+8 { // read from the right
		t.Errorf("the figure stands at %v, its note at %v", figure, note)
	}
	for _, s := range page.Strokes {
		if s.Kind != drawing.Solid {
			continue
		}
		if d := s.Curves[0].Start().Sub(figure); d.X > 0 && d.X < 5 && math.Abs(d.Y) < 4.5+paper.Width("over the nut's flats", 2.5)/2+0.01 {
			return
		}
	}
	t.Error("the figure stands far from its arrows")
}

// A small part is doubled where true size has no room for all of its sizes, here
// eight angles in the space of 25 mm (design choice).
func TestCrowdedSmallPartIsDoubled(t *testing.T) {
	details := drawing.Details{}
	for i := range 8 {
		at := geom.Point{X: -10 + 1.4*float64(i), Y: -5 + float64(i%7)}
		details.Dimensions = append(details.Dimensions,
			drawing.Opening(at, at.Add(geom.Point{X: 3}), at.Add(geom.Polar(3, 0.3+float64(i)/50))))
	}
	if page := set(t, drawing.OfPart(box(t, 25, 20, 3), details, nil)); page.Scale != "2:1" {
		t.Errorf("scale %s", page.Scale)
	}
}

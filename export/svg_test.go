package export_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"pintle/drawing"
	"pintle/drawing/paper"
	"pintle/export"
	"pintle/geom"
)

// An element is an XML element read back from a drawing.
type element struct {
	name  string
	attrs map[string]string
	group map[string]string // attributes of the group it is in
	text  string
}

func (e element) number(t *testing.T, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(e.attrs[name], "mm"), 64)
	if err != nil {
		t.Fatalf("%s %s: %v", e.name, name, err)
	}
	return v
}

func readSVG(t *testing.T, text []byte) []element {
	t.Helper()
	var all []element
	var group map[string]string
	d := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attrs: map[string]string{}, group: group}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			if e.name == "g" {
				group = e.attrs
			}
			all = append(all, e)
		case xml.CharData:
			if len(all) > 0 {
				all[len(all)-1].text += string(token)
			}
		}
	}
}

// bracket is a plate with rounded corners, a boss with a stepped bore, screw
// holes and a slot that runs under the boss.
func bracket(t *testing.T) geom.Part {
	t.Helper()
	var origin geom.Point
	outer := geom.Rectangle(origin, 60, 40, 5, 0, 0.02)
	slot := geom.Window(geom.Point{X: 8}, 30, 4, 2, 0.3, 0.02)
	plate := []geom.Contour{outer, slot}
	for _, p := range []geom.Point{{X: -24, Y: -14}, {X: 24, Y: -14}, {X: 24, Y: 14}, {X: -24, Y: 14}} {
		plate = append(plate, geom.Bore(p, 3.4, 0.02))
	}
	boss, bore := geom.Peg(origin, 26, 0.02), geom.Bore(origin, 10, 0.02)
	part, err := geom.NewPart("bracket & boss",
		geom.Slab{Z0: 0, Z1: 4, Bottom: plate},
		geom.Slab{Z0: 4, Z1: 8, Bottom: []geom.Contour{boss, bore}},
		geom.Slab{Z0: 8, Z1: 9, Bottom: []geom.Contour{boss, bore}, Top: []geom.Contour{boss.Resize(24), bore.Resize(12)}},
	)
	if err != nil {
		t.Fatal(err)
	}
	return part
}

func bracketSVG(t *testing.T) []byte {
	t.Helper()
	page, err := paper.Set(drawing.OfPart(bracket(t), drawing.Details{}, nil))
	if err != nil {
		t.Fatal(err)
	}
	return svgOf(t, page)
}

func svgOf(t *testing.T, page drawing.Page) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := export.WriteSVG(&out, page); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// A drawing at true size states its size in mm and the same numbers in its
// viewBox (SVG 1.1 section 7.7: then one user unit is one millimetre), and its
// check line measures 100.000.
func TestSVGIsTrueSize(t *testing.T) {
	text := bracketSVG(t)
	if bytes.Contains(text, []byte("NaN")) || bytes.Contains(text, []byte("Inf")) {
		t.Error("the drawing holds a number that is not finite")
	}
	all := readSVG(t, text)
	box := strings.Fields(all[0].attrs["viewBox"])
	for i, name := range []string{"", "", "width", "height"} {
		v, err := strconv.ParseFloat(box[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		want := 0.0
		if name != "" {
			want = all[0].number(t, name)
			if !strings.HasSuffix(all[0].attrs[name], "mm") {
				t.Errorf("%s %q has no unit", name, all[0].attrs[name])
			}
		}
		if v != want {
			t.Errorf("viewBox %v against %s %g", box, name, want)
		}
	}
	checks := 0
	for _, e := range all {
		if e.name == "line" && e.attrs["data-line"] == "check" {
			checks++
			length := math.Hypot(e.number(t, "x2")-e.number(t, "x1"), e.number(t, "y2")-e.number(t, "y1"))
			if math.Abs(length-100) > 5e-4 {
				t.Errorf("check line %.4f mm", length)
			}
		}
	}
	if checks != 1 {
		t.Errorf("%d check lines", checks)
	}
}

// pathPoints returns the end points of the curves of path data.
func pathPoints(t *testing.T, d string) (points []geom.Point, closed bool) {
	t.Helper()
	words := strings.Fields(d)
	take := map[string]int{"M": 2, "L": 2, "A": 7, "C": 6}
	for i := 0; i < len(words); {
		if words[i] == "Z" {
			return points, i == len(words)-1
		}
		n, ok := take[words[i]]
		if !ok {
			t.Fatalf("path data %q", d)
		}
		var v [2]float64
		for k := range v {
			var err error
			if v[k], err = strconv.ParseFloat(words[i+n-1+k], 64); err != nil {
				t.Fatal(err)
			}
		}
		points = append(points, geom.Point{X: v[0], Y: v[1]})
		i += n + 1
	}
	return points, false
}

// Each curve of a closed outline must end in the path where it ends in the
// drawing, to the four decimals written; arcs have points of their own between.
func TestSVGFollowsTheCurves(t *testing.T) {
	view := drawing.PlanOf(bracket(t), nil)
	all := readSVG(t, svgOf(t, drawing.Page{Width: 100, Height: 100, Wide: 0.5, Narrow: 0.25, Strokes: view.Strokes}))
	var paths []element
	for _, e := range all {
		if e.name == "path" && e.group["data-line"] == "01.2" {
			paths = append(paths, e)
		}
	}
	var strokes []drawing.Stroke
	for _, s := range view.Strokes {
		if s.Kind == drawing.Outline {
			strokes = append(strokes, s)
		}
	}
	if len(paths) != len(strokes) {
		t.Fatalf("%d paths for %d outlines", len(paths), len(strokes))
	}
	var shift geom.Point
	for i, s := range strokes {
		points, closed := pathPoints(t, paths[i].attrs["d"])
		if closed != s.Closed {
			t.Errorf("path %d: closed %v, drawn %v", i, closed, s.Closed)
		}
		start := s.Curves[0].Start()
		if i == 0 {
			shift = geom.Point{X: points[0].X - start.X, Y: points[0].Y + start.Y}
		}
		next := 0
		for k, c := range s.Curves {
			if _, straight := c.(geom.Line); straight && closed && k == len(s.Curves)-1 {
				continue // drawn by Z
			}
			end := geom.Point{X: shift.X + c.End().X, Y: shift.Y - c.End().Y}
			for next++; next < len(points) && points[next].Sub(end).Len() > 2e-4; next++ {
			}
			if next >= len(points) {
				t.Errorf("path %d never comes to the end of curve %d, %v", i, k, c)
				break
			}
		}
	}
}

// Arcs keep their side: the middle of each arc piece, worked out from the sweep
// flag as SVG 1.1 section F.6 has it, must lie on the circle of the drawing.
func TestSVGArcSide(t *testing.T) {
	arc := geom.Arc{Centre: geom.Point{X: 3, Y: 4}, Radius: 10, From: 0.2, To: 1.4}
	back := geom.Arc{Centre: arc.Centre, Radius: 10, From: 1.4, To: 0.2}
	for _, a := range []geom.Arc{arc, back} {
		page := drawing.Page{Width: 20, Height: 20, Strokes: []drawing.Stroke{{Curves: []geom.Curve{a}}}}
		for _, e := range readSVG(t, svgOf(t, page)) {
			if e.name != "path" {
				continue
			}
			words := strings.Fields(e.attrs["d"])
			sweep := words[len(words)-3]
			// Seen on the page, y down, a positive sweep turns clockwise.
			if want := map[bool]string{true: "0", false: "1"}[a.To > a.From]; sweep != want || words[len(words)-4] != "0" {
				t.Errorf("arc from %g to %g: flags %v", a.From, a.To, words)
			}
		}
	}
}

// Lettering comes out at the height, place, anchor and turn asked for: capitals
// are 0.716 of the font size in Arial (read from the font's metric equal), and
// SVG turns clockwise, its y running down.
func TestSVGLettering(t *testing.T) {
	page := drawing.Page{Width: 100, Height: 50, Texts: []drawing.Text{
		{At: geom.Point{X: 10, Y: 20}, Text: "Ø8 < 9 & more", Height: 2.5, Anchor: drawing.End, Turn: math.Pi / 2},
		{At: geom.Point{X: 30, Y: 5}, Text: "A-A", Height: 3.5, Anchor: drawing.Middle},
	}}
	var texts []element
	for _, e := range readSVG(t, svgOf(t, page)) {
		if e.name == "text" {
			e.text = strings.TrimSpace(e.text)
			texts = append(texts, e)
		}
	}
	if len(texts) != 2 || texts[0].text != "Ø8 < 9 & more" || texts[1].text != "A-A" {
		t.Fatalf("texts %v", texts)
	}
	first, second := texts[0], texts[1]
	if got := first.number(t, "font-size") * 0.716; math.Abs(got-2.5) > 1e-3 {
		t.Errorf("capitals are %.4f mm high", got)
	}
	if first.attrs["text-anchor"] != "end" || first.attrs["transform"] != "rotate(-90 10 30)" || first.number(t, "y") != 30 {
		t.Errorf("upright text %v", first.attrs)
	}
	if second.attrs["text-anchor"] != "middle" || second.attrs["transform"] != "" || second.number(t, "x") != 30 || second.number(t, "y") != 45 {
		t.Errorf("level text %v", second.attrs)
	}
}

func TestSVGRefusesNaN(t *testing.T) {
	bad := drawing.Stroke{Curves: []geom.Curve{geom.Line{B: geom.Point{X: math.NaN()}}}}
	var out bytes.Buffer
	if err := export.WriteSVG(&out, drawing.Page{Strokes: []drawing.Stroke{bad}}); err == nil || out.Len() > 0 {
		t.Errorf("got %v and %d bytes", err, out.Len())
	}
}

// A full disk must be noticed, though the SVG library drops write errors.
func TestSVGKeepsTheWriteError(t *testing.T) {
	if err := export.WriteSVG(fullDisk{}, drawing.Page{Strokes: drawing.PlanOf(bracket(t), nil).Strokes}); !errors.Is(err, errFull) {
		t.Errorf("got %v", err)
	}
}

var errFull = errors.New("no space left")

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

package joint_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"pintle/drawing/paper"
)

// A readSheet is what a drawing's SVG file shows: lines as straight pieces and
// the boxes of its texts, in mm, y downwards.
type readSheet struct {
	width, height float64
	pieces        [][4]float64
	texts         []readText
	check         [4]float64
}

type readText struct {
	words             string
	x, y, size, width float64 // of the start of the base line; size is the font's
	turn              float64 // rad, clockwise on the page, as SVG turns
}

// inside says whether a place lies in the text's box: 0.3 of a capital below the
// base line and 1.1 above, as wide as the widest font makes it.
func (r readText) inside(px, py float64) bool {
	capital := 0.716 * r.size
	sin, cos := math.Sincos(r.turn)
	u, v := (px-r.x)*cos+(py-r.y)*sin, (py-r.y)*cos-(px-r.x)*sin
	return u > 0 && u < r.width && v > -1.1*capital && v < 0.3*capital
}

// at returns a place of the page by its place along and across the text.
func (r readText) at(u, v float64) (x, y float64) {
	sin, cos := math.Sincos(r.turn)
	return r.x + u*cos - v*sin, r.y + u*sin + v*cos
}

// sides returns the four sides of the box.
func (r readText) sides() (pieces [][4]float64) {
	capital := 0.716 * r.size
	corners := [][2]float64{{0, 0.3 * capital}, {r.width, 0.3 * capital}, {r.width, -1.1 * capital}, {0, -1.1 * capital}}
	for i, c := range corners {
		d := corners[(i+1)%4]
		x0, y0 := r.at(c[0], c[1])
		x1, y1 := r.at(d[0], d[1])
		pieces = append(pieces, [4]float64{x0, y0, x1, y1})
	}
	return pieces
}

// bounds returns the upright box around the text's box.
func (r readText) bounds() (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, s := range r.sides() {
		x0, y0, x1, y1 = min(x0, s[0]), min(y0, s[1]), max(x1, s[0]), max(y1, s[1])
	}
	return x0, y0, x1, y1
}

func readDrawing(t *testing.T, file []byte) readSheet {
	t.Helper()
	var s readSheet
	d := xml.NewDecoder(bytes.NewReader(file))
	attr := func(e xml.StartElement, name string) string {
		for _, a := range e.Attr {
			if a.Name.Local == name {
				return a.Value
			}
		}
		return ""
	}
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(strings.TrimSuffix(text, "mm"), 64)
		if err != nil {
			t.Fatalf("number %q: %v", text, err)
		}
		return v
	}
	var open *xml.StartElement
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return s
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			open = nil
			switch e.Name.Local {
			case "svg":
				s.width, s.height = number(attr(e, "width")), number(attr(e, "height"))
			case "path":
				s.pieces = append(s.pieces, pathPieces(t, attr(e, "d"))...)
			case "line":
				s.check = [4]float64{number(attr(e, "x1")), number(attr(e, "y1")), number(attr(e, "x2")), number(attr(e, "y2"))}
				s.pieces = append(s.pieces, s.check)
			case "text":
				copied := e.Copy()
				open = &copied
			}
		case xml.CharData:
			if open == nil {
				continue
			}
			start := *open
			r := readText{words: string(e), x: number(attr(start, "x")), y: number(attr(start, "y")), size: number(attr(start, "font-size"))}
			r.width = paper.Width(r.words, 0.716*r.size)
			if turn := attr(start, "transform"); turn != "" {
				words := strings.Fields(strings.TrimSuffix(strings.TrimPrefix(turn, "rotate("), ")"))
				if len(words) != 3 || number(words[1]) != r.x || number(words[2]) != r.y {
					t.Fatalf("a text with the transform %q", turn)
				}
				r.turn = number(words[0]) * math.Pi / 180
			}
			back := map[string]float64{"middle": r.width / 2, "end": r.width}[attr(start, "text-anchor")]
			r.x, r.y = r.at(-back, 0)
			s.texts = append(s.texts, r)
			open = nil
		}
	}
}

// pathPieces follows path data of M, L, A, C and Z; a circle's arc is cut into
// pieces about the middle that its radius and sweep give.
func pathPieces(t *testing.T, d string) (pieces [][4]float64) {
	t.Helper()
	words := strings.Fields(d)
	var v [7]float64
	var x, y, x0, y0 float64
	to := func(px, py float64) {
		pieces = append(pieces, [4]float64{x, y, px, py})
		x, y = px, py
	}
	count := map[string]int{"M": 2, "L": 2, "A": 7, "C": 6, "Z": 0}
	for i := 0; i < len(words); {
		n, ok := count[words[i]]
		if !ok {
			t.Fatalf("path data %q", d)
		}
		for k := range n {
			var err error
			if v[k], err = strconv.ParseFloat(words[i+1+k], 64); err != nil {
				t.Fatal(err)
			}
		}
		switch words[i] {
		case "M":
			x, y, x0, y0 = v[0], v[1], v[0], v[1]
		case "L":
			to(v[0], v[1])
		case "Z":
			to(x0, y0)
		case "A":
			arcPieces(v, x, y, to)
		case "C":
			ax, ay := x, y
			for k := 1; k <= 8; k++ {
				u := float64(k) / 8
				w := 1 - u
				b := [4]float64{w * w * w, 3 * w * w * u, 3 * w * u * u, u * u * u}
				to(b[0]*ax+b[1]*v[0]+b[2]*v[2]+b[3]*v[4], b[0]*ay+b[1]*v[1]+b[2]*v[3]+b[3]*v[5])
			}
		}
		i += n + 1
	}
	return pieces
}

// arcPieces follows an arc of at most a quarter turn (SVG 1.1, section F.6).
func arcPieces(v [7]float64, x, y float64, to func(x, y float64)) {
	r, ex, ey := v[0], v[5], v[6]
	half := math.Hypot(ex-x, ey-y) / 2
	if half == 0 {
		return
	}
	h := math.Sqrt(math.Max(r*r-half*half, 0))
	nx, ny := -(ey-y)/(2*half), (ex-x)/(2*half)
	if v[4] == 0 { // anticlockwise on the page
		nx, ny = -nx, -ny
	}
	cx, cy := (x+ex)/2+nx*h, (y+ey)/2+ny*h
	from, until := math.Atan2(y-cy, x-cx), math.Atan2(ey-cy, ex-cx)
	turn := math.Remainder(until-from, 2*math.Pi)
	for k := 1; k <= 6; k++ {
		a := from + turn*float64(k)/6
		to(cx+r*math.Cos(a), cy+r*math.Sin(a))
	}
}

// meets says whether a piece of line comes into the text's box, looked at every
// tenth of a millimetre.
func (r readText) meets(p [4]float64) bool {
	x0, y0, x1, y1 := r.bounds()
	if max(p[0], p[2]) < x0 || min(p[0], p[2]) > x1 || max(p[1], p[3]) < y0 || min(p[1], p[3]) > y1 {
		return false
	}
	n := math.Ceil(math.Hypot(p[2]-p[0], p[3]-p[1])/0.1) + 1
	for k := 0.0; k <= n; k++ {
		if r.inside(p[0]+(p[2]-p[0])*k/n, p[1]+(p[3]-p[1])*k/n) {
			return true
		}
	}
	return false
}

// examine holds a drawing to what a shop expects of any: a trimmed sheet of ISO
// 216 at true size, a check line of 100 mm, lettering of ISO 3098 heights, and no
// text that touches a line, another text or the edge of the sheet.
func examine(t *testing.T, name string, file []byte) readSheet {
	t.Helper()
	if bytes.Contains(file, []byte("NaN")) || bytes.Contains(file, []byte("Inf")) {
		t.Errorf("%s holds a number that is not finite", name)
	}
	s := readDrawing(t, file)
	if size := [2]float64{s.width, s.height}; size != [2]float64{210, 297} && size != [2]float64{420, 297} {
		t.Errorf("%s: the sheet is %v mm", name, size)
	}
	if length := math.Hypot(s.check[2]-s.check[0], s.check[3]-s.check[1]); math.Abs(length-100) > 1e-3 {
		t.Errorf("%s: the check line is %.4f mm", name, length)
	}
	if len(s.texts) < 20 {
		t.Errorf("%s: only %d texts", name, len(s.texts))
	}
	for i, text := range s.texts {
		x0, y0, x1, y1 := text.bounds()
		height := 0.716 * text.size
		if series := map[float64]bool{1.8: true, 2.5: true, 3.5: true, 5: true}; !series[math.Round(height*100)/100] {
			t.Errorf("%s: %q is %.3f mm high, not of the series of ISO 3098", name, text.words, height)
		}
		if x0 < 10 || y0 < 5 || x1 > s.width-10 || y1 > s.height-2 {
			t.Errorf("%s: %q reaches out of the frame: %.1f to %.1f, %.1f to %.1f", name, text.words, x0, x1, y0, y1)
		}
		for _, p := range s.pieces {
			if text.meets(p) {
				t.Errorf("%s: a line from %.1f, %.1f to %.1f, %.1f runs through %q at %.1f, %.1f", name, p[0], p[1], p[2], p[3], text.words, x0, y1)
			}
		}
		for _, other := range s.texts[i+1:] {
			for _, side := range other.sides() {
				if text.meets(side) {
					t.Errorf("%s: %q lies on %q", name, text.words, other.words)
					break
				}
			}
		}
	}
	return s
}

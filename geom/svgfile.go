package geom

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"
)

// ReadOutline reads the shapes of an SVG file as contours in mm: path, rect,
// circle, ellipse and polygon, under the transforms of their groups. Width,
// height and viewBox of the file give the size of a unit (mm, cm, in, pt, pc, px
// of 1/96 in; px where none is named). The lower left corner of the file's page
// becomes the origin, and y runs up. How shapes are painted is ignored: what
// lies inside an odd number of outlines is material. What cannot be an outline
// (text, pictures, copies by reference) is refused, since leaving it out would
// be worse; definitions and what is not displayed are skipped.
//
// The error names line and column, or the place in mm where outlines meet.
func ReadOutline(data []byte, chord float64) ([]Contour, error) {
	r := svgReader{data: data, decode: xml.NewDecoder(bytes.NewReader(data))}
	if err := r.read(); err != nil {
		return nil, err
	}
	return Arrange(r.runs, chord)
}

type svgReader struct {
	data   []byte
	decode *xml.Decoder
	start  int64    // of the element at hand, in bytes
	maps   []Affine // of the open elements, outermost first
	runs   [][]Curve
}

func (r *svgReader) read() error {
	for {
		r.start = r.decode.InputOffset()
		token, err := r.decode.Token()
		switch {
		case err == io.EOF && r.maps == nil:
			return errors.New("no SVG file: it holds no element svg")
		case err == io.EOF:
			return nil
		case err != nil:
			return r.fault(r.decode.InputOffset(), "%v", strings.TrimPrefix(err.Error(), "XML syntax error on "))
		}
		switch t := token.(type) {
		case xml.StartElement:
			if err := r.element(t); err != nil {
				return err
			}
		case xml.EndElement:
			r.maps = r.maps[:max(len(r.maps)-1, 1)]
		}
	}
}

// fault names line and column of a byte.
func (r *svgReader) fault(at int64, format string, args ...any) error {
	before := r.data[:min(max(at, 0), int64(len(r.data)))]
	line := bytes.Count(before, []byte("\n")) + 1
	column := len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	return fmt.Errorf("line %d, column %d: %s", line, column, fmt.Sprintf(format, args...))
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Space == "" && a.Name.Local == name {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

var hidden = regexp.MustCompile(`(^|;)\s*display\s*:\s*none`)

func (r *svgReader) element(e xml.StartElement) error {
	name := e.Name.Local
	if len(r.maps) == 0 {
		if name != "svg" {
			return r.fault(r.start, "no SVG file: its first element is %s", name)
		}
		m, err := r.page(e)
		r.maps = []Affine{m}
		return err
	}
	switch name {
	case "defs", "clipPath", "mask", "symbol", "marker", "pattern", "metadata", "title", "desc", "style", "script", "namedview", "linearGradient", "radialGradient", "filter", "foreignObject":
		return r.decode.Skip()
	case "text", "image", "use", "svg", "line", "polyline":
		return r.fault(r.start, "%s is no outline: turn it into a closed path", name)
	}
	if attribute(e, "display") == "none" || hidden.MatchString(attribute(e, "style")) {
		return r.decode.Skip()
	}
	m, err := ParseTransform(attribute(e, "transform"))
	if err != nil {
		return r.inAttribute("transform", err)
	}
	m = r.maps[len(r.maps)-1].After(m)
	r.maps = append(r.maps, m)
	if name == "path" {
		// The value as it stands, so that places count from its first character.
		for _, a := range e.Attr {
			if a.Name.Local == "d" && a.Name.Space == "" {
				runs, err := pathRuns(a.Value, m)
				r.runs = append(r.runs, runs...)
				return r.inAttribute("d", err)
			}
		}
		return nil
	}
	return r.shape(e, m)
}

// inAttribute turns the place in an attribute's text into one in the file.
func (r *svgReader) inAttribute(name string, err error) error {
	var fault *PathError
	if !errors.As(err, &fault) {
		return err
	}
	tag := r.data[r.start:r.decode.InputOffset()]
	at := regexp.MustCompile(`\s` + name + `\s*=\s*["']`).FindIndex(tag)
	if at == nil {
		return r.fault(r.start, "%s", fault.Reason)
	}
	return r.fault(r.start+int64(at[1]+fault.Offset), "%s", fault.Reason)
}

// unitsMM are the units of SVG lengths in mm (CSS 2.1, section 4.3.2).
var unitsMM = map[string]float64{"": 25.4 / 96, "px": 25.4 / 96, "mm": 1, "cm": 10, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6}

// length reads a number with or without a unit, in px; a percentage is none.
func length(text string) (px float64, ok bool, err error) {
	s := scanner{text: text}
	v, err := s.float()
	if err != nil {
		return 0, false, err
	}
	s.space()
	unit := strings.TrimSpace(text[s.at:])
	if unit == "%" {
		return 0, false, nil
	}
	mm, known := unitsMM[unit]
	if !known {
		return 0, false, s.fault(s.at, "%q is no unit of length here: use mm, cm, in, pt or px", unit)
	}
	return v * mm / unitsMM[""], true, nil
}

// page returns the map from the file's units to mm with y up.
func (r *svgReader) page(e xml.StartElement) (Affine, error) {
	var size [2]float64
	var given [2]bool
	for k, name := range [2]string{"width", "height"} {
		text := attribute(e, name)
		if text == "" {
			continue
		}
		var err error
		if size[k], given[k], err = length(text); err != nil {
			return same, r.inAttribute(name, err)
		}
		if given[k] && !(size[k] > 0) {
			return same, r.fault(r.start, "the %s of the page is not above 0", name)
		}
	}
	view := attribute(e, "viewBox")
	if view == "" {
		mm := unitsMM[""]
		return Affine{mm, 0, 0, -mm, 0, size[1] * mm}, nil
	}
	s := scanner{text: view}
	var box [4]float64
	for i := range box {
		var err error
		if box[i], err = s.float(); err != nil {
			return same, r.inAttribute("viewBox", err)
		}
	}
	if !(box[2] > 0 && box[3] > 0) {
		return same, r.fault(r.start, "the viewBox has no size")
	}
	return fitted(box, size, given, attribute(e, "preserveAspectRatio") == "none"), nil
}

// fitted maps the view to the page. A side that is not given follows from the
// other; the view is scaled evenly and centred, unless it is to be stretched
// (SVG 1.1, section 7.8; other alignments move the whole, which says nothing).
func fitted(box [4]float64, size [2]float64, given [2]bool, stretch bool) Affine {
	mm := unitsMM[""]
	switch {
	case !given[0] && !given[1]:
		size = [2]float64{box[2], box[3]}
	case !given[0]:
		size[0] = size[1] * box[2] / box[3]
	case !given[1]:
		size[1] = size[0] * box[3] / box[2]
	}
	x, y := size[0]*mm/box[2], size[1]*mm/box[3]
	if !stretch {
		x, y = min(x, y), min(x, y)
	}
	left := (size[0]*mm - x*box[2]) / 2
	top := size[1]*mm - (size[1]*mm-y*box[3])/2
	return Affine{x, 0, 0, -y, left - x*box[0], top + y*box[1]}
}

// shape draws the simple shapes (SVG 1.1, chapter 9).
func (r *svgReader) shape(e xml.StartElement, m Affine) error {
	p := pen{to: m}
	v := map[string]float64{}
	for _, name := range []string{"x", "y", "width", "height", "rx", "ry", "r", "cx", "cy"} {
		text := attribute(e, name)
		if text == "" {
			continue
		}
		px, ok, err := length(text)
		switch {
		case err != nil:
			return r.inAttribute(name, err)
		case !ok || px < 0 && !slices.Contains([]string{"x", "y", "cx", "cy"}, name):
			return r.fault(r.start, "%s=%q of a %s is no size", name, text, e.Name.Local)
		}
		v[name] = px
	}
	switch e.Name.Local {
	case "circle":
		p.ellipse(Point{v["cx"], v["cy"]}, v["r"], v["r"])
	case "ellipse":
		p.ellipse(Point{v["cx"], v["cy"]}, v["rx"], v["ry"])
	case "rect":
		rx, ry := attribute(e, "rx"), attribute(e, "ry")
		if rx == "" {
			v["rx"] = v["ry"]
		}
		if ry == "" {
			v["ry"] = v["rx"]
		}
		p.rectangle(Point{v["x"], v["y"]}, v["width"], v["height"], v["rx"], v["ry"])
	case "polygon":
		s := scanner{text: attribute(e, "points")}
		for i := 0; s.number(); i++ {
			x, err := s.float()
			if err != nil {
				return r.inAttribute("points", err)
			}
			y, err := s.float()
			if err != nil {
				return r.inAttribute("points", err)
			}
			if i == 0 {
				p.move(Point{x, y})
			} else {
				p.line(Point{x, y})
			}
		}
		if !s.done() {
			return r.inAttribute("points", s.fault(s.at, "%q stands where a number should", printable(s.text[s.at:])))
		}
	}
	p.close()
	r.runs = append(r.runs, p.runs...)
	return nil
}

func (p *pen) ellipse(c Point, rx, ry float64) {
	if rx > 0 && ry > 0 {
		p.run = append(p.run, ellipse{centre: c, rx: rx, ry: ry, sweep: 2 * math.Pi}.under(p.to)...)
	}
}

func (p *pen) rectangle(at Point, width, height, rx, ry float64) {
	if width == 0 || height == 0 {
		return
	}
	rx, ry = min(rx, width/2), min(ry, height/2)
	x, y := at.X+width, at.Y+height
	p.move(Point{at.X + rx, at.Y})
	p.line(Point{x - rx, at.Y})
	p.arc(rx, ry, 0, false, true, Point{x, at.Y + ry})
	p.line(Point{x, y - ry})
	p.arc(rx, ry, 0, false, true, Point{x - rx, y})
	p.line(Point{at.X + rx, y})
	p.arc(rx, ry, 0, false, true, Point{at.X, y - ry})
	p.line(Point{at.X, at.Y + ry})
	p.arc(rx, ry, 0, false, true, Point{at.X + rx, at.Y})
}

package geom

import "math"

// ParsePath reads the path data of an SVG path (SVG 1.1, section 8.3): the
// commands M, L, H, V, C, S, Q, T, A and Z, absolute and relative, with repeats
// implied. One unit is 1 mm, and y, which runs down there, is turned up. Each
// subpath becomes a contour, closed if it is not; lines, circles' arcs and
// cubics keep their form, quadratics become the same cubics, and arcs of
// ellipses cubics that stray by less than a ten-millionth of the radius. What
// lies inside an odd number of subpaths is material.
//
// The error is a *PathError where the text cannot be read, and names the
// character; otherwise it is that of Arrange.
func ParsePath(d string, chord float64) ([]Contour, error) {
	runs, err := pathRuns(d, Affine{1, 0, 0, -1, 0, 0})
	if err != nil {
		return nil, err
	}
	return Arrange(runs, chord)
}

// pathRuns returns a closed run of curves for each subpath, as mapped.
func pathRuns(d string, m Affine) ([][]Curve, error) {
	p := pathReader{scan: scanner{text: d}, pen: pen{to: m}}
	if err := p.read(); err != nil {
		return nil, err
	}
	p.pen.close()
	return p.pen.runs, nil
}

// A pen draws runs of curves and maps them as it goes.
type pen struct {
	to    Affine
	runs  [][]Curve
	run   []Curve
	start Point // of the subpath, not mapped
	at    Point
}

func (p *pen) move(to Point) {
	p.close()
	p.start, p.at = to, to
}

func (p *pen) line(to Point) {
	if to != p.at {
		p.run = append(p.run, Line{p.to.Map(p.at), p.to.Map(to)})
	}
	p.at = to
}

func (p *pen) cubic(b, c, to Point) {
	if b != p.at || c != p.at || to != p.at {
		p.run = append(p.run, Cubic{p.to.Map(p.at), p.to.Map(b), p.to.Map(c), p.to.Map(to)})
	}
	p.at = to
}

func (p *pen) arc(rx, ry, turn float64, large, sweep bool, to Point) {
	e, ok := arcThrough(p.at, to, rx, ry, turn, large, sweep)
	if !ok {
		p.line(to)
		return
	}
	p.run = append(p.run, e.under(p.to)...)
	p.at = to
}

// close ends the subpath with a line to its start.
func (p *pen) close() {
	p.line(p.start)
	if len(p.run) > 0 {
		p.runs = append(p.runs, p.run)
	}
	p.run = nil
}

// A pathReader draws path data with a pen.
type pathReader struct {
	scan    scanner
	pen     pen
	last    byte  // the command before, in upper case
	control Point // its last control point, for S and T
}

func (p *pathReader) read() error {
	for first := true; ; first = false {
		p.scan.space()
		if p.scan.done() {
			return nil
		}
		command, at := p.scan.text[p.scan.at], p.scan.at
		upper := command &^ 0x20
		if !isCommand(command) {
			return p.scan.fault(at, "%q is no command of a path", printable(p.scan.text[at:]))
		}
		if first && upper != 'M' {
			return p.scan.fault(at, "a path begins with M, not with %c", command)
		}
		p.scan.at++
		if p.scan.space(); !p.scan.done() && p.scan.text[p.scan.at] == ',' {
			return p.scan.fault(p.scan.at, "a comma stands where a number should")
		}
		if upper == 'Z' {
			p.pen.close()
			p.last = 'Z'
			continue
		}
		relative := command != upper
		for again := true; again; again = p.scan.number() {
			if err := p.step(upper, relative); err != nil {
				return err
			}
			if upper == 'M' {
				upper, p.last = 'L', 'M' // further points are lines
				continue
			}
			p.last = upper
		}
	}
}

func isCommand(c byte) bool {
	switch c &^ 0x20 {
	case 'M', 'L', 'H', 'V', 'C', 'S', 'Q', 'T', 'A', 'Z':
		return c >= 'A'
	}
	return false
}

// step reads the numbers of one command and draws it.
func (p *pathReader) step(command byte, relative bool) error {
	base := Point{}
	if relative {
		base = p.pen.at
	}
	switch command {
	case 'A':
		return p.arc(base)
	case 'H', 'V':
		x, err := p.scan.float()
		to := Point{base.X + x, p.pen.at.Y}
		if command == 'V' {
			to = Point{p.pen.at.X, base.Y + x}
		}
		p.pen.line(to)
		return err
	}
	var c [3]Point
	points := map[byte]int{'C': 3, 'S': 2, 'Q': 2}[command]
	points = max(points, 1)
	for i := range points {
		x, err := p.scan.float()
		if err != nil {
			return err
		}
		y, err := p.scan.float()
		if err != nil {
			return err
		}
		c[i] = base.Add(Point{x, y})
	}
	p.draw(command, c)
	return nil
}

func (p *pathReader) draw(command byte, c [3]Point) {
	at := p.pen.at
	mirror := at // the control point before, seen through the current point
	if s := p.last; command == 'S' && (s == 'C' || s == 'S') || command == 'T' && (s == 'Q' || s == 'T') {
		mirror = at.Scale(2).Sub(p.control)
	}
	switch command {
	case 'M':
		p.pen.move(c[0])
	case 'L':
		p.pen.line(c[0])
	case 'C':
		p.control = c[1]
		p.pen.cubic(c[0], c[1], c[2])
	case 'S':
		p.control = c[0]
		p.pen.cubic(mirror, c[0], c[1])
	case 'Q':
		p.control = c[0]
		p.quadratic(c[0], c[1])
	case 'T':
		p.control = mirror
		p.quadratic(mirror, c[0])
	}
}

// quadratic draws a curve of degree two as one of degree three (elementary).
func (p *pathReader) quadratic(control, to Point) {
	third := func(end Point) Point { return end.Add(control.Sub(end).Scale(2.0 / 3)) }
	p.pen.cubic(third(p.pen.at), third(to), to)
}

func (p *pathReader) arc(base Point) error {
	var v [3]float64
	for i := range v {
		var err error
		if v[i], err = p.scan.float(); err != nil {
			return err
		}
	}
	large, err := p.scan.flag()
	if err != nil {
		return err
	}
	sweep, err := p.scan.flag()
	if err != nil {
		return err
	}
	x, err := p.scan.float()
	if err != nil {
		return err
	}
	y, err := p.scan.float()
	if err != nil {
		return err
	}
	p.pen.arc(v[0], v[1], v[2]*math.Pi/180, large, sweep, base.Add(Point{x, y}))
	return nil
}

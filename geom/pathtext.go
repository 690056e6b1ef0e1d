package geom

import (
	"fmt"
	"math"
	"strconv"
	"unicode/utf8"
)

// A PathError says where path data or a transform cannot be read.
type PathError struct {
	Offset int // of the character, in bytes from the start of the text
	Reason string
}

// Error names the character, counted from 1.
func (e *PathError) Error() string {
	return fmt.Sprintf("character %d: %s", e.Offset+1, e.Reason)
}

// A scanner reads the numbers of path data and transforms.
type scanner struct {
	text string
	at   int
}

func (s *scanner) done() bool { return s.at >= len(s.text) }

func (s *scanner) fault(at int, format string, args ...any) *PathError {
	return &PathError{at, fmt.Sprintf(format, args...)}
}

// printable returns the first character of a text.
func printable(text string) string {
	_, size := utf8.DecodeRuneInString(text)
	return text[:size]
}

func (s *scanner) space() {
	for !s.done() && (s.text[s.at] == ' ' || s.text[s.at] >= '\t' && s.text[s.at] <= '\r') {
		s.at++
	}
}

// comma skips white space and one comma at most.
func (s *scanner) comma() {
	s.space()
	if !s.done() && s.text[s.at] == ',' {
		s.at++
		s.space()
	}
}

// number tells whether another number follows, after a comma or none.
func (s *scanner) number() bool {
	at := s.at
	s.comma()
	if !s.done() {
		switch c := s.text[s.at]; {
		case c >= '0' && c <= '9', c == '-', c == '+', c == '.':
			return true
		}
	}
	s.at = at
	s.space()
	return false
}

// float reads one number: a sign, digits with or without a point, an exponent.
func (s *scanner) float() (float64, error) {
	s.comma()
	start := s.at
	skip := func(set string) bool {
		for i := range len(set) {
			if !s.done() && s.text[s.at] == set[i] {
				s.at++
				return true
			}
		}
		return false
	}
	digits := func() (n int) {
		for skip("0123456789") {
			n++
		}
		return n
	}
	skip("+-")
	n := digits()
	if skip(".") {
		n += digits()
	}
	if n == 0 {
		s.at = start
		if s.done() {
			return 0, s.fault(start, "the text ends where a number should stand")
		}
		return 0, s.fault(start, "%q stands where a number should", printable(s.text[start:]))
	}
	mantissa := s.at
	if skip("eE") {
		if skip("+-"); digits() == 0 {
			s.at = mantissa // as in "1em", the letter is not ours
		}
	}
	v, err := strconv.ParseFloat(s.text[start:s.at], 64)
	if err != nil || math.Abs(v) > 1e9 {
		return 0, s.fault(start, "the number %s is too large for an outline", s.text[start:s.at])
	}
	return v, nil
}

// flag reads 0 or 1, which needs no space after it.
func (s *scanner) flag() (bool, error) {
	s.comma()
	if s.done() || s.text[s.at] != '0' && s.text[s.at] != '1' {
		return false, s.fault(s.at, "a flag of an arc must be 0 or 1")
	}
	s.at++
	return s.text[s.at-1] == '1', nil
}

// ParseTransform reads a list of transforms (SVG 1.1, section 7.6): matrix,
// translate, scale, rotate, skewX and skewY. The error is a *PathError.
func ParseTransform(text string) (Affine, error) {
	s := scanner{text: text}
	m := same
	for s.comma(); !s.done(); s.comma() {
		start := s.at
		for !s.done() && (s.text[s.at]|0x20 >= 'a' && s.text[s.at]|0x20 <= 'z') {
			s.at++
		}
		name := s.text[start:s.at]
		s.space()
		if s.done() || s.text[s.at] != '(' {
			return same, s.fault(start, "a transform has a name and numbers in brackets")
		}
		s.at++
		var v []float64
		for s.space(); !s.done() && s.text[s.at] != ')'; s.space() {
			x, err := s.float()
			if err != nil {
				return same, err
			}
			v = append(v, x)
		}
		if s.done() {
			return same, s.fault(s.at, "the bracket of %s is not closed", name)
		}
		s.at++
		n, ok := transform(name, v)
		if !ok {
			return same, s.fault(start, "%s of %d numbers is no transform", name, len(v))
		}
		m = m.After(n)
	}
	return m, nil
}

func transform(name string, v []float64) (Affine, bool) {
	const deg = math.Pi / 180
	switch name + strconv.Itoa(len(v)) {
	case "matrix6":
		return Affine(v), true
	case "translate1":
		return Affine{1, 0, 0, 1, v[0], 0}, true
	case "translate2":
		return Affine{1, 0, 0, 1, v[0], v[1]}, true
	case "scale1":
		return Affine{v[0], 0, 0, v[0], 0, 0}, true
	case "scale2":
		return Affine{v[0], 0, 0, v[1], 0, 0}, true
	case "rotate1", "rotate3":
		sin, cos := math.Sincos(v[0] * deg)
		m := Affine{cos, sin, -sin, cos, 0, 0}
		if len(v) == 3 {
			c := Point{v[1], v[2]}
			d := c.Sub(m.Map(c))
			m[4], m[5] = d.X, d.Y
		}
		return m, true
	case "skewX1":
		return Affine{1, 0, math.Tan(v[0] * deg), 1, 0, 0}, true
	case "skewY1":
		return Affine{1, math.Tan(v[0] * deg), 0, 1, 0, 0}, true
	}
	return same, false
}

package export

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"pintle/mesh"
)

// looksASCII tells whether a file starts like an ASCII STL file: the word solid
// first, and no zero byte, which pads binary headers, soon after.
func looksASCII(r io.ReaderAt, size int64) bool {
	start := make([]byte, min(size, 512))
	if n, err := r.ReadAt(start, 0); n < len(start) && err != nil {
		return false
	}
	words := bytes.Fields(start)
	return len(words) > 0 && strings.EqualFold(string(words[0]), "solid") && !bytes.Contains(start, []byte{0})
}

// readASCII reads one or more solids. Words may be in either case and lines
// broken anywhere, except that a name ends with its line.
func readASCII(r io.Reader) (mesh.Soup, error) {
	a := ascii{lines: bufio.NewScanner(r)}
	a.lines.Buffer(nil, 1<<20)
	var soup mesh.Soup
	for solids := 0; ; solids++ {
		if a.more(); a.err == nil && len(a.words) == 0 && solids > 0 {
			return soup, a.lines.Err()
		}
		a.expect("solid")
		a.words = nil
		for a.err == nil && !a.skip("endsolid") {
			soup = append(soup, a.facet())
		}
		a.words = nil
		if a.err != nil {
			return nil, fmt.Errorf("line %d of the ASCII STL: %w", a.line, a.err)
		}
	}
}

// An ascii reads words and keeps the first error.
type ascii struct {
	lines *bufio.Scanner
	line  int
	words []string // left on this line
	err   error
}

func (a *ascii) facet() (corners [3][3]float32) {
	a.expect("facet")
	a.expect("normal")
	a.vector()
	a.expect("outer")
	a.expect("loop")
	for c := range corners {
		a.expect("vertex")
		corners[c] = a.vector()
	}
	a.expect("endloop")
	a.expect("endfacet")
	return corners
}

func (a *ascii) vector() (v [3]float32) {
	for k := range v {
		word := a.next()
		x, err := strconv.ParseFloat(word, 32)
		if err != nil && a.err == nil {
			a.err = fmt.Errorf("%q is no coordinate", word)
		}
		v[k] = float32(x)
	}
	return v
}

func (a *ascii) expect(word string) {
	if got := a.next(); !strings.EqualFold(got, word) && a.err == nil {
		a.err = fmt.Errorf("found %q where %q should stand", got, word)
	}
}

// skip passes the next word if it is the one given.
func (a *ascii) skip(word string) bool {
	a.more()
	if len(a.words) == 0 || !strings.EqualFold(a.words[0], word) {
		return false
	}
	a.words = a.words[1:]
	return true
}

func (a *ascii) next() string {
	a.more()
	if len(a.words) == 0 {
		return ""
	}
	word := a.words[0]
	a.words = a.words[1:]
	return word
}

// more moves on to a line with words on it; at the end of the file there are none.
func (a *ascii) more() {
	for len(a.words) == 0 && a.lines.Scan() {
		a.line++
		a.words = strings.Fields(a.lines.Text())
	}
	if err := a.lines.Err(); err != nil && a.err == nil {
		a.err = err
	}
}

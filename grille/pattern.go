package grille

import (
	"math"

	"pintle/geom"
)

// The patterns of holes. The letters are those of perforated sheet (ISO 7806):
// R round, C square, H hexagonal, LR slot with round ends; T staggered at 60
// degrees, U in line, Z staggered by half a pitch both ways, D turned onto the
// diagonal.
const (
	RoundStaggered = "round-staggered" // R T: each hole has six neighbours at the pitch
	RoundInline    = "round-inline"    // R U: four neighbours at the pitch
	Square         = "square"          // C U: sides along x and y
	SquareDiagonal = "square-diagonal" // CD: Square turned by 45 degrees, holes and rows
	Slot           = "slot"            // LR Z: slots along x, rows shifted by half a pitch
	Hexagon        = "hexagon"         // H T: equal bars all round
)

// Patterns returns the names of all patterns.
func Patterns() []string {
	return []string{RoundStaggered, RoundInline, Square, SquareDiagonal, Slot, Hexagon}
}

// A lattice places holes at the corners of rectangular cells and, where it is
// centred, in the middle of each cell as well.
type lattice struct {
	x, y    float64 // mm, the cell
	centred bool
}

func latticeOf(pattern string, pitch, along float64) lattice {
	switch pattern {
	case RoundStaggered, Hexagon:
		return lattice{pitch, pitch * math.Sqrt(3), true}
	case SquareDiagonal:
		return lattice{pitch * math.Sqrt2, pitch * math.Sqrt2, true}
	case Slot:
		return lattice{along, pitch, true}
	}
	return lattice{pitch, pitch, false}
}

// share returns the part of the plane that one hole has, in mm².
func (l lattice) share() float64 {
	if l.centred {
		return l.x * l.y / 2
	}
	return l.x * l.y
}

// A cell is a place on the lattice in half cells from the centre of the
// grille, so that places mirrored in an axis differ by a sign only.
type cell struct{ u, v int }

func (l lattice) at(c cell) geom.Point {
	return geom.Point{X: float64(c.u) * l.x / 2, Y: float64(c.v) * l.y / 2}
}

// neighbours returns the offsets between which the narrowest bar stands. The
// gap between two equal holes never shrinks when their offset grows along x or
// y, because the holes are symmetrical about both axes.
func (l lattice) neighbours() []cell {
	if l.centred {
		return []cell{{2, 0}, {0, 2}, {1, 1}, {1, -1}}
	}
	return []cell{{2, 0}, {0, 2}}
}

// bar returns the narrowest bar between the holes of an endless sheet, in mm.
func (l lattice) bar(s shape) float64 {
	least := math.Inf(1)
	for _, n := range l.neighbours() {
		least = min(least, s.gap(l.at(n)))
	}
	return least
}

// origins returns the ways to centre the lattice symmetrically about both
// axes: the parities of u and v, a hole in the centre first. In a centred
// lattice only the parity of u + v counts, which is that of the first number.
func (l lattice) origins() [][2]int {
	if l.centred {
		return [][2]int{{0, 0}, {1, 0}}
	}
	return [][2]int{{0, 0}, {1, 1}, {1, 0}, {0, 1}}
}

// visit calls f for each place of the lattice with |x| and |y| within the
// reach, row by row from below.
func (l lattice) visit(origin [2]int, reachX, reachY float64, f func(cell)) {
	rows, columns := int(2*reachY/l.y)+1, int(2*reachX/l.x)+1
	for v := -rows; v <= rows; v++ {
		if !l.centred && (v-origin[1])&1 != 0 {
			continue
		}
		odd := origin[0]
		if l.centred {
			odd = (origin[0] + v) & 1
		}
		for u := -columns; u <= columns; u++ {
			if (u-odd)&1 == 0 {
				f(cell{u, v})
			}
		}
	}
}

package lettering

import (
	"fmt"

	"pintle/geom"
)

// Place returns contours turned about the origin by angle radians and then
// moved to a place: the start of the base line.
func Place(contours []geom.Contour, at geom.Point, angle float64) []geom.Contour {
	placed := make([]geom.Contour, len(contours))
	for i, c := range contours {
		placed[i] = c.Move(geom.Motion{Turn: angle, Shift: at})
	}
	return placed
}

// Mirrored returns contours seen from behind, for a mark on the bed side: x
// becomes width - x. They exist as points only.
func Mirrored(contours []geom.Contour, width float64) []geom.Contour {
	mirror := func(p geom.Point) geom.Point { return geom.Point{X: width - p.X, Y: p.Y} }
	mirrored := make([]geom.Contour, len(contours))
	for i, c := range contours {
		mirrored[i] = c.Map(mirror).Reversed(0)
	}
	return mirrored
}

// Sunk returns raised letters as what they take from the layer around them:
// letters become holes, and their counters islands.
func Sunk(raised []geom.Contour, chord float64) []geom.Contour {
	sunk := make([]geom.Contour, len(raised))
	for i, c := range raised {
		sunk[i] = c.Reversed(chord)
	}
	return sunk
}

// Cut returns letters as holes right through a sheet, without islands: a bridge
// of the width in mm runs up and down through each counter and holds what it
// encloses. Pieces of less than a bead squared are dropped. The error says where
// a bridge leaves outlines that touch; another width cures it.
func Cut(raised []geom.Contour, bridge, bead, chord float64) ([]geom.Contour, error) {
	letters, err := geom.RegionOf(raised)
	if err != nil {
		return nil, err
	}
	lo, hi := letters.Bounds()
	for _, c := range raised {
		left, right, counter := span(c)
		if !counter {
			continue
		}
		middle := geom.Point{X: (left + right) / 2, Y: (lo.Y + hi.Y) / 2}
		bar, err := geom.RegionOf([]geom.Contour{geom.Rectangle(middle, bridge, hi.Y-lo.Y+2, 0, 0, chord)})
		if err != nil {
			return nil, err
		}
		if letters, err = geom.Subtract(letters, bar, bead); err != nil {
			return nil, fmt.Errorf("a bridge of %g mm at x = %.3f: %w", bridge, middle.X, err)
		}
	}
	holes := make([]geom.Contour, len(letters.Loops()))
	for i, l := range letters.Loops() {
		for k := range l {
			holes[i].Points = append(holes[i].Points, l[len(l)-1-k].Point())
		}
	}
	return holes, nil
}

// span returns how far a contour reaches along x, and whether it is a counter.
func span(c geom.Contour) (left, right float64, counter bool) {
	left, right = c.Points[0].X, c.Points[0].X
	area := 0.0
	for i, p := range c.Points {
		q := c.Points[(i+1)%len(c.Points)]
		area += p.X*q.Y - p.Y*q.X
		left, right = min(left, p.X), max(right, p.X)
	}
	return left, right, area < 0
}

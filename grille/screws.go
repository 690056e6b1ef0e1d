package grille

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// Screws hold the grille: plain clearance holes near its edge.
type Screws struct {
	Screw  fit.Screw
	Count  int     // disc: 2 to 60; rectangle: even, 4 to 60, corners first
	Circle float64 // mm, diameter of the circle on a disc; 0: by the inset
	Inset  float64 // mm, from the edge to the centres; 0: half the hole and one thread diameter
}

// places returns the centres of the screw holes: on a disc on a circle from the
// top, on a rectangle in the corners and then along the sides.
func (s Screws) places(o Outline) []geom.Point {
	e := o.edge()
	var places []geom.Point
	if o.Kind == Disc {
		for i := range s.Count {
			places = append(places, geom.Polar(s.Circle/2, math.Pi/2+2*math.Pi*float64(i)/float64(s.Count)))
		}
		return places
	}
	corner := e.corner(s.Inset)
	along, up := 0, 0 // screws between the corners on each side
	for range (s.Count - 4) / 2 {
		if corner.X/float64(along+1) >= corner.Y/float64(up+1) {
			along++
		} else {
			up++
		}
	}
	for _, side := range []float64{-1, 1} {
		places = append(places, geom.Point{X: side * corner.X, Y: -corner.Y}, geom.Point{X: side * corner.X, Y: corner.Y})
		for i := range along {
			at := spread(corner.X, i, along)
			places = append(places, geom.Point{X: at, Y: side * e.inward(at, s.Inset)})
		}
		for i := range up {
			at := spread(corner.Y, i, up)
			places = append(places, geom.Point{X: side * e.turned().inward(at, s.Inset), Y: at})
		}
	}
	return places
}

// spread returns the place of the i-th of n screws between -reach and reach.
func spread(reach float64, i, n int) float64 {
	return reach * (2*float64(i+1)/float64(n+1) - 1)
}

// fittedTo returns the screws with their defaults for the outline.
func (s Screws) fittedTo(o Outline) Screws {
	if s.Inset == 0 {
		s.Inset = s.Screw.Clearance/2 + s.Screw.Diameter
	}
	if o.Kind == Disc && s.Circle == 0 {
		s.Circle = o.Diameter - 2*s.Inset
	}
	return s
}

// validate returns a *check.FieldError for screws that have no room. The bar
// must be left between the holes of the diameter and beside the edge.
func (s Screws) validate(o Outline, diameter, bar float64) error {
	if err := check.InRange("screw clearance hole", s.Screw.Clearance, "mm", 1, 30, "name a screw, as M3"); err != nil {
		return err
	}
	least, reason := 2, "must be from 2 to 60 on a disc"
	if o.Kind == Rectangle {
		least, reason = 4, "must be an even number from 4 to 60 on a rectangle"
	}
	if s.Count < least || s.Count > 60 || (o.Kind == Rectangle && s.Count%2 != 0) {
		return &check.FieldError{Field: "number of screws", Value: float64(s.Count), Reason: reason, Remedy: "use 4 or 6"}
	}
	if o.Kind == Disc {
		largest := roundDown(o.Diameter - diameter - 2*bar)
		smallest := roundUp((diameter + bar) / math.Sin(math.Pi/float64(s.Count)))
		return s.within("screw circle", s.Circle, smallest, largest)
	}
	smallest := roundUp(diameter/2 + bar)
	largest := roundDown(min(o.Length, o.Width)/2 - diameter/2 - bar/2)
	if err := s.within("screw inset", s.Inset, smallest, largest); err != nil {
		return err
	}
	return s.apart(o, diameter, bar)
}

// within refuses a size that leaves too little material at the holes.
func (s Screws) within(field string, value, lo, hi float64) error {
	if lo > hi {
		return &check.FieldError{
			Field: "number of screws", Value: float64(s.Count),
			Reason: fmt.Sprintf("%s holes of this size have no room in the outline", check.Number(float64(s.Count))),
			Remedy: "use fewer or smaller screws, or a larger outline",
		}
	}
	return check.InRange(field, value, "mm", lo, hi, fmt.Sprintf("use %s to %s mm: that leaves two beads beside each screw hole", check.Number(lo), check.Number(hi)))
}

// apart refuses screws on a rectangle that crowd each other.
func (s Screws) apart(o Outline, diameter, bar float64) error {
	if between := leastBetween(s.places(o)) - diameter; between < bar {
		return &check.FieldError{
			Field: "number of screws", Value: float64(s.Count),
			Reason: fmt.Sprintf("leaves %s mm between two screw holes, two beads are %s mm", check.Number(between), check.Number(bar)),
			Remedy: "use fewer or smaller screws, or a smaller inset",
		}
	}
	return nil
}

// leastBetween returns the shortest distance between two of a few places,
// infinity for one.
func leastBetween(places []geom.Point) float64 {
	least := math.Inf(1)
	for i, p := range places {
		for _, q := range places[:i] {
			least = min(least, p.Sub(q).Len())
		}
	}
	return least
}

package drawing

import "pintle/geom"

// A Moving is a mechanism in motion, seen square to its plane: what stands
// still, and bars that move to and fro, in places evenly spaced in time.
type Moving struct {
	Title   string
	Caption string
	Seconds float64 // from the first place to the last
	Turning bool    // starts again after the last place instead of going back
	Still   []Stroke
	Pivots  []geom.Point // fixed axes
	Pins    []geom.Point // moving ones, at rest
	Bars    []MovingBar
}

// A MovingBar is one outline that moves as a rigid body. Its places say where its
// origin lies and how far its x axis is turned, without jumps from one to the next;
// it is never flipped.
type MovingBar struct {
	Name   string
	Shape  Stroke  // closed, about its own origin, along x
	Places []Place // one at each time
	Rest   Place   // where it is shown standing still
}

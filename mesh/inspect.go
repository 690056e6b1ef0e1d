package mesh

import (
	"fmt"
	"math"
)

// The kinds of faults that Inspect finds.
const (
	NoTriangles  = "empty"
	NotFinite    = "not finite"
	Degenerate   = "degenerate"
	OpenEdge     = "open edge"
	CrowdedEdge  = "crowded edge"
	EdgeSense    = "edge sense"
	PointContact = "point contact"
	SameTriangle = "same triangle"
	Intersection = "intersection"
	InsideOut    = "inside out"
	NestedBody   = "nested body"
)

// A Fault is one way in which a soup fails to be the surface of solid bodies.
type Fault struct {
	Kind  string     `json:"kind"`  // one of the constants above
	Text  string     `json:"text"`  // a sentence for the builder
	Where [3]float64 `json:"where"` // the first place, in the file's unit
	Count int        `json:"count"`
}

// An Examination is what Inspect found. STL files have no unit: printing takes
// their numbers as mm, and the two fields ending in IfInches tell what they
// would be if inches were meant.
type Examination struct {
	Triangles      int        `json:"triangles"`
	Points         int        `json:"points"`   // after welding equal ones
	Shells         int        `json:"shells"`   // pieces of surface joined over edges
	Cavities       int        `json:"cavities"` // shells that bound a hollow
	Low            [3]float64 `json:"low_mm"`
	High           [3]float64 `json:"high_mm"`
	Size           [3]float64 `json:"size_mm"`
	SizeInches     [3]float64 `json:"size_in"` // the same
	Area           float64    `json:"area_mm2"`
	Volume         float64    `json:"volume_mm3"` // meaningful for a closed surface
	SizeIfInches   [3]float64 `json:"size_if_inches_mm"`
	VolumeIfInches float64    `json:"volume_if_inches_mm3"`
	Faults         []Fault    `json:"faults"`
	Unexamined     string     `json:"unexamined,omitempty"` // what was too much work, or ""
}

// Sound tells whether no fault was found.
func (e Examination) Sound() bool { return len(e.Faults) == 0 }

func (e *Examination) add(kind string, count int, where [3]float64, format string, args ...any) {
	if count > 0 {
		e.Faults = append(e.Faults, Fault{kind, fmt.Sprintf(format, args...), where, count})
	}
}

// Inspect examines a soup of triangles. Corners equal to the last bit are one
// point (-0 counts as 0); no tolerance is used, and crossings are decided
// exactly. Triangles that are not finite or have two equal corners are reported
// and left out of the rest.
func Inspect(soup Soup) Examination {
	e := Examination{Triangles: len(soup), Faults: []Fault{}}
	s := weld(soup)
	e.Points = len(s.points)
	e.add(NoTriangles, 1-min(len(soup), 1), [3]float64{}, "the file holds no triangles")
	e.add(NotFinite, s.notFinite, s.whereNotFinite, "%s a coordinate that is no finite number", has(s.notFinite, "triangle"))
	if len(s.triangles) > 0 {
		e.measure(s)
	}
	s.examineAreas(&e)
	s.examineEdges(&e)
	s.examineFans(&e)
	clean := s.examineCrossings(&e, leastPlane)
	s.examineShells(&e, clean)
	return e
}

// measure fills in size, area and volume. Triple products are taken from the
// middle, so that little is lost by rounding.
func (e *Examination) measure(s *surface) {
	for k := range 3 {
		e.Low[k], e.High[k] = math.Inf(1), math.Inf(-1)
		for _, p := range s.points {
			e.Low[k], e.High[k] = min(e.Low[k], p[k]), max(e.High[k], p[k])
		}
		e.Size[k] = e.High[k] - e.Low[k]
		e.SizeInches[k], e.SizeIfInches[k] = e.Size[k]/25.4, e.Size[k]*25.4
		s.middle[k] = e.Low[k] + e.Size[k]/2
	}
	for i := range s.triangles {
		a, b, c := s.corners(i)
		e.Area += length(cross(sub(b, a), sub(c, a))) / 2
		e.Volume += s.sixVolume(i) / 6
	}
	e.VolumeIfInches = e.Volume * 25.4 * 25.4 * 25.4
}

// has counts a noun, ready for what each has: "1 triangle has", "3 triangles have".
func has(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " has"
	}
	return fmt.Sprintf("%d %ss have", n, noun)
}

// are counts a noun: "1 edge is", "3 edges are".
func are(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " is"
	}
	return fmt.Sprintf("%d %ss are", n, noun)
}

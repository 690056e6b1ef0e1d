package linkage

import (
	"fmt"

	"pintle/check"
	"pintle/geom"
)

// A MechanismSpec is a planar mechanism, named point by named point. Its sketch
// need only show how it is put together: lengths that are given are made true.
type MechanismSpec struct {
	Points  []Pin
	Bars    []BarSpec
	Plates  []PlateSpec
	Sliders []SliderSpec
	Slots   []SlotSpec
	Drive   DriveSpec
}

// A Pin is a point where links meet, or one that is followed.
type Pin struct {
	Name  string
	At    geom.Point // mm; of a fixed pin true, otherwise a sketch
	Fixed bool
}

// A BarSpec keeps two points apart.
type BarSpec struct {
	From, To string
	Length   float64 // mm; 0 takes the sketch's
}

// A PlateSpec is a rigid link with three points or more, as sketched.
type PlateSpec struct{ Points []string }

// A SliderSpec keeps a point on a fixed straight line.
type SliderSpec struct {
	Point    string
	Through  geom.Point // mm
	AngleDeg float64
}

// A SlotSpec keeps a point on the straight line through two points of a link.
type SlotSpec struct{ Point, From, To string }

// A DriveSpec says what drives the mechanism: a crank, or where Slider is given
// the point of a slider.
type DriveSpec struct {
	Centre, Pin string  // a bar about a fixed centre, turned by an angle from +x
	Slider      string  // a slider's point, pushed along its line from Through
	Start       float64 // deg, or mm for a slider, at which the sketch is drawn
}

// A Mechanism is a mechanism that was put together at its start.
type Mechanism struct {
	spec    MechanismSpec
	names   []string
	column  []int // of each point's x among the unknowns; -1 for a fixed point
	unknown int
	all     []constraint // without the drive
	drive   constraint
	solved  []constraint // the independent ones and the drive: as many as unknowns
	size    float64      // mm, of the sketch
	links   int
	single  int // joints with one freedom, pins counted as often as links less one
	double  int // with two: sliders and slots
	freedom int // by rank at the start
	start   []geom.Point
}

// NewMechanism puts the mechanism together with its drive at the start. The
// error is a *check.FieldError: names that do not fit, parts that cannot be
// assembled, and freedoms other than one.
func NewMechanism(spec MechanismSpec) (*Mechanism, error) {
	m := &Mechanism{spec: spec}
	if err := m.build(); err != nil {
		return nil, err
	}
	return m, m.assemble()
}

// Mobility returns the degrees of freedom without the drive by count, 3 (n - 1)
// - 2 j1 - j2 (Grübler), and by rank of the Jacobian at the start. The count
// misses links whose lengths happen to fit, so the rank decides.
func (m *Mechanism) Mobility() (count, rank int) {
	return 3*(m.links-1) - 2*m.single - m.double, m.freedom
}

// Names returns the points' names, in the order of a Posture's points.
func (m *Mechanism) Names() []string { return m.names }

// point returns the number of a named point.
func (m *Mechanism) point(name string) (int, error) {
	for i, n := range m.names {
		if n == name {
			return i, nil
		}
	}
	return 0, &check.FieldError{
		Field: "point", Text: name, Reason: "is not among the mechanism's points",
		Remedy: fmt.Sprintf("name one of %v", m.names),
	}
}

// points returns the numbers of named points, all different.
func (m *Mechanism) points(names ...string) ([]int, error) {
	numbers := make([]int, len(names))
	for i, name := range names {
		n, err := m.point(name)
		if err != nil {
			return nil, err
		}
		for _, before := range numbers[:i] {
			if before == n {
				return nil, &check.FieldError{Field: "point", Text: name, Reason: "stands twice in one link", Remedy: "name different points"}
			}
		}
		numbers[i] = n
	}
	return numbers, nil
}

// sketch returns the points as drawn.
func (m *Mechanism) sketch() []geom.Point {
	x := make([]geom.Point, len(m.spec.Points))
	for i, p := range m.spec.Points {
		x[i] = p.At
	}
	return x
}

// jacobian returns the derivatives of constraints by the unknown coordinates.
func (m *Mechanism) jacobian(list []constraint, x []geom.Point, drive float64) matrix {
	j := newMatrix(len(list), m.unknown)
	for i, c := range list {
		row := j.row(i)
		c.gradient(x, drive, func(point int, by geom.Point) {
			if k := m.column[point]; k >= 0 {
				row[k] += by.X
				row[k+1] += by.Y
			}
		})
	}
	return j
}

package linkage

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// mostPoints keeps the dense algebra quick (design choice).
const mostPoints = 60

// build turns the spec into constraints and counts links and joints.
func (m *Mechanism) build() error {
	if err := m.addPoints(); err != nil {
		return err
	}
	on := make([]int, len(m.names)) // links that meet at each point
	m.links = 1
	for i, p := range m.spec.Points {
		if p.Fixed {
			on[i]++
		}
	}
	for _, add := range []func([]int) error{m.addBars, m.addPlates, m.addSliders, m.addSlots} {
		if err := add(on); err != nil {
			return err
		}
	}
	for i, n := range on {
		if n == 0 {
			return &check.FieldError{
				Field: "point", Text: m.names[i], Reason: "belongs to no bar or plate",
				Remedy: "join it by a bar, or leave it out",
			}
		}
		m.single += n - 1
	}
	return m.addDrive()
}

func (m *Mechanism) addPoints() error {
	if n := len(m.spec.Points); n < 2 || n > mostPoints {
		return check.InRange("number of points", float64(n), "", 2, mostPoints, "give the pins of the mechanism by name")
	}
	seen := map[string]bool{}
	lo, hi := m.spec.Points[0].At, m.spec.Points[0].At
	for _, p := range m.spec.Points {
		if p.Name == "" || seen[p.Name] {
			return &check.FieldError{Field: "point", Text: p.Name, Reason: "has no name of its own", Remedy: "give each point another name"}
		}
		seen[p.Name] = true
		for _, v := range []float64{p.At.X, p.At.Y} {
			if err := check.InRange("place of point "+p.Name, v, "mm", -1e5, 1e5, "give x and y in mm"); err != nil {
				return err
			}
		}
		lo = geom.Point{X: min(lo.X, p.At.X), Y: min(lo.Y, p.At.Y)}
		hi = geom.Point{X: max(hi.X, p.At.X), Y: max(hi.Y, p.At.Y)}
		m.names = append(m.names, p.Name)
		column := -1
		if !p.Fixed {
			column = m.unknown
			m.unknown += 2
		}
		m.column = append(m.column, column)
	}
	m.size = hi.Sub(lo).Len()
	if m.unknown == 0 || m.size == 0 {
		return &check.FieldError{Field: "number of moving points", Value: float64(m.unknown / 2), Reason: "leaves nothing to move", Remedy: "sketch the points apart, and fix only those on the frame"}
	}
	return nil
}

func (m *Mechanism) addBars(on []int) error {
	x := m.sketch()
	for _, b := range m.spec.Bars {
		n, err := m.points(b.From, b.To)
		if err != nil {
			return err
		}
		length := lengthOr(b.Length, x[n[0]], x[n[1]])
		if err := check.InRange("length of the bar "+b.From+"-"+b.To, length, "mm", 1e-6, 1e5, "give its length from pin to pin"); err != nil {
			return err
		}
		m.add(constraint{kind: distance, p: n[0], q: n[1], length: length, link: b.From + "-" + b.To})
		m.join(on, n)
	}
	return nil
}

func (m *Mechanism) add(c constraint) { m.all = append(m.all, c) }

// join counts one more link that has the points.
func (m *Mechanism) join(on, points []int) {
	m.links++
	for _, n := range points {
		on[n]++
	}
}

// addPlates measures each further point in the frame of the first two, in shares
// of their distance.
func (m *Mechanism) addPlates(on []int) error {
	x := m.sketch()
	for _, p := range m.spec.Plates {
		n, err := m.points(p.Points...)
		if err != nil {
			return err
		}
		if len(n) < 3 {
			return &check.FieldError{Field: "points of a plate", Value: float64(len(n)), Reason: "must be at least 3", Remedy: "make it a bar"}
		}
		side := x[n[1]].Sub(x[n[0]])
		length, name := side.Len(), fmt.Sprintf("plate %s-%s", p.Points[0], p.Points[1])
		if length < 1e-6*m.size {
			return &check.FieldError{Field: name, Value: length, Unit: "mm", Reason: "has its first two points in one place", Remedy: "sketch them apart"}
		}
		m.add(constraint{kind: distance, p: n[0], q: n[1], length: length, link: name})
		for _, k := range n[2:] {
			d := x[k].Sub(x[n[0]])
			shares := geom.Point{X: inner(d, side), Y: cross(side, d)}.Scale(1 / (length * length))
			for _, axis := range []kind{plateX, plateY} {
				m.add(constraint{kind: axis, p: n[0], q: n[1], r: k, along: shares, link: name})
			}
		}
		m.join(on, n)
	}
	return nil
}

func (m *Mechanism) addSliders([]int) error {
	for _, s := range m.spec.Sliders {
		n, err := m.point(s.Point)
		if err != nil {
			return err
		}
		for _, v := range []float64{s.Through.X, s.Through.Y, s.AngleDeg} {
			if err := check.InRange("line of the slider "+s.Point, v, "", -1e5, 1e5, "give a point in mm and an angle in deg"); err != nil {
				return err
			}
		}
		m.add(constraint{kind: slide, p: n, at: s.Through, along: geom.Polar(1, s.AngleDeg*deg), link: "slider " + s.Point})
		m.double++
	}
	return nil
}

func (m *Mechanism) addSlots([]int) error {
	x := m.sketch()
	for _, s := range m.spec.Slots {
		n, err := m.points(s.From, s.To, s.Point)
		if err != nil {
			return err
		}
		length := lengthOr(0, x[n[0]], x[n[1]])
		if length < 1e-6*m.size {
			return &check.FieldError{Field: "slot of " + s.Point, Value: length, Unit: "mm", Reason: "has both its points in one place", Remedy: "name two points of the link that lie apart"}
		}
		m.add(constraint{kind: slot, p: n[0], q: n[1], r: n[2], length: length, link: "slot " + s.From + "-" + s.To})
		m.double++
	}
	return nil
}

func (m *Mechanism) addDrive() error {
	d := m.spec.Drive
	if err := check.InRange("start of the drive", d.Start, "", -1e5, 1e5, "give the angle in deg or the feed in mm of the sketch"); err != nil {
		return err
	}
	if d.Slider != "" {
		for _, s := range m.spec.Sliders {
			if s.Point == d.Slider {
				n, _ := m.point(s.Point)
				m.drive = constraint{kind: feed, p: n, at: s.Through, along: geom.Polar(1, s.AngleDeg*deg), link: "drive"}
				return nil
			}
		}
		return &check.FieldError{Field: "driven slider", Text: d.Slider, Reason: "is no slider", Remedy: "name the point of one of the sliders"}
	}
	n, err := m.points(d.Centre, d.Pin)
	if err != nil {
		return err
	}
	if m.column[n[0]] >= 0 || m.column[n[1]] < 0 {
		return &check.FieldError{Field: "drive", Text: d.Centre + "-" + d.Pin, Reason: "does not lead from a fixed point to a moving one", Remedy: "name the crank's fixed axis first"}
	}
	m.drive = constraint{kind: crank, p: n[0], q: n[1], link: "drive"}
	return nil
}

// driveValue is the drive of the spec's start in rad or mm.
func (m *Mechanism) driveValue(given float64) float64 {
	if m.drive.kind == crank {
		return given * deg
	}
	return given
}

// given is the inverse of driveValue.
func (m *Mechanism) given(drive float64) float64 {
	if m.drive.kind == crank {
		return drive / deg
	}
	return drive
}

// still is the share of a row below which it says nothing new.
const still = 1e-9

// assemble solves all equations at the start from the sketch, then keeps those
// that are independent there.
func (m *Mechanism) assemble() error {
	start := m.driveValue(m.spec.Drive.Start)
	x, ok := m.settle(m.sketch(), start)
	if !ok {
		return &check.FieldError{
			Field: "mechanism", Text: m.spec.Drive.Centre + m.spec.Drive.Slider, Reason: fmt.Sprintf("cannot be assembled with its drive at %s", check.Number(m.spec.Drive.Start)),
			Remedy: "check the lengths, or sketch the points nearer to where they belong",
		}
	}
	m.start = x
	j := m.jacobian(m.all, x, start)
	rows := j.independent(still)
	m.freedom = m.unknown - len(rows)
	count, _ := m.Mobility()
	if m.freedom != 1 {
		remedy := "remove a bar, or free a point"
		if m.freedom > 1 {
			remedy = fmt.Sprintf("add %d bars, sliders or fixed points", m.freedom-1)
		}
		return &check.FieldError{
			Field: "degrees of freedom", Value: float64(m.freedom),
			Reason: fmt.Sprintf("must be 1 for one drive (by count %d)", count), Remedy: remedy,
		}
	}
	for _, i := range rows {
		m.solved = append(m.solved, m.all[i])
	}
	m.solved = append(m.solved, m.drive)
	if len(m.jacobian(m.solved, x, start).independent(still)) < m.unknown {
		return &check.FieldError{
			Field: "drive", Text: m.drive.link, Reason: "does not move the mechanism from its start: it stands at a dead point or a change point",
			Remedy: "start from another position",
		}
	}
	return nil
}

// settle brings all points from a sketch to where every equation holds: Newton
// steps of least length, halved until the residual falls. The rows may be fewer
// or more than the unknowns, so the small system is damped a little.
func (m *Mechanism) settle(x []geom.Point, drive float64) ([]geom.Point, bool) {
	list := append(append([]constraint(nil), m.all...), m.drive)
	x = append([]geom.Point(nil), x...)
	left := residual(list, x, drive)
	for range 200 {
		if left <= closed*m.size {
			return x, true
		}
		j := m.jacobian(list, x, drive)
		t := j.transposed()
		normal := newMatrix(m.unknown, m.unknown)
		for i := range m.unknown {
			for k := range m.unknown {
				normal.row(i)[k] = dot(t.row(i), t.row(k))
			}
			normal.row(i)[i] += 1e-12
		}
		off := residuals(list, x, drive)
		right := make([]float64, m.unknown)
		for i := range right {
			right[i] = -dot(t.row(i), off)
		}
		step, sign := normal.solve(right)
		if sign == 0 {
			return nil, false
		}
		next, after := m.halved(list, x, step, drive, left)
		if !(after < left) {
			return x, left <= 1e-9*m.size
		}
		x, left = next, after
	}
	return x, left <= 1e-9*m.size
}

// closed is the residual, as a share of the mechanism's size, at which it counts
// as closed.
const closed = 1e-13

// halved takes a step, or half of it and so on, until the residual falls.
func (m *Mechanism) halved(list []constraint, x []geom.Point, step []float64, drive, left float64) ([]geom.Point, float64) {
	for share := 1.0; share > 1e-6; share /= 2 {
		next := m.moved(x, step, share)
		if after := residual(list, next, drive); after < left {
			return next, after
		}
	}
	return x, left
}

func (m *Mechanism) moved(x []geom.Point, step []float64, share float64) []geom.Point {
	next := append([]geom.Point(nil), x...)
	for i, k := range m.column {
		if k >= 0 {
			next[i] = next[i].Add(geom.Point{X: step[k], Y: step[k+1]}.Scale(share))
		}
	}
	return next
}

func residuals(list []constraint, x []geom.Point, drive float64) []float64 {
	off := make([]float64, len(list))
	for i, c := range list {
		off[i] = c.residual(x, drive)
	}
	return off
}

func residual(list []constraint, x []geom.Point, drive float64) float64 {
	worst := 0.0
	for _, c := range list {
		worst = max(worst, math.Abs(c.residual(x, drive)))
	}
	return worst
}

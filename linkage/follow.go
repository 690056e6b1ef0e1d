package linkage

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// A Posture is one position of a mechanism, with its drive at unit speed: 1
// rad/s for a crank, 1 mm/s for a slider.
type Posture struct {
	Drive        float64      // deg for a crank, mm for a slider
	Points       []geom.Point // mm, in the order of Names
	Velocity     []geom.Point // mm per unit of drive (rad or mm)
	Acceleration []geom.Point // mm per unit of drive squared
	Singularity  float64      // sigma_min/sigma_max of the Jacobian
	branch       int          // sign of the Jacobian's determinant
	jacobian     matrix
}

// A Limit is where a mechanism locks.
type Limit struct {
	Drive  float64 // deg or mm, within 1e-6 deg of the place
	InLine string  // the links that line up there
}

// posture works out speeds at solved points; false where J is singular.
func (m *Mechanism) posture(x []geom.Point, drive float64) (Posture, bool) {
	j := m.jacobian(m.solved, x, drive)
	p := Posture{Drive: m.given(drive), Points: x, jacobian: j}
	right := make([]float64, len(m.solved))
	for i, c := range m.solved {
		right[i] = -c.byDrive(x, drive)
	}
	v, sign := j.solve(right)
	if p.branch = sign; sign == 0 {
		return p, false
	}
	p.Velocity = m.spread(v)
	for i, c := range m.solved {
		right[i] = -c.bend(p.Velocity, x, drive)
	}
	a, _ := j.solve(right)
	p.Acceleration = m.spread(a)
	most, least := j.singular()
	p.Singularity = least / most
	return p, true
}

// spread gives each point its part of a solution, fixed ones nothing.
func (m *Mechanism) spread(v []float64) []geom.Point {
	return m.moved(make([]geom.Point, len(m.column)), v, 1)
}

// corrected closes the mechanism at a drive, from points near by: a few Newton
// steps, halved until the residual falls.
func (m *Mechanism) corrected(x []geom.Point, drive float64) ([]geom.Point, bool) {
	left := residual(m.solved, x, drive)
	for range 12 {
		if left <= closed*m.size {
			break
		}
		off := residuals(m.solved, x, drive)
		for i := range off {
			off[i] = -off[i]
		}
		step, sign := m.jacobian(m.solved, x, drive).solve(off)
		if sign == 0 {
			return nil, false
		}
		next, after := m.halved(m.solved, x, step, drive, left)
		if !(after < left) {
			break
		}
		x, left = next, after
	}
	const enough = 100 * closed // rounding of a long chain of links
	return x, left <= enough*m.size && residual(m.all, x, drive) <= 1e-9*m.size
}

// Follow returns the postures at even steps of the drive, from its start to an
// end in deg or mm, on the branch on which the start stands. Where the mechanism
// locks on the way the postures end, and the limit position is returned with
// them.
func (m *Mechanism) Follow(to float64, count int) ([]Posture, *Limit, error) {
	if err := check.InRange("number of stations", float64(count), "", 2, mostStations, "181 is smooth"); err != nil {
		return nil, nil, err
	}
	if err := check.InRange("end of the drive", to, "", -1e5, 1e5, "give an angle in deg or a feed in mm"); err != nil {
		return nil, nil, err
	}
	at, end := m.driveValue(m.spec.Drive.Start), m.driveValue(to)
	now, ok := m.posture(m.start, at)
	if !ok {
		panic("linkage: an assembled mechanism is singular")
	}
	list, first := []Posture{now}, at
	for i := 1; i < count; i++ {
		target := first + (end-first)*float64(i)/float64(count-1)
		now, at, ok = m.advance(now, at, target)
		if !ok {
			return list, &Limit{m.given(at), m.lined(now)}, nil
		}
		list = append(list, now)
	}
	return list, nil, nil
}

// smallestStep is the step of the drive, in rad or as a share of the size, at
// which the mechanism counts as locked.
const smallestStep = 1e-9

// advance moves on to a drive in steps: along the tangent, then corrected. A
// step is halved where the correction fails, moves the points by more than a
// quarter of the predicted step, or changes the sign of det J, which is a jump to
// another branch.
func (m *Mechanism) advance(now Posture, at, target float64) (Posture, float64, bool) {
	step, least := target-at, smallestStep
	if m.drive.kind == feed {
		least *= m.size
	}
	for at != target {
		if math.Abs(target-at) < math.Abs(step) {
			step = target - at
		}
		guess := make([]geom.Point, len(now.Points))
		predicted := 0.0
		for i, p := range now.Points {
			guess[i] = p.Add(now.Velocity[i].Scale(step))
			predicted = max(predicted, now.Velocity[i].Scale(step).Len())
		}
		if next, ok := m.stepped(guess, at+step, predicted, now.branch); ok {
			now, at = next, at+step
			if math.Abs(target-at) < 1e-15*(1+math.Abs(target)) {
				at = target
			}
			step *= 2
			continue
		}
		if step /= 2; math.Abs(step) < least {
			return now, at, false
		}
	}
	return now, at, true
}

func (m *Mechanism) stepped(guess []geom.Point, drive, predicted float64, branch int) (Posture, bool) {
	x, ok := m.corrected(guess, drive)
	if !ok {
		return Posture{}, false
	}
	for i := range x {
		if x[i].Sub(guess[i]).Len() > 0.25*predicted+1e-12*m.size {
			return Posture{}, false
		}
	}
	next, ok := m.posture(x, drive)
	return next, ok && next.branch == branch
}

// lined names the two links at one pin that lie most nearly in one line, or the
// link that stands square to its slide.
func (m *Mechanism) lined(p Posture) string {
	least, names := math.Inf(1), "no two links"
	consider := func(off float64, text string) {
		if off < least {
			least, names = off, text
		}
	}
	direction := func(c constraint) geom.Point {
		d := p.Points[c.q].Sub(p.Points[c.p])
		return d.Scale(1 / d.Len())
	}
	for i, a := range m.all {
		if a.kind != distance {
			continue
		}
		for _, b := range m.all[:i] {
			if b.kind == distance && m.meet(a, b) {
				consider(math.Abs(cross(direction(a), direction(b))), fmt.Sprintf("%s and %s in one line", b.link, a.link))
			}
		}
		for _, s := range m.all {
			if s.kind == slide && (s.p == a.p || s.p == a.q) {
				consider(math.Abs(inner(direction(a), s.along)), fmt.Sprintf("%s square to the %s", a.link, s.link))
			}
		}
	}
	return names
}

// meet says whether two bars share a moving point; the driven crank does not
// count, since it moves as it is told.
func (m *Mechanism) meet(a, b constraint) bool {
	for _, p := range []int{a.p, a.q} {
		if m.column[p] >= 0 && (p == b.p || p == b.q) {
			driven := m.drive.kind == crank && (p == m.drive.q) && (a.p == m.drive.p || a.q == m.drive.p || b.p == m.drive.p || b.q == m.drive.p)
			return !driven
		}
	}
	return false
}

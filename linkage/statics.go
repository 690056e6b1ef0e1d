package linkage

import (
	"math"

	"pintle/check"
	"pintle/geom"
)

// Forces are what a mechanism bears in one posture.
type Forces struct {
	Bars  map[string]float64 // N, tension positive, by "FROM-TO"; of a plate between its first two points
	Drive float64            // N·mm at the crank, anticlockwise positive, or N along the slider
}

// Forces returns what bars and drive bear when forces in N pull at named points
// and nothing moves, by the principle of virtual work: the constraints'
// multipliers in J' lambda = -f are their forces, since their gradients have unit
// length. Masses of the links are left out.
func (m *Mechanism) Forces(p Posture, loads map[string]geom.Point) (Forces, error) {
	pull := make([]float64, m.unknown)
	for name, f := range loads {
		n, err := m.point(name)
		if err != nil {
			return Forces{}, err
		}
		for _, v := range []float64{f.X, f.Y} {
			if err := check.InRange("force at "+name, v, "N", -1e6, 1e6, "give x and y in N"); err != nil {
				return Forces{}, err
			}
		}
		if k := m.column[n]; k >= 0 {
			pull[k], pull[k+1] = pull[k]-f.X, pull[k+1]-f.Y
		}
	}
	lambda, sign := p.jacobian.transposed().solve(pull)
	if sign == 0 {
		panic("linkage: a posture with speeds is singular")
	}
	forces := Forces{Bars: map[string]float64{}}
	for i, c := range m.solved {
		switch c.kind {
		case distance:
			forces.Bars[c.link] = -lambda[i] // lambda pushes the ends apart
		case crank:
			forces.Drive = lambda[i] * math.Abs(inner(geom.Polar(1, m.driveValue(p.Drive)), p.Points[c.q].Sub(p.Points[c.p])))
		case feed:
			forces.Drive = lambda[i]
		}
	}
	return forces, nil
}

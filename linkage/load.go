package linkage

import (
	"math"
	"slices"
	"sort"

	"pintle/drive"
)

// size sizes the drive over the wanted swing, where servo, load and motion are
// given and the lever turns one way.
func (s *Stroke) size() error {
	if s.spec.Servo == nil || s.spec.Load == nil || s.spec.Motion == nil || !s.Monotone() {
		return nil
	}
	motion := *s.spec.Motion
	motion.SwingDeg = math.Abs(s.used.LeverToDeg - s.used.LeverFromDeg)
	d, err := drive.Size(drive.Spec{
		Servo: s.spec.Servo.Servo, Load: s.spec.Load.Load, Motion: motion,
		Efficiency: s.spec.Efficiency, Limits: s.spec.Limits,
		Through: s.through(),
	})
	s.drive = d
	return err
}

// rises is 1 where the load rises as the lever's angle grows, otherwise -1.
func (s *Stroke) rises() float64 {
	if s.spec.Load != nil && s.spec.Load.Sinks {
		return -1
	}
	return 1
}

// middleDeg is the lever's angle in the middle of its swing.
func (s *Stroke) middleDeg() float64 { return (s.used.LeverFromDeg + s.used.LeverToDeg) / 2 }

// through returns the servo's angle for an angle of the joint from mid-swing, on
// the side on which the load rises. It remembers what it was asked, because a
// drive looks at the same places again for each time of the move; outside the
// stroke it stays at the stroke's end.
func (s *Stroke) through() func(float64) (float64, float64) {
	if s.spec.trial {
		return s.throughStations()
	}
	type answer struct{ servo, ratio float64 }
	known := map[float64]answer{}
	lo, hi := s.LeverRange()
	return func(jointDeg float64) (float64, float64) {
		if a, ok := known[jointDeg]; ok {
			return a.servo, a.ratio
		}
		lever := min(max(s.middleDeg()+s.rises()*jointDeg, lo), hi)
		horn, ok := s.HornFor(lever)
		if !ok {
			panic("linkage: a lever angle within the stroke has no horn angle")
		}
		at, _ := s.At(horn)
		a := answer{s.spec.servoAt(horn), math.Abs(1 / at.Ratio)}
		known[jointDeg] = a
		return a.servo, a.ratio
	}
}

// throughStations is through by curves through the stations.
func (s *Stroke) throughStations() func(float64) (float64, float64) {
	n := len(s.stations)
	levers, horns, ratios := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, st := range s.stations {
		levers[i], horns[i], ratios[i] = st.LeverDeg, st.HornDeg, math.Abs(1/st.Ratio)
	}
	if levers[0] > levers[n-1] {
		slices.Reverse(levers)
		slices.Reverse(horns)
		slices.Reverse(ratios)
	}
	horn := newMonotone(levers, horns)
	return func(jointDeg float64) (float64, float64) {
		lever := s.middleDeg() + s.rises()*jointDeg
		i := min(max(sort.SearchFloat64s(levers, lever), 1), n-1)
		share := min(max((lever-levers[i-1])/(levers[i]-levers[i-1]), 0), 1)
		return s.spec.servoAt(horn.at(lever)), ratios[i-1] + share*(ratios[i]-ratios[i-1])
	}
}

// GravityAt returns the torque in N·m that holds the load with the lever at an
// angle in deg, positive where it must lift; 0 without a load.
func (s *Stroke) GravityAt(leverDeg float64) float64 {
	if s.spec.Load == nil {
		return 0
	}
	return s.spec.Load.GravityAt(s.rises() * (leverDeg - s.middleDeg()))
}

// HoldingTorque returns the torque in N·m at the servo that holds the load at a
// station, friction left out and efficiency counted: by virtual work, the torque
// at the lever times the velocity ratio.
func (s *Stroke) HoldingTorque(st Station) float64 {
	if s.spec.Load == nil {
		return 0
	}
	return (math.Abs(s.GravityAt(st.LeverDeg)) + s.spec.Load.ExtraTorque) * math.Abs(st.Ratio) / s.spec.Efficiency
}

// Drive returns the sized drive over the wanted swing, or nil where servo, load
// or motion are not given or the lever does not turn one way.
func (s *Stroke) Drive() *drive.Drive { return s.drive }

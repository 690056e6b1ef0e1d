package drive

import (
	"math"

	"pintle/check"
)

// A demand is what a motion asks of the servo, all torques at its shaft.
type demand struct {
	peak, rms, held float64 // N·m
	gravity         float64 // N·m at the joint, the worst of the swing
	speedShare      float64
	servoSpeed      float64 // deg/s, the highest at the servo
	jointPeak       float64 // N·m at the joint where the servo's torque peaks
	worstDeg        float64 // where the peak is, from the middle of the swing
}

// steps is the number of equal times at which a motion is looked at: the peak
// of a smooth law is then met to about one part in 10^5.
const steps = 180

// demandOf follows the joint through its swing. At a given place the forward
// and the return swing accelerate alike, so one of them shows both. The torque
// of a place is the larger of standing and moving there, and friction always
// adds: both only ever overstate, and make the peak fall as the time grows.
func demandOf(s Spec) demand {
	var d demand
	inertia, even := s.Load.inertia(), s.Load.BearingFriction+s.Load.ExtraTorque
	swing, time := s.Motion.SwingDeg, s.Motion.Time
	var squares, held float64
	for i := range steps + 1 {
		place, speed, acceleration := s.Motion.Law.At(float64(i) / steps)
		deg := (place - 0.5) * swing
		gravity := s.Load.GravityAt(deg)
		moving := s.accelerating(gravity, inertia*acceleration*swing*rad/(time*time))
		_, ratio := s.servoAt(deg)
		toServo := 1 / (ratio * s.Efficiency)
		torque := (max(math.Abs(gravity), moving) + even) * toServo
		if torque > d.peak {
			d.peak, d.worstDeg, d.jointPeak = torque, deg, torque/toServo
		}
		d.gravity = max(d.gravity, math.Abs(gravity))
		held = max(held, (math.Abs(gravity)+s.Load.ExtraTorque)*toServo)
		servoSpeed := speed * swing / time * ratio
		d.servoSpeed = max(d.servoSpeed, servoSpeed)
		d.speedShare = max(d.speedShare, servoSpeed/s.Servo.speedAt(torque))
		if i > 0 { // each step once: the two ends share one
			squares += torque * torque
		}
	}
	d.rms = math.Sqrt(squares / steps)
	if s.Motion.Hold {
		d.held = held
	}
	return d
}

// accelerating adds the inertia torque to gravity: with its sign where the
// posture is known, otherwise against the servo.
func (s Spec) accelerating(gravity, inertia float64) float64 {
	if s.Load.PostureKnown {
		return math.Abs(gravity + inertia)
	}
	return gravity + math.Abs(inertia)
}

// shortestTime returns the least time in s in which the servo makes the swing
// without failing on peak torque or speed, to one part in 1000 above; false
// where no time up to an hour is long enough. Both shares fall as the time
// grows, so halving the interval finds it.
func shortestTime(s Spec) (float64, bool) {
	fits := func(time float64) bool {
		s.Motion.Time = time
		found := sized(s).judge()
		return found[0].Verdict != check.Fail && found[3].Verdict != check.Fail
	}
	lo, hi := 1e-3, 3600.0
	if !fits(hi) {
		return 0, false
	}
	for hi > lo*1.001 {
		middle := math.Sqrt(lo * hi)
		if fits(middle) {
			hi = middle
		} else {
			lo = middle
		}
	}
	return hi, true
}

package drive

import (
	"math"

	"pintle/check"
)

// steps is the number of equal times at which a motion is looked at: the peak
// of a smooth law is then met to about one part in 10^5.
const steps = 180

// A Task is what a motion asks of its joint, whatever stands between joint and
// servo: worked out once, it is met through one ratio after the other.
type Task struct {
	spec    Spec // its servo at the supply's voltage
	moments [steps + 1]moment
	gravity float64 // N·m, the worst of the swing
	peak    float64 // N·m at the joint, the worst of the swing
	rules   [4]check.Rule
	limits  [4]check.Limit

	voltageShare float64 // of the supply to the stated voltage
}

// A moment is one of the times of a swing.
type moment struct {
	deg    float64 // from the middle of the swing
	torque float64 // N·m at the joint
	held   float64 // N·m at the joint, at rest there
	speed  float64 // deg/s at the joint
}

// NewTask follows the joint through its swing. The spec's ratio and efficiency
// are left aside. The error is a *check.FieldError.
func NewTask(spec Spec) (*Task, error) {
	spec.Ratio, spec.Efficiency = 1, 1
	if err := spec.validate(); err != nil {
		return nil, err
	}
	return taskOf(spec), nil
}

// taskOf: at a given place the forward and the return swing accelerate alike, so
// one of them shows both. The torque of a place is the larger of standing and
// moving there, and friction always adds: both only ever overstate, and make the
// peak fall as the time grows.
func taskOf(s Spec) *Task {
	t := &Task{voltageShare: s.Servo.VoltageShare()}
	s.Servo = s.Servo.running()
	t.spec = s
	inertia, even := s.Load.MomentOfInertia(), s.Load.BearingFriction+s.Load.ExtraTorque
	swing, time := s.Motion.SwingDeg, s.Motion.Time
	for i := range t.moments {
		place, speed, acceleration := s.Motion.Law.At(float64(i) / steps)
		deg := (place - 0.5) * swing
		standing := s.Load.standingAt(deg)
		moving := s.accelerating(standing, inertia*acceleration*swing*rad/(time*time))
		t.moments[i] = moment{
			deg: deg, torque: max(math.Abs(standing), moving) + even,
			held: math.Abs(standing) + s.Load.ExtraTorque, speed: speed * swing / time,
		}
		t.peak = max(t.peak, t.moments[i].torque)
		t.gravity = max(t.gravity, math.Abs(s.Load.GravityAt(deg)))
	}
	for i, r := range judgedRules() {
		t.rules[i], t.limits[i] = r, s.Limits.Of(r)
	}
	return t
}

// accelerating adds the inertia torque to what the joint bears at rest: with its
// sign where the posture is known, otherwise against the servo.
func (s Spec) accelerating(standing, inertia float64) float64 {
	if s.Load.PostureKnown {
		return math.Abs(standing + inertia)
	}
	return standing + math.Abs(inertia)
}

// WithRatio returns the drive that meets the task through an even ratio; ratio
// and efficiency are as in Spec and not checked again.
func (t *Task) WithRatio(ratio, efficiency float64) *Drive {
	d := &Drive{spec: t.spec, task: t}
	d.spec.Ratio, d.spec.Efficiency, d.spec.Through = ratio, efficiency, nil
	d.demand = t.through(d.spec)
	return d
}

// Excluded names the rule that an even ratio is bound to fail by peak torque or
// travel, the quickest to tell of the four, or returns "".
func (t *Task) Excluded(ratio, efficiency float64) string {
	rules, s := t.rules, t.spec
	switch {
	case rules[0].Verdict(t.peak/(ratio*efficiency)/s.Servo.StallTorque, t.limits[0]) == check.Fail:
		return rules[0].Name
	case rules[2].Verdict((s.Servo.Travel()-ratio*s.Motion.SwingDeg)/2, t.limits[2]) == check.Fail:
		return rules[2].Name
	}
	return ""
}

// A demand is what a task asks of the servo, all torques at its shaft.
type demand struct {
	peak, rms, held float64 // N·m
	speedShare      float64
	servoSpeed      float64 // deg/s, the highest at the servo
	jointPeak       float64 // N·m at the joint where the servo's torque peaks
	worstDeg        float64 // where the peak is, from the middle of the swing
}

// through meets the task through what stands between in a spec.
func (t *Task) through(s Spec) demand {
	var d demand
	ratio := s.Ratio
	var squares, held float64
	for i, m := range t.moments {
		if s.Through != nil {
			_, ratio = s.Through(m.deg)
		}
		toServo := 1 / (ratio * s.Efficiency)
		torque := m.torque * toServo
		if torque > d.peak {
			d.peak, d.worstDeg, d.jointPeak = torque, m.deg, m.torque
		}
		held = max(held, m.held*toServo)
		servoSpeed := m.speed * ratio
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

// ShortestTime returns the least time in s in which the servo makes the swing
// without failing on peak torque or speed; false where no time is long enough.
func (d *Drive) ShortestTime() (float64, bool) { return shortestTime(d.spec) }

// shortestTime returns the least time in s in which the servo makes the swing
// without failing on peak torque or speed, to one part in 1000 above; false
// where no time up to an hour is long enough. Both shares fall as the time
// grows, so halving the interval finds it.
func shortestTime(s Spec) (float64, bool) {
	fits := func(time float64) bool {
		s.Motion.Time = time
		v := sized(s).Verdicts()
		return v[0] != check.Fail && v[3] != check.Fail
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

// Package drive holds the physics of a joint turned by a positional servo: what
// torque, speed and travel a motion asks for, and what a measured servo gives.
//
// A load turns through a swing in a time, following a motion law. Between servo
// and joint stands a ratio, the servo's angle per angle of the joint (a
// reduction has a ratio above 1), and an efficiency. Size works out the torque
// along the swing and judges it against the servo's stall torque, speed and
// travel.
//
// Lengths are millimetres, masses kg, inertias kg·m², torques N·m, times
// seconds; names ending in Deg are degrees. A servo's stall torque and speed are
// those at the voltage it will run on. Under load its speed is taken to fall on
// the straight line of a direct-current motor, omega0 (1 - T/Ts).
//
// The package chooses no gears and knows no parts.
package drive

import "pintle/check"

// DefaultEfficiency is the share of the servo's work that reaches the joint
// through one pair of printed gears or one lever (common practice, no source).
const DefaultEfficiency = 0.9

// A Spec is a servo, what it turns, how, and what stands between.
type Spec struct {
	Servo      Servo
	Load       Load
	Motion     Motion
	Ratio      float64 // angle of the servo per angle of the joint, > 0
	Efficiency float64 // share, above 0 up to 1; see DefaultEfficiency
	Limits     check.Limits

	PlayDeg            float64 // of what stands between, at the joint; 0 where not known
	LostMotionLimitDeg float64 // of the whole joint; 0 for none

	// Through, where it is given, takes the place of Ratio: a linkage turns the
	// servo unevenly. For an angle of the joint in deg from the middle of its
	// swing it returns the servo's angle in deg, on the scale of its measured
	// points, and the servo's angle per angle of the joint there, > 0 and finite.
	Through func(jointDeg float64) (servoDeg, ratio float64)
}

// servoAt returns the servo's angle and its angle per angle of the joint, for an
// angle of the joint from mid-swing. An even ratio puts the swing in the middle
// of the servo's travel.
func (s Spec) servoAt(jointDeg float64) (servoDeg, ratio float64) {
	if s.Through != nil {
		return s.Through(jointDeg)
	}
	lo, hi := s.Servo.Range()
	return (lo+hi)/2 + jointDeg*s.Ratio, s.Ratio
}

// servoEnds returns the servo's angles at the ends of the swing, the lesser
// first.
func (s Spec) servoEnds() (lo, hi float64) {
	a, _ := s.servoAt(-s.Motion.SwingDeg / 2)
	b, _ := s.servoAt(s.Motion.SwingDeg / 2)
	return min(a, b), max(a, b)
}

// A Drive is a sized drive: what its motion asks for and what its servo gives.
type Drive struct {
	spec   Spec // its servo at the supply's voltage
	task   *Task
	demand demand
}

// Size works out what the motion asks of the servo. It returns a
// *check.FieldError for a quantity that no drive can have; a servo that is too
// weak, slow or short of travel is no error but a Finding.
func Size(spec Spec) (*Drive, error) {
	if err := spec.validate(); err != nil {
		return nil, err
	}
	return sized(spec), nil
}

func sized(spec Spec) *Drive {
	t := taskOf(spec)
	return &Drive{t.spec, t, t.through(t.spec)}
}

func (s Spec) validate() error {
	if err := s.Servo.Validate(); err != nil {
		return err
	}
	if err := s.Load.Validate(); err != nil {
		return err
	}
	if err := s.Motion.Validate(); err != nil {
		return err
	}
	for _, q := range []struct {
		field string
		value float64
	}{{"play", s.PlayDeg}, {"lost motion limit", s.LostMotionLimitDeg}} {
		if err := check.InRange(q.field, q.value, "deg", 0, 90, "give the angle at the joint, or leave it out"); err != nil {
			return err
		}
	}
	if s.Through != nil {
		return s.validateEfficiency()
	}
	if err := check.InRange("ratio", s.Ratio, "", 0.01, 1000,
		"give the servo's angle per angle of the joint: wheel teeth over pinion teeth"); err != nil {
		return err
	}
	return s.validateEfficiency()
}

func (s Spec) validateEfficiency() error {
	return check.InRange("efficiency", s.Efficiency, "", 0.05, 1,
		"give the share that reaches the joint, 0.9 for one pair of gears or one lever")
}

// AvailableSwingDeg returns how far the servo's travel turns the joint with an
// even ratio, in deg.
func (d *Drive) AvailableSwingDeg() float64 { return d.spec.Servo.Travel() / d.spec.Ratio }

// UsedTravelDeg returns how much of the servo's travel the swing uses, in deg.
func (d *Drive) UsedTravelDeg() float64 {
	lo, hi := d.spec.servoEnds()
	return hi - lo
}

// SpareTravelDeg returns the travel left at the end where there is less of it, in
// deg; negative where the travel does not suffice.
func (d *Drive) SpareTravelDeg() float64 {
	from, to := d.spec.servoEnds()
	lo, hi := d.spec.Servo.Range()
	return min(from-lo, hi-to)
}

// PeakShare returns the highest servo torque as a share of the stall torque.
func (d *Drive) PeakShare() float64 { return d.demand.peak / d.spec.Servo.StallTorque }

// HeldShare returns the larger of the held and the root-mean-square servo
// torque as a share of the stall torque.
func (d *Drive) HeldShare() float64 {
	return max(d.demand.held, d.demand.rms) / d.spec.Servo.StallTorque
}

// SpeedShare returns the needed servo speed as a share of what the servo gives
// at the torque it bears at that moment, at the worst moment of the motion.
func (d *Drive) SpeedShare() float64 { return d.demand.speedShare }

// ratio returns the servo's angle per angle of the joint at mid-swing.
func (d *Drive) ratio() float64 {
	_, ratio := d.spec.servoAt(0)
	return ratio
}

// LostMotionDeg returns how far the joint can be moved while the servo holds, in
// deg: the play between, and the servo's own divided by the ratio at mid-swing.
func (d *Drive) LostMotionDeg() float64 {
	return d.spec.PlayDeg + d.spec.Servo.PlayDeg/d.ratio()
}

// ResolutionDeg returns the least step of the joint at mid-swing in deg: the
// servo's dead band divided by the ratio. A joint at rest may jitter by as much.
func (d *Drive) ResolutionDeg() float64 { return d.spec.Servo.DeadBandDeg() / d.ratio() }

// Values returns the drive's numbers for the report, by name; a name ends in
// its unit where that is not plain. shortest_time_s is left out where no time
// is long enough for the servo to bear the load.
func (d *Drive) Values() map[string]any {
	m, s := d.spec.Motion, d.spec.Servo
	peakSpeed := m.peakSpeedDeg()
	values := map[string]any{
		"efficiency":               d.spec.Efficiency,
		"travel_deg":               s.Travel(),
		"used_travel_deg":          d.UsedTravelDeg(),
		"spare_travel_deg":         d.SpareTravelDeg(),
		"peak_speed_deg_s":         peakSpeed,
		"servo_peak_speed_deg_s":   d.demand.servoSpeed,
		"servo_no_load_deg_s":      s.SpeedDegPerS,
		"no_load_time_s":           d.UsedTravelDeg() / s.SpeedDegPerS,
		"peak_acceleration_deg_s2": m.peakAccelerationDeg(),
		"inertia_kg_m2":            d.spec.Load.MomentOfInertia(),
		"inertia_torque":           d.spec.Load.MomentOfInertia() * m.peakAccelerationDeg() * rad,
		"reflected_inertia_kg_m2":  d.spec.Load.MomentOfInertia() / (d.ratio() * d.ratio()),
		"gravity_torque":           d.task.gravity,
		"cable_torque":             d.spec.Load.CableTorque,
		"friction_torque":          d.spec.Load.BearingFriction,
		"extra_torque":             d.spec.Load.ExtraTorque,
		"peak_joint_torque":        d.demand.jointPeak,
		"servo_peak_torque":        d.demand.peak,
		"servo_rms_torque":         d.demand.rms,
		"servo_held_torque":        d.demand.held,
		"peak_share":               d.PeakShare(),
		"rms_share":                d.demand.rms / s.StallTorque,
		"held_share":               d.demand.held / s.StallTorque,
		"speed_share":              d.SpeedShare(),
		"worst_position_deg":       d.demand.worstDeg,
		"stall_torque":             s.StallTorque,
		"voltage_share":            d.task.voltageShare,
		"lost_motion_deg":          d.LostMotionDeg(),
		"resolution_deg":           d.ResolutionDeg(),
	}
	d.addStrike(values)
	if m.CyclesPerDay > 0 {
		values["cycles_a_year"] = 365 * m.CyclesPerDay
	}
	if d.spec.Through == nil {
		values["ratio"], values["available_swing_deg"] = d.spec.Ratio, d.AvailableSwingDeg()
	}
	if t, ok := shortestTime(d.spec); ok {
		values["shortest_time_s"] = t
	}
	return values
}

// addStrike adds the speed and the energy that the servo's no-load speed could
// give the load: what a blow, or a stop met by mistake, may have to take.
func (d *Drive) addStrike(values map[string]any) {
	speed := d.spec.Servo.SpeedDegPerS / d.ratio()
	values["no_load_joint_deg_s"] = speed
	values["no_load_speed_at_centre_of_gravity_m_s"] = speed * rad * d.spec.Load.Offset / 1000
	values["no_load_energy_j"] = d.spec.Load.MomentOfInertia() * speed * rad * speed * rad / 2
}

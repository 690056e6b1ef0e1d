package joint

import (
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/drive"
)

var ruleUnchecked = check.Rule{
	Name: "not-checked", Meaning: "Something was not said, so that checks that need it were left out.",
	Formula: "whether the joint file names servo, load, motion and the hottest place",
	Source:  "the joint file", Change: "say it in the joint file", Sense: check.Informs,
}

// addDrives sizes every drive and judges the load on its bearing. What cannot
// be judged because the file does not say enough is named.
func (b *builder) addDrives() error {
	for _, name := range sorted(b.turnings) {
		t := b.turnings[name]
		load, loaded := b.file.Loads[t.table.Load]
		servo, known := b.file.Servos[t.table.Servo]
		motion, wanted := b.file.Motions[t.table.Motion]
		b.sayUnchecked(t, loaded, known, wanted)
		use := servo.swing(t.table.Servo, "gears."+name, motion.Swing, t.pair.Ratio(), 1)
		if known && wanted {
			b.find("drive."+name, b.startUp(use, servo, t.table.Motion, t.pair.Ratio()))
		}
		if !loaded {
			if known {
				b.useServo(use)
			}
			continue
		}
		var torque float64
		if known && wanted {
			d, err := drive.Size(b.driveSpec(t, servo, load, motion))
			if err != nil {
				return b.file.Blame("gears."+name, err)
			}
			use.share = d.PeakShare()
			values := d.Values()
			torque, _ = values["peak_joint_torque"].(float64)
			b.report.Designs["drive."+name] = values
			b.find("drive."+name, d.Findings()...)
		}
		if known {
			b.useServo(use)
		}
		if t.kit.bearing.Bore > 0 {
			on, err := b.loadOn(b.ringOf(t.table.Wheel.Bearing), load)
			if err != nil {
				return err
			}
			if err := on.Validate(); err != nil {
				return b.file.Blame("bearing."+t.table.Wheel.Bearing, err)
			}
			on.RPM = turnsPerMinute(motion)
			on.Radial += t.meshForce(torque)
			b.find("bearing."+t.table.Wheel.Bearing, bearing.CheckLoad(t.kit.bearing, on, b.file.Limits)...)
			b.find("gears."+name, t.held(load)...)
		}
	}
	return nil
}

// sayUnchecked names the checks that are left out for want of an input.
func (b *builder) sayUnchecked(t *turning, loaded, known, wanted bool) {
	if t.table.Servo == "" && t.table.Wheel.Bearing == "" {
		return // a pair on its own: nothing of a joint was asked for
	}
	say := func(missing bool, word, checks string) {
		if missing {
			b.find("gears."+t.name, ruleUnchecked.Say(check.Caution, 0, "no "+word+" is named: "+checks+" are not checked",
				"add "+word+" = \"NAME\" and the ["+word+".NAME] table"))
		}
	}
	say(!loaded, "load", "tipping, load direction and the servo's torque")
	say(!known, "servo", "travel, torque and speed")
	say(!wanted, "motion", "travel, torque and speed")
	if !b.file.Has("place.hottest") {
		b.find("gears."+t.name, ruleUnchecked.Say(check.Note, 0, "the hottest place is not said: softening by heat is not checked", "add hottest = 40 to [place]"))
	}
}

// meshForce returns the force of the teeth on the wheel's bearing in N: the
// torque at the joint over the base radius, along the line of action.
func (t *turning) meshForce(torque float64) float64 {
	return torque * 1000 / (t.pair.Wheel().BaseDiameter() / 2)
}

// driveSpec gathers what the file says of a pair's drive. The servo's play and
// the teeth's are both lost motion of the joint.
func (b *builder) driveSpec(t *turning, s Servo, l Load, m Motion) drive.Spec {
	spec := b.task(t.table, t.kit.bearing, s, l, m)
	spec.Ratio, spec.Efficiency = t.pair.Ratio(), drive.DefaultEfficiency
	spec.PlayDeg = t.pair.LostMotion() * 180 / math.Pi
	return spec
}

// task is a drive without the pair that stands in it. A bearing without a bore
// is not known.
func (b *builder) task(g Gears, on bearing.Bearing, s Servo, l Load, m Motion) drive.Spec {
	weight := l.Mass * drive.Gravity
	friction := frictionTorque(l.Friction, weight)
	if on.Bore > 0 {
		friction += drive.BearingTorque(rollingMu(on.Kind), weight, on.Bore)
	}
	return drive.Spec{
		Servo: s.measured(),
		Load: drive.Load{
			Mass: l.Mass, Inertia: inertia(l), Offset: l.CentreOfGravity.Offset, Height: l.CentreOfGravity.Height,
			Axis: drive.Axis(l.Axis), BearingFriction: friction, ExtraTorque: l.ExtraTorque, CableTorque: l.CableTorque,
			PostureKnown: b.file.Has("load." + g.Load + ".elevation"), MiddleDeg: l.ElevationDeg,
		},
		Motion: drive.Motion{
			SwingDeg: m.Swing, Time: m.Time, Law: drive.Law(m.Law), Hold: m.Hold,
			CyclesPerDay: m.CyclesPerDay, Strikes: m.Strikes,
		},
		LostMotionLimitDeg: g.LostMotion.limitDeg(), Limits: b.file.Limits,
	}
}

// measured returns what the physics of a drive needs of a servo.
func (s Servo) measured() drive.Servo {
	var points []drive.PulsePoint
	for _, p := range s.Points {
		points = append(points, drive.PulsePoint{PulseMicroseconds: p[0], AngleDeg: p[1]})
	}
	return drive.Servo{
		StallTorque: s.StallTorque, SpeedDegPerS: s.SpeedDeg, Points: points,
		StatedVoltage: s.Voltage, SupplyVoltage: s.Supply, DeadBand: s.DeadBand, PlayDeg: s.Play,
	}
}

// frictionTorque returns a friction in N·m; one named by its bearing follows
// from the weight in N.
func frictionTorque(f Friction, weight float64) float64 {
	mu := map[string]float64{
		"ball": drive.MuDeepGroove, "tapered": drive.MuTaperedRoller, "thrust": drive.MuThrustBall, "plain": drive.MuPlain,
	}[f.Bearing]
	return f.Value + drive.BearingTorque(mu, weight, f.Bore)
}

// inertia returns the moment of inertia about the joint's axis in kg·m².
func inertia(l Load) float64 {
	i := l.Inertia
	switch i.Solid {
	case "disc":
		return drive.Disc(l.Mass, i.Radius)
	case "rod":
		return drive.Rod(l.Mass, i.Length)
	case "box":
		return drive.Shifted(drive.Box(l.Mass, i.Length, i.Width), l.Mass, l.CentreOfGravity.Offset)
	case "point":
		return drive.Point(l.Mass, i.Radius)
	}
	return i.Value
}

func rollingMu(k bearing.Kind) float64 {
	switch k {
	case bearing.Tapered:
		return drive.MuTaperedRoller
	case bearing.ThrustBall:
		return drive.MuThrustBall
	}
	return drive.MuDeepGroove
}

// bearingLoad turns the load's weight into forces on the bearing, by how its
// axis stands.
func bearingLoad(l Load) bearing.Load {
	return bearing.WeightOn(l.Axis, l.Mass*drive.Gravity, l.CentreOfGravity.Height, l.CentreOfGravity.Offset)
}

// turnsPerMinute returns the mean speed of a swing, 0 for none.
func turnsPerMinute(m Motion) float64 {
	if m.Time <= 0 {
		return 0
	}
	return m.Swing / 360 / m.Time * 60
}

package joint

import (
	"pintle/bearing"
	"pintle/drive"
)

// addDrives sizes every drive and judges the load on its bearing.
func (b *builder) addDrives() error {
	for _, name := range sorted(b.turnings) {
		t := b.turnings[name]
		load, ok := b.file.Loads[t.table.Load]
		if !ok {
			continue
		}
		if t.kit.bearing.Bore > 0 {
			b.find("bearing."+t.table.Wheel.Bearing, bearing.CheckLoad(t.kit.bearing, bearingLoad(load), b.file.Limits)...)
		}
		servo, known := b.file.Servos[t.table.Servo]
		motion, wanted := b.file.Motions[t.table.Motion]
		if !known || !wanted {
			continue
		}
		d, err := drive.Size(b.driveSpec(t, servo, load, motion))
		if err != nil {
			return b.file.Blame("gears."+name, err)
		}
		b.report.Designs["drive."+name] = d.Values()
		b.find("drive."+name, d.Findings()...)
	}
	return nil
}

func (b *builder) driveSpec(t *turning, s Servo, l Load, m Motion) drive.Spec {
	known := b.file.Has("load." + t.table.Load + ".elevation")
	friction := l.Friction
	if t.kit.bearing.Bore > 0 {
		friction += drive.BearingTorque(rollingMu(t.kit.bearing.Kind), l.Mass*drive.Gravity, t.kit.bearing.Bore)
	}
	var points []drive.PulsePoint
	for _, p := range s.Points {
		points = append(points, drive.PulsePoint{PulseMicroseconds: p[0], AngleDeg: p[1]})
	}
	return drive.Spec{
		Servo: drive.Servo{StallTorque: s.StallTorque, SpeedDegPerS: s.SpeedDeg, Points: points},
		Load: drive.Load{
			Mass: l.Mass, Inertia: inertia(l), Offset: l.CentreOfGravity.Offset, Height: l.CentreOfGravity.Height,
			Axis: drive.Axis(l.Axis), BearingFriction: friction, ExtraTorque: l.ExtraTorque,
			PostureKnown: known, MiddleDeg: l.ElevationDeg,
		},
		Motion: drive.Motion{SwingDeg: m.Swing, Time: m.Time, Law: drive.Law(m.Law), Hold: m.Hold},
		Ratio:  t.pair.Ratio(), Efficiency: drive.DefaultEfficiency, Limits: b.file.Limits,
	}
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
	weight := l.Mass * drive.Gravity
	load := bearing.Load{Height: l.CentreOfGravity.Height, Alone: true, Moment: weight * l.CentreOfGravity.Offset / 1000}
	switch drive.Axis(l.Axis) {
	case drive.Horizontal:
		load.Radial = weight
		load.Moment = weight * l.CentreOfGravity.Height / 1000
	case drive.Inverted:
		load.Axial = -weight
	default:
		load.Axial = weight
	}
	return load
}

package joint

import (
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/linkage"
)

// A linked is everything known of one linkage table while the joint is built.
type linked struct {
	name     string
	table    Linkage
	servo    Servo // the zero value where none is named
	material fit.Material
	stroke   *linkage.Stroke
	seat     hornSeat
	pins     [2]fit.Screw // that the rod turns on: at the horn, at the lever
	pivot    fit.Screw    // that the lever turns on

	horn, bar, lever *linkage.Link // nil where none is printed
	rod              *linkage.CutRod
	bracket          *linkage.Bracket
	levels           levels
}

// design names the linkage in the report.
func (l *linked) design() string { return "linkage." + l.name }

// addLinkages follows every linkage through its stroke and designs its parts.
func (b *builder) addLinkages() error {
	for _, name := range sorted(b.file.Linkages) {
		l := &linked{name: name, table: b.file.Linkages[name]}
		l.servo = b.file.Servos[l.table.Servo]
		var err error
		if l.material, err = b.material(l.design(), l.table.Material); err != nil {
			return err
		}
		if err := b.choosePins(l); err != nil {
			return err
		}
		if err := l.fourBar().Validate(); err != nil {
			return b.file.Blame(l.design(), err)
		}
		if err := b.chooseLevels(l); err != nil {
			return err
		}
		if l.stroke, err = linkage.New(b.linkageSpec(l)); err != nil {
			return b.file.Blame(l.design(), err)
		}
		b.linkages[name] = l
		b.report.Designs[l.design()] = l.stroke.Values()
		b.find(l.design(), b.barRemedies(l, l.stroke.Findings())...)
		if d := l.stroke.Drive(); d != nil {
			b.report.Designs["drive."+name] = d.Values()
		}
		b.useForLinkage(l)
		b.sayUncheckedLinkage(l)
		if err := b.addLinkParts(l); err != nil {
			return err
		}
		b.arrange(l.arrangement())
	}
	return nil
}

// fourBar returns the lengths of the four bars.
func (l *linked) fourBar() linkage.FourBar {
	t := l.table
	return linkage.FourBar{Horn: t.Horn.Length, Rod: t.Rod.Length, Lever: t.Lever.Length, Frame: t.Frame.Distance, Crossed: t.Crossed}
}

// linkageSpec turns a table into the spec of its stroke.
func (b *builder) linkageSpec(l *linked) linkage.Spec {
	t := l.table
	spec := linkage.Spec{
		FourBar: l.fourBar(), Offset: t.Offset, NeutralDeg: t.NeutralDeg, FromDeg: t.FromDeg, ToDeg: t.ToDeg, Turning: t.Turning,
		Efficiency: t.Efficiency, Limits: b.file.Limits,
	}
	servo, known := b.file.Servos[t.Servo]
	load, loaded := b.file.Loads[t.Load]
	motion, wanted := b.file.Motions[t.Motion]
	task := b.task(Gears{Load: t.Load}, bearing.Bearing{}, servo, load, motion)
	if known {
		spec.Servo = &linkage.Servo{
			Servo: task.Servo, Clockwise: t.Clockwise, SplineTeeth: servo.SplineTeeth,
			Tried: servo.Horn.TriedOnSpline, TriedDeg: servo.Horn.AtNeutralDeg,
		}
	}
	if t.Motor != (Motor{}) {
		spec.Motor = &linkage.Motor{StallTorque: t.Motor.StallTorque, RPM: t.Motor.RPM}
	}
	spec.TipRadius = t.Tip
	if t.Lever.Hub == "pin" {
		spec.PivotPlay = linkage.Running(l.pivot.Diameter, b.card) - l.pivot.Diameter
	}
	if l.bracketed() {
		spec.HornLift = (l.levels.rod[0]+l.levels.rod[1])/2 - l.servo.Tabs.BelowTop
	}
	spec.HornPin, spec.LeverPin, spec.Stock = b.rodJoints(l)
	if loaded {
		spec.Load = &linkage.Load{Load: task.Load, Sinks: t.Sinks}
	}
	if wanted {
		spec.SwingDeg, spec.Motion = motion.Swing, &task.Motion
	}
	return spec
}

// choosePins finds the screws that rod and lever turn on. In one of the horn's own
// holes it is the largest that passes.
func (b *builder) choosePins(l *linked) error {
	t := l.table
	pin, err := b.linkScrew(l, "pin", t.Pin, "M3")
	if err != nil {
		return err
	}
	l.pins = [2]fit.Screw{pin, pin}
	if l.pivot, err = b.linkScrew(l, "pivot", t.Frame.Pivot, "M4"); err != nil {
		return err
	}
	if hole, own := l.servo.Horn.holeAt(t.Horn.Length); own {
		if l.pins[0], own = fit.LargestThrough(hole); !own {
			return b.file.Blame("servo."+t.Servo, &check.FieldError{
				Field: "horn hole", Value: hole, Unit: "mm", Reason: "passes no metric screw for the rod to turn on",
				Remedy: "drill it to 2.1 mm, or use another horn length to have an arm printed",
			})
		}
	}
	return nil
}

// linkScrew returns the screw of a size word; a wrong one is blamed on the field.
func (b *builder) linkScrew(l *linked, field, size, otherwise string) (fit.Screw, error) {
	if size == "" {
		size = otherwise
	}
	if s, ok := fit.ScrewNamed(size); ok {
		return s, nil
	}
	return fit.Screw{}, b.file.Blame(l.design(), &check.FieldError{
		Field: field, Text: size, Reason: "is not one of the known screws", Remedy: "use M2, M2.5, M3, M4, M5, M6 or M8",
	})
}

// holeAt returns the diameter of the hole that a horn has at a distance from its
// axis, in mm, and whether it has one there.
func (h Horn) holeAt(distance float64) (hole float64, ok bool) {
	const same = 0.15 // mm: as well as holes are measured
	for _, at := range h.HolesAt {
		if math.Abs(at-distance) <= same {
			return h.Hole, true
		}
	}
	return h.Hole, h.Holes > 0 && math.Abs(h.HoleCircle/2-distance) <= same
}

// sayUncheckedLinkage names the checks that are left out for want of an input.
func (b *builder) sayUncheckedLinkage(l *linked) {
	if b.file.Path == "" {
		return // made from flags: nothing of a joint was asked for
	}
	say := func(missing bool, word, checks string) {
		if missing {
			b.find(l.design(), ruleUnchecked.Say(check.Caution, 0, "no "+word+" is named: "+checks+" are not checked",
				"add "+word+" = \"NAME\" and the ["+word+".NAME] table"))
		}
	}
	t := l.table
	say(t.Servo == "" && !t.Turning, "servo", "travel, torque and speed")
	say(t.Load == "", "load", "the servo's torque and the forces in the rod")
	say(t.Motion == "" && !t.Turning, "motion", "swing, torque and speed")
	if !b.file.Has("place.hottest") {
		b.find(l.design(), ruleUnchecked.Say(check.Note, 0, "the hottest place is not said: softening by heat is not checked", "add hottest = 40 to [place]"))
	}
}

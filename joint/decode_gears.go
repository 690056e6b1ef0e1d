package joint

import (
	"slices"

	"pintle/quantity"
)

func (t *table) gears() Gears {
	g := Gears{
		Servo:            t.text("servo"),
		Load:             t.text("load"),
		Motion:           t.text("motion"),
		Module:           t.length("module"),
		Ratio:            t.plain("ratio"),
		Shift:            t.shift("shift"),
		CentreDistance:   t.length("centre_distance"),
		Backlash:         t.length("backlash"),
		FaceWidth:        t.length("face_width"),
		PressureAngleDeg: DefaultPressureAngleDeg,
		Material:         t.text("material"),
		Pinion:           t.table("pinion").gear(pinionHubs()),
		Wheel:            t.table("wheel").gear(Hubs()),
	}
	if _, ok := t.value("pressure_angle"); ok {
		g.PressureAngleDeg = t.quantity("pressure_angle", quantity.Angle)
	}
	for i, v := range t.list("teeth", 2) {
		g.Teeth[i] = t.whole(element("teeth", i), v)
	}
	t.either("teeth", "ratio")
	t.need("module", "backlash", "face_width")
	return g
}

// shift reads two numbers or the name of a rule.
func (t *table) shift(key string) Shift {
	v, _ := t.value(key)
	if _, ok := v.(string); ok {
		return Shift{Rule: t.word(key, ShiftRules())}
	}
	var s Shift
	for i, v := range t.list(key, 2) {
		s.X[i] = t.number(element(key, i), v, quantity.Number)
	}
	return s
}

// A pinion turns on its servo, never on the joint's bearing.
func pinionHubs() []string {
	return slices.DeleteFunc(Hubs(), func(hub string) bool { return hub == "journal" })
}

func (t *table) gear(hubs []string) Gear {
	g := Gear{
		Hub:        t.word("hub", hubs),
		Bore:       t.length("bore"),
		Bearing:    t.text("bearing"),
		BoltCircle: t.length("bolt_circle"),
		ScrewSize:  t.text("screw_size"),
		ScrewCount: t.count("screw_count"),
		Spacer:     t.length("spacer"),
		Material:   t.text("material"),
		Retain:     t.table("retain").retain(),
	}
	t.finish()
	return g
}

func (t *table) retain() Retain {
	r := Retain{Kind: t.word("kind", Retainers()), ScrewSize: t.text("screw_size")}
	t.need("kind")
	t.finish()
	return r
}

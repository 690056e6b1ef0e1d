package joint

import "pintle/quantity"

func (t *table) rackDrive() RackDrive {
	r := RackDrive{
		Servo:            t.text("servo"),
		Module:           t.length("module"),
		Teeth:            t.count("teeth"),
		Shift:            t.pinionShift("shift"),
		Backlash:         t.length("backlash"),
		FaceWidth:        t.length("face_width"),
		PressureAngleDeg: DefaultPressureAngleDeg,
		Material:         t.text("material"),
		BasicRack:        t.rack("basic_rack"),
		CentreTolerance:  t.length("centre_tolerance"),
		Travel:           t.length("travel"),
		Time:             t.quantity("time", quantity.Time),
		Law:              "cosine",
		Hold:             t.yes("hold"),
		Mass:             t.quantity("mass", quantity.Mass),
		Force:            t.quantity("force", quantity.Force),
		Height:           t.length("height"),
		ScrewSize:        t.text("screw_size"),
		ScrewCount:       t.count("screw_count"),
		RackMaterial:     t.text("rack_material"),
		Measured:         t.measured("measured", 1),
		ServiceFactor:    t.plain("service_factor"),
		Allowable:        t.allowable("allowable_bending"),
		Pinion:           t.table("pinion").gear(pinionHubs()),
	}
	if _, ok := t.value("pressure_angle"); ok {
		r.PressureAngleDeg = t.quantity("pressure_angle", quantity.Angle)
	}
	if _, ok := t.value("law"); ok {
		r.Law = t.word("law", Laws())
	}
	t.need("module", "teeth", "face_width", "travel")
	return r
}

// pinionShift reads one number, or the rule that chooses it.
func (t *table) pinionShift(key string) Shift {
	v, _ := t.value(key)
	if _, ok := v.(string); ok {
		return Shift{Rule: t.word(key, []string{ShiftChoose})}
	}
	return Shift{X: [2]float64{t.plain(key)}}
}

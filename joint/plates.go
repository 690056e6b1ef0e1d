package joint

import (
	"fmt"

	"pintle/bearing"
	"pintle/check"
	"pintle/geom"
)

// addPlates designs every plate, and judges what shows only once servo, ring
// and gears stand on it together.
func (b *builder) addPlates() error {
	for _, name := range sorted(b.file.Plates) {
		t := b.file.Plates[name]
		table := "plate." + name
		owner, ring := b.turnings[t.Gears], b.housings[t.Housing]
		if err := b.belongsTogether(table, t, owner, ring); err != nil {
			return err
		}
		if err := b.measured(owner); err != nil {
			return err
		}
		material, err := b.material(table, t.Material)
		if err != nil {
			return err
		}
		corner, err := b.screw(table, t.ScrewSize, "M4")
		if err != nil {
			return err
		}
		spec := plateSpec{
			name: name, thickness: t.Thickness, centreDistance: owner.pair.CentreDistance(), tolerance: owner.pair.Spec().CentreTolerance,
			servo: owner.servo, servoTurnDeg: t.ServoTurnDeg, slots: t.ServoSlots, flange: ring.FlangeDiameter(),
			through: ring.ShoulderHole(), bolt: owner.ringScrew, corner: corner, card: b.card, limits: b.file.Limits,
		}
		for _, angle := range ring.BoltAngles() {
			spec.bolts = append(spec.bolts, geom.Polar(ring.BoltCircle()/2, angle))
		}
		if owner.plate, err = newPlate(spec); err != nil {
			return b.file.Blame(table, err)
		}
		b.add(table, owner.plate, material, func(geom.Part) sheetNotes { return sheetNotes{} })
		if err := b.addStops(table, t, owner); err != nil {
			return err
		}
		if err := b.addSpacer(owner); err != nil {
			return err
		}
		b.find(table, owner.stackFindings(b.file.Limits)...)
		if f, ok := owner.hornScrewFinding(); ok {
			b.find(table, f)
		}
		b.report.Designs["stack."+name] = owner.stackValues()
		b.arrange(owner.arrangement(b.file.Motions[owner.table.Motion], b.file.Loads[owner.table.Load]))
	}
	return nil
}

// belongsTogether refuses a plate whose pair and ring are not one joint.
func (b *builder) belongsTogether(table string, t Plate, owner *turning, ring *bearing.Housing) error {
	refuse := func(field, text, reason, remedy string) error {
		return b.file.Blame(table, &check.FieldError{Field: field, Text: text, Reason: reason, Remedy: remedy})
	}
	switch {
	case owner == nil || ring == nil:
		return refuse("plate", table, "needs a gear pair and a housing", "name both: gears = \"...\" and housing = \"...\"")
	case owner.kit.bearing.Bore == 0:
		return refuse("gears", t.Gears, "has no servo and bearing to place on a plate", "give the pair a servo, and its wheel hub = \"journal\" with a bearing")
	case b.file.Housings[t.Housing].Bearing != owner.table.Wheel.Bearing:
		return refuse("housing", t.Housing, "holds another bearing than the wheel runs on", "name the housing of bearing \""+owner.table.Wheel.Bearing+"\"")
	case ring.FlangeThickness() == 0:
		return refuse("housing", t.Housing, "has no flange to lie in the plate", "add mount = { kind = \"flange\", screw_size = \"M3\", screw_count = 4 } to the housing")
	}
	return nil
}

// measured refuses a servo of which a plate must know what nobody measured: a
// size left out would be taken as 0.
func (b *builder) measured(t *turning) error {
	table, s := "servo."+t.table.Servo, t.servo
	for _, q := range []struct {
		key, field string
		size       float64
	}{
		{"body", "body length", s.Body[0]},
		{"body", "body width", s.Body[1]},
		{"body", "body height", s.Body[2]},
		{"tabs", "tab length", s.Tabs.Length},
		{"tabs.thickness", "tab thickness", s.Tabs.Thickness},
		{"tabs.below_top", "height of the body above its tabs", s.Tabs.BelowTop},
		{"shaft_from_end", "distance of the shaft from the body's end", s.ShaftFromEnd},
		{"horn", "horn thickness", s.Horn.Thickness},
		{"horn.hub_height", "height of the horn's hub", s.Horn.HubHeight},
	} {
		if q.size > 0 {
			continue
		}
		line, column := b.file.Locate(table, q.key)
		return &InputError{
			File: b.file.Path, Line: line, Column: column, Key: table + "." + q.key,
			Err:    fmt.Errorf("the %s is missing or 0, and the plate is made from it", q.field),
			Remedy: "measure it in mm and add it",
		}
	}
	return nil
}

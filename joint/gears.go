package joint

import (
	"fmt"
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/gear"
)

// addGears designs every pair, on its horn and bearing where it has them.
func (b *builder) addGears() error {
	if err := b.choosePairs(); err != nil {
		return err
	}
	for _, name := range sorted(b.file.Gears) {
		t := &turning{name: name, at: "gears." + name, table: b.file.Gears[name]}
		if err := b.stack(t); err != nil {
			return err
		}
		if err := b.onPlate(t); err != nil {
			return err
		}
		spec, err := b.pairSpec(t)
		if err != nil {
			return err
		}
		if t.pair, err = gear.NewPair(spec); err != nil {
			return b.file.Blame("gears."+name, err)
		}
		if t.table.Pinion.Hub == "horn" {
			t.servo.Horn.Holes = t.pair.Pinion().HornScrews() // of an arm's holes not all may be used
		}
		b.turnings[name] = t
		b.addPair(t, spec.Loading.Material)
	}
	return nil
}

// onPlate refuses an internal pair on a plate, whose ring carries a wheel by its
// journal.
func (b *builder) onPlate(t *turning) error {
	for _, name := range sorted(b.file.Plates) {
		if b.file.Plates[name].Gears == t.name && t.table.Teeth[1] < 0 {
			return b.file.Blame("plate."+name, &check.FieldError{
				Field: "gears", Text: t.name, Reason: "is an internal pair: its wheel is a rim without a journal, and no bearing on a plate carries it",
				Remedy: fmt.Sprintf("leave the plate out, screw the rim to what turns (bolt_circle) and put the servo about %s mm from the axis it turns about; or make the wheel external: teeth = [%d, %d]",
					check.Number(math.Abs(t.table.Module*float64(t.table.Teeth[0]+t.table.Teeth[1])/2)), t.table.Teeth[0], -t.table.Teeth[1]),
			})
		}
	}
	return nil
}

// addPair records a finished pair, each gear in its own plastic.
func (b *builder) addPair(t *turning, materials [2]fit.Material) {
	design := "gears." + t.name
	b.report.Designs[design] = t.pair.Values()
	b.find(design, t.pair.Findings()...)
	b.report.Fits = append(b.report.Fits, t.pair.Fits()...)
	for i, part := range t.pair.Parts() {
		b.addBody(design, part, materials[i], sheetNotes{}.detailed(t.pair, part.Name()))
	}
}

// pairSpec turns a table into the spec of its pair.
func (b *builder) pairSpec(t *turning) (gear.PairSpec, error) {
	g := t.table
	if err := b.backlashFromCard(t.at, &g.Backlash); err != nil {
		return gear.PairSpec{}, err
	}
	spec := gear.PairSpec{
		Name: t.name, Module: g.Module, Teeth: g.Teeth, Shift: g.Shift.X, KeepShift: b.file.Has(t.at + ".shift"),
		PressureAngle: g.PressureAngleDeg * math.Pi / 180, CentreDistance: g.CentreDistance,
		Backlash: g.Backlash, FaceWidth: g.FaceWidth,
		CentreTolerance: g.CentreTolerance, TipAlteration: g.TipAlteration, KeepTips: b.file.Has(t.at + ".tip_alteration"),
		ChordError: b.options.ChordError, Card: b.card, Limits: b.file.Limits,
	}
	if g.Rack != (Rack{}) {
		spec.Rack = gear.Rack{Addendum: g.Rack.Addendum, Clearance: g.Rack.Clearance, FilletRadius: g.Rack.FilletRadius}
		if profile, ok := gear.RackNamed(g.Rack.Profile); ok {
			spec.Rack = profile.Fitted(spec.PressureAngle)
		}
	}
	switch g.Shift.Rule {
	case ShiftChoose:
		spec.ShiftRule = gear.ShiftChoose
	case ShiftBalanced:
		spec.ShiftRule = gear.ShiftBalanced
	}
	var err error
	if spec.Loading, err = b.loading(t); err != nil {
		return spec, err
	}
	if spec.Climate, err = b.climate(t, spec.Loading.Material); err != nil {
		return spec, err
	}
	b.readingsAndLimits(t, &spec)
	if spec.Pinion, err = b.gearBody(t, g.Pinion, "pinion"); err != nil {
		return spec, err
	}
	spec.Wheel, err = b.gearBody(t, g.Wheel, "wheel")
	return spec, err
}

// gearBody turns the hub that a table asks for into a gear's body.
func (b *builder) gearBody(t *turning, g Gear, role string) (gear.Body, error) {
	table := t.at
	body := gear.Body{Bore: g.Bore, Rim: g.Rim, Sector: g.Sector, SectorHub: g.SectorHub}
	refuse := func(field, text, reason, remedy string) error {
		return b.file.Blame(table+"."+role, &check.FieldError{Field: field, Text: text, Reason: reason, Remedy: remedy})
	}
	if g.BoltCircle > 0 {
		screw, err := b.screw(table+"."+role, g.ScrewSize, "M3")
		if err != nil {
			return body, err
		}
		body.Bolts = &gear.BoltCircle{Diameter: g.BoltCircle, Screw: screw, Count: g.ScrewCount, Kind: g.ScrewKind}
	}
	b.finishBody(t, g, role, &body)
	if err := b.onShaftOnly(table+"."+role, g); err != nil {
		return body, err
	}
	switch g.Hub {
	case "", "round", "d-bore", "hex", "square", "keyway", "clamp":
		if g.Shaft > 0 || (g.Hub != "" && g.Hub != "round") {
			return body, b.addShaft(table+"."+role, g, &body)
		}
	case "bearing":
		return body, b.addSeat(t, g, role, &body)
	case "horn":
		servo, ok := b.file.Servos[t.table.Servo]
		if !ok || servo.Horn.Kind == "" {
			return body, refuse("hub", g.Hub, "needs a servo with a measured horn", "add horn = { kind = \"disc\", ... } to the servo's table and name the servo here")
		}
		h := servo.Horn
		body.Horn = &gear.HornPocket{
			Kind: h.Kind, Diameter: h.Diameter, Thickness: h.Thickness, HubDiameter: h.HubDiameter,
			Holes: h.Holes, HoleCircle: h.HoleCircle, Hole: h.Hole, StandOff: t.standOff, Sunk: g.HornScrews == fit.Counterbore,
			Arm: h.Arm, WidthAtHub: h.WidthAtHub, WidthAtTip: h.WidthAtTip, Arms: h.Arms, HolesAt: h.HolesAt,
			SplineTeeth: servo.SplineTeeth, AtNeutral: h.AtNeutralDeg * math.Pi / 180, Wanted: h.WantedDeg * math.Pi / 180, Tried: h.TriedOnSpline,
		}
	case "journal":
		if g.Bearing == "" {
			return body, refuse("hub", g.Hub, "needs the bearing it carries", "add bearing = \"NAME\" beside hub")
		}
		found, _, err := b.bearingNamed(g.Bearing)
		if err != nil {
			return body, err
		}
		lo, hi := bearing.ShaftShoulder(found)
		body.Journal = &gear.Journal{
			Bore: found.Bore, Length: innerWidth(found) - journalShortfall,
			ShoulderDiameter: (lo + hi) / 2, ShoulderHeight: max(t.rise, leastRise), Hollow: g.Bore,
		}
		body.Bore = 0
		if g.Retain.Kind != "" {
			screw, err := b.screw(table+"."+role+".retain", g.Retain.ScrewSize, "M6")
			if err != nil {
				return body, err
			}
			body.Retain = &gear.Retain{Kind: g.Retain.Kind, Screw: screw}
		}
	}
	return body, nil
}

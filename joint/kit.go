package joint

import (
	"fmt"
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/gear"
	"pintle/geom"
)

// A turning is everything known of one gears table while the joint is built.
type turning struct {
	kit
	name      string
	table     Gears
	pair      *gear.Pair
	ring      *bearing.Housing
	ringScrew fit.Screw
	plate     *plate
}

// bearingNamed returns the bearing of a table: the row of its designation with
// the measured sizes in its place, or the measured sizes alone.
func (b *builder) bearingNamed(name string) (bearing.Bearing, []check.Finding, error) {
	t := b.file.Bearings[name]
	table := "bearing." + name
	sizes := bearing.Sizes{
		Bore: t.Bore, Outside: t.Outside, Width: t.Overall, ConeWidth: t.ConeWidth, CupWidth: t.CupWidth,
	}
	var row bearing.Bearing
	if t.Designation != "" {
		var err error
		if row, err = bearing.Named(t.Designation); err != nil {
			return row, nil, b.file.Blame(table, err)
		}
	} else if t.ConeWidth > 0 {
		row.Kind = bearing.Tapered
	}
	found, findings, err := bearing.Measured(row, sizes, b.file.Limits)
	if err != nil {
		return found, nil, b.file.Blame(table, err)
	}
	return found, findings, nil
}

// addGears designs every pair, on its horn and bearing where it has them.
func (b *builder) addGears() error {
	for _, name := range sorted(b.file.Gears) {
		t := &turning{name: name, table: b.file.Gears[name]}
		if err := b.stack(t); err != nil {
			return err
		}
		spec, err := b.pairSpec(t)
		if err != nil {
			return err
		}
		if t.pair, err = gear.NewPair(spec); err != nil {
			return b.file.Blame("gears."+name, err)
		}
		material, err := b.material("gears."+name, t.table.Material)
		if err != nil {
			return err
		}
		b.turnings[name] = t
		b.add("gears."+name, t.pair, material, t.gearNotes)
	}
	return nil
}

// stack works out the heights of a kit where servo and bearing are known.
func (b *builder) stack(t *turning) error {
	servo, ok := b.file.Servos[t.table.Servo]
	if t.table.Wheel.Bearing == "" || !ok {
		return nil
	}
	found, findings, err := b.bearingNamed(t.table.Wheel.Bearing)
	if err != nil {
		return err
	}
	b.find("bearing."+t.table.Wheel.Bearing, findings...)
	t.kit = newKit(servo, found)
	return nil
}

func (b *builder) pairSpec(t *turning) (gear.PairSpec, error) {
	g := t.table
	spec := gear.PairSpec{
		Name: t.name, Module: g.Module, Teeth: g.Teeth, Shift: g.Shift.X,
		PressureAngle: g.PressureAngleDeg * math.Pi / 180, CentreDistance: g.CentreDistance,
		Backlash: g.Backlash, FaceWidth: g.FaceWidth, Rack: gear.ProfileA(),
		ChordError: b.options.ChordError, Card: b.card, Limits: b.file.Limits,
	}
	switch g.Shift.Rule {
	case ShiftChoose:
		spec.ShiftRule = gear.ShiftChoose
	case ShiftBalanced:
		spec.ShiftRule = gear.ShiftBalanced
	}
	var err error
	if spec.Pinion, err = b.gearBody(t, g.Pinion, "pinion"); err != nil {
		return spec, err
	}
	spec.Wheel, err = b.gearBody(t, g.Wheel, "wheel")
	return spec, err
}

// gearBody turns the hub that a table asks for into a gear's body.
func (b *builder) gearBody(t *turning, g Gear, role string) (gear.Body, error) {
	table := "gears." + t.name
	body := gear.Body{Bore: g.Bore}
	refuse := func(field, text, reason, remedy string) error {
		return b.file.Blame(table+"."+role, &check.FieldError{Field: field, Text: text, Reason: reason, Remedy: remedy})
	}
	if g.BoltCircle > 0 {
		screw, err := b.screw(table+"."+role, g.ScrewSize, "M3")
		if err != nil {
			return body, err
		}
		body.Bolts = &gear.BoltCircle{Diameter: g.BoltCircle, Screw: screw, Count: g.ScrewCount}
	}
	switch g.Hub {
	case "", "round":
	case "horn":
		servo, ok := b.file.Servos[t.table.Servo]
		if !ok || servo.Horn.Kind == "" {
			return body, refuse("hub", g.Hub, "needs a servo with a measured horn", "add horn = { kind = \"disc\", ... } to the servo's table and name the servo here")
		}
		h := servo.Horn
		body.Horn = &gear.HornPocket{
			Kind: h.Kind, Diameter: h.Diameter, Thickness: h.Thickness, HubDiameter: h.HubDiameter,
			Holes: h.Holes, HoleCircle: h.HoleCircle, Hole: h.Hole, StandOff: t.standOff,
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
			ShoulderDiameter: (lo + hi) / 2, ShoulderHeight: shoulderRise, Hollow: g.Bore,
		}
		body.Bore = 0
	default:
		return body, refuse("hub", g.Hub, "is not made yet", "use horn, journal or round")
	}
	return body, nil
}

// addHousings designs every ring, as high as the kit it belongs to asks for.
func (b *builder) addHousings() error {
	for _, name := range sorted(b.file.Housings) {
		t := b.file.Housings[name]
		table := "housing." + name
		found, findings, err := b.bearingNamed(t.Bearing)
		if err != nil {
			return err
		}
		material, err := b.material(table, t.Material)
		if err != nil {
			return err
		}
		spec := bearing.HousingSpec{
			Name: name, Bearing: found, Fit: t.Fit, Interference: t.Interference, Wall: t.Wall,
			Material: material, Card: b.card, HottestC: b.file.Place.Hottest, Limits: b.file.Limits,
		}
		if t.Mount.Kind == "flange" {
			screw, err := b.screw(table+".mount", t.Mount.ScrewSize, "M3")
			if err != nil {
				return err
			}
			spec.Flange = &bearing.Flange{Screw: screw, Count: t.Mount.ScrewCount, Thickness: t.Mount.Thickness}
		}
		owner := b.turningOn(t.Bearing)
		if owner != nil {
			spec.ShoulderThickness = owner.shoulder
			spec.Load = bearingLoad(b.file.Loads[owner.table.Load])
		} else {
			b.find("bearing."+t.Bearing, findings...)
		}
		ring, err := bearing.NewHousing(spec)
		if err != nil {
			return b.file.Blame(table, err)
		}
		if owner != nil {
			owner.ring = ring
			if spec.Flange != nil {
				owner.ringScrew = spec.Flange.Screw
			}
		}
		b.housings[name] = ring
		b.add(table, ring, material, func(geom.Part) sheetNotes { return ringNotes(ring) })
	}
	return nil
}

// turningOn returns the pair whose wheel runs on the bearing, or nil.
func (b *builder) turningOn(bearingName string) *turning {
	for _, name := range sorted(b.turnings) {
		if t := b.turnings[name]; t.table.Wheel.Bearing == bearingName && t.kit.bearing.Bore > 0 {
			return t
		}
	}
	return nil
}

// innerWidth returns the width of the ring that a journal carries, in mm.
func innerWidth(b bearing.Bearing) float64 {
	if b.ConeWidth > 0 {
		return b.ConeWidth
	}
	return b.Width
}

// ringNotes says how the seat should measure and which face the ring shows.
func ringNotes(ring *bearing.Housing) sheetNotes {
	v := ring.Bearing()
	seat := ring.Fits()[0]
	return sheetNotes{lines: []string{
		fmt.Sprintf("Seat for bearing %s: wanted %.3f mm, drawn %.3f mm for this printer, %.2f mm deep", v.Name(), seat.Wanted, seat.Drawn, ring.SeatDepth()),
		"Press slowly and straight on the outer ring only, until it rests on the shoulder all round",
	}}
}

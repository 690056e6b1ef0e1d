package joint

import (
	"fmt"
	"strings"

	"pintle/bearing"
	"pintle/check"
	"pintle/geom"
)

// addHousings designs every ring, as high as the kit it belongs to asks for.
func (b *builder) addHousings() error {
	for _, name := range sorted(b.file.Housings) {
		t := b.file.Housings[name]
		table := "housing." + name
		found, findings, err := b.bearingNamed(t.Bearing)
		if err != nil {
			return err
		}
		if err := b.refuseZeros(name, t); err != nil {
			return err
		}
		material, err := b.material(table, t.Material)
		if err != nil {
			return err
		}
		spec := bearing.HousingSpec{
			Name: name, Bearing: found, Fit: t.Fit, Interference: t.Interference, Wall: t.Wall,
			ShoulderThickness: t.ShoulderThickness, ShoulderHole: t.ShoulderHole, BoreDepth: t.BoreDepth,
			Ribs: (*bearing.Ribs)(t.Ribs), KnockOut: (*bearing.KnockOut)(t.KnockOut), Relief: (*bearing.Relief)(t.CornerRelief),
			Rod:             (*bearing.RodSpec)(t.Rod),
			InspectionSlots: t.InspectionSlots, PressingDisc: t.PressingDisc, MeasuredSeat: t.MeasuredSeat,
			Material: material, Card: b.card, HottestC: b.file.Place.Hottest, Limits: b.file.Limits,
		}
		if b.file.Has("place.coldest") {
			spec.Cooling = max(0, 20-b.file.Place.Coldest)
		}
		b.seatFromCard(&spec)
		if err := b.fasten(&spec, t); err != nil {
			return err
		}
		owner := b.turningOn(t.Bearing)
		if owner != nil {
			if err := b.ownRing(&spec, t, owner); err != nil {
				return err
			}
		} else {
			b.find("bearing."+t.Bearing, findings...)
			if err := b.loadRing(&spec, t); err != nil {
				return err
			}
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
		b.add(table, ring, material, func(part geom.Part) sheetNotes { return ringNotes(ring, part.Name()) })
	}
	return nil
}

// fasten adds what holds the ring on its base and the bearing in the ring.
func (b *builder) fasten(spec *bearing.HousingSpec, t Housing) error {
	table := "housing." + spec.Name
	if t.Mount.Kind != "" {
		screw, err := b.screw(table+".mount", t.Mount.ScrewSize, "M3")
		if err != nil {
			return err
		}
		switch t.Mount.Kind {
		case "clamp":
			if t.Mount.ScrewCount > 1 {
				return b.file.Blame(table, &check.FieldError{
					Field: "number of clamp screws", Value: float64(t.Mount.ScrewCount), Reason: "is more than the one that a clamp has", Remedy: "leave it out",
				})
			}
			spec.Clamp = &bearing.Clamp{Screw: screw, Nut: t.Mount.Nut, Thickness: t.Mount.Thickness, Slit: t.Mount.Slit}
		case "foot":
			spec.Foot = &bearing.Foot{Screw: screw, Count: t.Mount.ScrewCount, Thickness: t.Mount.Thickness}
		default:
			spec.Flange = &bearing.Flange{Screw: screw, Count: t.Mount.ScrewCount, Thickness: t.Mount.Thickness}
		}
	}
	switch t.Retention.Kind {
	case "lip":
		spec.Lip = &bearing.Lip{Height: t.Retention.Height}
	case "cap":
		screw, err := b.screw(table+".retention", t.Retention.ScrewSize, "M2.5")
		if err != nil {
			return err
		}
		spec.Cap = &bearing.Cap{Screw: screw, Count: t.Retention.ScrewCount, Thickness: t.Retention.Thickness}
	}
	return nil
}

// ownRing gives a ring the height and the load of the kit it belongs to.
func (b *builder) ownRing(spec *bearing.HousingSpec, t Housing, owner *turning) error {
	table := "housing." + spec.Name
	if t.ShoulderThickness > 0 {
		return b.file.Blame(table, &check.FieldError{
			Field: "shoulder thickness", Value: t.ShoulderThickness, Unit: "mm", Reason: "is set by the heights of servo, bearing and wheel",
			Remedy: fmt.Sprintf("leave it out: it becomes %s mm", check.Number(owner.shoulder)),
		})
	}
	for _, q := range []struct{ key, word string }{{"load", t.Load}, {"rpm", check.Number(t.RPM)}} {
		if b.file.Has(table + "." + q.key) {
			return b.file.Blame(table, &check.FieldError{
				Field: q.key, Text: q.word, Reason: "is that of the wheel which turns on this bearing", Remedy: "leave it out: the gears name load and motion",
			})
		}
	}
	if t.Mount.Kind == "clamp" {
		return b.file.Blame(table, &check.FieldError{
			Field: "clamp", Text: "asked for", Reason: "does not go with a wheel that turns on this bearing: its ears stand in the way", Remedy: "use kind = \"flange\" and a retention",
		})
	}
	for _, plate := range sorted(b.file.Plates) {
		if b.file.Plates[plate].Housing == spec.Name && t.Mount.Kind == "foot" {
			return b.file.Blame(table+".mount", &check.FieldError{
				Field: "kind", Text: "foot", Reason: "does not lie in [plate." + plate + "], which takes a flange", Remedy: "use kind = \"flange\", or leave the plate out",
			})
		}
	}
	spec.ShoulderThickness = owner.shoulder
	load, err := b.loadOn(t, b.file.Loads[owner.table.Load])
	spec.Load = load
	return err
}

// loadRing gives a ring that carries no wheel of this file the load that it
// names, and judges what that does to the bearing.
func (b *builder) loadRing(spec *bearing.HousingSpec, t Housing) error {
	if t.Load == "" {
		return nil
	}
	on, err := b.loadOn(t, b.file.Loads[t.Load])
	if err != nil {
		return err
	}
	on.RPM = t.RPM
	if err := on.Validate(); err != nil {
		return b.file.Blame("housing."+spec.Name, err)
	}
	spec.Load = on
	b.find("bearing."+t.Bearing, bearing.CheckLoad(spec.Bearing, on, b.file.Limits)...)
	return nil
}

// loadOn returns what the load puts on the bearing of a ring, with the second
// bearing on its axis where the file names one.
func (b *builder) loadOn(t Housing, l Load) (bearing.Load, error) {
	on := bearingLoad(l)
	on.Running = t.Running
	if t.SecondBearing == "" {
		return on, nil
	}
	second, _, err := b.bearingNamed(t.SecondBearing)
	on.Alone, on.Second, on.Span, on.FaceToFace = false, &second, t.Span, t.FaceToFace
	return on, err
}

// ringOf returns the housing of a bearing, or an empty one.
func (b *builder) ringOf(bearingName string) Housing {
	for _, name := range sorted(b.file.Housings) {
		if t := b.file.Housings[name]; t.Bearing == bearingName {
			return t
		}
	}
	return Housing{}
}

// ringNotes says how the part should measure and how it is put together.
func ringNotes(ring *bearing.Housing, part string) sheetNotes {
	var lines []string
	if strings.HasSuffix(part, "-ring") {
		seat := ring.Fits()[0]
		lines = append(lines, fmt.Sprintf("Seat for bearing %s: wanted %.3f mm, drawn %.3f mm for this printer, %.2f mm deep", ring.Bearing().Name(), seat.Wanted, seat.Drawn, ring.SeatDepth()))
		return sheetNotes{lines: append(lines, ring.Assembly()...)}
	}
	for _, f := range ring.Fits() {
		if f.Part == part {
			lines = append(lines, fmt.Sprintf("%s: wanted %.2f mm, drawn %.3f mm", f.Feature, f.Wanted, f.Drawn))
		}
	}
	return sheetNotes{lines: lines}
}

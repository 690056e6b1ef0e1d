package joint

import (
	"slices"

	"pintle/check"
)

// checkSharing refuses joints that share what can be in one of them only, and
// parts of one name. Two tables may hold the same numbers.
func (b *builder) checkSharing() error {
	taken := map[string]string{}
	claim := func(thing, by, key string) error {
		other, ok := taken[thing]
		if ok && other != by {
			return b.file.Blame(by, &check.FieldError{
				Field: key, Text: thing, Reason: "is in [" + other + "] already, and cannot be in two joints",
				Remedy: "give each joint a table of its own, even where the numbers are the same",
			})
		}
		taken[thing] = by
		return nil
	}
	var errs []error
	for _, name := range sorted(b.file.Gears) {
		g := b.file.Gears[name]
		if g.Servo != "" {
			errs = append(errs, claim("servo."+g.Servo, "gears."+name, "servo"))
		}
		if g.Wheel.Bearing != "" {
			errs = append(errs, claim("bearing."+g.Wheel.Bearing+" under a wheel", "gears."+name, "bearing"))
		}
	}
	for _, name := range sorted(b.file.Racks) {
		if servo := b.file.Racks[name].Servo; servo != "" {
			errs = append(errs, claim("servo."+servo, "rack."+name, "servo"))
		}
	}
	for _, name := range sorted(b.file.Linkages) { // one servo may drive several
		if _, ok := taken["servo."+b.file.Linkages[name].Servo]; ok {
			errs = append(errs, claim("servo."+b.file.Linkages[name].Servo, "linkage."+name, "servo"))
		}
	}
	for _, name := range sorted(b.file.Plates) {
		errs = append(errs, claim("gears."+b.file.Plates[name].Gears, "plate."+name, "gears"), claim("housing."+b.file.Plates[name].Housing, "plate."+name, "housing"))
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return b.checkRings()
}

// checkRings refuses a second ring on the bearing that a wheel turns on.
func (b *builder) checkRings() error {
	holder := map[string]string{}
	for _, name := range sorted(b.file.Housings) {
		bearing := b.file.Housings[name].Bearing
		first, ok := holder[bearing]
		if ok && slices.ContainsFunc(sorted(b.file.Gears), func(g string) bool { return b.file.Gears[g].Wheel.Bearing == bearing }) {
			return b.file.Blame("housing."+name, &check.FieldError{
				Field: "bearing", Text: bearing, Reason: "is in [housing." + first + "] already, and a wheel turns on it",
				Remedy: "give each joint a [bearing.NAME] of its own, even where the numbers are the same",
			})
		}
		holder[bearing] = name
	}
	return nil
}

// checkNames refuses two parts of one name: their files would be one.
func (b *builder) checkNames() error {
	by := map[string]string{}
	for _, body := range b.bodies {
		name := body.part.Name()
		if other, ok := by[name]; ok {
			return b.file.Blame(body.design, &check.FieldError{
				Field: "part", Text: name, Reason: "is made by [" + other + "], too: both would be written to " + name + ".stl",
				Remedy: "give one of the two tables another name",
			})
		}
		by[name] = body.design
	}
	return nil
}

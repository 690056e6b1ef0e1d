package joint

import (
	"fmt"
	"slices"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
)

// fromCard notes that a value of the card is used.
func (b *builder) fromCard(design, part string, value float64, what string) {
	f := fit.RuleFromCard.Say(check.Note, value, fmt.Sprintf("%s %s mm from card %s", what, check.Number(value), b.card.Name), "")
	f.Part = part
	b.find(design, f)
}

// seatFromCard gives a ring the interference or clearance that the coupon
// showed, where the file does not give its own.
func (b *builder) seatFromCard(spec *bearing.HousingSpec) {
	design, part := "housing."+spec.Name, spec.Name+"-ring"
	switch {
	case spec.Fit == bearing.Slip && b.card.SlipClearance > 0:
		b.fromCard(design, part, b.card.SlipClearance, "slip clearance")
	case spec.Fit == bearing.Press && spec.Interference == 0:
		if held, ok := b.card.Holds(spec.Bearing.Outside); ok {
			spec.Interference = held
			b.fromCard(design, part, held, "interference that held")
		}
	}
}

// backlashFromCard gives the pair of a table the backlash that ran free on the coupon, where
// the file does not give its own.
func (b *builder) backlashFromCard(path string, backlash *float64) error {
	switch {
	case b.file.Has(path + ".backlash"):
		return nil
	case b.card.Backlash > 0:
		*backlash = b.card.Backlash
		b.fromCard(path, "", b.card.Backlash, "backlash that ran free")
		return nil
	case *backlash > 0: // a command's default
		return nil
	}
	return b.file.Blame(path, &check.FieldError{
		Field: "backlash", Unit: "mm", Reason: "is missing, and the printer card states none",
		Remedy: "add a line: backlash = 0.2, or name a card that was tried with gears",
	})
}

// webFromCard makes the thinnest web that printed whole the limit of grilles,
// where the file does not set its own.
func (b *builder) webFromCard(design string) check.Limits {
	const rule = "grille-web"
	if _, own := b.file.Limits[rule]; own || b.card.LeastWeb == 0 {
		return b.file.Limits
	}
	limits := check.Limits{rule: {Caution: b.card.LeastWeb + 0.1, Fail: b.card.LeastWeb}}
	for name, l := range b.file.Limits {
		limits[name] = l
	}
	b.fromCard(design, "", b.card.LeastWeb, "thinnest web that printed whole:")
	return limits
}

// findMismatch compares the card with the printer's settings and with each
// plastic that parts are made of. The coupon itself makes a new card.
func (b *builder) findMismatch() {
	p := b.file.Printer
	var materials []string
	for _, body := range b.bodies {
		name := body.material.Name
		if body.design == "coupon" || slices.Contains(materials, name) {
			continue
		}
		materials = append(materials, name)
		if f, ok := b.card.Mismatch(body.part.Name(), name, 0, ""); ok {
			b.find("printer", f)
		}
	}
	for _, q := range []struct {
		nozzle      float64
		orientation string
	}{{p.Nozzle, ""}, {0, p.Orientation}} {
		if f, ok := b.card.Mismatch("", "", q.nozzle, q.orientation); ok {
			b.find("printer", f)
		}
	}
}

package joint

import (
	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/gear"
)

// A turning is everything known of one gears table while the joint is built.
type turning struct {
	kit
	name      string
	at        string // path of the table it is from
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
		Bore: t.Bore, Outside: t.Outside, Width: t.Overall, ConeWidth: t.ConeWidth, CupWidth: t.CupWidth, WasherBore: t.WasherBore,
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

// stack works out the heights of a kit where servo and bearing are known.
func (b *builder) stack(t *turning) error {
	servo, ok := b.file.Servos[t.table.Servo]
	if t.table.Wheel.Bearing == "" || t.table.Wheel.Hub == "bearing" || !ok {
		return nil
	}
	found, findings, err := b.bearingNamed(t.table.Wheel.Bearing)
	if err != nil {
		return err
	}
	b.find("bearing."+t.table.Wheel.Bearing, findings...)
	t.kit = newKit(servo, found, b.rise(t, found))
	return nil
}

// rise returns how high the wheel's shoulder must stand over the inner ring so
// that what lies on the ring has room under the wheel: a cap with its screws,
// or end stops.
func (b *builder) rise(t *turning, found bearing.Bearing) float64 {
	const (
		capThickness = 3.0 // of a cap that names none
		lipHeight    = 2.2 // of a lip with its lead-in, from above
	)
	rise, proud := leastRise, found.Width-found.SeatWidth()
	for _, h := range b.file.Housings {
		if r := h.Retention; h.Bearing == t.table.Wheel.Bearing && r.Kind == "cap" {
			screw, ok := fit.ScrewNamed(r.ScrewSize)
			if !ok {
				screw, _ = fit.ScrewNamed("M2.5")
			}
			thickness := max(r.Thickness, capThickness, screw.Diameter)
			rise = max(rise, thickness+screw.HeadHeight+1.2-proud)
		}
	}
	lip := 0.0
	if b.ringOf(t.table.Wheel.Bearing).Retention.Kind == "lip" {
		lip = lipHeight
		rise = max(rise, lip+ruleMoving.Limit.Caution-proud)
	}
	for _, p := range b.file.Plates {
		if p.Gears == t.name && p.Stops > 0 {
			rise = max(rise, stopOverlap+2*stopGap+lip-proud)
		}
	}
	return rise
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

package joint

import (
	"fmt"
	"math"
	"strings"

	"pintle/bearing"
	"pintle/check"
	"pintle/gear"
)

// onShaftOnly refuses what holds a gear on a shaft where no shaft is given.
func (b *builder) onShaftOnly(table string, g Gear) error {
	for _, q := range []struct {
		field string
		given bool
	}{
		{"set screw", g.SetScrew.ScrewSize != ""},
		{"hub diameter", g.HubDiameter > 0},
		{"hub length", g.HubLength > 0},
		{"fit on the shaft", g.Fit != "" && g.Hub != "bearing"},
	} {
		if q.given && g.Shaft == 0 {
			return b.file.Blame(table, &check.FieldError{
				Field: q.field, Text: "without a shaft", Reason: "needs the shaft that the gear sits on", Remedy: "give the rod as measured: shaft = ...",
			})
		}
	}
	return nil
}

// addShaft gives a body the bore of its shaft with what holds it there.
func (b *builder) addShaft(table string, g Gear, body *gear.Body) error {
	if g.Bore > 0 {
		return b.file.Blame(table, &check.FieldError{
			Field: "bore", Value: g.Bore, Unit: "mm", Reason: "is the hole of a round hub or a journal, not that for a shaft",
			Remedy: "give the rod as measured, shaft = ..., and leave the bore out: the clearance is added",
		})
	}
	if g.Shaft == 0 {
		return b.file.Blame(table, &check.FieldError{Field: "hub", Text: g.Hub, Reason: "needs the size of its shaft", Remedy: "give the rod as measured: shaft = ..., in mm"})
	}
	kind := g.Hub
	if kind == "" || kind == "clamp" {
		kind = gear.RoundBore
	}
	body.Shaft = &gear.Shaft{Kind: kind, Size: g.Shaft, Fit: g.Fit, Over: g.OverFlat}
	if g.HubDiameter > 0 || g.HubLength > 0 {
		body.Hub = &gear.Hub{Diameter: g.HubDiameter, Length: g.HubLength}
	}
	if g.SetScrew.ScrewSize != "" {
		screw, err := b.screw(table+".set_screw", g.SetScrew.ScrewSize, "M3")
		if err != nil {
			return err
		}
		body.SetScrew = &gear.SetScrew{Screw: screw, Holds: g.SetScrew.Holds, Count: g.SetScrew.Count}
	}
	if g.Hub == "clamp" {
		screw, err := b.screw(table+".clamp", g.Clamp.ScrewSize, "M3")
		if err != nil {
			return err
		}
		body.Clamp = &gear.Clamp{Screw: screw, Slit: g.Clamp.Slit}
	}
	return nil
}

// finishBody adds what any body may have: lightening, letters, chamfers.
func (b *builder) finishBody(t *turning, g Gear, role string, body *gear.Body) {
	body.TopChamfer = g.TopChamfer
	if g.Lighten.Kind != "" {
		l := gear.Lighten(g.Lighten)
		body.Lighten = &l
	}
	if g.Mark.Style == "" {
		return
	}
	i := map[string]int{"pinion": 0, "wheel": 1}[role]
	text := g.Mark.Text
	if text == "" {
		text = fmt.Sprintf("%s m%s z%d", t.name, check.Number(t.table.Module), max(t.table.Teeth[i], -t.table.Teeth[i]))
	}
	short := ""
	if g.Mark.Text == "" {
		_, short, _ = strings.Cut(text, " ")
	}
	m := gear.Mark{Text: text, Short: short, Raised: g.Mark.Style == "raised", Sector: g.Mark.Sector, Height: g.Mark.Height}
	if t.kit.bearing.Bore > 0 { // in a kit the bed side is seen and the other one lies down
		m.Text, m.Under, m.Raised = "this side down", text, false
	}
	if role == "wheel" { // a space meets the pinion, a tooth of it the wheel
		m.Neutral = math.Pi / float64(max(t.table.Teeth[1], 1))
	}
	body.Mark = &m
}

// seatRim is what a bearing's seat leaves of a gear inside its roots, in
// modules, at least three beads (common practice, no source).
const seatRim = 1.5

// addSeat gives a body the seat of the bearing that the gear turns on.
func (b *builder) addSeat(t *turning, g Gear, role string, body *gear.Body) error {
	table := "gears." + t.name + "." + role
	if g.Bore > 0 {
		return b.file.Blame(table, &check.FieldError{
			Field: "bore", Value: g.Bore, Unit: "mm", Reason: "stands beside the seat of a bearing", Remedy: "leave it out: the rod goes through the bearing",
		})
	}
	found, findings, err := b.bearingNamed(g.Bearing)
	if err != nil {
		return err
	}
	b.find("bearing."+g.Bearing, findings...)
	loading, err := b.loading(t)
	if err != nil {
		return err
	}
	i := map[string]int{"pinion": 0, "wheel": 1}[role]
	fits := g.Fit
	if fits == "" {
		fits = bearing.Press
	}
	spec := bearing.HousingSpec{
		Name: t.name, Part: t.name + "-" + role, Bearing: found, Fit: fits, Material: loading.Material[i], Card: b.card,
		HottestC: b.file.Place.Hottest, Limits: b.file.Limits,
	}
	b.seatFromCard(&spec)
	root := t.table.Module * (float64(t.table.Teeth[i]) - 2.5)
	seat, err := bearing.SeatIn(spec, root-2*max(seatRim*t.table.Module, 3*b.card.BeadWidth))
	if err != nil {
		return b.file.Blame(table, err)
	}
	part := t.name + "-" + role
	for _, f := range seat.Findings {
		f.Part = part
		b.find("gears."+t.name, f)
	}
	designation := b.file.Bearings[g.Bearing].Designation
	if designation == "" {
		designation = g.Bearing
	}
	body.Seat = &gear.Seat{
		Bearing: designation, Outside: found.Outside, Wall: 4 * b.card.BeadWidth,
		Hole: seat.Hole, Bore: seat.Bore, Mouth: seat.MouthTop, Groove: seat.Groove,
		ShoulderTop: seat.ShoulderTop, GrooveTop: seat.GrooveTop, SlopeTop: seat.SlopeTop, MouthFoot: seat.Mouth, Top: seat.Top,
		Fits: seat.Fits,
	}
	return nil
}

package joint

import (
	"fmt"
	"strings"

	"pintle/check"
	"pintle/export"
)

// addKnown lists where the numbers come from that the parts hang on.
func (b *builder) addKnown() {
	know := func(what, how, note string) {
		b.report.Known = append(b.report.Known, export.Known{What: what, How: how, Note: note})
	}
	for _, q := range []struct{ key, what string }{
		{"bore_error", "printer: error of bores"},
		{"outside_error", "printer: error of outsides"},
		{"first_layer_growth", "printer: growth of the first layers"},
	} {
		switch {
		case b.card.Measured():
			know(q.what, export.Measured, "printer card "+b.card.Name)
		case b.file.Has("printer." + q.key):
			know(q.what, export.Guessed, "typed in, not measured on a coupon")
		default:
			know(q.what, export.Guessed, "first guess: print a coupon and measure it")
		}
	}
	for _, name := range sorted(b.file.Bearings) {
		b.knowBearing(name, know)
	}
	for _, name := range sorted(b.file.Servos) {
		s := b.file.Servos[name]
		know("servo."+name+": body, tabs and horn", export.Measured, "as typed in")
		know("servo."+name+": torque and speed", export.Tabled, fmt.Sprintf("%s N·m, %s deg/s as the leaflet gives them, at its voltage", check.Number(s.StallTorque), check.Number(s.SpeedDeg)))
		if len(s.Points) > 0 {
			know("servo."+name+": travel", export.Measured, fmt.Sprintf("%d points of pulse and angle", len(s.Points)))
		}
	}
	for _, name := range sorted(b.file.Loads) {
		know("load."+name+": mass and centre of gravity", export.Measured, "as typed in")
	}
	for _, name := range sorted(b.turnings) {
		b.report.Assembly = append(b.report.Assembly, b.turnings[name].assembly()...)
	}
	for _, name := range sorted(b.racks) {
		b.report.Assembly = append(b.report.Assembly, b.racks[name].Assembly()...)
	}
	for _, name := range sorted(b.linkages) {
		b.report.Assembly = append(b.report.Assembly, b.linkages[name].assembly()...)
	}
	if len(b.uses) > 0 {
		b.report.Assembly = append(b.report.Assembly, "Servos on a supply of their own: join its minus to the controller's ground before anything is switched on, a fuse in its plus, a capacitor near the servos; try one servo at a time, what it moves unloaded")
	}
	for _, body := range b.bodies {
		know(body.part.Name()+": strength, heat and expansion of "+body.material.Name, export.Tabled, "an estimate for a printed part")
	}
}

// knowBearing tells the measured sizes of a bearing from those of its row.
func (b *builder) knowBearing(name string, know func(what, how, note string)) {
	t := b.file.Bearings[name]
	var measured []string
	for _, q := range []struct {
		word string
		size float64
	}{{"bore", t.Bore}, {"outside", t.Outside}, {"overall width", t.Overall}, {"cone width", t.ConeWidth}, {"cup width", t.CupWidth}} {
		if q.size > 0 {
			measured = append(measured, q.word+" "+check.Number(q.size))
		}
	}
	if len(measured) > 0 {
		know("bearing."+name+": sizes", export.Measured, strings.Join(measured, ", ")+" mm")
	}
	if t.Designation != "" {
		know("bearing."+name+": the rest", export.Tabled, "row "+t.Designation)
	} else {
		know("bearing."+name+": lands and chamfers", export.Guessed, "no designation: shoulders follow from estimates")
	}
}

package joint

import (
	"slices"
	"strings"

	"pintle/check"
	"pintle/export"
	"pintle/geom"
	"pintle/linkage"
	"pintle/quantity"
)

// A Mechanism is a planar mechanism of any kind: named points and what joins
// them. Its bars and plates are printed where their pins are named.
type Mechanism struct {
	Points  map[string][2]float64 `json:"points"`           // mm; of fixed points true, otherwise a sketch
	Fixed   []string              `json:"fixed"`            // points on the frame
	Bars    []string              `json:"bars,omitzero"`    // "A-B", from point to point
	Lengths map[string]float64    `json:"lengths,omitzero"` // mm, by bar; others as sketched
	Plates  []string              `json:"plates,omitzero"`  // "A-B-C": rigid, as sketched
	Sliders map[string]Slide      `json:"sliders,omitzero"`
	Slots   map[string]string     `json:"slots,omitzero"` // point: "A-B", the link it slides along
	Crank   string                `json:"crank,omitzero"` // "O-A": fixed axis and pin; or
	Slider  string                `json:"slider,omitzero"`
	From    float64               `json:"from"` // deg of the crank, mm of the slider: as sketched
	To      float64               `json:"to"`
	Follow  []string              `json:"follow,omitzero"` // points whose way is drawn in the report

	Pin      string `json:"pin,omitzero"` // size of the screws that the printed links turn on, or "" for none printed
	Material string `json:"material,omitzero"`
}

// A Slide is the fixed line of a slider.
type Slide struct {
	Through  [2]float64 `json:"through"`
	AngleDeg float64    `json:"angle"`
}

func (t *table) mechanism() Mechanism {
	m := Mechanism{
		Points: map[string][2]float64{}, Fixed: t.texts("fixed"), Bars: t.texts("bars"), Plates: t.texts("plates"),
		Crank: t.text("crank"), Slider: t.text("slider"), Follow: t.texts("follow"),
		Pin: t.text("pin"), Material: t.text("material"),
		Lengths: map[string]float64{}, Sliders: map[string]Slide{}, Slots: map[string]string{},
	}
	kind := quantity.Angle
	if m.Slider != "" {
		kind = quantity.Length
	}
	m.From, m.To = t.quantity("from", kind), t.quantity("to", kind)
	each := func(key string, read func(in *table, name string)) {
		if in := t.table(key); in != nil {
			for _, name := range sorted(in.values) {
				read(in, name)
			}
			in.finish()
		}
	}
	each("points", func(in *table, name string) {
		var at [2]float64
		in.lengths(name, at[:])
		m.Points[name] = at
	})
	each("lengths", func(in *table, name string) { m.Lengths[name] = in.length(name) })
	each("slots", func(in *table, name string) { m.Slots[name] = in.text(name) })
	each("sliders", func(in *table, name string) {
		line := in.table(name)
		s := Slide{AngleDeg: line.quantity("angle", quantity.Angle)}
		line.lengths("through", s.Through[:])
		line.need("through", "angle")
		line.finish()
		m.Sliders[name] = s
	})
	t.need("points", "fixed", "from", "to")
	t.either("crank", "slider")
	for _, bar := range sorted(m.Lengths) {
		if !slices.Contains(m.Bars, bar) {
			t.refuse("lengths", "names a bar "+bar+" that is not among bars", "write it as bars has it")
		}
	}
	return m
}

// spec turns the table into what linkage follows.
func (m Mechanism) spec() linkage.MechanismSpec {
	var spec linkage.MechanismSpec
	for _, name := range sorted(m.Points) {
		at := m.Points[name]
		spec.Points = append(spec.Points, linkage.Pin{Name: name, At: geom.Point{X: at[0], Y: at[1]}, Fixed: slices.Contains(m.Fixed, name)})
	}
	for _, bar := range m.Bars {
		from, to, _ := strings.Cut(bar, "-")
		spec.Bars = append(spec.Bars, linkage.BarSpec{From: from, To: to, Length: m.Lengths[bar]})
	}
	for _, plate := range m.Plates {
		spec.Plates = append(spec.Plates, linkage.PlateSpec{Points: strings.Split(plate, "-")})
	}
	for _, point := range sorted(m.Sliders) {
		s := m.Sliders[point]
		spec.Sliders = append(spec.Sliders, linkage.SliderSpec{Point: point, Through: geom.Point{X: s.Through[0], Y: s.Through[1]}, AngleDeg: s.AngleDeg})
	}
	for _, point := range sorted(m.Slots) {
		from, to, _ := strings.Cut(m.Slots[point], "-")
		spec.Slots = append(spec.Slots, linkage.SlotSpec{Point: point, From: from, To: to})
	}
	centre, pin, _ := strings.Cut(m.Crank, "-")
	spec.Drive = linkage.DriveSpec{Centre: centre, Pin: pin, Slider: m.Slider, Start: m.From}
	return spec
}

// addMechanisms follows every mechanism from one end of its drive to the other.
func (b *builder) addMechanisms() error {
	for _, name := range sorted(b.file.Mechanisms) {
		table, design := b.file.Mechanisms[name], "mechanism."+name
		m, err := linkage.NewMechanism(table.spec())
		if err != nil {
			return b.file.Blame(design, err)
		}
		course, err := linkage.NewCourse(m, table.To, 0, b.file.Limits)
		if err != nil {
			return b.file.Blame(design, err)
		}
		b.courses[name] = course
		b.report.Designs[design] = course.Values()
		b.find(design, course.Findings()...)
		b.find(design, ruleUnchecked.Say(check.Note, 0, "a mechanism is followed and drawn: no part is printed of it, and servo, torque, forces and collisions are not checked",
			"for horn, pushrod and lever write [linkage.NAME]"))
		if err := b.addMechanismLinks(name, table); err != nil {
			return err
		}
		for _, point := range table.Follow {
			for _, plot := range course.Plots(point) {
				plot.Title = design + ": " + plot.Title
				b.report.Curves = append(b.report.Curves, export.Curve(plot))
			}
		}
	}
	return nil
}

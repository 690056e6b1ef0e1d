package joint

import (
	"pintle/quantity"
)

func (t *table) servo() Servo {
	s := Servo{
		StallTorque:  t.quantity("stall_torque", quantity.Torque),
		SpeedDeg:     t.quantity("speed", quantity.Speed),
		Points:       t.points("points"),
		SplineTeeth:  t.count("spline_teeth"),
		Tabs:         t.table("tabs").tabs(),
		ShaftFromEnd: t.length("shaft_from_end"),
		Horn:         t.table("horn").horn(),
		Voltage:      t.quantity("voltage", quantity.Voltage),
		Supply:       t.quantity("supply", quantity.Voltage),
		StallCurrent: t.quantity("stall_current", quantity.Current),
		IdleCurrent:  t.quantity("idle_current", quantity.Current),
		DeadBand:     t.plain("dead_band"),
		Play:         t.quantity("play", quantity.Angle),
	}
	if t.has("channel") {
		channel := t.count("channel")
		s.Channel = &channel
	}
	t.value("channel")
	t.lengths("body", s.Body[:])
	t.need("stall_torque", "speed", "points")
	return s
}

// points reads pairs of pulse and angle.
func (t *table) points(key string) [][2]float64 {
	var points [][2]float64
	for i, v := range t.list(key, 0) {
		at := element(key, i)
		pair, ok := v.([]any)
		if !ok || len(pair) != 2 {
			t.refuse(at, "must be a list of 2 values", "write [pulse in µs, angle in degrees]")
			continue
		}
		points = append(points, [2]float64{
			t.number(element(at, 0), pair[0], quantity.Number),
			t.number(element(at, 1), pair[1], quantity.Angle),
		})
	}
	return points
}

func (t *table) tabs() Tabs {
	b := Tabs{
		Length:    t.length("length"),
		Thickness: t.length("thickness"),
		BelowTop:  t.length("below_top"),
		Diameter:  t.length("diameter"),
	}
	t.lengths("holes", b.Holes[:])
	t.need("length", "thickness", "below_top", "holes", "diameter")
	t.finish()
	return b
}

func (t *table) load() Load {
	l := Load{
		Mass:         t.quantity("mass", quantity.Mass),
		Inertia:      t.inertia("inertia"),
		Axis:         "vertical",
		ElevationDeg: t.quantity("elevation", quantity.Angle),
		Overhead:     t.yes("overhead"),
		Friction:     t.friction("friction"),
		ExtraTorque:  t.quantity("extra_torque", quantity.Torque),
		CableTorque:  t.quantity("cable_torque", quantity.Torque),
	}
	if _, ok := t.value("axis"); ok {
		l.Axis = t.word("axis", Axes())
	}
	if in := t.table("centre_of_gravity"); in != nil {
		l.CentreOfGravity = CentreOfGravity{Height: in.length("height"), Offset: in.length("offset")}
		in.finish()
	}
	if in := t.table("table"); in != nil {
		l.Table = LoadTable{Diameter: in.length("diameter"), Thickness: in.length("thickness")}
		in.need("diameter", "thickness")
		in.finish()
	}
	t.need("mass")
	return l
}

// inertia reads a number in kg·m², or a solid with its sizes.
func (t *table) inertia(key string) Inertia {
	v, ok := t.value(key)
	if !ok {
		return Inertia{}
	}
	if _, ok := v.(map[string]any); !ok {
		return Inertia{Value: t.plain(key)}
	}
	in := t.table(key)
	i := Inertia{
		Solid:  in.word("solid", Solids()),
		Radius: in.length("radius"),
		Length: in.length("length"),
		Width:  in.length("width"),
	}
	in.need("solid")
	switch i.Solid {
	case "disc", "point":
		in.need("radius")
	case "rod":
		in.need("length")
	case "box":
		in.need("length", "width")
	}
	in.finish()
	return i
}

// friction reads a torque, or a kind of bearing with its bore.
func (t *table) friction(key string) Friction {
	v, ok := t.value(key)
	if !ok {
		return Friction{}
	}
	if _, ok := v.(map[string]any); !ok {
		return Friction{Value: t.quantity(key, quantity.Torque)}
	}
	in := t.table(key)
	f := Friction{Bearing: in.word("bearing", FrictionBearings()), Bore: in.length("bore")}
	in.need("bearing", "bore")
	in.finish()
	return f
}

func (t *table) motion() Motion {
	m := Motion{
		Swing: t.quantity("swing", quantity.Angle),
		Time:  t.quantity("time", quantity.Time),
		Law:   "cosine",
		Hold:  t.yes("hold"),

		Rest:         t.quantity("rest", quantity.Angle),
		CyclesPerDay: t.plain("cycles_per_day"),
		Strikes:      t.yes("strikes"),
	}
	if _, ok := t.value("law"); ok {
		m.Law = t.word("law", Laws())
	}
	t.need("swing", "time")
	return m
}

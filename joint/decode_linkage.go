package joint

import (
	"fmt"
	"slices"
	"strings"

	"pintle/quantity"
)

func (t *table) linkage() Linkage {
	l := Linkage{
		Kind:       "four-bar",
		Servo:      t.text("servo"),
		Load:       t.text("load"),
		Motion:     t.text("motion"),
		NeutralDeg: 90,
		FromDeg:    t.quantity("from", quantity.Angle),
		ToDeg:      t.quantity("to", quantity.Angle),
		Crossed:    t.yes("crossed"),
		Clockwise:  t.yes("clockwise"),
		Sinks:      t.yes("sinks"),
		Turning:    t.yes("turning"),
		Motor:      t.table("motor").motor(),
		Tip:        t.length("tip"),
		Offset:     t.length("offset"),
		Efficiency: t.plain("efficiency"),
		Pin:        t.text("pin"),
		Material:   t.text("material"),
	}
	if _, ok := t.value("kind"); ok {
		if l.Kind = t.text("kind"); !slices.Contains(LinkageKinds(), l.Kind) {
			t.refuse("kind", fmt.Sprintf("%q is not known: must be %s", l.Kind, strings.Join(LinkageKinds(), " or ")),
				"describe a slider-crank or any other mechanism by its points, in a table [mechanism.NAME]: it is followed and drawn, not printed")
		}
	}
	if _, ok := t.value("neutral"); ok {
		l.NeutralDeg = t.quantity("neutral", quantity.Angle)
	}
	if in, length := t.sized("horn", "length"); in != nil {
		l.Horn = in.linkHorn()
	} else {
		l.Horn.Length = length
	}
	if in, length := t.sized("rod", "length"); in != nil {
		l.Rod = in.linkRod()
	} else {
		l.Rod = LinkRod{Length: length, Kind: "bar"}
	}
	if in, length := t.sized("lever", "length"); in != nil {
		l.Lever = in.linkLever()
	} else {
		l.Lever = LinkLever{Length: length, Hub: "pin"}
	}
	if in, distance := t.sized("frame", "distance"); in != nil {
		l.Frame = in.linkFrame()
	} else {
		l.Frame = LinkFrame{Distance: distance, ServoTurnDeg: 180}
	}
	t.need("horn", "rod", "lever", "frame")
	if t.has("from") || t.has("to") {
		t.need("from", "to")
	}
	return l
}

// sized reads a length, or a table that holds it under its own key with more.
func (t *table) sized(key, own string) (*table, float64) {
	v, ok := t.value(key)
	if !ok {
		return nil, 0
	}
	if _, ok := v.(map[string]any); !ok {
		return nil, t.length(key)
	}
	in := t.table(key)
	in.need(own)
	return in, 0
}

func (t *table) motor() Motor {
	m := Motor{StallTorque: t.quantity("stall_torque", quantity.Torque), RPM: t.plain("rpm")}
	t.need("stall_torque", "rpm")
	t.finish()
	return m
}

func (t *table) linkHorn() LinkHorn {
	h := LinkHorn{Length: t.length("length"), Bore: t.length("bore"), Thickness: t.length("thickness"), Width: t.length("width")}
	t.finish()
	return h
}

func (t *table) linkRod() LinkRod {
	r := LinkRod{
		Length: t.length("length"), Kind: "bar",
		Thickness: t.length("thickness"), Width: t.length("width"), Thread: t.text("thread"),
	}
	if _, ok := t.value("kind"); ok {
		r.Kind = t.word("kind", RodKinds())
	}
	for i, v := range t.list("ends", 2) {
		at := element("ends", i)
		values, ok := v.(map[string]any)
		if !ok {
			t.refuse(at, "must be a table, not "+describe(v), "write { to_thread = 9, depth = 9 }")
			continue
		}
		in := &table{reader: t.reader, at: join(t.at, at), values: values}
		r.Ends = append(r.Ends, LinkEnd{
			ToThread: in.length("to_thread"), Depth: in.length("depth"), Engagement: in.length("engagement"),
			BallLimit: in.quantity("ball_limit", quantity.Angle), Play: in.length("play"),
		})
		in.need("to_thread", "depth")
		in.finish()
	}
	if r.Kind == "threaded" {
		t.need("ends")
		t.foreign("for a printed bar", "thickness", "width")
	} else {
		t.foreign("for a threaded rod", "thread", "ends")
	}
	t.finish()
	return r
}

func (t *table) linkLever() LinkLever {
	l := LinkLever{
		Length: t.length("length"), Hub: "pin", Bore: t.length("bore"), Bearing: t.text("bearing"),
		Diameter: t.length("diameter"), Thickness: t.length("thickness"), Width: t.length("width"),
		BoltCircle: t.length("bolt_circle"), ScrewSize: t.text("screw_size"), ScrewCount: t.count("screw_count"),
		ClampScrew: t.text("clamp_screw"),
	}
	if _, ok := t.value("hub"); ok {
		l.Hub = t.word("hub", LeverHubs())
	}
	if in := t.table("second"); in != nil {
		l.Second = LinkSecond{Length: in.length("length"), AngleDeg: in.quantity("angle", quantity.Angle)}
		in.need("length", "angle")
		in.finish()
	}
	switch l.Hub {
	case "clamp":
		t.need("bore")
		t.foreign("for a hub with a bearing", "bearing")
	case "bearing":
		t.need("bearing")
		t.foreign("for a clamp", "bore", "clamp_screw")
	default:
		t.foreign("for another hub", "bearing", "bore", "clamp_screw")
	}
	if t.has("bolt_circle") {
		t.need("screw_count")
	}
	t.finish()
	return l
}

func (t *table) linkFrame() LinkFrame {
	f := LinkFrame{
		Distance: t.length("distance"), Thickness: t.length("thickness"), ServoTurnDeg: 180,
		Pivot: t.text("pivot"), ScrewSize: t.text("screw_size"),
	}
	if _, ok := t.value("servo_turn"); ok {
		f.ServoTurnDeg = t.quantity("servo_turn", quantity.Angle)
	}
	if in := t.table("foot"); in != nil {
		f.Foot = LinkFoot{ScrewSize: in.text("screw_size"), ScrewCount: in.count("screw_count"), Height: in.length("height")}
		in.need("screw_count")
		in.finish()
	}
	t.finish()
	return f
}

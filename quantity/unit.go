package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Definitions, all exact; see the package comment.
const (
	inch            = 25.4       // mm
	pound           = 0.45359237 // kg
	ounce           = pound / 16 // kg
	gravity         = 9.80665    // m/s²
	degreePerRadian = 180 / math.Pi
)

// A table holds the units of one kind. The first spelling of a unit is the one
// that messages show.
type table struct {
	name, unit string
	known      string
	units      []unit
}

type unit struct {
	spellings string // separated by spaces
	convert   func(float64) float64
}

func times(factor float64) func(float64) float64 {
	return func(v float64) float64 { return v * factor }
}

// over is for units whose factor has an exact reciprocal: dividing by 1000
// rounds once, multiplying by 0.001 twice.
func over(divisor float64) func(float64) float64 {
	return func(v float64) float64 { return v / divisor }
}

// table returns the units of a kind. Spellings are as fold leaves them.
func (k Kind) table() table {
	switch k {
	case Length:
		return table{"length", "mm", "mm, cm, m, µm, in", []unit{
			{"mm", times(1)},
			{"cm", times(10)},
			{"m", times(1000)},
			{"um", over(1000)},
			{`in inch inches "`, times(inch)},
		}}
	case Torque:
		return table{"torque", "N·m", "N.m, N.cm, mN.m, kgf.cm (also kg.cm), ozf.in (also oz.in), lbf.in", []unit{
			{"N.m Nm", times(1)},
			{"N.cm Ncm", over(100)},
			{"N.mm Nmm mN.m mNm", over(1000)},
			{"kgf.cm kg.cm kgfcm kgcm", times(gravity / 100)},
			{"ozf.in oz.in ozfin ozin", times(ounce * gravity * inch / 1000)},
			{"lbf.in lb.in lbfin lbin", times(pound * gravity * inch / 1000)},
		}}
	case Angle:
		return table{"angle", "deg", "deg, rad", []unit{
			{"deg °", times(1)},
			{"rad", times(degreePerRadian)},
		}}
	case Mass:
		return table{"mass", "kg", "kg, g, lb, oz", []unit{
			{"kg", times(1)},
			{"g", over(1000)},
			{"lb", times(pound)},
			{"oz", times(ounce)},
		}}
	case Time:
		return table{"time", "s", "s, ms, min", []unit{
			{"s sec", times(1)},
			{"ms", over(1000)},
			{"min", times(60)},
		}}
	case Speed:
		return table{"speed", "deg/s", "deg/s, rad/s, rpm, s/60deg", []unit{
			{"deg/s °/s", times(1)},
			{"rad/s", times(degreePerRadian)},
			{"rpm", times(6)},
		}}
	case Force:
		return table{"force", "N", "N, kN, kgf, lbf", []unit{
			{"N", times(1)},
			{"kN", times(1000)},
			{"kgf", times(gravity)},
			{"lbf", times(pound * gravity)},
		}}
	case Temperature:
		return table{"temperature", "°C", "C, K, F", []unit{
			{"C °C degC", times(1)},
			{"K", func(v float64) float64 { return v - 273.15 }},
			{"F °F degF", func(v float64) float64 { return (v - 32) / 1.8 }},
		}}
	case Current:
		return table{"current", "A", "A, mA", []unit{
			{"A", times(1)},
			{"mA", over(1000)},
		}}
	case Voltage:
		return table{"voltage", "V", "V, mV", []unit{
			{"V", times(1)},
			{"mV", over(1000)},
		}}
	}
	return table{name: "number"}
}

// find returns the conversion of a unit as written.
func (k Kind) find(written string) (func(float64) float64, bool) {
	folded := k.fold(written)
	for _, u := range k.table().units {
		for spelling := range strings.FieldsSeq(u.spellings) {
			if spelling == folded {
				return u.convert, true
			}
		}
	}
	if k == Speed {
		return timePerAngle(folded)
	}
	return nil, false
}

// timePerAngle reads the way servo leaflets state a speed, the time for an
// angle: "s/60deg" makes 0.17 into 60/0.17 deg/s.
func timePerAngle(folded string) (func(float64) float64, bool) {
	seconds, angle, ok := strings.Cut(folded, "/")
	if !ok || (seconds != "s" && seconds != "sec") {
		return nil, false
	}
	degrees, err := Angle.Parse(angle)
	if err != nil || !(degrees > 0) {
		return nil, false
	}
	return func(v float64) float64 { return degrees / v }, true
}

// fold gives the one spelling of the signs that people write in units.
func (k Kind) fold(unit string) string {
	unit = strings.NewReplacer(
		" ", "", "·", ".", "⋅", ".", "*", ".",
		"µ", "u", "μ", "u", "º", "°", "″", `"`, "''", `"`,
	).Replace(unit)
	if k == Torque {
		unit = strings.ReplaceAll(unit, "-", ".") // leaflets print oz-in
	}
	return unit
}

// unitHint names the units in a remedy, for kinds that have any.
func (k Kind) unitHint() string {
	if k == Number {
		return ""
	}
	return ", with or without a unit: " + k.Units()
}

// remedyForUnit proposes the unit that differs in capitals only, else lists all.
func (k Kind) remedyForUnit(written string) string {
	if k == Number {
		return "write the number alone"
	}
	for _, u := range k.table().units {
		for spelling := range strings.FieldsSeq(u.spellings) {
			if strings.EqualFold(spelling, k.fold(written)) {
				return "write " + strconv.Quote(spelling)
			}
		}
	}
	return "units of " + k.Name() + ": " + k.Units()
}

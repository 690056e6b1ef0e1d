package linkage

import (
	"math"

	"pintle/check"
	"pintle/geom"
)

// A SliderCrank is a horn, a pushrod and a slider on a straight line parallel to
// the x axis, in mm. The horn's axis is the origin.
type SliderCrank struct {
	Horn   float64 // a
	Rod    float64 // b
	Offset float64 // e, of the slider's line from the horn's axis, positive to the left
	Behind bool    // the slider on the far side, towards -x
}

// A SliderPose is one position of a slider-crank with the horn turning at unit
// speed.
type SliderPose struct {
	Horn, Rod       float64    // rad
	HornPin, Slider geom.Point // mm
	Transmission    float64    // rad, 0 to pi, between the rod and the square to the slide
	RodRate         float64    // d rod / d horn
	Ratio           float64    // d slider / d horn, mm/rad
	RodAcceleration float64    // d² rod / d horn², 1/rad
	Acceleration    float64    // d² slider / d horn², mm/rad²
}

// At returns the position with the horn at an angle in rad, from
// x = a cos t + b cos p, a sin t + b sin p = e; false where the rod does not
// reach the line or stands square to it.
func (c SliderCrank) At(horn float64) (SliderPose, bool) {
	sin, cos := math.Sincos(horn)
	sinRod := (c.Offset - c.Horn*sin) / c.Rod
	square := 1 - sinRod*sinRod
	if !(square > atDeadPoint*atDeadPoint) {
		return SliderPose{}, false
	}
	cosRod := math.Sqrt(square)
	if c.Behind {
		cosRod = -cosRod
	}
	p := SliderPose{
		Horn: math.Remainder(horn, 2*math.Pi), Rod: math.Atan2(sinRod, cosRod),
		HornPin: geom.Point{X: c.Horn * cos, Y: c.Horn * sin},
		Slider:  geom.Point{X: c.Horn*cos + c.Rod*cosRod, Y: c.Offset},
	}
	p.Transmission = math.Pi/2 - math.Asin(sinRod)
	p.RodRate = -c.Horn * cos / (c.Rod * cosRod)
	p.Ratio = -c.Horn*sin - c.Rod*sinRod*p.RodRate
	p.RodAcceleration = (c.Horn*sin + c.Rod*sinRod*p.RodRate*p.RodRate) / (c.Rod * cosRod)
	p.Acceleration = -c.Horn*cos - c.Rod*cosRod*p.RodRate*p.RodRate - c.Rod*sinRod*p.RodAcceleration
	return p, true
}

// Turns says whether the horn turns fully: a + |e| < b.
func (c SliderCrank) Turns() bool { return c.Horn+math.Abs(c.Offset) < c.Rod }

// Stroke returns the slider's way between its limit positions in mm, where horn
// and rod lie in one line: sqrt((b + a)² - e²) - sqrt((b - a)² - e²); false where
// the horn does not turn fully.
func (c SliderCrank) Stroke() (float64, bool) {
	if !c.Turns() {
		return 0, false
	}
	return math.Sqrt(sq(c.Rod+c.Horn)-sq(c.Offset)) - math.Sqrt(sq(c.Rod-c.Horn)-sq(c.Offset)), true
}

// DeadPoints returns the angles of the horn in rad at which it locks, with the
// rod square to the slide: a sin t = e ± b.
func (c SliderCrank) DeadPoints() []float64 {
	var found []float64
	for _, sin := range []float64{(c.Offset + c.Rod) / c.Horn, (c.Offset - c.Rod) / c.Horn} {
		if math.Abs(sin) <= 1 {
			found = append(found, math.Asin(sin), math.Pi-math.Asin(sin))
		}
	}
	return found
}

// Validate returns a *check.FieldError for lengths that no slider-crank can have,
// and for a rod that reaches the slide nowhere.
func (c SliderCrank) Validate() error {
	for _, q := range []bar{{"horn", c.Horn}, {"rod length", c.Rod}} {
		if err := check.InRange(q.name, q.value, "mm", shortest, longest,
			"measure from the centre of one pin to the centre of the other"); err != nil {
			return err
		}
	}
	if err := check.InRange("offset of the slide", c.Offset, "mm", -longest, longest,
		"give the distance of the slider's line from the servo's axis"); err != nil {
		return err
	}
	if math.Abs(c.Offset) >= c.Horn+c.Rod {
		return &check.FieldError{
			Field: "offset of the slide", Value: c.Offset, Unit: "mm",
			Reason: "is out of reach of horn and rod, " + check.Number(c.Horn+c.Rod) + " mm",
			Remedy: "bring the slide nearer than that, or lengthen the rod",
		}
	}
	return nil
}

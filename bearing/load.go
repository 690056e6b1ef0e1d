package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

// A Load is what one bearing carries, at rest.
type Load struct {
	Axial  float64 // N, positive presses the outer ring into its shoulder
	Radial float64 // N, in the plane of this bearing, at least 0
	Moment float64 // N·m about an axis across the bearing, at least 0
	Height float64 // mm of the centre of gravity above the bearing; 0 not known
	Alone  bool    // no second bearing or bush guides the turning part

	Second     *Bearing // the second bearing on the axis; nil where it is not known
	Span       float64  // mm between the back faces of the two outer rings, where Second is given
	FaceToFace bool     // those back faces lie outside, not between the bearings
	Running    string   // Smooth, Normal or Shock; "" is Normal
	RPM        float64  // turns per minute; 0 not known
}

// How the load comes on. The words are those of makers' tables of static safety.
const (
	Smooth = "smooth"
	Normal = "normal"
	Shock  = "shock"
)

// How an axis stands. Inverted is upright with the load hanging below.
const (
	Vertical   = "vertical"
	Horizontal = "horizontal"
	Inverted   = "inverted"
)

// WeightOn returns the load that a weight in N makes on one bearing: its centre
// of gravity height mm along the axis and offset mm beside it. A vertical axis is
// pressed into its seat, an inverted one is pulled out of it; on a level one the
// weight hangs across the bearing.
func WeightOn(axis string, weight, height, offset float64) Load {
	l := Load{Height: height, Alone: true, Moment: weight * offset / 1000}
	switch axis {
	case Horizontal:
		l.Radial, l.Moment = weight, weight*math.Abs(height)/1000
	case Inverted:
		l.Axial = -weight
	default:
		l.Axial = weight
	}
	return l
}

// Validate returns a *check.FieldError for a load that is no number, or a second
// bearing without its place.
func (l Load) Validate() error {
	const most = 1e6
	for _, q := range []struct {
		field string
		value float64
		unit  string
		lo    float64
	}{
		{"axial load", l.Axial, "N", -most},
		{"radial load", l.Radial, "N", 0},
		{"moment", l.Moment, "N·m", 0},
		{"height of the centre of gravity", l.Height, "mm", -most},
		{"speed", l.RPM, "rpm", 0},
		{"span", l.Span, "mm", 0},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, most, "give the load as it stands when the figure is at rest"); err != nil {
			return err
		}
	}
	switch l.Running {
	case "", Smooth, Normal, Shock:
	default:
		return &check.FieldError{Field: "running", Text: l.Running, Reason: "is not known", Remedy: "use smooth, normal or shock"}
	}
	switch {
	case l.Second == nil && l.Span > 0:
		return &check.FieldError{Field: "span", Value: l.Span, Unit: "mm", Reason: "has no second bearing at its end", Remedy: "name the second bearing"}
	case l.Second == nil:
		return nil
	case l.Span == 0:
		return &check.FieldError{Field: "span", Value: 0, Unit: "mm", Reason: "must be greater than 0 with a second bearing", Remedy: "measure between the shoulders that back the two outer rings"}
	}
	return l.Second.Validate()
}

// CheckLoad judges whether a load keeps the bearing together, upright and
// within its rating. The load must be valid; a negative Axial is a load that
// pulls the ring out of its seat.
func CheckLoad(b Bearing, l Load, limits check.Limits) []check.Finding {
	if err := l.Validate(); err != nil {
		panic("bearing: CheckLoad was given a load that was not validated: " + err.Error())
	}
	if l.Second != nil {
		return checkPair(b, l, limits)
	}
	found := []check.Finding{direction(b, l, limits)}
	if b.Kind == ThrustBall {
		found = append(found, radialRule.Judge(l.Radial, limits.Of(radialRule), "guide the part by a radial bearing or bush so that F_r = 0 here"))
	}
	if l.Alone {
		found = append(found, stays(b, tipping(b, l, limits)), guide(b, l))
	}
	return append(found, rating(b, l, limits)...)
}

// AxialFactor returns Y: the row's, or 0.6/e (from memory), or 0.7, which is
// below the smallest of the 16 rows that carry it (31305: 0.73).
func (b Bearing) AxialFactor() float64 {
	switch {
	case b.Y > 0:
		return b.Y
	case b.E > 0:
		return 0.6 / b.E
	}
	return 0.7
}

// staticFactor returns Y0: the row's, or 0.55 Y (0.22 and 0.4 cot alpha, from
// memory; it meets the 16 rows that carry both within 0.01).
func (b Bearing) staticFactor() float64 {
	if b.Y0 > 0 {
		return b.Y0
	}
	return 0.55 * b.AxialFactor()
}

func direction(b Bearing, l Load, limits check.Limits) check.Finding {
	oneWay := b.Kind == Tapered || b.Kind == ThrustBall
	value, needs := l.Axial, 0.0
	if b.Kind == Tapered && l.Alone {
		needs = l.Radial / (2 * b.AxialFactor())
		value -= needs
	}
	switch {
	case oneWay && l.Alone && l.Axial <= 0:
		return directionRule.Say(check.Fail, value, "nothing presses cone and cup (or the washers) together: the bearing comes apart",
			"turn the joint so that its weight presses into the seat, or use two bearings against each other")
	case oneWay && l.Alone:
		return directionRule.Judge(round(value), limits.Of(directionRule), fmt.Sprintf("axial load >= %s N, or two bearings against each other", ceil(needs, 1)))
	case l.Axial >= 0:
		return directionRule.Say(check.Pass, value, "", "")
	case b.Kind == ThrustBall:
		return directionRule.Say(check.Fail, value, "a thrust ball bearing carries axial load one way only", "turn the bearing over or add one for the other direction")
	}
	return directionRule.Say(check.Caution, value, "the load pulls this bearing out of its seat",
		"let the other bearing or a screwed cap take the axial load")
}

func tipping(b Bearing, l Load, limits check.Limits) check.Finding {
	limit := limits.Of(tippingRule)
	if l.Axial <= 0 {
		verdict, remedy := check.Pass, ""
		if l.Moment > 0 || l.Radial > 0 {
			verdict, remedy = check.Fail, "a second bearing on the same axis"
		}
		return tippingRule.Say(verdict, 0, "no axial load keeps a single bearing upright", remedy)
	}
	holds := l.Axial * b.MeanDiameter() / 4 / 1000
	offset := l.Moment / l.Axial * 1000
	reach := math.Floor(strict(check.AtMost, limit)*b.MeanDiameter()/4*100) / 100
	return tippingRule.Judge(round(l.Moment/holds), limit, fmt.Sprintf(
		"centre of gravity within %s mm of the axis (now %s mm; it tips beyond %s mm), or a second guide bearing",
		check.Number(reach), check.Number(offset), check.Number(math.Floor(b.MeanDiameter()/4*100)/100)))
}

// stays eases the verdict on a deep-groove bearing: its rings hold each other, so
// that what overturns it tilts it by its play and does not take it apart.
func stays(b Bearing, f check.Finding) check.Finding {
	if b.Kind == DeepGroove && f.Verdict == check.Fail {
		f.Verdict = check.Caution
		f.Detail = "one deep-groove bearing stays together, but lets what turns tilt by its play"
	}
	return f
}

func guide(b Bearing, l Load) check.Finding {
	held := "a single bearing is held together by the load alone"
	if b.Kind == DeepGroove {
		held = "a single deep-groove bearing keeps its axle square by its own play only"
	}
	const remedy = "add a second guide bearing or bush on the same axis"
	if b.Kind == ThrustBall {
		return guideRule.Say(check.Fail, 0, "a thrust ball bearing guides nothing sideways: its washers walk", "add a radial bearing or bush on the same axis")
	}
	if l.Height <= 0 {
		return guideRule.Say(check.Caution, 0, held+"; the height of the centre of gravity is not known", remedy)
	}
	push := max(0, (l.Axial*b.MeanDiameter()/4-l.Moment*1000)/l.Height)
	return guideRule.Say(check.Caution, push, fmt.Sprintf(
		"%s: %.2f N sideways, %s mm above it, lifts one side", held, push, check.Number(l.Height)), remedy)
}

// StaticLoad returns P0 in N, the equivalent static load, with the axial load
// raised by 4 M / d_m where the bearing stands alone.
func (b Bearing) StaticLoad(l Load) float64 {
	axial := math.Abs(l.Axial)
	if l.Alone {
		axial += 4 * l.Moment * 1000 / b.MeanDiameter()
	}
	switch b.Kind {
	case Tapered:
		return max(l.Radial, 0.5*l.Radial+b.staticFactor()*axial)
	case ThrustBall:
		return axial
	}
	return max(l.Radial, 0.6*l.Radial+0.5*axial)
}

// ceil rounds up to a step and prints the number.
func ceil(v, step float64) string { return check.Number(math.Ceil(v/step-1e-9) * step) }

// floor rounds down to a step and prints the number.
func floor(v, step float64) string { return check.Number(math.Floor(v/step+1e-9) * step) }

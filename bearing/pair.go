package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

// Forces are what one bearing of two carries, in N, both at least 0.
type Forces struct{ Axial, Radial float64 }

// LoadSpan returns the distance in mm between the points where two bearings carry:
// the middles of their outer rings, or the load centres of tapered ones, which
// lie a from the cup's back face towards the large ends of the rollers. Back to
// back they lie farther apart than the cups, face to face nearer together.
func LoadSpan(b Bearing, l Load) float64 {
	reach := b.loadCentre() + l.Second.loadCentre()
	if l.FaceToFace {
		return l.Span - reach
	}
	return l.Span + reach
}

// loadCentre returns the distance in mm of the load centre from the outer ring's
// back face. An unknown a is T / 2 + (d_m / 2) tan(alpha), which lies within
// 1.3 mm of the 16 rows that carry it (derived).
func (b Bearing) loadCentre() float64 {
	switch {
	case b.Kind != Tapered:
		return b.SeatWidth() / 2
	case b.LoadCentre > 0:
		return b.LoadCentre
	}
	return b.Width/2 + b.MeanDiameter()/2*b.E/1.5
}

// ConeSpacer returns the length in mm of a spacer between two opposed cones that
// leaves no end play: back to back between their small ends, face to face
// between their large ends (geometry of T and B; an unknown B counts as T).
// Negative: the cones would meet.
func ConeSpacer(b Bearing, l Load) float64 {
	if l.FaceToFace {
		return l.Span - b.Width - l.Second.Width
	}
	return l.Span + b.Width - orElse(b.ConeWidth, b.Width) + l.Second.Width - orElse(l.Second.ConeWidth, l.Second.Width)
}

// opposed says whether two bearings hold each other along the axis.
func (b Bearing) opposed(to Bearing) bool {
	oneWay := func(k Kind) bool { return k == Tapered || k == ThrustBall }
	return b.Kind == to.Kind || !oneWay(b.Kind) && !oneWay(to.Kind)
}

// ShareLoad returns what this bearing and the second one carry. The moment is a
// couple M / span on both. Between two tapered bearings the radial loads push the
// cones apart with F_r / (2 Y): the one that the axial load presses takes that
// load and the other's push, unless its own push is larger (makers' guides for
// opposed pairs). Otherwise the bearing that is pressed takes the axial load.
// The load must be valid and have a Second; a span of less than 1 mm counts as 1.
func ShareLoad(b Bearing, l Load) (here, second Forces) {
	couple := l.Moment * 1000 / max(LoadSpan(b, l), 1)
	here.Radial, second.Radial = l.Radial+couple, couple
	pushed, other := &here, &second
	if l.Axial < 0 {
		pushed, other = other, pushed
	}
	axial := math.Abs(l.Axial)
	if b.Kind != Tapered || l.Second.Kind != Tapered {
		pushed.Axial = axial
		return here, second
	}
	own, others := here.Radial/(2*b.AxialFactor()), second.Radial/(2*l.Second.AxialFactor())
	if l.Axial < 0 {
		own, others = others, own
	}
	pushed.Axial, other.Axial = others+axial, others
	if others+axial < own {
		pushed.Axial, other.Axial = own, own-axial
	}
	return here, second
}

// checkPair judges two bearings on one axis.
func checkPair(b Bearing, l Load, limits check.Limits) []check.Finding {
	here, second := ShareLoad(b, l)
	found := []check.Finding{pairDirection(b, l, limits), span(b, l, limits)}
	if b.Kind == Tapered && l.Second.Kind == Tapered && ConeSpacer(b, l) >= 0 {
		found = append(found, endPlayRule.Say(check.Note, 0, fmt.Sprintf("0.02 to 0.1 mm of end play at slow speed, or a drag that the hand just feels; a spacer of %s mm between the cones leaves none", check.Number(ConeSpacer(b, l))),
			"set the nut and lock it; the printed seats settle: set it again after 24 hours"))
	}
	for i, one := range []struct {
		b Bearing
		f Forces
	}{{b, here}, {*l.Second, second}} {
		load := Load{Axial: one.f.Axial, Radial: one.f.Radial, Running: l.Running, RPM: l.RPM}
		judged := rating(one.b, load, limits)
		if one.b.Kind == ThrustBall {
			judged = append(judged, radialRule.Judge(round(one.f.Radial), limits.Of(radialRule), "guide the part by two radial bearings so that F_r = 0 here"))
		}
		for _, f := range judged {
			f.Detail = join("; ", fmt.Sprintf("%s bearing %s, F_r %s N, F_a %s N", []string{"first", "second"}[i], one.b.Name(), tenth(one.f.Radial), tenth(one.f.Axial)), f.Detail)
			found = append(found, f)
		}
	}
	return found
}

func tenth(v float64) string { return check.Number(math.Round(v*10) / 10) }

func join(by, a, b string) string {
	if b == "" {
		return a
	}
	return a + by + b
}

// pairDirection judges whether each direction of the axial load finds a bearing
// that carries it.
func pairDirection(b Bearing, l Load, limits check.Limits) check.Finding {
	oneWay := b.Kind == Tapered || b.Kind == ThrustBall
	switch {
	case b.opposed(*l.Second):
		return directionRule.Say(check.Pass, math.Abs(l.Axial), "two bearings against each other carry the axial load either way", "")
	case oneWay:
		alone := l
		alone.Alone, alone.Second, alone.Span = true, nil, 0
		alone.Radial += l.Moment * 1000 / max(LoadSpan(b, l), 1)
		return direction(b, alone, limits)
	}
	return direction(b, l, limits)
}

func span(b Bearing, l Load, limits check.Limits) check.Finding {
	rule := spanRule
	rule.Limit = check.Limit{Caution: b.MeanDiameter(), Fail: 1}
	limit := limits.Of(rule)
	between := LoadSpan(b, l)
	needs := l.Span + strict(check.AtLeast, limit) - between
	if l.FaceToFace { // both bearings stand between the shoulders
		needs = max(needs, b.Width+l.Second.Width)
	}
	f := rule.Judge(round(between), limit, fmt.Sprintf("span >= %s mm, or set the bearings back to back", ceil(needs, 0.1)))
	if both := b.Width + l.Second.Width; l.FaceToFace && l.Span < both {
		f = rule.Say(check.Fail, round(between), "", fmt.Sprintf("span >= %s mm: the two bearings do not fit between their shoulders", ceil(needs, 0.1)))
	}
	f.Detail = fmt.Sprintf("outer rings %s mm apart, load centres %s mm from their back faces", check.Number(l.Span), check.Number(b.loadCentre())+" and "+check.Number(l.Second.loadCentre()))
	return f
}

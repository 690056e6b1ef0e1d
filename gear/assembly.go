package gear

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
)

// Assembly returns what whoever measures the prints and puts the pair together
// has to know, one sentence a line.
func (p *Pair) Assembly() []string {
	lines := p.Readings()
	lines = append(lines, p.hornLines()...)
	if f, ok := p.saySpline(); ok && f.Remedy != "" {
		lines = append(lines, f.Remedy)
	}
	for i, g := range p.gears {
		lines = append(lines, g.Assembly()...)
		if f, ok := p.sayRetain(i); ok && f.Verdict == check.Pass {
			lines = append(lines, f.Detail)
		}
	}
	if line := p.Support(); line != "" {
		lines = append(lines, line)
	}
	return append(lines, fmt.Sprintf(
		"set the axes %s mm apart; with the pinion held still the wheel should turn freely by %s deg, felt at the tightest place of a whole turn: pinch a strip of paper of 0.1 mm in the mesh there, push together, fasten, and turn the strip out",
		short(p.CentreDistance()), short(p.LostMotion()*180/math.Pi)))
}

// Support says with what force a blocked servo drives the axes apart and how far
// they may give way; "" where the servo is not known.
func (p *Pair) Support() string {
	a, ok := p.contact.distanceAtRatio(1.2)
	if !ok || p.spec.Loading.Stall == 0 {
		return ""
	}
	force := p.TangentialForce(p.spec.Loading.Stall) * math.Tan(p.contact.alphaW)
	return fmt.Sprintf(
		"Hold both shafts on both sides of the teeth where you can: a blocked servo drives the teeth apart with %s N, and when the axes give way by %s mm the teeth carry badly and may skip",
		check.Number(math.Ceil(force)), short(math.Abs(a-p.contact.a)))
}

// Readings returns for each gear what a caliper should read on its print.
func (p *Pair) Readings() []string { return []string{p.readingLine(0), p.readingLine(1)} }

// hornLines says how the servo's horn goes into the pinion.
func (p *Pair) hornLines() []string {
	var lines []string
	if h := p.spec.Pinion.Horn; h != nil {
		line := "lay the horn into the pinion's pocket and screw it on"
		if at := p.Pinion().HornHoles(); h.arms() > 0 && len(at) > 0 {
			line = fmt.Sprintf("lay the horn into the pinion's pocket and screw it on through the holes %s mm from its axis", numbers(at))
		}
		lines = append(lines, line)
	}
	return lines
}

// readingLine says what a caliper should read on gear i and how far a good print
// may be off.
func (p *Pair) readingLine(i int) string {
	g, band := p.gears[i], 2*p.spec.Card.Outside.Sigma
	if g.nominal.inner {
		band = 2 * p.spec.Card.Bore.Sigma
	}
	var readings []string
	if s := g.Span(); s.OnFlank {
		readings = append(readings, fmt.Sprintf("%s mm over %d teeth", short(s.Width), s.Teeth))
	}
	pinned := ""
	if pins := g.Pins(); pins.Diameter > 0 {
		where := "over"
		if g.nominal.inner {
			where = "between"
		}
		readings = append(readings, fmt.Sprintf("%s mm %s pins of %s mm", short(pins.Over), where, check.Number(pins.Diameter)))
		pinned = fmt.Sprintf(" or, %s pins, %s mm", where, short(p.pinBand(i, band)))
	}
	if g.sector == 0 {
		readings = append(readings, short(g.TipReading())+" mm at the tips")
	}
	if len(readings) == 0 {
		return p.spec.partName(i) + ": too few teeth for a caliper; lay the print on its drawing at true size"
	}
	return fmt.Sprintf("%s: %s, each within %s mm%s", p.spec.partName(i), strings.Join(readings, ", "), short(band), pinned)
}

// pinBand returns the band of a reading over pins for that of a span.
func (p *Pair) pinBand(i int, band float64) float64 {
	g := p.gears[i]
	if d := g.Pins().Diameter; d > 0 {
		return band * math.Abs(g.nominal.pinsPerSpan(d))
	}
	return band
}

// short prints a length to a hundredth.
func short(v float64) string { return check.Number(math.Round(v*100) / 100) }

// numbers lists values for people.
func numbers(values []float64) string {
	text := ""
	for i, v := range values {
		switch {
		case i > 0 && i == len(values)-1:
			text += " and "
		case i > 0:
			text += ", "
		}
		text += check.Number(v)
	}
	return text
}

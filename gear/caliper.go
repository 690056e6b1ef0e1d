package gear

import (
	"fmt"
	"math"

	"pintle/check"
)

// Readings are what a caliper showed on one print of a gear, in mm; 0 where
// nothing was read. Span and Pins are taken over the k teeth and the pins that
// the report names.
type Readings struct{ Span, Pins, Tip float64 }

// largestStep bounds what one reading changes on the next print, in mm over the
// span or on the tip diameter: more is a slip of the caliper or a wrong count of
// teeth (common practice, no source).
const largestStep = 0.15

// TipReading returns what a caliper reads over the tips: the tip diameter, or
// with an odd number of teeth, where one anvil rests on two corners,
// ra (1 + cos(pi/z - s_a/d_a)).
func (g *Gear) TipReading() float64 { return g.nominal.tipReading() }

func (t tooth) tipReading() float64 { return t.ra * t.tipFactor() }

// tipFactor is the reading over the tips for a tip radius of 1.
func (t tooth) tipFactor() float64 {
	if t.z%2 == 0 {
		return 2
	}
	return 1 + math.Cos(math.Max(math.Pi/float64(t.z)-t.angleAt(t.ra), 0))
}

// grown returns the tooth with its flanks moved out by d mm along their normals.
func (t tooth) grown(d float64) tooth {
	if t.inner {
		t.base -= 2 * d / t.rb // base is of the space
	}
	t.base += d / t.rb
	t.psi += d / t.rb
	return t
}

// pinsPerSpan returns how much the reading over pins grows for each mm that the
// span grows.
func (t tooth) pinsPerSpan(pin float64) float64 {
	const d = 1e-4
	more, _ := t.grown(d).over(pin)
	less, _ := t.grown(-d).over(pin)
	return (more.Over - less.Over) / (4 * d)
}

// A correction is what the readings of earlier prints change on the next.
type correction struct {
	span    float64 // mm less over the span
	tip     float64 // mm less on the tip radius, where a tip was read
	tipRead bool
	wild    bool // a reading was further off than largestStep
	history []string
}

// correction adds up the readings of a gear, print by print: each tells what was
// still wrong after the corrections before it.
func (s solution) correction(i int) correction {
	t := s.contact.t[i]
	span, pins := t.span(s.x[i]), t.pins(s.x[i])
	var c correction
	step := func(print int, what string, read, wanted, per float64) float64 {
		off := (read - wanted) / per
		used := math.Max(math.Min(off, largestStep), -largestStep)
		c.wild = c.wild || used != off
		c.history = append(c.history, fmt.Sprintf("print %d: %s %s mm, wanted %s", print, what, check.Number(read), check.Number(wanted)))
		return used
	}
	for n, r := range s.spec.Measured[i] {
		switch {
		case r.Span > 0 && !t.inner:
			c.span += step(n+1, "span", r.Span, span.Width, 1)
		case r.Pins > 0 && pins.Diameter > 0:
			c.span += step(n+1, "over pins", r.Pins, pins.Over, t.pinsPerSpan(pins.Diameter))
		}
		if r.Tip > 0 {
			per := t.tipFactor() / 2
			if t.inner {
				per = -per // a wider hole has less material
			}
			c.tip += step(n+1, "tip", r.Tip, t.tipReading(), per) / 2
			c.tipRead = true
		}
	}
	return c
}

// addCaliper adds what a caliper should read on gear i: as thinned, as it would
// be without backlash, and the band of two standard uncertainties of the card.
func (p *Pair) addCaliper(v map[string]any, i int) {
	n := fmt.Sprint(i + 1)
	g := p.gears[i]
	full := p.tooth(i, 0, 0)
	band := 2 * p.spec.Card.Outside.Sigma
	if g.nominal.inner {
		band = 2 * p.spec.Card.Bore.Sigma
	}
	if g.Span().Teeth > 0 {
		v["W"+n+"_nominal"], v["W"+n+"_band"] = full.span(g.x).Width, band
		v["W"+n+"_touches_at"] = g.Span().Touching
	}
	if pins := g.Pins(); pins.Diameter > 0 {
		v["M"+n+"_band"] = band * math.Abs(g.nominal.pinsPerSpan(pins.Diameter))
		if nominal, ok := full.over(pins.Diameter); ok {
			v["M"+n+"_nominal"] = nominal.Over
		}
	}
	if g.sector == 0 {
		v["tip"+n+"_reading"], v["tip"+n+"_band"] = g.TipReading(), band
	}
	if c := p.correction(i); len(c.history) > 0 {
		v["W"+n+"_correction"], v["readings"+n] = -c.span, c.history
		if c.tipRead {
			v["da"+n+"_correction"] = -2 * c.tip
		}
	}
}

// sayReadings tells what the readings of earlier prints change.
func (p *Pair) sayReadings(i int) (check.Finding, bool) {
	c := p.correction(i)
	if len(c.history) == 0 {
		return check.Finding{}, false
	}
	f := rule("readings").Say(check.Note, -c.span, "", "print the gear again and read it again")
	f.Part = p.spec.partName(i)
	for _, line := range c.history {
		f.Detail += line + "; "
	}
	way := "thicker"
	if c.span > 0 {
		way = "thinner"
	}
	f.Detail += fmt.Sprintf("the next print is drawn %s mm %s over the span", check.Number(math.Abs(c.span)), way)
	if c.wild {
		f.Verdict = check.Caution
		f.Remedy = fmt.Sprintf("a reading is more than %s mm off and counts only that much: read again over %d teeth", check.Number(largestStep), p.gears[i].Span().Teeth)
	}
	return f, true
}

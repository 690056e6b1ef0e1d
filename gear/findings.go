package gear

import (
	"fmt"
	"math"

	"pintle/check"
)

// Findings returns what the checks say about the pair, in the order of Rules
// for the teeth, then the bodies. Design is left to the caller.
func (p *Pair) Findings() []check.Finding {
	var all []check.Finding
	for _, j := range p.toothRules() {
		j = p.judge(j)
		remedy := ""
		if j.verdict() != check.Pass {
			remedy = p.remedy(j)
		}
		f := j.finding(remedy)
		if j.gear >= 0 {
			f.Part = p.spec.partName(j.gear)
		}
		all = append(all, f)
	}
	all = append(all, p.sayMotion()...)
	all = append(all, p.sayHunting(), p.sayFaceWidth())
	if f, ok := p.saySliding(); ok {
		all = append(all, f)
	}
	for i := range p.gears {
		if p.gears[i].Span().Teeth > 0 {
			all = append(all, p.saySpan(i))
		}
		all = append(all, p.sayChamfer(i), p.sayAllowance(i))
		all = append(all, p.sayStrength(i)...)
		all = append(all, p.judgeMargins(i)...)
		if f, ok := p.saySectorTeeth(i); ok {
			all = append(all, f)
		}
		if f, ok := p.saySector(i); ok {
			all = append(all, f)
		}
		if f, ok := p.sayReadings(i); ok {
			all = append(all, f)
		}
		for _, say := range []func(int) (check.Finding, bool){p.sayRetain, p.sayShaft, p.sayMark} {
			if f, ok := say(i); ok {
				all = append(all, f)
			}
		}
	}
	if f, ok := p.saySpline(); ok {
		all = append(all, f)
	}
	return all
}

func (p *Pair) sayHunting() check.Finding {
	turns := p.meetAgain()
	divisor := p.contact.t[1].z / turns
	v := check.Pass
	if divisor > 1 {
		v = check.Note
	}
	after := fmt.Sprintf("%d turns", turns)
	if turns == 1 {
		after = "each turn"
	}
	return rule("hunting").Say(v, float64(divisor), "the same two teeth meet again after "+after+" of the pinion", "")
}

func (p *Pair) sayFaceWidth() check.Finding {
	ratio := p.spec.FaceWidth / p.spec.Module
	layers := 8 * p.spec.Card.LayerThickness
	v, remedy := check.Pass, ""
	if ratio < 6 || ratio > 12 {
		v, remedy = check.Note, fmt.Sprintf("usual: %s to %s mm", check.Number(6*p.spec.Module), check.Number(12*p.spec.Module))
	}
	switch {
	case ratio > 15:
		v, remedy = check.Caution, "face width <= "+check.Number(math.Floor(1500*p.spec.Module)/100)+" mm"
	case p.spec.FaceWidth < layers:
		v, remedy = check.Caution, "face width >= "+check.Number(ceilTo(layers))+" mm"
	}
	return rule("face-width").Say(v, ratio, "", remedy)
}

// saySliding judges the worse gear; where an undercut decides, it says nothing.
func (p *Pair) saySliding() (check.Finding, bool) {
	worst := 0.0
	for i, t := range p.contact.t {
		if t.cut || p.contact.rollOfMate(i) <= 0 {
			return check.Finding{}, false
		}
		worst = math.Max(worst, math.Abs(p.contact.sliding(i)))
	}
	const remedy = "have the profile shifts balanced, or use more teeth on the smaller gear"
	f := rule("sliding").Judge(worst, p.limit("sliding", rule("sliding").Limit), remedy)
	if f.Verdict == check.Pass && worst > 3 {
		f.Verdict, f.Remedy = check.Note, remedy
	}
	return f, true
}

func (p *Pair) saySpan(i int) check.Finding {
	g := p.gears[i]
	span := g.Span()
	f := rule("span").Say(check.Pass, span.Touching, fmt.Sprintf("over %d teeth, between form diameter %s and tip diameter %s mm", span.Teeth, check.Number(g.FormDiameter()), check.Number(g.TipDiameter())), "")
	if !span.OnFlank {
		f.Verdict, f.Remedy = check.Note, "measure over pins instead"
	}
	f.Part = p.spec.partName(i)
	return f
}

func (p *Pair) sayChamfer(i int) check.Finding {
	got, wanted := p.gears[i].Chamfer(), p.spec.Card.BedChamfer()
	f := rule("tooth-chamfer").Say(check.Pass, got, "", "")
	if got < wanted-1e-9 {
		f.Verdict = check.Note
		f.Detail = "the card asks for " + check.Number(wanted) + " mm"
		f.Remedy = "trim the first layers of the teeth with a knife"
	}
	f.Part = p.spec.partName(i)
	return f
}

func (p *Pair) sayAllowance(i int) check.Finding {
	span := p.gears[i].fits[1]
	left := math.Abs(span.Expected - span.Wanted)
	f := rule("flank-allowance").Judge(left, p.limit("flank-allowance", rule("flank-allowance").Limit), "calibrate the printer, or use a larger module")
	f.Part = p.spec.partName(i)
	return f
}

// judgeMargins judges the least rim, wall and web of one body, where it has any.
func (p *Pair) judgeMargins(i int) []check.Finding {
	bead, layer, m := p.spec.Card.BeadWidth, p.spec.Card.LayerThickness, p.spec.Module
	var all []check.Finding
	for _, l := range []struct {
		rule  string
		limit check.Limit
	}{
		{"rim", check.Limit{Caution: math.Max(2*m, 4*bead), Fail: 2 * bead}},
		{"hub-wall", check.Limit{Caution: 4 * bead, Fail: 2 * bead}},
		{"journal-wall", check.Limit{Caution: 4 * bead, Fail: math.Max(2*bead, 0.1*p.gears[i].journalBore())}},
		{"hole-web", check.Limit{Caution: 2 * bead, Fail: bead}},
		{"spoke", check.Limit{Caution: 4 * bead, Fail: 2 * bead}},
		{"web-thickness", check.Limit{Caution: math.Round(6e6*layer) / 1e6, Fail: math.Round(3e6*layer) / 1e6}},
	} {
		limit := p.limit(l.rule, l.limit)
		least, found := margin{value: math.Inf(1)}, false
		for _, g := range p.gears[i].body.margins {
			if g.rule == l.rule && g.value < least.value-1e-9 {
				least, found = g, true
			}
		}
		if !found {
			continue
		}
		threshold := math.Max(limit.Caution, limit.Fail)
		f := rule(l.rule).Judge(math.Round(least.value*1e6)/1e6, limit, least.fix(threshold-least.value))
		f.Part, f.Detail = p.spec.partName(i), least.where
		all = append(all, f)
	}
	return all
}

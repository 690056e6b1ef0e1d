package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

const (
	printedRz   = 0.1    // mm, upper end of roughness Rz measured on printed walls (Ra 6 to 18 µm: additive.tools)
	smoothing   = 0.4    // share of Rz lost on the diameter (DIN 7190, later edition, as quoted)
	creepMargin = 5.0    // times the bearing's own friction (common practice, no source)
	ballMu      = 0.0015 // friction of a ball bearing (from memory)
	rollerMu    = 0.002  // of a tapered one (from memory)
)

// less asks for what brings a value that follows the pressure below its limit:
// the given interference, or fewer ribs.
func (h *Housing) less(l check.Limit, value, interference float64) string {
	most := strict(check.AtMost, l)
	if h.spec.Fit != CrushRibs {
		return fmt.Sprintf("interference <= %s mm", floor(interference, 0.001))
	}
	if n := int(float64(h.spec.Ribs.Count) * most / value); n >= 3 {
		return fmt.Sprintf("ribs <= %d", n)
	}
	return "a press fit or a slip fit with a cap: three ribs press too hard on this wall"
}

func (h *Housing) strain() check.Finding {
	most := 100 * h.spec.Material.StrainLimit
	value := 100 * h.heldStrain()
	f := h.judge(strainRule, value, check.Limit{Caution: 0.7 * most, Fail: most}, func(l check.Limit) string {
		return h.less(l, value, strict(check.AtMost, l)/100*h.spec.Bearing.Outside)
	})
	f.Detail = fmt.Sprintf("%s mm on %s mm in %s", check.Number(h.deltaMax), check.Number(h.spec.Bearing.Outside), h.spec.Material.Name)
	if h.spec.machined() && f.Remedy != "" {
		f.Remedy = "a looser class such as K7 or H7"
	}
	return f
}

// shrinks returns by how much in mm the plastic closes on the ring at the lowest
// temperature.
func (h *Housing) shrinks() float64 {
	return max(0, (h.spec.Material.Expansion-steelExpansion)*h.spec.Cooling*h.spec.Bearing.Outside)
}

// cold judges the strain at the lowest temperature, where plastic shrinks more
// than steel. Ribs yield instead.
func (h *Housing) cold() []check.Finding {
	if h.spec.Cooling == 0 {
		return nil
	}
	outside, most := h.spec.Bearing.Outside, 100*h.spec.Material.StrainLimit
	shrinks := h.shrinks()
	strain := h.heldStrain()
	if h.spec.Fit != CrushRibs {
		strain = max(0, h.deltaMax+shrinks) / outside
	}
	f := h.judge(coldRule, 100*strain, check.Limit{Caution: check.None, Fail: most}, func(l check.Limit) string {
		bears := strict(check.AtMost, l)/100*outside - shrinks
		switch {
		case h.spec.machined():
			return "a looser class such as K7 or H7, or a tougher material"
		case !h.spec.grips() || bears <= 0:
			return "crush ribs, or a tougher material: the plastic shrinks onto the ring by more than it bears"
		}
		return h.less(l, 100*strain, bears)
	})
	f.Detail = fmt.Sprintf("%s mm more than at 20 °C", check.Number(math.Round(shrinks*1000)/1000))
	return []check.Finding{f}
}

func (h *Housing) stress() check.Finding {
	sigma := h.press.HubHoopBore
	f := h.judge(stressRule, sigma, check.Limit{Caution: check.None, Fail: h.spec.Material.Strength / 2}, func(l check.Limit) string {
		return h.less(l, sigma, h.deltaMax*strict(check.AtMost, l)/sigma)
	})
	if h.spec.machined() && f.Remedy != "" {
		f.Remedy = "a looser class such as K7 or H7"
	}
	return f
}

func (h *Housing) insertion() check.Finding {
	force := h.insertionForce()
	f := h.judge(insertionRule, force, insertionRule.Limit, func(l check.Limit) string {
		if h.spec.Fit == CrushRibs || h.spec.machined() {
			return "fewer ribs or a looser class, or warm the ring"
		}
		// Less interference needs less lead-in, so up to the whole depth grips.
		perMM := force / (h.delta + h.seat.Sigma) * h.seatDepth / max(h.gripLength(), thinnest)
		return fmt.Sprintf("interference <= %s mm, or warm the ring", floor(strict(check.AtMost, l)/perMM-h.seat.Sigma, 0.001))
	})
	f.Detail = "press on the outer ring only, with a disc of its size"
	return f
}

// clearanceLost says what the squeezed ring loses of the bearing's own play.
func (h *Housing) clearanceLost() check.Finding {
	return lostRule.Say(check.Note, 1000*h.press.BoreLoss, "plastic squeezes a steel ring by less than a bearing's play", "")
}

func (h *Housing) scatter() check.Finding {
	return h.judge(scatterRule, h.delta, check.Limit{Caution: h.seat.Sigma, Fail: check.None}, func(l check.Limit) string {
		return h.moreInterference(strict(check.AtLeast, l), "above the printer's scatter", ", or measure the printer with the coupon")
	})
}

// smoothed judges what printed roughness leaves of the interference; ribs are
// squeezed far beyond it.
func (h *Housing) smoothed() check.Finding {
	lost := smoothing * printedRz
	return h.judge(smoothRule, h.delta-lost, smoothRule.Limit, func(l check.Limit) string {
		return h.moreInterference(strict(check.AtLeast, l)+lost, "that roughness leaves something of", "")
	})
}

// moreInterference asks for an interference, unless the plastic would not bear it.
func (h *Housing) moreInterference(least float64, what, otherwise string) string {
	if least > 0.7*h.spec.Material.StrainLimit*h.spec.Bearing.Outside && h.spec.Fit == Press {
		return "a slip fit with a cap or a lip, or crush ribs: an interference " + what + " would strain the plastic too far; or measure the printer with the coupon"
	}
	return fmt.Sprintf("interference >= %s mm%s", ceil(least, 0.001), otherwise)
}

func (h *Housing) left() check.Finding {
	m, diameter := h.spec.Material, h.spec.Bearing.Outside
	heat := 0.0
	if h.spec.HottestC != 0 {
		heat = max(0, (m.Expansion-steelExpansion)*(h.spec.HottestC-20)*diameter)
	}
	wet := m.Moisture * diameter
	f := h.judge(leftRule, h.delta-heat-wet, leftRule.Limit, func(l check.Limit) string {
		need := strict(check.AtLeast, l) + heat + wet
		if need > 0.7*m.StrainLimit*diameter {
			return "hold the bearing by a cap or by a load that presses into the seat, or take a material that grows less"
		}
		return fmt.Sprintf("interference >= %s mm, or a cap", ceil(need, 0.001))
	})
	f.Detail = fmt.Sprintf("heat takes %s mm, moisture %s mm", check.Number(heat), check.Number(wet))
	if f.Verdict == check.Caution && h.spec.Load.Axial < 0 && h.spec.Lip == nil && h.spec.Cap == nil {
		f.Verdict = check.Fail
	}
	return f
}

// crushed judges how much of their height the ribs lose.
func (h *Housing) crushed() check.Finding {
	share := h.delta / 2 / h.spec.Ribs.Height
	return h.judge(crushRule, share, crushRule.Limit, func(l check.Limit) string {
		return fmt.Sprintf("rib height of %s mm or more", ceil(h.delta/2/strict(check.AtMost, l), 0.001))
	})
}

func (h *Housing) retained() check.Finding {
	const hold = "hold it by a lip, a screwed cap or a load that presses into the seat"
	value := h.leastRetention()*creepFactor + h.lipForce()
	pull := -h.spec.Load.Axial
	switch {
	case h.spec.Clamp != nil:
		return h.clamped(pull)
	case h.spec.Cap != nil:
		return retentionRule.Say(check.Pass, value, fmt.Sprintf("the cap holds it with %d screws; the value is friction alone", h.spec.Cap.Count), "")
	case pull < 0:
		return retentionRule.Say(check.Pass, value, "the load presses into the seat", "")
	case pull == 0 && h.spec.Lip != nil:
		return retentionRule.Say(check.Pass, value, "the lip holds it", "")
	case pull == 0:
		f := retentionRule.Say(check.Caution, value, "no load is known to press into the seat; a press fit in plastic alone is not a retention", hold)
		if h.spec.Fit == Slip {
			f.Detail = "no load is known to press into the seat; a slip fit holds nothing"
		}
		return f
	}
	own := h.spec.Limits.Of(retentionRule)
	limit := check.Limit{Caution: own.Caution * pull, Fail: own.Fail * pull}
	f := retentionRule.Judge(value, limit, hold)
	if h.leastRetention() == 0 && h.retention() > 0 {
		f.Detail = fmt.Sprintf("the printer's scatter of %s mm may take all of the interference", check.Number(h.seat.Sigma))
		f.Remedy += ", or measure the printer with the coupon"
	}
	if f.Verdict == check.Pass && h.spec.Lip != nil && h.leastRetention()*creepFactor < limit.Caution {
		f.Verdict, f.Remedy = check.Caution, "hold what pulls out by a screwed cap"
		f.Detail = "the lip rides on the ring's rounded corner: it keeps the ring in, it does not carry a load"
	}
	return f
}

// clamped judges a clamp against a pull in N. Nobody knows the tension of its
// screw, so that no pull passes.
func (h *Housing) clamped(pull float64) check.Finding {
	const test = "test it with the load before it is shown, or hold it by a screwed cap or a load that presses into the seat"
	value := h.retention() * creepFactor
	guess := fmt.Sprintf("an estimate: the screw turned tight by hand pulls %s N, of which closing the slit takes %s N", check.Number(math.Round(h.clampTension())), tenth(h.clampClosing()))
	if pull <= 0 {
		return retentionRule.Say(check.Pass, value, "the clamp grips it; "+guess, "")
	}
	own := h.spec.Limits.Of(retentionRule)
	f := retentionRule.Judge(value, check.Limit{Caution: own.Caution * pull, Fail: own.Fail * pull}, test)
	if f.Verdict == check.Pass {
		f.Verdict, f.Remedy = check.Caution, test
	}
	f.Detail = guess
	return f
}

// ringCreep judges whether the relaxed fit keeps the outer ring from turning with
// the bearing's own friction. Nothing is judged without a load or a fit.
func (h *Housing) ringCreep() []check.Finding {
	l, b := h.spec.Load, h.spec.Bearing
	load := math.Hypot(l.Axial, l.Radial)
	if load == 0 || h.deltaMax <= 0 {
		return nil
	}
	mu := ballMu
	if b.Kind == Tapered {
		mu = rollerMu
	}
	holds := h.retention() * creepFactor * b.Outside / 2
	drags := mu * load * b.Bore / 2
	return []check.Finding{h.judge(ringCreepRule, holds/drags, ringCreepRule.Limit, func(check.Limit) string {
		return "more interference, crush ribs, or a cap that clamps the ring"
	})}
}

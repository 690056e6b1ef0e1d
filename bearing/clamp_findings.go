package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
)

// screwReach returns the shortest and the longest screw in mm, under the head,
// that holds in the far ear or its nut and does not stand out beyond it.
func (c Clamp) screwReach() (least, most float64) {
	least, most = c.Thickness+c.Slit+2*c.Screw.Diameter, 2*c.Thickness+c.Slit
	if c.Nut {
		least = c.Thickness + c.Slit + (c.Thickness+c.nutSlot())/2
	}
	return least, most
}

func (h *Housing) clampFindings() []check.Finding {
	c := h.spec.Clamp
	if c == nil {
		return nil
	}
	closing := h.spec.closing()
	slit := h.judge(clampSlitRule, c.Slit-closing, clampSlitRule.Limit, func(l check.Limit) string {
		return fmt.Sprintf("slit width >= %s mm", ceil(closing+strict(check.AtLeast, l), 0.001))
	})
	slit.Detail = fmt.Sprintf("the seat grips when the slit of %s mm has closed by %s mm, at worst by %s mm",
		check.Number(c.Slit), hundredth(math.Pi*h.spec.Card.Slip()), hundredth(closing))
	plastic, parts := c.Thickness, 1.0
	if c.Nut {
		plastic, parts = (c.Thickness-c.nutSlot())/2, 2
	}
	ear := h.judge(earRule, plastic, check.Limit{Caution: h.spec.earWall(), Fail: 2 * h.spec.Card.BeadWidth}, func(l check.Limit) string {
		return h.thicker(parts*strict(check.AtLeast, l)+c.nutSlot(), "a smaller screw")
	})
	p := h.clamp
	room := min(p.end-p.axis, p.height, h.Height()-p.height)
	edge := h.judge(edgeRule, room/c.Screw.Diameter, edgeRule.Limit, func(check.Limit) string { return "a smaller screw, or a thicker shoulder" })
	edge.Detail = "clamp screw to the end of the ears, the bed side and the mouth"
	found := []check.Finding{slit, ear, edge}
	if !c.Nut {
		found = append(found, h.judge(threadRule, c.Thickness/c.Screw.Diameter, threadRule.Limit, func(l check.Limit) string {
			return h.thicker(strict(check.AtLeast, l)*c.Screw.Diameter, "a captive nut")
		}))
	}
	return append(found, h.reached())
}

// reached judges whether screws in steps of 2 mm have one that reaches.
func (h *Housing) reached() check.Finding {
	c := *h.spec.Clamp
	spare, length := c.spareReach()
	f := h.judge(screwReachRule, spare, screwReachRule.Limit, func(l check.Limit) string {
		thicker := c
		for spare := spare; spare < strict(check.AtLeast, l); spare, _ = thicker.spareReach() {
			thicker.Thickness += h.spec.Card.BeadWidth
			if thicker.Thickness > h.OutsideDiameter() {
				break
			}
		}
		return h.thicker(thicker.Thickness, "a screw cut to length")
	})
	least, most := c.screwReach()
	f.Detail = fmt.Sprintf("%s x %s mm; any length from %s to %s mm serves", c.Screw.Size, check.Number(length), hundredth(least), hundredth(most))
	return f
}

// spareReach returns the longest screw in steps of 2 mm that does not stand out,
// and by how much in mm it is longer than it must be.
func (c Clamp) spareReach() (spare, length float64) {
	least, most := c.screwReach()
	length = 2 * math.Floor(most/2+1e-9)
	return length - least, length
}

// thicker asks for ears of a thickness in mm, or for something else where the
// tube has no room for them.
func (h *Housing) thicker(least float64, otherwise string) string {
	ears := math.Ceil(h.spec.wholeBeads(least)*1000-1e-6) / 1000
	if h.spec.Clamp.Slit/2+ears >= h.OutsideDiameter()/2 {
		return otherwise
	}
	return fmt.Sprintf("ear thickness >= %s mm, or %s", check.Number(ears), otherwise)
}

func hundredth(v float64) string { return check.Number(math.Round(v*100) / 100) }

func (h *Housing) clampFits() []fit.Fit {
	if h.spec.Clamp == nil {
		return nil
	}
	return []fit.Fit{h.clamp.hole, h.clamp.thread}
}

func (h *Housing) clampValues(v map[string]any) {
	c := h.spec.Clamp
	if c == nil {
		return
	}
	least, most := c.screwReach()
	v["slit_width"], v["slit_closes"], v["ear_thickness"] = c.Slit, math.Pi*h.spec.Card.Slip(), c.Thickness
	v["screw_size"], v["screw_count"], v["captive_nut"] = c.Screw.Size, 1, c.Nut
	v["screw_axis"], v["screw_height"], v["ears_reach"] = h.clamp.axis, h.clamp.height, h.clamp.end
	v["clamp_tension"], v["clamp_closing_force"] = h.clampTension(), h.clampClosing()
	v["screw_length_min"], v["screw_length_max"] = least, most
}

// clampSteps says how the clamp is closed.
func (h *Housing) clampSteps() []string {
	c := h.spec.Clamp
	if c == nil {
		return nil
	}
	into := "into the pilot hole of the far ear: it cuts its thread there"
	if c.Nut {
		into = "into the nut, slid into its slot from the mouth"
	}
	return []string{
		fmt.Sprintf("Turn the %s clamp screw %s, until the ring no longer turns by hand: the slit of %s mm closes by about %s mm; no further",
			c.Screw.Size, into, check.Number(c.Slit), hundredth(math.Pi*h.spec.Card.Slip())),
		"The plastic settles: tighten the clamp screw again after 24 hours",
	}
}

var (
	clampSlitRule = check.Rule{
		Name: "clamp-slit", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: 0.5, Fail: 0},
		Meaning: "What stays open of a clamp's slit when the seat grips the ring, the seat being larger by two standard uncertainties. Without it the ears meet and the ring stays loose.",
		Formula: "slit - pi (slip clearance + 2 sigma): the seat's circumference shrinks by that",
		Source:  "geometry; 0.5 mm: " + check.CommonPractice, Change: "a wider slit, or a measured printer card",
	}
	earRule = check.Rule{
		Name: "ear-thickness", Unit: "mm", Sense: check.AtLeast,
		Meaning: "Plastic of a clamp's ear along its screw; with a captive nut on either side of the nut.",
		Formula: "ear, or (ear - nut slot) / 2; limits max(4 beads, d) and 2 beads",
		Source:  check.CommonPractice, Change: "thicker ears or a smaller screw",
	}
	screwReachRule = check.Rule{
		Name: "screw-reach", Unit: "mm", Sense: check.AtLeast, Limit: check.Limit{Caution: 0, Fail: check.None},
		Meaning: "How much longer than it must be the longest screw is that does not stand out of the far ear, of lengths in steps of 2 mm.",
		Formula: "longest even length <= 2 ears + slit, less ear + slit + 2 d, or less the far side of the nut",
		Source:  "geometry; thread of 2 d: " + check.CommonPractice, Change: "thicker ears, or cut the screw to length",
	}
)

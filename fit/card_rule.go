package fit

import (
	"fmt"

	"pintle/check"
)

// Rules about where a card's numbers come from and what they are used for.
var (
	RuleMismatch = check.Rule{
		Name: "card-mismatch", Meaning: "The printer card was measured with another material, nozzle or way up than the parts are printed with.",
		Formula: "what the card states against what the joint file asks for", Source: check.CommonPractice,
		Change: "print the coupon with that material, nozzle and orientation, or name the card that fits", Sense: check.Informs,
		Limit: check.Limit{Caution: check.None, Fail: check.None},
	}
	RuleFromCard = check.Rule{
		Name: "from-card", Unit: "mm", Meaning: "A fit follows what was tried on the coupon, since the joint file does not say.",
		Formula: "slip clearance, interference (at the same hoop strain), backlash or least web of the printer card", Source: "the printer card",
		Change: "give the value in the joint file", Sense: check.Informs,
		Limit: check.Limit{Caution: check.None, Fail: check.None},
	}
)

// Mismatch returns a caution where the card states another material, nozzle in
// mm or orientation than is asked for; false where they agree or nobody said.
func (c Card) Mismatch(part, material string, nozzle float64, orientation string) (check.Finding, bool) {
	var detail string
	switch {
	case c.Material != "" && material != "" && c.Material != material:
		detail = fmt.Sprintf("card %s was measured with %s, this is printed with %s", c.Name, c.Material, material)
	case c.Nozzle > 0 && nozzle > 0 && c.Nozzle != nozzle:
		detail = fmt.Sprintf("card %s was measured with a nozzle of %s mm, this is printed with %s mm", c.Name, check.Number(c.Nozzle), check.Number(nozzle))
	case c.Orientation != "" && orientation != "" && c.Orientation != orientation:
		detail = fmt.Sprintf("card %s was measured with axes %s, this is printed %s", c.Name, c.Orientation, orientation)
	default:
		return check.Finding{}, false
	}
	f := RuleMismatch.Say(check.Caution, 0, detail, RuleMismatch.Change)
	f.Part = part
	return f, true
}

package joint

import (
	"fmt"
	"math"

	"pintle/check"
)

// warn adds the cautions that a linkage calls for.
func (l *linked) warn(applies map[string]string) {
	when := map[string]string{
		"C3": "load." + l.table.Load + " is held up by the servo",
		"C4": "servo." + l.table.Servo + " moves it",
		"C6": l.design() + ": the servo's share",
	}
	for _, code := range l.stroke.Cautions() {
		if applies[code] == "" {
			applies[code] = when[code]
			if when[code] == "" {
				applies[code] = l.design()
			}
		}
	}
	applies["C1"] = l.design() + " moves"
}

// barRemedies says in sizes of a printed bar what keeps it from bowing: the load
// at which it does grows with the cube of its thinner side.
func (b *builder) barRemedies(l *linked, findings []check.Finding) []check.Finding {
	if l.table.Rod.Kind == "threaded" {
		return findings
	}
	changed := append([]check.Finding{}, findings...)
	for i, f := range changed {
		if f.Check != "rod-buckling" || f.Verdict == check.Pass {
			continue
		}
		rule, err := RuleNamed(f.Check)
		if err != nil {
			panic("joint: " + err.Error())
		}
		limit := b.file.Limits.Of(rule)
		width, thick := chosen(l.table.Rod.Width, linkWidth), chosen(l.table.Rod.Thickness, barThickness)
		for size := math.Ceil(thick*5) / 5; thick <= width && size <= width; size += 0.2 {
			if grown := size / thick; f.Value/(grown*grown*grown) <= limit.Caution {
				changed[i].Remedy = fmt.Sprintf("rod = { length = %s, thickness = %s }, or a shorter rod, or a longer horn", check.Number(l.table.Rod.Length), check.Number(size))
				break
			}
		}
	}
	return changed
}

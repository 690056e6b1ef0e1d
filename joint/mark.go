package joint

import (
	"fmt"

	"pintle/check"
	"pintle/geom"
	"pintle/geom/lettering"
)

// markRise is how far letters stand up, in mm: three usual layers (common
// practice, no source).
const markRise = 0.6

var ruleMark = check.Rule{
	Name: "part-mark", Symbol: "h", Unit: "mm",
	Meaning: "The raised name on a part must be large enough to read and fit beside its holes.",
	Formula: "cap height: what the bead can draw, at most what the rim leaves",
	Source:  "raised lettering of printed parts, as collected in testdata/ref; the rest common practice, no source",
	Change:  "give the joint a shorter name",
	Sense:   check.Informs,
}

// mark raises the part's name and the centre distance, or the name alone, on the
// plate's top along the rim where nothing else stands: whoever finds the plate in
// a drawer knows what it is and which side is up.
func (p *plate) mark(centre geom.Point, length, width, inset float64) error {
	s := p.spec
	height := max(lettering.LeastHeight(s.card.BeadWidth), min(inset, 6))
	room := length - 6*inset // between the corner screws' heads
	for _, text := range []string{
		fmt.Sprintf("%s-plate a %.2f", s.name, s.centreDistance), s.name + "-plate", s.name,
	} {
		letters, wide, err := lettering.Text(text, height, geom.ChordPlain)
		if err != nil || wide > room || height > 1.6*inset {
			continue
		}
		at := geom.Point{X: centre.X - wide/2, Y: centre.Y - width/2 + inset - height/2}
		p.part, err = p.part.With(s.thickness, s.thickness+markRise, lettering.Place(letters, at, 0)...)
		p.findings = append(p.findings, ruleMark.Say(check.Pass, height, "raised: "+text, ""))
		return err
	}
	p.findings = append(p.findings, ruleMark.Say(check.Note, height, "no room for a name that can be read: the plate bears none", ruleMark.Change))
	return nil
}

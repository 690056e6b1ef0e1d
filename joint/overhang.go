package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

var ruleOverhang = check.Rule{
	Name: "overhang", Unit: "mm",
	Meaning: "Level faces that hang over air as the part lies in its file, bed side down: a printer draws short ones across the gap, wider ones sag or need support.",
	Formula: "widest such face: the diameter of a disc, the width of a ring, the shorter side of the box around it",
	Source:  "10 mm: " + check.CommonPractice, Change: "print with support under that face, or turn the part over where nothing else then hangs",
	Sense: check.AtMost, Limit: check.Limit{Caution: 10, Fail: check.None},
}

// overhang judges the widest level face of a part that hangs over air.
func (b *builder) overhang(part geom.Part) check.Finding {
	var widest geom.Overhang
	faces := part.Overhangs()
	for _, o := range faces {
		if o.Span > widest.Span {
			widest = o
		}
	}
	f := ruleOverhang.Judge(math.Round(widest.Span*100)/100, b.file.Limits.Of(ruleOverhang), ruleOverhang.Change)
	if len(faces) > 0 {
		f.Detail = fmt.Sprintf("%d level faces look down over air, the widest %s mm above the bed", len(faces), check.Number(math.Round(widest.Height*100)/100))
	}
	return f
}

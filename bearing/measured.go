package bearing

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
)

// Sizes are what a builder measured on a bearing, in mm; zero was not measured.
type Sizes struct {
	Bore, Outside, Width float64 // Width overall
	ConeWidth, CupWidth  float64 // of a tapered bearing; CupWidth also of a housing washer
	WasherBore           float64 // of a thrust bearing's housing washer
}

// Measured replaces a row's sizes by measured ones. A size more than 0.2 mm from
// the named row gives a caution that says what the bearing looks like; the
// measured size is kept. Sizes without a row give a note where they come near to
// one. It returns a *check.FieldError for sizes no bearing has.
func Measured(b Bearing, sizes Sizes, limits check.Limits) (Bearing, []check.Finding, error) {
	if b.Kind == "" {
		b.Kind = Unknown
	}
	named := b
	var off float64
	var strays []string
	for _, s := range []struct {
		what     string
		measured float64
		size     *float64
	}{
		{"bore", sizes.Bore, &b.Bore},
		{"outside diameter", sizes.Outside, &b.Outside},
		{"width", sizes.Width, &b.Width},
		{"cone width", sizes.ConeWidth, &b.ConeWidth},
		{"cup width", sizes.CupWidth, &b.CupWidth},
		{"housing washer bore", sizes.WasherBore, &b.WasherBore},
	} {
		if s.measured == 0 { // NaN falls through to Validate
			continue
		}
		difference := math.Abs(s.measured - *s.size)
		if *s.size != 0 && !math.IsNaN(difference) {
			off = max(off, difference)
			if difference > limits.Of(measuredRule).Caution {
				strays = append(strays, fmt.Sprintf("%s %s mm, table %s", s.what, check.Number(s.measured), check.Number(*s.size)))
			}
		}
		*s.size = s.measured
		b.Measured = true
	}
	b.BoreMeasured = b.BoreMeasured || sizes.Bore != 0
	if err := b.Validate(); err != nil {
		return Bearing{}, nil, err
	}
	switch {
	case !b.Measured:
		return b, nil, nil
	case named.Designation == "":
		return b, b.resembles(), nil
	}
	remedy := "measure again; the measured sizes are used"
	if near, _ := Nearest(b.Bore, b.Outside, b.Width); near.Designation != named.Designation {
		if text := LooksLike(b); text != "" {
			remedy = fmt.Sprintf("it %s: name that one, or measure again; the measured sizes are used", text)
		}
	}
	f := measuredRule.Judge(off, limits.Of(measuredRule), remedy)
	f.Detail = strings.Join(strays, "; ")
	if f.Verdict != check.Pass {
		b = b.withoutAbutment(named)
	}
	return b, []check.Finding{f}, nil
}

// resembles says which row a bearing known by its sizes comes near to, if any.
func (b Bearing) resembles() []check.Finding {
	text := LooksLike(b)
	if text == "" {
		return nil
	}
	_, off := Nearest(b.Bore, b.Outside, b.Width)
	return []check.Finding{measuredRule.Say(check.Note, off, "it "+text+"; the measured sizes are used", "name it, if it is one")}
}

// withoutAbutment drops limits that belong to another bearing: a bearing whose
// bore or outside diameter strays is not the one they were printed for.
func (b Bearing) withoutAbutment(named Bearing) Bearing {
	if math.Abs(b.Bore-named.Bore) > 0.2 || math.Abs(b.Outside-named.Outside) > 0.2 {
		b.Abutment = Abutment{}
	}
	return b
}

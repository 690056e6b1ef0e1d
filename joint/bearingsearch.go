package joint

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"pintle/bearing"
	"pintle/check"
	"pintle/quantity"
)

// How far in mm a row may be from the sizes asked for: read with a caliper on a
// cheap or worn bearing, or "about" (common practice, no source).
const (
	caliperReading = 0.3
	roughReading   = 1.0
)

// SearchBearings returns the rows of the dimension table that a text asks for:
// a designation or its beginning ("608"), a kind ("tapered"), two or three sizes
// ("8x22x7", "0.25in x 0.625in") or one ("bore 8", "outside 22mm"; "22" is either
// of them), less exactly after "about"; all rows for an empty text. Sizes are in
// mm or have a unit, and the closest row comes first. Where no row is found the
// second result is the one that comes closest, if there is one. The error is a
// *quantity.Error or *check.FieldError for sizes that cannot be read.
func SearchBearings(text string) ([]bearing.Bearing, *bearing.Bearing, error) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	found := bearingsNamed(text)
	if _, known := bearing.Find(text); known {
		return found, nil, nil
	}
	wanted, isSizes, err := sizesIn(text)
	if err != nil {
		return nil, nil, err
	}
	if isSizes {
		for _, b := range wanted.sorted() {
			if wanted.off(b) <= wanted.tolerance {
				found = append(found, b)
			}
		}
	}
	switch {
	case len(found) > 0:
		return found, nil, nil
	case isSizes:
		return nil, &wanted.sorted()[0], wanted.inInches(text)
	}
	return nil, nearestBearing(text), nil
}

// bearingsNamed returns the row of a designation, then those whose designation
// begins with the text or whose kind has it.
func bearingsNamed(text string) []bearing.Bearing {
	var found []bearing.Bearing
	one, known := bearing.Find(text)
	if known {
		found = append(found, one)
	}
	for _, b := range bearing.All() {
		begins := len(text) != 1 && strings.HasPrefix(strings.ToLower(b.Designation), text)
		if (begins || len(text) > 2 && strings.Contains(string(b.Kind), text)) && !(known && b == one) {
			found = append(found, b)
		}
	}
	return found
}

func nearestBearing(text string) *bearing.Bearing {
	var designations []string
	for _, b := range bearing.All() {
		designations = append(designations, b.Designation)
	}
	if name, ok := Nearest(strings.ToUpper(text), designations); ok {
		if b, ok := bearing.Find(name); ok {
			return &b
		}
	}
	return nil
}

// bearingSizes are sizes in mm to look for; zero is any. either is bore or
// outside diameter.
type bearingSizes struct{ bore, outside, width, either, tolerance float64 }

// sizesIn reads sizes, and says whether the text has any.
func sizesIn(text string) (wanted bearingSizes, ok bool, err error) {
	wanted.tolerance = caliperReading
	rest, about := strings.CutPrefix(text, "about ")
	if about {
		wanted.tolerance = roughReading
	}
	for _, one := range []struct {
		word string
		to   *float64
	}{{"bore ", &wanted.bore}, {"outside ", &wanted.outside}, {"width ", &wanted.width}} {
		if size, ok := strings.CutPrefix(rest, one.word); ok {
			return wanted, true, readSizes(text, []string{size}, one.to)
		}
	}
	parts := strings.Split(strings.ReplaceAll(rest, "×", "x"), "x")
	if len(parts) > 1 && strings.IndexAny(rest, "0123456789.") == 0 {
		return wanted, true, readSizes(text, parts, &wanted.bore, &wanted.outside, &wanted.width)
	}
	err = readSizes(text, parts, &wanted.either)
	if !about && (err != nil || wanted.either > bearing.MaxOutside) {
		return wanted, false, nil // it may be a designation
	}
	return wanted, true, err
}

// readSizes reads as many lengths as there are parts.
func readSizes(text string, parts []string, to ...*float64) error {
	if len(parts) > len(to) {
		return &check.FieldError{
			Field: "bearing", Text: text, Reason: fmt.Sprintf("has %d sizes", len(parts)),
			Remedy: "give bore, outside diameter and width as 8x22x7",
		}
	}
	for i, part := range parts {
		size, err := quantity.Length.Parse(part)
		if err != nil {
			return err
		}
		if err := check.Positive("bearing size", size, "mm", "measure with a caliper"); err != nil {
			return err
		}
		*to[i] = size
	}
	return nil
}

// inInches returns a *check.FieldError for sizes that are no bearing's in mm, but
// one's in inches.
func (w bearingSizes) inInches(text string) error {
	const perInch = 25.4
	in := w
	for _, size := range []*float64{&in.bore, &in.outside, &in.width, &in.either} {
		*size *= perInch
	}
	row := in.sorted()[0]
	if in.off(row) > in.tolerance {
		return nil
	}
	return &check.FieldError{
		Field: "bearing", Text: text, Reason: fmt.Sprintf("matches nothing in mm, but in inches a %s", row.Designation),
		Remedy: "write the unit: 0.25in x 0.625in",
	}
}

// off returns the largest difference of a row from what is wanted, in mm.
func (w bearingSizes) off(b bearing.Bearing) float64 {
	off := 0.0
	for _, pair := range [][2]float64{{w.bore, b.Bore}, {w.outside, b.Outside}, {w.width, b.Width}} {
		if pair[0] != 0 {
			off = max(off, math.Abs(pair[0]-pair[1]))
		}
	}
	if w.either != 0 {
		off = max(off, min(math.Abs(w.either-b.Bore), math.Abs(w.either-b.Outside)))
	}
	return off
}

// sorted returns all rows, the closest first; of equals the one seen in a
// source, then that of the table's order.
func (w bearingSizes) sorted() []bearing.Bearing {
	rows := bearing.All()
	slices.SortStableFunc(rows, func(a, b bearing.Bearing) int {
		recalled := func(row bearing.Bearing) int {
			if row.Provenance == bearing.Memory {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(w.off(a), w.off(b)), cmp.Compare(recalled(a), recalled(b)))
	})
	return rows
}

package bearing

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"pintle/check"
)

// Deviations are the limits of a size in µm from the nominal one, as ISO 286
// prints them.
type Deviations struct{ Lower, Upper float64 }

// ToleranceClass returns the limits of a tolerance class of ISO 286 such as N7
// (a bore) or h6 (a shaft) for a nominal size in mm, and whether it is a bore's.
// Known are F, G, H, JS, J, K, M, N, P, R, S and f, g, h, js, j, k, m, n, p, r, s
// in the grades 4 to 12 where the standard has them, up to 250 mm. It returns a
// *check.FieldError for anything else.
func ToleranceClass(class string, size float64) (d Deviations, bore bool, err error) {
	parts := classPattern.FindStringSubmatch(class)
	if parts == nil {
		return d, false, unknownClass(class, "is no tolerance class that is known here")
	}
	const remedy = "the table of tolerances ends at 250 mm"
	if err := check.InRange("nominal size", size, "mm", 0.1, 250, remedy); err != nil {
		return d, false, err
	}
	grade, _ := strconv.Atoi(parts[2]) // digits only
	column := slices.IndexFunc(sizeRanges[:], func(most float64) bool { return size <= most })
	c := cell{column: column, fine: fineColumn(size), grade: grade, tolerance: tolerances[grade][column]}
	letter := parts[1]
	bore = letter[0] < 'a'
	ok := false
	if bore {
		d, ok = c.bore(letter)
	} else {
		d, ok = c.shaft(letter)
	}
	if !ok {
		return d, bore, unknownClass(class, "does not exist in that grade")
	}
	return d, bore, nil
}

var classPattern = regexp.MustCompile(`^(F|G|H|JS|J|K|M|N|P|R|S|f|g|h|js|j|k|m|n|p|r|s)([4-9]|1[0-2])$`)

func unknownClass(class, reason string) error {
	return &check.FieldError{
		Field: "fit", Text: class, Reason: reason,
		Remedy: "use H7 (slides), J7 or K7 (between), M7 or N7 (grips), P7 (thin wall) in a housing; g6, h6, j6, k6 on a shaft",
	}
}

// A cell is one place in the tables of ISO 286: a column of sizes and a grade.
type cell struct {
	column, fine, grade int
	tolerance           float64
}

// shaft returns the limits of a shaft: f, g and h end at their deviation, k to s
// begin at it.
func (c cell) shaft(letter string) (Deviations, bool) {
	it := c.tolerance
	switch letter {
	case "h":
		return Deviations{-it, 0}, true
	case "js":
		return symmetric(it), true
	case "f":
		return Deviations{-deviationF[c.column] - it, -deviationF[c.column]}, true
	case "g":
		return Deviations{-deviationG[c.column] - it, -deviationG[c.column]}, true
	case "j":
		lower, ok := deviationJ[c.grade]
		if !ok {
			return Deviations{}, false
		}
		return Deviations{lower[c.column], lower[c.column] + it}, true
	}
	lower := c.grips(letter)
	if letter == "k" && (c.grade < 4 || c.grade > 7) {
		lower = 0
	}
	return Deviations{lower, lower + it}, true
}

// bore returns the limits of a bore: F, G and H mirror the shaft. K, M, N up to
// grade 8 and P, R, S up to grade 7 end at -ei + (IT n - IT n-1), so that a bore
// fits a shaft one grade finer as in the basic-shaft system; coarser grades at
// -ei, N at 0.
func (c cell) bore(letter string) (Deviations, bool) {
	it := c.tolerance
	switch letter {
	case "H":
		return Deviations{0, it}, true
	case "JS":
		return symmetric(it), true
	case "F":
		return Deviations{deviationF[c.column], deviationF[c.column] + it}, true
	case "G":
		return Deviations{deviationG[c.column], deviationG[c.column] + it}, true
	case "J":
		upper, ok := deviationBoreJ[c.grade]
		if !ok {
			return Deviations{}, false
		}
		return Deviations{upper[c.column] - it, upper[c.column]}, true
	}
	finest := 8
	if letter >= "P" {
		finest = 7
	}
	upper := -c.grips(map[string]string{"K": "k", "M": "m", "N": "n", "P": "p", "R": "r", "S": "s"}[letter])
	switch {
	case c.grade > finest && letter == "K":
		return Deviations{}, false
	case c.grade > finest && letter == "N":
		upper = 0
	case c.grade <= finest && c.column > 0 && c.grade > 4:
		upper += it - tolerances[c.grade-1][c.column]
	case c.grade == 4 && c.column > 0:
		return Deviations{}, false // needs IT3, which is not in the table
	}
	return Deviations{upper - it, upper}, true
}

func symmetric(it float64) Deviations { return Deviations{-it / 2, it / 2} }

// grips returns the lower deviation of the shafts k to s.
func (c cell) grips(letter string) float64 {
	switch letter {
	case "k":
		return deviationK[c.column]
	case "m":
		return deviationM[c.column]
	case "n":
		return deviationN[c.column]
	case "p":
		return deviationP[c.column]
	case "r":
		return deviationR[c.fine]
	}
	return deviationS[c.fine]
}

func fineColumn(size float64) int {
	return slices.IndexFunc(fineRanges[:], func(most float64) bool { return size <= most })
}

// A ResultantFit is the play in µm between a bearing of normal class (ISO 492)
// and a part of a tolerance class: positive is clearance, negative interference.
type ResultantFit struct{ Tightest, Loosest float64 }

// FitInHousing returns what an outer ring of the diameter in mm meets in a bore
// of the class. The error is ToleranceClass's, or a *check.FieldError for sizes
// that ISO 492 does not have here.
func FitInHousing(class string, outside float64) (ResultantFit, error) {
	d, bore, err := ToleranceClass(class, outside)
	if err != nil {
		return ResultantFit{}, err
	}
	if !bore {
		return ResultantFit{}, unknownClass(class, "is the class of a shaft, not of a bore")
	}
	ring, err := normalClass(outsideTolerance[:], "bearing outside diameter", outside)
	return ResultantFit{Tightest: d.Lower, Loosest: d.Upper - ring}, err
}

// FitOnShaft returns what a bore of the diameter in mm meets on a shaft of the
// class. Errors are as those of FitInHousing.
func FitOnShaft(class string, bore float64) (ResultantFit, error) {
	d, isBore, err := ToleranceClass(class, bore)
	if err != nil {
		return ResultantFit{}, err
	}
	if isBore {
		return ResultantFit{}, unknownClass(class, "is the class of a bore, not of a shaft")
	}
	ring, err := normalClass(boreTolerance[:], "bearing bore", bore)
	return ResultantFit{Tightest: ring - d.Upper, Loosest: -d.Lower}, err
}

// normalClass returns the lower deviation of a bearing's bore or outside
// diameter; the upper one is 0.
func normalClass(table []rangeOf, field string, size float64) (float64, error) {
	for _, row := range table {
		if size > row.over && size <= row.upTo || size == row.over && row == table[0] {
			return row.lower, nil
		}
	}
	return 0, &check.FieldError{
		Field: field, Value: size, Unit: "mm",
		Reason: fmt.Sprintf("is outside the table of bearing tolerances, %s to %s mm", check.Number(table[0].over), check.Number(table[len(table)-1].upTo)),
		Remedy: "use a press or slip fit",
	}
}

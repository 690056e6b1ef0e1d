package bearing

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"pintle/check"
)

// table is compact; testdata/ref/bearings.csv has the same rows with sources.
//
//go:embed table.csv
var table string

var rows = sync.OnceValue(func() []Bearing {
	records, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		panic("bearing: the table of bearings cannot be read: " + err.Error())
	}
	all := make([]Bearing, 0, len(records)-1)
	for _, r := range records[1:] {
		all = append(all, row(r))
	}
	return all
})

func row(cells []string) Bearing {
	last := len(cells) - 1
	var v [21]float64
	for i := 2; i < last; i++ {
		if cells[i] == "" {
			continue
		}
		x, err := strconv.ParseFloat(cells[i], 64)
		if err != nil {
			panic("bearing: row " + cells[0] + " of the table: " + err.Error())
		}
		v[i] = x
	}
	return Bearing{
		Designation: cells[0], Kind: Kind(cells[1]), Bore: v[2], Outside: v[3], Width: v[4],
		ConeWidth: v[5], CupWidth: v[6], RMin: v[7], E: v[8], Y: v[9], Y0: v[10], LoadCentre: v[11], C: v[12], C0: v[13],
		Abutment: Abutment{
			DaShaftMin: v[14], DbShaftMax: v[15], DaHousingMax: v[16], DaHousingMin: v[17], DbHousingMin: v[18], Sa: v[19], Sb: v[20],
		},
		Provenance: cells[last],
	}
}

// All returns the table in its own order: deep groove, tapered, thrust ball,
// inch sizes; light series first, small bores first.
func All() []Bearing { return append([]Bearing(nil), rows()...) }

// Find returns the row of a designation. Case and spaces do not matter. Suffixes
// for shields, seals, cage and clearance are dropped ("608-2RS" is 608) except
// where a shielded row stands in the table (R3ZZ); the four-figure and
// three-figure forms of the thin series are known (6800 is 61800, 693 is 619/3).
func Find(designation string) (Bearing, bool) {
	for _, form := range forms(designation) {
		for _, b := range rows() {
			if form == b.Designation {
				return b, true
			}
		}
	}
	return Bearing{}, false
}

// forms returns the ways a designation may stand in the table, best first.
func forms(designation string) []string {
	words := strings.Fields(strings.ToUpper(designation))
	if len(words) == 0 {
		return nil
	}
	name := strings.Join(words, "")
	bare := figures(words[0])
	if rest := strings.TrimLeft(name[len(bare):], "-"); isUnit(rest) {
		return nil
	}
	forms := []string{name, strings.ReplaceAll(name, "-", "")}
	for _, seal := range []string{"ZZ", "2RS", "2Z"} {
		if strings.Contains(name, seal) {
			forms = append(forms, bare+"ZZ")
		}
	}
	forms = append(forms, bare)
	for _, seal := range []string{"2RS", "2Z"} { // written together: 62042RS
		if before, _, cut := strings.Cut(name, seal); cut {
			forms = append(forms, before)
		}
	}
	for _, form := range forms {
		forms = append(forms, thinSeries(form))
	}
	return forms
}

// isUnit says whether what follows the figures is a unit or a word, not the
// letters for seals, cage and clearance: "608 in" is no bearing.
func isUnit(rest string) bool {
	letters := strings.IndexFunc(rest, func(r rune) bool { return r < 'A' || r > 'Z' }) < 0
	return rest == "IN" || rest == "MM" || rest == "CM" || rest == "INCH" || letters && len(rest) > 4
}

// figures cuts a designation after its figures, and after the A of R4A.
func figures(name string) string {
	start := len(name) - len(strings.TrimPrefix(name, "R"))
	end := start
	for end < len(name) && (name[end] >= '0' && name[end] <= '9' || name[end] == '/') {
		end++
	}
	if start == 1 && end < len(name) && name[end] == 'A' {
		end++
	}
	return name[:end]
}

// thinSeries turns 683 into 618/3 and 6800 into 61800, likewise 69 (numbering
// rule from memory; 683 and 693 seen in a size list).
func thinSeries(name string) string {
	if len(name) < 3 || (name[:2] != "68" && name[:2] != "69") {
		return name
	}
	if len(name) == 3 {
		return "61" + name[1:2] + "/" + name[2:]
	}
	return "61" + name[1:]
}

// Nearest returns the row closest to measured sizes in mm and the largest of
// its differences from them. A zero size is not compared. Of equal rows the one
// seen in a source wins, then the first.
func Nearest(bore, outside, width float64) (Bearing, float64) {
	var best Bearing
	least := math.Inf(1)
	for _, b := range rows() {
		off := 0.0
		for _, pair := range [][2]float64{{bore, b.Bore}, {outside, b.Outside}, {width, b.Width}} {
			if pair[0] != 0 {
				off = max(off, math.Abs(pair[0]-pair[1]))
			}
		}
		if off < least || (off == least && best.Provenance == Memory && b.Provenance == Seen) {
			best, least = b, off
		}
	}
	return best, least
}

// parseSizes reads two or three lengths in mm joined by x.
func parseSizes(text string) ([]float64, bool) {
	words := strings.Split(strings.ReplaceAll(text, "×", "x"), "x")
	if len(words) < 2 || len(words) > 3 {
		return nil, false
	}
	sizes := make([]float64, len(words))
	for i, w := range words {
		v, err := strconv.ParseFloat(strings.TrimSpace(w), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, false
		}
		sizes[i] = v
	}
	return sizes, true
}

// Named returns the bearing that a text means: a designation of the table, or
// three sizes in mm such as "8x22x7", which take the row they match exactly and
// are otherwise a bearing known by its sizes. Anything else is a
// *check.FieldError.
func Named(text string) (Bearing, error) {
	if b, ok := Find(text); ok {
		return b, nil
	}
	sizes, ok := parseSizes(strings.ToLower(text))
	if !ok || len(sizes) != 3 {
		return Bearing{}, &check.FieldError{
			Field: "bearing", Text: text, Reason: "is neither a designation of the table nor three sizes",
			Remedy: "give bore, outside diameter and width in mm as 8x22x7, or a designation such as 608",
		}
	}
	b := Sized(sizes[0], sizes[1], sizes[2])
	if err := b.Validate(); err != nil {
		return Bearing{}, err
	}
	if near, off := Nearest(sizes[0], sizes[1], sizes[2]); off == 0 {
		near.Measured = true
		return near, nil
	}
	return b, nil
}

// LooksLike says in words which row of the table a bearing resembles, or "" if
// none lies within 0.3 mm in every size.
func LooksLike(b Bearing) string {
	near, off := Nearest(b.Bore, b.Outside, b.Width)
	if off > 0.3 {
		return ""
	}
	return fmt.Sprintf("looks like a %s (%s x %s x %s mm)", near.Designation,
		check.Number(near.Bore), check.Number(near.Outside), check.Number(near.Width))
}

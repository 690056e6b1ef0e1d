package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

// How a Supply is come by.
const (
	Print = "print"
	Cut   = "cut"
	Buy   = "buy"
)

// A Supply is one line of the shopping list.
type Supply struct {
	How         string  `json:"how"` // Print, Cut or Buy
	Name        string  `json:"name"`
	Count       int     `json:"count"`
	Spare       int     `json:"spare"` // to have in the drawer, beside Count
	Wears       bool    `json:"wears,omitempty"`
	Material    string  `json:"material,omitempty"`
	MassG       float64 `json:"mass_g,omitempty"` // of one piece; 0 not known
	Orientation string  `json:"orientation,omitempty"`
	BeadsAcross int     `json:"beads_across,omitempty"` // whole beads across the thinnest wall; 0 where there is none
	For         string  `json:"for"`
}

// WriteShoppingCSV writes the shopping list: one row for each supply, masses in
// g of one piece.
func WriteShoppingCSV(w io.Writer, list []Supply) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"how", "name", "count", "spare", "wears", "material", "mass_g", "beads_across", "orientation", "for"}}
	for _, s := range list {
		if !finite(s.MassG) {
			return fmt.Errorf("shopping list: %s: the mass is not a finite number", s.Name)
		}
		rows = append(rows, []string{
			s.How, s.Name, strconv.Itoa(s.Count), strconv.Itoa(s.Spare), map[bool]string{true: "yes"}[s.Wears],
			s.Material, blank(s.MassG, strconv.FormatFloat(s.MassG, 'f', 1, 64)), blank(float64(s.BeadsAcross), strconv.Itoa(s.BeadsAcross)), s.Orientation, s.For,
		})
	}
	return out.WriteAll(rows)
}

// blank returns nothing for a number that is not known.
func blank(v float64, text string) string {
	if v == 0 {
		return ""
	}
	return text
}

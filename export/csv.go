package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

// WritePartsCSV writes the table of parts: one row for each part, sizes in mm,
// volume in mm³, mass in g of one piece, and its first file.
func WritePartsCSV(w io.Writer, parts []Part) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"part", "design", "material", "count", "x_mm", "y_mm", "z_mm", "volume_mm3", "mass_g", "file"}}
	for _, p := range parts {
		row := []string{p.Name, p.Design, p.Material, strconv.Itoa(p.Count)}
		for _, v := range []float64{p.SizeMM[0], p.SizeMM[1], p.SizeMM[2], p.VolumeMM3, p.MassG} {
			if !finite(v) {
				return fmt.Errorf("table of parts: %s: a size is not a finite number", p.Name)
			}
			row = append(row, coordinate(v))
		}
		file := ""
		if len(p.Files) > 0 {
			file = p.Files[0]
		}
		rows = append(rows, append(row, file))
	}
	return out.WriteAll(rows)
}

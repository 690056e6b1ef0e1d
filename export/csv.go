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

// A Pulse is one row of a table from joint to pulse; angles in deg.
type Pulse struct{ Joint, Lever, Horn, Microseconds float64 }

// WritePulsesCSV writes the table that turns an angle of a joint into a pulse: the
// joint's from mid-swing, those of lever and horn from the line of the axes.
func WritePulsesCSV(w io.Writer, pulses []Pulse) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"joint_deg", "lever_deg", "horn_deg", "pulse_us"}}
	for _, p := range pulses {
		if !finite(p.Joint + p.Lever + p.Horn + p.Microseconds) {
			return fmt.Errorf("table of pulses: %w", errNotFinite)
		}
		rows = append(rows, []string{coordinate(p.Joint), coordinate(p.Lever), coordinate(p.Horn), strconv.FormatFloat(p.Microseconds, 'f', 2, 64)})
	}
	return out.WriteAll(rows)
}

package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
)

// WriteChannelsCSV writes the channel list: for each servo its channel, what it
// moves, and pulse, servo's angle and joint's position at the low end, in the
// middle and at the high end.
func WriteChannelsCSV(w io.Writer, channels []Channel) error {
	out := csv.NewWriter(w)
	rows := [][]string{{
		"channel", "servo", "moves", "pulse_low_us", "pulse_middle_us", "pulse_high_us",
		"servo_low_deg", "servo_middle_deg", "servo_high_deg", "joint_low", "joint_middle", "joint_high", "joint_unit", "stall_current_a",
	}}
	for _, c := range channels {
		row := []string{strconv.Itoa(c.Channel), c.Servo, c.Moves}
		for _, pulse := range c.Pulse {
			row = append(row, strconv.FormatFloat(pulse, 'f', 0, 64))
		}
		for _, at := range append(c.ServoDeg[:], c.Joint[:]...) {
			row = append(row, strconv.FormatFloat(at, 'f', 2, 64))
		}
		stall := ""
		if c.StallCurrent > 0 {
			stall = coordinate(c.StallCurrent)
		}
		rows = append(rows, append(row, c.Unit, stall))
	}
	return out.WriteAll(rows)
}

// WritePartsCSV writes the table of parts: one row for each part, sizes in mm,
// volume in mm³, mass in g of one piece, whole beads across its thinnest wall, how
// it lies on the bed, and its first file; then one row for each rod to cut, with
// its length and its diameter.
func WritePartsCSV(w io.Writer, parts []Part, rods ...Rod) error {
	out := csv.NewWriter(w)
	rows := [][]string{{"part", "design", "material", "count", "x_mm", "y_mm", "z_mm", "volume_mm3", "mass_g", "beads_across", "orientation", "file"}}
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
		rows = append(rows, append(row, blank(float64(p.BeadsAcross), strconv.Itoa(p.BeadsAcross)), p.Orientation, file))
	}
	for _, r := range rods {
		if !finite(r.Length) {
			return fmt.Errorf("table of parts: %s: the length is not a finite number", r.Name)
		}
		rows = append(rows, []string{r.Name, r.Design, r.Stock, "1", coordinate(r.Length), coordinate(r.Diameter), coordinate(r.Diameter), "", "", "", "", ""})
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

package coupon

import (
	"fmt"
	"io"
	"math"
	"strings"

	"pintle/check"
	"pintle/fit"
)

// ReadingsFormat is the first line of every file of readings.
const ReadingsFormat = "pintle-readings/1"

// Names of the files that go with the plates.
const (
	SheetName    = "coupon-sheet.svg"
	ReadingsName = "coupon-readings.toml"
)

// WriteReadings writes a file of readings to fill in: every drawn size stands in
// it, readings are 0, and what was tried by hand is a comment. It returns the
// writer's error.
func (c *Coupon) WriteReadings(w io.Writer) error {
	var b strings.Builder
	s := c.spec
	fmt.Fprintf(&b, "# Readings of a printed coupon, in mm. Fill in what you read and leave 0 where you did not:\n")
	fmt.Fprintf(&b, "#   pintle coupon --measured FILE --out CARD.toml\n")
	fmt.Fprintf(&b, "format = %q\nname = %q                # of the card\nmaterial = %q\n", ReadingsFormat, s.CardName, s.Material.Name)
	fmt.Fprintf(&b, "nozzle = %s\nbead_width = %s\nlayer_thickness = %s\n", check.Number(s.Nozzle), check.Number(s.Card.BeadWidth), check.Number(s.Card.LayerThickness))
	fmt.Fprintf(&b, "bed = [%s, %s]\n", check.Number(s.Card.Bed[0]), check.Number(s.Card.Bed[1]))
	fmt.Fprintf(&b, "revision = %q             # of the coupon, as on its label\n", s.Revision())
	fmt.Fprintf(&b, "orientation = %q      # axes of bores and pegs: upright, or level\n", fit.Upright)
	fmt.Fprintf(&b, "nib_flat = 0               # width of the flat on the caliper's inside nibs, often 0.3 to 0.5: bores read low by it\n")
	for _, q := range []struct{ key, what string }{
		{"bores", "bores: drawn, first reading, second reading a quarter turn on"},
		{"cross_holes", "bores whose axis lay along the bed"},
		{"flipped", "the ring printed with the other side on the bed"},
		{"outsides", "outsides: drawn, first reading, second reading"},
	} {
		c.writeList(&b, q.key, q.what)
	}
	for _, sec := range c.sections {
		if sec.block {
			fmt.Fprintf(&b, "\n# the plain block of %s mm, across: on its lowest layer, and 4 mm above\n", check.Number(blockSide))
			fmt.Fprintf(&b, "block = { drawn = %s, bed = [0, 0], above = [0, 0] }\n", check.Number(blockSide))
		}
	}
	if t := s.Sheet.Thickness; t > 0 && s.wants("kerf") {
		fmt.Fprintf(&b, "\n# the pieces that were cut: ten bars pushed together, and the window of %s mm across\n", check.Number(Window))
		fmt.Fprintf(&b, "kerf = { thickness = %s, bars = [0, 0], window = [0, 0] }\n", check.Number(t))
	}
	c.writeTried(&b)
	_, err := io.WriteString(w, b.String())
	return err
}

func (c *Coupon) writeList(b *strings.Builder, key, what string) {
	var rows []string
	row := func(drawn float64, mark, piece string) {
		rows = append(rows, fmt.Sprintf("  [%s, 0, 0],  # %s, %s\n", decimal(drawn), piece, mark))
	}
	for _, sec := range c.sections {
		if key == "flipped" && sec.flipped != "" {
			row(c.spec.Bearing.Outside, sec.flipped, sec.piece)
		}
		if sec.key != key || sec.block {
			continue
		}
		for _, r := range sec.rows {
			row(r.drawn, r.mark, sec.piece)
		}
	}
	if len(rows) > 0 {
		fmt.Fprintf(b, "\n# %s\n%s = [\n%s]\n", what, key, strings.Join(rows, ""))
	}
}

// writeTried writes the questions of all trials.
func (c *Coupon) writeTried(b *strings.Builder) {
	fmt.Fprintf(b, "\n[tried]                    # sizes as drawn: 0.10 for the ring marked +10\n")
	if s := c.spec; s.Bearing.Outside > 0 {
		fmt.Fprintf(b, "bearing = %s\n", decimal(s.Bearing.Outside))
	}
	if c.distance > 0 {
		fmt.Fprintf(b, "module = %s\nteeth = [%d, %d]\npressure_angle = %s\n", decimal(c.spec.Module), c.teeth[0], c.teeth[1], check.Number(c.spec.PressureAngle*180/math.Pi))
	}
	for _, sec := range c.sections {
		for _, q := range sec.trial {
			fmt.Fprintf(b, "# %s =   # %s\n", q.key, q.question)
		}
	}
}

func decimal(v float64) string { return fmt.Sprintf("%.2f", v) }

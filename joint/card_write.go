package joint

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"pintle/fit"
)

// WriteCard writes a printer card with a comment at each number that says how it
// was found. ReadCard reads it back. It returns the writer's error.
func WriteCard(w io.Writer, c fit.Calibration) error {
	var b strings.Builder
	card := c.Card
	line := func(key, value string) {
		if how := c.How[key]; how != "" {
			for _, l := range folded(how) {
				b.WriteString("# " + l + "\n")
			}
		}
		fmt.Fprintf(&b, "%s = %s\n", key, value)
	}
	b.WriteString("# A printer card, found by reading a printed coupon. mm; errors and clearances are on\n# the diameter: printed less drawn.\n")
	if c.Revision != "" {
		b.WriteString("# Revision of the coupon: " + c.Revision + "\n")
	}
	line("format", strconv.Quote(CardFormat))
	line("name", strconv.Quote(card.Name))
	if card.Material != "" {
		line("material", strconv.Quote(card.Material))
	}
	if card.Nozzle > 0 {
		line("nozzle", exact(card.Nozzle))
	}
	line("bead_width", exact(card.BeadWidth))
	line("layer_thickness", exact(card.LayerThickness))
	line("orientation", strconv.Quote(card.Orientation))
	line("bed", fmt.Sprintf("[%s, %s]", exact(card.Bed[0]), exact(card.Bed[1])))
	b.WriteString("\n")
	line("bore_error", errorText(card.Bore))
	line("outside_error", errorText(card.Outside))
	line("first_layer_growth", exact(card.FirstLayerGrowth))
	b.WriteString("\n")
	for _, q := range []struct {
		key   string
		value float64
	}{
		{"slip_clearance", card.SlipClearance},
		{"interference", card.Interference},
		{"interference_at", card.InterferenceAt},
		{"backlash", card.Backlash},
		{"least_web", card.LeastWeb},
	} {
		switch how := c.How[q.key]; {
		case q.value > 0:
			line(q.key, exact(q.value))
		case how != "":
			fmt.Fprintf(&b, "# no %s: %s\n", q.key, how)
		}
	}
	if c.Kerf > 0 {
		b.WriteString("\n")
		for _, l := range folded("of the cutter, not of this printer, for [sheet] of the joint file: " + c.How["kerf"]) {
			b.WriteString("# " + l + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func errorText(e fit.Error) string {
	return fmt.Sprintf("{ offset = %s, per_mm = %s, sigma = %s }", exact(e.Offset), strconv.FormatFloat(e.PerMM+0, 'f', 6, 64), exact(e.Sigma))
}

// exact prints a length to a tenth of a micrometre.
func exact(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0")
	if s = strings.TrimSuffix(s, "."); s == "-0" {
		return "0"
	}
	return s
}

// folded breaks a text at spaces into lines of 90 characters.
func folded(text string) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(text) {
		if line != "" && len(line)+1+len(word) > 90 {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
}

package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"pintle/check"
	"pintle/coupon"
	"pintle/fit"
	"pintle/joint"
)

// calibrate fits a printer card to a file of readings, tells what they support,
// and writes card and plot.
func (env *environment) calibrate(c *couponFlags, cmd *cobra.Command, args []string) error {
	switch {
	case len(args) > 0 || c.sheet:
		return usage("coupon: --measured goes alone", "pintle coupon --measured FILE --out CARD.toml")
	case c.output.dir != "" && filepath.Ext(c.output.dir) != ".toml":
		return usage(fmt.Sprintf("--out %q: a printer card is a file", c.output.dir), "name it: --out petg04.toml")
	}
	for _, name := range []string{"bearing", "module", "only", "card-name", "material", "nozzle", "layer", "sheet-thickness", "sheet-material"} {
		if cmd.Flags().Changed(name) {
			return usage("coupon: --"+name+" does not go with --measured", "the file of readings says how the coupon was printed")
		}
	}
	data, err := readFile("readings", c.measured)
	if err != nil {
		return err
	}
	found, err := joint.Calibrate(c.measured, data)
	if err != nil {
		return err
	}
	if c.design.json {
		env.printJSON(newCalibration(found))
	} else {
		tellCalibration(&env.out, found)
	}
	switch {
	case c.output.dir == "":
		return nil
	case found.Bores == nil && found.Outsides == nil:
		return usage(fmt.Sprintf("%q holds neither bores nor outsides: there is nothing to make a card of", c.measured), "fill in what you read of at least three rings or pegs")
	}
	var card, plot bytes.Buffer
	if err := joint.WriteCard(&card, found); err != nil {
		return err
	}
	if err := coupon.WritePlot(&plot, found); err != nil {
		return err
	}
	drawn := strings.TrimSuffix(c.output.dir, ".toml") + ".svg"
	for _, path := range []string{c.output.dir, drawn} {
		if _, err := os.Lstat(path); err == nil && !c.output.force {
			return usage(fmt.Sprintf("%q stands there already", path), "name another file with --out, or add --force to keep the old one beside it")
		}
	}
	out := &env.out
	if c.design.json {
		out = &bytes.Buffer{} // the JSON stands alone
	}
	for _, file := range []struct {
		path string
		data []byte
	}{{drawn, plot.Bytes()}, {c.output.dir, card.Bytes()}} {
		kept, err := writeNew(file.path, file.data, c.output.force)
		if err != nil {
			return err
		}
		if kept != "" {
			fmt.Fprintf(out, "kept the old file as %s\n", kept)
		}
		fmt.Fprintf(out, "wrote %s\n", file.path)
	}
	return nil
}

// tellCalibration prints the residuals and what the readings support.
func tellCalibration(w io.Writer, c fit.Calibration) {
	for _, q := range []struct {
		name string
		line *fit.Line
	}{{"bores", c.Bores}, {"outsides", c.Outsides}} {
		if q.line != nil {
			tellLine(w, q.name, *q.line)
		}
	}
	for _, q := range []struct {
		head  string
		lines []string
	}{{"what the readings support", c.Supported}, {"what they do not", c.Missing}} {
		if len(q.lines) == 0 {
			continue
		}
		fmt.Fprintln(w, q.head)
		for _, line := range q.lines {
			fmt.Fprint(w, wrapped("  ", line))
		}
	}
}

func tellLine(w io.Writer, name string, l fit.Line) {
	fmt.Fprintf(w, "%s, mm on the diameter\n", name)
	rows := [][]string{{"  drawn", "read", "off", "fitted", "left over", ""}}
	for i, f := range l.Features {
		note := ""
		if math.Abs(l.Residuals[i]) > max(3*l.Scatter, 0.02) {
			note = "apart from the rest: counts little"
		}
		rows = append(rows, []string{
			fmt.Sprintf("  %.2f", f.Drawn), fmt.Sprintf("%.3f", f.Drawn+f.Off()), fmt.Sprintf("%+.3f", f.Off()),
			fmt.Sprintf("%+.3f", l.At(f.Drawn)), fmt.Sprintf("%+.3f", l.Residuals[i]), note,
		})
	}
	for _, line := range align(rows) {
		fmt.Fprintln(w, line)
	}
	fmt.Fprintf(w, "  error = %s %+.6f x diameter, standard uncertainty of one print %s mm\n", check.Number(math.Round(l.Offset*1e4)/1e4), l.PerMM+0, check.Number(math.Round(l.Sigma*1e4)/1e4))
}

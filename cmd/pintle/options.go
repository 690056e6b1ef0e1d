package main

import (
	"fmt"
	"os"

	"github.com/spf13/pflag"

	"pintle/check"
	"pintle/joint"
	"pintle/quantity"
)

// designFlags are the flags of every command that works out a design.
type designFlags struct {
	accept     []joint.Accept
	slice      bool
	checkOnly  bool
	printer    string
	chordError float64
	json       bool
}

func (d *designFlags) add(flags *pflag.FlagSet) {
	flags.Var(&acceptValue{&d.accept}, "accept", "let one failure through, with the reason; may be repeated")
	flags.StringVar(&d.printer, "printer", "", "printer `CARD.toml` that pintle coupon made, in place of [printer]")
	quantityVar(flags, &d.chordError, quantity.Length, "chord-error", "largest distance between flank and facet, in mm")
	flags.BoolVar(&d.json, "json", false, "print report.json's content instead of text")
}

// options reads the printer card and puts together what Design wants to know.
func (d *designFlags) options(file *joint.File, flags *pflag.FlagSet) (joint.Options, error) {
	options := joint.Options{Tool: "pintle " + version, ChordError: d.chordError, Accept: d.accept, Slice: d.slice, CheckOnly: d.checkOnly}
	if flags.Changed("chord-error") {
		err := check.InRange("chord error", d.chordError, "mm", 0.0001, 1, "leave it out, or use 0.005 mm")
		if err != nil {
			file.Mark("chord_error", "--chord-error")
			return options, file.Blame("", err)
		}
	}
	options.Outlines = map[string][]byte{}
	for name, path := range file.OutlineFiles() {
		data, err := readFile("outline of panel "+name, path)
		if err != nil {
			return options, err
		}
		options.Outlines[name] = data
	}
	path := d.printer
	if path == "" {
		path = file.CardPath()
	}
	if path == "" {
		return options, nil
	}
	data, err := readFile("printer card", path)
	if err != nil {
		return options, err
	}
	card, material, err := joint.ReadCard(path, data)
	if err != nil {
		return options, err
	}
	own := flags.Lookup("material")
	if file.Printer.Material == "" || material != "" && file.Path == "" && own != nil && !own.Changed {
		file.Printer.Material = material
	}
	options.Card = &card
	return options, nil
}

// outputFlags are the flags of every command that writes files.
type outputFlags struct {
	dir   string
	force bool
}

func (o *outputFlags) add(flags *pflag.FlagSet) {
	flags.StringVar(&o.dir, "out", "", "`DIR` to write the files to")
	flags.BoolVar(&o.force, "force", false, "move the files that stand in DIR to DIR/previous-N")
}

func (o *outputFlags) check() error {
	if o.dir == "" {
		return usage("build has nowhere to write", "name a folder: --out DIR, or use check")
	}
	return nil
}

// readFile reads a file that the user named.
func readFile(what, path string) ([]byte, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, &fileError{fmt.Errorf("reading the %s %q: %w", what, path, cause(err))}
	}
	return data, nil
}

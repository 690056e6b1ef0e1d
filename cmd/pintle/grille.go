package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"pintle/grille"
	"pintle/joint"
	"pintle/quantity"
)

func (env *environment) newGrilleCommand() *cobra.Command {
	name := "panel"
	material := "PETG"
	// Twelve layers of 0.2 mm: common practice, no source.
	panel := joint.Grille{Pattern: grille.RoundStaggered, Thickness: 2.4}
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "grille --outline disc:80 --hole MM --pitch MM --out DIR",
		Short: "Design a panel with holes that lets sound pass from flags",
		Long: "Design a panel with holes that lets sound pass from flags:\n\n" +
			"  pintle grille --outline disc:80 --hole 3 --pitch 4 --out voice\n" +
			"  pintle grille --outline rectangle:90x60 --pattern slot --hole 3 --slot-length 14 --pitch 5 --out voice",
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needFlags(cmd, "outline", "hole", "pitch", "out"); err != nil {
				return err
			}
			file := &joint.File{
				Title:   name,
				Printer: joint.Printer{Material: material},
				Grilles: map[string]joint.Grille{name: panel},
			}
			markFlags(file, cmd.Flags(), "grille."+name, map[string][]string{
				"outline":       {"outline.kind", "outline.diameter", "outline.length", "outline.width"},
				"corner-radius": {"outline.corner_radius"},
				"pattern":       {"pattern"}, "hole": {"hole"}, "slot-length": {"slot_length"},
				"pitch": {"pitch"}, "pitch-along": {"pitch_along"}, "thickness": {"thickness"}, "margin": {"margin"},
				"hazard-depth": {"hazard_depth"}, "open-target": {"open_target"},
				"screws": {"screws.size", "screws.count", "screws.circle"}, "screw-inset": {"screws.inset"},
			})
			file.Mark("printer.material", "--material")
			return env.build(file, design, output, cmd.Flags())
		},
	}
	flags := cmd.Flags()
	flags.Var(&outlineValue{&panel.Outline}, "outline", "rim of the whole grille: diameter of a disc, or length x width of a rectangle, in mm (or with units)")
	flags.Var(&wordValue{to: &panel.Pattern, words: grille.Patterns()}, "pattern", "pattern of the holes")
	quantityVar(flags, &panel.Hole, quantity.Length, "hole", "width across one hole: diameter, side, across flats or width of a slot, in mm")
	quantityVar(flags, &panel.Pitch, quantity.Length, "pitch", "from centre to centre of two holes, in mm")
	quantityVar(flags, &panel.Thickness, quantity.Length, "thickness", "of the plate, in mm")
	quantityVar(flags, &panel.Margin, quantity.Length, "margin", "solid rim without holes, in mm; without it 3 mm or 4 beads, the larger")
	quantityVar(flags, &panel.SlotLength, quantity.Length, "slot-length", "length of a slot over both round ends, in mm; for the pattern slot")
	quantityVar(flags, &panel.PitchAlong, quantity.Length, "pitch-along", "between slots that stand end to end, in mm; without it all bars are alike")
	quantityVar(flags, &panel.Outline.CornerRadius, quantity.Length, "corner-radius", "of a rectangle, in mm")
	flags.Var(&screwsValue{&panel.Screws}, "screws", "size and number of screws, and on a disc the diameter of their circle in mm")
	quantityVar(flags, &panel.Screws.Inset, quantity.Length, "screw-inset", "from the edge to the centres of the screws, in mm")
	quantityVar(flags, &panel.HazardDepth, quantity.Length, "hazard-depth", "from the face to what no finger may reach, in mm")
	quantityVar(flags, &panel.OpenTarget, quantity.Number, "open-target", "open area wanted, a share in the range 0 to 1; without it 0.5")
	flags.StringVar(&material, "material", material, "`NAME` of the plastic")
	flags.Var(&nameValue{&name}, "name", "first word of the file names")
	design.add(flags)
	output.add(flags)
	return cmd
}

// An outlineValue is a flag that holds the rim of a grille.
type outlineValue struct{ to *joint.Outline }

func (v *outlineValue) Set(text string) error {
	kind, size, _ := strings.Cut(text, ":")
	outline := joint.Outline{Kind: kind, CornerRadius: v.to.CornerRadius}
	var sizes []*float64
	switch kind {
	case grille.Disc:
		sizes = []*float64{&outline.Diameter}
	case grille.Rectangle:
		sizes = []*float64{&outline.Length, &outline.Width}
	}
	parts := strings.Split(strings.ReplaceAll(size, "×", "x"), "x")
	if size == "" || len(parts) != len(sizes) {
		return usage(strconv.Quote(text)+": must be a disc with its diameter or a rectangle with length and width", "write disc:80 or rectangle:90x60")
	}
	for i, to := range sizes {
		var err error
		if *to, err = quantity.Length.Parse(parts[i]); err != nil {
			return err
		}
	}
	*v.to = outline
	return nil
}

func (v *outlineValue) Type() string   { return "disc:80|rectangle:90x60" }
func (v *outlineValue) String() string { return "" }

// A screwsValue is a flag that holds size, number and circle of screws.
type screwsValue struct{ to *joint.Screws }

func (v *screwsValue) Set(text string) error {
	what, circle, onCircle := strings.Cut(text, "@")
	size, count, ok := strings.Cut(strings.ReplaceAll(what, "×", "x"), "x")
	if !ok || size == "" {
		return usage(strconv.Quote(text)+": must be a size and a number of screws", "write "+v.Type()+", or M3x4 without a circle")
	}
	screws := joint.Screws{Size: size, Inset: v.to.Inset}
	var err error
	if screws.Count, err = quantity.Count(count); err != nil {
		return fmt.Errorf("%q: number of screws %w", text, err)
	}
	if onCircle {
		if screws.Circle, err = quantity.Length.Parse(circle); err != nil {
			return err
		}
	}
	*v.to = screws
	return nil
}

func (v *screwsValue) Type() string   { return "M3x6@62" }
func (v *screwsValue) String() string { return "" }

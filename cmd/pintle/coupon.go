package main

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
	"pintle/quantity"
)

// couponFlags are what the coupon command is told beside a joint file.
type couponFlags struct {
	set      joint.Coupon
	bearing  joint.Bearing
	horn     joint.Horn
	layer    float64
	sheet    bool
	measured string
	design   designFlags
	output   outputFlags
}

func (env *environment) newCouponCommand() *cobra.Command {
	c := couponFlags{set: joint.Coupon{Material: "PETG"}}
	cmd := &cobra.Command{
		Use:   "coupon [FILE] --out DIR",
		Short: "Make test pieces for your printer, the form for their readings, and the printer card from them",
		Long: "Find out what your printer does, in three steps:\n\n" +
			"  pintle coupon --bearing 608 --module 1.5 --out coupon        print the plates in coupon/\n" +
			"  (write what you read on coupon-sheet.svg and into coupon-readings.toml)\n" +
			"  pintle coupon --measured coupon/coupon-readings.toml --out petg04.toml\n\n" +
			"The last writes the printer card petg04.toml and the plot petg04.svg. Name the card in a\n" +
			"joint file: [printer] card = \"petg04.toml\", or with --printer. A joint FILE in place of the\n" +
			"flags lends the coupon its bearing, horn and module. --sheet writes the form alone.",
		Args: atMost(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if c.measured != "" {
				return env.calibrate(&c, cmd, args)
			}
			file, err := c.file(cmd.Flags(), args)
			if err != nil {
				return err
			}
			if c.sheet {
				return env.writeSheet(file, &c, cmd.Flags())
			}
			if err := c.output.check(); err != nil {
				return err
			}
			return env.build(file, c.design, c.output, cmd.Flags())
		},
	}
	c.add(cmd.Flags())
	return cmd
}

func (c *couponFlags) add(flags *pflag.FlagSet) {
	flags.Var(&bearingValue{&c.bearing}, "bearing", "designation, or measured bore x outside x width in mm (or with units)")
	quantityVar(flags, &c.set.Bore, quantity.Length, "bore", "that the pegs are for: of the bearing or another ring, or a rod, in mm; without it the bearing's")
	quantityVar(flags, &c.set.Wall, quantity.Length, "wall", "of the rings, in mm; without it that of a housing")
	quantityVar(flags, &c.set.Module, quantity.Length, "module", "of the pairs of gears, in mm")
	flags.Var(&pairValue[int]{&c.set.Teeth, quantity.Count, "Z1,Z2"}, "teeth", "of the pairs of gears; without it as few as leave room for a pin and a mark")
	quantityVar(flags, &c.horn.Diameter, quantity.Length, "horn-diameter", "of a horn that is a disc, in mm; a joint file may hold other horns")
	quantityVar(flags, &c.horn.Thickness, quantity.Length, "horn-thickness", "of the horn, in mm")
	quantityVar(flags, &c.horn.HubDiameter, quantity.Length, "horn-hub", "diameter of the horn's hub, in mm")
	flags.Var(&stepsValue{&c.set.Rings}, "rings", "bores of the rings round the bearing's outside, in mm; without it -0.2,0.4,0.05")
	flags.Var(&stepsValue{&c.set.Pegs}, "pegs", "diameters of the pegs round the bore, in mm; without it -0.3,0.1,0.05")
	flags.Var(&stepsValue{&c.set.Backlash}, "backlash", "of the pairs of gears, in mm; without it 0.05,0.4,0.05")
	flags.Var(&stepsValue{&c.set.Webs}, "webs", "of the comb, in mm; without it 0.4,2,0.2")
	flags.Var(&lengthsValue{&c.set.Holes}, "holes", "diameters of the holes for rods and screws, in mm; without it 2,3,4 and the bore")
	quantityVar(flags, &c.set.SheetThickness, quantity.Length, "sheet-thickness", "measured, of the sheet that a laser cuts, in mm; without it no kerf pieces")
	flags.StringVar(&c.set.SheetMaterial, "sheet-material", "", "`NAME` of that sheet as its seller calls it")
	flags.Var(&piecesValue{&c.set.Only}, "only", "make these pieces alone: "+strings.Join(joint.CouponPieces(), ", "))
	flags.StringVar(&c.set.CardName, "card-name", "", "`NAME` of the printer card that the readings will make; without it card")
	flags.StringVar(&c.set.Material, "material", c.set.Material, "`NAME` of the plastic")
	quantityVar(flags, &c.set.Nozzle, quantity.Length, "nozzle", "diameter of the nozzle, in mm")
	quantityVar(flags, &c.layer, quantity.Length, "layer", "layer thickness, in mm; without it 0.2")
	flags.BoolVar(&c.sheet, "sheet", false, "write the form for the readings alone, as SVG, to the FILE of --out or to standard output")
	flags.StringVar(&c.measured, "measured", "", "`FILE` with the readings: fit a printer card to them and write it to the FILE of --out")
	c.design.add(flags)
	c.output.add(flags)
	flags.Lookup("out").Usage = "`DIR` to write the plates to; with --sheet or --measured a file"
	flags.Lookup("force").Usage = "keep what stands there under another name and write anew"
}

// file puts flags and joint file together; a flag goes before the file.
func (c *couponFlags) file(flags *pflag.FlagSet, args []string) (*joint.File, error) {
	const name = "coupon"
	file := &joint.File{Title: "coupon", Coupon: &joint.Coupon{}}
	if len(args) == 1 {
		var err error
		if file, err = readJoint(args[0]); err != nil {
			return nil, err
		}
	}
	if flags.Changed("bearing") {
		file.Bearings = map[string]joint.Bearing{name: c.bearing}
		file.Housings = nil // another bearing asks for another ring
		c.set.Bearing = name
		markBearing(file, name, "--bearing", c.bearing)
	}
	if flags.Changed("horn-diameter") || flags.Changed("horn-thickness") || flags.Changed("horn-hub") {
		c.horn.Kind = "disc"
		file.Servos = map[string]joint.Servo{name: {Horn: c.horn}}
		c.set.Servo = name
		markFlags(file, flags, "servo."+name, map[string][]string{
			"horn-diameter": {"horn.diameter"}, "horn-thickness": {"horn.thickness"}, "horn-hub": {"horn.hub_diameter"},
		})
	}
	file.CouponAlone()
	c.over(file, flags)
	markFlags(file, flags, "coupon", map[string][]string{
		"bore": {"bore"}, "wall": {"wall"}, "module": {"module"}, "teeth": {"teeth"}, "rings": {"rings"}, "pegs": {"pegs"},
		"backlash": {"backlash"}, "webs": {"webs"}, "holes": {"holes"}, "sheet-thickness": {"sheet_thickness"}, "sheet-material": {"sheet_material"}, "only": {"only"}, "card-name": {"card_name"}, "nozzle": {"nozzle"},
	})
	if flags.Changed("layer") {
		file.Printer.LayerThickness = c.layer
		file.Mark("printer.layer_thickness", "--layer")
	}
	if flags.Changed("material") || file.Printer.Material == "" {
		file.Printer.Material = c.set.Material
		file.Mark("printer.material", "--material")
	}
	return file, nil
}

// over puts what the flags give in the place of what the file gives.
func (c *couponFlags) over(file *joint.File, flags *pflag.FlagSet) {
	to, from := file.Coupon, c.set
	if flags.Changed("material") {
		to.Material = ""
	}
	for name, put := range map[string]func(){
		"bearing": func() { to.Bearing = from.Bearing }, "bore": func() { to.Bore = from.Bore }, "wall": func() { to.Wall = from.Wall },
		"module": func() { to.Module = from.Module }, "teeth": func() { to.Teeth = from.Teeth },
		"rings": func() { to.Rings = from.Rings }, "pegs": func() { to.Pegs = from.Pegs },
		"backlash": func() { to.Backlash = from.Backlash }, "webs": func() { to.Webs = from.Webs },
		"holes": func() { to.Holes = from.Holes }, "only": func() { to.Only = from.Only },
		"sheet-thickness": func() { to.SheetThickness = from.SheetThickness }, "sheet-material": func() { to.SheetMaterial = from.SheetMaterial },
		"card-name": func() { to.CardName = from.CardName }, "nozzle": func() { to.Nozzle = from.Nozzle },
	} {
		if flags.Changed(name) {
			put()
		}
	}
	if from.Servo != "" {
		to.Servo = from.Servo
	}
}

// writeSheet writes the form alone.
func (env *environment) writeSheet(file *joint.File, c *couponFlags, flags *pflag.FlagSet) error {
	options, err := c.design.options(file, flags)
	if err != nil {
		return err
	}
	var sheet bytes.Buffer
	if err := joint.WriteCouponSheet(&sheet, file, options); err != nil {
		return err
	}
	if c.output.dir == "" || c.output.dir == "-" {
		env.out.Write(sheet.Bytes())
		return nil
	}
	return env.writeOne(c.output.dir, sheet.Bytes(), c.output.force)
}

// writeOne writes one file and says so.
func (env *environment) writeOne(path string, data []byte, force bool) error {
	kept, err := writeNew(path, data, force)
	if err != nil {
		return err
	}
	if kept != "" {
		fmt.Fprintf(&env.out, "kept the old file as %s\n", kept)
	}
	fmt.Fprintf(&env.out, "wrote %s\n", path)
	return nil
}

// A stepsValue is a flag that holds from, to and step.
type stepsValue struct{ to *joint.Steps }

func (v *stepsValue) Set(text string) error {
	list, err := quantity.List(text, quantity.Length.Parse)
	if err != nil {
		return err
	}
	if len(list) != 3 {
		return usage(strconv.Quote(text)+": must be three values", "write "+v.Type()+" with points for decimals")
	}
	*v.to = joint.Steps{From: list[0], To: list[1], Step: list[2]}
	return nil
}

func (v *stepsValue) Type() string   { return "FROM,TO,STEP" }
func (v *stepsValue) String() string { return "" }

// A lengthsValue is a flag that holds one length or more.
type lengthsValue struct{ to *[]float64 }

func (v *lengthsValue) Set(text string) (err error) {
	*v.to, err = quantity.List(text, quantity.Length.Parse)
	return err
}

func (v *lengthsValue) Type() string   { return "D,D,..." }
func (v *lengthsValue) String() string { return "" }

// A piecesValue is a flag that holds names of pieces.
type piecesValue struct{ to *[]string }

func (v *piecesValue) Set(text string) error {
	known := joint.CouponPieces()
	for name := range strings.SplitSeq(text, ",") {
		name = strings.TrimSpace(name)
		if !slices.Contains(known, name) {
			hint := "choose among " + strings.Join(known, ", ")
			if nearest, ok := joint.Nearest(name, known); ok {
				hint = fmt.Sprintf("did you mean %q?", nearest)
			}
			return usage(strconv.Quote(name)+": is no piece of a coupon", hint)
		}
		*v.to = append(*v.to, name)
	}
	return nil
}

func (v *piecesValue) Type() string   { return "PIECE,PIECE" }
func (v *piecesValue) String() string { return "" }

package joint

import (
	"io"
	"math"

	"pintle/coupon"
	"pintle/export"
	"pintle/geom"
)

// CouponAlone leaves nothing in the file but its coupon, and gives it one where
// it has none: what the coupon takes from the other tables is taken first.
func (f *File) CouponAlone() {
	c := f.couponFilled()
	f.Coupon, f.Sheet = &c, Stock{}
	f.Gears, f.Housings, f.Plates, f.Grilles, f.Loads, f.Motions = nil, nil, nil, nil, nil, nil
}

// couponFilled returns the coupon with what the rest of the file knows.
func (f *File) couponFilled() Coupon {
	var c Coupon
	if f.Coupon != nil {
		c = *f.Coupon
	}
	for _, name := range sorted(f.Housings) {
		if h := f.Housings[name]; c.Bearing == "" || c.Bearing == h.Bearing {
			c.Bearing = h.Bearing
			if c.Wall == 0 {
				c.Wall = h.Wall
			}
			break
		}
	}
	if names := sorted(f.Bearings); c.Bearing == "" && len(names) > 0 {
		c.Bearing = names[0]
	}
	for _, name := range sorted(f.Servos) {
		if c.Servo == "" && f.Servos[name].Horn.Kind != "" {
			c.Servo = name
		}
	}
	if names := sorted(f.Gears); len(names) > 0 && c.Module == 0 {
		g := f.Gears[names[0]]
		c.Module = g.Module
		if c.PressureAngleDeg == 0 {
			c.PressureAngleDeg = g.PressureAngleDeg
		}
	}
	if c.Nozzle == 0 {
		c.Nozzle = f.Printer.Nozzle
	}
	if c.SheetThickness == 0 && !f.Has("coupon.sheet_thickness") {
		c.SheetThickness = f.Sheet.Thickness
	}
	if c.SheetMaterial == "" {
		c.SheetMaterial = f.Sheet.Material
	}
	return c
}

// addCoupon designs the coupon.
func (b *builder) addCoupon() error {
	if b.file.Coupon == nil {
		return nil
	}
	c := b.file.couponFilled()
	material, err := b.material("coupon", c.Material)
	if err != nil {
		return err
	}
	spec := coupon.Spec{
		Name: "coupon", Wall: c.Wall, Bore: c.Bore,
		Rings: coupon.Steps(c.Rings), Pegs: coupon.Steps(c.Pegs), Backlash: coupon.Steps(c.Backlash), Webs: coupon.Steps(c.Webs), Slots: coupon.Steps(c.Slots),
		Sheet:   coupon.Sheet{Material: c.SheetMaterial, Thickness: c.SheetThickness},
		Pockets: c.Pockets, Holes: c.Holes, CrossHole: c.CrossHole,
		Module: c.Module, Teeth: c.Teeth, PressureAngle: c.PressureAngleDeg * math.Pi / 180,
		Only: c.Only, Material: material, Card: b.card, CardName: c.CardName, Nozzle: c.Nozzle,
	}
	if c.Bearing != "" {
		found, findings, err := b.bearingNamed(c.Bearing)
		if err != nil {
			return err
		}
		spec.Bearing = found
		if len(b.file.Housings) == 0 {
			b.find("bearing."+c.Bearing, findings...)
		}
	}
	if h := b.file.Servos[c.Servo].Horn; h.Kind != "" {
		spec.Horn = coupon.Horn{
			Kind: h.Kind, Diameter: h.Diameter, Thickness: h.Thickness, HubDiameter: h.HubDiameter,
			Arm: h.Arm, WidthAtHub: h.WidthAtHub, WidthAtTip: h.WidthAtTip, Arms: h.Arms,
		}
	}
	set, err := coupon.New(spec)
	if err != nil {
		return b.file.Blame("coupon", err)
	}
	b.coupon = set
	if _, outlines := set.Cut(); len(outlines) > 0 && c.SheetMaterial != "" {
		b.find("coupon", judgeSheet(c.SheetMaterial))
	}
	b.add("coupon", set, material, func(part geom.Part) sheetNotes {
		return sheetNotes{lines: []string{"Drawn at the sizes its marks say, without allowance: read it and fill in " + coupon.ReadingsName}}
	})
	return nil
}

// couponFiles are the form for the readings and the file to type them into.
func (b *builder) couponFiles() []OutputFile {
	if b.coupon == nil {
		return nil
	}
	files := []OutputFile{{coupon.SheetName, b.coupon.WriteSheet}, {coupon.ReadingsName, b.coupon.WriteReadings}}
	if inside, outside := b.coupon.Cut(); len(outside) > 0 {
		files = append(files, OutputFile{coupon.CutName, func(w io.Writer) error {
			return export.WriteCut(w, "coupon-kerf", []export.Operation{{Name: "inside", Colour: cutColour, Paths: inside}, {Name: "outside", Colour: cutColour, Paths: outside}})
		}})
	}
	return files
}

// WriteCouponSheet writes the form for the readings of the file's coupon as SVG.
// The error is that of Design, or the writer's.
func WriteCouponSheet(w io.Writer, file *File, options Options) error {
	b := newBuilder(file, options)
	if err := b.readCard(); err != nil {
		return err
	}
	if err := b.addCoupon(); err != nil {
		return err
	}
	return b.coupon.WriteSheet(w)
}

// CouponPieces are the names of what a coupon may be made of.
func CouponPieces() []string { return coupon.Pieces() }

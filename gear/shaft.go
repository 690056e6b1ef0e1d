package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/fit"
	"pintle/geom"
)

// The kinds of bore for a shaft.
const (
	RoundBore  = "round"
	DBore      = "d-bore"
	HexBore    = "hex"
	SquareBore = "square"
	Keyway     = "keyway"
)

// How a bore sits on its shaft: put on by hand, turning on it, or pressed on.
const (
	FitSlip    = "slip"
	FitTurning = "turning"
	FitPress   = "press"
)

// ShaftFits lists the ways a bore sits on its shaft.
func ShaftFits() []string { return []string{FitSlip, FitTurning, FitPress} }

// pressOn is the interference on the diameter in mm of a bore pressed on a shaft
// where no coupon has shown another (common practice, no source).
const pressOn = 0.05

// flatShare is the depth of a D-flat over the rod's diameter where nobody
// measured it (common practice, no source).
const flatShare = 0.1

// A Shaft is the rod that a gear sits or turns on, as measured; the bore gets
// its clearance from the printer card.
type Shaft struct {
	Kind string  // of the bore
	Size float64 // diameter, or across the flats of a hexagon or square, mm
	Fit  string  // one of ShaftFits; "" for slip
	Over float64 // of a D, over the flat to the round side opposite, mm; 0 for a chosen depth
}

// A boreShape is the bore of a shaft: its outline, and the circle that holds it
// as wanted and as drawn, diameters in mm.
type boreShape struct {
	outline       geom.Contour
	wanted, drawn float64
	grown         func(c float64) geom.Contour // the outline opened by c all round; nil where Fatten does it
}

// clearance returns the room on the diameter in mm between shaft and bore.
func (x Shaft) clearance(card fit.Card) (float64, error) {
	switch x.Fit {
	case "", FitSlip:
		return card.Slip(), nil
	case FitTurning:
		return card.Slip() + fit.JournalClearance, nil
	case FitPress:
		if card.Interference > 0 {
			return -card.Interference, nil
		}
		return -pressOn, nil
	}
	return 0, &check.FieldError{Field: "fit on the shaft", Text: x.Fit, Reason: "is not known", Remedy: `use "slip", "turning" or "press"`}
}

// flatDepth returns the depth of a D's flat in mm: as measured, else a tenth of
// the rod, and deep enough that the flat is as wide as the set screw.
func (x Shaft) flatDepth(set *SetScrew) float64 {
	if x.Over > 0 {
		return x.Size - x.Over
	}
	depth := flatShare * x.Size
	if set != nil && set.Screw.Diameter < x.Size {
		depth = math.Max(depth, (x.Size-math.Sqrt(x.Size*x.Size-set.Screw.Diameter*set.Screw.Diameter))/2)
	}
	return depth
}

// bore lays out the bore of a shaft and notes its fits.
func (s *structure) bore(x Shaft) (boreShape, error) {
	if err := check.InRange("shaft of "+s.part, x.Size, "mm", 1, geom.Extent, "measure the rod's diameter, or across its flats"); err != nil {
		return boreShape{}, err
	}
	room, err := x.clearance(s.card)
	if err != nil {
		return boreShape{}, err
	}
	if x.Over != 0 && x.Kind != DBore {
		return boreShape{}, s.refuse("size over the flat", x.Over, "mm", "is of a D-bore only", "leave it out, or use a D-bore")
	}
	switch x.Kind {
	case RoundBore:
		f := s.fitted(s.card.Hole(s.part, "bore", x.Size+room))
		s.dims = append(s.dims, s.bored(f, "bore for a rod of "+check.Number(x.Size)))
		return boreShape{geom.Bore(geom.Point{}, f.Drawn, geom.ChordFit), f.Wanted, f.Drawn, nil}, nil
	case DBore:
		return s.dBore(x, room)
	case HexBore:
		return s.flatsBore(x, room, 6), nil
	case SquareBore:
		return s.flatsBore(x, room, 4), nil
	case Keyway:
		return s.keywayBore(x, room)
	}
	return boreShape{}, &check.FieldError{
		Field: "bore of " + s.part, Text: x.Kind, Reason: "is not known",
		Remedy: `use "round", "d-bore", "hex", "square" or "keyway"`,
	}
}

// fitted notes a fit and returns it.
func (s *structure) fitted(f fit.Fit) fit.Fit {
	s.fits = append(s.fits, f)
	return f
}

// bored dimensions a bore about the axis.
func (s *structure) bored(f fit.Fit, note string) drawing.Dimension {
	return drawing.Circle(geom.Point{}, f.Drawn).Measuring(f.Wanted).ToCheck().Saying(note)
}

// dBore is a round bore with a flat across +x.
func (s *structure) dBore(x Shaft, room float64) (boreShape, error) {
	depth := x.flatDepth(s.spec.SetScrew)
	if !(depth >= 0.02*x.Size && depth <= 0.4*x.Size) {
		return boreShape{}, s.refuse("size over the flat", x.Size-depth, "mm", "is no flat of this rod",
			"measure from the flat to the round side opposite: from "+check.Number(ceilTo(0.6*x.Size))+" to "+check.Number(math.Floor(98*x.Size)/100)+" mm")
	}
	round := s.fitted(s.card.Hole(s.part, "bore", x.Size+room))
	over := s.fitted(s.card.Hole(s.part, "bore over the flat", x.Size-depth+room))
	r := round.Drawn / 2
	flat := math.Min(over.Drawn-r, 0.999*r)
	leave := math.Acos(flat / r)
	outline := geom.NewContour([]geom.Curve{
		geom.Line{A: geom.Polar(r, leave), B: geom.Polar(r, -leave)},
		geom.Arc{Radius: r, From: -leave, To: leave - 2*math.Pi},
	}, geom.ChordFit)
	s.values["flat_over"], s.values["flat_depth"], s.values["flat_width"] = x.Size-depth, depth, 2*math.Sqrt(depth*(x.Size-depth))
	s.dims = append(s.dims, s.bored(round, "D-bore for a rod of "+check.Number(x.Size)),
		drawing.Between(geom.Point{X: -r}, geom.Point{X: flat}).Measuring(over.Wanted).ToCheck().Saying("over the flat"))
	return boreShape{outline, round.Wanted, round.Drawn, nil}, nil
}

// flatsBore is a hexagon or square with a flat across +x. A bead rounds inner
// corners, so each corner is opened by a circle of its width.
func (s *structure) flatsBore(x Shaft, room float64, n int) boreShape {
	across := s.fitted(s.card.Hole(s.part, "bore across the flats", x.Size+room))
	step, relief := 2*math.Pi/float64(n), s.card.BeadWidth/2
	corner := across.Drawn / 2 / math.Cos(step/2)
	half := (math.Pi - step) / 2 // of the corner
	relief = math.Min(relief, corner*math.Sin(step/2)/4)
	var curves []geom.Curve
	for k := range n {
		at := -step * (float64(k) + 0.5)
		next := geom.Polar(corner, at-step)
		arc := geom.Arc{Centre: geom.Polar(corner, at), Radius: relief, From: at + math.Pi - half, To: at - math.Pi + half}
		curves = append(curves, arc, geom.Line{A: arc.End(), B: next.Add(geom.Polar(relief, at-step+math.Pi-half))})
	}
	s.dims = append(s.dims, drawing.Between(geom.Point{X: -across.Drawn / 2}, geom.Point{X: across.Drawn / 2}).
		Measuring(across.Wanted).ToCheck().Saying("across the flats, "+x.Kind+" of "+check.Number(x.Size)))
	outline := geom.NewContour(curves, geom.ChordFit)
	return boreShape{
		outline, across.Wanted/math.Cos(step/2) + 2*relief, 2 * (corner + relief),
		func(c float64) geom.Contour { return grownFlats(outline, corner, step, c) },
	}
}

// grownFlats opens the outline of a bore with flats by c all round, and the
// circles at its corners by a little more, so that they keep their points.
func grownFlats(outline geom.Contour, corner, step, c float64) geom.Contour {
	return outline.Map(func(p geom.Point) geom.Point {
		at := step * (math.Floor(p.Angle()/step) + 0.5)
		out := p.Sub(geom.Polar(corner, at))
		return geom.Polar(corner+c/math.Cos(step/2), at).Add(out.Scale(1 + 1.1*c/out.Len()))
	})
}

// keywayBore is a round bore with the seat of a parallel key at +x.
func (s *structure) keywayBore(x Shaft, room float64) (boreShape, error) {
	key, ok := fit.KeyFor(x.Size)
	if !ok {
		return boreShape{}, s.refuse("shaft", x.Size, "mm", "has no parallel key in the table", "use a shaft from 6 to 30 mm, or a D-bore")
	}
	round := s.fitted(s.card.Hole(s.part, "bore", x.Size+room))
	width := s.fitted(s.card.Hole(s.part, "keyway width", key.Width+s.card.Slip()))
	over := s.fitted(s.card.Hole(s.part, "bore over the keyway", x.Size+room+key.Hub))
	r, half := round.Drawn/2, width.Drawn/2
	bottom := over.Drawn - r
	leave := math.Asin(half / r)
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	mouth := geom.Polar(r, leave)
	outline := geom.NewContour([]geom.Curve{
		geom.Line{A: at(bottom, half), B: at(bottom, -half)},
		geom.Line{A: at(bottom, -half), B: at(mouth.X, -half)},
		geom.Arc{Radius: r, From: -leave, To: leave - 2*math.Pi},
		geom.Line{A: at(mouth.X, half), B: at(bottom, half)},
	}, geom.ChordFit)
	s.values["key_width"], s.values["key_height"], s.values["key_shaft_depth"], s.values["key_hub_depth"] = key.Width, key.Height, key.Shaft, key.Hub
	s.dims = append(s.dims, s.bored(round, "bore for a shaft of "+check.Number(x.Size)),
		drawing.Between(at(bottom, -half), at(bottom, half)).Measuring(width.Wanted).ToCheck().Saying("keyway, key "+check.Number(key.Width)+" × "+check.Number(key.Height)),
		drawing.Between(at(-r, 0), at(bottom, 0)).Measuring(over.Wanted).ToCheck().Saying("over the keyway"))
	reach := func(bore, over, width float64) float64 { return 2 * math.Hypot(over-bore/2, width/2) }
	return boreShape{
		outline, reach(round.Wanted, over.Wanted, width.Wanted), reach(round.Drawn, over.Drawn, width.Drawn),
		func(c float64) geom.Contour { return grownKeyway(outline, r, half, bottom, c) },
	}, nil
}

// grownKeyway opens the outline of a keyed bore by c all round. The mouth of the
// seat moves along the round, which takes its points with it.
func grownKeyway(outline geom.Contour, r, half, bottom, c float64) geom.Contour {
	from, to := math.Asin(half/r), math.Asin((half+c)/(r+c))
	return outline.Map(func(p geom.Point) geom.Point {
		angle := math.Abs(p.Angle())
		switch {
		case math.Abs(p.X-bottom) < 1e-9 && angle < math.Pi/2:
			return geom.Point{X: bottom + c, Y: p.Y + math.Copysign(c, p.Y)}
		case angle <= from+1e-9:
			return geom.Polar(r+c, math.Copysign(to, p.Y))
		}
		return geom.Polar(p.Len()+c, math.Copysign(to+(angle-from)*(math.Pi-to)/(math.Pi-from), p.Y))
	})
}

// addShaft makes the bore of a shaft through gear and hub.
func (s *structure) addShaft(x Shaft) error {
	shape, err := s.bore(x)
	if err != nil {
		return err
	}
	s.values["shaft"] = x.Size
	if err := s.inRoot("shaft", x.Size, shape.wanted, shape.drawn, atMost("shaft", x.Size, 2)); err != nil {
		return err
	}
	if err := s.addHub(x, shape); err != nil {
		return err
	}
	s.shaft = shape
	s.holes = append(s.holes, hole{0, s.height, shape.outline})
	s.around = math.Max(s.around, shape.drawn)
	return nil
}

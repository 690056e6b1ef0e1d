package drawing

import (
	"math"
	"strconv"
	"strings"

	"pintle/geom"
)

// A Kind says what a dimension measures.
type Kind int

// The kinds of dimension, and what A and B are for each.
const (
	Linear   Kind = iota // between A and B
	Diameter             // A and B are opposite points of the circle
	Radius               // A is the centre, B a point of the arc
	Angle                // A and B lie on the legs, Apex where these meet
	Chamfer              // A and B are the ends of the sloping edge, at 45 degrees
)

// A Facing says in which view of a part a dimension stands.
type Facing int

// The views of a part. Plan looks down on its bed side, x and y as in the print
// frame. Section is the cut A-A: x is measured along the cut from the part's
// origin, y is the height over the bed.
const (
	Plan Facing = iota
	Section
)

// A Dimension is one size that matters. Figures are mm, or degrees for an angle.
type Dimension struct {
	Kind         Kind
	Facing       Facing
	A, B, Apex   geom.Point
	Value        float64 // of the finished part; 0 takes what the places measure
	Lower, Upper float64 // deviations allowed from Value; both 0 for the general tolerance
	Class        string  // tolerance class of ISO 286 that Lower and Upper stand for, such as "H7"
	Count        int     // of equal features; 0 and 1 print nothing
	Checked      bool    // to be measured on the finished part
	Auxiliary    bool    // follows from other sizes: printed in brackets, without tolerance
	Note         string  // after the figure: "for 30203", "through"
}

// Between measures from a to b in the plan: along x or y where they differ in
// one only, else straight.
func Between(a, b geom.Point) Dimension { return Dimension{A: a, B: b} }

// Heights measures in the section from height z0 to z1, beside x.
func Heights(x, z0, z1 float64) Dimension {
	return Dimension{Facing: Section, A: geom.Point{X: x, Y: z0}, B: geom.Point{X: x, Y: z1}}
}

// Circle measures the diameter of a circle in the plan.
func Circle(centre geom.Point, diameter float64) Dimension {
	arm := geom.Point{X: diameter / 2}
	return Dimension{Kind: Diameter, A: centre.Sub(arm), B: centre.Add(arm)}
}

// Turned measures a diameter about the part's axis in the section, at height z.
func Turned(diameter, z float64) Dimension {
	return Dimension{Kind: Diameter, Facing: Section, A: geom.Point{X: -diameter / 2, Y: z}, B: geom.Point{X: diameter / 2, Y: z}}
}

// Rounding measures the radius of an arc in the plan, shown at the angle in
// radians.
func Rounding(centre geom.Point, radius, angle float64) Dimension {
	return Dimension{Kind: Radius, A: centre, B: centre.Add(geom.Polar(radius, angle))}
}

// Opening measures the angle at apex from the leg through a to that through b,
// anticlockwise, in the plan.
func Opening(apex, a, b geom.Point) Dimension {
	return Dimension{Kind: Angle, Apex: apex, A: a, B: b}
}

// Bevel measures a chamfer of 45 degrees in the section, from a to b.
func Bevel(a, b geom.Point) Dimension {
	return Dimension{Kind: Chamfer, Facing: Section, A: a, B: b}
}

// Measuring returns the dimension with the size that the finished part should
// have, where the outline is drawn with an allowance.
func (d Dimension) Measuring(value float64) Dimension { d.Value = value; return d }

// Within returns the dimension with the deviations allowed from its value.
func (d Dimension) Within(lower, upper float64) Dimension {
	d.Lower, d.Upper = lower, upper
	return d
}

// InClass returns the dimension with a class of ISO 286 and its deviations.
func (d Dimension) InClass(class string, lower, upper float64) Dimension {
	d.Class = class
	return d.Within(lower, upper)
}

// Times returns the dimension of n equal features.
func (d Dimension) Times(n int) Dimension { d.Count = n; return d }

// ToCheck returns the dimension marked as one to be measured.
func (d Dimension) ToCheck() Dimension { d.Checked = true; return d }

// InBrackets returns the dimension as one that follows from others.
func (d Dimension) InBrackets() Dimension { d.Auxiliary = true; return d }

// Saying returns the dimension with words after its figure.
func (d Dimension) Saying(note string) Dimension { d.Note = note; return d }

// Size returns the value of the dimension: as given, or as its places measure.
func (d Dimension) Size() float64 {
	if d.Value != 0 {
		return d.Value
	}
	switch d.Kind {
	case Angle:
		a, b := d.A.Sub(d.Apex), d.B.Sub(d.Apex)
		turn := math.Mod(math.Atan2(b.Y, b.X)-math.Atan2(a.Y, a.X)+4*math.Pi, 2*math.Pi)
		return turn * 180 / math.Pi
	case Chamfer:
		return math.Abs(d.B.Y - d.A.Y)
	}
	return d.B.Sub(d.A).Len()
}

// Text returns what stands at the dimension line (ISO 129-1, ISO 406; both from
// memory): "4× Ø3.4", "Ø22 H7 +0.021/0", "R5", "30°", "0.4×45°", "(57)".
func (d Dimension) Text() string {
	var t strings.Builder
	if d.Count > 1 {
		t.WriteString(strconv.Itoa(d.Count) + "× ")
	}
	if d.Auxiliary {
		t.WriteString("(")
	}
	t.WriteString([]string{Diameter: "Ø", Radius: "R", Chamfer: ""}[min(d.Kind, Chamfer)])
	t.WriteString(d.figure())
	t.WriteString([]string{Angle: "°", Chamfer: "×45°"}[min(d.Kind, Chamfer)])
	if d.Auxiliary {
		t.WriteString(")")
	} else {
		t.WriteString(d.tolerance())
	}
	if d.Note != "" {
		t.WriteString(" " + d.Note)
	}
	return t.String()
}

// figure prints the size: to a hundredth under the general tolerance, else to a
// thousandth.
func (d Dimension) figure() string {
	if d.Lower == 0 && d.Upper == 0 {
		return rounded(d.Size())
	}
	return Figure(d.Size())
}

func rounded(v float64) string { return Figure(math.Round(v*100) / 100) }

func (d Dimension) tolerance() string {
	var t string
	if d.Class != "" {
		t = " " + d.Class
	}
	switch {
	case d.Lower == 0 && d.Upper == 0:
		return t
	case d.Lower == -d.Upper:
		return t + " ±" + Figure(d.Upper)
	}
	return t + " " + deviation(d.Upper) + "/" + deviation(d.Lower)
}

func deviation(v float64) string {
	if v > 0 {
		return "+" + Figure(v)
	}
	return strings.Replace(Figure(v), "-", "−", 1)
}

// Figure prints a size to a thousandth of a millimetre at most, without zeros
// that say nothing.
func Figure(v float64) string {
	s := strconv.FormatFloat(v, 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

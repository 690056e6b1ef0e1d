// Package bearing knows rolling bearings and the printed rings that hold them:
// a table of boundary dimensions, the press fit of a steel ring in plastic, the
// shoulders that may touch which ring, what holds it there, the fits of ISO 286
// for seats that are machined, and whether a load keeps one bearing or two
// together.
//
// Lengths are millimetres, forces N (load ratings kN), moments N·m, stresses
// MPa. An axial load is positive where it presses the outer ring into its
// shoulder. Interference is on the diameter, positive where it grips.
//
// Press fits are Lamé's thick-walled cylinders in plane stress, both members
// elastic. The package knows no gears and no files. At the speed and load of a
// figure the printed seat is the limit, hardly ever the bearing.
package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

// Kind says how a bearing is built.
type Kind string

// The kinds the table knows. Unknown is a bearing known by its sizes alone; it
// is treated as a deep-groove ball bearing.
const (
	Unknown    Kind = "unknown"
	DeepGroove Kind = "deep groove"
	Tapered    Kind = "tapered"
	ThrustBall Kind = "thrust ball"
)

// Where a row's dimensions come from. Minimum chamfers are mostly from memory.
const (
	Seen   = "seen"   // in a printed source, named in testdata/ref/bearings.csv
	Memory = "memory" // recalled: measure the bearing
)

// MaxOutside is the largest outside diameter in mm that a ring is made for.
const MaxOutside = 300

// An Abutment is a maker's limits in mm for the parts beside a tapered bearing;
// zero means that the table does not say.
type Abutment struct {
	DaShaftMin, DbShaftMax     float64 // shaft shoulder at the cone's back face, spacer at its front
	DaHousingMin, DaHousingMax float64 // shoulder hole at the cup's back face
	DbHousingMin               float64 // opening at the cup's front face
	Sa, Sb                     float64 // axial room for the cage, front and back
}

// A Bearing is one row of the table, or a bearing the builder measured.
type Bearing struct {
	Designation          string // "608", or "" for sizes alone
	Kind                 Kind
	Bore, Outside, Width float64 // mm; Width overall: B, T (tapered) or H (thrust)
	ConeWidth, CupWidth  float64 // mm, B and C of a tapered bearing; a thrust bearing's CupWidth is the thickness of its housing washer, 0 if not measured
	WasherBore           float64 // mm, bore of a thrust bearing's housing washer; 0 not measured
	RMin                 float64 // mm, smallest chamfer of the outer ring; 0 unknown
	E, Y, Y0             float64 // axial load factors of a tapered bearing; 0 unknown
	LoadCentre           float64 // mm, a: from the cup's back face towards the large ends of the rollers; 0 unknown
	C, C0                float64 // kN, dynamic and static rating, of one maker; 0 unknown
	Abutment             Abutment
	Provenance           string // Seen, Memory, or "" for a bearing not in the table
	BoreMeasured         bool   // Bore is a reading
	Measured             bool   // sizes were measured on the bearing in hand
}

// Sized returns a bearing known by its sizes in mm alone, taken as measured.
func Sized(bore, outside, width float64) Bearing {
	return Bearing{Kind: Unknown, Bore: bore, Outside: outside, Width: width, Measured: true, BoreMeasured: true}
}

// Name returns the designation, or the sizes as "8x22x7".
func (b Bearing) Name() string {
	if b.Designation != "" {
		return b.Designation
	}
	return fmt.Sprintf("%sx%sx%s", check.Number(b.Bore), check.Number(b.Outside), check.Number(b.Width))
}

// MeanDiameter returns (d + D) / 2 in mm, where the rolling elements run.
func (b Bearing) MeanDiameter() float64 { return (b.Bore + b.Outside) / 2 }

// SeatWidth returns the width in mm of the ring that goes into the seat: the
// outer ring, the cup, or the housing washer. A housing washer that nobody
// measured is taken as a quarter of the height (from memory).
func (b Bearing) SeatWidth() float64 {
	switch {
	case b.CupWidth > 0 && (b.Kind == Tapered || b.Kind == ThrustBall):
		return b.CupWidth
	case b.Kind == ThrustBall:
		return b.Width / 4
	}
	return b.Width
}

// RingInner returns the mean inner diameter in mm of the outer ring, an
// estimate: 0.95 (d + 4D) / 5 (form seen, factors from memory); a housing
// washer that nobody measured is taken as 1 mm larger than the shaft.
func (b Bearing) RingInner() float64 {
	if b.Kind == ThrustBall {
		return math.Min(orElse(b.WasherBore, b.Bore+1), b.MeanDiameter())
	}
	return 0.95 * (b.Bore + 4*b.Outside) / 5
}

// backFaceInner returns the inner diameter in mm of the outer ring's face on
// the shoulder. A cup narrows towards its back face by its contact angle,
// tan(alpha) = e / 1.5 (the definition of e, from memory).
func (b Bearing) backFaceInner() float64 {
	if b.Kind != Tapered {
		return b.RingInner()
	}
	return b.RingInner() - b.SeatWidth()*b.E/1.5
}

// Validate returns a *check.FieldError for sizes no bearing has.
func (b Bearing) Validate() error {
	const inches = "these look like inches: write 0.5in, or multiply by 25.4"
	for _, size := range []struct {
		field string
		value float64
	}{{"bearing bore", b.Bore}, {"bearing outside diameter", b.Outside}, {"bearing width", b.Width}} {
		const remedy = "measure the bearing with a caliper, in mm; 22 in would be 558.8 mm"
		if err := check.Positive(size.field, size.value, "mm", remedy); err != nil {
			return err
		}
		if err := check.InRange(size.field, size.value, "mm", 0, MaxOutside, remedy); err != nil {
			return err
		}
	}
	for _, size := range []struct {
		field        string
		value, least float64
	}{{"bearing bore", b.Bore, 1}, {"bearing outside diameter", b.Outside, 3}, {"bearing width", b.Width, 0.5}} {
		if size.value < size.least {
			return &check.FieldError{Field: size.field, Value: size.value, Unit: "mm", Reason: "is smaller than any bearing a figure turns on", Remedy: inches}
		}
	}
	if b.Bore >= b.Outside {
		return &check.FieldError{
			Field: "bearing bore", Value: b.Bore, Unit: "mm",
			Reason: fmt.Sprintf("must be smaller than the outside diameter %v mm", b.Outside), Remedy: "are bore and outside swapped?",
		}
	}
	return b.validateRings()
}

func (b Bearing) validateRings() error {
	if section := b.Outside - b.Bore; section < 1 {
		return &check.FieldError{
			Field: "bearing bore", Value: b.Bore, Unit: "mm",
			Reason: fmt.Sprintf("leaves %v mm for two rings and what rolls between them", section/2), Remedy: "measure bore and outside diameter again",
		}
	}
	if !(b.Width <= b.Outside) {
		return &check.FieldError{
			Field: "bearing width", Value: b.Width, Unit: "mm",
			Reason: "is larger than the outside diameter", Remedy: "measure the width along the axis; a needle bearing is not a case for this ring",
		}
	}
	for _, ring := range []struct {
		field string
		value float64
	}{{"cone width", b.ConeWidth}, {"cup width", b.CupWidth}} {
		if err := check.InRange(ring.field, ring.value, "mm", 0, b.Width, "measure the one ring alone; the overall width is larger"); err != nil {
			return err
		}
	}
	if err := check.InRange("housing washer bore", b.WasherBore, "mm", 0, b.Outside-1, "measure the bore of the washer that goes into the housing"); err != nil {
		return err
	}
	if b.Kind == Tapered && b.CupWidth == 0 {
		return &check.FieldError{
			Field: "cup width", Value: 0, Unit: "mm",
			Reason: "must be known: the seat is as deep as the cup, not as the bearing", Remedy: "measure the cup alone",
		}
	}
	return nil
}

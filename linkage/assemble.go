package linkage

import (
	"fmt"
	"math"

	"pintle/check"
)

// assembles returns an error for a four-bar that does not close everywhere in
// the horn's travel: the first impossible position, and the rod that cures it.
func (s Spec) assembles() error {
	f := s.flat()
	at, how := s.FromDeg, "a rod of this length does not join horn and lever there"
	if _, ok := f.At(s.FromDeg * deg); ok {
		at, how = f.lockAfter(s.FromDeg, 1)
		if at > s.ToDeg {
			return nil
		}
	}
	return &check.FieldError{
		Field: "rod length", Value: s.Rod, Unit: "mm",
		Reason: fmt.Sprintf("the linkage cannot be assembled with the horn at %s deg: %s", check.Number(round(at, 3)), how),
		Remedy: s.cureOfReach(),
	}
}

// lockAfter returns the first angle in deg after (way 1) or before (way -1) a
// given one at which the horn locks, +-Inf where none does, and how.
func (f FourBar) lockAfter(hornDeg, way float64) (float64, string) {
	nearest, how := math.Inf(1), ""
	for _, d := range f.HornDeadPoints() {
		for _, side := range []float64{d.Angle, -d.Angle} {
			ahead := math.Mod(way*(side/deg-hornDeg), 360)
			if ahead < 0 {
				ahead += 360
			}
			if ahead < nearest {
				nearest, how = ahead, d.How()
			}
		}
	}
	return hornDeg + way*nearest, how
}

// reach returns the least and the greatest distance from the horn's pin to the
// lever's axis over the travel: s² = a² + d² - 2 a d cos t2.
func (f FourBar) reach(fromDeg, toDeg float64) (least, most float64) {
	at := func(hornDeg float64) float64 {
		return math.Sqrt(max(f.Horn*f.Horn+f.Frame*f.Frame-2*f.Horn*f.Frame*math.Cos(hornDeg*deg), 0))
	}
	least, most = min(at(fromDeg), at(toDeg)), max(at(fromDeg), at(toDeg))
	if math.Ceil(fromDeg/360)*360 <= toDeg {
		least = math.Abs(f.Frame - f.Horn)
	}
	if math.Ceil((fromDeg-180)/360)*360+180 <= toDeg {
		most = f.Frame + f.Horn
	}
	return least, most
}

// RodRange returns the lengths of rod in mm, as seen square to the plane, that
// keep the transmission angle at least a given angle in deg from 0 and from 180
// over the horn's travel; false where no length does. From the cosine rule at
// the nearest and the farthest place of the horn's pin.
func (f FourBar) RodRange(fromDeg, toDeg, leastDeg float64) (lo, hi float64, ok bool) {
	near, far := f.reach(fromDeg, toDeg)
	sin, cos := math.Sincos(leastDeg * deg)
	fold, stretch := near*near-sq(f.Lever*sin), far*far-sq(f.Lever*sin)
	if fold < 0 {
		return 0, 0, false
	}
	lo, hi = f.Lever*cos-math.Sqrt(fold), f.Lever*cos+math.Sqrt(fold)
	if stretch > 0 {
		lo = max(lo, math.Sqrt(stretch)-f.Lever*cos)
	}
	return lo, hi, lo < hi && hi > 0
}

// CentredRod returns the length of rod in mm, as seen square to the plane, for
// which the transmission angle strays equally far from 90 deg to both sides over
// the horn's travel: b² = (s_min² + s_max²)/2 - c². It is false where a lever is
// too long for that.
func (f FourBar) CentredRod(fromDeg, toDeg float64) (float64, bool) {
	near, far := f.reach(fromDeg, toDeg)
	square := (near*near+far*far)/2 - f.Lever*f.Lever
	if !(square > 0) {
		return 0, false
	}
	rod := math.Sqrt(square)
	return rod, rod-f.Lever < near && f.Lever-rod < near && far < rod+f.Lever
}

// cureOfReach names the lengths of rod that close the linkage everywhere, kept
// well away from dead points where that is possible.
func (s Spec) cureOfReach() string {
	for _, least := range []float64{40, 30, 10} {
		lo, hi, ok := s.FourBar.RodRange(s.FromDeg, s.ToDeg, least)
		lo, hi = ceil(s.trueRod(max(lo, shortest)), 2), floor(s.trueRod(hi), 2)
		if ok && lo <= hi {
			return fmt.Sprintf("rod from %s to %s mm", check.Number(lo), check.Number(hi))
		}
	}
	return "shorten the horn or its travel; no rod closes this one with a transmission angle of 10 deg"
}

// trueRod returns the length between its ball centres of a rod that looks so
// long seen square to the plane of motion.
func (s Spec) trueRod(flat float64) float64 { return math.Hypot(flat, s.Offset) }

func sq(v float64) float64 { return v * v }

func round(v float64, decimals int) float64 {
	unit := math.Pow(10, float64(decimals))
	return math.Round(v*unit) / unit
}

// ceil and floor round a limit to a few decimals, to the safe side.
func ceil(v float64, decimals int) float64 {
	unit := math.Pow(10, float64(decimals))
	return math.Ceil(v*unit-1e-9) / unit
}

func floor(v float64, decimals int) float64 {
	unit := math.Pow(10, float64(decimals))
	return math.Floor(v*unit+1e-9) / unit
}

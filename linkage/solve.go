package linkage

import (
	"cmp"
	"math"
	"slices"
)

// A Choice is one way to bring the lever to a wanted swing: one length changed,
// and the rod set to what centres the transmission angle.
type Choice struct {
	FourBar
	Changed string  // "lever" or "horn"
	MuMin   float64 // deg, the transmission angle where it is worst, from 90 deg either way
}

// swing returns how far the lever turns over the horn's travel, in deg, or false
// where the linkage does not close all the way or the lever turns back.
func (f FourBar) swing(fromDeg, toDeg float64) (float64, bool) {
	a, ok := f.At(fromDeg * deg)
	b, ok2 := f.At(toDeg * deg)
	if !ok || !ok2 {
		return 0, false
	}
	if lock, _ := f.lockAfter(fromDeg, 1); lock <= toDeg {
		return 0, false
	}
	const looks = 24
	sum, last := 0.0, a
	for i := 1; i <= looks; i++ {
		p, _ := f.At((fromDeg + (toDeg-fromDeg)*float64(i)/looks) * deg)
		if p.Ratio*a.Ratio <= 0 {
			return 0, false
		}
		sum += math.Remainder(p.Lever-last.Lever, 2*math.Pi)
		last = p
	}
	return math.Abs(sum+math.Remainder(b.Lever-last.Lever, 2*math.Pi)) / deg, true
}

// centred returns the four-bar with the rod that centres its transmission angle.
func (f FourBar) centred(fromDeg, toDeg float64) (FourBar, bool) {
	rod, ok := f.CentredRod(fromDeg, toDeg)
	f.Rod = rod
	return f, ok
}

// worstMu returns the transmission angle where it is worst over the horn's
// travel, from 90 deg either way, in deg.
func (f FourBar) worstMu(fromDeg, toDeg float64) float64 {
	near, far := f.reach(fromDeg, toDeg)
	at := func(reach float64) float64 {
		cos := (f.Rod*f.Rod + f.Lever*f.Lever - reach*reach) / (2 * f.Rod * f.Lever)
		return OffSquareDeg(math.Acos(min(max(cos, -1), 1)) / deg)
	}
	return min(at(near), at(far))
}

// SolveLever returns the lever, and with it the rod that centres the transmission
// angle, that turns the lever by a wanted swing in deg over the horn's travel,
// within 1e-9 deg; false where no lever from a quarter of the horn to 20 horns
// does.
func (f FourBar) SolveLever(fromDeg, toDeg, swingDeg float64) (FourBar, bool) {
	return f.solve(fromDeg, toDeg, swingDeg, 20*f.Horn, 0.25*f.Horn, func(f FourBar, v float64) FourBar { f.Lever = v; return f })
}

// SolveHorn does the same by the horn, from a twentieth of the lever to four
// levers.
func (f FourBar) SolveHorn(fromDeg, toDeg, swingDeg float64) (FourBar, bool) {
	return f.solve(fromDeg, toDeg, swingDeg, 0.05*f.Lever, 4*f.Lever, func(f FourBar, v float64) FourBar { f.Horn = v; return f })
}

// solve goes from a length that gives too little swing towards one that gives
// more until the wanted one is passed, then halves the interval. Lengths at which
// the linkage does not close end the search once any did.
func (f FourBar) solve(fromDeg, toDeg, swingDeg, start, end float64, with func(FourBar, float64) FourBar) (FourBar, bool) {
	try := func(v float64) (FourBar, float64, bool) {
		own, ok := with(f, v).centred(fromDeg, toDeg)
		if !ok {
			return own, 0, false
		}
		swing, ok := own.swing(fromDeg, toDeg)
		return own, swing, ok
	}
	const tries = 80
	little := math.NaN()
	for i := range tries + 1 {
		v := start * math.Pow(end/start, float64(i)/tries)
		_, swing, ok := try(v)
		switch {
		case !ok && !math.IsNaN(little):
			return FourBar{}, false
		case !ok:
		case swing < swingDeg:
			little = v
		case math.IsNaN(little):
			return FourBar{}, false
		default:
			much := v
			for range 60 {
				middle := (little + much) / 2
				if _, swing, ok := try(middle); ok && swing < swingDeg {
					little = middle
				} else {
					much = middle
				}
			}
			own, _, ok := try(much)
			return own, ok
		}
	}
	return FourBar{}, false
}

// SolveRod returns the rod that puts the middle of the lever's swing at an angle
// in deg: with the lever there and the horn in the middle of its travel the two
// pins are just so far apart, which is where the search starts. Within 1e-9 deg;
// false where the linkage does not close with it.
func (f FourBar) SolveRod(fromDeg, toDeg, middleDeg float64) (FourBar, bool) {
	middle := func(rod float64) (float64, bool) {
		own := f
		own.Rod = rod
		if _, ok := own.swing(fromDeg, toDeg); !ok {
			return 0, false
		}
		a, _ := own.At(fromDeg * deg)
		b, _ := own.At(toDeg * deg)
		return math.Remainder(a.Lever/deg+math.Remainder((b.Lever-a.Lever)/deg, 360)/2-middleDeg, 360), true
	}
	horn, lever := (fromDeg+toDeg)/2*deg, middleDeg*deg
	rod := math.Hypot(f.Frame+f.Lever*math.Cos(lever)-f.Horn*math.Cos(horn), f.Lever*math.Sin(lever)-f.Horn*math.Sin(horn))
	step := 0.001 * f.Lever
	for range 60 { // secants
		off, ok := middle(rod)
		next, ok2 := middle(rod + step)
		if !ok || !ok2 || next == off {
			return FourBar{}, false
		}
		if math.Abs(off) < 1e-9 {
			f.Rod = rod
			return f, true
		}
		change := -off * step / (next - off)
		rod += min(max(change, -0.1*f.Lever), 0.1*f.Lever)
		step = max(min(math.Abs(change), step)/10, 1e-9*f.Lever)
	}
	return FourBar{}, false
}

// Choices returns the ways to the wanted swing over the horn's whole travel, the
// one with the largest transmission angle first; none without a wanted swing.
func (s *Stroke) Choices() []Choice {
	from, to, swing := s.spec.FromDeg, s.spec.ToDeg, s.spec.SwingDeg
	if swing == 0 || s.spec.Turning {
		return nil
	}
	var list []Choice
	add := func(changed string, f FourBar, ok bool) {
		if ok {
			list = append(list, Choice{f, changed, f.worstMu(from, to)})
		}
	}
	lever, ok := s.flat.SolveLever(from, to, swing)
	add("lever", lever, ok)
	horn, ok := s.flat.SolveHorn(from, to, swing)
	add("horn", horn, ok)
	slices.SortFunc(list, func(a, b Choice) int { return cmp.Compare(b.MuMin, a.MuMin) })
	return list
}

package linkage

import (
	"math"
	"sort"

	"pintle/check"
	"pintle/drive"
)

// A Stroke is a checked four-bar followed through its travel.
type Stroke struct {
	spec     Spec    // with defaults filled in
	flat     FourBar // as seen square to the plane of motion
	stations []Station
	oneWay   bool // the lever never turns back
	used     Used
	drive    *drive.Drive // nil without servo, load and motion
	findings []check.Finding
}

// Used is the part of the stroke that the wanted swing takes, in deg; the whole
// stroke where no swing is wanted or the stroke does not hold it.
type Used struct {
	HornFromDeg, HornToDeg   float64
	LeverFromDeg, LeverToDeg float64 // at HornFromDeg and HornToDeg: falls on a crossed linkage
}

// New follows a four-bar through its stroke. It returns a *check.FieldError for
// quantities that no linkage can have and for a linkage that cannot be assembled
// everywhere in the stroke, with the first impossible position and the rod that
// cures it.
func New(spec Spec) (*Stroke, error) {
	s, err := followed(spec)
	if err != nil {
		return nil, err
	}
	s.findings = s.judge()
	s.addRemedies()
	if s.drive != nil {
		s.findings = append(s.findings, s.drive.Notes()...)
	}
	return s, nil
}

// followed is New without findings.
func followed(spec Spec) (*Stroke, error) {
	spec = spec.filled()
	if err := spec.validate(); err != nil {
		return nil, err
	}
	s := &Stroke{spec: spec, flat: spec.flat()}
	if err := spec.assembles(); err != nil {
		return nil, err
	}
	s.stations = s.flat.follow(spec.FromDeg, spec.ToDeg, spec.Stations)
	s.oneWay = oneWay(s.stations)
	s.used = s.use()
	return s, s.size()
}

// Spec returns the spec with its defaults filled in.
func (s *Stroke) Spec() Spec { return s.spec }

// Stations returns the positions of the stroke, at even steps of the horn.
func (s *Stroke) Stations() []Station { return s.stations }

// Used returns the part of the stroke that the wanted swing takes.
func (s *Stroke) Used() Used { return s.used }

// At returns the position with the horn at an angle in deg, anywhere the linkage
// closes, with the lever's angle near those of the stroke.
func (s *Stroke) At(hornDeg float64) (Station, bool) {
	pose, ok := s.flat.At(hornDeg * deg)
	if !ok {
		return Station{}, false
	}
	st := station(pose)
	st.HornDeg = hornDeg
	by := s.stations[s.nearest(hornDeg)]
	st.LeverDeg, st.RodDeg = near(st.LeverDeg, by.LeverDeg), near(st.RodDeg, by.RodDeg)
	return st, true
}

// nearest returns the number of the station nearest to an angle of the horn.
func (s *Stroke) nearest(hornDeg float64) int {
	last := len(s.stations) - 1
	share := (hornDeg - s.spec.FromDeg) / (s.spec.ToDeg - s.spec.FromDeg)
	return int(math.Round(min(max(share, 0), 1) * float64(last)))
}

// Monotone says whether the lever turns one way all along the stroke.
func (s *Stroke) Monotone() bool { return s.oneWay }

func oneWay(stations []Station) bool {
	for _, st := range stations {
		if st.Ratio*stations[0].Ratio <= 0 {
			return false
		}
	}
	return true
}

// HornFor returns the angle of the horn in deg that brings the lever to an
// angle, within 1e-9 deg; false outside the stroke and on a stroke on which the
// lever does not turn one way.
func (s *Stroke) HornFor(leverDeg float64) (float64, bool) {
	n, sign := len(s.stations), math.Copysign(1, s.stations[0].Ratio)
	off := func(i int) float64 { return sign * (s.stations[i].LeverDeg - leverDeg) }
	const ends = 1e-9 // deg: the stroke's own ends lie within it
	if !s.Monotone() || off(0) > ends || off(n-1) < -ends {
		return 0, false
	}
	i := min(max(sort.Search(n, func(i int) bool { return off(i) >= 0 }), 1), n-1)
	lo, hi := s.stations[i-1].HornDeg, s.stations[i].HornDeg
	horn := lo + (hi-lo)*min(max(off(i-1)/(off(i-1)-off(i)), 0), 1)
	for range 20 { // Newton: the ratio is the slope and is not 0 in between
		st, _ := s.At(horn)
		step := (leverDeg - st.LeverDeg) / st.Ratio
		horn = min(max(horn+step, lo), hi)
		if math.Abs(step) < 1e-11 {
			break
		}
	}
	return horn, true
}

// use places the wanted swing so that the horn moves equally far to both sides
// of the middle of its travel.
func (s *Stroke) use() Used {
	from, to := s.spec.FromDeg, s.spec.ToDeg
	middle, half := (from+to)/2, (to-from)/2
	if swing := s.spec.SwingDeg; swing > 0 && s.Monotone() && swing <= s.SwingDeg() {
		lo, hi := 0.0, half
		for range 50 {
			w := (lo + hi) / 2
			if s.span(middle-w, middle+w) < swing {
				lo = w
			} else {
				hi = w
			}
		}
		half = hi
	}
	a, _ := s.At(middle - half)
	b, _ := s.At(middle + half)
	return Used{middle - half, middle + half, a.LeverDeg, b.LeverDeg}
}

// span returns how far the lever turns between two angles of the horn, in deg.
func (s *Stroke) span(fromDeg, toDeg float64) float64 {
	a, _ := s.At(fromDeg)
	b, _ := s.At(toDeg)
	return math.Abs(b.LeverDeg - a.LeverDeg)
}

// LeverRange returns the least and the greatest angle of the lever along the
// whole stroke, in deg. Where the lever turns back in between, its limit
// position is taken exactly.
func (s *Stroke) LeverRange() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, st := range s.stations {
		lo, hi = min(lo, st.LeverDeg), max(hi, st.LeverDeg)
		if i == 0 || st.Ratio*s.stations[i-1].Ratio > 0 {
			continue
		}
		for _, d := range s.flat.LeverDeadPoints() {
			for _, side := range []float64{d.Angle, -d.Angle} {
				turn := near(side/deg, st.LeverDeg)
				if math.Abs(turn-st.LeverDeg) < 2*(s.spec.ToDeg-s.spec.FromDeg)/float64(len(s.stations)) {
					lo, hi = min(lo, turn), max(hi, turn)
				}
			}
		}
	}
	return lo, hi
}

// SwingDeg returns how far the lever turns along the whole stroke, in deg.
func (s *Stroke) SwingDeg() float64 {
	lo, hi := s.LeverRange()
	return hi - lo
}

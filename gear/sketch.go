package gear

import (
	"maps"
	"math"
	"slices"

	"pintle/check"
	"pintle/geom"
)

// A Sketch is a pair as its closed forms give it, before outlines are drawn,
// proved and turned: a search judges thousands of pairs by it and makes Pairs of
// the best.
type Sketch struct{ solution }

// NewSketch works out a pair's teeth alone. The error is that of NewPair where
// the teeth are to blame.
func NewSketch(spec PairSpec) (Sketch, error) {
	s, err := solve(spec)
	return Sketch{s}, err
}

// bare returns a pair without outlines, for the rules that need none.
func (s Sketch) bare() *Pair { return &Pair{solution: s.solution, gears: [2]*Gear{{}, {}}} }

// LostMotion returns the turn of the wheel in rad that the backlash leaves free.
func (s Sketch) LostMotion() float64 { return s.bare().LostMotion() }

// Judge returns the names of the rules that fail, and of those that caution,
// each once and in the order of the alphabet: teeth, strength and walls. Interference
// and the proof by motion are left to Pair, so that a Pair may fail more.
func (s Sketch) Judge() (failed, cautions []string) {
	fell := map[string]check.Verdict{}
	note := func(name string, v check.Verdict) {
		if v == check.Fail || v == check.Caution && fell[name] != check.Fail {
			fell[name] = v
		}
	}
	for _, j := range s.toothRules() {
		if j.rule != "interference" {
			j = s.judge(j)
			note(j.rule, j.verdict())
		}
	}
	p := s.bare()
	if f, ok := p.saySliding(); ok {
		note(f.Check, f.Verdict)
	}
	for i, t := range s.contact.t {
		for _, f := range p.sayTeeth(i, t.lewis()) {
			note(f.Check, f.Verdict)
		}
		drawn, _ := s.drawn(i)
		body, err := newStructure(s.spec, i, t, drawn, geom.Contour{})
		if err != nil {
			note("rim", check.Fail)
		}
		p.gears[i].body = body
		for _, f := range p.judgeMargins(i) {
			note(f.Check, f.Verdict)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(fell)) {
		if fell[name] == check.Fail {
			failed = append(failed, name)
		} else {
			cautions = append(cautions, name)
		}
	}
	return failed, cautions
}

// Proportions are the chief sizes of an external pair, in mm.
type Proportions struct {
	Shift          [2]float64
	CentreDistance float64
	Working        [2]float64 // working pitch diameters
	Tip, Root      [2]float64 // diameters
}

// Proportions returns the chief sizes of a pair from its numbers of teeth,
// module and shift rule, a few hundred nanoseconds of closed forms; the rest of
// the spec is left aside and not checked. The error is a *check.FieldError where
// no shifts give the centre distance.
func (s PairSpec) Proportions() (Proportions, error) {
	if s.Rack == (Rack{}) {
		s.Rack = ProfileA().Fitted(s.PressureAngle)
	}
	x, err := s.shifts()
	if err != nil {
		return Proportions{}, err
	}
	sum := x[0] + x[1]
	p := Proportions{Shift: x, CentreDistance: s.CentreDistance}
	if p.CentreDistance == 0 {
		p.CentreDistance = s.referenceDistance()
		if sum != 0 {
			p.CentreDistance = s.distanceFor(sum)
		}
	}
	k := s.tipAlteration(sum, p.CentreDistance)
	for i, z := range s.Teeth {
		d := s.Module * float64(z)
		p.Working[i] = 2 * p.CentreDistance * float64(z) / s.teethSum()
		p.Tip[i] = d + 2*s.Module*(s.Rack.Addendum+x[i]+k)
		p.Root[i] = d - 2*s.Module*(s.Rack.dedendum()-x[i])
	}
	return p, nil
}

// Scaled returns the proportions of a pair of unit module at another module.
func (p Proportions) Scaled(m float64) Proportions {
	p.CentreDistance *= m
	for i := range 2 {
		p.Working[i] *= m
		p.Tip[i] *= m
		p.Root[i] *= m
	}
	return p
}

// BacklashRoom returns what the normal backlash of a pair in mm leaves above the
// floor of the rule backlash, and above 0, with the centres as near as their
// tolerance: j cos(alpha_w) - 2 t sin(alpha_w), to about 0.002 mm.
func (s PairSpec) BacklashRoom(p Proportions) (overFloor, overZero float64) {
	tolerance := s.CentreTolerance
	if tolerance == 0 {
		tolerance = DefaultCentreTolerance
	}
	cos := s.referenceDistance() * math.Cos(s.PressureAngle) / p.CentreDistance
	left := s.Backlash*cos - 2*tolerance*math.Sqrt(math.Max(1-cos*cos, 0))
	limit := solution{spec: s}.limit("backlash", check.Limit{Caution: minBacklashFloor(p.CentreDistance, s.Module)})
	return left - limit.Caution, left - limit.Fail
}

// StressShare returns the worst root stress of a pair as a share of the limit at
// which tooth-bending or tooth-stall fails, for the form factors of both teeth;
// 0 where servo or plastic are not known, or nothing fails.
func (s PairSpec) StressShare(p Proportions, form [2]float64) float64 {
	l, worst := s.Loading, 0.0
	for i := range s.Teeth {
		stall := bending(2000*l.Stall/p.Working[0], s.FaceWidth, s.Module, form[i])
		worst = max(worst, s.StressLimitShare("tooth-bending", i, stall*WorkingShare*l.service()), s.StressLimitShare("tooth-stall", i, stall))
	}
	return worst
}

// StressLimitShare returns a root stress of gear i in MPa as a share of the
// limit at which tooth-bending or tooth-stall fails; 0 where there is none.
func (s PairSpec) StressLimitShare(name string, i int, stress float64) float64 {
	own := check.Limit{Fail: s.Loading.Material[i].Strength}
	if allowable, known := s.Loading.allowable(i); !known {
		return 0
	} else if name == "tooth-bending" {
		own.Fail = 2 * allowable
	}
	if limit := (solution{spec: s}).limit(name, own).Fail; limit > 0 {
		return stress / limit
	}
	return 0
}

// LeastModule returns the smallest module in mm that prints well with a bead
// width in mm: 2.5 beads, the limit of tooth-size (common practice, no source).
func LeastModule(bead float64) float64 { return 2.5 * bead }

// LewisFactorOf returns the form factor Y of a tooth as its rack leaves it, not
// thinned and with its whole tip; see LewisFactor.
func LewisFactorOf(z int, x, alpha float64, rack Rack) float64 {
	if rack == (Rack{}) {
		rack = ProfileA().Fitted(alpha)
	}
	return newTooth(z, 1, alpha, x, rack, 0, 0).lewis()
}

// LeastRoot returns the smallest root diameters in mm, to 0.01 mm, that leave
// gear i the walls its body needs: none of them failing, and none of them a
// caution. It is the size of a wheel made to fit a bearing, or of a pinion that
// takes a horn; 0 where every gear has room, and infinite where none up to
// geom.Extent has.
func (s PairSpec) LeastRoot(i int) (failing, caution float64) {
	s = s.completed()
	const middling = 40 // teeth: only the root of the tooth matters to a body
	t := newTooth(middling, s.Module, s.PressureAngle, 0, s.Rack, 0, 0)
	worst := func(root float64) check.Verdict {
		nominal, drawn := t, t
		nominal.rf = root / 2
		outside := root + 2*s.Module*s.Rack.dedendum()
		drawn.rf = nominal.rf - (outside-s.Card.Outside.Draw(outside))/2
		body, err := newStructure(s, i, nominal, drawn, geom.Contour{})
		if err != nil {
			return check.Fail
		}
		v := check.Pass
		p := Sketch{solution{spec: s}}.bare()
		p.gears[i].body = body
		for _, f := range p.judgeMargins(i) {
			if f.Verdict == check.Fail || f.Verdict == check.Caution && v == check.Pass {
				v = f.Verdict
			}
		}
		return v
	}
	least := func(bad func(check.Verdict) bool) float64 {
		lo, hi := 0.0, geom.Extent
		switch {
		case bad(worst(hi)):
			return math.Inf(1)
		case !bad(worst(lo + 0.01)):
			return 0
		}
		for hi-lo > 0.01 {
			if middle := (lo + hi) / 2; bad(worst(middle)) {
				lo = middle
			} else {
				hi = middle
			}
		}
		return hi
	}
	return least(func(v check.Verdict) bool { return v == check.Fail }),
		least(func(v check.Verdict) bool { return v != check.Pass })
}

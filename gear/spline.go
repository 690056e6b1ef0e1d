package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drive"
)

// A splineSeat is how near the servo's spline lets a pinion come to the angle
// at which it is wanted. Angles are degrees.
type splineSeat struct {
	pitch float64 // between places of the horn on the spline, any of its arms or holes counted
	horn  float64 // what is left at the horn: from where it was tried, or at most
	teeth float64 // what is left at the wheel with the mesh moved on by whole teeth
	steps int     // spline teeth to move the horn on by, where it was tried
	tried bool
}

// seat works out the spline, and false without one. A horn of n even arms looks
// the same every n-th of a turn, and so does a disc with n even holes: on a
// spline of N teeth it stands at every angle of 360 deg over the least common
// multiple of both. Moving the mesh by a tooth beside that turns the wheel by
// steps of one part in the least common multiple of all three counts.
func (p *Pair) seat() (splineSeat, bool) {
	h := p.spec.Pinion.Horn
	if h == nil || h.SplineTeeth == 0 {
		return splineSeat{}, false
	}
	n, z := multiple(h.SplineTeeth, h.alike()), p.spec.Teeth[0]
	s := splineSeat{pitch: 360 / float64(n), tried: h.Tried}
	fine := 360 / float64(multiple(n, z))
	if !h.Tried {
		s.horn, s.teeth = s.pitch/2, fine/2/p.Ratio()
		return s, true
	}
	off := (h.Wanted - h.AtNeutral) * 180 / math.Pi
	steps, left := drive.SplineSeat(n, off)
	s.horn, s.steps = left, h.splineSteps(steps, n)
	s.teeth = math.Remainder(off, fine) / p.Ratio()
	return s, true
}

// alike returns how many places of the horn on the pinion are the same: its even
// arms or holes.
func (h HornPocket) alike() int { return max(h.arms(), h.Holes, 1) }

// splineSteps returns the fewest teeth of the spline, either way, after which one
// of the arms or holes stands so many of n parts of a turn on.
func (h HornPocket) splineSteps(parts, n int) int {
	tooth, best := n/h.SplineTeeth, math.MaxInt
	for k := range h.alike() {
		rest := parts - k*n/h.alike() // where arm k has to go
		if t := wrapped(rest/tooth%h.SplineTeeth, h.SplineTeeth); rest%tooth == 0 && max(t, -t) < max(best, -best) {
			best = t
		}
	}
	return best
}

// multiple returns the least common multiple of two positive numbers.
func multiple(a, b int) int { return a / divisor(a, b) * b }

// divisor returns the greatest common divisor of two positive numbers.
func divisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// one names what of the horn is to stand at the wanted angle.
func (h HornPocket) one() string {
	switch {
	case h.alike() == 1:
		return "the pinion"
	case h.arms() > 0:
		return "one of its arms"
	}
	return "one of its holes"
}

// sits says how often the horn finds a place.
func (h HornPocket) sits(pitch string) string {
	if h.alike() == 1 {
		return "the horn sits every " + pitch
	}
	return h.one() + " stands every " + pitch + " round the turn"
}

// addSpline adds the spline to the report's values.
func (p *Pair) addSpline(v map[string]any) {
	s, ok := p.seat()
	if !ok {
		return
	}
	v["spline_pitch_deg"], v["spline_residual_deg"] = s.pitch, s.horn
	v["spline_residual_after_remesh_deg"] = s.teeth
	if s.tried {
		v["spline_steps"] = s.steps
	}
}

// saySpline tells how near the wanted angle the horn comes.
func (p *Pair) saySpline() (check.Finding, bool) {
	s, ok := p.seat()
	if !ok {
		return check.Finding{}, false
	}
	angle := func(v float64) string { return check.Number(math.Round(v*100)/100) + " deg" }
	detail := fmt.Sprintf("%s; as it comes it may be off by up to %s", p.spec.Pinion.Horn.sits(angle(s.pitch)), angle(s.pitch/2))
	if s.tried {
		detail = fmt.Sprintf("move the horn on by %d teeth of the spline: %s then stands %s from where it is wanted", s.steps, p.spec.Pinion.Horn.one(), angle(s.horn))
	}
	v, remedy := check.Note, fmt.Sprintf("choose the place on the spline together with the tooth in mesh: the wheel comes within %s; take up the rest with the neutral pulse", angle(math.Abs(s.teeth)))
	if math.Abs(s.horn) < 0.5 {
		v, remedy = check.Pass, ""
	}
	f := rule("spline-position").Say(v, s.horn, detail, remedy)
	f.Part = p.spec.partName(0)
	return f, true
}

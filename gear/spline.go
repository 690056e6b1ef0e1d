package gear

import (
	"fmt"
	"math"

	"pintle/check"
)

// A splineSeat is how near the servo's spline lets a pinion come to the angle
// at which it is wanted. Angles are degrees.
type splineSeat struct {
	pitch float64 // between places of the horn on the spline
	horn  float64 // what is left at the horn: from where it was tried, or at most
	teeth float64 // what is left at the wheel with the mesh moved on by whole teeth
	steps int     // spline teeth to move the horn on by, where it was tried
	tried bool
}

// seat works out the spline, and false without one. The horn repeats with its
// arms or holes; moving the horn by a spline tooth and the mesh by a tooth turns
// the wheel by steps of one part in the least common multiple of both counts.
func (p *Pair) seat() (splineSeat, bool) {
	h := p.spec.Pinion.Horn
	if h == nil || h.SplineTeeth == 0 {
		return splineSeat{}, false
	}
	n, z := h.SplineTeeth, p.spec.Teeth[0]
	s := splineSeat{pitch: 360 / float64(n), tried: h.Tried}
	fine := 360 / float64(n/divisor(n, z)*z)
	if !h.Tried {
		s.horn, s.teeth = s.pitch/2, fine/2/p.Ratio()
		return s, true
	}
	off := (h.Wanted - h.AtNeutral) * 180 / math.Pi
	s.horn = math.Remainder(off, s.pitch)
	s.steps = int(math.Round((off - s.horn) / s.pitch))
	s.teeth = math.Remainder(off, fine) / p.Ratio()
	return s, true
}

// divisor returns the greatest common divisor of two positive numbers.
func divisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
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
	detail := fmt.Sprintf("the horn sits every %s; as it comes it may be off by up to %s", angle(s.pitch), angle(s.pitch/2))
	if s.tried {
		detail = fmt.Sprintf("move the horn on by %d teeth of the spline: the pinion then stands %s from where it is wanted", s.steps, angle(s.horn))
	}
	v, remedy := check.Note, fmt.Sprintf("choose the place on the spline together with the tooth in mesh: the wheel comes within %s; take up the rest with the neutral pulse", angle(math.Abs(s.teeth)))
	if math.Abs(s.horn) < 0.5 {
		v, remedy = check.Pass, ""
	}
	f := rule("spline-position").Say(v, s.horn, detail, remedy)
	f.Part = p.spec.partName(0)
	return f, true
}

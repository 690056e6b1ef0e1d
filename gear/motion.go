package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// motionSteps is how many positions a mesh cycle of one pitch is turned
// through, fineSteps the points to a flank where contact is counted: their
// chords stray by less than touching, in modules.
const (
	motionSteps = 60
	fineSteps   = 64
	touching    = 1e-4
)

// A MotionPoint is one position of a pair's outlines turned against each other
// at the working centre distance. All lengths are along the line of action, mm.
type MotionPoint struct {
	TurnDeg  float64 `json:"turn_deg"` // of the pinion, 0 with a tooth on the line of centres
	Gap      float64 `json:"gap_mm"`   // the lesser of the two gaps beside a tooth, with the wheel in its nominal place
	Backlash float64 `json:"j_bn_mm"`  // both gaps together
	Error    float64 `json:"te_mm"`    // how far the wheel, pressed against one side, lags behind its mean place
}

// A motion is what a mesh cycle showed.
type motion struct {
	points   []MotionPoint
	gap      float64 // least of all positions, mm; at or below 0 the outlines touch
	root     float64 // least room between tips and roots, mm
	min, max float64 // normal backlash, mm
	error    float64 // transmission error from its least to its largest, mm
	pairs    float64 // mean number of tooth pairs in contact
	meets    bool    // at every position some tooth was in reach
}

// run turns the pinion through one pitch. Flanks count as touching where no
// more than the tolerance in mm is between them.
func (m *meshing) run(tolerance float64) motion {
	r := motion{gap: m.root, root: m.root, min: math.Inf(1), max: math.Inf(-1), meets: true}
	room := [2][]float64{}
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	mean := 0.0
	for i := range motionSteps {
		turn := m.pitch[0] * (float64(i)/motionSteps - 0.5)
		var gap [2]float64
		for s := range gap {
			room[s] = m.free(s, turn, room[s])
			gap[s] = least(room[s]) * m.rb
			low[s], high[s] = math.Min(low[s], gap[s]), math.Max(high[s], gap[s])
		}
		p := MotionPoint{TurnDeg: turn * 180 / math.Pi, Gap: math.Min(gap[0], gap[1]), Backlash: gap[0] + gap[1], Error: gap[0]}
		for _, free := range room[0] {
			if free*m.rb <= gap[0]+tolerance {
				r.pairs += 1.0 / motionSteps
			}
		}
		r.points = append(r.points, p)
		r.gap = math.Min(r.gap, p.Gap)
		r.min, r.max = math.Min(r.min, p.Backlash), math.Max(r.max, p.Backlash)
		mean += gap[0] / motionSteps
	}
	for i := range r.points {
		r.points[i].Error -= mean
	}
	r.error = math.Max(high[0]-low[0], high[1]-low[1])
	if math.IsInf(r.max, 0) {
		return motion{gap: m.root, root: m.root}
	}
	return r
}

func least(values []float64) float64 {
	v := math.Inf(1)
	for _, w := range values {
		v = math.Min(v, w)
	}
	return v
}

// A proof is a pair proved by motion.
type proof struct {
	print   motion  // of what the print is expected to be
	drawn   motion  // of the outlines in the exported files
	pairs   float64 // measured contact ratio, from finely sampled teeth
	strayed float64 // largest distance of an exported vertex from its tooth, mm
	same    bool    // print and drawn are the same outlines
}

// prove turns the outlines against each other: those of the exported files, and
// where the card made them thinner those that the print should have.
func (s solution) prove(gears [2]*Gear) proof {
	tolerance := 2 * s.spec.ChordError
	var drawn, print, fine [2]*toothed
	p := proof{same: true}
	n := s.contact.reach() + 1
	for i, g := range gears {
		loop := g.teethLoop()
		drawn[i] = g.turnable(loop, n)
		p.strayed = math.Max(p.strayed, g.strayed(loop))
		expected := s.expected(i, g)
		if p.same = p.same && expected == g.drawn; expected == g.drawn {
			print[i] = drawn[i]
		} else {
			print[i] = ofLoop(expected, snapped(expected.few(s.spec.ChordError, n)), n)
		}
		fine[i] = ofCurve(s.contact.t[i], fineSteps, n)
	}
	a := s.contact.a
	p.drawn = newMeshing(drawn[0], drawn[1], a).run(tolerance)
	p.print = p.drawn
	if !p.same {
		p.print = newMeshing(print[0], print[1], a).run(tolerance)
	}
	p.pairs = newMeshing(fine[0], fine[1], a).run(touching * s.spec.Module).pairs
	return p
}

// expected returns the tooth that the print of a gear should have: the nominal
// tooth, unless the allowance was bounded.
func (s solution) expected(i int, g *Gear) tooth {
	switch {
	case g.drawn == g.nominal:
		return g.drawn
	case math.Abs(g.left) < 1e-9:
		return s.tooth(i, s.thin, s.outwards(i))
	}
	return s.tooth(i, s.thin, math.Max(g.left, -g.nominal.rho)+s.outwards(i))
}

// few returns the outline of tooth 0 and of n teeth and more on either side.
func (t tooth) few(chord float64, n int) []geom.Point {
	one := t.oneTooth(chord)
	n = min(n+1, t.z/2)
	var points []geom.Point
	for k := -n; k <= n; k++ {
		turn := 2 * math.Pi * float64(k) / float64(t.z)
		if t.inner {
			turn = -turn
		}
		for _, p := range one {
			points = append(points, p.Rotate(turn))
		}
	}
	return points
}

func snapped(points []geom.Point) geom.Loop {
	loop := make(geom.Loop, len(points))
	for i, p := range points {
		loop[i] = geom.Snap(p)
	}
	return loop
}

// teethLoop returns the outline of the teeth as it stands in the exported file,
// above the bed-side chamfer.
func (g *Gear) teethLoop() geom.Loop {
	first, loop := g.part.Layers()[0], 0
	if g.nominal.inner {
		loop = 1 // the first hole of the rim
	}
	if first.Loft {
		return first.Top.Loops()[loop]
	}
	return first.Bottom.Loops()[loop]
}

// turnable cuts the teeth around tooth 0 out of the exported outline. A sector's
// are those of the whole gear: the teeth that are missing are never in mesh.
func (g *Gear) turnable(loop geom.Loop, n int) *toothed {
	if g.sector > 0 {
		loop = snapped(g.drawn.few(g.chord, n))
	}
	return ofLoop(g.drawn, loop, n)
}

// strayed returns the largest distance of an exported vertex from its place on
// the first tooth, turned by whole pitches. It panics where the file has other
// vertices than the teeth.
func (g *Gear) strayed(loop geom.Loop) float64 {
	first, least := 0, 0.0
	if g.sector > 0 { // its first tooth, and what is no tooth
		first, least = -(g.sector-1)/2, g.drawn.rf+0.001
	}
	one := g.drawn.oneTooth(g.chord)
	const step = 1.0 / geom.PerMM
	far, next := 0.0, 0
	sin, cos := 0.0, 1.0
	for _, v := range loop {
		if v.Point().Len() < least {
			continue
		}
		off := math.Inf(1)
		for ; off > 2*step; next++ {
			if next == len(one)*g.drawn.z {
				panic("gear: an exported vertex lies on no tooth")
			}
			k := next % len(one)
			if k == 0 {
				turn := 2 * math.Pi * float64(first+next/len(one)) / float64(g.drawn.z)
				if g.drawn.inner {
					turn = -turn
				}
				sin, cos = math.Sincos(turn)
			}
			p := one[k]
			off = geom.Point{X: p.X*cos - p.Y*sin, Y: p.X*sin + p.Y*cos}.Sub(v.Point()).Len()
		}
		far = math.Max(far, off)
	}
	return far
}

// Motion returns one mesh cycle of the expected print: the pinion turned
// through one pitch in steps of a sixtieth. It is empty where the teeth do not
// reach each other.
func (p *Pair) Motion() []MotionPoint { return p.proof.print.points }

// addMotion adds what the mesh cycle showed to the report's values.
func (p *Pair) addMotion(v map[string]any) {
	v["vertex_error"] = p.proof.strayed
	if !p.proof.print.meets {
		return
	}
	v["motion_of"] = p.motionOf()
	v["motion_positions"] = len(p.proof.print.points)
	v["j_bn_measured_min"], v["j_bn_measured_max"] = p.proof.print.min, p.proof.print.max
	v["j_bn_drawn_min"], v["j_bn_drawn_max"] = p.proof.drawn.min, p.proof.drawn.max
	v["te_measured"], v["epsilon_measured"] = p.proof.print.error, p.proof.pairs
	v["gap_measured_min"] = p.proof.print.gap
}

func (p *Pair) motionOf() string {
	if p.proof.same {
		return "the outlines in the exported files"
	}
	return "the expected print; the exported outlines are thinner by the card's outside error"
}

// sayMotion judges the proof by motion.
func (p *Pair) sayMotion() []check.Finding {
	m := p.proof.print
	touch := rule("mesh-by-motion").Judge(m.gap, p.limit("mesh-by-motion", rule("mesh-by-motion").Limit), "")
	touch.Limit = "> 0"
	if !m.meets {
		touch.Verdict, touch.Detail, touch.Remedy = check.Fail, "the teeth do not reach each other", "use a smaller centre distance"
		return []check.Finding{touch}
	}
	touch.Detail = fmt.Sprintf("%d positions of %s: backlash %s to %s mm along the line of action, transmission error %s mm, contact ratio %s",
		len(m.points), p.motionOf(), check.Number(m.min), check.Number(m.max), check.Number(m.error), check.Number(math.Round(p.proof.pairs*1e3)/1e3))
	short := rule("false-contact").Judge(math.Max(p.contact.normalBacklash()-m.min, 0), p.limit("false-contact", rule("false-contact").Limit), "")
	if touch.Verdict != check.Pass {
		touch.Remedy = p.motionRemedy()
	}
	if short.Verdict != check.Pass {
		short.Remedy = p.motionRemedy()
	}
	if touch.Verdict == check.Pass && p.proof.drawn.gap <= 0 {
		touch.Verdict, touch.Detail = check.Note, touch.Detail+"; as drawn the teeth touch: the print is expected to come out thinner"
	}
	return []check.Finding{touch, short}
}

// motionRemedy is the first change after which nothing but the flanks can
// touch: backlash, clearance, and tips further from the fillets than chords
// stray.
func (p *Pair) motionRemedy() string {
	far := 2 * p.spec.ChordError
	remedy, ok := p.firstCure(
		[]knob{p.backlashKnob(), p.tipKnob(), p.distanceKnob(), p.shiftKnob(0, true), p.shiftKnob(1, true), p.shiftKnob(0, false), p.shiftKnob(1, false), p.teethKnob(0), p.teethKnob(1)},
		func(s solution) bool {
			c := s.contact
			if c.sign < 0 && c.trochoid() < 0.002 { // tips that pass by less touch as polygons
				return false
			}
			return c.normalBacklash() > far && math.Min(c.tipClearance(0), c.tipClearance(1)) > far && c.interference() > far
		})
	if !ok {
		return "change: " + rule("mesh-by-motion").Change
	}
	return remedy
}

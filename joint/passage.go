package joint

import (
	"math"

	"pintle/geom"
)

// Where the search for a least gap may stop: a share of the gap, or a width in
// mm that no printer shows.
const (
	passageShare  = 0.02
	passageWidth  = 0.02
	passageStride = 4.0 // mm that two bodies may move against each other between two first looks
)

// A pass follows two slices through a stroke. Progress is counted in stations.
type pass struct {
	a, b           slice
	movesA, movesB []geom.Motion // nil for what stands still
	best           float64       // mm in plan, the least gap found, or the width asked for
	found          bool
	bestA, bestB   geom.Point // where it is, in the joint's frame
	at             float64    // progress there
	varies         bool       // the two move against each other in a way that counts
}

// between returns the motion at a progress; nil motions rest.
func between(motions []geom.Motion, progress float64) geom.Motion {
	if motions == nil {
		return geom.Motion{}
	}
	i := min(int(progress), len(motions)-2)
	return motions[i].Towards(motions[i+1], progress-float64(i))
}

// look measures the gap at a progress, where it is less than the width, and
// keeps it if it is the least so far.
func (p *pass) look(progress, width float64) float64 {
	poseA := between(p.movesA, progress).After(p.a.place)
	poseB := between(p.movesB, progress).After(p.b.place)
	gap, below := p.a.feeler().GapBelow(p.b.feeler(), poseA.Back().After(poseB), width)
	if !below {
		return width
	}
	if gap.Width < p.best {
		p.best, p.at, p.found = gap.Width, progress, true
		p.bestA, p.bestB = poseA.Move(gap.A), poseA.Move(gap.B)
	}
	return gap.Width
}

// stride bounds how far the two slices move against each other between two
// progresses that lie between the same two stations, in mm.
func (p *pass) stride(from, to float64) float64 {
	a, b := p.a, p.b
	fromA, toA := between(p.movesA, from), between(p.movesA, to)
	fromB, toB := between(p.movesB, from), between(p.movesB, to)
	if a.round { // only where its centre goes counts
		a, b = b, a
		fromA, toA, fromB, toB = fromB, toB, fromA, toA
	}
	radius := b.radius
	if b.round {
		radius = 0
	}
	way := sweep(fromB, toB, fromB.Move(b.centre), radius)
	if a.round {
		return way + sweep(fromA, toA, fromA.Move(a.centre), 0)
	}
	return way + sweep(fromA, toA, fromB.Move(b.centre), radius+way)
}

// sweep bounds the way that a body makes from one place to another, turning
// about the pole between them: of the points that are within the radius of a
// place, in mm.
func sweep(from, to geom.Motion, place geom.Point, radius float64) float64 {
	step := to.After(from.Back())
	turn := math.Abs(step.Turn)
	if pole, ok := step.Pole(); ok {
		return turn * (pole.Sub(place).Len() + radius)
	}
	return step.Shift.Len() + turn*(place.Len()+radius)
}

// apart bounds from below how far apart the circles round the two slices stay
// between two progresses that lie between the same two stations, in mm.
func (p *pass) apart(from, to float64) float64 {
	fromA, toA := between(p.movesA, from), between(p.movesA, to)
	fromB, toB := between(p.movesB, from), between(p.movesB, to)
	before := fromA.Move(p.a.centre).Sub(fromB.Move(p.b.centre)).Len()
	after := toA.Move(p.a.centre).Sub(toB.Move(p.b.centre)).Len()
	return (before+after-p.drift(from, to))/2 - p.a.radius - p.b.radius
}

// drift bounds how far the centres of the two slices move between two
// progresses, in mm.
func (p *pass) drift(from, to float64) float64 {
	fromA, toA := between(p.movesA, from), between(p.movesA, to)
	fromB, toB := between(p.movesB, from), between(p.movesB, to)
	return sweep(fromA, toA, fromA.Move(p.a.centre), 0) + sweep(fromB, toB, fromB.Move(p.b.centre), 0)
}

// least finds the least gap in plan below a width, to passageShare of itself,
// whatever happens between the stations.
func (p *pass) least(width float64, stations int) bool {
	p.best = width
	if p.movesA == nil && p.movesB == nil {
		p.look(0, width)
		return p.found
	}
	for i := range stations - 1 {
		from, to := float64(i), float64(i+1)
		stride := p.stride(from, to)
		if stride == 0 && i > 0 {
			continue
		}
		p.varies = p.varies || stride > 0
		p.walk(from, to, stride)
	}
	return p.found
}

// walk finds the least gap between two stations.
func (p *pass) walk(from, to, stride float64) {
	hull := p.apart(from, to)
	if hull >= p.enough() {
		return
	}
	looks := max(math.Ceil(stride/passageStride), 1)
	stride /= looks
	before := p.look(from, p.best+stride)
	for k := range int(looks) {
		end := from + (to-from)*(float64(k)+1)/looks
		after := p.look(end, p.best+stride)
		p.search(from+(to-from)*float64(k)/looks, before, end, after, stride, hull)
		before = after
	}
}

// enough is a gap that need not be looked for below the best.
func (p *pass) enough() float64 { return p.best - max(passageWidth, passageShare*p.best) }

// search halves an interval until no less gap can hide in it: a gap changes by
// no more than the two slices move against each other, and is never less than
// that of the circles round them.
func (p *pass) search(from, gapFrom, to, gapTo, stride, hull float64) {
	if max((gapFrom+gapTo-stride)/2, hull) >= p.enough() || p.best == 0 {
		return
	}
	middle := (from + to) / 2
	gap := p.look(middle, p.best+stride)
	p.search(from, gapFrom, middle, gap, stride/2, hull)
	p.search(middle, gap, to, gapTo, stride/2, hull)
}

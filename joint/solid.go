package joint

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"pintle/geom"
)

// A solid is what takes up room in an arrangement: a piece of a printed part
// between two heights, or a thing that is bought. It is made of slices, each a
// region in plan between two heights.
type solid struct {
	piece
	part   string // the printed part it is a piece of, or ""
	moves  string // the motion it moves with, or "" for what stands still
	slices []slice
}

// A piece says what lies between two heights of the joint's frame, and what it
// is made to touch. Solids that share a word of joined touch by design, and
// nothing is said of them; of those that share a word of close, such as a lug
// and its stop, only an overlap is.
type piece struct {
	name    string // in words, such as "servo screw heads"
	z0, z1  float64
	joined  []string
	close   []string
	raise   func(mm float64) string // the remedy that raises it by so much; nil where there is none
	covered bool                    // no finger is crushed by it: it lies between others, or is a head that a finger slides over
}

// meets says whether two lists of words share one.
func meets(a, b []string) bool {
	return slices.ContainsFunc(a, func(word string) bool { return slices.Contains(b, word) })
}

// everywhere is above or below all that stands in a joint, in mm.
const everywhere = 2 * geom.Extent

// whole is the piece of a part that is all of it.
func whole(name string, joined ...string) piece {
	return piece{name: name, z0: -everywhere, z1: everywhere, joined: joined}
}

// A slice of a solid is a region in plan between two heights, in mm.
type slice struct {
	z0, z1 float64
	feeler func() *geom.Feeler // made when it is first asked for: many never are
	place  geom.Motion         // from the feeler's frame to the joint's, at mid-stroke
	centre geom.Point          // of a circle round it, in the joint's frame at mid-stroke
	radius float64             // of that circle
	inner  float64             // of the largest circle about the same centre that is all material but for holes; 0 where there is none
	round  bool                // a turn about the centre changes nothing
}

// newSlice takes the loops of a region. Where it is one round body, holes that
// are not about its centre are taken as filled: only what is made to touch the
// body stands in them.
func newSlice(z0, z1 float64, loops []geom.Loop, place geom.Motion) slice {
	s := slice{z0: z0, z1: z1, place: place}
	var centre geom.Point
	centre, s.radius, s.inner, s.round = circleRound(loops)
	if s.round {
		loops = slices.DeleteFunc(slices.Clone(loops), func(l geom.Loop) bool { return !l.Outer() && !about(l, centre) })
	}
	s.centre = place.Move(centre)
	s.feeler = sync.OnceValue(func() *geom.Feeler { return geom.FeelerOf(loops) })
	return s
}

// circleRound returns the circle round all loops, the radius of the largest about
// the same centre that lies in the only outer loop, and whether the outer loops
// are all circles about the centre.
func circleRound(loops []geom.Loop) (centre geom.Point, radius, inner float64, round bool) {
	lo, hi := loops[0][0], loops[0][0]
	for _, l := range loops {
		for _, v := range l {
			lo.X, lo.Y, hi.X, hi.Y = min(lo.X, v.X), min(lo.Y, v.Y), max(hi.X, v.X), max(hi.Y, v.Y)
		}
	}
	centre, round = lo.Point().Add(hi.Point()).Scale(0.5), true
	outer := 0
	for _, l := range loops {
		if !l.Outer() {
			continue
		}
		outer++
		round, inner = round && about(l, centre), within(l, centre)
		for _, v := range l {
			radius = max(radius, v.Point().Sub(centre).Len())
		}
	}
	if outer > 1 {
		inner = 0
	}
	return centre, radius, inner, round
}

// within returns the radius of the largest circle about a centre that lies in a
// loop, 0 where the centre does not.
func within(l geom.Loop, centre geom.Point) float64 {
	radius, turns := math.Inf(1), 0.0
	for i, v := range l {
		p, q := v.Point().Sub(centre), l[(i+1)%len(l)].Point().Sub(centre)
		cross, dot := p.X*q.Y-p.Y*q.X, p.X*q.X+p.Y*q.Y
		turns += math.Atan2(cross, dot)
		edge := q.Sub(p)
		along := min(max(-(p.X*edge.X+p.Y*edge.Y)/(edge.X*edge.X+edge.Y*edge.Y), 0), 1)
		radius = min(radius, p.Add(edge.Scale(along)).Len())
	}
	if math.Abs(turns) < math.Pi {
		return 0
	}
	return radius
}

// about says whether a loop is a circle about a centre: its corners to two grid
// steps, its edges to what plain circles are sampled to. The corners of a
// rectangle lie on a circle, too.
func about(l geom.Loop, centre geom.Point) bool {
	radius := l[0].Point().Sub(centre).Len()
	return within(l, centre) > radius-2*geom.ChordPlain && !slices.ContainsFunc(l, func(v geom.Vertex) bool {
		return math.Abs(v.Point().Sub(centre).Len()-radius) > 2.0/geom.PerMM
	})
}

// rough returns how far the slice is from being round about its centre, in mm.
func (s slice) rough() float64 {
	if s.round {
		return 0
	}
	return s.radius - s.inner
}

// stand puts a thing that is bought, or known by its outline only, into the
// joint: contours between two heights of the joint's frame, in place at
// mid-stroke. Contours are apart from each other; several are several bodies.
func (a *arrangement) stand(p piece, moves string, contours ...geom.Contour) {
	region, err := geom.RegionOf(contours)
	if err != nil {
		panic(fmt.Sprintf("joint: the outline of %s in %s: %v", p.name, a.name, err))
	}
	a.knows(p.name, moves)
	a.solids = append(a.solids, solid{piece: p, moves: moves, slices: []slice{newSlice(p.z0, p.z1, region.Loops(), geom.Motion{})}})
}

// cut returns the solids that a placed part is made of.
func (p placing) cut(part geom.Part) []solid {
	solids := make([]solid, len(p.pieces))
	for i, piece := range p.pieces {
		solids[i] = solid{piece: piece, part: p.Part, moves: p.MovesWith}
	}
	place := geom.Motion{Turn: p.TurnDeg * math.Pi / 180, Shift: geom.Point{X: p.X, Y: p.Y}}
	for _, l := range part.Layers() {
		z0, z1 := float64(l.Z0)/geom.PerMM, float64(l.Z1)/geom.PerMM
		if p.Flip {
			z0, z1 = -z1, -z0
		}
		for i := range solids {
			s := &solids[i]
			lo, hi := max(p.Z+z0, s.z0), min(p.Z+z1, s.z1)
			if hi-lo < sliver {
				continue
			}
			for _, loops := range p.loops(l) {
				s.slices = append(s.slices, newSlice(lo, hi, loops, place))
			}
		}
	}
	return slices.DeleteFunc(solids, func(s solid) bool { return len(s.slices) == 0 })
}

// sliver is a height in mm that comes of rounding: no slice is made of it.
const sliver = 1e-3

// loops returns the outlines of a layer as the placed part shows them: both ends
// of one that tapers.
func (p placing) loops(l geom.Layer) [][]geom.Loop {
	outlines := [][]geom.Loop{l.Bottom.Loops()}
	if l.Loft {
		outlines = append(outlines, l.Top.Loops())
	}
	if p.Flip {
		for i := range outlines {
			outlines[i] = geom.Overturned(outlines[i])
		}
	}
	return outlines
}

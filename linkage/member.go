package linkage

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// A Member is one of the four links that a body can move with.
type Member string

// The members. Each has a frame of its own: its origin at its first pin, x
// towards its second. The first pin of horn and frame is the servo's axis, of the
// rod the horn's pin, of the lever the joint's axis.
const (
	OnHorn  Member = "horn"
	OnRod   Member = "rod"
	OnLever Member = "lever"
	OnFrame Member = "frame" // stands still
)

// A Body is a bar with round ends, between two heights, that moves with a
// member: a round where both ends are one point.
type Body struct {
	Name        string
	On          Member
	From, To    geom.Point // mm, of its middle line in the member's frame
	Radius      float64    // mm, half its width
	Bottom, Top float64    // mm, heights it fills, on any common scale
}

// Bar returns the body of a member's bar, pin to pin, for a width and two heights
// in mm.
func (s *Stroke) Bar(on Member, width, bottom, top float64) Body {
	length := map[Member]float64{OnHorn: s.flat.Horn, OnRod: s.flat.Rod, OnLever: s.flat.Lever, OnFrame: s.flat.Frame}[on]
	return Body{string(on), on, geom.Point{}, geom.Point{X: length}, width / 2, bottom, top}
}

// A Gap is the least distance between two bodies along the stroke.
type Gap struct {
	A, B    string
	Gap     float64 // mm, below 0 where they overlap
	HornDeg float64 // where
	Lift    float64 // mm by which raising one of the two takes it out of the heights of the other
	Raised  string  // which of the two
}

func (b Body) validate() error {
	for _, q := range []struct {
		word  string
		value float64
		lo    float64
	}{
		{"half width", b.Radius, 0},
		{"bottom", b.Bottom, -longest},
		{"top", b.Top, -longest},
		{"end", b.From.X, -longest},
		{"end", b.From.Y, -longest},
		{"end", b.To.X, -longest},
		{"end", b.To.Y, -longest},
	} {
		if err := check.InRange(q.word+" of "+b.Name, q.value, "mm", q.lo, longest, "give its place on the "+string(b.On)); err != nil {
			return err
		}
	}
	switch b.On {
	case OnHorn, OnRod, OnLever, OnFrame:
	default:
		return &check.FieldError{Field: "member of " + b.Name, Text: string(b.On), Reason: "must be horn, rod, lever or frame", Remedy: "name the link it moves with"}
	}
	if b.Top <= b.Bottom {
		return &check.FieldError{Field: "top of " + b.Name, Value: b.Top, Unit: "mm", Reason: "is not above its bottom", Remedy: "give the lower height first"}
	}
	return nil
}

// frameOf returns a member's origin and x axis at a station.
func (s *Stroke) frameOf(on Member, st Station) (origin, x geom.Point) {
	var angle float64
	switch on {
	case OnHorn:
		angle = st.HornDeg
	case OnRod:
		origin, angle = st.HornPin, st.RodDeg
	case OnLever:
		origin, angle = geom.Point{X: s.flat.Frame}, st.LeverDeg
	}
	return origin, geom.Polar(1, angle*deg)
}

// at returns the ends of the body's middle line at a station.
func (b Body) at(s *Stroke, st Station) (from, to geom.Point) {
	origin, x := s.frameOf(b.On, st)
	place := func(p geom.Point) geom.Point {
		return geom.Point{X: origin.X + p.X*x.X - p.Y*x.Y, Y: origin.Y + p.X*x.Y + p.Y*x.X}
	}
	return place(b.From), place(b.To)
}

// Gaps returns, for each two bodies on different members whose heights overlap,
// their least distance along the stroke. Between stations the least is looked
// for by thirds, within 1e-4 of a step.
func (s *Stroke) Gaps() []Gap {
	var gaps []Gap
	for i, a := range s.spec.Bodies {
		for _, b := range s.spec.Bodies[:i] {
			if a.On == b.On || a.Bottom >= b.Top || b.Bottom >= a.Top {
				continue
			}
			gaps = append(gaps, s.gap(a, b))
		}
	}
	return gaps
}

func (s *Stroke) gap(a, b Body) Gap {
	distance := func(st Station) float64 {
		p, q := a.at(s, st)
		r, t := b.at(s, st)
		return segments(p, q, r, t) - a.Radius - b.Radius
	}
	nearest := s.worst(distance)
	g := Gap{A: a.Name, B: b.Name, Gap: distance(nearest), HornDeg: nearest.HornDeg}
	step := (s.spec.ToDeg - s.spec.FromDeg) / float64(len(s.stations)-1)
	lo, hi := max(nearest.HornDeg-step, s.spec.FromDeg), min(nearest.HornDeg+step, s.spec.ToDeg)
	for range 25 {
		third := (hi - lo) / 3
		left, _ := s.At(lo + third)
		right, _ := s.At(hi - third)
		l, r := distance(left), distance(right)
		if l < g.Gap {
			g.Gap, g.HornDeg = l, left.HornDeg
		}
		if r < g.Gap {
			g.Gap, g.HornDeg = r, right.HornDeg
		}
		if l < r {
			hi -= third
		} else {
			lo += third
		}
	}
	g.Lift, g.Raised = b.Top-a.Bottom, a.Name
	if other := a.Top - b.Bottom; other < g.Lift {
		g.Lift, g.Raised = other, b.Name
	}
	return g
}

// segments returns the distance between two segments, 0 where they cross.
func segments(p, q, r, t geom.Point) float64 {
	side := func(a, b, c geom.Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
	if side(p, q, r)*side(p, q, t) < 0 && side(r, t, p)*side(r, t, q) < 0 {
		return 0
	}
	return min(toSegment(p, r, t), toSegment(q, r, t), toSegment(r, p, q), toSegment(t, p, q))
}

func toSegment(p, a, b geom.Point) float64 {
	along := b.Sub(a)
	square := along.X*along.X + along.Y*along.Y
	if square == 0 {
		return p.Sub(a).Len()
	}
	d := p.Sub(a)
	share := min(max((d.X*along.X+d.Y*along.Y)/square, 0), 1)
	return d.Sub(along.Scale(share)).Len()
}

var (
	ruleOverlap = check.Rule{
		Name: "links-overlap", Unit: "mm",
		Meaning: "The least distance of two links, or of a link and what stands still, that lie at the same height: below 0 they run into each other.",
		Formula: "distance of the middle lines less half of both widths, over the whole stroke",
		Source:  "geometry",
		Change:  "put one of the two in another layer",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
	}
	ruleGap = check.Rule{
		Name: "link-gap", Unit: "mm",
		Meaning: "The same distance, against what play and printing take of it.",
		Formula: "distance of the middle lines less half of both widths, over the whole stroke",
		Source:  check.CommonPractice,
		Change:  "put one of the two in another layer, or make them narrower",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0.5},
	}
)

// judgeGaps judges the nearest two bodies, where any are given.
func (s *Stroke) judgeGaps() []check.Finding {
	if len(s.spec.Bodies) == 0 {
		return nil
	}
	gaps := s.Gaps()
	if len(gaps) == 0 {
		const clear = "no two links lie at one height"
		return []check.Finding{ruleOverlap.Say(check.Pass, 0, clear, ""), ruleGap.Say(check.Pass, 0, clear, "")}
	}
	least := gaps[0]
	for _, g := range gaps[1:] {
		if g.Gap < least.Gap {
			least = g
		}
	}
	detail := fmt.Sprintf("%s and %s with the horn at %.1f deg", least.A, least.B, least.HornDeg)
	remedy := fmt.Sprintf("raise the %s by %s mm, into another layer", least.Raised, check.Number(ceil(math.Nextafter(least.Lift, math.Inf(1)), 2)))
	var found []check.Finding
	for _, r := range []check.Rule{ruleOverlap, ruleGap} {
		f := r.Judge(least.Gap, s.spec.Limits.Of(r), remedy)
		f.Detail = detail
		found = append(found, f)
	}
	return found
}

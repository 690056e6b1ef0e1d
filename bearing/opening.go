package bearing

import (
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/geom"
)

// KnockOut are slots that run from the shoulder hole outwards under the ring's
// face, or round holes under that face, for pushing the bearing out with a rod.
type KnockOut struct {
	Count int     // 0 for none, else 2 to 6, spread evenly
	Width float64 // mm; of round holes the diameter; 0 for 3.5, or less behind a small hole
	Round bool
}

const (
	knockOutCount = 3
	knockOutWidth = 3.5 // at least 3: common practice, no source
	knockOutReach = 1.0 // mm over the ring's face: common practice, no source
	slotMargin    = 0.3 // mm from a slot's end to the seat: the ring hides no step
	sightWidth    = 1.6 // mm, of a slot to look or feel through
)

// A slot is a notch of the shoulder hole: parallel sides, its end on a circle.
type slot struct{ angle, width, reach float64 }

// placeSlots puts the knock-out slots at 90 degrees from the x axis and evenly
// on, and the inspection slots midway between them.
func (h *Housing) placeSlots() error {
	knock := h.knockOut()
	reach := h.footRadius() - slotMargin
	add := func(n int, first, width float64) {
		for i := range n {
			h.slots = append(h.slots, slot{first + 2*math.Pi*float64(i)/float64(n), width, reach})
		}
	}
	if knock.Round && knock.Count > 0 {
		if err := h.placePush(knock); err != nil {
			return err
		}
	} else {
		add(knock.Count, math.Pi/2, knock.Width)
	}
	first := math.Pi / 2
	if knock.Count > 0 {
		first += math.Pi / float64(knock.Count)
	}
	sights := h.spec.InspectionSlots
	if knock.Count > 0 && sights > 0 && knock.Count%sights != 0 {
		return &check.FieldError{
			Field: "number of inspection slots", Value: float64(sights), Reason: fmt.Sprintf("does not divide the %d knock-out slots they stand between", knock.Count),
			Remedy: fmt.Sprintf("use %d", knock.Count),
		}
	}
	add(sights, first, sightWidth)
	slices.SortFunc(h.slots, func(a, b slot) int { // clockwise, as a hole runs
		if a.angle > b.angle {
			return -1
		}
		return 1
	})
	return h.slotsApart()
}

// knockOut returns the slots that were asked for, or three where a gripped ring
// shows no rim to push on and its shoulder has room for them.
func (h *Housing) knockOut() KnockOut {
	roomy := math.Pi * h.hole.Drawn / (2 * knockOutCount) // half of the hole's edge stays
	if k := h.spec.KnockOut; k != nil {
		k := *k
		if k.Width == 0 {
			k.Width = math.Min(knockOutWidth, roomy)
		}
		return k
	}
	if h.deltaMax > 0 && h.rim() < rimToPush && roomy >= 1.5 && h.footRadius()-slotMargin >= h.hole.Drawn/2+slotMargin {
		return KnockOut{Count: knockOutCount, Width: math.Min(knockOutWidth, roomy)}
	}
	return KnockOut{}
}

// slotsApart refuses slots that have no room, or leave no shoulder between them
// where their chamfers are widest.
func (h *Housing) slotsApart() error {
	radius := h.hole.Drawn/2 + h.spec.Card.BedChamfer()
	bead := max(h.spec.Card.BeadWidth, 0.4)
	half := func(s slot) float64 { return math.Asin(math.Min(1, (s.width/2+h.spec.Card.BedChamfer())/radius)) }
	for i, s := range h.slots {
		if s.reach < h.hole.Drawn/2+slotMargin {
			return &check.FieldError{
				Field: "shoulder hole", Value: h.hole.Wanted, Unit: "mm", Reason: "reaches so near to the seat that slots have no room",
				Remedy: fmt.Sprintf("use %s mm or less, or leave the slots out", floor(h.hole.Wanted-2*(h.hole.Drawn/2+slotMargin-s.reach)-0.1, 0.01)),
			}
		}
		gap, next := 2*math.Pi, h.slots[(i+1)%len(h.slots)]
		if len(h.slots) > 1 {
			gap = math.Mod(s.angle-next.angle+4*math.Pi, 2*math.Pi)
		}
		if half(s) > 0.8 || half(s)+half(next)+bead/radius > gap {
			return &check.FieldError{
				Field: "knock-out width", Value: h.knockOut().Width, Unit: "mm", Reason: fmt.Sprintf("leaves no shoulder between %d slots round a hole of %s mm", len(h.slots), check.Number(h.hole.Wanted)),
				Remedy: "use fewer or narrower slots, or a larger shoulder hole",
			}
		}
	}
	return nil
}

// reachOverFace returns how far in mm the knock-out slots open the ring's face,
// and how much of the face they could open.
func (h *Housing) reachOverFace() (reach, most float64) {
	b := h.spec.Bearing
	inner := b.backFaceInner() / 2
	most = b.Outside/2 - b.RMin - inner
	if h.push.count > 0 {
		reach = max(0, math.Min(h.push.reach()-inner, most))
	}
	for _, s := range h.slots {
		if s.width > sightWidth {
			reach = max(0, math.Min(s.reach-inner, most))
		}
	}
	return reach, most
}

// opening returns the outline of the hole behind the ring with its slots, grown
// by a chamfer; outlines of one ring pair vertex by vertex.
func (h *Housing) opening(grow float64) geom.Contour {
	if len(h.slots) == 0 {
		hole := geom.Bore(geom.Point{}, h.hole.Drawn, geom.ChordPlain)
		return hole.Resize(hole.Diameter() + 2*grow)
	}
	nominal := h.hole.Drawn / 2
	var run contourRun
	for i, s := range h.slots {
		next := h.slots[(i+1)%len(h.slots)]
		if i == len(h.slots)-1 {
			next.angle -= 2 * math.Pi
		}
		side := func(s slot, radius float64) float64 { return math.Asin((s.width/2 + grow) / radius) }
		outer, inner := s.reach+grow, nominal+grow
		run.line(geom.Polar(inner, s.angle+side(s, inner)), geom.Polar(outer, s.angle+side(s, outer)))
		run.arc(outer, s.angle+side(s, outer), s.angle-side(s, outer), sidesOf(s.reach, s.width/s.reach))
		run.line(geom.Polar(outer, s.angle-side(s, outer)), geom.Polar(inner, s.angle-side(s, inner)))
		span := s.angle - next.angle // more than the arc: the count must not depend on grow
		run.arc(inner, s.angle-side(s, inner), next.angle+side(next, inner), sidesOf(nominal, span))
	}
	return run.contour
}

// A contourRun collects the curves of a contour with a fixed number of points.
type contourRun struct{ contour geom.Contour }

func (r *contourRun) line(a, b geom.Point) {
	r.contour.Curves = append(r.contour.Curves, geom.Line{A: a, B: b})
	r.contour.Points = append(r.contour.Points, b)
}

// arc adds a clockwise arc about the origin, circumscribed by n sides.
func (r *contourRun) arc(radius, from, to float64, n int) {
	r.contour.Curves = append(r.contour.Curves, geom.Arc{Radius: radius, From: from, To: to})
	half := (to - from) / float64(2*n)
	for i := range n {
		r.contour.Points = append(r.contour.Points, geom.Polar(radius/math.Cos(half), from+half*float64(2*i+1)))
	}
	r.contour.Points = append(r.contour.Points, geom.Polar(radius, to))
}

// inscribed adds an anticlockwise arc about the origin of n chords.
func (r *contourRun) inscribed(radius, from, to float64, n int) {
	r.contour.Curves = append(r.contour.Curves, geom.Arc{Radius: radius, From: from, To: to})
	for i := range n {
		r.contour.Points = append(r.contour.Points, geom.Polar(radius, from+(to-from)*float64(i+1)/float64(n)))
	}
}

// sidesOf returns the number of chords for an arc of a plain outline.
func sidesOf(radius, span float64) int { return sidesWithin(radius, span, geom.ChordPlain) }

func sidesWithin(radius, span, chord float64) int {
	step := 2 * math.Acos(radius/(radius+chord))
	return max(1, int(math.Ceil(span/step-1e-9)))
}

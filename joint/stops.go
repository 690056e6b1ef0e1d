package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/gear"
	"pintle/geom"
)

// End stops: a lug under the wheel meets a raised piece of the ring's rim on
// either side. Sizes in mm (common practice, no source).
const (
	stopOverlap = 1.5 // least height over which lug and stop meet
	stopGap     = 1.0 // that lug and rim, stop and wheel keep along the axis
	stopWidth   = 6.0 // along the rim
	stopEdge    = 0.4 // from the lead-in and from the rim's edge
)

var (
	ruleStopReach = check.Rule{
		Name: "end-stop", Symbol: "phi", Unit: "deg",
		Meaning: "The stops meet beyond the swing and before the servo reaches its own end.",
		Formula: "available swing / 2 - (swing / 2 + stops)",
		Source:  "geometry", Change: "choose fewer degrees for the stops, or a shorter swing",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 1, Fail: 0},
	}
	ruleStopShear = check.Rule{
		Name: "end-stop-shear", Symbol: "tau", Unit: "MPa",
		Meaning: "What a stalled servo presses onto a stop, over the area that shears off.",
		Formula: "stall torque x ratio / (rim radius x stop width x rim width)",
		Source:  "a fifth and a half of the in-plane strength, as layers shear more easily: common practice, no source",
		Change:  "use a wider wall, a weaker servo or a stop of metal",
		Sense:   check.AtMost,
	}
)

// A stopping is where the stops of one joint stand, in the ring's frame; the
// lug stands opposite the pinion at mid-swing.
type stopping struct {
	inner, outer float64 // radii in mm
	height       float64 // of lug and of stops, mm
	half         float64 // rad, half the angle that each takes up
	at           float64 // rad, of the stops' centres from the lug's
}

// addStops draws end stops onto the ring and a lug onto the wheel, where the
// plate asks for them.
func (b *builder) addStops(table string, p Plate, t *turning) error {
	if p.Stops == 0 {
		return nil
	}
	s, err := b.stopping(p, t)
	if err != nil {
		return b.file.Blame(table, err)
	}
	ring, wheel := t.ring.Parts()[0], t.pair.Wheel().Part()
	// The wheel is turned over and then turned by half a pitch as it is put in.
	lug := math.Pi/float64(t.pair.Wheel().Teeth()) - math.Pi
	if err := s.clearOfBolts(t.pair.Spec().Wheel.Bolts, lug); err != nil {
		return b.file.Blame("gears."+t.name+".wheel", err)
	}
	var stops []geom.Contour
	for _, side := range []float64{-1, 1} {
		centre := math.Pi + side*s.at
		stops = append(stops, geom.Sector(geom.Point{}, s.inner, s.outer, centre-s.half, centre+s.half, geom.ChordPlain))
	}
	if err := b.redraw(ring, t.ring.Height(), s.height, stops...); err != nil {
		return b.file.Blame(table, err)
	}
	return b.file.Blame(table, b.redraw(wheel, t.table.FaceWidth, s.height,
		geom.Sector(geom.Point{}, s.inner, s.outer, lug-s.half, lug+s.half, geom.ChordPlain)))
}

// clearOfBolts refuses a lug that would close a screw hole of the wheel.
func (s stopping) clearOfBolts(bolts *gear.BoltCircle, lug float64) error {
	if bolts == nil {
		return nil
	}
	middle, hole := bolts.Diameter/2, bolts.Screw.Clearance/2 // a pilot hole is less, drawn and all
	if middle+hole < s.inner || middle-hole > s.outer {
		return nil
	}
	half := s.half + math.Asin(min(hole/middle, 1))
	for k := range bolts.Count {
		apart := math.Remainder(lug-2*math.Pi*float64(k)/float64(bolts.Count), 2*math.Pi)
		if math.Abs(apart) < half {
			return &check.FieldError{
				Field: "bolt circle", Value: bolts.Diameter, Unit: "mm", Reason: "has a screw hole where the lug of the end stops stands",
				Remedy: fmt.Sprintf("use %s mm or less, or leave out the stops", check.Number(math.Floor(2*(s.inner-hole)))),
			}
		}
	}
	return nil
}

// stopping works out the stops and judges them.
func (b *builder) stopping(p Plate, t *turning) (stopping, error) {
	motion, ok := b.file.Motions[t.table.Motion]
	if !ok {
		return stopping{}, &check.FieldError{Field: "stops", Value: p.Stops, Unit: "deg", Reason: "need a motion whose swing they end", Remedy: "name the motion in the gears' table"}
	}
	if t.ring.Spec().Cap != nil {
		return stopping{}, &check.FieldError{Field: "stops", Value: p.Stops, Unit: "deg", Reason: "find no room on a ring whose rim a cap and its screws cover", Remedy: "hold the bearing by a lip instead, or leave out the stops"}
	}
	gap := t.wheelFoot - (t.ring.Height() - recessDepth)
	s := stopping{height: gap - stopGap}
	if s.height < stopOverlap {
		return stopping{}, &check.FieldError{
			Field: "stops", Value: p.Stops, Unit: "deg", Reason: fmt.Sprintf("would meet over %s mm of height: the ring reaches to %s mm below the wheel", check.Number(math.Round(100*max(s.height, 0))/100), check.Number(math.Round(100*gap)/100)),
			Remedy: "leave out the lip, or the stops",
		}
	}
	s.outer = t.ring.OutsideDiameter()/2 - 2*stopEdge
	s.inner = t.ring.MouthDiameter()/2 + stopEdge
	if s.outer-s.inner < 2*b.card.BeadWidth {
		return stopping{}, &check.FieldError{
			Field: "wall", Value: t.ring.Wall(), Unit: "mm", Reason: "is too thin to carry end stops",
			Remedy: fmt.Sprintf("use %s mm or more", check.Number(math.Ceil(10*(t.ring.Wall()+2*b.card.BeadWidth-(s.outer-s.inner)))/10)),
		}
	}
	middle := (s.inner + s.outer) / 2
	s.half = stopWidth / 2 / middle
	s.at = (motion.Swing/2+p.Stops)*math.Pi/180 + 2*s.half
	if s.at+s.half > math.Pi {
		return stopping{}, &check.FieldError{
			Field: "stops", Value: p.Stops, Unit: "deg", Reason: "run into each other behind the wheel",
			Remedy: fmt.Sprintf("use %s deg or less", check.Number(math.Floor(p.Stops-(s.at+s.half-math.Pi)*180/math.Pi))),
		}
	}
	return s, b.judgeStops(p, t, s, motion)
}

func (b *builder) judgeStops(p Plate, t *turning, s stopping, motion Motion) error {
	table := "gears." + t.name
	material, err := b.material(table, t.table.Material)
	if err != nil {
		return err
	}
	d := b.driveSpec(t, t.servo, b.file.Loads[t.table.Load], motion)
	spare := d.Servo.Travel()/d.Ratio/2 - motion.Swing/2
	b.find(table, ruleStopReach.Judge(spare-p.Stops, b.file.Limits.Of(ruleStopReach),
		fmt.Sprintf("stops <= %s deg: else the servo's own end comes first", check.Number(math.Floor(10*(spare-b.file.Limits.Of(ruleStopReach).Caution))/10))))
	rule := ruleStopShear
	rule.Limit = check.Limit{Caution: material.Strength / 5, Fail: material.Strength / 2}
	force := t.servo.StallTorque * d.Ratio * 1000 / ((s.inner + s.outer) / 2)
	b.find(table, rule.Judge(force/(stopWidth*(s.outer-s.inner)), b.file.Limits.Of(rule), rule.Change))
	return nil
}

// redraw puts a part with more contours, from z0 up, in the place of the part.
func (b *builder) redraw(part geom.Part, z0, height float64, contours ...geom.Contour) error {
	for i := range b.bodies {
		if b.bodies[i].part.Name() == part.Name() {
			more, err := b.bodies[i].part.With(z0, z0+height, contours...)
			b.bodies[i].part = more
			return err
		}
	}
	return nil
}

package joint

import (
	"fmt"

	"pintle/check"
	"pintle/fit"
	"pintle/gear"
)

// lengths are the usual lengths of cap screws in mm (ISO 4762, from memory;
// 14, 18 and 22 are sold less often).
var lengths = []float64{4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 30, 35, 40, 45, 50, 60}

// tailroom is what a screw should show beyond its nut, in mm (common practice,
// no source).
const tailroom = 0.5

// screwFor returns the shortest usual length that passes a grip and fills its
// nut, 0 where none does.
func screwFor(s fit.Screw, grip float64) float64 {
	for _, l := range lengths {
		if l >= grip+s.NutHeight+tailroom {
			return l
		}
	}
	return 0
}

// longest returns the longest usual length up to a limit in mm, 0 where none is.
func longest(limit float64) float64 {
	found := 0.0
	for _, l := range lengths {
		if l <= limit {
			found = l
		}
	}
	return found
}

// A hornJoint is how pinion and horn are screwed together: nuts under the disc,
// or heads under it and nuts on the pinion, or threads cut into the horn.
type hornJoint struct {
	screw      gear.HornScrew
	length     float64 // mm
	headsUnder bool
	above      float64 // mm that heads or nuts stand above the pinion
	sunk       bool    // the heads lie in counterbores of the pinion
	fits       bool    // what is under the disc clears the servo
}

// hornJoint finds the screws between pinion and horn: what they grip, and the
// room between the disc and the servo. It returns false where there are none.
func (t *turning) hornJoint() (hornJoint, bool) {
	screw, ok := t.pair.Pinion().HornScrew()
	if !ok {
		return hornJoint{}, false
	}
	depth := t.pair.Pinion().HornSunk()
	grip, room := t.table.FaceWidth+t.standOff-depth, t.servo.Horn.HubHeight-tailroom
	j := hornJoint{screw: screw, above: max(screw.HeadHeight-depth, 0), sunk: depth > 0}
	if screw.Cuts {
		j.length = longest(grip + room)
		j.fits = j.length-(grip-t.servo.Horn.Thickness) >= t.servo.Horn.Thickness/2
		return j, true
	}
	j.length = screwFor(screw.Screw, grip)
	if j.fits = j.length-grip <= room; j.fits || j.sunk {
		return j, true
	}
	j.headsUnder, j.above, j.fits = true, j.length-grip, screw.HeadHeight <= room
	return j, true
}

var ruleHornScrew = check.Rule{
	Name: "horn-screw", Symbol: "l", Unit: "mm",
	Meaning: "The screws that join pinion and horn have their nuts or their heads under the disc, where they must not touch the servo.",
	Formula: "shortest usual length that fills the nut; end or head under the disc against the hub's height less 0.5 mm",
	Source:  "geometry; lengths of ISO 4762 from memory", Change: "use a smaller screw, or one with a lower head",
	Sense: check.Informs,
}

// hornScrewFinding judges the screws between pinion and horn.
func (t *turning) hornScrewFinding() (check.Finding, bool) {
	j, ok := t.hornJoint()
	if !ok {
		return check.Finding{}, false
	}
	if !j.fits && j.screw.Cuts {
		return ruleHornScrew.Say(check.Caution, j.length,
			fmt.Sprintf("no usual length of %s bites into the horn and ends before the servo", j.screw.Size), ruleHornScrew.Change), true
	}
	if !j.fits {
		return ruleHornScrew.Say(check.Caution, j.length,
			fmt.Sprintf("%s of %s fit between the horn's disc and the servo", j.misfits(), j.screw.Size), ruleHornScrew.Change), true
	}
	return ruleHornScrew.Say(check.Pass, j.length, j.words(), ""), true
}

// misfits names what finds no room under the disc.
func (j hornJoint) misfits() string {
	if j.sunk {
		return "no nuts"
	}
	return "neither the nuts nor the heads"
}

func (j hornJoint) words() string {
	way := "nuts under the disc"
	switch {
	case j.screw.Cuts && j.sunk:
		way = "cutting their thread into the horn"
	case j.screw.Cuts:
		way = "heads on the pinion, cutting their thread into the horn"
	case j.headsUnder:
		way = "heads under the disc, nuts on the pinion"
	}
	if j.sunk {
		way = "heads sunk into the pinion, " + way
	}
	return fmt.Sprintf("%s x %s, %s", j.screw.Size, check.Number(j.length), way)
}

// assembly lists how the joint goes together, with its screws.
func (t *turning) assembly() []string {
	lines := t.pair.Readings()
	if t.plate == nil {
		lines = t.pair.Assembly()
		if t.table.Wheel.BoltCircle > 0 {
			lines = append(lines, t.tableWords())
		}
		return lines
	}
	say := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	if t.ring != nil {
		lines = append(lines, t.ring.Assembly()...)
	}
	if p := t.plate; p != nil {
		s := p.spec
		say("Ring into the plate's recess: %d screws %s x %s with nuts under the plate", len(s.bolts), s.bolt.Size, check.Number(t.ringScrewLength()))
		say("Servo from above, shaft towards the ring's line of centres: %d screws %s x %s with nuts, left loose", len(p.tabHoles()), p.tabScrew.Size, check.Number(t.tabScrewLength()))
	}
	if j, ok := t.hornJoint(); ok {
		say("Horn into the pinion's pocket, hub out: %d screws %s", t.servo.Horn.Holes, j.words())
		say("Servo at its middle pulse, then pinion and horn onto the spline; the horn's own screw goes in through the pinion's hole")
	}
	if t.table.Wheel.Hub == "journal" {
		say("Wheel's journal into the bearing until its shoulder rests on the inner ring all round")
	}
	if r := t.pair.Spec().Wheel.Retain; r != nil {
		lines = append(lines, retainWords(*r))
	}
	if t.plate != nil {
		say("Set the mesh at its tightest place with a strip of paper of 0.1 mm, tighten the servo, turn the strip out; nothing may bind over the whole swing")
	}
	if line := t.pair.Support(); line != "" {
		lines = append(lines, line)
	}
	lines = append(lines, t.pair.Pinion().Assembly()...)
	lines = append(lines, t.pair.Wheel().Assembly()...)
	if t.table.Wheel.BoltCircle > 0 {
		lines = append(lines, t.tableWords())
	}
	return lines
}

// tableWords says how what turns is screwed onto the wheel.
func (t *turning) tableWords() string {
	w, face := t.table.Wheel, t.table.FaceWidth
	start := fmt.Sprintf("Table onto the wheel: %d screws %s ", w.ScrewCount, w.ScrewSize)
	switch w.ScrewKind {
	case "", fit.SelfCutting:
		return start + fmt.Sprintf("that cut their own thread, as long as the table is thick plus %s to %s mm", check.Number(w.Spacer+0.6*face), check.Number(w.Spacer+face))
	case fit.Insert:
		return start + "into heat-set inserts, melted in from the side away from the bed"
	case fit.Nut:
		return start + "with nuts in the pockets of the wheel"
	case fit.Clearance:
		return start + fmt.Sprintf("through the wheel, longer than it by the nut: %s mm and what the table is thick", check.Number(w.Spacer+face))
	}
	return start + "through the wheel, heads in its " + w.ScrewKind + "s, into the table"
}

// retainWords says how the wheel is held on its bearing.
func retainWords(r gear.Retain) string {
	switch r.Kind {
	case "nut":
		return fmt.Sprintf("%s rod or screw through the wheel, its nut in the pocket under the table; below, a washer that bears on the inner ring only, and a locking nut, hand tight", r.Screw.Size)
	case "screw":
		return fmt.Sprintf("Washer that bears on the inner ring only onto the journal's end, with one %s in the axis, hand tight", r.Screw.Size)
	}
	return fmt.Sprintf("Washer that bears on the inner ring only onto the journal's end, with three %s; the wires go through its middle", r.Screw.Size)
}

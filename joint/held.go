package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drive"
)

var (
	ruleWheelHeld = check.Rule{
		Name: "wheel-held", Unit: "N",
		Meaning: "What pulls the wheel's journal out of its bearing must meet something that holds it: a slip fit holds nothing.",
		Formula: "weight that pulls along the axis, away from the bearing",
		Source:  "statics", Change: "hold the wheel by a nut on a rod or a screw through the journal, or turn the joint upright",
		Sense: check.AtMost, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
	}
	ruleTable = check.Rule{
		Name: "table-clearance", Symbol: "r", Unit: "mm",
		Meaning: "What is screwed flat onto the wheel lies level with the pinion's top: beyond this radius it rubs on the pinion and its screw heads.",
		Formula: "a_w - d_a1 / 2 - 1 mm",
		Source:  "geometry; 1 mm common practice, no source",
		Change:  "keep what is screwed onto the wheel smaller, or put a spacer between",
		Sense:   check.Informs,
	}
	ruleCentre = check.Rule{
		Name: "centre-setting", Symbol: "a_w", Unit: "mm",
		Meaning: "How far the servo can be shifted in the plate before its screws are tight. The plate alone does not set the mesh.",
		Formula: "play of the servo's body in its cut-out, plus the slots",
		Source:  "geometry", Change: "push the servo from the wheel, pinch a strip of paper of 0.1 mm in the mesh at its tightest place, push together, tighten, and turn the strip out",
		Sense: check.Informs,
	}
)

// held judges whether the wheel stays on its bearing when the load hangs or
// lies, and what of the load may reach over the pinion.
func (t *turning) held(l Load) []check.Finding {
	var findings []check.Finding
	if axis := drive.Axis(l.Axis); axis != drive.Vertical && !t.retained() {
		f := ruleWheelHeld.Judge(l.Mass*drive.Gravity, ruleWheelHeld.Limit, ruleWheelHeld.Change)
		if axis == drive.Horizontal { // nothing pulls it out, nothing keeps it in
			f = ruleWheelHeld.Say(check.Caution, 0, "nothing keeps the wheel from walking out of its bearing", ruleWheelHeld.Change)
		}
		f.Part = t.name + "-wheel"
		findings = append(findings, f)
	}
	if t.plate == nil {
		return findings
	}
	free, heads := t.tableRadius(), 0.0
	if j, ok := t.hornJoint(); ok {
		heads = j.above
	}
	spacer := math.Ceil(heads + 1)
	verdict := check.Note
	switch {
	case t.table.Wheel.Spacer >= spacer:
		verdict = check.Pass
	case l.Inertia.Solid == "disc" && l.Inertia.Radius > free:
		verdict = check.Caution
	}
	findings = append(findings, ruleTable.Say(verdict, free,
		fmt.Sprintf("a table of more than %s mm radius lies on the pinion, whose screw heads stand up %s mm", check.Number(math.Floor(free)), check.Number(heads)),
		fmt.Sprintf("add spacer = %s to the wheel, or keep the table within %s mm", check.Number(spacer), check.Number(2*math.Floor(free)))))
	play := servoPlay + t.plate.spec.slots
	return append(findings, ruleCentre.Say(check.Note, play,
		fmt.Sprintf("the servo moves %s mm either way; the teeth jam %s mm nearer than drawn", check.Number(play), check.Number(t.pair.CentreDistance()-t.pair.TightMeshDistance())),
		ruleCentre.Change))
}

// retained says whether something holds the wheel on its bearing.
func (t *turning) retained() bool { return t.pair.Spec().Wheel.Retain != nil }

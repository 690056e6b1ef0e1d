package check

// A CautionText is a warning that must be shown to whoever builds, fits or keeps a
// figure. It does not replace a risk assessment.
type CautionText struct {
	Code string `json:"code"`           // "C1" to "C16"
	When string `json:"when,omitempty"` // what makes it apply
	Text string `json:"text"`
}

// Cautions returns all cautions in the order of their codes.
func Cautions() []CautionText {
	return []CautionText{
		{"C1", "pinch: any moving gap passing below 25 mm (finger) or 100 mm (hand) within reach", "This gap closes while the figure moves. Keep fingers out; fit a guard or make the gap stay wider than 25 mm for fingers or 100 mm for hands."},
		{"C2", "in-running gears: exposed mesh", "Meshing teeth pull in hair, threads and fingers. Cover the pair before anyone stands near it."},
		{"C3", "power-off: back-drivable raised mass", "When the power goes, this part falls. Support it or fit a stop before switching off."},
		{"C4", "start-up: any servo", "At switch-on the servo may jump to its first position. Keep clear, and test with the arm unloaded."},
		{"C5", "pressing: press fit", "Press slowly and straight, only on the ring that touches the plastic. No hammer. Wear eye protection: bearings and plastic can splinter."},
		{"C6", "overload: share of stall or tooth limit exceeded", "Expected load is above the safe share. The servo may overheat or the teeth may break. Lower the load, slow the move or change the ratio."},
		{"C7", "heat: temperature above material limit", "This plastic softens at the stated temperature. Choose another material or shade the figure."},
		{"C8", "glue/solvent: assembly notes naming adhesive", "Hot glue burns skin and can soften thin PLA. Solvents give off harmful, flammable vapour: read the safety sheet, ventilate, wear suitable gloves, no flames."},
		{"C9", "printing/sanding: print notes", "Ventilate while printing; wear a dust mask when sanding."},
		{"C10", "mains: power sheet", "Use a ready-made, enclosed, approved low-voltage supply with a fuse on the servo side. Mains wiring is work for a qualified person."},
		{"C11", "overhead: user ticks 'above people'", "Printed parts and servos are not lifting equipment. Anything above people needs rated hardware, an independent second fixing that catches it at once, and a competent person's approval."},
		{"C12", "visitors: public = yes", "Assume visitors push, pull and lean. The figure must stay safe when held still or pushed. Children reach further through small openings than the adult table allows."},
		{"C13", "fire: stage or venue", "The venue may require flame-retardant materials or treatment. Ask before you build."},
		{"C14", "laser sheet: cut file", "Never laser-cut PVC or vinyl. Check the sheet's material first."},
		{"C15", "estimate: every strength figure", "This is an estimate for a printed part. Test with load before showing it."},
		{"C16", "stored energy: springs, counterweights", "Release or block springs and weights before you work on the joint."},
	}
}

// CautionOf returns the caution with the code, or false for a code that there
// is not.
func CautionOf(code string) (CautionText, bool) {
	for _, c := range Cautions() {
		if c.Code == code {
			return c, true
		}
	}
	return CautionText{}, false
}

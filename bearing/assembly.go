package bearing

import (
	"fmt"

	"pintle/check"
)

// feeler is the thickness in mm of a gauge that must not enter under a seated
// ring (common practice, no source).
const feeler = 0.04

// Assembly returns the steps of putting the bearing into its ring, in order: which
// face goes where, what may be pressed on, and how to see that it sits.
func (h *Housing) Assembly() []string {
	b := h.spec.Bearing
	steps := []string{h.facing()}
	if h.spec.machined() {
		steps = append(steps, fmt.Sprintf("Ream, bore or turn the seat to %s mm %s first", check.Number(b.Outside), h.spec.Fit))
	}
	what := map[Kind]string{Tapered: "cup", ThrustBall: "housing washer"}[b.Kind]
	if what == "" {
		what = "outer ring"
	}
	switch {
	case h.deltaMax <= 0:
		steps = append(steps, fmt.Sprintf("Put the %s in by hand until it rests on the shoulder all round", what))
	case h.disc != nil:
		steps = append(steps, fmt.Sprintf("Press slowly and straight on the %s only, with %s-pressing-disc, its recess to the bearing, until it rests on the shoulder all round; no hammer", what, h.spec.Name))
	default:
		steps = append(steps, fmt.Sprintf("Press slowly and straight on the %s only, never through balls or rollers, until it rests on the shoulder all round; no hammer", what))
	}
	see := ""
	if len(h.slots) > 0 {
		see = "; look through the slots of the shoulder"
	}
	steps = append(steps, fmt.Sprintf("A feeler of %s mm must not go in between the %s and the shoulder%s", check.Number(feeler), what, see))
	if h.spec.Lip != nil {
		steps = append(steps, "The lip must have snapped back over the ring's face all round")
	}
	if c := h.spec.Cap; c != nil {
		steps = append(steps, fmt.Sprintf("Lay %s-cap on the %s and turn its %d %s screws in crosswise, finger tight and a quarter turn: they cut their thread in the plastic", h.spec.Name, what, c.Count, c.Screw.Size))
	}
	steps = append(steps, h.clampSteps()...)
	steps = append(steps, h.rodSteps()...)
	if l := h.spec.Load; b.Kind == Tapered && l.Second != nil && l.Second.Kind == Tapered {
		steps = append(steps, "Set the nut to a play that the hand just feels and lock it; the plastic settles: set it again after 24 hours")
	}
	return steps
}

// facing says which side of the bearing goes into the seat.
func (h *Housing) facing() string {
	b := h.spec.Bearing
	switch {
	case b.Kind == Tapered:
		return "The cup's back, its thick rim with the smaller opening, goes down onto the shoulder; the cone drops in from the open side, its small end first"
	case b.Kind == ThrustBall && b.WasherBore > 0:
		return fmt.Sprintf("The washer with the larger bore, %s mm, goes into the seat, groove up; the washer with the bore of %s mm turns with the shaft", check.Number(b.WasherBore), check.Number(b.Bore))
	case b.Kind == ThrustBall:
		return "Of the two washers the one with the larger bore goes into the seat, groove up; the other turns with the shaft"
	}
	return "Either face of the bearing goes down onto the shoulder; a shield, if there is one only, faces the dust"
}

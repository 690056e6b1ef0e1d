package joint

import (
	"regexp"

	"pintle/bearing"
	"pintle/drive"
	"pintle/fit"
	"pintle/grille"
)

// HornKinds are the servo horns a file may name.
func HornKinds() []string { return []string{"disc", "arm", "double-arm", "cross"} }

// Retainers are what may hold a journal in its bearing.
func Retainers() []string { return []string{"nut", "screw", "screws"} }

// Axes are the ways a joint's axis may stand. "inverted" is vertical with the
// load hanging below its bearing.
func Axes() []string {
	return []string{string(drive.Vertical), string(drive.Horizontal), string(drive.Inverted)}
}

// Solids are the bodies an inertia is computed from.
func Solids() []string { return []string{"disc", "rod", "box", "point"} }

// FrictionBearings are the kinds of bearing a friction is estimated from.
func FrictionBearings() []string { return []string{"ball", "tapered", "thrust", "plain"} }

// Laws are the motion laws.
func Laws() []string {
	var words []string
	for _, law := range drive.Laws() {
		words = append(words, string(law))
	}
	return words
}

// Hubs are the ways a gear sits on what carries it.
func Hubs() []string {
	return []string{"horn", "journal", "d-bore", "round", "hex", "square", "keyway", "clamp", "bearing"}
}

// SetHolders are what may hold a set screw in its hub.
func SetHolders() []string { return []string{fit.Nut, fit.Insert, fit.SelfCutting} }

// MarkStyles are how letters stand on a gear.
func MarkStyles() []string { return []string{"sunk", "raised"} }

// Fits are the seats of a housing; an ISO class of a bore is also accepted.
func Fits() []string { return []string{"press", "slip", "crush-ribs"} }

// Mounts are the ways a housing is fastened.
func Mounts() []string { return []string{"flange", "foot", "clamp"} }

// Retentions are what holds a bearing in its seat beside the fit.
func Retentions() []string { return []string{"lip", "cap"} }

// Runnings are the ways a load comes on a bearing.
func Runnings() []string { return []string{bearing.Smooth, bearing.Normal, bearing.Shock} }

// Outlines are the rims of a grille.
func Outlines() []string { return []string{grille.Disc, grille.Rectangle} }

// ShiftRules are the ways to choose profile shifts.
func ShiftRules() []string { return []string{ShiftChoose, ShiftBalanced} }

// IsToleranceClass says whether a word is the tolerance class of a bore in the
// form of ISO 286, such as N7.
func IsToleranceClass(word string) bool { return toleranceClass.MatchString(word) }

var toleranceClass = regexp.MustCompile(`^([A-HJ-NP-Z]|CD|EF|FG|JS|ZA|ZB|ZC)(01|[0-9]|1[0-8])$`)

package joint

import (
	"regexp"
	"strings"
)

// ofLink is how the parts of a linkage are named in errors: "arm length of
// nod-lever", "frame of nod-bracket".
var ofLink = regexp.MustCompile(` of (?:end ([12]) of )?[a-z0-9-]+-(lever|bar|horn|rod|bracket)$`)

// linkKeys lists the keys of a linkage's table that may hold a quantity of one of
// its parts, the likeliest first; none for a quantity of something else.
func linkKeys(quantity string) []string {
	found := ofLink.FindStringSubmatch(quantity)
	if found == nil {
		return nil
	}
	quantity = strings.TrimSuffix(quantity, found[0])
	table := map[string]string{"lever": "lever", "bar": "rod", "horn": "horn", "rod": "rod", "bracket": "frame"}[found[2]]
	own := map[string][]string{
		"arm length": {"length"}, "arm 1 length": {"length"}, "arm 2 length": {"second.length"}, "length": {"length"},
		"arm width": {"width"}, "arm 1 width": {"width"}, "arm 2 width": {"width"},
		"arm 2 angle": {"second.angle"}, "angle between arms": {"second.angle"},
		"hub diameter": {"diameter"}, "hub bore": {"bore"}, "thickness": {"thickness"}, "plate thickness": {"thickness"},
		"clamp screw": {"clamp_screw", "hub"}, "bolt count": {"screw_count"},
		"frame": {"distance"}, "foot height": {"foot.height", "foot"}, "foot screws": {"foot.screw_count"},
		"distance from ball to thread": {"ends"}, "thread depth": {"ends"}, "thread engagement": {"ends"},
	}[quantity]
	if end := found[1]; end != "" {
		index := map[string]int{"1": 0, "2": 1}[end]
		last := map[string]string{"distance from ball to thread": "to_thread", "thread depth": "depth", "thread engagement": "engagement"}[quantity]
		own = append([]string{element("ends", index) + "." + last}, own...)
	}
	var keys []string
	for _, key := range own {
		keys = append(keys, table+"."+key)
	}
	return append(keys, table)
}

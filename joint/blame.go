package joint

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"pintle/check"
)

// Blame gives an error from a design its place in the file: the value of the
// quantity it names, else the header of the table the design came from. The
// result is an *InputError, or nil for nil. An error that names no quantity is a
// shape that could not be proved: sizes that meet where they must not.
func (f *File) Blame(table string, err error) error {
	var field *check.FieldError
	var placed *InputError
	if err == nil || errors.As(err, &placed) {
		return err
	}
	if !errors.As(err, &field) {
		at, _ := f.source.find(table, "")
		return &InputError{
			File: f.Path, Line: at.Line, Column: at.Column, Key: table, Err: err,
			Remedy: "outlines of this part meet there: change one of the sizes",
		}
	}
	path, at := f.place(table, field.Field)
	e := &InputError{
		File: f.Path, Line: at.Line, Column: at.Column, Key: path,
		Err: field, Remedy: field.Remedy,
	}
	switch {
	case at.Origin != "":
		e.Key = at.Origin
	case path == table || path == "":
		// The key names no quantity, so that the error has to.
		e.Key, e.Err = table, tableError{field}
		if f.Path == "" {
			e.Key = ""
		}
	}
	return e
}

// A tableError prints a FieldError with its quantity below a table's name.
type tableError struct{ *check.FieldError }

func (e tableError) Unwrap() error { return e.FieldError }

// place returns the path and position of the value that holds a quantity.
func (f *File) place(table, quantity string) (string, Position) {
	for _, path := range f.candidates(table, quantity) {
		if f.source.has(path) {
			return path, f.source.values[path]
		}
	}
	at, path := f.source.find(table, "")
	return path, at
}

// ofGear is how designs say which gear of a pair is meant: "bore of the
// pinion", "bolt circle of lamp-wheel".
var ofGear = regexp.MustCompile(` of (?:the |[a-z0-9-]+-)(pinion|wheel)$`)

// candidates lists the paths that may hold a quantity, the likeliest first.
func (f *File) candidates(table, quantity string) []string {
	var paths []string
	for _, key := range linkKeys(quantity) {
		paths = append(paths, join(table, key))
	}
	quantity, role := cutRole(quantity)
	keys := append(keysOf()[quantity], strings.NewReplacer(" ", "_", "-", "_").Replace(quantity))
	for _, key := range keys {
		if role != "" {
			index := map[string]int{"pinion": 0, "wheel": 1}[role]
			paths = append(paths, join(table, role+"."+key), join(table, element(key, index)))
		}
		paths = append(paths, join(table, key))
		for _, other := range f.refersTo(table) {
			paths = append(paths, join(other, key))
		}
	}
	return paths
}

// cutRole takes the gear that a quantity belongs to off its name.
func cutRole(quantity string) (rest, role string) {
	if found := ofGear.FindStringSubmatchIndex(quantity); found != nil {
		return quantity[:found[0]], quantity[found[2]:found[3]]
	}
	return quantity, ""
}

// keysOf maps the trade's word for a quantity to the keys that may hold it,
// where the key is not the word itself.
func keysOf() map[string][]string {
	return map[string][]string{
		"number of teeth":                 {"teeth", "ratio"},
		"profile shift":                   {"shift", "centre_distance"},
		"shift rule":                      {"shift"},
		"tip diameter":                    {"teeth", "shift"},
		"bolt count":                      {"screw_count"},
		"pilot hole":                      {"screw_size"},
		"hollow of the journal":           {"bore"},
		"journal length":                  {"bearing"},
		"shoulder diameter":               {"rod.shoulder", "bearing"},
		"kind of horn":                    {"horn.kind"},
		"horn diameter":                   {"horn.diameter"},
		"horn thickness":                  {"horn.thickness"},
		"horn hub diameter":               {"horn.hub_diameter"},
		"horn holes":                      {"horn.holes"},
		"horn hole":                       {"horn.hole"},
		"horn hole circle":                {"horn.hole_circle"},
		"horn arm":                        {"horn.arm"},
		"horn arms":                       {"horn.arms"},
		"horn arm width at the hub":       {"horn.width_at_hub"},
		"horn arm width at the tip":       {"horn.width_at_tip"},
		"horn counterbore":                {"horn_screws"},
		"horn holes_at":                   {"horn.holes_at"},
		"teeth of the sector":             {"sector"},
		"bore":                            {"bore", "shaft"},
		"size over the flat":              {"over_flat", "shaft"},
		"fit on the shaft":                {"fit"},
		"screw":                           {"screw_size"},
		"screw holes":                     {"screw_kind"},
		"set screw":                       {"set_screw.screw_size", "set_screw"},
		"number of set screws":            {"set_screw.count", "set_screw"},
		"holder of the set screw":         {"set_screw.holds", "set_screw"},
		"clamp screw":                     {"lever.clamp_screw", "clamp.screw_size"},
		"slit":                            {"clamp.slit"},
		"lightening":                      {"lighten"},
		"number of spokes or holes":       {"lighten.count"},
		"number of spokes":                {"lighten.count"},
		"number of lightening holes":      {"lighten.count"},
		"lightening rim":                  {"lighten.rim", "lighten"},
		"lightening hub":                  {"lighten.hub", "lighten"},
		"lightening hole":                 {"lighten.width", "lighten"},
		"spoke width":                     {"lighten.width", "lighten"},
		"web":                             {"lighten.web", "lighten"},
		"fillet":                          {"lighten.fillet"},
		"cap height":                      {"mark.height", "mark"},
		"text":                            {"mark.text"},
		"outside of the bearing":          {"bearing"},
		"diameter of the body":            {"bearing"},
		"hub of the sector":               {"sector_hub"},
		"retaining screw":                 {"retain.screw_size"},
		"rack addendum":                   {"rack.addendum", "rack", "basic_rack.addendum", "basic_rack"},
		"rack clearance":                  {"rack.clearance", "rack", "basic_rack.clearance", "basic_rack"},
		"rack dedendum":                   {"rack.clearance", "rack", "basic_rack.clearance", "basic_rack"},
		"rack fillet radius":              {"rack.fillet_radius", "rack", "basic_rack.fillet_radius", "basic_rack"},
		"centre distance tolerance":       {"centre_tolerance"},
		"height of the rack":              {"height"},
		"screws of the rack":              {"screw_count"},
		"lost motion radius":              {"lost_motion.radius"},
		"lost motion limit":               {"lost_motion.limit", "lost_motion.limit_mm"},
		"temperature when made":           {"temperature.made", "temperature"},
		"coldest temperature":             {"temperature.coldest", "coldest"},
		"expansion of the base":           {"temperature.base_expansion"},
		"measured span":                   {"measured"},
		"measured dimension over pins":    {"measured"},
		"measured tip diameter":           {"measured"},
		"allowable bending stress":        {"allowable_bending"},
		"held torque":                     {"extra_torque", "centre_of_gravity.offset"},
		"pinion speed":                    {"speed"},
		"speed":                           {"rpm"},
		"kind of retainer":                {"retain.kind"},
		"tab hole diameter":               {"tabs.diameter"},
		"bearing":                         {"designation"},
		"bearing bore":                    {"bore"},
		"bearing outside diameter":        {"outside"},
		"outside diameter":                {"outside"},
		"bearing width":                   {"overall"},
		"width":                           {"overall"},
		"horn":                            {"horn.length", "horn"},
		"rod length":                      {"rod.length", "rod"},
		"lever":                           {"lever.length", "lever"},
		"distance between the axes":       {"frame.distance", "frame"},
		"frame":                           {"frame.distance", "frame"},
		"horn angle at the start":         {"from", "servo"},
		"horn angle at the end":           {"to", "servo"},
		"horn travel":                     {"to", "servo"},
		"neutral angle of the horn":       {"neutral"},
		"offset of the rod":               {"offset"},
		"wanted swing":                    {"swing"},
		"pivot":                           {"frame.pivot"},
		"rod thread":                      {"rod.thread"},
		"lever screw":                     {"lever.screw_size"},
		"bracket screw":                   {"frame.screw_size"},
		"foot screw":                      {"frame.foot.screw_size"},
		"screw size":                      {"mount.screw_size", "screw_size", "screws.size"},
		"screw clearance hole":            {"screws.size"},
		"number of flange screws":         {"mount.screw_count"},
		"flange thickness":                {"mount.thickness"},
		"foot":                            {"mount.kind"},
		"clamp":                           {"mount.kind"},
		"number of clamp screws":          {"mount.screw_count"},
		"ear thickness":                   {"mount.thickness", "mount.kind"},
		"slit width":                      {"mount.slit", "mount.kind"},
		"class of the rod":                {"rod.class", "rod"},
		"flat depth":                      {"rod.flat", "rod"},
		"flat length":                     {"rod.flat_length", "rod"},
		"torque on the flat":              {"rod.torque"},
		"number of foot screws":           {"mount.screw_count"},
		"foot thickness":                  {"mount.thickness"},
		"lip":                             {"retention.kind"},
		"cap":                             {"retention.kind"},
		"lip height":                      {"retention.height", "retention.kind"},
		"number of cap screws":            {"retention.screw_count"},
		"cap thickness":                   {"retention.thickness", "retention.kind"},
		"number of ribs":                  {"ribs.count", "ribs", "fit"},
		"rib height":                      {"ribs.height", "fit"},
		"number of knock-out slots":       {"knock_out.count"},
		"knock-out width":                 {"knock_out.width", "knock_out"},
		"number of inspection slots":      {"inspection_slots"},
		"corner relief width":             {"corner_relief.width"},
		"corner relief depth":             {"corner_relief.depth"},
		"housing washer bore":             {"washer_bore"},
		"number of screws":                {"screws.count"},
		"screw circle":                    {"screws.circle", "screws.inset", "screws"},
		"outline":                         {"outline.kind"},
		"outline diameter":                {"outline.diameter"},
		"outline length":                  {"outline.length"},
		"outline width":                   {"outline.width"},
		"corner radius":                   {"outline.corner_radius"},
		"open area wanted":                {"open_target"},
		"screw inset":                     {"screws.inset", "screws"},
		"plate thickness":                 {"thickness"},
		"servo speed":                     {"speed"},
		"measured servo positions":        {"points"},
		"pulse":                           {"points"},
		"servo angle":                     {"points"},
		"motion law":                      {"law"},
		"moment of inertia":               {"inertia"},
		"height of the centre of gravity": {"centre_of_gravity.height"},
		"offset of the centre of gravity": {"centre_of_gravity.offset"},
		"elevation at mid-swing":          {"elevation"},
		"bearing friction":                {"friction"},
		"stated voltage":                  {"voltage"},
		"supply voltage":                  {"supply"},
		"servo play":                      {"play"},
		"cycles a day":                    {"cycles_per_day"},
		"hottest temperature":             {"temperature.hottest", "hottest"},
		"measured seat":                   {"measured.seat", "measured"},
		"card name":                       {"card_name"},
		"backlash steps":                  {"backlash"},
		"number of bores":                 {"bores"},
		"number of outsides":              {"outsides"},
		"bore error per mm":               {"bore_error.per_mm", "bore_error"},
		"outside error per mm":            {"outside_error.per_mm", "outside_error"},
		"bed length":                      {"bed[0]", "bed"},
		"bed width":                       {"bed[1]", "bed"},
	}
}

// refersTo lists the tables that a table names: a housing's error may stem from
// its bearing. The printer is everyone's.
func (f *File) refersTo(table string) []string {
	kind, name, _ := strings.Cut(table, ".")
	var tables []string
	add := func(kind, name string) {
		if name != "" {
			tables = append(tables, kind+"."+name)
		}
	}
	switch kind {
	case "gears":
		g := f.Gears[name]
		add("servo", g.Servo)
		add("load", g.Load)
		add("motion", g.Motion)
		add("bearing", g.Wheel.Bearing)
	case "rack":
		add("servo", f.Racks[name].Servo)
	case "linkage":
		l := f.Linkages[name]
		add("servo", l.Servo)
		add("load", l.Load)
		add("motion", l.Motion)
		add("bearing", l.Lever.Bearing)
	case "housing":
		add("bearing", f.Housings[name].Bearing)
	case "coupon":
		if f.Coupon != nil {
			add("bearing", f.Coupon.Bearing)
			add("servo", f.Coupon.Servo)
		}
	case "plate":
		p := f.Plates[name]
		add("gears", p.Gears)
		add("housing", p.Housing)
		tables = slices.Concat(tables, f.refersTo("gears."+p.Gears), f.refersTo("housing."+p.Housing))
	}
	return append(tables, "printer", "place")
}

package bearing_test

import (
	"errors"
	"maps"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

func screw(t *testing.T, size string) fit.Screw {
	t.Helper()
	s, ok := fit.ScrewNamed(size)
	if !ok {
		t.Fatalf("no screw %s", size)
	}
	return s
}

// options are the ways to change a plain press-fit ring, each by its name.
func options(t *testing.T) map[string]func(*bearing.HousingSpec) {
	m2, m3 := screw(t, "M2"), screw(t, "M3")
	return map[string]func(*bearing.HousingSpec){
		"plain":     func(*bearing.HousingSpec) {},
		"slip":      func(s *bearing.HousingSpec) { s.Fit = bearing.Slip },
		"ribs":      func(s *bearing.HousingSpec) { s.Fit = bearing.CrushRibs },
		"N7":        func(s *bearing.HousingSpec) { s.Fit = "N7" },
		"H8":        func(s *bearing.HousingSpec) { s.Fit = "H8" },
		"lip":       func(s *bearing.HousingSpec) { s.Lip = &bearing.Lip{} },
		"slip, lip": func(s *bearing.HousingSpec) { s.Fit, s.Lip = bearing.Slip, &bearing.Lip{} },
		"ribs, lip": func(s *bearing.HousingSpec) { s.Fit, s.Lip = bearing.CrushRibs, &bearing.Lip{} },
		"high lip": func(s *bearing.HousingSpec) {
			s.Fit, s.Lip = bearing.Slip, &bearing.Lip{Height: 0.02 * s.Bearing.Outside}
		},
		"cap":        func(s *bearing.HousingSpec) { s.Cap = &bearing.Cap{Screw: m2, Count: 4} },
		"ribs, cap":  func(s *bearing.HousingSpec) { s.Fit, s.Cap = bearing.CrushRibs, &bearing.Cap{Screw: m3, Count: 3} },
		"cap, thin":  func(s *bearing.HousingSpec) { s.Cap, s.Wall = &bearing.Cap{Screw: m3, Count: 3}, 3 },
		"cap, tight": func(s *bearing.HousingSpec) { s.Cap, s.Wall = &bearing.Cap{Screw: m3, Count: 3}, 6.5 },
		"many ribs":  func(s *bearing.HousingSpec) { s.Fit, s.Ribs = bearing.CrushRibs, &bearing.Ribs{Count: 24} },
		"low ribs":   func(s *bearing.HousingSpec) { s.Fit, s.Ribs = bearing.CrushRibs, &bearing.Ribs{Count: 6, Height: 0.24} },
		"long tube":  func(s *bearing.HousingSpec) { s.BoreDepth = 3 * s.Bearing.Width },
		"ribs, long": func(s *bearing.HousingSpec) { s.Fit, s.BoreDepth = bearing.CrushRibs, 30 },
		"short tube": func(s *bearing.HousingSpec) { s.BoreDepth = 0.5 * s.Bearing.SeatWidth() },
		"slots":      func(s *bearing.HousingSpec) { s.KnockOut, s.InspectionSlots = &bearing.KnockOut{Count: 2}, 2 },
		"six slots":  func(s *bearing.HousingSpec) { s.KnockOut = &bearing.KnockOut{Count: 6, Width: 4} },
		"round":      func(s *bearing.HousingSpec) { s.KnockOut = &bearing.KnockOut{Count: 3, Round: true} },
		"round, sights": func(s *bearing.HousingSpec) {
			s.KnockOut, s.InspectionSlots = &bearing.KnockOut{Count: 3, Width: 2, Round: true}, 3
			s.ShoulderHole, _ = bearing.HousingShoulder(s.Bearing)
		},
		"sights":     func(s *bearing.HousingSpec) { s.InspectionSlots, s.KnockOut = 3, &bearing.KnockOut{} },
		"relief":     func(s *bearing.HousingSpec) { s.Relief = &bearing.Relief{Width: 0.5, Depth: 0.3} },
		"no relief":  func(s *bearing.HousingSpec) { s.Relief = &bearing.Relief{} },
		"flange":     func(s *bearing.HousingSpec) { s.Flange = &bearing.Flange{Screw: m3, Count: 4} },
		"foot":       func(s *bearing.HousingSpec) { s.Foot = &bearing.Foot{Screw: m3, Count: 2} },
		"long foot":  func(s *bearing.HousingSpec) { s.Foot = &bearing.Foot{Screw: screw(t, "M8"), Count: 5} },
		"clamp":      func(s *bearing.HousingSpec) { s.Fit, s.Clamp = bearing.Slip, &bearing.Clamp{Screw: m3} },
		"clamp, nut": func(s *bearing.HousingSpec) { s.Fit, s.Clamp = bearing.Slip, &bearing.Clamp{Screw: m2, Nut: true} },
		"clamp, deep": func(s *bearing.HousingSpec) {
			s.Fit, s.BoreDepth, s.Clamp = bearing.Slip, s.Bearing.SeatWidth()+20, &bearing.Clamp{Screw: screw(t, "M4")}
		},
		"clamp, thin": func(s *bearing.HousingSpec) {
			s.Fit, s.ShoulderThickness, s.Clamp = bearing.Slip, 6, &bearing.Clamp{Screw: m3, Nut: true, Thickness: 6, Slit: 0.8}
		},
		"clamp, relief": func(s *bearing.HousingSpec) {
			s.Fit, s.Relief, s.Clamp = bearing.Slip, &bearing.Relief{Width: 0.4}, &bearing.Clamp{Screw: m2, Thickness: 2}
		},
		"cold":       func(s *bearing.HousingSpec) { s.Cooling, s.Interference = 40, 0.004*s.Bearing.Outside },
		"cold, slip": func(s *bearing.HousingSpec) { s.Fit, s.Cooling = bearing.Slip, 60 },
		"rod": func(s *bearing.HousingSpec) {
			s.Rod = &bearing.RodSpec{Shoulder: s.Bearing.Bore + 1, Flat: s.Bearing.Bore / 10, FlatLength: 4, Torque: 1}
		},
		"disc": func(s *bearing.HousingSpec) { s.PressingDisc = true },
	}
}

// remedies are the numbers a finding may ask for, and what following them means.
var remedies = []struct {
	says  *regexp.Regexp
	apply func(*bearing.HousingSpec, float64)
}{
	{regexp.MustCompile(`^interference [<>]= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.Interference = v }},
	{regexp.MustCompile(`^wall >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.Wall = v }},
	{regexp.MustCompile(`^shoulder hole from ([0-9.]+) to`), func(s *bearing.HousingSpec, v float64) { s.ShoulderHole = v }},
	{regexp.MustCompile(`^shoulder thickness >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.ShoulderThickness = v }},
	{regexp.MustCompile(`^ribs <= ([0-9]+)`), func(s *bearing.HousingSpec, v float64) { ribsOf(s).Count = int(v) }},
	{regexp.MustCompile(`^rib height of ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { ribsOf(s).Height = v }},
	{regexp.MustCompile(`^lip height (?:<=|of) ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.Lip = &bearing.Lip{Height: v} }},
	{regexp.MustCompile(`^ear thickness >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { clampOf(s).Thickness = v }},
	{regexp.MustCompile(`^slit width >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { clampOf(s).Slit = v }},
	{regexp.MustCompile(`^flat length >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { r := *s.Rod; r.FlatLength, s.Rod = v, &r }},
	{regexp.MustCompile(`^shoulder from ([0-9.]+) to`), func(s *bearing.HousingSpec, v float64) { r := *s.Rod; r.Shoulder, s.Rod = v, &r }},
	{regexp.MustCompile(`^corner relief >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.Relief = &bearing.Relief{Width: v} }},
}

func ribsOf(s *bearing.HousingSpec) *bearing.Ribs {
	r := bearing.Ribs{}
	if s.Ribs != nil {
		r = *s.Ribs
	}
	s.Ribs = &r
	return s.Ribs
}

func clampOf(s *bearing.HousingSpec) *bearing.Clamp {
	c := *s.Clamp
	s.Clamp = &c
	return &c
}

// refusals are the numbers a refusal may ask for, by the quantity it names.
var refusals = map[string]func(*bearing.HousingSpec, float64){
	"shoulder hole":              func(s *bearing.HousingSpec, v float64) { s.ShoulderHole = v },
	"shoulder thickness":         func(s *bearing.HousingSpec, v float64) { s.ShoulderThickness = v },
	"wall":                       func(s *bearing.HousingSpec, v float64) { s.Wall = v },
	"bore depth":                 func(s *bearing.HousingSpec, v float64) { s.BoreDepth = v },
	"lip height":                 func(s *bearing.HousingSpec, v float64) { s.Lip.Height = v },
	"number of flange screws":    func(s *bearing.HousingSpec, v float64) { s.Flange.Count = int(v) },
	"number of cap screws":       func(s *bearing.HousingSpec, v float64) { s.Cap.Count = int(v) },
	"corner relief width":        func(s *bearing.HousingSpec, v float64) { s.Relief.Width = v },
	"number of ribs":             func(s *bearing.HousingSpec, v float64) { ribsOf(s).Count = int(v) },
	"number of inspection slots": func(s *bearing.HousingSpec, v float64) { s.InspectionSlots = int(v) },
}

var firstNumber = regexp.MustCompile(`^use ([0-9.]+)`)

// Every bearing of the table in every plastic with every option is a ring whose
// parts are proved closed, or is refused with a remedy. What a remedy asks for in
// numbers makes the check pass, or the ring.
func TestOptionsOverTheTable(t *testing.T) {
	card := fit.Card{Name: "none", BeadWidth: 0.45, LayerThickness: 0.2, FirstLayerGrowth: 0.2, Bed: [2]float64{300, 300}, Bore: fit.Error{Offset: -0.18, Sigma: 0.05}}
	built, refused, followed := 0, 0, map[string]int{}
	changes := options(t)
	for n, name := range slices.Sorted(maps.Keys(changes)) {
		change := changes[name]
		for i, b := range bearing.All() {
			every := 3 // each option on every third bearing, each bearing with every third option
			if strings.HasPrefix(name, "clamp") {
				every = 18 // drilling takes its time
			}
			if (i+n)%every != 0 {
				continue
			}
			plastic := fit.Materials()[(i+n/3)%4]
			spec := bearing.HousingSpec{Name: "any", Bearing: b, Fit: bearing.Press, Material: plastic, Card: card, Load: bearing.Load{Axial: 10}}
			change(&spec)
			what := name + ", " + b.Designation + ", " + plastic.Name
			h, err := bearing.NewHousing(spec)
			if err != nil {
				refused++
				followRefusal(t, what, spec, err, followed)
				continue
			}
			built++
			judgeParts(t, what, h)
			for _, f := range h.Findings() {
				if (f.Verdict == check.Caution || f.Verdict == check.Fail) && f.Remedy == "" {
					t.Errorf("%s: no remedy: %+v", what, f)
				}
				follow(t, what, spec, f, followed)
			}
		}
	}
	if built < 1500 || refused == 0 {
		t.Errorf("%d built, %d refused", built, refused)
	}
	for _, check := range []string{"hoop-strain", "interference-smoothed", "lip-strain", "corner-relief", "rib-crush", "boss-edge", "thread-grip", "ear-thickness", "clamp-slit", "cold-strain", "flat-pressure", "rod-shoulder", "refused: shoulder thickness", "refused: wall", "refused: bore depth", "refused: shoulder hole"} {
		if followed[check] == 0 {
			t.Errorf("no remedy of %s was followed; followed %v", check, followed)
		}
	}
}

func judgeParts(t *testing.T, what string, h *bearing.Housing) {
	t.Helper()
	for _, p := range h.Parts() {
		lo, hi := p.Bounds()
		if !(p.Volume() > 0) || !strings.HasPrefix(p.Name(), "any-") || !(hi.X > lo.X) {
			t.Errorf("%s: %s has volume %v", what, p.Name(), p.Volume())
		}
	}
	for key, v := range h.Values() {
		if x, ok := v.(float64); ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			t.Errorf("%s: %s = %v", what, key, x)
		}
	}
	if steps := h.Assembly(); len(steps) < 3 {
		t.Errorf("%s: assembly %q", what, steps)
	}
}

func follow(t *testing.T, what string, spec bearing.HousingSpec, f check.Finding, followed map[string]int) {
	t.Helper()
	for _, way := range remedies {
		m := way.says.FindStringSubmatch(f.Remedy)
		if m == nil {
			continue
		}
		v, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatalf("%s: %q", what, f.Remedy)
		}
		way.apply(&spec, v)
		again, err := bearing.NewHousing(spec)
		if err != nil {
			t.Errorf("%s: %s: %q is refused: %v", what, f.Check, f.Remedy, err)
			return
		}
		if g := finding(t, again.Findings(), f.Check); g.Verdict != check.Pass {
			t.Errorf("%s: %s %v: followed %q, then %+v", what, f.Check, f.Value, f.Remedy, g)
		}
		followed[f.Check]++
	}
}

func followRefusal(t *testing.T, what string, spec bearing.HousingSpec, err error, followed map[string]int) {
	t.Helper()
	var wrong *check.FieldError
	if !errors.As(err, &wrong) || wrong.Remedy == "" {
		t.Errorf("%s: %v", what, err)
		return
	}
	m, apply := firstNumber.FindStringSubmatch(wrong.Remedy), refusals[wrong.Field]
	if m == nil || apply == nil {
		return
	}
	v, _ := strconv.ParseFloat(m[1], 64)
	apply(&spec, v)
	var still *check.FieldError
	if _, err := bearing.NewHousing(spec); errors.As(err, &still) && still.Field == wrong.Field {
		t.Errorf("%s: %v: followed %q, then %v", what, wrong, wrong.Remedy, err)
	}
	followed["refused: "+wrong.Field]++
}

// Volumes, from the plain ring's by hand: four M2 pilot holes of 5 mm (2.5 d); a
// tube longer by 10 mm whose bore is 0.4 mm wider above the seat; ribs with flanks
// of 45 degrees on a bore. Chords differ from their arcs by the chord error.
func TestOptionVolumes(t *testing.T) {
	base := func() bearing.HousingSpec {
		s := lampSpec(t)
		s.Flange, s.Wall, s.Fit = nil, 6, bearing.Slip
		return s
	}
	volume := func(s bearing.HousingSpec) float64 {
		h, err := bearing.NewHousing(s)
		if err != nil {
			t.Fatal(err)
		}
		return h.Parts()[0].Volume()
	}
	plain := volume(base())
	seat, tube := 40.28, 52.28

	capped := base()
	capped.Cap = &bearing.Cap{Screw: screw(t, "M2"), Count: 4}
	pilot := 1.62 + 0.18
	// The capped ring is 0.2 mm lower; the tube's wall is full there.
	want := plain - 4*boreArea(pilot, geom.ChordPlain)*5 - 0.2*(pegArea(tube, geom.ChordPlain)-boreArea(seat, geom.ChordFit))
	if got := volume(capped); !near(got, want, 0.1) {
		t.Errorf("capped: %v, want %v", got, want)
	}

	long := base()
	long.BoreDepth = 21
	wide := seat + 0.4
	step, lead, mouth := 0.2*math.Sqrt(3), 0.5*math.Sqrt(3), 1.0
	k := boreArea(seat, geom.ChordFit) / (seat * seat)
	cone := func(a, b, h float64) float64 { return k * h * (a*a + a*b + b*b) / 3 }
	want = plain + 10*pegArea(tube, geom.ChordPlain) + k*seat*seat*(11-lead) + cone(seat, seat+mouth, lead) -
		k*seat*seat*(11-step) - cone(seat, wide, step) - k*wide*wide*(10-lead) - cone(wide, wide+mouth, lead)
	if got := volume(long); !near(got, want, 0.1) {
		t.Errorf("long tube: %v, want %v", got, want)
	}
}

// Whatever the printer and the sizes, two options at once give proved parts or a
// refusal that names a quantity.
func TestOptionsOnAnyPrinter(t *testing.T) {
	const seed = 11
	rnd := rand.New(rand.NewPCG(seed, seed))
	changes := options(t)
	names := slices.Sorted(maps.Keys(changes))
	built := 0
	for i := range 1000 {
		spec := randomSpec(t, rnd)
		first, second := names[rnd.IntN(len(names))], names[rnd.IntN(len(names))]
		changes[first](&spec)
		changes[second](&spec)
		h, err := bearing.NewHousing(spec)
		if err != nil {
			var wrong *check.FieldError
			if !errors.As(err, &wrong) || wrong.Remedy == "" {
				t.Errorf("seed %d, case %d: %s and %s: %v\n%+v", seed, i, first, second, err, spec)
			}
			continue
		}
		built++
		for _, f := range h.Findings() {
			if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) || (f.Verdict == check.Caution || f.Verdict == check.Fail) && f.Remedy == "" {
				t.Errorf("seed %d, case %d: %s and %s: %+v", seed, i, first, second, f)
			}
		}
	}
	if built < 350 {
		t.Errorf("only %d of 1000 rings were built", built)
	}
}

// Three round holes of 2.5 mm, drawn 0.18 larger, through the shoulder of a 608
// whose hole is 12.8 mm: the ring is lighter by three prisms of the shoulder's
// height and by what their chamfers at the bed take more (closed forms). The holes
// end 0.3 mm inside the seat; the face begins at 0.95 x 96 / 5 / 2 = 9.12 mm.
func TestRoundKnockOuts(t *testing.T) {
	spec := lampSpec(t)
	spec.Bearing, spec.Flange, spec.ShoulderHole, spec.KnockOut = find(t, "608"), nil, 12.8, &bearing.KnockOut{}
	plain, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	spec.KnockOut = &bearing.KnockOut{Count: 3, Width: 2.5, Round: true}
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	const drawn, chamfer, thickness = 2.68, 0.4, 3.0
	k := boreArea(drawn, geom.ChordPlain) / (drawn * drawn)
	wide := drawn + 2*chamfer
	lost := 3 * (k*drawn*drawn*(thickness-chamfer) + k*chamfer*(drawn*drawn+drawn*wide+wide*wide)/3)
	if have := plain.Parts()[0].Volume() - h.Parts()[0].Volume(); !near(have, lost, 0.01) {
		t.Errorf("the holes take %v mm³, want %v", have, lost)
	}
	v := h.Values()
	reach := v["seat_drawn"].(float64)/2 - 0.3
	if !near(v["knock_out_circle"].(float64), 2*reach-drawn, 1e-9) || v["knock_out_diameter"] != 2.5 || v["knock_out_count"] != 3 {
		t.Errorf("circle %v, diameter %v, count %v", v["knock_out_circle"], v["knock_out_diameter"], v["knock_out_count"])
	}
	if f := judged(t, spec, "knock-out"); !near(f.Value, min(reach-9.12, 11-0.3-9.12), 1e-9) || f.Verdict != check.Pass {
		t.Errorf("%+v", f)
	}
	spec.ShoulderHole = 0
	var wrong *check.FieldError
	if _, err := bearing.NewHousing(spec); !errors.As(err, &wrong) || wrong.Field != "shoulder hole" {
		t.Errorf("a shoulder hole that leaves no room: %v", err)
	}
	spec.ShoulderHole = 12.8
	if _, err := bearing.SeatIn(spec, 60); !errors.As(err, &wrong) || wrong.Field != "knock-out holes" {
		t.Errorf("round holes in a gear: %v", err)
	}
}

package gear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

func bareSpec(z1, z2 int) PairSpec {
	spec := lampSpec()
	spec.Pinion, spec.Wheel, spec.Teeth = Body{}, Body{}, [2]int{z1, z2}
	return spec
}

// finding returns the finding of a check on a part ("" for the pair).
func finding(t *testing.T, p *Pair, part, name string) check.Finding {
	t.Helper()
	for _, f := range p.Findings() {
		if f.Check == name && f.Part == part {
			return f
		}
	}
	t.Fatalf("no finding %s of %q", name, part)
	return check.Finding{}
}

func TestVerdicts(t *testing.T) {
	for _, test := range []struct {
		why        string
		part, rule string
		want       check.Verdict
		spec       func() PairSpec
	}{
		{"undercut takes working flank (real contact ratio 1.27 of 1.57)", "lamp-pinion", "undercut", check.Fail, func() PairSpec { return bareSpec(12, 40) }},
		{"1.2746 is above 1.2", "", "contact-ratio", check.Pass, func() PairSpec { return bareSpec(12, 40) }},
		{"outlines of 12/40 turned against each other do not overlap", "", "interference", check.Pass, func() PairSpec { return bareSpec(12, 40) }},
		{"17 teeth are hardly undercut, above the working flank", "lamp-pinion", "undercut", check.Note, func() PairSpec { return bareSpec(17, 51) }},
		{"16 teeth are undercut, above the working flank", "lamp-pinion", "undercut", check.Caution, func() PairSpec { return bareSpec(16, 24) }},
		{"18 teeth are not", "lamp-pinion", "undercut", check.Pass, func() PairSpec { return bareSpec(18, 54) }},
		{"28/36 share 4", "", "hunting", check.Note, func() PairSpec { return bareSpec(28, 36) }},
		{"29/36 share nothing", "", "hunting", check.Pass, func() PairSpec { return bareSpec(29, 36) }},
		{"backlash below what 0.1 mm nearer takes (0.073 mm)", "", "backlash", check.Fail, func() PairSpec { s := bareSpec(28, 36); s.Backlash = 0.05; return s }},
		{"backlash above 0, below the floor of 0.086 mm", "", "backlash", check.Caution, func() PairSpec { s := bareSpec(28, 36); s.Backlash = 0.14; return s }},
		{"module 1 is below 2.5 beads", "", "tooth-size", check.Caution, func() PairSpec { s := bareSpec(28, 36); s.Module = 1; return s }},
		{"contact ratio 1.167 at a + 0.5 m (20/40, 30.5), reference pair", "", "contact-ratio", check.Caution, func() PairSpec {
			s := bareSpec(20, 40)
			s.CentreDistance, s.Shift = 45.75, [2]float64{1e-9, 0}
			return s
		}},
		{"10 teeth with x 0.5 end at 0.2 m (design table 0.499)", "lamp-pinion", "tip-thickness", check.Fail, func() PairSpec {
			s := bareSpec(10, 30)
			s.Shift[0] = 0.5
			return s
		}},
		{"face width of 4 modules", "", "face-width", check.Note, func() PairSpec { s := bareSpec(28, 36); s.FaceWidth = 6; return s }},
		{"face width of 16 modules", "", "face-width", check.Caution, func() PairSpec { s := bareSpec(28, 36); s.FaceWidth = 24; return s }},
		{"rim of 3.025 mm is above 2 m", "lamp-wheel", "rim", check.Pass, func() PairSpec { s := bareSpec(28, 36); s.Wheel.Bore = 44.2; return s }},
		{"rim of 2 mm is below 2 m", "lamp-wheel", "rim", check.Caution, func() PairSpec { s := bareSpec(28, 36); s.Wheel.Bore = 46.2; return s }},
		{"rim of 0.8 mm is below 2 beads", "lamp-wheel", "rim", check.Fail, func() PairSpec { s := bareSpec(28, 36); s.Wheel.Bore = 48.65; return s }},
		{"journal wall of 1.75 mm is below 4 beads", "lamp-wheel", "journal-wall", check.Caution, func() PairSpec { s := lampSpec(); s.Wheel.Journal.Hollow = 13.4; return s }},
		{"journal wall of 1.0 mm is below a tenth of 17 mm", "lamp-wheel", "journal-wall", check.Fail, func() PairSpec { s := lampSpec(); s.Wheel.Journal.Hollow = 14.9; return s }},
		{"boss wall of 1.5 mm is below 4 beads", "lamp-pinion", "hub-wall", check.Caution, func() PairSpec { s := lampSpec(); s.Pinion.Horn.Diameter = 34; return s }},
		{"0.7 mm between screw and hub is below 2 beads", "lamp-pinion", "hole-web", check.Caution, func() PairSpec { s := lampSpec(); s.Pinion.Horn.HoleCircle = 13.5; return s }},
		{"-4.26 of 20/40 (reference pair)", "", "sliding", check.Note, func() PairSpec { return bareSpec(20, 40) }},
		{"0.5 mm outside error is more than a module-1.5 flank may give up", "lamp-pinion", "flank-allowance", check.Caution, func() PairSpec {
			s := bareSpec(28, 36)
			s.Card.Outside = fit.Error{Offset: 0.5}
			return s
		}},
		{"a user's own limit", "", "contact-ratio", check.Fail, func() PairSpec {
			s := bareSpec(28, 36)
			s.Limits = check.Limits{"contact-ratio": {Caution: 2, Fail: 1.9}}
			return s
		}},
	} {
		t.Run(test.why, func(t *testing.T) {
			f := finding(t, mustPair(t, test.spec()), test.part, test.rule)
			if f.Verdict != test.want {
				t.Errorf("%s: %s at %g %s, want %s", f.Check, f.Verdict, f.Value, f.Limit, test.want)
			}
			if (f.Verdict == check.Caution || f.Verdict == check.Fail) && (f.Remedy == "" || f.Source == "") {
				t.Errorf("%s: no remedy or source", f.Check)
			}
		})
	}
}

// Every finding names a listed rule, and every rule is told about somewhere.
func TestRulesAreComplete(t *testing.T) {
	listed := map[string]bool{}
	for _, r := range Rules() {
		if r.Meaning == "" || r.Formula == "" || r.Source == "" || r.Change == "" {
			t.Errorf("%s lacks a meaning, formula, source or change", r.Name)
		}
		listed[r.Name] = true
	}
	told := map[string]bool{}
	spec := lampSpec()
	spec.Measured[1] = []Readings{{Span: 16.2}}
	findings := append(mustPair(t, spec).Findings(), mustPair(t, ringSpec(24, 60)).Findings()...)
	light := lampSpec()
	light.Wheel = Body{Shaft: &Shaft{Kind: HexBore, Size: 6}, Lighten: &Lighten{Kind: Spokes, Web: 3}, Mark: &Mark{Under: "wheel"}}
	findings = append(findings, mustPair(t, light).Findings()...)
	for _, f := range append(findings, mustPair(t, sectorSpec()).Findings()...) {
		if !listed[f.Check] {
			t.Errorf("%s is not among the rules", f.Check)
		}
		told[f.Check] = true
	}
	for name := range listed {
		if !told[name] {
			t.Errorf("%s is never told", name)
		}
	}
}

// follow does what a numeric remedy says. It reports false for advice in words.
func follow(spec *PairSpec, p *Pair, f check.Finding) bool {
	var value float64
	word, rest, ok := strings.Cut(f.Remedy, "= ")
	if !ok {
		return false
	}
	if _, err := fmt.Sscanf(rest, "%g", &value); err != nil {
		return false
	}
	switch strings.Trim(word, " <>") {
	case "x1", "x2":
		spec.ShiftRule, spec.Shift, spec.KeepShift = ShiftGiven, p.x, true
		spec.Shift[int(word[1]-'1')] = value
		if strings.Contains(rest, "and x2 =") {
			spec.Shift[1] = p.x[0] + p.x[1] - value
		}
	case "z1", "z2":
		if strings.HasSuffix(rest, "at the same ratio") {
			spec.Teeth[1] = int(math.Round(value * float64(spec.Teeth[1]) / float64(spec.Teeth[0])))
		}
		spec.Teeth[int(word[1]-'1')] = int(value)
	case "module":
		spec.Module = value
	case "backlash":
		spec.Backlash = value
	case "tip alteration":
		spec.KeepTips, spec.TipAlteration = true, value
	case "centre distance":
		spec.CentreDistance = value
	case "face width":
		spec.FaceWidth = value
	case "bore":
		spec.Wheel.Bore = value
	case "bolt circle":
		spec.Wheel.Bolts.Diameter = value
	case "hollow":
		spec.Wheel.Journal.Hollow = value
	case "horn hole circle":
		spec.Pinion.Horn.HoleCircle = value
	default:
		return false
	}
	return true
}

// Whoever does what a remedy says sees that check pass.
func TestRemediesCure(t *testing.T) {
	const seed = 8
	rnd := rand.New(rand.NewPCG(seed, seed))
	followed := map[string]int{}
	for range 160 {
		p, err := NewPair(poorSpec(rnd))
		if err != nil {
			continue
		}
		for _, f := range p.Findings() {
			if f.Verdict == check.Pass || f.Verdict == check.Note {
				continue
			}
			spec := clone(p.Spec())
			if !follow(&spec, p, f) {
				continue
			}
			cured, err := NewPair(spec)
			if err != nil {
				t.Fatalf("%s says %q, which gives: %v", f.Check, f.Remedy, err)
			}
			if now := finding(t, cured, f.Part, f.Check); now.Verdict != check.Pass && now.Verdict != check.Note {
				t.Fatalf("%s says %q; then it is %g %s: %s\n%+v", f.Check, f.Remedy, now.Value, now.Limit, now.Verdict, p.Spec())
			}
			followed[f.Check]++
		}
	}
	for _, name := range []string{"contact-ratio", "backlash", "tip-thickness", "tip-clearance", "undercut", "tooth-size", "face-width", "rim", "journal-wall", "hole-web", "false-contact", "mesh-by-motion"} {
		if followed[name] == 0 {
			t.Errorf("no remedy of %s was followed", name)
		}
	}
	t.Log(followed)
}

// poorSpec returns a pair that is likely to fail something.
func poorSpec(rnd *rand.Rand) PairSpec {
	spec := clone(lampSpec())
	spec.Module = 0.8 + 2*rnd.Float64()
	spec.Backlash = 0.3 * rnd.Float64()
	spec.FaceWidth = 3 + 30*rnd.Float64()
	spec.KeepTips = rnd.IntN(2) == 0
	if rnd.IntN(2) == 0 {
		spec.Pinion, spec.Wheel = Body{}, Body{Bore: 10 + 40*rnd.Float64()}
		spec.Teeth = [2]int{8 + rnd.IntN(20), 20 + rnd.IntN(40)}
		spec.Shift = [2]float64{rnd.Float64() - 0.3, rnd.Float64() - 0.4}
		if rnd.IntN(3) == 0 {
			spec.CentreDistance = spec.referenceDistance() * (0.98 + 0.05*rnd.Float64())
		}
		return spec
	}
	spec.Pinion.Horn.HoleCircle = 13 + 2*rnd.Float64()
	spec.Wheel.Bolts.Diameter = 25 + 40*rnd.Float64()
	spec.Wheel.Bolts.Count = 2 + rnd.IntN(30)
	spec.Wheel.Journal.Hollow = 16 * rnd.Float64()
	return spec
}

// clone copies the bodies too, so that a test may change them.
func clone(spec PairSpec) PairSpec {
	for _, b := range []*Body{&spec.Pinion, &spec.Wheel} {
		if b.Horn != nil {
			h := *b.Horn
			b.Horn = &h
		}
		if b.Journal != nil {
			j := *b.Journal
			b.Journal = &j
		}
		if b.Bolts != nil {
			c := *b.Bolts
			b.Bolts = &c
		}
	}
	return spec
}

// The same question asked of polygons: the wheel's tips, turned
// through the mesh with the flanks in contact, enter the pinion's polygon by as
// much as the check says, and by nothing where it passes.
func TestInterferenceAgainstOutlines(t *testing.T) {
	const seed = 9
	rnd := rand.New(rand.NewPCG(seed, seed))
	crossing := 0
	for range 80 {
		alpha := 20 * degree
		long := Rack{1 + 0.23*rnd.Float64(), 0.25, 0.25} // tips that reach towards the mate's root
		x1, x2 := 0.6*rnd.Float64()-0.2, 1.2*rnd.Float64()-0.4
		t1 := newTooth(8+rnd.IntN(30), 1, alpha, x1, ProfileA(), 0, 0)
		t2 := newTooth(30+rnd.IntN(120), 1, alpha, x2, long, 0, 0)
		if t1.neck() < 0.1 || t1.form() >= t1.ra || t1.thickness(t1.ra) < 0.05 || t2.thickness(t2.ra) < 0.05 {
			continue
		}
		spec := PairSpec{Module: 1, Teeth: [2]int{t1.z, t2.z}, PressureAngle: alpha}
		c := newContact(t1, t2, spec.distanceFor(x1+x2))
		if c.tipClearance(0) < 0.02 {
			continue
		}
		depth := deepestVertex(c)
		if got := c.tipOnFillet(); got < -0.003 || depth > 0.003 {
			crossing++
			if math.Abs(depth+got) > 0.2*depth+0.003 {
				t.Fatalf("%+v: the check says %g mm, the outlines cross by %g mm", c, got, depth)
			}
		}
	}
	if crossing < 5 {
		t.Errorf("only %d pairs cross", crossing)
	}
}

// deepestVertex returns how far the corner of the wheel's tooth enters the
// pinion's tooth, along the circle.
func deepestVertex(c contact) float64 {
	pinion, wheel := c.t[0], c.t[1]
	var own [][2]float64 // radius and half angle of the pinion's upper half tooth
	for _, p := range pinion.outline(0.0005).Points {
		if a := p.Angle(); a > 0 && a < math.Pi/float64(pinion.z) {
			own = append(own, [2]float64{p.Len(), a})
		}
	}
	half := func(r float64) float64 {
		for k := 1; k < len(own); k++ {
			if a, b := own[k-1], own[k]; (a[0]-r)*(b[0]-r) <= 0 && a[0] != b[0] {
				return a[1] + (b[1]-a[1])*(r-a[0])/(b[0]-a[0])
			}
		}
		return 0
	}
	// The gears mesh without backlash: a pinion tooth at turn 0 stands in the
	// middle of a wheel space at angle pi of the wheel.
	deepest := 0.0
	const steps = 4000
	for i := range steps + 1 {
		turn := (2*float64(i)/steps - 1) * 3 * math.Pi / float64(pinion.z)
		wheelTurn := -turn * float64(pinion.z) / float64(wheel.z)
		corner := math.Pi + wheelTurn + math.Pi/float64(wheel.z) - wheel.angleAt(wheel.ra)
		x := c.a + wheel.ra*math.Cos(corner)
		y := wheel.ra * math.Sin(corner)
		r, a := math.Hypot(x, y), math.Atan2(y, x)-turn
		if r > pinion.ra || r < pinion.rf {
			continue
		}
		deepest = math.Max(deepest, r*(half(r)-math.Abs(a)))
	}
	return deepest
}

// Nine teeth on nine, shifted free of undercut, overlap too little: neither gear
// alone cures it, more teeth on both do.
func TestRemedyAtTheSameRatio(t *testing.T) {
	spec := bareSpec(9, 9)
	spec.ShiftRule = ShiftChoose
	p := mustPair(t, spec)
	f := finding(t, p, "", "contact-ratio")
	if f.Verdict != check.Fail || !strings.HasSuffix(f.Remedy, "at the same ratio") || !follow(&spec, p, f) {
		t.Fatalf("%s, %q", f.Verdict, f.Remedy)
	}
	if f = finding(t, mustPair(t, spec), "", "contact-ratio"); f.Verdict != check.Pass || spec.Teeth[0] != spec.Teeth[1] {
		t.Errorf("with %v teeth: %s at %g", spec.Teeth, f.Verdict, f.Value)
	}
}

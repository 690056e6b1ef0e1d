package gear

import (
	"math"
	"strconv"
	"testing"

	"pintle/check"
)

// The form factor of the generated tooth against an independent program's (same
// parabola, own profile), and against the published table of full-depth teeth
// (y times pi; testdata/ref/gear.json names the source), which geometry meets
// within 6 %.
func TestLewisFactor(t *testing.T) {
	ref := loadReference(t)
	factor := func(z int) float64 { return newTooth(z, 1, 20*degree, 0, ProfileA(), 0, 0).lewis() }
	if len(ref.LewisGeometric) < 15 || len(ref.LewisY) < 20 {
		t.Fatal("rows are missing")
	}
	for word, want := range ref.LewisGeometric {
		z, _ := strconv.Atoi(word)
		near(t, "Y of z = "+word, factor(z), want, 2e-4*want)
	}
	for word, y := range ref.LewisY {
		z, err := strconv.Atoi(word)
		if err != nil {
			z = 2000 // the rack
		}
		near(t, "table's Y of z = "+word, factor(z), math.Pi*y, 0.06*math.Pi*y)
	}
}

// Worked examples printed in books: Jindal, Machine Design, ex. 25-3 p. 670;
// Wentzell, Machine Design, ex. 12.1 p. 254 (5 hp, 1725 rpm, 20 teeth of 8 to the
// inch; inch pounds), ex. 12.5 p. 263.
func TestPrintedStrength(t *testing.T) {
	near(t, "E25 stress of 16110 N", bending(16110, 60, 5, 0.358), 150, 1e-9)

	spec := bareSpec(20, 40)
	spec.Module, spec.Backlash = 25.4/8, 0
	p := mustPair(t, spec)
	const inchPound, pound = 0.112984829, 4.4482216
	torque := 63000 * 5 / 1725.0 * inchPound // the book's 63000 for 63025
	near(t, "E28 F_t", p.TangentialForce(torque)/pound, 146.09, 0.01)
	near(t, "E28 F_r", p.TangentialForce(torque)*math.Tan(p.contact.alphaW)/pound, 53.17, 0.01)
	near(t, "E28 F_n", p.TangentialForce(torque)/math.Cos(p.contact.alphaW)/pound, 155.46, 0.01)

	const psi = 0.00689475729
	near(t, "E27 stress of 519.06 lb", bending(519.06*pound, 0.75*25.4, 25.4/12, 0.302)/psi, 55000/2, 1) // the book allows half
}

// Khurmi and Gupta, Theory of Machines, ex. 12.4 p. 399 and 12.5 p. 400 (seen in
// companion workings): 20/40, m 5, addenda of one module.
func TestPrintedSlidingSpeed(t *testing.T) {
	spec := bareSpec(20, 40)
	spec.Module, spec.Backlash = 5, 0
	p := mustPair(t, spec)
	near(t, "E11", p.slidingSpeed(1200), 455.3, 0.05)
	near(t, "E12", p.slidingSpeed(2000*2*math.Pi/60*50), 3973, 0.5)
	near(t, "E11 turn", (p.contact.end-p.contact.start)/p.contact.t[0].rb/degree, 29.43, 0.005)
}

// A swing of 50 degrees takes a wheel of 20 teeth through 2.8 of them
// (counting): three are in use.
func TestWorkingSector(t *testing.T) {
	spec := bareSpec(20, 20)
	spec.Loading.Swing = 50 * degree
	f := finding(t, mustPair(t, spec), "lamp-wheel", "working-sector")
	if f.Value != 3 || f.Verdict != check.Note || f.Remedy == "" {
		t.Errorf("%g teeth, %s", f.Value, f.Verdict)
	}
}

// The face width that a remedy names brings the stress to its limit.
func TestStrengthRemedies(t *testing.T) {
	for name, change := range map[string]func(*Loading){
		"tooth-bending": func(l *Loading) { l.Stall = 4 },
		"tooth-stall":   func(l *Loading) { l.Stall = 6 },
		"tooth-creep":   func(l *Loading) { l.Held = 1.5 },
	} {
		spec := bareSpec(28, 36)
		change(&spec.Loading)
		p := mustPair(t, spec)
		f := finding(t, p, "lamp-wheel", name)
		if f.Verdict != check.Caution && f.Verdict != check.Fail {
			t.Errorf("%s: %s at %g", name, f.Verdict, f.Value)
		}
		if !follow(&spec, p, f) {
			t.Fatalf("remedy %q cannot be followed", f.Remedy)
		}
		if f = finding(t, mustPair(t, spec), "lamp-wheel", name); f.Verdict != check.Pass && f.Verdict != check.Note {
			t.Errorf("%s after the remedy: %s at %g %s", name, f.Verdict, f.Value, f.Limit)
		}
	}
}

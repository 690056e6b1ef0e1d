package gear

import (
	"math"
	"testing"
)

// Internal gears of the reference (z < 0, ISO 21771 sign): closed forms, and
// pins rolled into the flank by an independent program.
func TestInternalGearsAgreeWithReference(t *testing.T) {
	compared := 0
	for _, g := range loadReference(t).Gears {
		p := g.Params
		if p.Z > 0 {
			continue
		}
		compared++
		tooth := newInner(-p.Z, p.M, p.Alpha*degree, p.X, ProfileA(), shaper{20, 0}, p.Thin, 0)
		const tol = 1e-9
		near(t, "d", 2*tooth.r, g.D, tol)
		near(t, "db", 2*tooth.rb, g.Db, tol)
		near(t, "da", 2*tooth.ra, g.Da, tol)
		near(t, "df", 2*tooth.rf, g.Df, tol)
		near(t, "s", 2*tooth.r*tooth.psi, g.S, tol)
		near(t, "tip thickness", tooth.thickness(tooth.ra), g.Tip, tol)
		pins, _ := tooth.over(g.PinD)
		near(t, "M", pins.Over, g.M, tol)
		near(t, "pin touches at", pins.Touching, g.Touch, tol)
	}
	if compared < 3 {
		t.Errorf("only %d internal gears", compared)
	}
}

func TestInternalPairsAgreeWithReference(t *testing.T) {
	compared := 0
	for i, q := range loadReference(t).Pairs {
		p := q.Params
		if p.Z2 > 0 {
			continue
		}
		compared++
		spec := PairSpec{Module: p.M, Teeth: [2]int{p.Z1, p.Z2}, PressureAngle: 20 * degree, Rack: ProfileA()}
		c := newContact(spec.tooth(0, p.X1, 0, 0), spec.tooth(1, p.X2, 0, 0), spec.distanceFor(p.X1+p.X2))
		const tol = 1e-9
		near(t, "a", c.a, q.A, tol)
		near(t, "alpha_w", c.alphaW/degree, q.AlphaW, 1e-7)
		near(t, "T", c.length, q.Path.T, 1e-8)
		near(t, "A", c.start, q.Path.A, 1e-8)
		near(t, "E", c.end, q.Path.E, tol)
		near(t, "closed contact ratio", (c.end-c.start)/c.basePitch(), q.Eps, tol)
		near(t, "dNf1", c.active(0), q.DNf1, tol)
		near(t, "dNf2", c.active(1), q.DNf2, tol)
		near(t, "c1", c.tipClearance(0), q.Clearance[0], tol)
		near(t, "c2", c.tipClearance(1), q.Clearance[1], tol)
		near(t, "jbn", c.normalBacklash(), q.Backlash.Jbn, tol)
		near(t, "tip thickness", c.t[1].thickness(c.t[1].ra), q.Tip2, tol)
		if c.start > 0 {
			near(t, "zeta1 at A", c.sliding(0), q.Zeta[0], 1e-6)
		}
		near(t, "zeta2 at E", c.sliding(1), q.Zeta[3], 1e-6)
		near(t, "involute condition", c.internalInvolute(), q.Interference.Involute, tol)
		near(t, "trochoid condition", c.trochoid(), q.Interference.Trochoid, tol)
		near(t, "trimming condition", c.trimming(), q.Interference.Trimming, tol)
		if t.Failed() {
			t.Fatalf("pair %d: %+v", i, p)
		}
	}
	if compared < 4 {
		t.Errorf("only %d internal pairs", compared)
	}
}

// The handbooks that keep z2 > 0 have x2 with the other sign: their x2 = +0.5 at
// 16/24, m 3 gives a = 13.1683 (reference pair, ISO x2 = -0.5), and the tooth
// grows thinner, not thicker.
func TestInternalSignConvention(t *testing.T) {
	spec := PairSpec{Module: 3, Teeth: [2]int{16, -24}, PressureAngle: 20 * degree, Rack: ProfileA()}
	near(t, "a by ISO 21771", spec.distanceFor(-0.5), 13.168267706742, 1e-9)
	handbook := func(x1, x2 float64) float64 { // inv aw = inv a + 2 tan a (x2 - x1)/(z2 - z1)
		inv := Involute(20*degree) + 2*math.Tan(20*degree)*(x2-x1)/(24-16)
		return 3 * (24 - 16) / 2.0 * math.Cos(20*degree) / math.Cos(InverseInvolute(inv))
	}
	near(t, "a by the handbooks", handbook(0, 0.5), 13.168267706742, 1e-9)
	thin, thick := spec.tooth(1, -0.5, 0, 0), spec.tooth(1, 0.5, 0, 0)
	if !(thick.psi > thin.psi && thick.ra < thin.ra) {
		t.Error("a positive shift does not thicken the internal tooth")
	}
}

// The internal pairs turned against each other by an independent program: with
// an addendum of 0.8 they run as the closed form says, with a full addendum the
// tips meet the pinion's fillet and take backlash.
func TestInternalMotionAgreesWithBruteForce(t *testing.T) {
	compared := 0
	for _, q := range loadReference(t).Mesh {
		g1, g2 := q.Params.G1, q.Params.G2
		if g2.Z > 0 {
			continue
		}
		compared++
		rack := ProfileA()
		if g2.Ha > 0 {
			rack.Addendum, rack.Clearance = g2.Ha, 1.25-g2.Ha
		}
		t1 := newTooth(g1.Z, 1, 20*degree, g1.X, ProfileA(), g1.Thin, 0)
		t2 := newInner(-g2.Z, 1, 20*degree, g2.X, rack, shaper{g1.Z, g1.X}, g2.Thin, 0)
		c := newContact(t1, t2, 18)
		r := newMeshing(ofCurve(t1, 300, 12), ofCurve(t2, 300, 12), 18).run(1e-5)
		near(t, "computed backlash", c.normalBacklash(), 0.1879385, 1e-6)
		tol := 3e-6 // the programs sample the flanks in different steps
		if g2.Ha == 0 {
			tol = 2.5e-4 // and the fillet, where these tips touch, even more so
		}
		near(t, "least backlash", r.min, q.JbnMin, tol)
		near(t, "largest backlash", r.max, q.JbnMax, tol)
		near(t, "least gap", r.gap, q.GapMin, tol)
		near(t, "transmission error", r.error, q.Error, tol)
		near(t, "contact ratio", r.pairs, q.Ratio, 1.01/60)
		if c.interference() < 0 != (g2.Ha == 0) {
			t.Errorf("addendum %g: interference %g mm", g2.Ha, c.interference())
		}
	}
	if compared < 2 {
		t.Errorf("only %d internal pairs", compared)
	}
}

package drive_test

import (
	"math"
	"testing"

	"pintle/drive"
)

// A law's peak speed and acceleration against the table, whose rows carry their
// source, within half a unit of the last decimal stated.
func TestLawConstants(t *testing.T) {
	rows := reference(t, "drive_motion_laws.csv")
	if len(rows) != len(drive.Laws()) {
		t.Fatalf("%d laws in the table, %d in the package", len(rows), len(drive.Laws()))
	}
	for _, row := range rows {
		law, tol := drive.Law(row[0]), 0.5*math.Pow(10, -number(t, row[3]))
		if cv, ca := number(t, row[1]), number(t, row[2]); math.Abs(law.Cv()-cv) > tol || math.Abs(law.Ca()-ca) > tol {
			t.Errorf("%s: Cv %.12g, Ca %.12g, want %.12g, %.12g", law, law.Cv(), law.Ca(), cv, ca)
		}
	}
}

// A law starts and ends at rest, and its speed and acceleration are the
// derivatives of its place (definition), found by central differences away from
// the steps of the trapezoid and triangle. Its peaks must equal Cv and Ca.
func TestLawDerivatives(t *testing.T) {
	const n, h = 6000, 1e-5
	for _, law := range drive.Laws() {
		for u, want := range map[float64]float64{0: 0, 1: 1} {
			if s, v, _ := law.At(u); math.Abs(s-want) > 1e-15 || math.Abs(v) > 1e-15 {
				t.Errorf("%s at %g: place %g, speed %g", law, u, s, v)
			}
		}
		var cv, ca float64
		for i := range n {
			u := (float64(i) + 0.5) / n
			s0, v0, _ := law.At(u - h)
			_, v, a := law.At(u)
			s1, v1, _ := law.At(u + h)
			if math.Abs((s1-s0)/(2*h)-v) > 1e-6 || math.Abs((v1-v0)/(2*h)-a) > 1e-5 {
				t.Fatalf("%s at %.5f: speed %g by differences %g, acceleration %g by differences %g",
					law, u, v, (s1-s0)/(2*h), a, (v1-v0)/(2*h))
			}
			cv, ca = max(cv, (s1-s0)/(2*h)), max(ca, (v1-v0)/(2*h))
		}
		if math.Abs(cv-law.Cv()) > 1e-3 || math.Abs(ca-law.Ca()) > 1e-3*law.Ca() {
			t.Errorf("%s: peaks by differences %.5f, %.5f; Cv %.5f, Ca %.5f", law, cv, ca, law.Cv(), law.Ca())
		}
	}
}

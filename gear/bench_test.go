package gear

import "testing"

// One gear of 60 teeth with a bore: outline, bed-side chamfer, region proofs.
func BenchmarkGear60(b *testing.B) {
	spec := bareSpec(60, 60)
	spec.Pinion.Bore = 8
	s, err := solve(spec)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := newGear(s, 0); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFindings(b *testing.B) {
	p, err := NewPair(lampSpec())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		p.Findings()
	}
}

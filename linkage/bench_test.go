package linkage_test

import (
	"testing"

	"pintle/linkage"
)

// A four-bar through 360 positions with every check: servo, load, motion, rod,
// pins and play. The budget is 1 ms.
func BenchmarkFourBar360(b *testing.B) {
	spec := pinned()
	spec.Stations = 360
	for b.Loop() {
		s, err := linkage.New(spec)
		if err != nil {
			b.Fatal(err)
		}
		s.Values()
	}
}

// The seven-body mechanism through a full turn of 360 positions.
func BenchmarkMechanism360(b *testing.B) {
	var file andrewsFile
	reference(b, "linkage-andrews.json", &file)
	m, err := linkage.NewMechanism(andrews(file, 0))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, limit, err := m.Follow(356, 360); err != nil || limit != nil {
			b.Fatal(limit, err)
		}
	}
}

// A poor linkage, for which remedies are searched for many checks.
func BenchmarkRemedies(b *testing.B) {
	spec := pinned()
	spec.Rod, spec.SwingDeg = 103, 70
	spec.Load = heavier(&spec, 0.8)
	for b.Loop() {
		if _, err := linkage.New(spec); err != nil {
			b.Fatal(err)
		}
	}
}

package joint

import (
	"io"
	"os"
	"testing"
)

// BenchmarkLighthouse is a whole joint: file read, designs, proofs, and every
// file of the set written to nowhere. Budget: 100 ms with the process's start.
func BenchmarkLighthouse(b *testing.B) {
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		file, err := Read("lighthouse.toml", data)
		if err != nil {
			b.Fatal(err)
		}
		result, err := Design(file, Options{})
		if err != nil {
			b.Fatal(err)
		}
		for _, f := range result.Files {
			if err := f.Write(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
}

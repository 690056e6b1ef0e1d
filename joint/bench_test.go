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

// BenchmarkPassages is the search for the least clearances of the lighthouse
// through its whole swing.
func BenchmarkPassages(b *testing.B) {
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		b.Fatal(err)
	}
	file, err := Read("lighthouse.toml", data)
	if err != nil {
		b.Fatal(err)
	}
	lamp := newBuilder(file, Options{})
	if err := lamp.run(); err != nil {
		b.Fatal(err)
	}
	parts := lamp.drawnParts()
	for b.Loop() {
		lamp.arrangements[0].passages(parts)
	}
}

// BenchmarkDrawings sets and writes every sheet of the lighthouse: six parts and
// the joint put together.
func BenchmarkDrawings(b *testing.B) {
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		b.Fatal(err)
	}
	file, err := Read("lighthouse.toml", data)
	if err != nil {
		b.Fatal(err)
	}
	w := newBuilder(file, Options{})
	if err := w.run(); err != nil {
		b.Fatal(err)
	}
	if _, err := w.finish(); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for _, body := range w.bodies {
			if err := w.writeDrawing(io.Discard, body); err != nil {
				b.Fatal(err)
			}
		}
		for _, draw := range w.assemblies() {
			if _, err := draw(); err != nil {
				b.Fatal(err)
			}
		}
	}
}

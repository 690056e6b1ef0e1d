package export_test

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"pintle/export"
	"pintle/geom"
	"pintle/mesh"
)

// grille draws a square plate with rows of round holes of 24 sides.
func grille(rows int) geom.Slab {
	pitch := 1400.0 / float64(rows+1)
	contours := []geom.Contour{geom.Rectangle(geom.Point{}, 1400, 1400, 0, 0, geom.ChordPlain)}
	for i := range rows {
		for j := range rows {
			c := geom.Point{X: float64(2*i+1-rows) * pitch / 2, Y: float64(2*j+1-rows) * pitch / 2}
			hole := make([]geom.Point, 24)
			for k := range hole {
				hole[k] = c.Add(geom.Polar(pitch*0.4, math.Pi/24-2*math.Pi*float64(k)/24))
			}
			contours = append(contours, geom.Contour{Points: hole})
		}
	}
	return geom.Slab{Z1: 2.4, Bottom: contours}
}

// writeGrille is the whole way of one part: region proof, mesh, mesh proof, file.
func writeGrille(b *testing.B, slab geom.Slab, w io.Writer) int {
	part, err := geom.NewPart("grille", slab)
	if err != nil {
		b.Fatal(err)
	}
	m, err := mesh.FromPart(part)
	if err != nil {
		b.Fatal(err)
	}
	if err := m.Verify(); err != nil {
		b.Fatal(err)
	}
	if err := export.WriteSTL(w, "grille", m); err != nil {
		b.Fatal(err)
	}
	return len(m.Triangles)
}

// BenchmarkGrilleSTL gives time for each hole and the most memory taken from the
// system, which is that of the largest size run so far: run one size at a time.
func BenchmarkGrilleSTL(b *testing.B) {
	for _, rows := range []int{32, 100, 316} {
		slab := grille(rows)
		b.Run(fmt.Sprint(rows*rows, "holes"), func(b *testing.B) {
			b.ReportAllocs()
			triangles := 0
			for b.Loop() {
				file, err := os.Create(filepath.Join(b.TempDir(), "grille.stl"))
				if err != nil {
					b.Fatal(err)
				}
				triangles = writeGrille(b, slab, file)
				if err := file.Close(); err != nil {
					b.Fatal(err)
				}
				if err := os.Remove(file.Name()); err != nil {
					b.Fatal(err)
				}
			}
			var memory runtime.MemStats
			runtime.ReadMemStats(&memory)
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*rows*rows), "µs/hole")
			b.ReportMetric(float64(memory.Sys)/1e6, "MB")
			b.ReportMetric(float64(triangles), "triangles")
		})
	}
}

// BenchmarkInspectSTL reads and examines the file of a grille.
func BenchmarkInspectSTL(b *testing.B) {
	for _, rows := range []int{32, 100, 316} {
		b.Run(fmt.Sprint(rows*rows, "holes"), func(b *testing.B) {
			name := filepath.Join(b.TempDir(), "grille.stl")
			file, err := os.Create(name)
			if err != nil {
				b.Fatal(err)
			}
			writeGrille(b, grille(rows), file)
			info, err := file.Stat()
			if err != nil {
				b.Fatal(err)
			}
			runtime.GC()
			b.ReportAllocs()
			for b.Loop() {
				soup, _, err := export.ReadSTL(file, info.Size())
				if err != nil {
					b.Fatal(err)
				}
				if e := mesh.Inspect(soup); !e.Sound() || e.Unexamined != "" {
					b.Fatal(e.Faults, e.Unexamined)
				}
			}
			var memory runtime.MemStats
			runtime.ReadMemStats(&memory)
			b.ReportMetric(float64(memory.Sys)/1e6, "MB")
			b.ReportMetric(float64(memory.Sys)/float64(info.Size()), "filesizes")
			if err := file.Close(); err != nil {
				b.Fatal(err)
			}
		})
	}
}

// BenchmarkWriteSTL compares the streaming writer with one call that writes the
// same bytes, both to a file.
func BenchmarkWriteSTL(b *testing.B) {
	part, err := geom.NewPart("grille", grille(100))
	if err != nil {
		b.Fatal(err)
	}
	m, err := mesh.FromPart(part)
	if err != nil {
		b.Fatal(err)
	}
	var bytesOfMesh bytes.Buffer
	if err := export.WriteSTL(&bytesOfMesh, "grille", m); err != nil {
		b.Fatal(err)
	}
	name := filepath.Join(b.TempDir(), "grille.stl")
	for _, way := range []struct {
		name  string
		write func(w io.Writer) error
	}{
		{"streaming", func(w io.Writer) error { return export.WriteSTL(w, "grille", m) }},
		{"one call", func(w io.Writer) error { _, err := w.Write(bytesOfMesh.Bytes()); return err }},
	} {
		b.Run(way.name, func(b *testing.B) {
			b.SetBytes(int64(bytesOfMesh.Len()))
			b.ReportAllocs()
			for b.Loop() {
				file, err := os.Create(name)
				if err != nil {
					b.Fatal(err)
				}
				if err := way.write(file); err != nil {
					b.Fatal(err)
				}
				if err := file.Close(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

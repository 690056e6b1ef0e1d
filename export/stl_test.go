package export_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/hschendel/stl"

	"pintle/export"
	"pintle/geom"
	"pintle/mesh"
)

func plateMesh(t testing.TB) *mesh.Mesh {
	t.Helper()
	part, err := geom.NewPart("plate", geom.Slab{Z1: 4.3, Bottom: []geom.Contour{
		geom.Rectangle(geom.Point{X: 7, Y: -3}, 60, 40, 5, 0.3, geom.ChordPlain),
		geom.Bore(geom.Point{X: 7, Y: -3}, 22, geom.ChordFit),
	}})
	if err != nil {
		t.Fatal(err)
	}
	m, err := mesh.FromPart(part)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func read(data []byte) (mesh.Soup, string, error) {
	return export.ReadSTL(bytes.NewReader(data), int64(len(data)))
}

func TestWriteSTLReadsBack(t *testing.T) {
	m := plateMesh(t)
	var out bytes.Buffer
	if err := export.WriteSTL(&out, "solid näme", m); err != nil {
		t.Fatal(err)
	}
	if got := string(bytes.TrimRight(out.Bytes()[:80], "\x00")); got != "pintle solid n_me mm" {
		t.Errorf("header %q", got)
	}
	soup, format, err := read(out.Bytes())
	if err != nil || format != export.BinarySTL {
		t.Fatalf("%s, %v", format, err)
	}
	if !slices.Equal(soup, m.Soup()) {
		t.Error("the triangles read differ from those written")
	}
	e := mesh.Inspect(soup)
	if !e.Sound() || e.Points != len(m.Vertices) || math.Abs(e.Volume-m.Volume()) > 1e-9*m.Volume() {
		t.Errorf("%d points and %g mm³, want %d and %g; faults %v", e.Points, e.Volume, len(m.Vertices), m.Volume(), e.Faults)
	}
}

// Our bytes against an independent reader and writer, github.com/hschendel/stl
// v1.0.4: it reads the same triangles, its own bytes for them are the same, and
// its normals (in float32) agree with ours.
func TestWriteSTLAgainstLibrary(t *testing.T) {
	m := plateMesh(t)
	var out, again bytes.Buffer
	if err := export.WriteSTL(&out, "plate", m); err != nil {
		t.Fatal(err)
	}
	solid, err := stl.ReadAll(bytes.NewReader(out.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if err := solid.WriteAll(&again); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(out.Bytes(), again.Bytes()) {
		t.Error("the library writes other bytes")
	}
	ours := slices.Clone(solid.Triangles)
	solid.RecalculateNormals()
	for i, triangle := range solid.Triangles {
		for k, want := range triangle.Normal {
			if got := ours[i].Normal[k]; math.Abs(float64(got-want)) > 1e-5 { // the library's float32 cross product
				t.Fatalf("triangle %d: normal %v, want %v", i, ours[i].Normal, triangle.Normal)
			}
		}
	}
}

func TestReadSTLInASCII(t *testing.T) {
	m := plateMesh(t)
	solid := stl.Solid{Name: "plate with a name", IsAscii: true}
	for _, c := range m.Soup() {
		solid.AppendTriangle(stl.Triangle{Vertices: [3]stl.Vec3{c[0], c[1], c[2]}})
	}
	var out bytes.Buffer
	if err := solid.WriteAll(&out); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"library":     out.String(),
		"upper case":  strings.ToUpper(out.String()),
		"blank lines": "\n\n" + strings.ReplaceAll(out.String(), "\n", "\r\n\n"),
	} {
		soup, format, err := read([]byte(text))
		if err != nil || format != export.ASCIISTL {
			t.Fatalf("%s: %s, %v", name, format, err)
		}
		if !slices.Equal(soup, m.Soup()) {
			t.Errorf("%s: the triangles read differ from those written", name)
		}
	}
	soup, _, err := read([]byte(out.String() + out.String()))
	if err != nil || len(soup) != 2*len(m.Triangles) {
		t.Errorf("two solids: %d triangles, %v", len(soup), err)
	}
}

// A binary file may begin with the word solid; its size decides.
func TestReadSTLBinaryThatSaysSolid(t *testing.T) {
	var out bytes.Buffer
	if err := export.WriteSTL(&out, "plate", plateMesh(t)); err != nil {
		t.Fatal(err)
	}
	data := out.Bytes()
	copy(data, "solid ")
	if soup, format, err := read(data); err != nil || format != export.MisleadingSTL || len(soup) == 0 {
		t.Errorf("%s, %v", format, err)
	}
}

func TestReadSTLRefuses(t *testing.T) {
	var out bytes.Buffer
	if err := export.WriteSTL(&out, "plate", plateMesh(t)); err != nil {
		t.Fatal(err)
	}
	whole := out.Bytes()
	n := binary.LittleEndian.Uint32(whole[80:])
	const facet = "solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\n"
	for _, test := range []struct{ name, data, want string }{
		{"empty", "", "no STL file"},
		{"short", "abc", "no STL file: 3 bytes"},
		{"cut", string(whole[:len(whole)-10]), fmt.Sprintf("cut short: its header promises %d triangles", n)},
		{"cut that says solid", "solid " + string(whole[6:len(whole)-10]), "cut short"},
		{"longer", string(whole) + "x", "something after its end"},
		{"ASCII cut", facet, `line 5 of the ASCII STL: found "" where "vertex"`},
		{"ASCII number", facet + "vertex 0 1 zero\n", `line 6 of the ASCII STL: "zero" is no coordinate`},
		{"ASCII word", "solid x\nfacet normal 0 0 1\nouter loops\n", `line 3 of the ASCII STL: found "loops" where "loop"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			if _, _, err := read([]byte(test.data)); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want one with %q", err, test.want)
			}
		})
	}
}

type brokenWriter struct{ room int }

func (w *brokenWriter) Write(p []byte) (int, error) {
	if w.room -= len(p); w.room < 0 {
		return 0, errors.New("disk full")
	}
	return len(p), nil
}

func TestWriteSTLKeepsTheError(t *testing.T) {
	err := export.WriteSTL(&brokenWriter{room: 100}, "plate", plateMesh(t))
	if err == nil || !strings.Contains(err.Error(), "writing plate: disk full") {
		t.Errorf("error %v", err)
	}
}

// Whatever the bytes, reading ends with triangles or an error, and what was
// read can be examined.
func FuzzReadSTL(f *testing.F) {
	var out bytes.Buffer
	if err := export.WriteSTL(&out, "plate", plateMesh(f)); err != nil {
		f.Fatal(err)
	}
	f.Add(out.Bytes()[:84+50*6])
	f.Add(append(append(make([]byte, 80), 2, 0, 0, 0), out.Bytes()[84:184]...))
	f.Add([]byte("solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex nan 0 1e9\nvertex 0 1 inf\nendloop\nendfacet\nendsolid a\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		soup, format, err := read(data)
		if err != nil {
			return
		}
		if format != export.ASCIISTL && len(data) != 84+50*len(soup) {
			t.Errorf("%d triangles from %d bytes", len(soup), len(data))
		}
		if e := mesh.Inspect(soup); e.Triangles != len(soup) {
			t.Errorf("examined %d triangles of %d", e.Triangles, len(soup))
		}
	})
}

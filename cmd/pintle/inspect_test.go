package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pintle/export"
	"pintle/geom"
	"pintle/mesh"
)

// A sound mesh in a binary file whose header begins with "solid" is a faulty
// file: readers that go by this word alone take it for text.
func TestInspectMisleadingHeader(t *testing.T) {
	part, err := geom.NewPart("block", geom.Slab{Z1: 4, Bottom: []geom.Contour{geom.Rectangle(geom.Point{}, 9, 6, 0, 0, geom.ChordPlain)}})
	if err != nil {
		t.Fatal(err)
	}
	m, err := mesh.FromPart(part)
	if err != nil {
		t.Fatal(err)
	}
	var file bytes.Buffer
	if err := export.WriteSTL(&file, "block", m); err != nil {
		t.Fatal(err)
	}
	copy(file.Bytes(), "solid ")
	name := filepath.Join(t.TempDir(), "block.stl")
	if err := os.WriteFile(name, file.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	var out, talk bytes.Buffer
	if code := run([]string{"inspect", name}, &out, &talk); code != 1 {
		t.Errorf("exit code %d, want 1", code)
	}
	for _, want := range []string{`header begins with "solid"`, "the mesh itself is closed and sound", "9 x 6 x 4 mm"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	if !strings.Contains(talk.String(), "is faulty") {
		t.Errorf("stderr %q", talk.String())
	}
	out.Reset()
	run([]string{"inspect", name, "--json"}, &out, &talk)
	var e mesh.Examination
	if err := json.Unmarshal(out.Bytes(), &e); err != nil || len(e.Faults) != 1 || e.Faults[0].Kind != "misleading header" || e.Volume != 216 {
		t.Errorf("%v, %+v", err, e)
	}
}

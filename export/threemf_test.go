package export_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pintle/export"
	"pintle/geom"
	"pintle/mesh"
)

// model is what the 3MF core specification 1.3 asks of 3D/3dmodel.model, as far
// as these files use it.
type model struct {
	XMLName xml.Name `xml:"http://schemas.microsoft.com/3dmanufacturing/core/2015/02 model"`
	Unit    string   `xml:"unit,attr"`
	Title   string   `xml:"metadata"`
	Objects []struct {
		ID       int    `xml:"id,attr"`
		Type     string `xml:"type,attr"`
		Name     string `xml:"name,attr"`
		Vertices []struct {
			X string `xml:"x,attr"`
			Y string `xml:"y,attr"`
			Z string `xml:"z,attr"`
		} `xml:"mesh>vertices>vertex"`
		Triangles []struct {
			V1 int32 `xml:"v1,attr"`
			V2 int32 `xml:"v2,attr"`
			V3 int32 `xml:"v3,attr"`
		} `xml:"mesh>triangles>triangle"`
	} `xml:"resources>object"`
	Items []struct {
		Object    int    `xml:"objectid,attr"`
		Transform string `xml:"transform,attr"`
	} `xml:"build>item"`
}

func write3MF(t *testing.T, title string, items ...export.Item) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := export.Write3MF(&out, title, items); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// unzip reads every part of a package by name.
func unzip(t *testing.T, data []byte) map[string][]byte {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string][]byte{}
	for _, file := range archive.File {
		in, err := file.Open()
		if err != nil {
			t.Fatal(err)
		}
		if parts[file.Name], err = io.ReadAll(in); err != nil {
			t.Fatal(err) // the checksum among others
		}
	}
	return parts
}

func parse(t *testing.T, data []byte) model {
	t.Helper()
	var m model
	if err := xml.Unmarshal(unzip(t, data)["3D/3dmodel.model"], &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// The meshes come back vertex by vertex, exactly: k/8192 has at most 13 decimals
// and is a float64.
func TestWrite3MFReadsBack(t *testing.T) {
	plate := plateMesh(t)
	odd := &mesh.Mesh{
		Name:     `<"odd"> & näme`,
		Vertices: [][3]int32{{0, 1, -1}, {8192, -8192, 8191}, {-8193, 4096, 8192000}, {1 << 20, -819, 3}},
		Triangles: [][3]int32{
			{0, 1, 2}, {0, 3, 1}, {1, 3, 2}, {2, 3, 0},
		},
	}
	turned := [12]float64{0, 1, 0, -1, 0, 0, 0, 0, 1, 12.5, -0.0001220703125, 3}
	m := parse(t, write3MF(t, "a <title>", export.Item{Mesh: plate, Transform: export.Moved(1, 2, 0)},
		export.Item{Mesh: odd, Transform: turned}, export.Item{Mesh: plate, Transform: export.Moved(100, 2, 0)}))
	if m.Unit != "millimeter" || m.Title != "a <title>" {
		t.Errorf("unit %q, title %q", m.Unit, m.Title)
	}
	if len(m.Objects) != 2 {
		t.Fatalf("%d objects, want one for each mesh", len(m.Objects))
	}
	for i, want := range []*mesh.Mesh{plate, odd} {
		object := m.Objects[i]
		if object.Name != want.Name || object.Type != "model" || object.ID != i+1 {
			t.Errorf("object %d %s %q, want %q", object.ID, object.Type, object.Name, want.Name)
		}
		var vertices, triangles [][3]int32
		for _, v := range object.Vertices {
			vertices = append(vertices, [3]int32{steps(t, v.X), steps(t, v.Y), steps(t, v.Z)})
		}
		for _, v := range object.Triangles {
			triangles = append(triangles, [3]int32{v.V1, v.V2, v.V3})
		}
		if diff := cmp.Diff(want.Vertices, vertices); diff != "" {
			t.Errorf("%s: vertices %s", want.Name, diff)
		}
		if diff := cmp.Diff(want.Triangles, triangles); diff != "" {
			t.Errorf("%s: triangles %s", want.Name, diff)
		}
	}
	if len(m.Items) != 3 || m.Items[0].Object != 1 || m.Items[1].Object != 2 || m.Items[2].Object != 1 {
		t.Errorf("items %+v", m.Items)
	}
	if want := "0 1 0 -1 0 0 0 0 1 12.5 -0.0001220703125 3"; m.Items[1].Transform != want {
		t.Errorf("transform %q, want %q", m.Items[1].Transform, want)
	}
}

func steps(t *testing.T, text string) int32 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || v*geom.PerMM != math.Trunc(v*geom.PerMM) {
		t.Fatalf("%q is not on the grid, %v", text, err)
	}
	if _, decimals, point := strings.Cut(text, "."); point && (decimals == "" || len(decimals) > 13 || strings.HasSuffix(decimals, "0")) {
		t.Errorf("%q is not the shortest exact decimal", text)
	}
	return int32(v * geom.PerMM)
}

// Content types and relationship as the open packaging conventions and the 3MF
// core specification (part 1, 2.1 and appendix C) name them (from memory).
func TestWrite3MFIsAPackage(t *testing.T) {
	parts := unzip(t, write3MF(t, "plate", export.Item{Mesh: plateMesh(t), Transform: export.Moved(0, 0, 0)}))
	var types struct {
		XMLName  xml.Name `xml:"http://schemas.openxmlformats.org/package/2006/content-types Types"`
		Defaults []struct {
			Extension   string `xml:",attr"`
			ContentType string `xml:",attr"`
		} `xml:"Default"`
	}
	if err := xml.Unmarshal(parts["[Content_Types].xml"], &types); err != nil {
		t.Fatal(err)
	}
	known := map[string]string{}
	for _, d := range types.Defaults {
		known[d.Extension] = d.ContentType
	}
	if diff := cmp.Diff(map[string]string{
		"rels":  "application/vnd.openxmlformats-package.relationships+xml",
		"model": "application/vnd.ms-package.3dmanufacturing-3dmodel+xml",
	}, known); diff != "" {
		t.Error(diff)
	}
	var relations struct {
		XMLName xml.Name `xml:"http://schemas.openxmlformats.org/package/2006/relationships Relationships"`
		All     []struct {
			Target string `xml:",attr"`
			ID     string `xml:"Id,attr"`
			Type   string `xml:",attr"`
		} `xml:"Relationship"`
	}
	if err := xml.Unmarshal(parts["_rels/.rels"], &relations); err != nil {
		t.Fatal(err)
	}
	if len(relations.All) != 1 || relations.All[0].Type != "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel" || relations.All[0].ID == "" {
		t.Fatalf("relationships %+v", relations.All)
	}
	if _, ok := parts[strings.TrimPrefix(relations.All[0].Target, "/")]; !ok || len(parts) != 3 {
		t.Errorf("%d parts, none of them %q", len(parts), relations.All[0].Target)
	}
}

func TestWrite3MFIsTheSameEveryTime(t *testing.T) {
	item := export.Item{Mesh: plateMesh(t), Transform: export.Moved(0.1, 0, 0)}
	if !bytes.Equal(write3MF(t, "plate", item), write3MF(t, "plate", item)) {
		t.Error("two files of one mesh differ")
	}
}

func TestWrite3MFKeepsTheWritersError(t *testing.T) {
	for _, room := range []int{0, 400, 3000} { // in the first part, in the model, at the end
		err := export.Write3MF(&brokenWriter{room: room}, "plate", []export.Item{{Mesh: plateMesh(t)}})
		if err == nil || !strings.Contains(err.Error(), "writing plate: disk full") {
			t.Errorf("with room for %d bytes: error %v", room, err)
		}
	}
}

// The transform of a place against its definition, step by step: half a turn
// about x, a turn about z, a move. It is a rotation, so meshes keep their outside.
func TestPlacedTransform(t *testing.T) {
	const seed, tol = 1, 1e-9
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 200 {
		p := export.Placed{X: 50 * rnd.NormFloat64(), Y: 50 * rnd.NormFloat64(), Z: 20 * rnd.NormFloat64(), TurnDeg: 360 * rnd.Float64(), Flip: i%2 == 0}
		m := p.Transform()
		x, y, z := rnd.NormFloat64(), rnd.NormFloat64(), rnd.NormFloat64()
		sin, cos := math.Sincos(p.TurnDeg * math.Pi / 180)
		fy, fz := y, z
		if p.Flip {
			fy, fz = -y, -z
		}
		want := [3]float64{x*cos - fy*sin + p.X, x*sin + fy*cos + p.Y, fz + p.Z}
		for k := range 3 {
			if got := x*m[k] + y*m[3+k] + z*m[6+k] + m[9+k]; math.Abs(got-want[k]) > tol {
				t.Fatalf("seed %d, case %d: %+v sends %g %g %g to %g along axis %d, want %g", seed, i, p, x, y, z, got, k, want[k])
			}
		}
		det := m[0]*(m[4]*m[8]-m[5]*m[7]) - m[1]*(m[3]*m[8]-m[5]*m[6]) + m[2]*(m[3]*m[7]-m[4]*m[6])
		if math.Abs(det-1) > tol {
			t.Errorf("seed %d, case %d: determinant %g", seed, i, det)
		}
	}
	half := export.Placed{X: 48, Z: 27.25, TurnDeg: 180, Flip: true}.Transform()
	if want := [12]float64{-1, 0, 0, 0, 1, 0, 0, 0, -1, 48, 0, 27.25}; half != want {
		t.Errorf("half a turn is %v, want %v without noise", half, want)
	}
}

func BenchmarkWrite3MF(b *testing.B) {
	item := export.Item{Mesh: perforated(b), Transform: export.Moved(0, 0, 0)}
	for b.Loop() {
		if err := export.Write3MF(io.Discard, "bench", []export.Item{item}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(item.Mesh.Triangles)), "triangles")
}

// perforated is a plate of 900 round holes.
func perforated(b *testing.B) *mesh.Mesh {
	contours := []geom.Contour{geom.Rectangle(geom.Point{}, 130, 130, 0, 0, geom.ChordPlain)}
	for i := range 900 {
		at := geom.Point{X: 4 * (float64(i%30) - 14.5), Y: 4 * (float64(i/30) - 14.5)}
		contours = append(contours, geom.Bore(at, 3, geom.ChordPlain))
	}
	part, err := geom.NewPart("perforated", geom.Slab{Z1: 2.4, Bottom: contours})
	if err != nil {
		b.Fatal(err)
	}
	m, err := mesh.FromPart(part)
	if err != nil {
		b.Fatal(err)
	}
	return m
}

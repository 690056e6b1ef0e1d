package export

import (
	"archive/zip"
	"bufio"
	"compress/flate"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"pintle/geom"
	"pintle/mesh"
)

// An Item is one mesh and where it stands. Transform maps a place (x, y, z) to
// x t[0..2] + y t[3..5] + z t[6..8] + t[9..11], in mm: the order of the 3MF core
// specification. It must turn and move only; a mirror would turn the mesh
// inside out.
type Item struct {
	Mesh      *mesh.Mesh
	Transform [12]float64
}

// Moved is the transform that moves without turning, by mm.
func Moved(x, y, z float64) [12]float64 { return [12]float64{1, 0, 0, 0, 1, 0, 0, 0, 1, x, y, z} }

// Transform returns the place as a 3MF transform: half a turn about x where the
// part is flipped, then the turn about z, then the move. It is rounded to a
// millionth of a micrometre on a metre, so that it is the same on every machine.
func (p Placed) Transform() [12]float64 {
	sin, cos := math.Sincos(p.TurnDeg * math.Pi / 180)
	side := 1.0
	if p.Flip {
		side = -1
	}
	t := [12]float64{cos, sin, 0, -side * sin, side * cos, 0, 0, 0, side, p.X, p.Y, p.Z}
	for i := range t {
		t[i] = math.Round(t[i]*1e12)/1e12 + 0 // + 0 turns -0 into 0
	}
	return t
}

// The fixed parts of a 3MF file, from the 3MF core specification 1.3 and the
// open packaging conventions it stands on.
const (
	typesXML = xml.Header + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>`
	relationsXML = xml.Header + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`
	modelXML = xml.Header + `<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">`
)

// Write3MF writes the items as a 3MF file in mm: one object for each mesh, under
// its name, and one item of the build for each Item. Coordinates are exact
// decimals of the grid. Equal items give equal bytes: nothing is dated.
func Write3MF(w io.Writer, title string, items []Item) error {
	out := zip.NewWriter(w)
	out.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) {
		return flate.NewWriter(w, flate.BestSpeed)
	})
	for _, part := range []struct {
		name  string
		write func(*bufio.Writer)
	}{
		{"[Content_Types].xml", func(w *bufio.Writer) { w.WriteString(typesXML) }},
		{"_rels/.rels", func(w *bufio.Writer) { w.WriteString(relationsXML) }},
		{"3D/3dmodel.model", func(w *bufio.Writer) { writeModel(w, title, items) }},
	} {
		if err := writeEntry(out, part.name, part.write); err != nil {
			return fmt.Errorf("writing %s: %w", title, err)
		}
	}
	if err := out.Close(); err != nil {
		return fmt.Errorf("writing %s: %w", title, err)
	}
	return nil
}

// writeEntry adds a file to a ZIP. The buffer keeps the first error of write.
func writeEntry(out *zip.Writer, name string, write func(*bufio.Writer)) error {
	// The ZIP format's first day, since it cannot say "no date".
	day := time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)
	entry, err := out.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: day})
	if err != nil {
		return err
	}
	buffer := bufio.NewWriterSize(entry, 1<<16)
	write(buffer)
	return buffer.Flush()
}

func writeModel(w *bufio.Writer, title string, items []Item) {
	w.WriteString(modelXML)
	w.WriteString(`<metadata name="Title">` + escaped(title) + `</metadata><resources>`)
	ids := map[*mesh.Mesh]string{}
	for _, item := range items {
		if ids[item.Mesh] == "" {
			ids[item.Mesh] = strconv.Itoa(len(ids) + 1)
			writeObject(w, ids[item.Mesh], item.Mesh)
		}
	}
	w.WriteString("</resources><build>")
	for _, item := range items {
		var numbers []string
		for _, v := range item.Transform {
			numbers = append(numbers, strconv.FormatFloat(v, 'f', -1, 64))
		}
		w.WriteString(`<item objectid="` + ids[item.Mesh] + `" transform="` + strings.Join(numbers, " ") + `"/>`)
	}
	w.WriteString("</build></model>\n")
}

func writeObject(w *bufio.Writer, id string, m *mesh.Mesh) {
	w.WriteString(`<object id="` + id + `" type="model" name="` + escaped(m.Name) + `"><mesh><vertices>`)
	var line []byte
	for _, v := range m.Vertices {
		line = append(line[:0], `<vertex x="`...)
		line = appendSteps(line, v[0])
		line = append(line, `" y="`...)
		line = appendSteps(line, v[1])
		line = append(line, `" z="`...)
		line = appendSteps(line, v[2])
		line = append(line, `"/>`...)
		w.Write(line)
	}
	w.WriteString("</vertices><triangles>")
	for _, t := range m.Triangles {
		line = append(line[:0], `<triangle v1="`...)
		line = strconv.AppendInt(line, int64(t[0]), 10)
		line = append(line, `" v2="`...)
		line = strconv.AppendInt(line, int64(t[1]), 10)
		line = append(line, `" v3="`...)
		line = strconv.AppendInt(line, int64(t[2]), 10)
		line = append(line, `"/>`...)
		w.Write(line)
	}
	w.WriteString("</triangles></mesh></object>")
}

// appendSteps appends a length given in grid steps as an exact decimal in mm,
// without trailing zeros: one step of 2^-13 mm is 5^13 units of 1e-13 mm.
func appendSteps(to []byte, steps int32) []byte {
	const unit, digits = 1220703125, 13 // 5^13
	v := int64(steps)
	if v < 0 {
		to, v = append(to, '-'), -v
	}
	to = strconv.AppendInt(to, v/geom.PerMM, 10)
	fraction := v % geom.PerMM * unit
	if fraction == 0 {
		return to
	}
	to = append(to, '.')
	start := len(to)
	to = append(to, "0000000000000"...)
	for i := start + digits - 1; fraction > 0; i-- {
		to[i] = byte('0' + fraction%10)
		fraction /= 10
	}
	for to[len(to)-1] == '0' {
		to = to[:len(to)-1]
	}
	return to
}

func escaped(text string) string {
	var out strings.Builder
	// A strings.Builder takes everything.
	_ = xml.EscapeText(&out, []byte(text))
	return out.String()
}

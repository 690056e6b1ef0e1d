package joint

import (
	"bytes"
	"strings"

	"pintle/export"
)

// jointSuffix ends the name of a picture that shows a placed joint.
const jointSuffix = "-joint"

// Greys by role, so that neighbours can be told apart.
var greys = map[string]float64{"wheel": 0.96, "pinion": 0.82, "rack": 0.96, "ring": 0.74, "plate": 0.9}

// joints returns the names of the files that show a placed joint; a test slice
// has none.
func (b *builder) joints() []string {
	var names []string
	if b.options.Slice {
		return nil
	}
	for _, a := range b.arrangements {
		names = append(names, a.name+jointSuffix)
	}
	return names
}

// pictures renders every part on its bed and every placed joint, by name.
func (b *builder) pictures() map[string][]byte {
	scenes := map[string]export.Picture{}
	meshes := map[string]export.Body{}
	for _, body := range b.bodies {
		if body.mesh != nil {
			name := body.part.Name()
			meshes[name] = export.Body{Mesh: body.mesh}
			scenes[name] = view(480, name, meshes[name])
		}
	}
	for _, a := range b.arrangements {
		var bodies []export.Body
		for _, p := range a.placed {
			if body, ok := meshes[p.Part]; ok {
				bodies = append(bodies, export.Body{Mesh: body.Mesh, Place: p.Placed, Grey: greys[role(p.Part)]})
			}
		}
		scenes[a.name+jointSuffix] = view(960, b.caption(a), bodies...)
	}
	return render(scenes)
}

// caption names the file, and the joint where it holds several.
func (b *builder) caption(a *arrangement) string {
	if len(b.arrangements) < 2 {
		return b.file.Title
	}
	return strings.TrimPrefix(b.file.Title+", "+a.name, ", ")
}

func view(width int, caption string, bodies ...export.Body) export.Picture {
	return export.Picture{Bodies: bodies, Width: width, Azimuth: -1.0, Rise: 0.55, Caption: caption}
}

// render makes all pictures at once.
func render(scenes map[string]export.Picture) map[string][]byte {
	names := sorted(scenes)
	drawn := make([]bytes.Buffer, len(names))
	parallel(len(names), func(i int) {
		if err := scenes[names[i]].WritePNG(&drawn[i]); err != nil {
			panic("joint: a picture in memory: " + err.Error())
		}
	})
	pictures := map[string][]byte{}
	for i, name := range names {
		pictures[name] = drawn[i].Bytes()
	}
	return pictures
}

// role returns what stands after the last hyphen of a part's name.
func role(part string) string { return part[strings.LastIndex(part, "-")+1:] }

package export

import (
	"image"
	"image/png"
	"io"
	"math"

	"pintle/geom"
	"pintle/mesh"
)

// A Body is one mesh placed in a picture.
type Body struct {
	Mesh  *mesh.Mesh
	Place Placed  // where it stands; the zero value leaves it on its bed
	Grey  float64 // of a surface that faces the light, 0 black to 1 white; 0 means 0.85
}

// A Picture is a shaded view of bodies, orthographic, with hidden surfaces
// hidden, edges drawn and a scale bar: made from the very meshes that are
// written, so that it shows what will be printed.
type Picture struct {
	Bodies  []Body
	Width   int     // px
	Azimuth float64 // rad: the viewer stands in this direction from the x axis
	Rise    float64 // rad above the horizon
	Caption string
}

// Oversampling, and the shade of lines. An edge is drawn where its two faces
// turn by more than the crease angle, or where one of them faces away.
const (
	oversample = 2
	lineShade  = 40
	creaseCos  = 0.82 // 35 degrees: below that a facet of a round face is meant
	edgeDepth  = 0.08 // mm that an edge may lie behind the surface it bounds
)

// WritePNG renders the picture and writes it as PNG.
func (p Picture) WritePNG(w io.Writer) error {
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	return encoder.Encode(w, p.render())
}

func (p Picture) render() *image.Gray {
	c := p.camera()
	faces := make([][]facet, len(p.Bodies))
	frame := emptyFrame
	for i, b := range p.Bodies {
		faces[i] = c.facets(b, &frame)
	}
	raster := frame.raster(p.Width)
	for i, body := range faces {
		grey := p.Bodies[i].Grey
		if grey == 0 {
			grey = 0.85
		}
		for _, f := range body {
			raster.fill(f, c.shade(f.normal, grey))
		}
	}
	for i, b := range p.Bodies {
		raster.drawEdges(b.Mesh, faces[i])
	}
	img := raster.reduced()
	drawScaleBar(img, raster.scale/oversample, p.Caption)
	return img
}

// A vector is a place or direction in space, in mm.
type vector [3]float64

func (a vector) sub(b vector) vector  { return vector{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a vector) dot(b vector) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vector) cross(b vector) vector {
	return vector{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func (a vector) unit() vector {
	l := math.Sqrt(a.dot(a))
	return vector{a[0] / l, a[1] / l, a[2] / l}
}

// A camera looks along -towards; light comes over the viewer's left shoulder.
type camera struct{ right, up, towards, light vector }

func (p Picture) camera() camera {
	sinA, cosA := math.Sincos(p.Azimuth)
	sinR, cosR := math.Sincos(p.Rise)
	c := camera{
		right:   vector{-sinA, cosA, 0},
		up:      vector{-sinR * cosA, -sinR * sinA, cosR},
		towards: vector{cosR * cosA, cosR * sinA, sinR},
	}
	for i := range c.light {
		c.light[i] = c.towards[i] + 0.7*c.up[i] - 0.6*c.right[i]
	}
	c.light = c.light.unit()
	return c
}

func (c camera) shade(normal vector, grey float64) uint8 {
	return uint8(255 * grey * (0.42 + 0.58*max(normal.dot(c.light), 0)))
}

// A facet is a triangle seen by the camera: x to the right, y up, depth towards
// the viewer, in mm.
type facet struct {
	corner [3]vector
	normal vector // in the joint's frame
	front  bool
}

// A frame is what the camera sees from edge to edge, in mm.
type frame struct{ lo, hi vector }

var emptyFrame = frame{vector{math.Inf(1), math.Inf(1)}, vector{math.Inf(-1), math.Inf(-1)}}

func (f *frame) take(v vector) {
	for k := range 2 {
		f.lo[k], f.hi[k] = min(f.lo[k], v[k]), max(f.hi[k], v[k])
	}
}

// facets places a body and returns its triangles as the camera sees them, those
// that face away included, in the order of the mesh; the frame grows to hold it.
func (c camera) facets(b Body, into *frame) []facet {
	seen := make([]vector, len(b.Mesh.Vertices))
	placed := make([]vector, len(b.Mesh.Vertices))
	sin, cos := math.Sincos(b.Place.TurnDeg * math.Pi / 180)
	for i, v := range b.Mesh.Vertices {
		x, y, z := float64(v[0])/geom.PerMM, float64(v[1])/geom.PerMM, float64(v[2])/geom.PerMM
		if b.Place.Flip { // half a turn about the x axis
			y, z = -y, -z
		}
		q := vector{x*cos - y*sin + b.Place.X, x*sin + y*cos + b.Place.Y, z + b.Place.Z}
		placed[i] = q
		seen[i] = vector{q.dot(c.right), q.dot(c.up), q.dot(c.towards)}
		into.take(seen[i])
	}
	facets := make([]facet, len(b.Mesh.Triangles))
	for i, t := range b.Mesh.Triangles {
		f := facet{corner: [3]vector{seen[t[0]], seen[t[1]], seen[t[2]]}}
		f.normal = placed[t[1]].sub(placed[t[0]]).cross(placed[t[2]].sub(placed[t[0]])).unit()
		f.front = f.normal.dot(c.towards) > 0
		facets[i] = f
	}
	return facets
}

// A raster is the picture being drawn, oversampled, with the depth of what is
// nearest at each place.
type raster struct {
	img    *image.Gray
	depth  []float32
	scale  float64 // px per mm
	offset vector  // px of the origin
}

// raster makes a raster of the width into which the frame fits.
func (f frame) raster(width int) *raster {
	lo, hi := f.lo, f.hi
	const margin, foot = 24, 56 // px, foot for the scale bar
	w := width * oversample
	scale := float64(w-2*margin*oversample) / max(hi[0]-lo[0], 1.15*(hi[1]-lo[1]))
	h := int(math.Ceil((hi[1]-lo[1])*scale)) + (margin+foot)*oversample
	h += h % oversample
	r := &raster{
		img: image.NewGray(image.Rect(0, 0, w, h)), depth: make([]float32, w*h), scale: scale,
		offset: vector{(float64(w) - scale*(lo[0]+hi[0])) / 2, margin*oversample + scale*hi[1]},
	}
	for i := range r.img.Pix {
		r.img.Pix[i] = 255
		r.depth[i] = float32(math.Inf(-1))
	}
	return r
}

func (r *raster) at(v vector) vector {
	return vector{r.offset[0] + r.scale*v[0], r.offset[1] - r.scale*v[1], v[2]}
}

// fill draws a facet that faces the viewer.
func (r *raster) fill(f facet, shade uint8) {
	if !f.front {
		return
	}
	a, b, c := r.at(f.corner[0]), r.at(f.corner[1]), r.at(f.corner[2])
	area := (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
	if area == 0 {
		return
	}
	// Depth is linear over the facet: its slopes along x and y.
	slopeX := ((b[2]-a[2])*(c[1]-a[1]) - (c[2]-a[2])*(b[1]-a[1])) / area
	slopeY := ((c[2]-a[2])*(b[0]-a[0]) - (b[2]-a[2])*(c[0]-a[0])) / area
	row := func(y int, left, right float64) {
		if left > right {
			left, right = right, left
		}
		x0, x1 := max(int(math.Ceil(left-0.5)), 0), min(int(math.Floor(right-0.5)), r.img.Stride-1)
		depth := a[2] + slopeY*(float64(y)+0.5-a[1]) + slopeX*(float64(x0)+0.5-a[0])
		for i := y*r.img.Stride + x0; i <= y*r.img.Stride+x1; i++ {
			if z := float32(depth); z > r.depth[i] {
				r.depth[i], r.img.Pix[i] = z, shade
			}
			depth += slopeX
		}
	}
	top, mid, foot := a, b, c
	if top[1] > mid[1] {
		top, mid = mid, top
	}
	if mid[1] > foot[1] {
		mid, foot = foot, mid
	}
	if top[1] > mid[1] {
		top, mid = mid, top
	}
	r.between(top, foot, top, mid, row)
	r.between(top, foot, mid, foot, row)
}

// between calls row for each line of pixels on which the side from p to q is
// met, with where it and the long side meet that line.
func (r *raster) between(longTop, longFoot, p, q vector, row func(y int, left, right float64)) {
	if p[1] == q[1] {
		return
	}
	long := (longFoot[0] - longTop[0]) / (longFoot[1] - longTop[1])
	short := (q[0] - p[0]) / (q[1] - p[1])
	y0, y1 := max(int(math.Ceil(p[1]-0.5)), 0), min(int(math.Ceil(q[1]-0.5)), r.img.Bounds().Max.Y)
	for y := y0; y < y1; y++ {
		at := float64(y) + 0.5
		row(y, longTop[0]+long*(at-longTop[1]), p[0]+short*(at-p[1]))
	}
}

// reduced averages the oversampled picture down to its size.
func (r *raster) reduced() *image.Gray {
	w, h := r.img.Bounds().Dx()/oversample, r.img.Bounds().Dy()/oversample
	small := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		row := small.Pix[y*small.Stride : y*small.Stride+w]
		for x := range row {
			sum := 0
			for dy := range oversample {
				at := (y*oversample+dy)*r.img.Stride + x*oversample
				for _, p := range r.img.Pix[at : at+oversample] {
					sum += int(p)
				}
			}
			row[x] = uint8(sum / (oversample * oversample))
		}
	}
	return small
}

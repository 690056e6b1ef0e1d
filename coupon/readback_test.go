package coupon_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pintle/coupon"
	"pintle/geom"
	"pintle/mesh"
)

// loopsAt cuts a mesh at a height and returns the closed runs of corners.
func loopsAt(t *testing.T, m *mesh.Mesh, z float64) [][]geom.Point {
	t.Helper()
	type key [2]int64
	at := func(p geom.Point) key {
		return key{int64(math.Round(p.X * 1e5)), int64(math.Round(p.Y * 1e5))}
	}
	next := map[key][]geom.Point{}
	for i := range m.Triangles {
		tri := m.Corners(i)
		var cut []geom.Point
		for k := range 3 {
			a, b := tri[k], tri[(k+1)%3]
			if (float64(a[2]) < z) != (float64(b[2]) < z) {
				s := (z - float64(a[2])) / (float64(b[2]) - float64(a[2]))
				cut = append(cut, geom.Point{X: float64(a[0]) + s*float64(b[0]-a[0]), Y: float64(a[1]) + s*float64(b[1]-a[1])})
			}
		}
		if len(cut) == 2 {
			next[at(cut[0])] = append(next[at(cut[0])], cut[1])
			next[at(cut[1])] = append(next[at(cut[1])], cut[0])
		}
	}
	seen := map[key]bool{}
	var loops [][]geom.Point
	for start := range next {
		var loop []geom.Point
		for stack := []key{start}; len(stack) > 0; {
			k := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if seen[k] {
				continue
			}
			seen[k] = true
			loop = append(loop, geom.Point{X: float64(k[0]) / 1e5, Y: float64(k[1]) / 1e5})
			for _, p := range next[k] {
				stack = append(stack, at(p))
			}
		}
		if len(loop) > 0 {
			loops = append(loops, loop)
		}
	}
	return loops
}

// across returns what a caliper reads along x and y over a loop.
func across(loop []geom.Point) (x, y float64) {
	lo, hi := geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, p := range loop {
		lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return hi.X - lo.X, hi.Y - lo.Y
}

// Every drawn bore, peg, hole and web is read back from the mesh at half height,
// to the grid; each ring has the wall of a housing for its bearing.
func TestDrawnSizesReadBack(t *testing.T) {
	s := spec(t, "608")
	c := made(t, s)
	read := map[string][]float64{}
	for _, p := range c.Parts() {
		m, err := mesh.FromPart(p)
		if err != nil {
			t.Fatal(err)
		}
		kind := strings.TrimRight(strings.TrimPrefix(p.Name(), "coupon-"), "-0123456789")
		z := map[string]float64{"rings": 5, "ring-flipped": 5, "pegs": 6, "holes": 3, "pockets": 3, "first-layer": 4, "bar": 2}[kind]
		if z == 0 {
			continue
		}
		for _, loop := range loopsAt(t, m, z) {
			x, y := across(loop)
			read[kind] = append(read[kind], x, y)
		}
	}
	kinds := 0
	for _, f := range c.Fits() {
		kind := strings.TrimPrefix(f.Part, "coupon-")
		sizes, ok := read[kind]
		if !ok {
			continue
		}
		kinds++
		nearest := slices.MinFunc(sizes, func(a, b float64) int {
			return int(math.Copysign(1, math.Abs(a-f.Drawn)-math.Abs(b-f.Drawn)))
		})
		if math.Abs(nearest-f.Drawn) > 3.0/geom.PerMM {
			t.Errorf("%s, %s: drawn %.4f, the mesh measures %.4f", f.Part, f.Feature, f.Drawn, nearest)
		}
	}
	if kinds < 13+9+4+3+1+2 {
		t.Errorf("only %d sizes were read back", kinds)
	}
	// 4 beads, 0.12 x 22 or 3 mm, in whole beads of 0.45: 3.15 mm (common practice).
	for _, bore := range c.Spec().Rings.At() {
		outer := 22 + bore + 2*3.15
		if !slices.ContainsFunc(read["rings"], func(v float64) bool { return math.Abs(v-outer) < 1e-3 }) {
			t.Errorf("no ring is %.2f mm outside", outer)
		}
	}
}

// The usual steps are those that builders ask for (testdata/ref/coupon-pieces.csv).
func TestUsualSteps(t *testing.T) {
	f, err := os.Open("../testdata/ref/coupon-pieces.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	s := made(t, spec(t, "608")).Spec()
	have := map[string]coupon.Steps{"rings": s.Rings, "backlash": s.Backlash, "webs": s.Webs}
	for _, row := range rows[1:] {
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		if have[row[0]] != (coupon.Steps{From: v[0], To: v[1], Step: v[2]}) {
			t.Errorf("%s: %v, want %v", row[0], have[row[0]], v)
		}
	}
	if n := len(s.Rings.At()); n != 13 {
		t.Errorf("%d rings from -0.20 to 0.40 in steps of 0.05", n)
	}
}

package mesh_test

import (
	"math"
	"slices"
	"testing"

	"pintle/mesh"
)

// cube returns twelve triangles that face outwards.
func cube(x, y, z, sx, sy, sz float32) mesh.Soup {
	v := [8][3]float32{
		{x, y, z},
		{x + sx, y, z},
		{x + sx, y + sy, z},
		{x, y + sy, z},
		{x, y, z + sz},
		{x + sx, y, z + sz},
		{x + sx, y + sy, z + sz},
		{x, y + sy, z + sz},
	}
	var soup mesh.Soup
	for _, f := range [][3]int{
		{0, 2, 1},
		{0, 3, 2},
		{4, 5, 6},
		{4, 6, 7},
		{0, 1, 5},
		{0, 5, 4},
		{1, 2, 6},
		{1, 6, 5},
		{2, 3, 7},
		{2, 7, 6},
		{3, 0, 4},
		{3, 4, 7},
	} {
		soup = append(soup, [3][3]float32{v[f[0]], v[f[1]], v[f[2]]})
	}
	return soup
}

func cube10(x, y, z float32) mesh.Soup { return cube(x, y, z, 10, 10, 10) }

func reversed(s mesh.Soup) mesh.Soup {
	s = slices.Clone(s)
	for i, t := range s {
		s[i] = [3][3]float32{t[0], t[2], t[1]}
	}
	return s
}

func join(soups ...mesh.Soup) mesh.Soup { return slices.Concat(soups...) }

// sheared bends a soup out of the axes by coordinates that are no multiples of
// a common grid, so that the decisions need whole numbers of any size.
func sheared(s mesh.Soup) mesh.Soup {
	s = slices.Clone(s)
	for i := range s {
		for k, p := range s[i] {
			s[i][k] = [3]float32{p[0]*1e-3 + 1e-9, p[1]*7 + p[0]/3, p[2]*1e5 + p[1]/7}
		}
	}
	return s
}

func kinds(e mesh.Examination) []string {
	var k []string
	for _, f := range e.Faults {
		k = append(k, f.Kind)
	}
	return k
}

func TestInspectFindsFaults(t *testing.T) {
	nan := float32(math.NaN())
	good := cube10(0, 0, 0)
	for _, test := range []struct {
		name     string
		soup     mesh.Soup
		want     []string // all kinds, in order
		shells   int
		cavities int
	}{
		{"cube", good, nil, 1, 0},
		{"two shells", join(good, cube10(20, 0, 0)), nil, 2, 0},
		{"cavity", join(cube(0, 0, 0, 30, 30, 30), reversed(cube10(10, 10, 10))), nil, 2, 1},
		{"body in a cavity", join(cube(0, 0, 0, 30, 30, 30), reversed(cube10(10, 10, 10)), cube(13, 13, 13, 2, 2, 2)), nil, 3, 1},
		{"minus zero", join(good[:1], cube10(float32(math.Copysign(0, -1)), 0, 0)[1:]), nil, 1, 0},
		{"empty", nil, []string{mesh.NoTriangles}, 0, 0},
		{"overlap", join(good, cube10(5, 3, 2)), []string{mesh.Intersection}, 2, 0},
		{"pierced", join(good, cube(4, 4, -10, 2, 2, 30)), []string{mesh.Intersection}, 2, 0},
		{"corner through a face", join(good, cube10(9, 9, 9)), []string{mesh.Intersection}, 2, 0},
		{"flush faces", join(good, cube(10, 2, 2, 5, 5, 5)), []string{mesh.Intersection}, 2, 0},
		{"same plane, apart", join(good, cube(11, 2, 0, 5, 5, 10)), nil, 2, 0},
		{"inside out", reversed(good), []string{mesh.InsideOut}, 1, 0},
		{"one of two inside out", join(good, reversed(cube10(20, 0, 0))), []string{mesh.InsideOut}, 2, 0},
		{"nested", join(cube(0, 0, 0, 30, 30, 30), cube10(10, 10, 10)), []string{mesh.NestedBody}, 2, 0},
		{"shared edge", join(good, cube10(10, 10, 0)), []string{mesh.CrowdedEdge}, 2, 0},
		{"shared vertex", join(good, cube10(10, 10, 10)), []string{mesh.PointContact}, 2, 0},
		{"shared face", join(good, cube10(10, 0, 0)), []string{mesh.CrowdedEdge, mesh.Intersection}, 4, 0},
		{"twice", join(good, good), []string{mesh.CrowdedEdge, mesh.SameTriangle}, 24, 0},
		{"missing", good[1:], []string{mesh.OpenEdge}, 1, 0},
		{"nan", join(good[:11], mesh.Soup{{{0, 0, 0}, {1, 0, 0}, {nan, 0, 0}}}), []string{mesh.NotFinite, mesh.OpenEdge}, 1, 0},
		{"degenerate", join(good, mesh.Soup{{{0, 0, 0}, {10, 0, 0}, {5, 0, 0}}}), []string{mesh.Degenerate, mesh.OpenEdge, mesh.CrowdedEdge}, 2, 0},
		{"equal corners", join(good, mesh.Soup{{{0, 0, 0}, {10, 0, 0}, {10, 0, 0}}}), []string{mesh.Degenerate}, 1, 0},
		{"one triangle reversed", join(good[1:], reversed(good[:1])), []string{mesh.EdgeSense}, 1, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			e := mesh.Inspect(test.soup)
			if got := kinds(e); !slices.Equal(got, test.want) {
				t.Errorf("faults %q, want %q: %+v", got, test.want, e.Faults)
			}
			if e.Shells != test.shells || e.Cavities != test.cavities {
				t.Errorf("%d shells and %d cavities, want %d and %d", e.Shells, e.Cavities, test.shells, test.cavities)
			}
		})
	}
}

// A shear and scaling keeps what is closed closed; parallel faces may cross by
// rounding, so only faults without coplanar faces are asked for.
func TestInspectOffTheGrid(t *testing.T) {
	for _, test := range []struct {
		name string
		soup mesh.Soup
		want []string
	}{
		{"cube", cube10(0, 0, 0), nil},
		{"overlap", join(cube10(0, 0, 0), cube10(5, 3, 2)), []string{mesh.Intersection}},
		{"inside out", reversed(cube10(0, 0, 0)), []string{mesh.InsideOut}},
		{"shared vertex", join(cube10(0, 0, 0), cube10(10, 10, 10)), []string{mesh.PointContact}},
		{"degenerate", mesh.Soup{{{0, 0, 0}, {1, 2, 4}, {1 << 20, 2 << 20, 4 << 20}}, {{0, 0, 0}, {1e-30, 0, 1e30}, {1, 0, 0}}}, []string{mesh.Degenerate, mesh.OpenEdge, mesh.PointContact}},
	} {
		t.Run(test.name, func(t *testing.T) {
			soup := test.soup
			if test.name != "degenerate" {
				soup = sheared(soup)
			}
			if got := kinds(mesh.Inspect(soup)); !slices.Equal(got, test.want) {
				t.Errorf("faults %q, want %q", got, test.want)
			}
		})
	}
}

// The volume of a box is the product of its sides, its area twice the sum of
// their pairs; an inch is 25.4 mm (ISO 31-1, from memory).
func TestInspectMeasures(t *testing.T) {
	e := mesh.Inspect(cube(1, 2, 3, 4, 5, 6))
	if e.Volume != 120 || e.Area != 148 || e.Size != [3]float64{4, 5, 6} || e.Low != [3]float64{1, 2, 3} {
		t.Errorf("volume %g, area %g, size %g, low %g", e.Volume, e.Area, e.Size, e.Low)
	}
	if got, want := e.VolumeIfInches, 120*25.4*25.4*25.4; math.Abs(got-want) > 1e-9*want {
		t.Errorf("%g mm³ if inches, want %g", got, want)
	}
	if got := e.SizeIfInches[0]; math.Abs(got-101.6) > 1e-12 {
		t.Errorf("%g mm if inches, want 101.6", got)
	}
}

func TestInspectNamesThePlace(t *testing.T) {
	e := mesh.Inspect(join(cube10(0, 0, 0), cube10(10, 10, 10)))
	if len(e.Faults) != 1 || e.Faults[0].Where != [3]float64{10, 10, 10} || e.Faults[0].Count != 1 {
		t.Errorf("faults %+v, want one point contact at (10, 10, 10)", e.Faults)
	}
	e = mesh.Inspect(join(cube10(0, 0, 0), cube10(10, 10, 0)))
	if len(e.Faults) != 1 || e.Faults[0].Where != [3]float64{10, 10, 5} {
		t.Errorf("faults %+v, want one crowded edge at (10, 10, 5)", e.Faults)
	}
}

package mesh

import (
	"math/rand/v2"
	"testing"
)

// block returns the twelve triangles of a block between corners of a grid.
func block(lo, hi [3]float32) (soup Soup) {
	corner := func(i int) (p [3]float32) {
		for k := range 3 {
			if p[k] = lo[k]; i>>k&1 == 1 {
				p[k] = hi[k]
			}
		}
		return p
	}
	for _, f := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		soup = append(soup, [3][3]float32{corner(f[0]), corner(f[1]), corner(f[2])}, [3][3]float32{corner(f[0]), corner(f[2]), corner(f[3])})
	}
	return soup
}

// Proving level planes as a whole must find the same crossings, pair for pair,
// as looking at all pairs: blocks and loose triangles on a small grid.
func TestPlanesAgainstPairs(t *testing.T) {
	const seed = 7
	rnd := rand.New(rand.NewPCG(seed, seed))
	proved, sound, crossing := 0, 0, 0
	for i := range 3_000 {
		size := 3 + rnd.IntN(6)
		var soup Soup
		for range 1 + rnd.IntN(3) {
			var lo, hi [3]float32
			for k := range 3 {
				a := rnd.IntN(size)
				lo[k], hi[k] = float32(a), float32(a+1+rnd.IntN(3))
			}
			soup = append(soup, block(lo, hi)...)
		}
		for range rnd.IntN(3) {
			var t [3][3]float32
			for c := range t {
				for k := range 3 {
					t[c][k] = float32(rnd.IntN(size))
				}
			}
			soup = append(soup, t)
		}
		var byPlane, byPair Examination
		for least, e := range map[int]*Examination{1: &byPlane, 1 << 30: &byPair} {
			s := weld(soup)
			s.examineEdges(&Examination{})
			s.examineCrossings(e, least)
			if least == 1 {
				proved += len(s.findPlanes(1))
			}
		}
		if len(byPlane.Faults) != len(byPair.Faults) {
			t.Fatalf("seed %d, case %d: %+v by planes, %+v by pairs: %v", seed, i, byPlane.Faults, byPair.Faults, soup)
		}
		if len(byPair.Faults) == 0 {
			sound++
		}
		for k, f := range byPair.Faults {
			crossing++
			if g := byPlane.Faults[k]; g.Kind != f.Kind || g.Count != f.Count {
				t.Fatalf("seed %d, case %d: %+v by planes, %+v by pairs: %v", seed, i, g, f, soup)
			}
		}
	}
	if proved < 2000 || sound < 200 || crossing < 200 {
		t.Errorf("only %d planes proved, %d soups sound, %d with crossings", proved, sound, crossing)
	}
}

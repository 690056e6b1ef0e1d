package geom

import (
	"math/big"
)

// Volume returns the volume of the layer in mm³.
func (l Layer) Volume() float64 { return cubicMM(l.sixVolume()) }

// Volume returns the volume of the part in mm³.
func (p Part) Volume() float64 { return cubicMM(p.SixVolume()) }

// SixVolume returns six times the volume of the part in cubic grid steps,
// exactly: what the triangles of its mesh must add up to.
func (p Part) SixVolume() *big.Int {
	sum := new(big.Int)
	for _, l := range p.layers {
		sum.Add(sum, l.sixVolume())
	}
	return sum
}

// sixVolume adds up the triple products of a closed surface's triangles, with
// the bottom at height zero. For a loft of height h the bottom adds nothing,
// the top h times twice its area, and the walls (b0 b1 t1) and (b0 t1 t0) add
// h (b0 x b1) and h (b0 x (t1 - t0)). The sum fits: it is below 6 * 2^48.
// For a prism it is three times twice the area.
func (l Layer) sixVolume() *big.Int {
	perHeight := 3 * l.Bottom.doubleArea()
	if l.Loft {
		perHeight = l.Bottom.doubleArea() + l.Top.doubleArea()
		for i, b := range l.Bottom.loops {
			t := l.Top.loops[i]
			for k := range b {
				n := (k + 1) % len(b)
				perHeight += int64(b[k].X)*(int64(t[n].Y)-int64(t[k].Y)) - int64(b[k].Y)*(int64(t[n].X)-int64(t[k].X))
			}
		}
	}
	height := int64(l.Z1) - int64(l.Z0)
	return new(big.Int).Mul(big.NewInt(perHeight), big.NewInt(height))
}

func cubicMM(sixVolume *big.Int) float64 {
	v, _ := new(big.Float).SetInt(sixVolume).Float64()
	return v / (6 * PerMM * PerMM * PerMM)
}

package mesh

import (
	"math"
	"math/big"
	"math/bits"
)

// An int128 is a signed whole number of 128 bits in two's complement: sums of
// products of three coordinates do not fit in 64.
type int128 struct {
	hi int64
	lo uint64
}

// addProduct adds a times b.
func (x *int128) addProduct(a, b int64) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	high := int64(hi)
	if a < 0 {
		high -= b
	}
	if b < 0 {
		high -= a
	}
	var carry uint64
	x.lo, carry = bits.Add64(x.lo, lo, 0)
	x.hi += high + int64(carry)
}

// sign returns -1, 0 or 1.
func (x int128) sign() int {
	switch {
	case x.hi < 0:
		return -1
	case x.hi == 0 && x.lo == 0:
		return 0
	}
	return 1
}

func (x int128) float() float64 { return math.Ldexp(float64(x.hi), 64) + float64(x.lo) }

// int128Of converts a whole number; it must fit.
func int128Of(n *big.Int) int128 {
	low := new(big.Int).And(n, new(big.Int).SetUint64(math.MaxUint64))
	return int128{hi: new(big.Int).Rsh(n, 64).Int64(), lo: low.Uint64()}
}

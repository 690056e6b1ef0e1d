package mesh

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// Against math/big, with factors of either sign near all 64 bits.
func TestInt128(t *testing.T) {
	const seed = 1
	rnd := rand.New(rand.NewPCG(seed, seed))
	want := new(big.Int)
	var got int128
	for range 1000 {
		a, b := int64(rnd.Uint64())>>rnd.IntN(64)>>2, int64(rnd.Uint64())>>rnd.IntN(64)>>10
		got.addProduct(a, b)
		want.Add(want, new(big.Int).Mul(big.NewInt(a), big.NewInt(b)))
		if got != int128Of(want) || got.sign() != want.Sign() {
			t.Fatalf("seed %d: after %d * %d: %+v, want %v", seed, a, b, got, want)
		}
		f, _ := new(big.Float).SetInt(want).Float64()
		if d := got.float() - f; d > 1e-15*max(f, -f) || -d > 1e-15*max(f, -f) {
			t.Fatalf("seed %d: float %g, want %g", seed, got.float(), f)
		}
	}
}

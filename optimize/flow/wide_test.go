package flow

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// big is the number in the arithmetic of any size.
func (w *wide) big() *big.Int {
	b := new(big.Int).Lsh(big.NewInt(w.high), 64)
	return b.Add(b, new(big.Int).SetUint64(w.low))
}

// Sums of products are what any-size arithmetic says, at the ends of the range too.
func TestWideSumsOfProductsAreExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 128))
	ends := []int64{0, 1, -1, 2, -2, math.MaxInt64, math.MinInt64, math.MaxInt64 - 1, math.MinInt64 + 1, endless, -endless, 1 << 32, -1 << 32}
	number := func() int64 {
		if rng.IntN(3) == 0 {
			return ends[rng.IntN(len(ends))]
		}
		return int64(rng.Uint64()) >> rng.IntN(63)
	}
	most := new(big.Int).Lsh(big.NewInt(1), 126) // half of what the number holds: a sum may still grow
	for range 2000 {
		var w wide
		want := new(big.Int)
		for range 40 {
			a, b := number(), number()
			p := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
			if new(big.Int).Abs(new(big.Int).Add(want, p)).Cmp(most) > 0 {
				continue
			}
			w.add(a, b)
			want.Add(want, p)
			if w.big().Cmp(want) != 0 {
				t.Fatalf("adding %d x %d gives %v, want %v", a, b, w.big(), want)
			}
		}
		exact, _ := new(big.Float).SetInt(want).Float64()
		if got := w.float(); got < math.Nextafter(exact, math.Inf(-1)) || got > math.Nextafter(exact, math.Inf(1)) {
			t.Fatalf("%v as a float is %v, want %v or one beside it", want, got, exact)
		}
	}
}

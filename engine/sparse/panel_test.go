package sparse

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestPanel_SameBits holds what the processor does many rows at once to the
// plain code.
func TestPanel_SameBits(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	noise := func(n int) []float64 {
		list := make([]float64, n)
		for i := range list {
			list[i] = r.NormFloat64()
		}
		return list
	}
	for range 3000 {
		n, w := strip+r.IntN(40), 1+r.IntN(20)
		cBy, aBy := n+r.IntN(5), n+r.IntN(5)
		c, a := noise(4*cBy), noise(w*aBy)
		keep := r.IntN(2) == 0
		want := slices.Clone(c)
		lessProducts(c, cBy, a, aBy, n, w, keep)
		lessProductsPlain(want, cBy, a, aBy, n, w, keep)
		if !slices.Equal(c, want) {
			t.Fatalf("products of %d rows, %d columns: not the same bits as the plain code", n, w)
		}
		solve4(c, cBy, n)
		solve4Plain(want, cBy, n)
		if !slices.Equal(c, want) {
			t.Fatalf("solving %d rows: not the same bits as the plain code", n)
		}
	}
}

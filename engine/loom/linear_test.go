package loom

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestLinear_SameBits: rows that were left alone hold what a whole
// factorisation gives, bit for bit.
func TestLinear_SameBits(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	p := coach(40)
	n := netOf(&p)
	pat, err := patternOf(n)
	if err != nil {
		t.Fatal(err)
	}
	siemens := make([]float64, len(n.branches))
	held := make([]int32, len(n.names))
	for i := range held {
		held[i] = int32(i)
	}
	a := newLinear(pat)
	for round := range 30 {
		for i := range siemens {
			if round == 0 || r.IntN(40) == 0 {
				siemens[i] = float64(r.IntN(2)) * r.Float64() * 500
			}
		}
		b := newLinear(pat)
		if a.refactor(siemens, held) != nil || b.refactor(siemens, held) != nil {
			t.Fatal("no factor")
		}
		if !slices.Equal(a.l, b.l) || !slices.Equal(a.d, b.d) {
			t.Fatalf("round %d: the factors differ", round)
		}
		inject := make([]float64, pat.n)
		inject[r.IntN(pat.n)] = 1
		v, back := make([]float64, pat.n), make([]float64, pat.n)
		a.solve(v, inject)
		for i := range n.branches {
			e := &n.branches[i]
			if e.a != e.b {
				back[e.a] += siemens[i] * (v[e.a] - v[e.b])
				back[e.b] += siemens[i] * (v[e.b] - v[e.a])
			}
		}
		for i := range back {
			if d := back[i] + v[i] - inject[i]; d > 1e-9 || d < -1e-9 {
				t.Fatalf("round %d: node %d is out by %g A", round, i, d)
			}
		}
	}
}

package sparse

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// dense solves A x = b by the Cholesky factor of the full matrix, and says the
// least share of a diagonal that was left as a pivot.
func dense(m *Matrix, b []float64) (x []float64, share float64) {
	n := m.N
	share = 1
	a := make([][]float64, n)
	for i := range a {
		a[i] = make([]float64, n)
	}
	for j := range n {
		for k := m.Start[j]; k < m.Start[j+1]; k++ {
			a[m.Row[k]][j] = m.Value[k]
		}
	}
	x = slices.Clone(b)
	for j := range n {
		for k := range j {
			for i := j; i < n; i++ {
				a[i][j] -= a[i][k] * a[j][k]
			}
		}
		share = min(share, a[j][j]/m.Value[m.Start[j]])
		if !(a[j][j] > 0) {
			return nil, 0
		}
		d := math.Sqrt(a[j][j])
		for i := j; i < n; i++ {
			a[i][j] /= d
		}
		x[j] /= a[j][j]
		for i := j + 1; i < n; i++ {
			x[i] -= a[i][j] * x[j]
		}
	}
	for j := n - 1; j >= 0; j-- {
		for i := j + 1; i < n; i++ {
			x[j] -= a[i][j] * x[i]
		}
		x[j] /= a[j][j]
	}
	return x, share
}

// random makes a positive definite matrix with about so many pairs a row.
func random(r *rand.Rand, n int, pairs float64) []Entry {
	list := make([]Entry, 0, n)
	for i := range n {
		list = append(list, Entry{int32(i), int32(i), 0.1 + r.Float64()})
	}
	for range int(pairs * float64(n)) {
		i, j, v := r.IntN(n), r.IntN(n), r.Float64()-0.5
		if i != j {
			list = append(list, Entry{int32(i), int32(j), v}, Entry{int32(i), int32(i), math.Abs(v)}, Entry{int32(j), int32(j), math.Abs(v)})
		}
	}
	return list
}

func TestFactor_AgainstDense(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for round := range 400 {
		n := 1 + r.IntN(90)
		m, err := Assemble(n, random(r, n, 4*r.Float64()*r.Float64()))
		if err != nil {
			t.Fatal(err)
		}
		s, err := Analyse(m)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.Factor(m)
		if err != nil {
			t.Fatal(err)
		}
		b, x := make([]float64, n), make([]float64, n)
		for i := range b {
			b[i] = r.NormFloat64()
		}
		want, _ := dense(m, b)
		f.Solve(x, b)
		for i := range x {
			if math.Abs(x[i]-want[i]) > 1e-9*(1+math.Abs(want[i])) {
				t.Fatalf("round %d, n %d: x[%d] = %g, dense says %g", round, n, i, x[i], want[i])
			}
		}
	}
}

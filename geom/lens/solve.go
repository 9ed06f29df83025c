package lens

import "math"

// matrix is square, symmetric and small; rows are of one length.
type matrix [][]float64

func newMatrix(n int) matrix {
	m := make(matrix, n)
	all := make([]float64, n*n)
	for i := range m {
		m[i] = all[i*n : (i+1)*n]
	}
	return m
}

// tooFlat is the smallest pivot of a matrix with ones on its diagonal that is
// not taken for zero: beyond it a number of 1e-16 says nothing.
const tooFlat = 1e-13

// factor is the lower triangle of a Cholesky factor of a matrix whose rows and
// columns are scaled to ones on the diagonal.
type factor struct {
	low   matrix
	scale []float64
}

// cholesky factors a positive definite matrix, or says that it is none.
func cholesky(m matrix) (factor, bool) {
	n := len(m)
	f := factor{newMatrix(n), make([]float64, n)}
	for i := range n {
		if !(m[i][i] > 0) || math.IsInf(m[i][i], 0) {
			return f, false
		}
		f.scale[i] = 1 / math.Sqrt(m[i][i])
	}
	for i := range n {
		for j := range i + 1 {
			sum := m[i][j] * f.scale[i] * f.scale[j]
			for k := range j {
				sum -= f.low[i][k] * f.low[j][k]
			}
			if i > j {
				f.low[i][j] = sum / f.low[j][j]
				continue
			}
			if !(sum > tooFlat) {
				return f, false
			}
			f.low[i][i] = math.Sqrt(sum)
		}
	}
	return f, true
}

// solve returns x of m x = b.
func (f factor) solve(b []float64) []float64 {
	n := len(b)
	x := make([]float64, n)
	for i := range n {
		x[i] = b[i] * f.scale[i]
		for k := range i {
			x[i] -= f.low[i][k] * x[k]
		}
		x[i] /= f.low[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= f.low[k][i] * x[k]
		}
		x[i] /= f.low[i][i]
	}
	for i := range x {
		x[i] *= f.scale[i]
	}
	return x
}

// inverse returns the inverse of m.
func (f factor) inverse() matrix {
	n := len(f.scale)
	out := newMatrix(n)
	e := make([]float64, n)
	for j := range n {
		e[j] = 1
		for i, v := range f.solve(e) {
			out[i][j] = v
		}
		e[j] = 0
	}
	return out
}

package sparse

import (
	"fmt"

	"fettle/fault"
)

// Matrix is a symmetric matrix by its lower triangle in compressed columns:
// rows of column j are Row[Start[j]:Start[j+1]], ascending, the diagonal first
// and always there; Value stands beside Row.
type Matrix struct {
	N     int
	Start []int32
	Row   []int32
	Value []float64
}

// Mul sets y to A x.
func (m *Matrix) Mul(y, x []float64) {
	clear(y[:m.N])
	for j := range m.N {
		from, to := m.Start[j], m.Start[j+1]
		xj := x[j]
		sum := float64(m.Value[from] * xj)
		for k := from + 1; k < to; k++ {
			i, v := m.Row[k], m.Value[k]
			y[i] += float64(v * xj)
			sum += float64(v * x[i])
		}
		y[j] += sum
	}
}

// check holds a matrix to what its type promises; values are not looked at.
func (m *Matrix) check() error {
	if m.N < 0 || len(m.Start) != m.N+1 || len(m.Row) != len(m.Value) || m.Start[0] != 0 || int(m.Start[m.N]) != len(m.Row) {
		return fault.New(fault.Invalid, "%d rows, %d starts, %d places and %d values are no matrix", m.N, len(m.Start), len(m.Row), len(m.Value))
	}
	for j := range m.N {
		from, to := m.Start[j], m.Start[j+1]
		if from >= to || int(to) > len(m.Row) || m.Row[from] != int32(j) {
			return noDiagonal(int32(j))
		}
		for k := from + 1; k < to; k++ {
			if m.Row[k] <= m.Row[k-1] || int(m.Row[k]) >= m.N {
				return fault.New(fault.Invalid, "row %d is out of order or outside", m.Row[k]).At(fmt.Sprintf("column %d", j))
			}
		}
	}
	return nil
}

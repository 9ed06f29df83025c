package sparse

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Entry is one term of A[Row][Col], which is A[Col][Row] as well.
type Entry struct {
	Row, Col int32
	Value    float64
}

// Assemble makes the symmetric matrix of n rows that is the sum of the
// entries. An entry stands for a place of the lower triangle and for its mirror
// image at once: (2, 5) is the same as (5, 2), so each pair is given once.
// Places that are given again are summed in the order given. A row without a
// diagonal entry, a place outside and a value that is no finite number are
// faults.
func Assemble(n int, entries []Entry) (*Matrix, error) {
	m, _, err := AssembleSlots(n, entries)
	return m, err
}

// AssembleSlots is Assemble and says into which slot of Value each entry went,
// so that the same entries with other values are summed without any sorting:
//
//	clear(m.Value)
//	for k, e := range entries {
//		m.Value[slots[k]] += e.Value
//	}
func AssembleSlots(n int, entries []Entry) (*Matrix, []int32, error) {
	if n < 0 || n > math.MaxInt32 || len(entries) > math.MaxInt32/2 {
		return nil, nil, fault.New(fault.TooLarge, "a matrix of %d rows and %d entries is more than can be numbered", n, len(entries))
	}
	for k, e := range entries {
		if e.Row < 0 || e.Col < 0 || int(e.Row) >= n || int(e.Col) >= n {
			return nil, nil, fault.New(fault.Invalid, "row %d, column %d: the matrix has %d rows", e.Row, e.Col, n).At(fmt.Sprintf("entry %d", k))
		}
		if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) {
			return nil, nil, fault.New(fault.Invalid, "row %d, column %d: %g is no finite number", e.Row, e.Col, e.Value).At(fmt.Sprintf("entry %d", k))
		}
	}
	byRow := bucket(n, len(entries), nil, func(k int32) int32 { return max(entries[k].Row, entries[k].Col) })
	order := bucket(n, len(entries), byRow, func(k int32) int32 { return min(entries[k].Row, entries[k].Col) })
	m, slots := &Matrix{N: n, Start: make([]int32, n+1)}, make([]int32, len(entries))
	col := int32(-1)
	for _, k := range order {
		e := entries[k]
		i, j := max(e.Row, e.Col), min(e.Row, e.Col)
		if j > col {
			if j > col+1 || i != j {
				return nil, nil, noDiagonal(col + 1)
			}
			col, m.Start[j] = j, int32(len(m.Row))
		}
		if last := len(m.Row) - 1; last < int(m.Start[j]) || m.Row[last] != i {
			m.Row, m.Value = append(m.Row, i), append(m.Value, 0)
		}
		slots[k] = int32(len(m.Row) - 1)
		m.Value[slots[k]] += e.Value
	}
	if int(col) != n-1 {
		return nil, nil, noDiagonal(col + 1)
	}
	m.Start[n] = int32(len(m.Row))
	return m, slots, nil
}

func noDiagonal(row int32) error {
	return fault.New(fault.Invalid, "no entry on the diagonal, so the matrix is not positive definite").At(fmt.Sprintf("row %d", row))
}

// bucket lists 0..many-1, in the order of before where that is given, sorted by
// a key below n; equal keys keep their order.
func bucket(n, many int, before []int32, key func(int32) int32) []int32 {
	start := make([]int32, n+1)
	for k := range int32(many) {
		start[key(k)+1]++
	}
	for i := range n {
		start[i+1] += start[i]
	}
	order := make([]int32, many)
	for at := range int32(many) {
		k := at
		if before != nil {
			k = before[at]
		}
		b := key(k)
		order[start[b]] = k
		start[b]++
	}
	return order
}

package sparse

import (
	"fmt"
	"math"
	"slices"

	"fettle/fault"
)

// Factor is L of A = L Lᵀ in the order of a Symbolic, by dense panels. It works
// in memory of its own: one call at a time.
type Factor struct {
	*Symbolic
	panels []float64
	boards [2][]float64
	limit  []float64 // in order of elimination, what a pivot must be above
	spare  []float64 // for solving
}

// Factor factors a matrix of the pattern that was analysed.
func (s *Symbolic) Factor(m *Matrix) (*Factor, error) {
	f := &Factor{Symbolic: s, panels: make([]float64, s.panelAt[len(s.height)]), limit: make([]float64, s.n)}
	f.boards = [2][]float64{make([]float64, s.board[0]), make([]float64, s.board[1])}
	if err := f.Refactor(m); err != nil {
		return nil, err
	}
	return f, nil
}

// least is the share of a row's diagonal that must be left of it as a pivot:
// under it nothing but rounding is left.
const least = 1.0 / (1 << 46)

// Refactor factors a matrix of the same pattern in the same memory. After a
// fault the factor holds nothing that can be solved with.
func (f *Factor) Refactor(m *Matrix) error {
	if m.N != f.n || len(m.Value) != len(f.entries) || !slices.Equal(m.Start, f.start) || !slices.Equal(m.Row, f.row) {
		return fault.New(fault.Invalid, "the matrix has not the pattern that was analysed")
	}
	for k, row := range f.perm {
		f.limit[k] = least * m.Value[m.Start[row]]
	}
	for k := range int32(len(f.height)) {
		if bad := f.eliminate(k, m.Value); bad >= 0 {
			at := f.first[k] + int32(bad)
			row, h := f.perm[at], int(f.height[k])
			pivot := f.panels[f.panelAt[k]+bad*(h+1)]
			return fault.New(fault.Invalid, "the pivot is %g where the diagonal is %g: the matrix is not positive definite", pivot, m.Value[m.Start[row]]).At(fmt.Sprintf("row %d", row))
		}
	}
	return nil
}

// eliminate factors the panel of a block and works out what it passes on. It
// returns the column whose pivot is no good, or -1.
func (f *Factor) eliminate(k int32, values []float64) int {
	w, h := int(f.first[k+1]-f.first[k]), int(f.height[k])
	u := h - w
	panel := f.panels[f.panelAt[k]:f.panelAt[k+1]]
	clear(panel)
	for _, e := range f.entries[f.entryAt[k]:f.entryAt[k+1]] {
		panel[e.place] = values[e.slot]
	}
	kids := f.kids[f.kidsAt[k]:f.kidsAt[k+1]]
	for _, c := range kids {
		f.takeInto(panel, c, w, h)
	}
	if bad := factorPanel(panel, w, h, f.limit[f.first[k]:]); bad >= 0 {
		return bad
	}
	if u == 0 {
		return -1
	}
	mine := f.boardOf(k)
	passOn(mine, panel[w:], u, w, h)
	for _, c := range kids {
		f.takeOnto(mine, c, w, u)
	}
	return -1
}

// boardOf is what a block passes on: the lower triangle of a matrix of its rows
// beyond, by columns.
func (f *Factor) boardOf(k int32) []float64 {
	parity := 0
	if f.odd[k] {
		parity = 1
	}
	return f.boards[parity][f.boardAt[k]:][:square(f.beyond(k))]
}

// takeInto adds to a panel of w columns and h rows what a child passes on to
// it.
func (f *Factor) takeInto(panel []float64, c int32, w, h int) {
	within := f.within[f.rowsAt[c]:f.rowsAt[c+1]]
	from := f.boardOf(c)
	n := len(within)
	for j, col := range within {
		if int(col) >= w {
			return
		}
		to := panel[int(col)*h:][:h]
		for i, v := range from[j*n+j : (j+1)*n] {
			to[within[j+i]] += v
		}
	}
}

// takeOnto adds what a child passes on to the rows beyond.
func (f *Factor) takeOnto(board []float64, c int32, w, u int) {
	within := f.within[f.rowsAt[c]:f.rowsAt[c+1]]
	from := f.boardOf(c)
	n := len(within)
	j, _ := slices.BinarySearch(within, int32(w))
	for ; j < n; j++ {
		to := board[(int(within[j])-w)*u:][:u]
		for i, v := range from[j*n+j : (j+1)*n] {
			to[int(within[j+i])-w] += v
		}
	}
}

// good says whether a pivot can be divided by.
func good(pivot, limit float64) bool { return pivot > limit && pivot <= math.MaxFloat64 }

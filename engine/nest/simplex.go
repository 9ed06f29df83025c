package nest

import "math"

// tableau is the state of the simplex method with upper bounds on the dual of a
// program, which has as many rows as x has entries and begins feasible
// [Dantzig1963, ch. 18]. The inverse of the basis is kept as it is.
type tableau struct {
	rows    []row
	n       int
	cost    []float64
	basis   []int       // by row of the dual: the row of the program whose variable is there
	inverse [][]float64 // of the basis
	value   []float64   // of the dual variables in the basis
	upper   []bool      // nonbasic at its upper bound, the price
	in      []bool      // in the basis
	x       []float64
	w       []float64 // the entering column
}

// When a solution counts as one, and when the search for it is given up.
const (
	pivotLeast   = 1e-9
	simplexTol   = 1e-10
	simplexMost  = 40  // pivots per entry of x
	simplexRenew = 100 // pivots until the inverse is worked out anew
)

// prices works out x from the basis.
func (t *tableau) prices() {
	clear(t.x)
	for r, k := range t.basis {
		if b := t.rows[k].least; b != 0 {
			for i, v := range t.inverse[r] {
				t.x[i] += float64(b * v)
			}
		}
	}
}

// entering returns the row that x fails most, or holds most needlessly; the
// first such where the method may run in circles. -1 where there is none.
func (t *tableau) entering(first bool) int {
	best, most := -1, simplexTol
	for k := range t.rows {
		if t.in[k] {
			continue
		}
		d := t.rows[k].short(t.x)
		if t.upper[k] {
			d = -d
		}
		if d > most {
			best, most = k, d
			if first {
				return k
			}
		}
	}
	return best
}

// pivot brings row k into the basis, or moves it to its other bound.
func (t *tableau) pivot(k int) bool {
	r, sign := &t.rows[k], 1.0
	if t.upper[k] {
		sign = -1
	}
	for i, line := range t.inverse {
		t.w[i] = 0
		for j := range r.n {
			t.w[i] += float64(r.by[j] * line[r.at[j]])
		}
	}
	step, leave, toUpper := t.leaving(r.price, sign)
	if math.IsInf(step, 1) {
		return false
	}
	for i, w := range t.w {
		t.value[i] -= float64(step * w * sign)
	}
	if leave < 0 {
		t.upper[k] = !t.upper[k]
		return true
	}
	out := t.basis[leave]
	t.in[out], t.upper[out] = false, toUpper
	t.value[leave] = step
	if t.upper[k] {
		t.value[leave] = r.price - step
	}
	t.basis[leave], t.in[k], t.upper[k] = k, true, false
	t.replace(leave)
	return true
}

// leaving returns how far the entering variable goes, up to its price, and
// which of the basis stops it: at 0, or at its own price. -1 is none.
func (t *tableau) leaving(price, sign float64) (step float64, leave int, toUpper bool) {
	step, leave = price, -1
	for i, w := range t.w {
		w *= sign
		switch price := t.rows[t.basis[i]].price; {
		case w > pivotLeast:
			if s := max(t.value[i], 0) / w; s < step {
				step, leave, toUpper = s, i, false
			}
		case w < -pivotLeast && !math.IsInf(price, 1):
			if s := max(price-t.value[i], 0) / -w; s < step {
				step, leave, toUpper = s, i, true
			}
		}
	}
	return step, leave, toUpper
}

// replace makes the inverse that of the basis with one column replaced by the
// entering one.
func (t *tableau) replace(leave int) {
	by, lead := t.w[leave], t.inverse[leave]
	for i := range lead {
		lead[i] /= by
	}
	for r, line := range t.inverse {
		if f := t.w[r]; r != leave && f != 0 {
			for i, v := range lead {
				line[i] -= float64(f * v)
			}
		}
	}
}

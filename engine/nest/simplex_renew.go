package nest

import "math"

// renew works out the inverse and the values of the basis from nothing, so
// that rounding does not pile up.
func (t *tableau) renew() {
	n := t.n
	m := make([][]float64, n) // the basis beside the unit matrix
	for i := range m {
		m[i] = make([]float64, 2*n)
		m[i][n+i] = 1
	}
	for c, k := range t.basis {
		r := &t.rows[k]
		for j := range r.n {
			m[r.at[j]][c] += r.by[j]
		}
	}
	eliminate(m)
	t.inverse = make([][]float64, n)
	t.value = make([]float64, n)
	rest := t.rest()
	for r := range n {
		t.inverse[r] = m[r][n:]
		for i, v := range rest {
			t.value[r] += float64(t.inverse[r][i] * v)
		}
	}
}

// rest is what the variables at their upper bounds leave of the cost.
func (t *tableau) rest() []float64 {
	rest := append([]float64{}, t.cost...)
	for k := range t.rows {
		if !t.upper[k] {
			continue
		}
		r := &t.rows[k]
		for j := range r.n {
			rest[r.at[j]] -= float64(r.by[j] * r.price)
		}
	}
	return rest
}

// eliminate turns the left half of a matrix into the unit matrix by row
// operations, with the largest pivots first.
func eliminate(m [][]float64) {
	for c := range m {
		p := c
		for r := c + 1; r < len(m); r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		m[c], m[p] = m[p], m[c]
		by := m[c][c]
		for j := range m[c] {
			m[c][j] /= by
		}
		for r := range m {
			if f := m[r][c]; r != c && f != 0 {
				for j := c; j < len(m[r]); j++ {
					m[r][j] -= float64(f * m[c][j])
				}
			}
		}
	}
}

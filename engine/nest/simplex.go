package nest

import "math"

// program is a linear program: the x with the least cost of which every row
// holds, each |x| at most reach. A row that cannot hold gives way at a price
// per unit that it falls short. It is solved by the simplex method with upper
// bounds on its dual, which has as many rows as x has entries and begins
// feasible [Dantzig1963, ch. 18].
type program struct {
	cost  []float64
	reach float64
	rows  []row
}

// row asks that the sum of by times x[at] is least or more.
type row struct {
	at    [5]int
	by    [5]float64
	n     int
	least float64
	price float64 // +Inf: the row holds
}

func (r *row) add(at int, by float64) {
	r.at[r.n], r.by[r.n] = at, by
	r.n++
}

// When a solution counts as one, and when the search for it is given up.
const (
	pivotLeast   = 1e-9
	simplexTol   = 1e-10
	simplexMost  = 40 // pivots per entry of x
	simplexRenew = 100
)

// tableau is the state of the method: dual variables, some in the basis.
type tableau struct {
	rows    []row
	n       int
	cost    []float64
	basis   []int       // by row of the dual
	inverse [][]float64 // of the basis
	value   []float64   // of the dual variables in the basis
	upper   []bool      // nonbasic at its upper bound
	in      []bool      // in the basis
	x       []float64
	w       []float64
}

// solve returns x; ok is false where the method was given up.
func (p *program) solve() (x []float64, ok bool) {
	t := &tableau{n: len(p.cost), cost: p.cost}
	for i, c := range p.cost {
		sign := 1.0
		if c < 0 {
			sign = -1
		}
		for _, s := range [2]float64{sign, -sign} {
			r := row{least: -p.reach, price: math.Inf(1)}
			r.add(i, s)
			t.rows = append(t.rows, r)
		}
		t.basis = append(t.basis, 2*i)
	}
	t.rows = append(t.rows, p.rows...)
	t.in, t.upper = make([]bool, len(t.rows)), make([]bool, len(t.rows))
	t.x, t.w = make([]float64, t.n), make([]float64, t.n)
	for i := range t.n {
		t.in[2*i] = true
	}
	t.renew()
	for n := range simplexMost * t.n {
		if n%simplexRenew == simplexRenew-1 {
			t.renew()
		}
		t.prices()
		k := t.entering(n > simplexMost*t.n/2)
		if k < 0 {
			return t.x, true
		}
		if !t.pivot(k) {
			return t.x, false
		}
	}
	return t.x, false
}

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

// short is by how much x fails a row.
func (t *tableau) short(k int) float64 {
	r := &t.rows[k]
	sum := r.least
	for i := range r.n {
		sum -= float64(r.by[i] * t.x[r.at[i]])
	}
	return sum
}

// entering returns the row that x fails most, or holds most needlessly; the
// first such where the method may run in circles. -1 where there is none.
func (t *tableau) entering(first bool) int {
	best, most := -1, simplexTol
	for k := range t.rows {
		if t.in[k] {
			continue
		}
		d := t.short(k)
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
	for i := range t.n {
		t.w[i] = 0
		for j := range r.n {
			t.w[i] += float64(r.by[j] * t.inverse[i][r.at[j]])
		}
	}
	step, leave, toUpper := r.price, -1, false
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
	t.swapRow(leave)
	return true
}

// swapRow makes the inverse that of the basis with one column replaced.
func (t *tableau) swapRow(leave int) {
	by := t.w[leave]
	lead := t.inverse[leave]
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

// renew works out the inverse and the values of the basis from nothing, so
// that rounding does not pile up.
func (t *tableau) renew() {
	n := t.n
	m := make([][]float64, n) // basis beside the unit matrix
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
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		m[c], m[p] = m[p], m[c]
		by := m[c][c]
		for j := range m[c] {
			m[c][j] /= by
		}
		for r := range n {
			if f := m[r][c]; r != c && f != 0 {
				for j := c; j < 2*n; j++ {
					m[r][j] -= float64(f * m[c][j])
				}
			}
		}
	}
	t.inverse = make([][]float64, n)
	rest := append([]float64{}, t.cost...)
	for k := range t.rows {
		if t.upper[k] {
			r := &t.rows[k]
			for j := range r.n {
				rest[r.at[j]] -= float64(r.by[j] * r.price)
			}
		}
	}
	t.value = make([]float64, n)
	for r := range n {
		t.inverse[r] = m[r][n:]
		for i, v := range rest {
			t.value[r] += float64(t.inverse[r][i] * v)
		}
	}
}

package nest

import "math"

// program is a linear program: the x with the least cost of which every row
// holds, each |x| at most 1. A row that cannot hold gives way at a price per
// unit that it falls short.
type program struct {
	cost []float64
	rows []row
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

// short is by how much x fails the row; less than 0 where it has more to spare.
func (r *row) short(x []float64) float64 {
	sum := r.least
	for i := range r.n {
		sum -= float64(r.by[i] * x[r.at[i]])
	}
	return sum
}

// solve returns x; ok is false where the method was given up.
func (p *program) solve() (x []float64, ok bool) {
	t := p.tableau()
	most := simplexMost * t.n
	for n := range most {
		if n%simplexRenew == simplexRenew-1 {
			t.renew()
		}
		t.prices()
		k := t.entering(n > most/2)
		if k < 0 {
			return t.x, true
		}
		if !t.pivot(k) {
			return t.x, false
		}
	}
	return t.x, false
}

// tableau begins with the bounds of each x as the basis, which is feasible in
// the dual.
func (p *program) tableau() *tableau {
	t := &tableau{n: len(p.cost), cost: p.cost}
	for i, c := range p.cost {
		sign := 1.0
		if c < 0 {
			sign = -1
		}
		for _, s := range [2]float64{sign, -sign} {
			r := row{least: -1, price: math.Inf(1)}
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
	return t
}

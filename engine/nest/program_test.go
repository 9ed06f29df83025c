package nest

import (
	"math"
	"math/rand/v2"
	"testing"
)

func rowOf(least, price float64, by ...float64) row {
	r := row{least: least, price: price}
	for i, v := range by {
		r.add(i, v)
	}
	return r
}

func TestProgram_Solve(t *testing.T) {
	hard := math.Inf(1)
	for _, c := range []struct {
		name string
		p    program
		want []float64
	}{
		{"a corner", program{cost: []float64{1, 1}, rows: []row{rowOf(2, hard, 1, 3), rowOf(2, hard, 3, 1)}}, []float64{0.5, 0.5}},
		{"the reach", program{cost: []float64{1, -2}, rows: []row{rowOf(-100, hard, 1, 1)}}, []float64{-1, 1}},
		{"a row gives way", program{cost: []float64{5, 1}, rows: []row{rowOf(0.4, 2, 1, 0), rowOf(0.1, 9, 0, 1)}}, []float64{-1, 0.1}},
		{"a row is worth it", program{cost: []float64{5, 1}, rows: []row{rowOf(0.4, 8, 1, 0), rowOf(0.1, 9, 0, 1)}}, []float64{0.4, 0.1}},
	} {
		x, ok := c.p.solve()
		if !ok || math.Abs(x[0]-c.want[0])+math.Abs(x[1]-c.want[1]) > 1e-9 {
			t.Errorf("%s: %v, %v, want %v", c.name, x, ok, c.want)
		}
	}
}

// TestProgram_NoPointIsBetter compares with random points that hold every row.
func TestProgram_NoPointIsBetter(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 3))
	for n := range 40 {
		p := program{}
		for range 3 {
			p.cost = append(p.cost, draw.NormFloat64())
		}
		for range 12 {
			p.rows = append(p.rows, rowOf(-0.3*draw.Float64(), math.Inf(1), draw.NormFloat64(), draw.NormFloat64(), draw.NormFloat64()))
		}
		x, ok := p.solve()
		cost := func(x []float64) float64 { return p.cost[0]*x[0] + p.cost[1]*x[1] + p.cost[2]*x[2] }
		short := func(x []float64) float64 {
			most := 0.0
			for _, r := range p.rows {
				most = max(most, r.least-r.by[0]*x[0]-r.by[1]*x[1]-r.by[2]*x[2])
			}
			return most
		}
		if !ok || short(x) > 1e-9 {
			t.Fatalf("program %d: %v short by %g", n, ok, short(x))
		}
		for range 2000 {
			y := []float64{2*draw.Float64() - 1, 2*draw.Float64() - 1, 2*draw.Float64() - 1}
			if short(y) <= 0 && cost(y) < cost(x)-1e-9 {
				t.Fatalf("program %d: %v costs %g, %v %g", n, x, cost(x), y, cost(y))
			}
		}
	}
}

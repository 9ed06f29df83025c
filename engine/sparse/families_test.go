package sparse

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"fettle/fault"
	"pgregory.net/rapid"
)

// family is a kind of pattern: pairs of rows below n that meet.
type family struct {
	name  string
	pairs func(n int, r *rand.Rand) [][2]int
}

// families are patterns on which orders of elimination are known to stumble.
var families = []family{
	{"diagonal", func(int, *rand.Rand) [][2]int { return nil }},
	{"path", func(n int, _ *rand.Rand) (list [][2]int) {
		for i := range n - 1 {
			list = append(list, [2]int{i, i + 1})
		}
		return list
	}},
	{"ring", func(n int, _ *rand.Rand) (list [][2]int) {
		for i := range n {
			list = append(list, [2]int{i, (i + 1) % n})
		}
		return list
	}},
	{"star", func(n int, _ *rand.Rand) (list [][2]int) {
		for i := range n {
			list = append(list, [2]int{i, n / 2})
		}
		return list
	}},
	{"arrow of three", func(n int, _ *rand.Rand) (list [][2]int) {
		for i := range n {
			for k := range min(3, n) {
				list = append(list, [2]int{i, k})
			}
		}
		return list
	}},
	{"grid", func(n int, _ *rand.Rand) (list [][2]int) {
		side := max(1, int(math.Sqrt(float64(n))))
		for i := range n {
			if i%side > 0 {
				list = append(list, [2]int{i, i - 1})
			}
			if i >= side {
				list = append(list, [2]int{i, i - side})
			}
		}
		return list
	}},
	{"blocks", func(n int, _ *rand.Rand) (list [][2]int) {
		for i := range n {
			for k := i - i%5; k < i; k++ {
				list = append(list, [2]int{i, k})
			}
		}
		return list
	}},
	{"full", func(n int, _ *rand.Rand) (list [][2]int) {
		for i := range min(n, 40) {
			for k := range i {
				list = append(list, [2]int{i, k})
			}
		}
		return list
	}},
	{"two stars and a tree", func(n int, r *rand.Rand) (list [][2]int) {
		for i := 1; i < n; i++ {
			list = append(list, [2]int{i, r.IntN(i)})
			if i > 4 && i%2 == 0 {
				list = append(list, [2]int{i, i % 4})
			}
		}
		return list
	}},
	{"random", func(n int, r *rand.Rand) (list [][2]int) {
		for range 2 * n {
			list = append(list, [2]int{r.IntN(n), r.IntN(n)})
		}
		return list
	}},
}

// definite gives a pattern values that make it positive definite: the sum of
// squares of rows that are each over one pair, and of the diagonal. Rows are
// numbered at random, and their sizes differ as far as is asked, in powers of ten.
func definite(n int, pairs [][2]int, spread float64, r *rand.Rand) []Entry {
	name, size := r.Perm(n), make([]float64, n)
	var list []Entry
	for i := range n {
		size[i] = math.Pow(10, spread*(r.Float64()-0.5))
		list = append(list, Entry{int32(name[i]), int32(name[i]), size[i] * size[i]})
	}
	for _, p := range pairs {
		if i, k := p[0], p[1]; i != k {
			a, b := size[i]*r.NormFloat64(), size[k]*r.NormFloat64()
			list = append(list, Entry{int32(name[i]), int32(name[i]), a * a}, Entry{int32(name[k]), int32(name[k]), b * b}, Entry{int32(name[i]), int32(name[k]), a * b})
		}
	}
	return list
}

// TestFamilies solves every family at random sizes, rows of like and of very
// different size, to what rounding leaves; then other values in the same memory,
// several right sides at once, and once more after a refusal: each with the bits
// of a factor that is made anew.
func TestFamilies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fam := rapid.SampledFrom(families).Draw(t, "family")
		n := rapid.OneOf(rapid.IntRange(1, 6), rapid.IntRange(1, 90)).Draw(t, "rows")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		spread := rapid.SampledFrom([]float64{0, 0, 6, 40}).Draw(t, "spread")
		pairs := fam.pairs(n, r)
		m, err := Assemble(n, definite(n, pairs, spread, r))
		if err != nil {
			t.Fatal(err)
		}
		s, err := Analyse(m)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.Factor(m)
		if err != nil {
			t.Fatalf("%s of %d rows: %v", fam.name, n, err)
		}
		solved(t, f, m, r)
		negative := &Matrix{m.N, m.Start, m.Row, slices.Clone(m.Value)}
		negative.Value[m.Start[r.IntN(n)]] = -1
		if err := f.Refactor(negative); fault.KindOf(err) != fault.Invalid {
			t.Fatalf("a negative diagonal: %v", err)
		}
		other := &Matrix{m.N, m.Start, m.Row, slices.Clone(m.Value)}
		for i := range n { // more of the diagonal is as definite
			other.Value[m.Start[i]] *= 1 + r.Float64()
		}
		if err := f.Refactor(other); err != nil {
			t.Fatal(err)
		}
		fresh, err := s.Factor(other)
		if err != nil || !slices.Equal(fresh.panels, f.panels) {
			t.Fatalf("refactored, not the bits of a new factor: %v", err)
		}
		solved(t, f, other, r)
	})
}

// solved holds Solve to the residual that rounding allows, row by row, and
// SolveMany, Solve in place and Solve to each other's bits.
func solved(t *rapid.T, f *Factor, m *Matrix, r *rand.Rand) {
	t.Helper()
	b, x, y := make([][]float64, 3), make([][]float64, 3), make([]float64, m.N)
	for k := range b {
		b[k], x[k] = make([]float64, m.N), make([]float64, m.N)
		for i := range b[k] {
			b[k][i] = r.NormFloat64() * math.Sqrt(m.Value[m.Start[i]])
		}
	}
	f.SolveMany(x, b)
	for k := range b {
		m.Mul(y, x[k])
		most := 0.0 // of x, each in the size of its row
		for i := range y {
			most = max(most, math.Abs(x[k][i])*math.Sqrt(m.Value[m.Start[i]]))
		}
		for i := range y {
			if off := math.Abs(y[i] - b[k][i]); !(off <= 1e-13*float64(m.N+10)*math.Sqrt(m.Value[m.Start[i]])*max(most, 1)) {
				t.Fatalf("row %d: %g is left of %g, the solution is up to %g", i, off, b[k][i], most)
			}
		}
		f.Solve(y, b[k])
		f.Solve(b[k], b[k])
		if !slices.Equal(y, x[k]) || !slices.Equal(b[k], x[k]) {
			t.Fatal("alone, in place and together do not give the same bits")
		}
	}
}

// TestFactor_NearSingular closes in on a singular matrix from both sides: what is
// definite by more than rounding is solved and refined, what is not is refused.
func TestFactor_NearSingular(t *testing.T) {
	for _, side := range []int{2, 10, 30} {
		n := side * side
		for _, c := range []struct {
			shift float64
			good  bool
		}{{1, true}, {1e-6, true}, {1e-11, true}, {0, false}, {-1e-6, false}, {-1, false}} {
			var list []Entry
			for i := range n { // a grid that nothing but the shift holds
				list = append(list, Entry{int32(i), int32(i), c.shift})
				for _, k := range []int{i - 1, i - side} {
					if k >= 0 && (k == i-side || i%side > 0) {
						list = append(list, Entry{int32(i), int32(i), 1}, Entry{int32(k), int32(k), 1}, Entry{int32(i), int32(k), -1})
					}
				}
			}
			m, err := Assemble(n, list)
			if err != nil {
				t.Fatal(err)
			}
			s, err := Analyse(m)
			if err != nil {
				t.Fatal(err)
			}
			f, err := s.Factor(m)
			if c.good != (err == nil) || err != nil && fault.KindOf(err) != fault.Invalid {
				t.Errorf("%d rows shifted by %g: %v", n, c.shift, err)
			}
			if f == nil {
				continue
			}
			b, x := make([]float64, n), make([]float64, n) // differences of columns: the smooth part of x is 0
			b[0], b[n-1] = 1, -1
			f.Solve(x, b)
			f.Refine(m, x, b)
			if left := f.Refine(m, x, b); left > 1e-9 {
				t.Errorf("%d rows shifted by %g: %g is left", n, c.shift, left)
			}
		}
	}
}

// TestAnalyse_Memory holds the symbolic part to memory in proportion to the
// matrix and what its factor must have: a grid in a few hundred bytes a row, an
// arrow without a square of its rows.
func TestAnalyse_Memory(t *testing.T) {
	const n = 20_000
	for name, fill := range map[string]int{"path": 5, "star": 3, "arrow of three": 5, "grid": 40, "two stars and a tree": 8} {
		fam := families[slices.IndexFunc(families, func(f family) bool { return f.name == name })]
		r := rand.New(rand.NewPCG(5, 6))
		m, err := Assemble(n, definite(n, fam.pairs(n, r), 0, r))
		if err != nil {
			t.Fatal(err)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		s, err := Analyse(m)
		runtime.ReadMemStats(&after)
		if err != nil {
			t.Fatal(err)
		}
		places, _ := s.Fill()
		if got, most := after.TotalAlloc-before.TotalAlloc, uint64(2000*n+8*int(places)); got > most {
			t.Errorf("%s: %d bytes a row asked for, at most %d", name, got/n, most/n)
		}
		if int(places) > fill*n {
			t.Errorf("%s: %d places for %d rows, at most %d a row", name, places, n, fill)
		}
	}
}

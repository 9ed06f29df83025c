package sparse

import (
	"math"
	"math/rand/v2"
	"testing"
)

// sheet lists the triangles of an uneven net of side × side vertices in the
// plane, numbered at random, and where the vertices are.
func sheet(side int) (faces [][3]int32, at [][2]float64) {
	r := rand.New(rand.NewPCG(uint64(side), 7))
	name := r.Perm(side * side)
	at = make([][2]float64, side*side)
	for i := range side * side {
		at[name[i]] = [2]float64{float64(i%side) + 0.6*r.Float64(), float64(i/side) + 0.6*r.Float64()}
	}
	for y := range side - 1 {
		for x := range side - 1 {
			a, b := int32(name[y*side+x]), int32(name[y*side+x+1])
			c, d := int32(name[(y+1)*side+x]), int32(name[(y+1)*side+x+1])
			if r.IntN(2) == 0 {
				faces = append(faces, [3]int32{a, b, d}, [3]int32{a, d, c})
			} else {
				faces = append(faces, [3]int32{a, b, c}, [3]int32{b, d, c})
			}
		}
	}
	return faces, at
}

// laplacian is the stiffness of a net with a little on the diagonal, by the
// cotangents of its angles.
func laplacian(side int) []Entry {
	faces, at := sheet(side)
	list := make([]Entry, 0, 9*len(faces))
	for _, f := range faces {
		for k := range 3 {
			i, j, o := f[k], f[(k+1)%3], f[(k+2)%3]
			ux, uy := at[i][0]-at[o][0], at[i][1]-at[o][1]
			vx, vy := at[j][0]-at[o][0], at[j][1]-at[o][1]
			w := math.Max(1e-6, 0.5*(ux*vx+uy*vy)/math.Abs(ux*vy-uy*vx))
			list = append(list, Entry{i, j, -w}, Entry{i, i, w}, Entry{j, j, w})
		}
	}
	for i := range at {
		list = append(list, Entry{int32(i), int32(i), 1e-6})
	}
	return list
}

// coupled is a system of two unknowns a vertex, 2v and 2v+1, of which each
// meets all of the triangles about it.
func coupled(side int) []Entry {
	faces, at := sheet(side)
	r := rand.New(rand.NewPCG(3, 4))
	list := make([]Entry, 0, 27*len(faces))
	for _, f := range faces {
		var g [3][6]float64
		for k := range g {
			for c := range g[k] {
				g[k][c] = r.NormFloat64()
			}
		}
		name := func(c int) int32 { return 2*f[c/2] + int32(c%2) }
		for a := range 6 {
			for b := range a + 1 {
				sum := 0.0
				for k := range g {
					sum += g[k][a] * g[k][b]
				}
				list = append(list, Entry{name(a), name(b), sum})
			}
		}
	}
	for i := range 2 * len(at) {
		list = append(list, Entry{int32(i), int32(i), 1e-3})
	}
	return list
}

var systems = []struct {
	name    string
	entries func(side int) []Entry
	each    int
	side    int
}{
	{"laplacian,n=10k", laplacian, 1, 100}, {"laplacian,n=100k", laplacian, 1, 316},
	{"coupled,v=20k", coupled, 2, 141}, {"coupled,v=100k", coupled, 2, 316},
}

// left is the most that is left of b by what the factor makes of it, over the
// most in b.
func left(f *Factor, m *Matrix) float64 {
	b, x, y := make([]float64, m.N), make([]float64, m.N), make([]float64, m.N)
	r := rand.New(rand.NewPCG(5, 6))
	most := 0.0
	for i := range b {
		b[i] = r.NormFloat64()
		most = max(most, math.Abs(b[i]))
	}
	f.Solve(x, b)
	m.Mul(y, x)
	worst := 0.0
	for i := range b {
		worst = max(worst, math.Abs(b[i]-y[i]))
	}
	return worst / most
}

func BenchmarkAnalyse(b *testing.B) {
	for _, sys := range systems {
		b.Run(sys.name, func(b *testing.B) {
			m, err := Assemble(sys.each*sys.side*sys.side, sys.entries(sys.side))
			if err != nil {
				b.Fatal(err)
			}
			var s *Symbolic
			for b.Loop() {
				if s, err = Analyse(m); err != nil {
					b.Fatal(err)
				}
			}
			places, work := s.Fill()
			b.ReportMetric(float64(places)/1e6, "Mplaces")
			b.ReportMetric(work/1e9, "Gmuladd")
		})
	}
}

func BenchmarkRefactor(b *testing.B) {
	for _, sys := range systems {
		b.Run(sys.name, func(b *testing.B) {
			f, m := factored(b, sys.each*sys.side*sys.side, sys.entries(sys.side))
			b.ReportAllocs()
			for b.Loop() {
				if err := f.Refactor(m); err != nil {
					b.Fatal(err)
				}
			}
			_, work := f.Fill()
			b.ReportMetric(work/1e9*float64(b.N)/b.Elapsed().Seconds(), "Gmuladd/s")
			b.ReportMetric(-math.Log10(left(f, m)), "digits")
		})
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, sys := range systems {
		b.Run(sys.name, func(b *testing.B) {
			f, m := factored(b, sys.each*sys.side*sys.side, sys.entries(sys.side))
			x, y := make([]float64, m.N), make([]float64, m.N)
			x[0] = 1
			for b.Loop() {
				f.Solve(y, x)
			}
		})
	}
}

func factored(b testing.TB, n int, entries []Entry) (*Factor, *Matrix) {
	m, err := Assemble(n, entries)
	if err != nil {
		b.Fatal(err)
	}
	s, err := Analyse(m)
	if err != nil {
		b.Fatal(err)
	}
	f, err := s.Factor(m)
	if err != nil {
		b.Fatal(err)
	}
	return f, m
}

// BenchmarkWhole is from entries to a solution.
func BenchmarkWhole(b *testing.B) {
	for _, sys := range systems {
		b.Run(sys.name, func(b *testing.B) {
			entries := sys.entries(sys.side)
			for b.Loop() {
				f, m := factored(b, sys.each*sys.side*sys.side, entries)
				x := make([]float64, m.N)
				x[0] = 1
				f.Solve(x, x)
			}
		})
	}
}

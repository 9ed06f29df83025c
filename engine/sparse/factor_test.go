package sparse

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fettle/fault"
)

func TestFactor_Nets(t *testing.T) {
	for _, sys := range systems {
		const side = 40
		f, m := factored(t, sys.each*side*side, sys.entries(side))
		if got := left(f, m); got > 1e-9 {
			t.Errorf("%s: %g is left of the right side", sys.name, got)
		}
		for _, i := range f.perm[:5] { // a unit right side, and refined
			b, x := make([]float64, m.N), make([]float64, m.N)
			b[i] = 1
			f.Solve(x, b)
			first := f.Refine(m, x, b)
			if second := f.Refine(m, x, b); second > max(first, 1e-14*(1+largest(x))) {
				t.Errorf("%s: refining leaves %g of what was %g", sys.name, second, first)
			}
		}
	}
}

// TestRefactor_SameBits: a factor that was used before gives what a new one
// gives, without asking for memory, and several right sides give what each gives
// alone.
func TestRefactor_SameBits(t *testing.T) {
	entries := coupled(20)
	m, slots, err := AssembleSlots(2*20*20, entries)
	if err != nil {
		t.Fatal(err)
	}
	s, _ := Analyse(m)
	used, err := s.Factor(m)
	if err != nil {
		t.Fatal(err)
	}
	clear(m.Value)
	for k, e := range entries {
		m.Value[slots[k]] += e.Value
	}
	for k := range m.Value {
		m.Value[k] *= 3
	}
	if many := testing.AllocsPerRun(3, func() { err = used.Refactor(m) }); many > 0 || err != nil {
		t.Errorf("%g allocations, %v", many, err)
	}
	fresh, err := s.Factor(m)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 1))
	b, x := make([][]float64, 3), make([][]float64, 3)
	for i := range b {
		b[i], x[i] = make([]float64, m.N), make([]float64, m.N)
		for k := range b[i] {
			b[i][k] = r.NormFloat64()
		}
	}
	used.SolveMany(x, b)
	for i := range b {
		fresh.Solve(b[i], b[i])
		if !slices.Equal(b[i], x[i]) {
			t.Errorf("right side %d: not the same bits", i)
		}
	}
}

func TestFactor_NotPositiveDefinite(t *testing.T) {
	entries := laplacian(12)
	for i := range entries {
		if e := &entries[i]; e.Row == e.Col && e.Value == 1e-6 {
			e.Value = 0 // nothing holds the net: a constant costs nothing
		}
	}
	wrong := func(name string, entries []Entry, says string) {
		t.Helper()
		m, err := Assemble(144, entries)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Analyse(m)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.Factor(m)
		if f != nil || fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	wrong("singular", entries, "the pivot is")
	wrong("indefinite", append(laplacian(12), Entry{77, 77, -100}), "row ")
	wrong("negative", append(laplacian(12), Entry{3, 3, -1e9}), "row 3: the pivot is -9.9")

	f, m := factored(t, 144, laplacian(12))
	m.Value[40] = math.NaN()
	if err := f.Refactor(m); err == nil {
		t.Error("a value that is no number was factored")
	}
	other, _ := Assemble(144, coupled(12)[:0:0])
	if other != nil {
		t.Error("a matrix without a diagonal was made")
	}
	smaller, _ := Assemble(100, laplacian(10))
	if err := f.Refactor(smaller); fault.KindOf(err) != fault.Invalid {
		t.Errorf("another pattern: %v", err)
	}
}

func TestAssemble_Refuses(t *testing.T) {
	unit := []Entry{{0, 0, 1}, {1, 1, 1}, {2, 2, 1}}
	for _, c := range []struct {
		entries []Entry
		says    string
	}{
		{append(unit[:3:3], Entry{3, 0, 1}), "entry 3: row 3, column 0: the matrix has 3 rows"},
		{append(unit[:3:3], Entry{-1, 0, 1}), "entry 3"},
		{append(unit[:3:3], Entry{1, 0, math.NaN()}), "entry 3: row 1, column 0: NaN is no finite number"},
		{append(unit[:3:3], Entry{1, 0, math.Inf(1)}), "no finite number"},
		{unit[1:], "row 0: no entry on the diagonal"},
		{unit[:2], "row 2: no entry on the diagonal"},
		{[]Entry{unit[0], unit[2], {2, 1, 1}}, "row 1: no entry on the diagonal"},
	} {
		if _, err := Assemble(3, c.entries); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v, want %q", c.entries, err, c.says)
		}
	}
	for _, m := range []*Matrix{
		{N: 1}, {N: 2, Start: []int32{0, 1, 2}, Row: []int32{0, 0}, Value: []float64{1, 1}},
		{N: 2, Start: []int32{0, 3, 2}, Row: []int32{0, 1}, Value: []float64{1, 1}},
		{N: 2, Start: []int32{0, 2, 3}, Row: []int32{0, 5, 1}, Value: []float64{1, 1, 1}},
	} {
		if _, err := Analyse(m); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%v: %v", m, err)
		}
	}
}

// FuzzFactor feeds bytes as entries: what is taken must be solved as the dense
// factor solves it, or refused as the dense factor refuses it.
func FuzzFactor(f *testing.F) {
	f.Add(uint8(3), []byte{0, 0, 9, 1, 1, 9, 2, 2, 9, 1, 0, 1})
	f.Add(uint8(9), []byte{1, 2, 3, 4, 5, 6, 7, 8})
	f.Add(uint8(0), []byte{})
	f.Fuzz(func(t *testing.T, size uint8, data []byte) {
		n := int(size % 48)
		var list []Entry
		for i := range n {
			list = append(list, Entry{int32(i), int32(i), 8})
		}
		for ; len(data) >= 3; data = data[3:] {
			list = append(list, Entry{int32(data[0]) - 1, int32(data[1]) - 1, float64(int8(data[2])) / 16})
		}
		m, err := Assemble(n, list)
		if err != nil {
			return
		}
		s, err := Analyse(m)
		if err != nil {
			t.Fatal(err)
		}
		b, x, y := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range b {
			b[i] = float64(i%7) - 3
		}
		_, share := dense(m, b)
		factor, err := s.Factor(m)
		if err != nil {
			if share > 1e-9 {
				t.Fatalf("refused: %v", err)
			}
			return
		}
		factor.Solve(x, b)
		m.Mul(y, x)
		for i := range y {
			if math.Abs(y[i]-b[i]) > 1e-7*(1+largest(x)) {
				t.Fatalf("row %d: %g is left", i, y[i]-b[i])
			}
		}
	})
}

func largest(x []float64) float64 {
	most := 0.0
	for _, v := range x {
		most = max(most, math.Abs(v))
	}
	return most
}

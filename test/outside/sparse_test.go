package outside

import (
	"encoding/json"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fettle/engine/sparse"
)

// scipy finds a Python that has SciPy, or skips.
func scipy(t *testing.T) string {
	t.Helper()
	for _, dir := range filepath.SplitList(os.Getenv("PATH")) {
		path := filepath.Join(dir, "python3")
		if exec.Command(path, "-c", "import scipy.sparse.linalg").Run() == nil {
			return path
		}
	}
	t.Skip("no Python with SciPy is here (Debian: python3-scipy)")
	return ""
}

// script solves A x = b, A by its lower triangle, with a sparse LU that pivots.
const script = `
import json, sys
import numpy as np
from scipy.sparse import coo_matrix, diags
from scipy.sparse.linalg import splu
m = json.load(sys.stdin)
low = coo_matrix((m["v"], (m["i"], m["j"])), shape=(m["n"], m["n"])).tocsc()
a = (low + low.T - diags(low.diagonal())).tocsc()
b = np.array(m["b"])
lu = splu(a)
x = lu.solve(b)
x += lu.solve(b - a @ x)
json.dump({"x": x.tolist()}, sys.stdout)
`

type system struct {
	N int       `json:"n"`
	I []int32   `json:"i"`
	J []int32   `json:"j"`
	V []float64 `json:"v"`
	B []float64 `json:"b"`
}

func (s *system) add(i, j int, v float64) {
	s.I, s.J, s.V = append(s.I, int32(i)), append(s.J, int32(j)), append(s.V, v)
}

// springs joins pairs of points, each with one unknown or several, and holds
// every unknown by floor.
func springs(pairs [][2]int, n, each int, floor float64, r *rand.Rand) *system {
	s := &system{N: each * n}
	for i := range s.N {
		s.add(i, i, floor)
		s.B = append(s.B, r.NormFloat64())
	}
	for _, p := range pairs {
		way := make([]float64, each)
		for k := range way {
			way[k] = r.NormFloat64()
		}
		for k := range each {
			for l := range each {
				v := way[k] * way[l]
				if k >= l {
					s.add(each*p[0]+k, each*p[0]+l, v)
					s.add(each*p[1]+k, each*p[1]+l, v)
				}
				s.add(max(each*p[0]+k, each*p[1]+l), min(each*p[0]+k, each*p[1]+l), -v)
			}
		}
	}
	return s
}

// TestSparse_SciPy holds solutions to those of SciPy's sparse LU, another method
// in another language: nets, trees and the edges of given surfaces, one to three
// unknowns a point, well held and hardly held.
func TestSparse_SciPy(t *testing.T) {
	python := scipy(t)
	r := rand.New(rand.NewPCG(41, 42))
	nets, size := map[string][][2]int{}, map[string]int{"random": 700, "tree": 900}
	for range 2000 {
		if i, j := r.IntN(700), r.IntN(700); i != j {
			nets["random"] = append(nets["random"], [2]int{i, j})
		}
	}
	for i := 1; i < 900; i++ {
		nets["tree"] = append(nets["tree"], [2]int{r.IntN(i), i})
	}
	for _, name := range []string{"analytic/seat_cushion", "public/od-torus"} {
		path := filepath.Join(given, name+".obj")
		if _, err := os.Stat(path); err != nil {
			continue
		}
		s := readSurface(t, path)
		nets[name], size[name] = edgesOf(s), len(s.points)
	}
	for _, name := range slices.Sorted(maps.Keys(nets)) {
		for each := 1; each <= 3; each++ {
			for _, floor := range []float64{1, 1e-7} {
				s := springs(nets[name], size[name], each, floor, r)
				worst := against(t, python, s)
				t.Logf("%s, %d a point, held by %g: solutions differ by %.2g of the largest", name, each, floor, worst)
				if !(worst <= 3e-14/floor) {
					t.Errorf("%s, %d a point, held by %g: solutions differ by %g of the largest", name, each, floor, worst)
				}
			}
		}
	}
}

// edgesOf lists the pairs of points that share a side, each once.
func edgesOf(s surface) (list [][2]int) {
	seen := map[[2]int]bool{}
	for _, f := range s.faces {
		for k := range 3 {
			a, b := int(f[k]), int(f[(k+1)%3])
			if e := [2]int{min(a, b), max(a, b)}; !seen[e] {
				seen[e] = true
				list = append(list, e)
			}
		}
	}
	return list
}

// against solves a system both ways and returns how far the solutions differ.
func against(t *testing.T, python string, s *system) float64 {
	t.Helper()
	var list []sparse.Entry
	for k, v := range s.V {
		list = append(list, sparse.Entry{Row: s.I[k], Col: s.J[k], Value: v})
	}
	m, err := sparse.Assemble(s.N, list)
	if err != nil {
		t.Fatal(err)
	}
	sym, err := sparse.Analyse(m)
	if err != nil {
		t.Fatal(err)
	}
	f, err := sym.Factor(m)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, s.N)
	f.Solve(x, s.B)
	f.Refine(m, x, s.B)
	text, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-c", script)
	cmd.Stdin = strings.NewReader(string(text))
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var theirs struct{ X []float64 }
	if err := json.Unmarshal(out, &theirs); err != nil || len(theirs.X) != s.N {
		t.Fatal(err, len(theirs.X))
	}
	off, largest := 0.0, 0.0
	for i := range x {
		off, largest = math.Max(off, math.Abs(x[i]-theirs.X[i])), math.Max(largest, math.Abs(x[i]))
	}
	return off / largest
}

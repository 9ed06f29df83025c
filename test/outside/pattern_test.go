package outside

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fettle/internal/cli"
)

// given is the folder of surfaces whose shape is known.
const given = "../../../shared/data/mesh"

// laid is what the command prints of a pattern, as far as it is measured here.
type laid struct {
	Verified  bool
	Flips     int
	Overlaps  int
	Dirichlet float64 `json:"symmetric_dirichlet"`
	Quasi     float64 `json:"quasi_conformal"`
	AreaRMS   float64 `json:"area_log_rms"`
	Stretch   struct {
		P1, P99 float64
		Most    float64 `json:"max"`
	} `json:"mounting_stretch"`
	Area     float64
	FlatArea float64 `json:"flat_area"`
	Cuts     [][]int32
	Outline  [][][2]float64
	Flat     struct {
		Vertices [][2]float64
		Faces    [][3]int32
		Source   []int32
	}
}

// surface is a file as it stands: points and triangles, read with nothing of
// ours.
type surface struct {
	points [][3]float64
	faces  [][3]int32
}

func readSurface(t *testing.T, path string) (s surface) {
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		w := strings.Fields(line)
		switch {
		case len(w) == 0:
		case w[0] == "v":
			var p [3]float64
			for k := range p {
				if p[k], err = strconv.ParseFloat(w[k+1], 64); err != nil {
					t.Fatal(path, line)
				}
			}
			s.points = append(s.points, p)
		case w[0] == "f":
			var f [3]int32
			for k := range f {
				name, _, _ := strings.Cut(w[k+1], "/")
				v, err := strconv.Atoi(name)
				if err != nil || len(w) != 4 {
					t.Fatal(path, line)
				}
				f[k] = int32(v - 1)
			}
			s.faces = append(s.faces, f)
		}
	}
	return s
}

// TestFlatten_Measured lays every given surface flat by the command line and
// measures what is printed anew, from the file and the pattern alone: every face
// is there once and not turned over, the figures are those of the printed places,
// the rim of the pattern nowhere crosses itself, and it lies open only where the
// surface does or a cut is told.
func TestFlatten_Measured(t *testing.T) {
	files, _ := filepath.Glob(given + "/*/*.obj")
	if len(files) == 0 {
		t.Skip("no given surfaces beside the checkout")
	}
	others := readOthers(t)
	for _, path := range files {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".obj"), func(t *testing.T) {
			var out, says bytes.Buffer
			if code := cli.Main([]string{"solve", "flatten", path, "--unit", "mm", "--json"}, strings.NewReader(""), &out, &says); code != 0 {
				t.Fatalf("exit code %d: %s", code, says.String())
			}
			var got laid
			if err := json.Unmarshal(out.Bytes(), &got); err != nil {
				t.Fatal(err)
			}
			s := readSurface(t, path)
			checkFaces(t, s, got)
			checkRim(t, s, got)
			m := measured(s, got)
			near := func(what string, got, want, within float64) {
				if !(math.Abs(got-want) <= within*math.Max(1, math.Abs(want))) {
					t.Errorf("%s is printed as %.9g, measured %.9g", what, got, want)
				}
			}
			near("area", got.Area, m.area, 1e-9)
			near("area of the pattern", got.FlatArea, m.flatArea, 1e-9)
			near("symmetric Dirichlet", got.Dirichlet, m.dirichlet, 1e-7)
			near("ratio of stretches", got.Quasi, m.quasi, 1e-7)
			near("logarithm of area", got.AreaRMS, m.areaRMS, 1e-6)
			near("stretch of 1 %", got.Stretch.P1, m.low, 1e-5)
			near("stretch of 99 %", got.Stretch.P99, m.high, 1e-5)
			near("most stretch", math.Abs(got.Stretch.Most), m.most, 1e-6)
			if m.flips > 0 || got.Flips > 0 || got.Overlaps > 0 || !got.Verified {
				t.Errorf("%d faces turned over, %d are told; %d overlaps told, verified %v", m.flips, got.Flips, got.Overlaps, got.Verified)
			}
			if least, known := others[t.Name()[strings.Index(t.Name(), "/")+1:]]; known && m.dirichlet > least*(1+1e-5) {
				t.Errorf("symmetric Dirichlet %.6f, others come to %.6f", m.dirichlet, least)
			}
		})
	}
}

// checkFaces holds that the pattern has the faces of the file, each once, by the
// points they came from.
func checkFaces(t *testing.T, s surface, got laid) {
	t.Helper()
	count := map[[3]int32]int{}
	for _, f := range s.faces {
		count[turned(f)]++
	}
	for _, f := range got.Flat.Faces {
		count[turned([3]int32{got.Flat.Source[f[0]], got.Flat.Source[f[1]], got.Flat.Source[f[2]]})]--
	}
	for f, n := range count {
		if n != 0 {
			t.Fatalf("face %v of the file comes %d times too seldom", f, n)
		}
	}
}

// turned begins a face with its least corner; which way round it runs stays.
func turned(f [3]int32) [3]int32 {
	for f[0] > f[1] || f[0] > f[2] {
		f[0], f[1], f[2] = f[1], f[2], f[0]
	}
	return f
}

// figures are what a pattern costs.
type figures struct {
	area, flatArea, dirichlet, quasi, areaRMS float64
	low, high, most                           float64
	flips                                     int
}

// measured works the figures out from the squares of the sides alone: with G the
// products of two sides on the surface and H on the pattern, G⁻¹H has the squares
// of the stretches as eigenvalues.
func measured(s surface, got laid) (m figures) {
	type part struct{ stretch, area float64 }
	var greater, lesser []part
	for _, f := range got.Flat.Faces {
		var u, w [3]float64 // sides on the surface
		var p, q [2]float64 // the same on the pattern
		for k := range 3 {
			o := s.points[got.Flat.Source[f[0]]][k]
			u[k], w[k] = s.points[got.Flat.Source[f[1]]][k]-o, s.points[got.Flat.Source[f[2]]][k]-o
		}
		for k := range 2 {
			o := got.Flat.Vertices[f[0]][k]
			p[k], q[k] = got.Flat.Vertices[f[1]][k]-o, got.Flat.Vertices[f[2]][k]-o
		}
		dot := func(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
		uu, uw, ww := dot(u, u), dot(u, w), dot(w, w)
		det := uu*ww - uw*uw
		pp, pq, qq := p[0]*p[0]+p[1]*p[1], p[0]*q[0]+p[1]*q[1], q[0]*q[0]+q[1]*q[1]
		flat := p[0]*q[1] - p[1]*q[0]
		area := math.Sqrt(det) / 2
		trace, product := (ww*pp-2*uw*pq+uu*qq)/det, flat*flat/det // s1² + s2², s1² s2²
		root := math.Sqrt(math.Max(0, trace*trace/4-product))
		big := trace/2 + root
		small := product / big
		if flat <= 0 {
			m.flips++
		}
		m.area += area
		m.flatArea += flat / 2
		m.dirichlet += area * (trace + trace/product)
		m.quasi += area * math.Sqrt(big/small)
		m.areaRMS += area * math.Pow(math.Log(product)/2, 2)
		greater, lesser = append(greater, part{1/math.Sqrt(small) - 1, area}), append(lesser, part{1/math.Sqrt(big) - 1, area})
		m.most = math.Max(m.most, math.Max(math.Abs(1/math.Sqrt(small)-1), math.Abs(1/math.Sqrt(big)-1)))
	}
	m.dirichlet, m.quasi, m.areaRMS = m.dirichlet/m.area, m.quasi/m.area, math.Sqrt(m.areaRMS/m.area)
	at := func(list []part, share float64) float64 {
		slices.SortFunc(list, func(a, b part) int {
			if a.stretch < b.stretch {
				return -1
			}
			return 1
		})
		sum := 0.0
		for _, p := range list {
			if sum += p.area; sum >= share*m.area {
				return p.stretch
			}
		}
		return list[len(list)-1].stretch
	}
	m.high, m.low = at(greater, 0.99), at(lesser, 0.01)
	return m
}

// checkRim finds the sides of faces that no other face has, on the pattern and
// in the file: those that only the pattern has must lie along told cuts, no two
// of them may cross, and the printed outline must enclose the pattern's area.
func checkRim(t *testing.T, s surface, got laid) {
	t.Helper()
	edges := func(faces [][3]int32) map[[2]int32]bool {
		open := map[[2]int32]bool{}
		for _, f := range faces {
			for k := range 3 {
				a, b := f[k], f[(k+1)%3]
				if open[[2]int32{b, a}] {
					delete(open, [2]int32{b, a})
				} else {
					open[[2]int32{a, b}] = true
				}
			}
		}
		return open
	}
	was, cut := edges(s.faces), map[[2]int32]bool{}
	for _, c := range got.Cuts {
		for i := range len(c) - 1 {
			cut[[2]int32{c[i], c[i+1]}], cut[[2]int32{c[i+1], c[i]}] = true, true
		}
	}
	type side struct{ a, b [2]float64 }
	var rim []side
	for e := range edges(got.Flat.Faces) {
		from := [2]int32{got.Flat.Source[e[0]], got.Flat.Source[e[1]]}
		if !was[from] && !cut[from] {
			t.Fatalf("the pattern is open from vertex %d to %d, where no cut is told", from[0], from[1])
		}
		rim = append(rim, side{got.Flat.Vertices[e[0]], got.Flat.Vertices[e[1]]})
	}
	slices.SortFunc(rim, func(p, q side) int {
		if math.Min(p.a[0], p.b[0]) < math.Min(q.a[0], q.b[0]) {
			return -1
		}
		return 1
	})
	size := math.Sqrt(got.FlatArea)
	off := func(s side, p [2]float64) float64 { // of p from the line of s, in size
		x, y := s.b[0]-s.a[0], s.b[1]-s.a[1]
		return (x*(p[1]-s.a[1]) - y*(p[0]-s.a[0])) / math.Hypot(x, y) / size
	}
	const touch = 1e-10
	crossings := 0
	for i, p := range rim {
		right := math.Max(p.a[0], p.b[0])
		for _, q := range rim[i+1:] {
			if math.Min(q.a[0], q.b[0]) > right {
				break
			}
			a, b, c, d := off(p, q.a), off(p, q.b), off(q, p.a), off(q, p.b)
			if a*b < 0 && c*d < 0 && math.Min(math.Abs(a), math.Abs(b)) > touch && math.Min(math.Abs(c), math.Abs(d)) > touch {
				crossings++
			}
		}
	}
	if crossings > 0 {
		t.Errorf("the rim crosses itself %d times", crossings)
	}
	within := 0.0
	for _, ring := range got.Outline {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			within += (p[0]*q[1] - p[1]*q[0]) / 2
		}
	}
	if math.Abs(within-got.FlatArea) > 1e-9*got.FlatArea {
		t.Errorf("the outline encloses %.9g, the faces cover %.9g", within, got.FlatArea)
	}
}

// readOthers returns by mesh the least symmetric Dirichlet that others come to
// without turning a face over.
func readOthers(t *testing.T) map[string]float64 {
	data, err := os.ReadFile(given + "/peer_results.tsv")
	if err != nil {
		t.Fatal(err)
	}
	least := map[string]float64{}
	for line := range strings.Lines(string(data)) {
		w := strings.Split(strings.TrimSpace(line), "\t")
		if len(w) < 8 || w[6] != "0" {
			continue
		}
		if v, err := strconv.ParseFloat(w[7], 64); err == nil && (least[w[0]] == 0 || v < least[w[0]]) {
			least[w[0]] = v
		}
	}
	return least
}

package mesh_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"fettle/geom/mesh"
	"pgregory.net/rapid"
)

// shapes are surfaces of every kind that a cut can meet, their points apart.
var shapes = []struct {
	name string
	make func(n, m int) mesh.Mesh
}{
	{"sheet", func(n, m int) mesh.Mesh { return sheet(n, m) }},
	{"tube", func(n, _ int) mesh.Mesh { return tube(n + 2) }},
	{"torus", func(n, m int) mesh.Mesh { return torus(n+2, m+2, 3, 1) }},
	{"box", func(int, int) mesh.Mesh { return box(mesh.Vec{}) }},
	{"two boxes", func(int, int) mesh.Mesh { return both(box(mesh.Vec{}), box(mesh.Vec{X: 3})) }},
	{"sheet and torus", func(n, m int) mesh.Mesh {
		far := sheet(m, n)
		for i := range far.Points {
			far.Points[i].Z = 9
		}
		return both(torus(n+2, m+2, 3, 1), far)
	}},
	{"band of one side", func(n, _ int) mesh.Mesh {
		got, _, _ := moebius(n + 5).Repair(mesh.RepairOptions{})
		for v, p := range got.Points { // its cut sides apart, so that a weld finds none
			got.Points[v] = p.Add(mesh.Vec{Z: 1e-3 * float64(v)})
		}
		return got
	}},
}

// drawn picks a surface and shakes its points.
func drawn(t *rapid.T) mesh.Mesh {
	s := rapid.SampledFrom(shapes).Draw(t, "shape")
	m := s.make(rapid.IntRange(1, 6).Draw(t, "n"), rapid.IntRange(1, 6).Draw(t, "m"))
	shake := rapid.Float64Range(0, 0.2).Draw(t, "shake")
	for i, p := range m.Points {
		x := float64(i)
		m.Points[i] = p.Add(mesh.Vec{X: shake * math.Sin(7*x), Y: shake * math.Cos(5*x), Z: shake * math.Sin(3*x+1)})
	}
	return m
}

// walks go along edges from anywhere, over themselves where it comes so.
func walks(t *rapid.T, m mesh.Mesh) [][]int32 {
	a := m.Adjacency()
	paths := make([][]int32, rapid.IntRange(0, 4).Draw(t, "paths"))
	for i := range paths {
		h := int32(rapid.IntRange(0, len(a.Tail)-1).Draw(t, "from"))
		paths[i] = []int32{a.Tail[h], a.Head(h)}
		for range rapid.IntRange(0, 12).Draw(t, "steps") {
			out := a.Leaving(a.Head(h))
			if len(out) == 0 {
				break
			}
			h = out[rapid.IntRange(0, len(out)-1).Draw(t, "way")]
			paths[i] = append(paths[i], a.Head(h))
		}
	}
	return paths
}

// opened counts the edges that paths open: those between two faces, each once,
// but for one that touches neither the rim nor another, which has no ends to part.
func opened(m mesh.Mesh, paths [][]int32) (count int) {
	a, seen := m.Adjacency(), map[[2]int32]bool{}
	ends := make([]int, len(m.Points))
	for _, p := range paths {
		for i := range len(p) - 1 {
			u, v := min(p[i], p[i+1]), max(p[i], p[i+1])
			if h := max(a.Find(u, v), a.Find(v, u)); a.Twin[h] != mesh.None && !seen[[2]int32{u, v}] {
				seen[[2]int32{u, v}] = true
				ends[u]++
				ends[v]++
			}
		}
	}
	rim := a.OnBoundary()
	for e := range seen {
		if ends[e[0]] > 1 || ends[e[1]] > 1 || rim[e[0]] || rim[e[1]] {
			count++
		}
	}
	return count
}

func open(a mesh.Adjacency) (count int) {
	for _, t := range a.Twin {
		if t == mesh.None {
			count++
		}
	}
	return count
}

// TestCut_Invariants: whatever is cut, every edge of it becomes two and no face
// moves; what is left is made of surfaces, whose numbers agree with the shape;
// the angles agree with Euler's number; and welding gives the mesh back.
func TestCut_Invariants(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		paths := walks(t, m)
		got, source, err := m.Cut(paths)
		if err != nil {
			t.Fatal(err)
		}
		was, a, cut := m.Adjacency(), got.Adjacency(), opened(m, paths)
		if a.Edges() != was.Edges()+cut || open(a) != open(was)+2*cut {
			t.Fatalf("%d edges, %d open; there were %d, %d, and %d were cut", a.Edges(), open(a), was.Edges(), open(was), cut)
		}
		if chi := was.Euler() + len(got.Points) - len(m.Points) - cut; a.Euler() != chi {
			t.Fatalf("Euler's number is %d, the counts say %d", a.Euler(), chi)
		}
		if !slices.Equal(got.FaceAreas(), m.FaceAreas()) {
			t.Fatal("a face has another area")
		}
		checkParts(t, got)
		for v, s := range source {
			if got.Points[v] != m.Points[s] {
				t.Fatalf("vertex %d is not where its source %d is", v, s)
			}
		}
		back, renamed := got.Weld(0)
		if !slices.Equal(back.Points, m.Points) || !slices.Equal(back.Faces, m.Faces) || !slices.Equal(renamed, source) {
			t.Fatal("welded, it is not the mesh that was cut")
		}
	})
}

// checkParts holds that every part is a surface: its Euler number is two, less
// two a handle, less one a loop of its rim, and the angles say the same.
func checkParts(t *rapid.T, m mesh.Mesh) {
	chi, faces := 0, 0
	for _, p := range m.Parts() {
		if p.Handles() < 0 || p.Euler != 2-2*p.Handles()-p.Loops {
			t.Fatalf("a part of Euler number %d, %d loops and %d handles", p.Euler, p.Loops, p.Handles())
		}
		chi, faces = chi+p.Euler, faces+len(p.Faces)
	}
	if faces != len(m.Faces) || chi != m.Euler() {
		t.Fatalf("parts have %d of %d faces, Euler numbers %d of %d", faces, len(m.Faces), chi, m.Euler())
	}
	sum := 0.0
	for _, d := range defects(m) {
		sum += d
	}
	if math.Abs(sum-2*math.Pi*float64(chi)) > 1e-9*float64(1+len(m.Points)) {
		t.Fatalf("angles lack %g, Euler's number %d says %g", sum, chi, 2*math.Pi*float64(chi))
	}
}

// TestOrient_Invariants: of faces turned over at random the fewer are turned
// back, twice does nothing more, and no face moves.
func TestOrient_Invariants(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		mixed := mesh.Mesh{Points: m.Points, Faces: slices.Clone(m.Faces)}
		for f := range mixed.Faces {
			if rapid.Bool().Draw(t, fmt.Sprint("turn ", f)) {
				mixed.Faces[f] = mixed.Faces[f].Flip()
			}
		}
		got, did := mixed.Orient()
		a := got.Adjacency()
		if len(a.Tangled) > 0 || len(did.OneSided) > 0 {
			t.Fatalf("%d half-edges run against each other, %d of one side", len(a.Tangled), len(did.OneSided))
		}
		if a.Edges() != m.Adjacency().Edges() || math.Abs(got.Area()-m.Area()) > 1e-12*m.Area() {
			t.Fatal("edges or area changed")
		}
		for _, p := range got.Parts() {
			turned := 0
			for _, f := range p.Faces {
				if _, in := slices.BinarySearch(did.Faces, f); in {
					turned++
				}
			}
			if 2*turned > len(p.Faces) {
				t.Fatalf("%d of %d faces turned to agree with fewer", turned, len(p.Faces))
			}
			part, _ := got.Only(p.Faces)
			if p.Loops == 0 && part.Volume() <= 0 {
				t.Fatalf("a closed part holds %g", part.Volume())
			}
		}
		if again, did := got.Orient(); len(did.Faces) > 0 || did.InsideOut > 0 || !slices.Equal(again.Faces, got.Faces) {
			t.Fatalf("turned once more: %+v", did)
		}
	})
}

// TestWeld_Invariants: no point moves further than it may, those that stay are
// further apart than that, and each goes to the nearest that stood before it.
func TestWeld_Invariants(t *testing.T) {
	place := rapid.Custom(func(t *rapid.T) mesh.Vec {
		x := rapid.OneOf(rapid.Float64Range(-2, 2), rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 1, 1e9, -1e9, 1e-300, 5e-324}))
		return mesh.Vec{X: x.Draw(t, "x"), Y: x.Draw(t, "y"), Z: x.Draw(t, "z")}
	})
	rapid.Check(t, func(t *rapid.T) {
		m := mesh.Mesh{Points: rapid.SliceOfN(place, 0, 40).Draw(t, "points")}
		within := rapid.OneOf(rapid.Just(0.), rapid.Float64Range(1e-9, 3), rapid.Just(1e-9), rapid.Just(1e6)).Draw(t, "within")
		got, renamed := m.Weld(within)
		kept := []mesh.Vec{}
		for v, p := range m.Points {
			best, least := -1, within
			for i, q := range kept {
				if d := q.Sub(p).Length(); (d < least || d == least && best < 0) && (within > 0 || p == q) {
					best, least = i, d
				}
			}
			if best < 0 {
				best, kept = len(kept), append(kept, p)
			}
			if int(renamed[v]) != best {
				t.Fatalf("point %d %v went to %d, the nearest before it is %d", v, p, renamed[v], best)
			}
		}
		if !slices.Equal(got.Points, kept) {
			t.Fatalf("%d points stay, should be %d", len(got.Points), len(kept))
		}
	})
}

// TestRepair_Invariants: a surface taken apart, its faces turned over, said
// twice and mixed with faces that are none, is put together again.
func TestRepair_Invariants(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		wild := soup(m)
		for f := range wild.Faces {
			switch rapid.IntRange(0, 9).Draw(t, fmt.Sprint("wild ", f)) {
			case 0:
				wild.Faces = append(wild.Faces, wild.Faces[f])
			case 1:
				wild.Faces = append(wild.Faces, mesh.Face{wild.Faces[f][0], wild.Faces[f][1], wild.Faces[f][0]})
			case 2:
				wild.Points = append(wild.Points, mesh.Vec{X: 100 + float64(f)})
			case 3:
				wild.Faces[f] = wild.Faces[f].Flip()
			}
		}
		got, source, _ := wild.Repair(mesh.RepairOptions{Weld: true})
		if len(got.Points) != len(m.Points) || len(got.Faces) != len(m.Faces) || got.Euler() != m.Euler() || open(got.Adjacency()) != open(m.Adjacency()) {
			t.Fatalf("%d points, %d faces, Euler %d; want %d, %d, %d", len(got.Points), len(got.Faces), got.Euler(), len(m.Points), len(m.Faces), m.Euler())
		}
		if math.Abs(got.Area()-m.Area()) > 1e-12*m.Area() {
			t.Fatalf("an area of %g, was %g", got.Area(), m.Area())
		}
		for v, s := range source {
			if got.Points[v] != wild.Points[s] {
				t.Fatalf("point %d is not at its source", v)
			}
		}
		checkParts(t, got)
	})
}

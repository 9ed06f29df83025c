package flatten

import (
	"math"
	"slices"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

// rolled joins a grid of m by n cells at u = 1 and, where ring says so, at
// v = 1 too.
func rolled(m, n int, ring bool, shape func(u, v float64) mesh.Vec) mesh.Mesh {
	rows := n + 1
	if ring {
		rows = n
	}
	var out mesh.Mesh
	for i := range m {
		for j := range rows {
			out.Points = append(out.Points, shape(float64(i)/float64(m), float64(j)/float64(n)))
		}
	}
	at := func(i, j int) int32 { return int32(i%m*rows + j%rows) }
	for i := range m {
		for j := range n {
			a, b, c, d := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			out.Faces = append(out.Faces, mesh.Face{a, b, c}, mesh.Face{a, c, d})
		}
	}
	return out
}

func pipe(m, n int, radius, long float64) mesh.Mesh {
	return rolled(m, n, false, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * u)
		return mesh.Vec{X: radius * c, Y: radius * s, Z: long * v}
	})
}

func ring(m, n int, big, small float64) mesh.Mesh {
	return rolled(m, n, true, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * u)
		b, a := math.Sincos(2 * math.Pi * v)
		return mesh.Vec{X: (big + small*a) * c, Y: (big + small*a) * s, Z: small * b}
	})
}

// box is a closed cube of two triangles a side.
func box() mesh.Mesh {
	return mesh.Mesh{
		Points: []mesh.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}, {Z: 1}, {X: 1, Z: 1}, {X: 1, Y: 1, Z: 1}, {Y: 1, Z: 1}},
		Faces: []mesh.Face{{0, 2, 1}, {0, 3, 2}, {4, 5, 6}, {4, 6, 7}, {0, 1, 5}, {0, 5, 4},
			{1, 2, 6}, {1, 6, 5}, {2, 3, 7}, {2, 7, 6}, {3, 0, 4}, {3, 4, 7}},
	}
}

// holed is a level plate of 3k by 3k cells with a square hole in the middle of
// every cell of a 3 by 3 board but the central one.
func holed(k int) mesh.Mesh {
	m := patch(3*k, 3*k, func(u, v float64) mesh.Vec { return mesh.Vec{X: 3 * u, Y: 3 * v} })
	var kept []mesh.Face
	for _, f := range m.Faces {
		c := m.Points[f[0]].Add(m.Points[f[1]]).Add(m.Points[f[2]]).Scale(1.0 / 3)
		x, y := c.X-math.Floor(c.X), c.Y-math.Floor(c.Y)
		centre := math.Floor(c.X) == 1 && math.Floor(c.Y) == 1
		if centre || math.Abs(x-0.5) > 0.25 || math.Abs(y-0.5) > 0.25 {
			kept = append(kept, f)
		}
	}
	m.Faces = kept
	return m
}

func cutLength(m mesh.Mesh, cuts [][]int32) float64 {
	var sum float64
	for _, path := range cuts {
		for i := 1; i < len(path); i++ {
			sum += m.EdgeLength(path[i-1], path[i])
		}
	}
	return sum
}

// joined opens a surface and joins its holes to the rim.
func joined(t testing.TB, p Problem) *disc {
	t.Helper()
	d, err := open(p)
	if err != nil {
		t.Fatal(err)
	}
	if d, err = d.join(d.border.holes()); err != nil {
		t.Fatal(err)
	}
	return d
}

func TestJoin_CutsToADisc(t *testing.T) {
	for name, c := range map[string]struct {
		surface mesh.Mesh
		given   [][]int32
		paths   int
		longest float64 // of all cuts together
	}{
		"a disc stays":           {surface: dome(6, 100, 1), paths: 0},
		"a dart is kept":         {surface: dome(6, 100, 1), given: [][]int32{{0, 1, 7, 19, 37, 61, 91}}, paths: 1, longest: 100},
		"a pipe is slit":         {surface: pipe(16, 10, 50, 200), paths: 1, longest: 200.001},
		"a ring, both ways":      {surface: ring(24, 12, 100, 30), paths: 2, longest: 2*math.Pi*(70+30) + 1},
		"a ring, one way given":  {surface: ring(24, 12, 100, 30), given: [][]int32{{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 0}}, paths: 2, longest: 2*math.Pi*(70+30) + 60},
		"a box is slit":          {surface: box(), paths: 1, longest: 4},
		"eight holes in a plate": {surface: holed(8), paths: 8, longest: 8.5},
	} {
		d := joined(t, Problem{Surface: c.surface, Cuts: c.given})
		if loops := d.near.BoundaryLoops(); len(loops) != 1 || d.near.Euler() != 1 {
			t.Errorf("%s: %d loops, Euler %d", name, len(loops), d.near.Euler())
		}
		if long := cutLength(c.surface, d.cuts); len(d.cuts) != c.paths || long > c.longest {
			t.Errorf("%s: %d cuts %.1f long, want %d of at most %.1f", name, len(d.cuts), long, c.paths, c.longest)
		}
		again, _, err := c.surface.Cut(d.cuts)
		if err != nil || again.Euler() != 1 || len(again.BoundaryLoops()) != 1 {
			t.Errorf("%s: the cuts told do not make the disc: %v", name, err)
		}
		for v, from := range d.source {
			if d.mesh.Points[v] != c.surface.Points[from] {
				t.Fatalf("%s: vertex %d does not come from %d", name, v, from)
			}
		}
	}
}

func TestOpen_DropsVerticesWithoutFaces(t *testing.T) {
	m := dome(3, 10, 0.5)
	m.Points = append([]mesh.Vec{{X: 99}}, m.Points...)
	for i := range m.Faces {
		for c := range 3 {
			m.Faces[i][c]++
		}
	}
	d, err := open(Problem{Surface: m})
	if err != nil || len(d.mesh.Points) != len(m.Points)-1 || d.source[0] != 1 {
		t.Fatalf("%v, %v", d, err)
	}
}

func TestOpen_Refuses(t *testing.T) {
	two := dome(2, 10, 0.5)
	n := int32(len(two.Points))
	far := mesh.Mesh{Points: append(two.Points, two.Points...), Faces: two.Faces}
	for _, f := range two.Faces {
		far.Faces = append(far.Faces, mesh.Face{f[0] + n, f[1] + n, f[2] + n})
	}
	fin := mesh.Mesh{Points: []mesh.Vec{{}, {X: 1}, {Y: 1}, {Y: -1}, {Z: 1}}, Faces: []mesh.Face{{0, 1, 2}, {1, 0, 3}, {0, 1, 4}}}
	turned := mesh.Mesh{Points: fin.Points, Faces: []mesh.Face{{0, 1, 2}, {0, 1, 3}}}
	nowhere := dome(2, 10, 0.5)
	nowhere.Points[3].X = math.NaN()
	outside := mesh.Mesh{Points: fin.Points, Faces: []mesh.Face{{0, 1, 9}}}
	for name, p := range map[string]Problem{
		"nothing":                {},
		"two pieces":             {Surface: far},
		"three faces at an edge": {Surface: fin},
		"faces of opposite ways": {Surface: turned},
		"a vertex nowhere":       {Surface: nowhere},
		"an index outside":       {Surface: outside},
		"a cut off the edges":    {Surface: dome(3, 10, 0.5), Cuts: [][]int32{{0, 30}}},
		"a cut that parts it":    {Surface: patch(4, 4, func(u, v float64) mesh.Vec { return mesh.Vec{X: u, Y: v} }), Cuts: [][]int32{{10, 11, 12, 13, 14}}},
	} {
		if _, err := open(p); fault.KindOf(err) != fault.Invalid || err == nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A hole that is joined is joined by the shortest way that touches no other.
func TestJoin_GoesRoundWhatIsKept(t *testing.T) {
	m := holed(8)
	d, err := open(Problem{Surface: m})
	if err != nil {
		t.Fatal(err)
	}
	holes := d.border.holes()
	for i := range holes {
		got, err := d.join(holes[i : i+1])
		if err != nil {
			t.Fatal(err)
		}
		if len(got.border.holes()) != len(holes)-1 || len(got.cuts) != 1 {
			t.Errorf("hole %d: %d holes are left after %d cuts", i, len(got.border.holes()), len(got.cuts))
		}
		on := map[int32]bool{}
		for k, hole := range holes {
			for _, v := range hole {
				on[v] = on[v] || k != i
			}
		}
		for _, v := range got.cuts[0] {
			if on[v] {
				t.Errorf("hole %d: the cut touches another at vertex %d", i, v)
			}
		}
	}
	if got, err := d.join(nil); err != nil || len(got.cuts) != 0 || len(got.border.holes()) != len(holes) {
		t.Errorf("joining none: %d cuts, %v", len(got.cuts), err)
	}
}

// A hole behind one that leaves no way but along its own edge can only be joined
// through it: then that is joined too.
func TestJoin_ThroughWhatIsInTheWay(t *testing.T) {
	m := rolled(12, 6, false, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * u)
		return mesh.Vec{X: (100 - 50*v) * c, Y: (100 - 50*v) * s, Z: 60 * v}
	})
	var belt []int
	for i := 1; i < 12; i++ { // all round but for one cell
		for _, j := range []int{2, 3} {
			belt = append(belt, 2*(6*i+j), 2*(6*i+j)+1)
		}
	}
	d, err := open(Problem{Surface: without(m, belt...)})
	if err != nil {
		t.Fatal(err)
	}
	top := slices.IndexFunc(d.border.holes(), func(hole []int32) bool { return len(hole) == 12 })
	got, err := d.join(d.border.holes()[top : top+1])
	if err != nil || len(got.border.rings) != 1 {
		t.Fatalf("%d holes stay of %d, %d cuts, %v", len(got.border.holes()), len(d.border.holes()), len(got.cuts), err)
	}
}

// What was cut for a result, asked for, numbers the pattern's vertices alike:
// darts and seams are found on the pattern that was laid.
func TestOpen_CutAsForAResult(t *testing.T) {
	for name, p := range map[string]Problem{
		"funnel":     {Surface: pierced(funnel(60), vents)},
		"ring":       {Surface: ring(24, 12, 100, 30)},
		"cut, holed": {Surface: holed(8), Cuts: [][]int32{between(holed(8), 0, 2*25+2)}},
		"band":       {Surface: pierced(dome(20, 100, 1.5), within(0, 0, 80))},
	} {
		r := lay(t, p)
		d, err := open(p.as(r))
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(d.source, r.Flat.Source) || !slices.Equal(d.mesh.Faces, r.Flat.Faces) {
			t.Errorf("%s: other vertices", name)
		}
	}
}

// Ends of cuts that open nothing are taken off, those at the rim stay.
func TestPrune_TakesOffLooseEnds(t *testing.T) {
	m := patch(6, 6, func(u, v float64) mesh.Vec { return mesh.Vec{X: u, Y: v} })
	a := m.Adjacency()
	at := func(i, j int32) int32 { return i*7 + j }
	for name, c := range map[string]struct {
		path []int32
		want int
	}{
		"loose at both ends":  {[]int32{at(2, 2), at(2, 3), at(2, 4)}, 0},
		"from the rim":        {[]int32{at(2, 0), at(2, 1), at(2, 2)}, 0},
		"from rim to rim":     {[]int32{at(2, 0), at(2, 1), at(2, 2), at(2, 3), at(2, 4), at(2, 5), at(2, 6)}, 6},
		"closed":              {[]int32{at(2, 2), at(2, 3), at(3, 3), at(3, 2), at(2, 2)}, 4},
		"closed, with a tail": {[]int32{at(2, 2), at(2, 3), at(3, 3), at(3, 2), at(2, 2), at(1, 2)}, 4},
	} {
		s := newSlits(m, a)
		s.add(c.path)
		if s.prune(); len(s.edges) != c.want {
			t.Errorf("%s: %d edges are left, want %d", name, len(s.edges), c.want)
		}
	}
}

func TestPaths_StringEdgesBetweenKnots(t *testing.T) {
	m := patch(6, 6, func(u, v float64) mesh.Vec { return mesh.Vec{X: u, Y: v} })
	a := m.Adjacency()
	at := func(i, j int32) int32 { return i*7 + j }
	s := newSlits(m, a)
	s.add([]int32{at(0, 3), at(1, 3), at(2, 3), at(3, 3), at(4, 3), at(5, 3), at(6, 3)}) // across
	s.add([]int32{at(3, 3), at(3, 2), at(3, 1), at(3, 0)})                               // and a leg
	var edges int
	paths := s.paths()
	for _, p := range paths {
		edges += len(p) - 1
		for _, v := range p[1 : len(p)-1] {
			if v == at(3, 3) || a.OnBoundary()[v] {
				t.Errorf("%v runs through a knot", p)
			}
		}
	}
	if len(paths) != 3 || edges != 9 {
		t.Errorf("%v", paths)
	}
	loop := newSlits(m, a)
	loop.add([]int32{at(2, 2), at(2, 3), at(3, 3), at(3, 2), at(2, 2)})
	if paths := loop.paths(); len(paths) != 1 || len(paths[0]) != 5 || paths[0][0] != paths[0][4] {
		t.Errorf("a closed cut: %v", paths)
	}
}

func TestSets_UniteOnce(t *testing.T) {
	s := newSets(6)
	for i, c := range []struct {
		a, b int32
		two  bool
	}{{0, 1, true}, {2, 3, true}, {1, 0, false}, {3, 1, true}, {0, 2, false}, {4, 4, false}, {5, 4, true}, {5, 3, true}} {
		if got := s.unite(c.a, c.b); got != c.two {
			t.Errorf("union %d: %v", i, got)
		}
	}
	for i := range int32(6) {
		if s.find(i) != s.find(0) {
			t.Errorf("%d is in another set", i)
		}
	}
}

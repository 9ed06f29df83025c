package flatten

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// plane is a level piece of m by n cells, jittered inside.
func plane(m, n int, jitter float64) (mesh.Mesh, []geom.Point) {
	rng := rand.New(rand.NewPCG(5, 6))
	surface := patch(m, n, func(u, v float64) mesh.Vec {
		p := mesh.Vec{X: u * float64(m), Y: v * float64(n)}
		if u > 0 && u < 1 && v > 0 && v < 1 {
			p.X += jitter * (rng.Float64() - 0.5)
			p.Y += jitter * (rng.Float64() - 0.5)
		}
		return p
	})
	at := make([]geom.Point, len(surface.Points))
	for v, p := range surface.Points {
		at[v] = geom.Point{X: p.X, Y: p.Y}
	}
	return surface, at
}

func mustSheet(t testing.TB, m mesh.Mesh) *sheet {
	t.Helper()
	s, err := newSheet(m)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSheet_JacobianOfKnownMaps(t *testing.T) {
	m, at := plane(6, 4, 0.5)
	s := mustSheet(t, m)
	if math.Abs(s.area-24) > 1e-12 {
		t.Errorf("area %g", s.area)
	}
	for _, want := range []jacobian{{1, 0, 0, 1}, {2, 0.5, -0.25, 1}, {0, -3, 3, 0}, {1, 0, 0, -1}} {
		moved := make([]geom.Point, len(at))
		for v, p := range at {
			moved[v] = geom.Point{X: want.XX*p.X + want.XY*p.Y + 7, Y: want.YX*p.X + want.YY*p.Y - 3}
		}
		l, small := stretches(want)
		for i := range s.faces {
			j := s.jacobian(i, moved)
			if gl, gs := stretches(j); math.Abs(gl-l) > 1e-12 || math.Abs(gs-small) > 1e-12 || math.Abs(j.det()-want.det()) > 1e-11 {
				t.Fatalf("%v: face %d has stretches %g %g, %g %g were put in", want, i, gl, gs, l, small)
			}
		}
		if flips := s.flipped(moved); (want.det() < 0) != (flips == len(s.faces)) {
			t.Errorf("%v: %d flips", want, flips)
		}
	}
}

func TestSheet_RefusesFacesWithoutArea(t *testing.T) {
	for name, p := range map[string]mesh.Vec{"a line": {X: 2}, "a point": {}, "a speck beside": {X: 1e-320}, "a needle": {X: 0.5, Y: 1e-10}} {
		_, err := newSheet(mesh.Mesh{Points: []mesh.Vec{{}, {X: 1}, p}, Faces: []mesh.Face{{0, 1, 2}}})
		if fault.KindOf(err) != fault.Invalid || err == nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestStiffness_IsTheDerivativeOfTheTotal(t *testing.T) {
	m, at := plane(4, 4, 0.6)
	s, e := mustSheet(t, m), dirichlet{}
	rng := rand.New(rand.NewPCG(7, 8))
	for v := range at {
		at[v] = at[v].Add(geom.Point{X: 0.1 * rng.NormFloat64(), Y: 0.1 * rng.NormFloat64()})
	}
	k, n := newStiffness(s), 2*s.vertices
	grad, up, down := make([]float64, n), make([]float64, n), make([]float64, n)
	k.fill(s, e.bare, at, grad)
	whole := make([][]float64, n)
	for i := range whole {
		whole[i] = make([]float64, n)
	}
	for j := range k.matrix.N {
		for q := k.matrix.Start[j]; q < k.matrix.Start[j+1]; q++ {
			i := k.matrix.Row[q]
			whole[i][j], whole[j][i] = k.matrix.Value[q], k.matrix.Value[q]
		}
	}
	other := newStiffness(s)
	const step = 1e-5
	for i := range n {
		move := func(by float64) {
			if i%2 == 0 {
				at[i/2].X += by
			} else {
				at[i/2].Y += by
			}
		}
		move(step)
		high := s.total(e, at)
		other.fill(s, e.bare, at, up)
		move(-2 * step)
		low := s.total(e, at)
		other.fill(s, e.bare, at, down)
		move(step)
		if want := (high - low) / (2 * step); math.Abs(grad[i]-want) > 1e-4 {
			t.Fatalf("derivative %d is %g, differences say %g", i, grad[i], want)
		}
		for j := range n {
			if want := (up[j] - down[j]) / (2 * step); math.Abs(whole[i][j]-want) > 1e-3*(1+math.Abs(want)) {
				t.Fatalf("second derivative %d %d is %g, differences say %g", i, j, whole[i][j], want)
			}
		}
	}
}

func TestFirstRoot(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct{ a, b, c, want float64 }{
		{0, -1, 2, 2}, {0, 1, 2, inf}, {0, 0, 1, inf}, {1, 0, 1, inf}, {-1, 0, 4, 2},
		{1, -3, 2, 1}, {1, 3, 2, inf}, {1, -2, 1, 1}, {-1, 1, 2, 2}, {1e-20, -1, 1, 1},
	} {
		if got := firstRoot(c.a, c.b, c.c); math.Abs(got-c.want) > 1e-12 && got != c.want {
			t.Errorf("%g t² + %g t + %g: %g, want %g", c.a, c.b, c.c, got, c.want)
		}
	}
}

func TestSearch_StopsBeforeTheFirstFaceVanishes(t *testing.T) {
	m, at := plane(6, 6, 0.3)
	s := mustSheet(t, m)
	rng := rand.New(rand.NewPCG(9, 10))
	for range 20 {
		step, then := make([]geom.Point, len(at)), make([]geom.Point, len(at))
		for v := range step {
			step[v] = geom.Point{X: 3 * rng.NormFloat64(), Y: 3 * rng.NormFloat64()}
		}
		most := s.cap(at, step)
		flips := func(share float64) int {
			for v := range at {
				then[v] = at[v].Add(step[v].Scale(share))
			}
			return s.flipped(then)
		}
		if flips(0.999*most) != 0 || flips(1.001*most) == 0 {
			t.Fatalf("faces vanish at %g of the step: %d flips before, %d behind", most, flips(0.999*most), flips(1.001*most))
		}
		here := append([]geom.Point(nil), at...)
		now := s.total(dirichlet{}, here)
		if share, end := s.search(dirichlet{}, here, step, then, now, -1); s.flipped(here) != 0 || !(end <= now) {
			t.Fatalf("share %g from %g to %g with %d flips", share, now, end, s.flipped(here))
		}
	}
}

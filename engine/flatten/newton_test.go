package flatten

import (
	"context"
	"math"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// spun turns, scales and moves places.
func spun(at []geom.Point, angle, scale float64) []geom.Point {
	out := make([]geom.Point, len(at))
	s, c := math.Sincos(angle)
	for v, p := range at {
		out[v] = geom.Point{X: scale*(c*p.X-s*p.Y) + 5, Y: scale*(s*p.X+c*p.Y) - 2}
	}
	return out
}

func TestNewton_ComesBackToTheTruth(t *testing.T) {
	m, at := plane(14, 10, 0.4)
	s := mustSheet(t, m)
	for name, start := range map[string][]geom.Point{
		"turned and grown": spun(at, 2, 3),
		"sheared":          mapped(at, func(p geom.Point) geom.Point { return geom.Point{X: p.X + 2*p.Y, Y: p.Y} }),
		"pressed":          mapped(at, func(p geom.Point) geom.Point { return geom.Point{X: p.X * 0.01, Y: p.Y} }),
		"squeezed at one end": mapped(at, func(p geom.Point) geom.Point {
			return geom.Point{X: p.X, Y: p.Y * math.Exp(-p.X/3)}
		}),
	} {
		var stats Stats
		n := newNewton(s, dirichlet{}, &stats)
		if err := n.ease(context.Background(), start, 100, func(int) {}); err != nil {
			t.Fatal(err)
		}
		status, err := n.descend(context.Background(), start, 100, func(int) {})
		if err != nil || status != Settled {
			t.Fatalf("%s: %v, %v", name, status, err)
		}
		for i := range s.faces {
			if l, small := stretches(s.jacobian(i, start)); math.Abs(l-1) > 1e-6 || math.Abs(small-1) > 1e-6 {
				t.Fatalf("%s: face %d still has stretches %g and %g after %d steps", name, i, l, small, stats.Steps)
			}
		}
		if stats.Steps > 40 {
			t.Errorf("%s: %d steps", name, stats.Steps)
		}
	}
}

func mapped(at []geom.Point, by func(geom.Point) geom.Point) []geom.Point {
	out := make([]geom.Point, len(at))
	for v, p := range at {
		out[v] = by(p)
	}
	return out
}

func TestNewton_EveryStepLowersAndNoneTurnsOver(t *testing.T) {
	m := dome(10, 100, 1.4)
	d, err := open(Problem{Surface: m})
	if err != nil {
		t.Fatal(err)
	}
	s := mustSheet(t, d.mesh)
	l, err := newLaplace(s, d.border.rim(), &Stats{})
	if err != nil {
		t.Fatal(err)
	}
	if err := l.even(&Stats{}); err != nil {
		t.Fatal(err)
	}
	at := round(s, l, d.border.rim(), &Stats{})
	n, last := newNewton(s, dirichlet{}, &Stats{}), math.Inf(1)
	for range 30 {
		now := s.total(dirichlet{}, at)
		if now > last*(1+1e-12) || s.flipped(at) > 0 {
			t.Fatalf("from %g to %g with %d flips", last, now, s.flipped(at))
		}
		last = now
		if _, err := n.descend(context.Background(), at, 1, func(int) {}); err != nil {
			t.Fatal(err)
		}
	}
}

func TestTowards_LeavesTheShareAskedFor(t *testing.T) {
	m, at := plane(4, 3, 0.5)
	s := mustSheet(t, m)
	moved := mapped(at, func(p geom.Point) geom.Point { return geom.Point{X: 9*p.X + 4*p.Y, Y: 0.2*p.Y - 0.1*p.X} })
	for i := range s.faces {
		j := s.jacobian(i, moved)
		large, small := stretches(j)
		for _, p := range []float64{1, 0.5, 0.1} {
			eased := sheet{faces: s.faces, rest: append([]rest(nil), s.rest...)}
			eased.rest[i] = s.rest[i].towards(j, large, small, p)
			l, sm := stretches(eased.jacobian(i, moved))
			if math.Abs(l-math.Pow(large, p)) > 1e-9 || math.Abs(sm-math.Pow(small, p)) > 1e-9 {
				t.Fatalf("face %d, power %g: stretches %g %g of %g %g", i, p, l, sm, large, small)
			}
		}
	}
}

func TestPower_IsTheMostWithinTheBound(t *testing.T) {
	for _, c := range [][2]float64{{1, 1}, {1.5, 0.8}, {1e4, 1e-6}, {300, 200}, {1e-3, 1e-4}} {
		p := power(c[0], c[1])
		density := func(p float64) float64 {
			l, s := math.Pow(c[0], 2*p), math.Pow(c[1], 2*p)
			return l + s + 1/l + 1/s
		}
		if density(p) > easeBound || p < 1 && density(1.001*p) < easeBound {
			t.Errorf("%v: power %g has density %g", c, p, density(p))
		}
	}
}

func TestFence_CuresARampThatCoversItself(t *testing.T) {
	for _, turns := range []float64{0.8, 1.05, 1.5} {
		p := Problem{Surface: ramp(turns)}
		r := lay(t, p)
		if got := r.Conformal.Overlaps > 0; got != (turns > 1) {
			t.Errorf("%g turns: %d overlaps at first", turns, r.Conformal.Overlaps)
		}
		if _, err := Check(p, r); err != nil || r.Isometric.Overlaps != 0 {
			t.Errorf("%g turns: %d overlaps, %v", turns, r.Isometric.Overlaps, err)
		}
		if r.Isometric.Dirichlet > 4.05 {
			t.Errorf("%g turns: pushing apart made it %g", turns, r.Isometric.Dirichlet)
		}
	}
}

// ramp is a strip that winds round an axis: flat, it covers itself after a turn.
func ramp(turns float64) mesh.Mesh {
	return patch(int(60*turns), 6, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * turns * u)
		r := 100 - 50*v
		return mesh.Vec{X: r * c, Y: r * s, Z: 20 * turns * u}
	})
}

package board

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Check holds a board to the raw problem: every branch is there once, as long
// as its stretch to a millionth of a millimetre, begins and ends at the places
// of its waypoints, and no two branches touch but at a waypoint they share. It
// looks at all pairs of lines and shares nothing with the layout.
func Check(p Problem, r Result) error {
	at := map[string]geom.Point{}
	taken := map[geom.Point]string{}
	for _, x := range r.Places {
		if other, twice := taken[x.At]; twice {
			return fault.New(fault.Internal, "it lies on %s", other).At("waypoint " + x.Node)
		}
		at[x.Node], taken[x.At] = x.At, x.Node
	}
	if len(r.Branches) != len(p.Routed.Runs) {
		return fault.New(fault.Internal, "%d branches for %d stretches", len(r.Branches), len(p.Routed.Runs))
	}
	const slip = 1e-6
	type piece struct {
		a, b   geom.Point
		branch int
	}
	var all []piece
	for i, b := range r.Branches {
		s, sum := p.Routed.Runs[i], 0.0
		if b.Edge != s.Edge || len(b.Points) < 2 {
			return fault.New(fault.Internal, "it is not stretch %s", s.ID).At("branch " + b.ID)
		}
		for k := 1; k < len(b.Points); k++ {
			sum += math.Hypot(b.Points[k].X-b.Points[k-1].X, b.Points[k].Y-b.Points[k-1].Y)
			all = append(all, piece{b.Points[k-1], b.Points[k], i})
		}
		if !(math.Abs(sum-s.Length) <= slip) {
			return fault.New(fault.Internal, "it is %v long, the stretch %v", sum, s.Length).At("branch " + b.ID)
		}
		first, last := b.Points[0], b.Points[len(b.Points)-1]
		if math.Hypot(first.X-at[s.From].X, first.Y-at[s.From].Y) > slip || math.Hypot(last.X-at[s.To].X, last.Y-at[s.To].Y) > slip {
			return fault.New(fault.Internal, "it does not go from %s to %s", s.From, s.To).At("branch " + b.ID)
		}
	}
	for i, x := range all {
		for j, y := range all[:i] {
			if max(x.a.X, x.b.X) < min(y.a.X, y.b.X) || max(y.a.X, y.b.X) < min(x.a.X, x.b.X) ||
				max(x.a.Y, x.b.Y) < min(y.a.Y, y.b.Y) || max(y.a.Y, y.b.Y) < min(x.a.Y, x.b.Y) {
				continue
			}
			next := x.branch == y.branch && i-j == 1
			if meets(x.a, x.b, y.a, y.b, next || x.branch != y.branch) {
				return fault.New(fault.Internal, "it meets %s away from a common waypoint", r.Branches[y.branch].ID).At(fmt.Sprintf("branch %s", r.Branches[x.branch].ID))
			}
		}
	}
	return nil
}

// meets reports whether two pieces have a point in common, but an end of both
// where that is allowed; pieces that run over each other meet.
func meets(a, b, c, d geom.Point, ends bool) bool {
	side := func(p, q, r geom.Point) float64 {
		return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)
	}
	if ends {
		for _, e := range [][4]geom.Point{{a, b, c, d}, {a, b, d, c}, {b, a, c, d}, {b, a, d, c}} {
			if e[0] == e[2] { // they share an end: they meet again only when one lies on the other
				u, v := geom.Point{X: e[1].X - e[0].X, Y: e[1].Y - e[0].Y}, geom.Point{X: e[3].X - e[0].X, Y: e[3].Y - e[0].Y}
				cross, dot := u.X*v.Y-u.Y*v.X, u.X*v.X+u.Y*v.Y
				return dot > 0 && math.Abs(cross) <= 1e-9*dot
			}
		}
	}
	s1, s2, s3, s4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	// On one line all are 0; their boxes were seen to overlap.
	return s1*s2 <= 0 && s3*s4 <= 0
}

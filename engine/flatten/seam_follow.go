package flatten

import (
	"context"
	"fmt"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// How an edge is brought to its new places: by half of the way where the whole
// turns a face over, and so on, and some steps for the rest after each.
const (
	shortestWay = 1.0 / 64
	waySteps    = 4
	waysMost    = 100
	fixedBy     = 1e8 // how much firmer a vertex that stays is than it was
)

// Follow lays the pattern of a result anew with some of its vertices at given
// places, as Match leaves the edge of a seam; the rest goes where the material
// bears it best, or, without one, where it is strained least. The pattern is
// neither turned nor moved as a whole. What it cost is the difference of
// Result.Material.
func Follow(ctx context.Context, p Problem, r Result, edge []int32, to []geom.Point, o Options) (Result, error) {
	d, err := open(p.as(r))
	if err != nil {
		return Result{}, err
	}
	s, err := newSheet(d.mesh)
	if err != nil {
		return Result{}, err
	}
	if err := p.follows(s, r, edge, to); err != nil {
		return Result{}, err
	}
	material := plain()
	if p.Material != nil {
		material = *p.Material
	}
	r.Stats = Stats{Vertices: s.vertices, Faces: len(s.faces)}
	at := slices.Clone(r.Flat.Points)
	n := newNewton(s, material.energy(), &r.Stats)
	if err := n.bring(ctx, at, edge, to); err != nil {
		return Result{}, err
	}
	if r.Status, err = n.settle(ctx, at, n.fixing(at, edge), o); err != nil {
		return Result{}, err
	}
	r.Faces = faceStrains(s, at)
	r.Material = sumUp(s, at, r.Faces, d.border)
	if p.Material != nil {
		r.Material.Outside = s.outsideOf(material, at)
		if material.Metal != nil {
			s.thicken(at, r.Faces)
		}
	}
	r.Flat = Flat{Points: at, Faces: s.faces, Source: d.source}
	return r, nil
}

// follows refuses edges that are not of the result, and a result that is not of
// the problem.
func (p Problem) follows(s *sheet, r Result, edge []int32, to []geom.Point) error {
	switch {
	case len(r.Flat.Points) != s.vertices || !slices.Equal(r.Flat.Faces, s.faces):
		return fault.New(fault.Invalid, "the pattern is not of this surface with these cuts")
	case len(edge) != len(to) || len(edge) < 2:
		return fault.New(fault.Invalid, "%d vertices do not go to %d places", len(edge), len(to))
	}
	seen := make(map[int32]bool, len(edge))
	for i, v := range edge {
		where := fmt.Sprintf("vertex %d of the edge", i+1)
		if v < 0 || int(v) >= s.vertices || seen[v] {
			return fault.New(fault.Invalid, "is none of the pattern, or there twice").At(where)
		}
		if sum := to[i].X + to[i].Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
			return fault.New(fault.Invalid, "goes nowhere").At(where)
		}
		seen[v] = true
	}
	return nil
}

// plain is a sheet that bears everything alike.
func plain() Material {
	return Material{Tension: [2]float64{2, 2}, Squeeze: [2]float64{0.89, 0.89}, Stiffness: [2]float64{1, 1}, Poisson: 0.3, Shear: 0.35, Slack: 1}
}

// bring moves an edge to its places, turning no face over.
func (n *newton) bring(ctx context.Context, at []geom.Point, edge []int32, to []geom.Point) error {
	room := make([]geom.Point, len(at))
	for range waysMost {
		share := 1.0
		for ; ; share /= 2 {
			if share < shortestWay {
				return fault.New(fault.Invalid, "the edge cannot go there without turning a face over").
					WithHint("move it less, or share what is moved among both sides of the seam")
			}
			copy(room, at)
			for i, v := range edge {
				room[v] = at[v].Add(to[i].Sub(at[v]).Scale(share))
			}
			if n.sheet.flipped(room) == 0 {
				break
			}
		}
		copy(at, room)
		if share == 1 {
			for i, v := range edge {
				at[v] = to[i]
			}
			return nil
		}
		if _, err := n.settle(ctx, at, n.fixing(at, edge), Options{Steps: waySteps}); err != nil {
			return err
		}
	}
	return fault.New(fault.Invalid, "the edge does not get there in %d stages", waysMost)
}

// fixing returns Newton steps that leave some vertices where they are.
func (n *newton) fixing(at []geom.Point, fixed []int32) func() (slope float64, err error) {
	return func() (slope float64, err error) {
		n.stiff.fill(n.sheet, n.energy.derive, at, n.grad)
		m := n.stiff.matrix
		for _, v := range fixed {
			for c := range int32(2) {
				m.Value[m.Start[2*v+c]] *= fixedBy
				n.grad[2*v+c] = 0
			}
		}
		if err := n.factorised(soft); err != nil {
			return 0, fault.Wrap(fault.Internal, err, "laying flat")
		}
		slope = n.solved()
		for _, v := range fixed {
			n.step[v] = geom.Point{}
		}
		return slope, nil
	}
}

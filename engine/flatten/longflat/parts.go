package longflat

import (
	"context"
	"fmt"

	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// apartBy is the room between two pieces that are laid side by side, mm.
const apartBy = 40.0

// piece is one of those that cuts part a surface into.
type piece struct {
	p     flatten.Problem
	faces []int32 // of the surface
	of    []int32 // by vertex of the piece: that of the surface
	area  float64
}

// pieces parts a surface along its cuts; one of which is left whole is itself.
func pieces(p flatten.Problem) ([]piece, error) {
	opened, source, err := p.Surface.Cut(p.Cuts)
	if err != nil {
		return nil, err
	}
	parts := opened.Parts()
	if len(parts) < 2 {
		return nil, nil
	}
	var list []piece
	for _, part := range parts {
		one, of := opened.Only(part.Faces)
		for i, v := range of {
			of[i] = source[v]
		}
		list = append(list, piece{flatten.Problem{Surface: one, Material: p.Material, Grain: grainIn(of, p.Grain)}, part.Faces, of, one.Area()})
	}
	return list, nil
}

// Solve lays a surface flat; where its cuts part it, piece by piece, the flat
// pieces side by side. The estimate is that of the piece that asks for most.
func Solve(ctx context.Context, p flatten.Problem, o flatten.Options) (flatten.Result, flatten.Estimate, error) {
	parts, err := pieces(p)
	if err != nil {
		return flatten.Result{}, flatten.Estimate{}, err
	}
	if parts == nil {
		e, err := flatten.EstimateOf(p)
		if err != nil {
			return flatten.Result{}, e, err
		}
		r, err := flatten.Solve(ctx, p, o)
		return r, e, err
	}
	r := flatten.Result{Cuts: p.Cuts, Faces: make([]flatten.FaceStrain, len(p.Surface.Faces))}
	r.Flat.Faces = make([]mesh.Face, len(p.Surface.Faces))
	var most flatten.Estimate
	var area, x float64
	for n, one := range parts {
		where := fmt.Sprintf("piece %d", n+1)
		e, err := flatten.EstimateOf(one.p)
		if err != nil {
			return r, most, fault.Within(err, where)
		}
		if n == 0 || e.Needed > most.Needed {
			most = e
		}
		got, err := flatten.Solve(ctx, one.p, o)
		if err != nil {
			return r, most, fault.Within(err, where)
		}
		add(&r, got, one.faces, one.of, x)
		x = geom.Polygon{Outer: r.Flat.Points}.Bounds().Max.X + apartBy
		r.Material = joined(r.Material, area, got.Material, one.area)
		area += one.area
	}
	return r, most, nil
}

// propose looks for cuts, piece by piece where a surface is parted. Paths are
// those of the surface, shares of what lies outside those of all of it.
func propose(ctx context.Context, p flatten.Problem, o flatten.Options) ([][]flatten.Proposal, error) {
	parts, err := pieces(p)
	if err != nil {
		return nil, err
	}
	if parts == nil {
		found, err := flatten.Propose(ctx, p, flatten.Ways{}, o)
		return found.Rounds, err
	}
	found := make([]flatten.Proposed, len(parts))
	var outside, area float64
	for n, one := range parts {
		if found[n], err = flatten.Propose(ctx, one.p, flatten.Ways{}, o); err != nil {
			return nil, fault.Within(err, fmt.Sprintf("piece %d", n+1))
		}
		outside, area = outside+found[n].Outside*one.area, area+one.area
	}
	var rounds [][]flatten.Proposal
	for n, one := range parts {
		now := found[n].Outside
		for _, round := range found[n].Rounds {
			best := now
			for i, c := range round {
				if i == 0 {
					best = c.Outside
				}
				for k, v := range c.Path {
					round[i].Path[k] = one.of[v]
				}
				round[i].Outside = (outside + (c.Outside-now)*one.area) / area
			}
			outside += (best - now) * one.area
			now = best
			rounds = append(rounds, round)
		}
	}
	return rounds, nil
}

// grainIn is the grain of a piece: as it was asked for where both its vertices
// are on the piece, else looked for.
func grainIn(of []int32, g flatten.Grain) flatten.Grain {
	from, to := int32(-1), int32(-1)
	for i, v := range of {
		if v == g.From && from < 0 {
			from = int32(i)
		}
		if v == g.To && to < 0 {
			to = int32(i)
		}
	}
	if from < 0 || to < 0 {
		return flatten.Grain{}
	}
	return flatten.Grain{From: from, To: to}
}

// add lays a piece beside those that are there already, from x on. faces are
// those of the surface that the piece has, of its vertices by its own.
func add(r *flatten.Result, one flatten.Result, faces, of []int32, x float64) {
	base := int32(len(r.Flat.Points))
	low := geom.Polygon{Outer: one.Flat.Points}.Bounds().Min
	for i, q := range one.Flat.Points {
		r.Flat.Points = append(r.Flat.Points, geom.Point{X: q.X - low.X + x, Y: q.Y - low.Y})
		r.Flat.Source = append(r.Flat.Source, of[one.Flat.Source[i]])
	}
	for i, face := range one.Flat.Faces {
		r.Flat.Faces[faces[i]] = mesh.Face{face[0] + base, face[1] + base, face[2] + base}
		r.Faces[faces[i]] = one.Faces[i]
	}
	for _, c := range one.Cuts {
		path := make([]int32, len(c))
		for i, v := range c {
			path[i] = of[v]
		}
		r.Cuts = append(r.Cuts, path)
	}
	r.Status = max(r.Status, one.Status)
}

// joined sums up the strain of two pieces by their areas, as far as a page says
// it.
func joined(a flatten.Strain, areaA float64, b flatten.Strain, areaB float64) flatten.Strain {
	if areaA == 0 {
		return b
	}
	out := a
	out.Outside = (a.Outside*areaA + b.Outside*areaB) / (areaA + areaB)
	out.Along = [2]float64{min(a.Along[0], b.Along[0]), max(a.Along[1], b.Along[1])}
	out.Across = [2]float64{min(a.Across[0], b.Across[0]), max(a.Across[1], b.Across[1])}
	return out
}

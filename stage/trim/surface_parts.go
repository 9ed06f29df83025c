package trim

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

// lay lays a surface flat: whole, or piece by piece where its seams part it.
func (f *Flattened) lay(ctx context.Context) error {
	opened, source, err := f.Problem.Surface.Cut(f.Problem.Cuts)
	if err != nil {
		return err
	}
	parts := opened.Parts()
	if len(parts) < 2 {
		return f.whole(ctx)
	}
	r := flatten.Result{Cuts: f.Problem.Cuts, Faces: make([]flatten.FaceStrain, len(opened.Faces))}
	r.Flat.Faces = make([]mesh.Face, len(opened.Faces))
	var area, x float64
	for n, part := range parts {
		one, of := opened.Only(part.Faces)
		for i, v := range of {
			of[i] = source[v]
		}
		p := flatten.Problem{Surface: one, Material: f.Problem.Material, Grain: grainIn(of, f.Problem.Grain)}
		e, err := flatten.EstimateOf(p)
		if err != nil {
			return fault.Within(err, fmt.Sprintf("piece %d", n+1))
		}
		if n == 0 || e.Needed > f.Estimate.Needed {
			f.Estimate = e // of the piece that asks for most
		}
		got, err := flatten.Solve(ctx, p, flatten.Options{Seed: 1})
		if err != nil {
			return fault.Within(err, fmt.Sprintf("piece %d", n+1))
		}
		add(&r, got, part.Faces, of, x)
		x = geom.Polygon{Outer: r.Flat.Points}.Bounds().Max.X + apartBy
		r.Material = joined(r.Material, area, got.Material, one.Area())
		area += one.Area()
	}
	f.Result = r
	return nil
}

// whole lays a surface flat in one piece.
func (f *Flattened) whole(ctx context.Context) (err error) {
	if f.Estimate, err = flatten.EstimateOf(f.Problem); err != nil {
		return err
	}
	f.Result, err = flatten.Solve(ctx, f.Problem, flatten.Options{Seed: 1})
	return err
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

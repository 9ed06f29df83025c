// Package pieces lays a surface flat whole, or piece by piece where its cuts
// part it: the pieces lie beside each other, the sum of their strains is that
// of the surface. It is flatten.Solve for whoever lets cuts be drawn freely.
package pieces

import (
	"context"
	"fmt"

	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// apartBy is the room between two pieces that are laid side by side, in the
// surface's unit.
const apartBy = 40.0

// Laid is a surface laid flat, and the estimate of the piece that asks for most.
type Laid struct {
	Estimate flatten.Estimate
	Result   flatten.Result
}

// Lay lays a surface flat. A fault of one piece names it.
func Lay(ctx context.Context, p flatten.Problem, o flatten.Options) (Laid, error) {
	opened, source, err := p.Surface.Cut(p.Cuts)
	if err != nil {
		return Laid{}, err
	}
	parts := opened.Parts()
	if len(parts) < 2 {
		return whole(ctx, p, o)
	}
	l := Laid{Result: flatten.Result{Cuts: p.Cuts, Faces: make([]flatten.FaceStrain, len(opened.Faces))}}
	l.Result.Flat.Faces = make([]mesh.Face, len(opened.Faces))
	var area, x float64
	for n, part := range parts {
		one, of := opened.Only(part.Faces)
		for i, v := range of {
			of[i] = source[v]
		}
		got, err := whole(ctx, flatten.Problem{Surface: one, Material: p.Material, Grain: grainIn(of, p.Grain)}, o)
		if err != nil {
			return Laid{}, fault.Within(err, fmt.Sprintf("piece %d", n+1))
		}
		if n == 0 || got.Estimate.Needed > l.Estimate.Needed {
			l.Estimate = got.Estimate
		}
		l.add(got.Result, part.Faces, of, x)
		x = geom.Polygon{Outer: l.Result.Flat.Points}.Bounds().Max.X + apartBy
		l.Result.Material = joined(l.Result.Material, area, got.Result.Material, one.Area())
		area += one.Area()
	}
	return l, nil
}

// whole lays a surface flat in one piece.
func whole(ctx context.Context, p flatten.Problem, o flatten.Options) (l Laid, err error) {
	if l.Estimate, err = flatten.EstimateOf(p); err != nil {
		return l, err
	}
	l.Result, err = flatten.Solve(ctx, p, o)
	return l, err
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
// those of the surface that the piece has; of is by vertex of the piece that of
// the surface.
func (l *Laid) add(one flatten.Result, faces, of []int32, x float64) {
	r := &l.Result
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

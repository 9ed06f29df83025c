package flatten

import (
	"context"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// mostSteps is the budget of a pass where none is given.
const mostSteps = 500

// Solve lays a surface flat: it is opened to a disc, holes staying open where
// that does; laid with its angles kept, or, where that turns a face over, on a
// round disc; then moved until it is as near to isometry as can be, no face ever
// turned over. Errors are faults that say what stands against the surface and
// where.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if o.Steps == 0 {
		o.Steps = mostSteps
	}
	if p.Material != nil {
		if err := p.Material.Validate(); err != nil {
			return Result{}, fault.Within(err, "material")
		}
	}
	o.tell("cutting", 0, 1)
	d, err := open(p)
	if err != nil {
		return Result{}, err
	}
	var r Result
	l, err := d.best(ctx, o, &r.Stats)
	if err != nil {
		return Result{}, err
	}
	d, s, at := l.disc, l.newton.sheet, l.at
	r.Cuts, r.Status, r.Conformal, r.Stats.Vertices, r.Stats.Faces = d.cuts, l.status, l.conformal, s.vertices, len(s.faces)
	if err := align(d, s, at, p.Grain); err != nil {
		return Result{}, err
	}
	r.Faces = faceStrains(s, at)
	r.Isometric = sumUp(s, at, r.Faces, d.border)
	r.Material = r.Isometric
	if p.Material != nil {
		if err := l.newton.mount(ctx, d, at, p, o, &r); err != nil {
			return Result{}, err
		}
	}
	r.Flat = Flat{Points: at, Faces: s.faces, Source: d.source}
	return r, nil
}

func (o Options) tell(stage string, step, of int) {
	if o.Progress != nil {
		o.Progress(Progress{Stage: stage, Step: step, Of: of})
	}
}

// loosen moves flat positions to the least energy.
func (n *newton) loosen(ctx context.Context, at []geom.Point, o Options) (Status, error) {
	tell := func(step int) { o.tell("isometric", step, o.Steps) }
	if err := n.ease(ctx, at, o.Steps, tell); err != nil {
		return Settled, err
	}
	return n.descend(ctx, at, o.Steps, tell)
}

// scale brings flat positions to the size at which their symmetric Dirichlet
// energy is least: k² A + B / k² at k⁴ = B / A.
func (s *sheet) scale(at []geom.Point) {
	var grows, shrinks float64
	for i := range s.faces {
		j := s.jacobian(i, at)
		q, d := j.square(), j.det()
		grows += float64(s.rest[i].Area * q)
		shrinks += float64(s.rest[i].Area * q / float64(d*d))
	}
	k := math.Sqrt(math.Sqrt(shrinks / grows))
	for v := range at {
		at[v] = at[v].Scale(k)
	}
}

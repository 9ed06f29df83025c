package flatten

import (
	"context"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// mostSteps is the budget of a pass where none is given.
const mostSteps = 500

// Solve lays a surface flat: it is cut to a disc, laid with its angles kept,
// or, where that turns a face over, on a round disc; then moved until it is as
// near to isometry as can be, no face ever turned over. Errors are faults that
// say what stands against the surface and where.
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
	s, err := newSheet(d.mesh)
	if err != nil {
		return Result{}, err
	}
	r := Result{Cuts: d.cuts, Stats: Stats{Vertices: s.vertices, Faces: len(s.faces)}}
	o.tell("conformal", 0, 1)
	at, err := start(d, s, &r)
	if err != nil {
		return Result{}, err
	}
	o.tell("isometric", 0, o.Steps)
	n := newNewton(s, dirichlet{}, &r.Stats)
	if r.Status, err = n.loosen(ctx, at, o); err != nil {
		return Result{}, err
	}
	if s.overlaps(at, d.boundary) > 0 {
		if err := n.apart(ctx, d, at, o, &r); err != nil {
			return Result{}, err
		}
	}
	if err := align(d, s, at, p.Grain); err != nil {
		return Result{}, err
	}
	r.Faces = faceStrains(s, at)
	r.Isometric = sumUp(s, at, r.Faces, d.boundary)
	r.Material = r.Isometric
	if p.Material != nil {
		if err := n.mount(ctx, d, at, p, o, &r); err != nil {
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

// start returns flat positions that turn no face over, scaled as suits the
// energy best, and notes the strain of the conformal map.
func start(d *disc, s *sheet, r *Result) ([]geom.Point, error) {
	l, err := newLaplace(s, d.boundary, &r.Stats)
	if err != nil {
		return nil, err
	}
	at, _ := conformal(s, l, d.boundary, &r.Stats)
	s.scale(at)
	r.Conformal = sumUp(s, at, faceStrains(s, at), d.boundary)
	if r.Conformal.Flips > 0 || s.branched(at, d.boundary) {
		return rounded(d, s, l, r)
	}
	return at, nil
}

// rounded returns flat positions on a round disc that turn no face over.
func rounded(d *disc, s *sheet, l *laplace, r *Result) ([]geom.Point, error) {
	if err := l.raise(d.near, &r.Stats); err != nil {
		return nil, err
	}
	at := round(s, l, d.boundary, &r.Stats)
	if s.flipped(at) > 0 {
		if err := l.even(&r.Stats); err != nil {
			return nil, err
		}
		at = round(s, l, d.boundary, &r.Stats)
	}
	if n := s.flipped(at); n > 0 {
		return nil, fault.New(fault.Invalid, "%d faces are too much pressed together to be laid flat in one piece", n).
			WithHint("cut the surface where it bulges most")
	}
	s.scale(at)
	return at, nil
}

// loosen moves flat positions to the least energy.
func (n *newton) loosen(ctx context.Context, at []geom.Point, o Options) (Status, error) {
	tell := func(step int) { o.tell("isometric", step, o.Steps) }
	if err := n.ease(ctx, at, o.Steps, tell); err != nil {
		return Settled, err
	}
	return n.descend(ctx, at, o.Steps, tell)
}

// dearest is how many times the energy a pattern may have that does not cover
// itself before it is given up for the one that does: then only a cut helps.
const dearest = 2

// apart lays a surface anew whose outline crosses itself: from a round disc,
// which does not, with a fence along its outline.
func (n *newton) apart(ctx context.Context, d *disc, at []geom.Point, o Options, r *Result) error {
	l, err := newLaplace(n.sheet, d.boundary, n.stats)
	if err != nil {
		return err
	}
	other, err := rounded(d, n.sheet, l, r)
	if err != nil {
		return nil // too much pressed together for a round disc: the overlap is told
	}
	free := n.sheet.total(n.energy, at)
	n.sheet.fence = newFence(n.sheet, d.boundary)
	status, err := n.loosen(ctx, other, o)
	if err != nil {
		return err
	}
	if n.sheet.total(n.energy, other) > dearest*free {
		n.sheet.fence = nil
		return nil
	}
	r.Status = status
	copy(at, other)
	return nil
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

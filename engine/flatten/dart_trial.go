package flatten

import (
	"context"
	"slices"

	"fettle/geom"
	"fettle/geom/mesh"
)

// trial is a surface in a state of being cut, with its flat pattern.
type trial struct {
	problem Problem
	mesh    mesh.Mesh
	source  []int32 // by vertex: that of the surface
	near    mesh.Adjacency
	rim     []bool // by vertex: on an open edge
	outer   []bool // by vertex: on an open edge from the beginning
	sheet   *sheet
	at      []geom.Point
	over    []float64 // by face: log strain beyond the limits
	outside float64
	excess  float64
	cuts    [][]int32 // of the surface
	last    []int32   // the last of them, by vertices of the piece before it
	stats   Stats
}

// newTrial takes up a surface as it was laid flat.
func newTrial(p Problem, r Result) (*trial, error) {
	d, err := open(p.as(r))
	if err != nil {
		return nil, err
	}
	q := &trial{problem: p, mesh: d.mesh, source: d.source, at: slices.Clone(r.Flat.Points), cuts: r.Cuts, stats: r.Stats}
	q.outer = d.near.OnBoundary()
	return q, q.measure()
}

// measure works out all that follows from mesh and positions.
func (p *trial) measure() (err error) {
	p.near = p.mesh.Adjacency()
	p.rim = p.near.OnBoundary()
	if p.sheet, err = newSheet(p.mesh); err != nil {
		return err
	}
	p.judge()
	return nil
}

// judge works out how far the faces are beyond the limits.
func (p *trial) judge() {
	m := *p.problem.Material
	p.over, p.outside, p.excess = make([]float64, len(p.mesh.Faces)), 0, 0
	for i := range p.over {
		x, share := m.beyond(p.sheet.jacobian(i, p.at)), p.sheet.rest[i].Area/p.sheet.area
		if p.over[i] = x; x > hair {
			p.outside += share
		}
		p.excess += float64(share * x)
	}
}

// cut returns the piece opened along a path of its vertices and laid flat anew
// from where it lay, its sides still together.
func (p *trial) cut(ctx context.Context, path []int32, steps int) (*trial, error) {
	m, source, err := p.mesh.Cut([][]int32{path})
	if err != nil {
		return nil, err
	}
	q := &trial{problem: p.problem, mesh: m, source: through(source, p.source), stats: p.stats, last: path}
	q.cuts = append(slices.Clone(p.cuts), through(path, p.source))
	q.at, q.outer = make([]geom.Point, len(source)), make([]bool, len(source))
	for v, from := range source {
		q.at[v], q.outer[v] = p.at[from], p.outer[from]
	}
	if err := q.measure(); err != nil {
		return nil, err
	}
	return q, q.settle(ctx, steps)
}

// settle makes the material pass on the piece.
func (p *trial) settle(ctx context.Context, steps int) error {
	n := newNewton(p.sheet, p.problem.Material.energy(), &p.stats)
	hold := p.problem.Grain.hold(p.source, p.at)
	if _, err := n.settle(ctx, p.at, n.holding(p.at, hold), Options{Steps: steps}); err != nil {
		return err
	}
	p.judge()
	return nil
}

// result is the piece as Solve would report it.
func (p *trial) result(first Result) Result {
	r := first
	toOrigin(p.at)
	r.Faces = faceStrains(p.sheet, p.at)
	if p.problem.Material.Metal != nil {
		p.sheet.thicken(p.at, r.Faces)
	}
	r.Material = sumUp(p.sheet, p.at, r.Faces, borderOf(p.mesh, p.near))
	r.Material.Outside = p.outside
	r.Flat = Flat{Points: p.at, Faces: p.mesh.Faces, Source: p.source}
	r.Cuts, r.Stats = p.cuts, p.stats
	return r
}

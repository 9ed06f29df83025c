package flatten

import (
	"context"
	"math"

	"fettle/engine/sparse"
	"fettle/fault"
	"fettle/geom"
)

// What counts as settled: what is left would change the stretch of the faces
// by less than this, root mean square by area and at the most. The energy is
// then far closer, for it moves with the square.
const (
	stillMean = 1e-6
	stillMost = 1e-4
)

// The energy does not care how a pattern slides and turns. Every diagonal entry
// is raised by the share soft of itself, which holds it; the whole second
// derivative, which may fall along a turn, is held by pinning one corner and
// the way a far one lies from it, this much firmer than the rest.
const (
	soft = 1e-9
	firm = 1e3
)

// The whole second derivative is tried once steps are nearer than this, and,
// where it was not positive, again when they are ten times nearer.
const nearEnough = 0.05

// newton lowers an energy by projected Newton steps.
type newton struct {
	sheet     *sheet
	energy    energy
	stiff     *stiffness
	factor    *sparse.Factor
	symbolic  *sparse.Symbolic
	grad, way []float64
	step      []geom.Point
	room      []geom.Point
	before    float64 // mean movement of the step before, where all of it was taken; else +Inf
	bareBelow float64 // mean movement below which the whole second derivative is tried
	stats     *Stats
}

func newNewton(s *sheet, e energy, stats *Stats) *newton {
	n := s.vertices
	return &newton{sheet: s, energy: e, stiff: newStiffness(s), grad: make([]float64, 2*n), way: make([]float64, 2*n),
		step: make([]geom.Point, n), room: make([]geom.Point, n), before: math.Inf(1), bareBelow: nearEnough, stats: stats}
}

// descend moves flat positions that turn no face over until the stretch of the
// faces stands still, at most so many steps. No face is ever turned over.
func (n *newton) descend(ctx context.Context, at []geom.Point, steps int, report func(step int)) (Status, error) {
	now := n.sheet.total(n.energy, at)
	n.before = math.Inf(1)
	for step := range steps {
		if ctx.Err() != nil {
			return Interrupted, nil
		}
		report(step)
		slope, err := n.direction(at)
		if err != nil {
			return Settled, err
		}
		mean, most := n.sheet.moved(at, n.step)
		left := min(1, 10*mean)
		if !math.IsInf(n.before, 1) {
			left = min(1, mean/n.before)
		}
		if float64(left*mean) < stillMean && float64(left*most) < stillMost && n.sheet.cap(at, n.step) > 1 {
			// Too little for the energy to tell from rounding: no search.
			for v := range at {
				at[v] = at[v].Add(n.step[v])
			}
			return Settled, nil
		}
		share, then := n.sheet.search(n.energy, at, n.step, n.room, now, slope)
		if share == 0 {
			return Settled, nil
		}
		if now, n.before = then, math.Inf(1); share == 1 {
			n.before = mean
		}
	}
	return OutOfSteps, nil
}

// direction works out the Newton step at the flat positions, and the derivative
// of the energy along it.
func (n *newton) direction(at []geom.Point) (slope float64, err error) {
	n.couple(at)
	e, bare := n.energy.(exact)
	if bare && n.before < n.bareBelow {
		n.stiff.fill(n.sheet, e.bare, at, n.grad)
		n.pin(at)
		if err = n.factorised(soft); err != nil {
			n.bareBelow = n.before / 10
		}
	}
	if !bare || n.before >= n.bareBelow {
		n.stiff.fill(n.sheet, n.energy.derive, at, n.grad)
		for raise := soft; raise < 1; raise *= 100 {
			if err = n.factorised(raise); err == nil {
				break
			}
		}
	}
	if err != nil {
		return 0, fault.Wrap(fault.Internal, err, "laying flat")
	}
	return n.solved(), nil
}

// solved works out the step by the factor at hand, and the derivative of the
// energy along it.
func (n *newton) solved() (slope float64) {
	n.factor.Solve(n.way, n.grad)
	n.stats.Solves++
	n.stats.Steps++
	for v := range n.step {
		n.step[v] = geom.Point{X: -n.way[2*v], Y: -n.way[2*v+1]}
		slope -= float64(n.way[2*v]*n.grad[2*v]) + float64(n.way[2*v+1]*n.grad[2*v+1])
	}
	return slope
}

// factorised raises the diagonal of the matrix at hand by a share and factors
// it.
func (n *newton) factorised(raise float64) (err error) {
	m := n.stiff.matrix
	for v := range m.N {
		m.Value[m.Start[v]] += float64(raise * m.Value[m.Start[v]])
	}
	n.stats.Factors++
	switch {
	case n.factor != nil:
		return n.factor.Refactor(m)
	case n.symbolic == nil:
		if n.symbolic, err = sparse.Analyse(m); err != nil {
			return err
		}
	}
	n.factor, err = n.symbolic.Factor(m)
	return err
}

// couple gives pairs that a fence couples a place in the matrix.
func (n *newton) couple(at []geom.Point) {
	if n.sheet.fence == nil {
		return
	}
	if more := n.sheet.fence.strangers(at, n.stiff); len(more) > 0 {
		n.stiff = newStiffness(n.sheet, append(n.stiff.beside, more...)...)
		n.symbolic, n.factor = nil, nil
	}
}

// pin holds a corner and the way to the corner farthest from it.
func (n *newton) pin(at []geom.Point) {
	far := farthest(at)
	m, way := n.stiff.matrix, at[far].Sub(at[0])
	first, last := m.Start[0:], m.Start[2*far:]
	k := firm * (m.Value[first[0]] + m.Value[first[1]])
	m.Value[first[0]] += k
	m.Value[first[1]] += k
	long := float64(way.X*way.X) + float64(way.Y*way.Y)
	k = firm * (m.Value[last[0]] + m.Value[last[1]]) / long
	m.Value[last[0]] += float64(k * float64(way.Y*way.Y))
	m.Value[last[0]+1] -= float64(k * float64(way.X*way.Y))
	m.Value[last[1]] += float64(k * float64(way.X*way.X))
}

package flatten

import (
	"context"

	"fettle/engine/sparse"
	"fettle/fault"
	"fettle/geom"
)

// What counts as settled: the next step would change the stretch of the faces
// by less than this, root mean square by area and at the most. The energy is
// then far closer, for it moves with the square.
const (
	stillMean = 1e-5
	stillMost = 1e-3
)

// soft is the share of its own size that every diagonal entry is raised by, so
// that the pattern is held where the energy does not care: it may slide and turn.
const soft = 1e-9

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
	stats     *Stats
}

func newNewton(s *sheet, e energy, stats *Stats) *newton {
	n := s.vertices
	return &newton{sheet: s, energy: e, stiff: newStiffness(s), grad: make([]float64, 2*n), way: make([]float64, 2*n),
		step: make([]geom.Point, n), room: make([]geom.Point, n), stats: stats}
}

// descend moves flat positions that turn no face over until the stretch of the
// faces stands still, at most so many steps. No face is ever turned over.
func (n *newton) descend(ctx context.Context, at []geom.Point, steps int, report func(step int)) (Status, error) {
	now := n.sheet.total(n.energy, at)
	for step := range steps {
		if ctx.Err() != nil {
			return Interrupted, nil
		}
		report(step)
		slope, err := n.direction(at)
		if err != nil {
			return Settled, err
		}
		n.stats.Steps++
		mean, most := n.sheet.moved(at, n.step)
		share, then := n.sheet.search(n.energy, at, n.step, n.room, now, slope)
		now = then
		if share == 0 || share == 1 && mean < stillMean && most < stillMost {
			return Settled, nil
		}
	}
	return OutOfSteps, nil
}

// direction works out the Newton step at the flat positions, and the derivative
// of the energy along it.
func (n *newton) direction(at []geom.Point) (slope float64, err error) {
	n.stiff.fill(n.sheet, n.energy, at, n.grad)
	if err := n.refactor(); err != nil {
		return 0, err
	}
	n.factor.Solve(n.way, n.grad)
	n.stats.Solves++
	for v := range n.step {
		n.step[v] = geom.Point{X: -n.way[2*v], Y: -n.way[2*v+1]}
		slope -= float64(n.way[2*v]*n.grad[2*v]) + float64(n.way[2*v+1]*n.grad[2*v+1])
	}
	return slope, nil
}

// refactor factors the matrix at hand, raising its diagonal until it is
// positive definite in spite of rounding.
func (n *newton) refactor() (err error) {
	m := n.stiff.matrix
	if n.symbolic == nil {
		if n.symbolic, err = sparse.Analyse(m); err != nil {
			return fault.Wrap(fault.Internal, err, "laying flat")
		}
	}
	for raise := soft; raise < 1; raise *= 100 {
		for v := range m.N {
			m.Value[m.Start[v]] += float64(raise * m.Value[m.Start[v]])
		}
		n.stats.Factors++
		if n.factor == nil {
			n.factor, err = n.symbolic.Factor(m)
		} else {
			err = n.factor.Refactor(m)
		}
		if err == nil {
			return nil
		}
	}
	return fault.Wrap(fault.Internal, err, "laying flat")
}

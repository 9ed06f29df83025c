package flatten

import (
	"context"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// What a material pass does unless told otherwise. It has settled when, over
// some steps, the energy falls by no more than a share of itself: strains then
// move by less than anybody can measure on leather, though not yet by nothing.
const (
	bearSteps = 40 // most steps
	bearWatch = 4  // steps over which the fall is taken
	bearFall  = 0.01
	turns     = 36 // directions tried over half a turn where the grain is free
)

// law returns the energy by log strain that the material's figures make.
func (m Material) law() law {
	if m.Metal != nil {
		return plasticLaw(*m.Metal)
	}
	return lawOf(m)
}

// bear is the material pass: it moves flat positions, which turn no face over
// and lie as align left them, to where the material bears best to be brought
// onto the surface. Where no grain is given they are turned first to that of
// the directions 5° apart in which this costs least. In the end the material
// runs along x.
func (n *newton) bear(ctx context.Context, d *disc, at []geom.Point, p Problem, o Options) (Status, error) {
	n.energy = borne{p.Material.law()}
	var hold [2]int
	switch {
	case p.Grain.From != p.Grain.To:
		hold = [2]int{d.first(p.Grain.From), d.first(p.Grain.To)}
	case p.Material.Metal == nil:
		n.sheet.turnBest(n.energy, at)
	}
	status, err := n.settle(ctx, at, hold, o)
	toOrigin(at)
	return status, err
}

// settle takes Newton steps until the energy hardly falls. The two vertices of
// hold stay at one height, so that the step between them runs along x; equal
// ones hold nothing.
func (n *newton) settle(ctx context.Context, at []geom.Point, hold [2]int, o Options) (Status, error) {
	steps := bearSteps
	if o.Steps > 0 {
		steps = min(steps, o.Steps)
	}
	fell := []float64{n.sheet.total(n.energy, at)}
	for step := range steps {
		if ctx.Err() != nil {
			return Interrupted, nil
		}
		o.tell("material", step, steps)
		slope, err := n.direction(at)
		if err != nil {
			return Settled, err
		}
		if hold[0] != hold[1] {
			if slope, err = n.held(hold); err != nil {
				return Settled, err
			}
		}
		share, then := n.sheet.search(n.energy, at, n.step, n.room, fell[step], slope)
		fell = append(fell, then)
		if share == 0 {
			return Settled, nil
		}
		if step+1 >= bearWatch && then >= (1-bearFall)*fell[step+1-bearWatch] {
			return Settled, nil
		}
	}
	return OutOfSteps, nil
}

// held changes the step at hand to the best that leaves both vertices at one
// height, and returns the derivative of the energy along it: with K the matrix
// and a the difference of heights, K⁻¹a times what closes it is taken off.
func (n *newton) held(hold [2]int) (slope float64, err error) {
	from, to := 2*hold[0]+1, 2*hold[1]+1
	right, side := make([]float64, len(n.way)), make([]float64, len(n.way))
	right[from], right[to] = -1, 1
	n.factor.Solve(side, right)
	n.stats.Solves++
	gives := side[to] - side[from]
	if !(gives > 0) {
		return 0, fault.New(fault.Internal, "the grain cannot be held")
	}
	k := (n.way[to] - n.way[from]) / gives
	for v := range n.step {
		x, y := n.way[2*v]-float64(k*side[2*v]), n.way[2*v+1]-float64(k*side[2*v+1])
		n.step[v] = geom.Point{X: -x, Y: -y}
		slope -= float64(x*n.grad[2*v]) + float64(y*n.grad[2*v+1])
	}
	n.step[hold[1]].Y = n.step[hold[0]].Y
	return slope, nil
}

// turnBest turns the pattern to the least energy among the turns tried; the
// first of equals.
func (s *sheet) turnBest(e energy, at []geom.Point) {
	best, least := 0, math.Inf(1)
	room := make([]geom.Point, len(at))
	for i := range turns {
		turned(at, room, math.Pi*float64(i)/turns)
		if w := s.total(e, room); w < float64(least*(1-1e-9)) {
			best, least = i, w
		}
	}
	turned(at, room, math.Pi*float64(best)/turns)
	copy(at, room)
}

// turned writes the positions turned by an angle.
func turned(at, to []geom.Point, angle float64) {
	sin, cos := math.Sincos(angle)
	for v, p := range at {
		to[v] = geom.Point{X: float64(cos*p.X) - float64(sin*p.Y), Y: float64(sin*p.X) + float64(cos*p.Y)}
	}
}

// toOrigin moves the positions so that their box begins at the origin.
func toOrigin(at []geom.Point) {
	low := geom.Point{X: math.Inf(1), Y: math.Inf(1)}
	for _, p := range at {
		low = geom.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
	}
	for v := range at {
		at[v] = at[v].Sub(low)
	}
}

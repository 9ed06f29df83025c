package flatten

import (
	"context"
	"math"

	"fettle/geom"
)

// What a material pass does unless told otherwise. It has settled when over
// some steps the energy falls by no more than a share of itself, or than a hair
// of strain all over makes: nobody could measure the difference on leather,
// though strains do not yet stand still.
const (
	bearSteps = 60 // most steps
	bearWatch = 4  // steps over which the fall is taken
	bearFall  = 0.01
	turns     = 36 // directions tried over half a turn where the grain is free
)

// energy returns what the material's figures make a flat pattern cost.
func (m Material) energy() energy {
	switch {
	case m.Metal != nil:
		return borne{plasticLaw(*m.Metal)}
	case m.Lock > 0:
		return wovenOf(m)
	}
	return borne{lawOf(m)}
}

// bear is the material pass: it moves flat positions, which turn no face over
// and lie as align left them, to where the material bears best to be brought
// onto the surface. Where no grain is given they are turned first to that of
// the directions 5° apart in which this costs least. In the end the material
// runs along x.
func (n *newton) bear(ctx context.Context, d *disc, at []geom.Point, p Problem, o Options) (Status, error) {
	n.energy = p.Material.energy()
	hold := p.Grain.hold(d.source, at)
	if p.Grain.From == p.Grain.To && p.Material.Metal == nil {
		n.sheet.turnBest(n.energy, at)
	}
	status, err := n.settle(ctx, at, n.holding(at, hold), o)
	toOrigin(at)
	return status, err
}

// settle takes steps, which next works out with the derivative of the energy
// along them, until the energy hardly falls.
func (n *newton) settle(ctx context.Context, at []geom.Point, next func() (slope float64, err error), o Options) (Status, error) {
	steps := bearSteps
	if o.Steps > 0 {
		steps = min(steps, o.Steps)
	}
	fell := []float64{n.sheet.total(n.energy, at)}
	little := n.sheet.area * hair * hair / 2
	for step := range steps {
		if ctx.Err() != nil {
			return Interrupted, nil
		}
		o.tell("material", step, steps)
		slope, err := next()
		if err != nil {
			return Settled, err
		}
		mean, most := n.sheet.moved(at, n.step)
		share, then := n.sheet.search(n.energy, at, n.step, n.room, fell[step], slope)
		fell = append(fell, then)
		switch {
		case share == 0, share == 1 && mean < stillMean && most < stillMost:
			return Settled, nil
		case step+1 >= bearWatch && fell[step+1-bearWatch]-then <= max(little, bearFall*then):
			return Settled, nil
		}
	}
	return OutOfSteps, nil
}

// holding returns Newton steps that leave the direction from the first vertex of
// hold to the second as it is: it is the grain, and no step is spoiled by a turn
// of the whole, which the energy hardly feels.
func (n *newton) holding(at []geom.Point, hold [2]int) func() (slope float64, err error) {
	return func() (float64, error) {
		if _, err := n.direction(at); err != nil {
			return 0, err
		}
		return n.held(at, hold), nil
	}
}

// held changes the step at hand to the best that leaves the direction between
// two vertices as it is, and returns the derivative of the energy along it:
// with K the matrix and a the movement across that direction, K⁻¹a times what
// undoes it is taken off. Where the direction is x, rounding is too.
func (n *newton) held(at []geom.Point, hold [2]int) (slope float64) {
	from, to := 2*hold[0], 2*hold[1]
	way := at[hold[1]].Sub(at[hold[0]])
	right, side := make([]float64, len(n.way)), make([]float64, len(n.way))
	right[from], right[from+1], right[to], right[to+1] = way.Y, -way.X, -way.Y, way.X
	n.factor.Solve(side, right)
	n.stats.Solves++
	across := func(v []float64) float64 {
		return float64(way.X*(v[to+1]-v[from+1])) - float64(way.Y*(v[to]-v[from]))
	}
	k := 0.0
	if gives := across(side); gives > 0 {
		k = across(n.way) / gives
	}
	for v := range n.step {
		x, y := n.way[2*v]-float64(k*side[2*v]), n.way[2*v+1]-float64(k*side[2*v+1])
		n.step[v] = geom.Point{X: -x, Y: -y}
		slope -= float64(x*n.grad[2*v]) + float64(y*n.grad[2*v+1])
	}
	if way.Y == 0 {
		n.step[hold[1]].Y = n.step[hold[0]].Y
	}
	return slope
}

// farthest returns the vertex farthest from the first.
func farthest(at []geom.Point) int {
	var far int
	for v := range at {
		if at[v].Distance(at[0]) > at[far].Distance(at[0]) {
			far = v
		}
	}
	return far
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

package flatten

import (
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// Round shapes have no axis of their own, and even ones no heavier end: below
// these shares of their size the differences do not speak, and the first corner
// of the outline decides.
const (
	noAxis = 1e-3
	noEnd  = 1e-6
)

// align turns flat positions so that the grain runs along x, or, where none is
// given, the longer axis of the faces' area, its heavier end to the left; then
// moves them so that their box begins at the origin. The same pattern lies the
// same way however it was found.
func align(d *disc, s *sheet, at []geom.Point, g Grain) error {
	way, err := heading(d, s, at, g)
	if err != nil {
		return err
	}
	long := math.Hypot(way.X, way.Y)
	c, n := way.X/long, way.Y/long
	for v, p := range at {
		at[v] = geom.Point{X: float64(c*p.X) + float64(n*p.Y), Y: float64(c*p.Y) - float64(n*p.X)}
	}
	toOrigin(at)
	return nil
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

// heading returns a step of the flat pattern that is to lie along x.
func heading(d *disc, s *sheet, at []geom.Point, g Grain) (geom.Point, error) {
	if g.From != g.To {
		from, to := g.in(d.source)
		if from < 0 || to < 0 || at[from] == at[to] {
			return geom.Point{}, fault.New(fault.Invalid, "the grain runs from vertex %d to vertex %d, which are not both on the surface", g.From, g.To)
		}
		return at[to].Sub(at[from]), nil
	}
	centre, xx, xy, yy := moments(s, at)
	gap, twice := xx-yy, 2*xy
	way := at[d.border.rim()[0]].Sub(centre)
	if size := math.Hypot(gap, twice); size > noAxis*(xx+yy) {
		angle := math.Atan2(twice, gap) / 2
		way = geom.Point{X: math.Cos(angle), Y: math.Sin(angle)}
		ahead := skew(s, at, centre, way)
		if math.Abs(ahead) < noEnd*math.Sqrt((xx+yy)/s.area)*(xx+yy) {
			first := at[d.border.rim()[0]].Sub(centre)
			ahead = float64(first.X*way.X) + float64(first.Y*way.Y)
		}
		if ahead > 0 {
			way = way.Scale(-1)
		}
	}
	return way, nil
}

// in returns the first vertices of a piece that came from the grain's two, -1
// where there is none; source is by vertex that of the surface.
func (g Grain) in(source []int32) (from, to int) {
	return slices.Index(source, g.From), slices.Index(source, g.To)
}

// hold returns two vertices of a piece between which the direction is held: the
// grain, or, where that is free, the first and the one farthest from it.
func (g Grain) hold(source []int32, at []geom.Point) (hold [2]int) {
	if g.From == g.To {
		return [2]int{0, farthest(at)}
	}
	hold[0], hold[1] = g.in(source)
	return hold
}

// moments returns the centre and second moments of a pattern, each face
// weighing its area on the surface.
func moments(s *sheet, at []geom.Point) (centre geom.Point, xx, xy, yy float64) {
	for i, f := range s.faces {
		w := s.rest[i].Area / (3 * s.area)
		for _, v := range f {
			centre = geom.Point{X: centre.X + float64(w*at[v].X), Y: centre.Y + float64(w*at[v].Y)}
		}
	}
	for i, f := range s.faces {
		// Over a triangle the mean of x·y is (Σ xᵢyᵢ + Σ xᵢ Σ yᵢ) / 12 about any centre.
		w, sum := s.rest[i].Area/12, geom.Point{}
		for _, v := range f {
			m := at[v].Sub(centre)
			sum = sum.Add(m)
			xx, xy, yy = xx+float64(w*float64(m.X*m.X)), xy+float64(w*float64(m.X*m.Y)), yy+float64(w*float64(m.Y*m.Y))
		}
		xx, xy, yy = xx+float64(w*float64(sum.X*sum.X)), xy+float64(w*float64(sum.X*sum.Y)), yy+float64(w*float64(sum.Y*sum.Y))
	}
	return centre, xx, xy, yy
}

// skew returns the third moment along a way: positive where the farther end is
// ahead.
func skew(s *sheet, at []geom.Point, centre, way geom.Point) float64 {
	var sum float64
	for i, f := range s.faces {
		var x [3]float64
		for c, v := range f {
			m := at[v].Sub(centre)
			x[c] = float64(m.X*way.X) + float64(m.Y*way.Y)
		}
		// Over a triangle the mean of x³ is the sum of all products of three, with
		// repetition, over ten.
		all := float64(x[0] * float64(x[1]*x[2]))
		for c := range 3 {
			all += float64(float64(x[c]*x[c]) * (x[0] + x[1] + x[2]))
		}
		sum += float64(s.rest[i].Area * all / 10)
	}
	return sum
}

package flatten

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// round shapes have no axis of their own: below this share of its size the
// difference of the two moments does not speak.
const noAxis = 1e-3

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
	low := geom.Point{X: math.Inf(1), Y: math.Inf(1)}
	for v, p := range at {
		at[v] = geom.Point{X: float64(c*p.X) + float64(n*p.Y), Y: float64(c*p.Y) - float64(n*p.X)}
		low = geom.Point{X: min(low.X, at[v].X), Y: min(low.Y, at[v].Y)}
	}
	for v := range at {
		at[v] = at[v].Sub(low)
	}
	return nil
}

// heading returns a step of the flat pattern that is to lie along x.
func heading(d *disc, s *sheet, at []geom.Point, g Grain) (geom.Point, error) {
	if g.From != g.To {
		from, to := d.first(g.From), d.first(g.To)
		if from < 0 || to < 0 || at[from] == at[to] {
			return geom.Point{}, fault.New(fault.Invalid, "the grain runs from vertex %d to vertex %d, which are not both on the surface", g.From, g.To)
		}
		return at[to].Sub(at[from]), nil
	}
	centre, xx, xy, yy := moments(s, at)
	gap, twice := xx-yy, 2*xy
	way := at[d.boundary[0]].Sub(centre)
	if size := math.Hypot(gap, twice); size > noAxis*(xx+yy) {
		angle := math.Atan2(twice, gap) / 2
		way = geom.Point{X: math.Cos(angle), Y: math.Sin(angle)}
		if skew(s, at, centre, way) > 0 {
			way = way.Scale(-1)
		}
	}
	return way, nil
}

// first returns the first vertex of the disc that came from one of the surface.
func (d *disc) first(source int32) int {
	for v, from := range d.source {
		if from == source {
			return v
		}
	}
	return -1
}

// moments returns the centre and second moments of a pattern, each face
// weighing its area on the surface.
func moments(s *sheet, at []geom.Point) (centre geom.Point, xx, xy, yy float64) {
	for i := range s.faces {
		m, w := s.middle(i, at), s.rest[i].Area/s.area
		centre = geom.Point{X: centre.X + float64(w*m.X), Y: centre.Y + float64(w*m.Y)}
	}
	for i := range s.faces {
		m, w := s.middle(i, at).Sub(centre), s.rest[i].Area
		xx += float64(w * float64(m.X*m.X))
		xy += float64(w * float64(m.X*m.Y))
		yy += float64(w * float64(m.Y*m.Y))
	}
	return centre, xx, xy, yy
}

// skew returns the third moment along a way: positive where the farther end is
// ahead.
func skew(s *sheet, at []geom.Point, centre, way geom.Point) float64 {
	var sum float64
	for i := range s.faces {
		m := s.middle(i, at).Sub(centre)
		x := float64(m.X*way.X) + float64(m.Y*way.Y)
		sum += float64(s.rest[i].Area * float64(x*float64(x*x)))
	}
	return sum
}

// middle returns the centre of a face.
func (s *sheet) middle(i int, at []geom.Point) geom.Point {
	f := s.faces[i]
	return at[f[0]].Add(at[f[1]]).Add(at[f[2]]).Scale(1.0 / 3)
}

package build

import (
	"fmt"
	"math"

	"fettle/geom"
	"fettle/unit"
)

// Spot is a point of a drawing: x to the right and y up.
type Spot [2]unit.Length

// Ring is a closed line of straight edges; its first point is not said twice.
type Ring []Spot

// Shape is an area with straight edges, with what is cut out of it.
type Shape struct {
	Outer Ring   `json:"outer"`
	Holes []Ring `json:"holes,omitempty"`
}

// mostPoints is how many points a drawn shape may have: a point every few
// millimetres around the largest hide.
const mostPoints = 5_000

// Drawn tells whether there is a shape at all.
func (s Shape) Drawn() bool { return len(s.Outer) > 0 }

// Polygon is the shape in millimetres.
func (s Shape) Polygon() geom.Polygon {
	p := geom.Polygon{Outer: s.Outer.points()}
	for _, h := range s.Holes {
		p.Holes = append(p.Holes, h.points())
	}
	return p
}

func (r Ring) points() []geom.Point {
	list := make([]geom.Point, len(r))
	for i, s := range r {
		list[i] = geom.Point{X: s[0].Mm(), Y: s[1].Mm()}
	}
	return list
}

// ShapeOf rounds a polygon in millimetres to whole micrometres.
func ShapeOf(p geom.Polygon) Shape {
	s := Shape{Outer: ringOf(p.Outer)}
	for _, h := range p.Holes {
		s.Holes = append(s.Holes, ringOf(h))
	}
	return s
}

func ringOf(points []geom.Point) Ring {
	r := make(Ring, len(points))
	for i, p := range points {
		r[i] = Spot{unit.Length(math.Round(p.X * float64(unit.Millimetre))), unit.Length(math.Round(p.Y * float64(unit.Millimetre)))}
	}
	return r
}

// Box is the rectangle from the origin to a width and a height.
func Box(w, h unit.Length) Shape {
	return Shape{Outer: Ring{{0, 0}, {w, 0}, {w, h}, {0, h}}}
}

// Area is that of the shape less its holes.
func (s Shape) Area() unit.Area { return unit.Area(math.Round(s.Polygon().Area())) }

// check holds a drawn shape to rule 13.
func (s Shape) check(where string) error {
	points := len(s.Outer)
	for _, h := range s.Holes {
		points += len(h)
	}
	if points > mostPoints {
		return rule(ruleShape, "it has %d points, at most %d", points, mostPoints).At(where)
	}
	for i, spot := range s.Outer {
		if max(spot[0], -spot[0], spot[1], -spot[1]) > mostLength {
			return rule(ruleShape, "point %d is more than %s away", i+1, mostLength).At(where)
		}
	}
	if err := s.Polygon().Check(); err != nil {
		f := rule(ruleShape, "it is no area that can be cut: %s", err)
		f.Cause = err
		return f.At(where)
	}
	return nil
}

func checkShapes(list []Shape, where, what string) error {
	for i, s := range list {
		if err := s.check(fmt.Sprintf("%s, %s %d", where, what, i+1)); err != nil {
			return err
		}
	}
	return nil
}

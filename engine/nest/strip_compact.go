package nest

import (
	"slices"

	"fettle/geom"
)

// How a layout on a strip is compacted.
const (
	reachDrawn  = 0.03 // of a step that draws in a layout without overlaps, as a share of the strip's height
	reachMended = 0.01 // of one that parts what overlaps
	compactMost = 1500 // convex parts in all; more take too long, as do
	cornersMost = 2000 // corners of a piece, and
	copiesMost  = 150  // copies at once: the inverse of the basis is dense
	compactHair = 3e-6 // what is left between pieces, so that rounding closes no gap; of the unit, or of the height where that is less
)

// draw draws the present layout, which has no overlaps, in by compaction, and
// accepts it, or as it was where that does not pass the exact check.
func (s *search) draw() bool {
	s.before.take(s.now)
	if c := s.compaction(reachDrawn, 1); c != nil {
		if _, clear := c.run(); clear {
			s.follow(c)
			if s.accept() {
				return true
			}
		}
	}
	s.recall(&s.before)
	return s.accept()
}

// mend parts all that overlaps at once. What comes of it may be longer than
// the bounds were; it counts if it is shorter than the best layout so far. What
// fits to the last point then touches, which the search would take for a
// collision: the exact check decides.
func (s *search) mend() bool {
	for _, hairs := range [2]float64{1, 0} {
		c := s.compaction(reachMended, hairs)
		if c == nil {
			return false
		}
		c.bounds.Max.X = s.now.bounds.Max.X + s.now.gap/2
		short, clear := c.run()
		if clear && c.bounds.Max.X-s.now.gap/2 < s.best.bounds.Max.X-float64(hair*s.height) {
			s.follow(c)
			return true
		}
		if clear || short > nearly*c.reach {
			return false
		}
	}
	return false
}

// compaction prepares the present layout, up to where its last piece ends, with
// so many hairs between pieces; nil
// where there is more to heed than pieces on a plain strip, or too much.
func (s *search) compaction(reach, hairs float64) *compaction {
	if s.now.floor != nil || s.convex == nil || len(s.now.items) > copiesMost {
		return nil
	}
	in := s.now.problem.Containers[0].Margin
	c := &compaction{
		gap:    s.now.gap + float64(hairs*compactHair*min(1, s.height)),
		bounds: geom.Box{Min: geom.Point{X: in, Y: in}, Max: geom.Point{Y: s.height - in}},
		reach:  reach * s.height,
	}
	for i, it := range s.now.items {
		b := newBody(s.now.spots[i].lay(s.convex[it.piece]), geom.Point{X: s.now.spots[i].x, Y: s.now.spots[i].y})
		b.still = s.now.fixed[i]
		c.bodies = append(c.bodies, b)
		c.bounds.Max.X = max(c.bounds.Max.X, b.box.Max.X)
	}
	return c
}

// follow puts all copies where a compaction moved them.
func (s *search) follow(c *compaction) {
	s.now.bounds.Max.X = c.bounds.Max.X + s.now.gap/2
	for i := range c.bodies {
		q := s.now.spots[i]
		q.x, q.y = c.bodies[i].at.X, c.bodies[i].at.Y
		s.now.put(i, q)
	}
	s.lead.all()
}

// convexOf cuts the shapes that are searched with into convex parts, by piece;
// nil where one cannot be, or keeps to a pattern, or there are too many of them
// or of corners.
func convexOf(p *Problem) [][][]geom.Point {
	var list [][][]geom.Point
	n := 0
	for i := range p.Pieces {
		if p.Pieces[i].Match != nil {
			return nil
		}
		shape := simplified(p.Pieces[i].Shape)
		if len(shape.Outer) > cornersMost {
			return nil
		}
		parts := convexParts(shape)
		if n += len(parts) * max(p.Pieces[i].Count, 1); parts == nil || n > compactMost {
			return nil
		}
		list = append(list, parts)
	}
	return list
}

// lay returns convex rings of a piece as they are mirrored and turned at a spot,
// not moved.
func (s spot) lay(parts [][]geom.Point) [][]geom.Point {
	rotation, mirrored := s.lies()
	sin, cos := heading(rotation)
	list := make([][]geom.Point, len(parts))
	for k, ring := range parts {
		for _, p := range ring {
			if mirrored {
				p.X = -p.X
			}
			list[k] = append(list[k], geom.Point{X: float64(cos*p.X) - float64(sin*p.Y), Y: float64(sin*p.X) + float64(cos*p.Y)})
		}
		if mirrored {
			slices.Reverse(list[k])
		}
	}
	return list
}

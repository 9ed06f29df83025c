package nestfile

import (
	"fmt"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// sheet is one sheet with what lies on it.
type sheet struct {
	material *nest.Container
	outline  geom.Polygon
	on       []nest.Placement
	name     string
}

// sheetsOf returns the sheets that are used, in the order of their first
// placement. length is that of a strip.
func sheetsOf(p nest.Problem, placements []nest.Placement, length float64) ([]*sheet, error) {
	var list []*sheet
	at := map[[2]int]*sheet{}
	for i, l := range placements {
		if l.Piece < 0 || l.Piece >= len(p.Pieces) || l.Container < 0 || l.Container >= len(p.Containers) {
			return nil, fault.New(fault.Invalid, "it has no piece or no material").At(fmt.Sprintf("placement %d", i+1))
		}
		s := at[[2]int{l.Container, l.Sheet}]
		if s == nil {
			m := &p.Containers[l.Container]
			s = &sheet{material: m, outline: m.Outline, name: m.ID}
			if m.Count > 1 {
				s.name = fmt.Sprintf("%s, %d of %d", m.ID, l.Sheet+1, m.Count)
			}
			if p.Kind == nest.Strip {
				s.outline = geom.Polygon{Outer: []geom.Point{{}, {X: length}, {X: length, Y: m.Height}, {Y: m.Height}}}
			}
			at[[2]int{l.Container, l.Sheet}] = s
			list = append(list, s)
		}
		s.on = append(s.on, l)
	}
	return list, nil
}

// deepest is a place well inside a shape, for its name: the centroid or a place
// of a grid, whichever lies furthest from the edge.
func deepest(p geom.Polygon) geom.Point {
	const across = 16
	best := geom.Ring(p.Outer).Centroid()
	deep, b := p.Depth(best), p.Bounds()
	for i := range across * across {
		q := b.Min.Add(geom.Point{X: b.Width() * (float64(i%across) + 0.5) / across, Y: b.Height() * (float64(i/across) + 0.5) / across})
		if d := p.Depth(q); d > 1.25*deep {
			best, deep = q, d
		}
	}
	return best
}

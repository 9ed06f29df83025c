package nest

import (
	"fettle/geom"
	"fettle/geom/overlay"
)

// portionsOf cuts a piece into parts that ask for one quality each: its zones, and
// what they leave. Where that cannot be worked out they are taken for more than
// they are, never for less.
func portionsOf(p *Piece) []Zone {
	var list []Zone
	if len(p.Zones) == 0 {
		return nil
	}
	add := func(found []geom.Polygon, err error, most geom.Polygon, quality int) {
		if err != nil {
			found = []geom.Polygon{most}
		}
		for _, f := range found {
			list = append(list, Zone{f, quality})
		}
	}
	whole := []geom.Polygon{p.Shape}
	var shapes []geom.Polygon
	for _, z := range p.Zones {
		found, err := overlay.Intersect(whole, []geom.Polygon{z.Shape})
		add(found, err, z.Shape, z.Quality)
		shapes = append(shapes, z.Shape)
	}
	rest, err := overlay.Subtract(whole, shapes)
	add(rest, err, p.Shape, p.Quality)
	return list
}

package nest

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

var errThin = fault.New(fault.Invalid, "it is thinner than the grid that layouts are judged on")

// ground is one container on the grid.
type ground struct {
	outline area
	fence   *geom.GridEdges // the outline as far as gaps to it count: a strip is open to the right
	barred  []barred        // holes and keep-outs
	zones   []area
}

// barred is what no piece may lie on.
type barred struct {
	area
	name string
}

// grounds puts the containers on the grid.
func (c *checker) grounds() error {
	for _, m := range c.p.Containers {
		g, err := c.ground(m)
		if err != nil {
			return fault.Within(err, "material "+m.ID)
		}
		c.material = append(c.material, g)
	}
	return nil
}

func (c *checker) ground(m Container) (g ground, err error) {
	outline := geom.Polygon{Outer: m.Outline.Outer}
	if c.p.Kind == Strip {
		end := max(c.length, 0) + m.Height
		outline.Outer = []geom.Point{{X: end, Y: m.Height}, {Y: m.Height}, {}, {X: end}}
	}
	if g.outline, err = c.area(outline); err != nil {
		return g, err
	}
	g.fence = g.outline.edges
	if c.p.Kind == Strip {
		g.fence = geom.NewGridEdges(g.fence.List()[:3])
	}
	bar := func(p geom.Polygon, name string) {
		var a area
		if a, err = c.area(p); err == nil {
			g.barred = append(g.barred, barred{a, name})
		}
	}
	for i, h := range m.Outline.Holes {
		if bar(geom.Polygon{Outer: h}, counted("hole", i)); err != nil {
			return g, err
		}
	}
	for i, k := range m.KeepOut {
		if bar(k, counted("keep-out", i)); err != nil {
			return g, err
		}
	}
	for _, z := range m.Zones {
		a, err := c.area(z.Shape)
		if err != nil {
			return g, err
		}
		g.zones = append(g.zones, a)
	}
	return g, nil
}

// inside holds every copy to the material, clear of holes and keep-outs.
func (c *checker) inside() error {
	for i, at := range c.placements {
		g, a := &c.material[at.Container], &c.lying[i]
		m := meet(a, &g.outline)
		out, spot := m.crossed, m.at
		if !out {
			out, spot = leaves(a, &g.outline, m.a)
		}
		if out {
			x, y := c.spot(spot)
			return c.wrong(i, "it reaches beyond the edge of %s near %.6g, %.6g", c.sheetName(at), x, y)
		}
		if err := c.clear(i, g.fence, "the edge of "+c.sheetName(at)); err != nil {
			return err
		}
		for k := range g.barred {
			if err := c.off(i, &g.barred[k].area, g.barred[k].name+" of "+c.sheetName(at)); err != nil {
				return err
			}
		}
	}
	return nil
}

// off holds copy i clear of an area by the margin.
func (c *checker) off(i int, b *area, name string) error {
	if in, spot := overlap(&c.lying[i], b); in {
		x, y := c.spot(spot)
		return c.wrong(i, "it lies on %s near %.6g, %.6g", name, x, y)
	}
	return c.clear(i, b.edges, name)
}

// clear holds copy i away from edges by the margin of its material. Without
// one it may touch, and its distance says nothing.
func (c *checker) clear(i int, edges *geom.GridEdges, name string) error {
	margin := c.p.Containers[c.placements[i].Container].Margin
	if margin == 0 {
		return nil
	}
	if d, ok := c.gap(c.lying[i].edges, edges, margin, c.name(i), name); !ok {
		return c.wrong(i, "it lies %.6g from %s, less than the margin of %g", d, name, margin)
	}
	return nil
}

// gap measures the distance between edges if it is less than asked or the
// smallest so far; ok says that it is enough.
func (c *checker) gap(a, b *geom.GridEdges, asked float64, nameA, nameB string) (d float64, ok bool) {
	most := max(c.nearest, asked*c.perUnit)
	d, at, _ := a.Distance(b, most)
	if at < 0 {
		return math.Inf(1), true
	}
	c.near(d, nameA, nameB)
	return d / c.perUnit, d >= asked*c.perUnit-slack
}

// mayLie says whether what asks for a quality may lie on a zone of another.
func mayLie(asked, zone int) bool { return asked > 0 && zone >= asked }

// zones holds every copy off zones that are too poor for it, part by part.
func (c *checker) zones() error {
	for i, at := range c.placements {
		g, m := &c.material[at.Container], &c.p.Containers[at.Container]
		for k, z := range m.Zones {
			name := fmt.Sprintf("zone %d (quality %d) of %s", k+1, z.Quality, c.sheetName(at))
			if err := c.zone(i, &g.zones[k], z.Quality, name); err != nil {
				return err
			}
		}
	}
	return nil
}

// zone holds one copy off one zone. Parts of the piece with a quality of their
// own answer for themselves; the margin is kept by pieces of which no part may
// lie on the zone.
func (c *checker) zone(i int, b *area, quality int, name string) error {
	at := c.placements[i]
	piece := &c.p.Pieces[at.Piece]
	rest := mayLie(piece.Quality, quality)
	if rest && len(piece.Zones) == 0 {
		return nil
	}
	var lenient, strict []area
	for _, z := range piece.Zones {
		a, err := c.area(at.Lay(z.Shape))
		if err != nil {
			return fault.Within(err, c.name(i))
		}
		if mayLie(z.Quality, quality) {
			lenient = append(lenient, a)
		} else {
			strict = append(strict, a)
		}
	}
	if !rest && len(lenient) == 0 {
		return c.off(i, b, name)
	}
	if in, _ := overlap(&c.lying[i], b); !in {
		return nil
	}
	for k := range strict {
		if spot, in := shared([]*area{&c.lying[i], b, &strict[k]}, nil); in {
			x, y := c.spot(spot)
			return c.wrong(i, "a part of it that may not lies on %s near %.6g, %.6g", name, x, y)
		}
	}
	if rest {
		return nil
	}
	if spot, in := shared([]*area{&c.lying[i], b}, append(lenient, strict...)); in {
		x, y := c.spot(spot)
		return c.wrong(i, "it lies on %s near %.6g, %.6g", name, x, y)
	}
	return nil
}

package nest

import (
	"math"

	"fettle/geom"
)

// wallsMost is up to how many corners what bars pieces is cut into walls.
const wallsMost = 400

// convex cuts what bars pieces into convex walls: all about the outline, and
// the other rings. It is nil where that cannot be, or has too many corners.
func (h *hazards) convex() []barrier {
	if len(h.edges.ax) > wallsMost {
		return nil
	}
	var list []barrier
	for i, p := range h.rings {
		if i == 0 && h.outer {
			b := p.Bounds()
			b = around(b, b.Width()+b.Height())
			p = geom.Polygon{Outer: []geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}, Holes: [][]geom.Point{p.Outer}}
		}
		parts := convexParts(p)
		if parts == nil {
			return nil
		}
		for _, ring := range parts {
			list = append(list, barrier{ring, boundsOf(ring)})
		}
	}
	return list
}

// mend parts all that overlaps, sheet by sheet, by moving all pieces at once.
// What fits to the last point then touches, which the search would take for a
// collision: the exact check decides.
func (d *desk) mend() bool {
	d.before.take(d.now)
	for isle := range d.sheets {
		if d.clear(isle) {
			continue
		}
		c, copies := d.compaction(isle, float64(compactHair*min(1, d.isles.boxes[isle].Height())))
		clear := false
		if c != nil {
			var short float64
			if short, clear = c.run(); !clear && short < nearly*c.reach {
				c, copies = d.compaction(isle, 0)
				_, clear = c.run()
			}
		}
		if !clear {
			d.recall(&d.before)
			return false
		}
		for k, i := range copies {
			q := d.now.spots[i]
			q.x, q.y = c.bodies[k].at.X+d.isles.shift[isle], c.bodies[k].at.Y
			d.now.put(i, q)
		}
	}
	d.lead.all()
	return true
}

// clear says whether nothing on an isle overlaps.
func (d *desk) clear(isle int) bool {
	for i, s := range d.now.spots {
		if d.isles.of(s) == isle && d.now.burden(i) > 0 {
			return false
		}
	}
	return true
}

// compaction prepares what lies on an isle, in the coordinates of the sheet, and
// lists the copies; nil where there is more to heed than pieces and walls.
func (d *desk) compaction(isle int, hair float64) (*compaction, []int) {
	box := around(at(d.isles.boxes[isle], -d.isles.shift[isle], 0), d.now.gap/2)
	c := &compaction{gap: d.now.gap + hair, bounds: box, shut: true, reach: reachMended * math.Min(box.Width(), box.Height())}
	under, barred := d.isles.under[isle].(*floor)
	if barred {
		c.margin = under.margin + hair
	}
	var copies []int
	for i, s := range d.now.spots {
		if d.isles.of(s) != isle {
			continue
		}
		piece := d.now.items[i].piece
		if d.b.convex[piece] == nil || len(copies) == copiesMost {
			return nil, nil
		}
		b := newBody(s.lay(d.b.convex[piece]), geom.Point{X: s.x - d.isles.shift[isle], Y: s.y})
		b.still = d.now.fixed[i]
		if barred {
			if h := under.whole[piece]; h != nil {
				if b.walls = h.walls; h.walls == nil {
					return nil, nil
				}
			}
		}
		c.bodies, copies = append(c.bodies, b), append(copies, i)
	}
	return c, copies
}

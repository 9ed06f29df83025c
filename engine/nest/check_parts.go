package nest

import (
	"math"
	"slices"

	"fettle/geom"
)

// aside is how far from an edge shared looks to either hand: four steps.
const aside = 8

// shared says whether all the areas of in have inner points in common that
// lie in none of out, and gives one. Every edge is cut where it meets another,
// and the points beside the middle of each part are looked at; what is
// thinner than four steps of the grid can escape.
func shared(in []*area, out []area) (geom.GridPoint, bool) {
	all := slices.Clone(in)
	for k := range out {
		all = append(all, &out[k])
	}
	within := func(p geom.GridPoint) bool {
		return !slices.ContainsFunc(in, func(a *area) bool { return a.edges.Where(p) <= 0 }) &&
			!slices.ContainsFunc(out, func(a area) bool { return a.edges.Where(p) >= 0 })
	}
	for _, a := range all {
		for i, e := range a.edges.List() {
			cuts := []float64{0, 1}
			one := geom.NewGridEdges(a.edges.List()[i : i+1])
			for _, b := range all {
				one.Near(b.edges, func() int64 { return 0 }, func(_, j int) bool {
					cuts = append(cuts, meetingsOn(e, b.edges.List()[j])...)
					return true
				})
			}
			slices.Sort(cuts)
			for k := 1; k < len(cuts); k++ {
				for _, hand := range []float64{-aside, aside} {
					if p := beside(e, (cuts[k-1]+cuts[k])/2, hand); within(p) {
						return p, true
					}
				}
			}
		}
	}
	return geom.GridPoint{}, false
}

// meetingsOn returns where along e, from 0 to 1, it meets f.
func meetingsOn(e, f geom.GridEdge) []float64 {
	var at []float64
	dx, dy := float64(e.B.X-e.A.X), float64(e.B.Y-e.A.Y)
	share := func(p geom.GridPoint) float64 {
		return (float64(p.X-e.A.X)*dx + float64(p.Y-e.A.Y)*dy) / (dx*dx + dy*dy)
	}
	if e.Crosses(f) {
		return []float64{share(geom.Crossroads(e, f))}
	}
	for _, p := range []geom.GridPoint{f.A, f.B} {
		if e.Holds(p) {
			at = append(at, share(p))
		}
	}
	return at
}

// beside is the point a share t along the edge and hand steps to its left.
func beside(e geom.GridEdge, t, hand float64) geom.GridPoint {
	dx, dy := float64(e.B.X-e.A.X), float64(e.B.Y-e.A.Y)
	l := math.Hypot(dx, dy)
	return geom.GridPoint{
		X: e.A.X + int64(math.Round(t*dx-hand*dy/l)),
		Y: e.A.Y + int64(math.Round(t*dy+hand*dx/l)),
	}
}

// apart holds every two copies on one sheet to lie clear of each other.
func (c *checker) apart() error {
	asked := c.p.Clearance + c.p.Kerf
	for i, at := range c.placements {
		for j, o := range c.placements[:i] {
			if o.Container != at.Container || o.Sheet != at.Sheet {
				continue
			}
			a, b := &c.lying[i], &c.lying[j]
			if float64(a.apart(b)) > max(c.nearest, asked*c.perUnit) {
				continue
			}
			if in, spot := overlap(a, b); in {
				x, y := c.spot(spot)
				return c.wrong(i, "it overlaps %s on %s near %.6g, %.6g", c.name(j), c.sheetName(at), x, y)
			}
			if d, ok := c.gap(a.edges, b.edges, asked, c.name(i), c.name(j)); !ok {
				return c.wrong(i, "it lies %.6g from %s on %s, less than the %g of clearance and kerf", d, c.name(j), c.sheetName(at), asked)
			}
		}
	}
	return nil
}

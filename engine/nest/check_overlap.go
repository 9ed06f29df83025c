package nest

import (
	"cmp"
	"maps"
	"slices"

	"fettle/geom"
)

// contact is where the edge of another area touches one edge.
type contact struct {
	cuts []geom.GridPoint // ends of other edges strictly inside this one
	with []int            // the other edges
}

// contacts are keyed by the edge.
type contacts map[int]*contact

func (t *contacts) add(i, j int, e, f geom.GridEdge) {
	if *t == nil {
		*t = contacts{}
	}
	c := (*t)[i]
	if c == nil {
		c = &contact{}
		(*t)[i] = c
	}
	c.with = append(c.with, j)
	for _, p := range []geom.GridPoint{f.A, f.B} {
		if p != e.A && p != e.B && e.Holds(p) {
			c.cuts = append(c.cuts, p)
		}
	}
}

// meeting is how the edges of two areas meet.
type meeting struct {
	crossed bool
	at      geom.GridPoint // about where they cross
	a, b    contacts
}

func meet(a, b *area) meeting {
	var m meeting
	la, lb := a.edges.List(), b.edges.List()
	a.edges.Near(b.edges, func() int64 { return 0 }, func(i, j int) bool {
		e, f := la[i], lb[j]
		switch {
		case e.Crosses(f):
			m.crossed, m.at = true, geom.Crossroads(e, f)
			return false
		case e.Meets(f):
			m.a.add(i, j, e, f)
			m.b.add(j, i, f, e)
		}
		return true
	})
	return m
}

// overlap says whether two areas have inner points in common, and a point of
// one that shows it. Where edges do not cross, they part each other at points
// of the grid only; every part lies inside, outside or along the other area
// as a whole, and its middle tells which. Inner points are shared if a part of
// one edge lies inside the other area, or along its edge with the inside on
// the same hand: otherwise neither edge enters the other's inside, and two
// connected insides that do are one and the same.
func overlap(a, b *area) (bool, geom.GridPoint) {
	if a.apart(b) >= 0 {
		return false, geom.GridPoint{}
	}
	m := meet(a, b)
	if m.crossed {
		return true, m.at
	}
	if in, at := enters(a, b, m.a); in {
		return true, at
	}
	return enters(b, a, m.b)
}

// enters says whether a part of the edge of a lies inside b, or along it on
// the same hand.
func enters(a, b *area, t contacts) (bool, geom.GridPoint) {
	return a.anyPart(t, func(part geom.GridEdge, with []int) bool {
		middle := middleOf(part)
		switch b.edges.Where(middle) {
		case 1:
			return true
		case 0:
			return b.runsAlong(part, middle, with)
		}
		return false
	})
}

// leaves says whether a part of the edge of a lies outside b.
func leaves(a, b *area, t contacts) (bool, geom.GridPoint) {
	return a.anyPart(t, func(part geom.GridEdge, _ []int) bool {
		return b.edges.Where(middleOf(part)) < 0
	})
}

func middleOf(e geom.GridEdge) geom.GridPoint {
	return geom.GridPoint{X: (e.A.X + e.B.X) / 2, Y: (e.A.Y + e.B.Y) / 2}
}

// runsAlong says whether one of the edges named runs through middle the same
// way as the part.
func (a *area) runsAlong(part geom.GridEdge, middle geom.GridPoint, names []int) bool {
	for _, j := range names {
		if f := a.edges.List()[j]; f.Holds(middle) && f.Along(part) > 0 {
			return true
		}
	}
	return false
}

// anyPart asks test of the parts of every edge that touches the other area,
// and of one edge of each ring that touches it nowhere: what lies between
// touching edges is as they are.
func (a *area) anyPart(t contacts, test func(part geom.GridEdge, with []int) bool) (bool, geom.GridPoint) {
	list := a.edges.List()
	touched := slices.Sorted(maps.Keys(t))
	for _, i := range touched {
		from := list[i].A
		for _, to := range cutsAlong(list[i], t[i].cuts) {
			if part := (geom.GridEdge{A: from, B: to}); test(part, t[i].with) {
				return true, middleOf(part)
			}
			from = to
		}
	}
	for k, start := range a.starts[:len(a.starts)-1] {
		if at, _ := slices.BinarySearch(touched, start); at < len(touched) && touched[at] < a.starts[k+1] {
			continue
		}
		if test(list[start], nil) {
			return true, middleOf(list[start])
		}
	}
	return false, geom.GridPoint{}
}

// cutsAlong returns the cuts in the order of the edge, each once, and its end.
func cutsAlong(e geom.GridEdge, cuts []geom.GridPoint) []geom.GridPoint {
	way := func(p geom.GridPoint) int64 { return abs(p.X-e.A.X) + abs(p.Y-e.A.Y) }
	slices.SortFunc(cuts, func(p, q geom.GridPoint) int { return cmp.Compare(way(p), way(q)) })
	return append(slices.Compact(cuts), e.B)
}

func abs(v int64) int64 { return max(v, -v) }

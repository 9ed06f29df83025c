package flatten

import (
	"math"
	"slices"

	"fettle/geom"
)

// A fence keeps the outline of a pattern from crossing itself: each corner of
// the outline is pushed off each side that it comes nearer than reach, without
// bound towards it; so are the two sides of a corner that the faces go round
// almost whole; and an outline that crosses itself costs without bound. A
// pattern that turns no face over and whose outline does not cross itself
// covers no place twice. (After Smith, Schaefer 2015.)
type fence struct {
	sheet  *sheet
	border border
	gone   []float64 // by corner: the way there along its ring on the surface
	whole  []float64 // by corner: all the way round its ring
	reach  float64
	weight float64
}

// How far a fence reaches, over the mean side of the outline, but no farther
// than a share of the way along it; and what it weighs, over the mean area of a
// face.
const (
	fenceReach  = 0.25
	fenceWeight = 0.1
	fenceBeside = 1.0 / 3
	fenceGap    = 0.1 // radians that a corner lacks of a whole turn where the push begins
)

func newFence(s *sheet, b border) *fence {
	f := &fence{sheet: s, border: b, weight: fenceWeight * s.area / float64(len(s.faces))}
	var all float64
	for _, ring := range b.rings {
		var whole float64
		for _, d := range edgeLengths(s, ring) {
			f.gone = append(f.gone, whole)
			whole += d
		}
		f.whole = append(f.whole, slices.Repeat([]float64{whole}, len(ring))...)
		all += whole
	}
	f.reach = fenceReach * all / float64(len(b.corners))
	return f
}

// near calls do for each corner and side nearer than reach: the corner c, the
// ends a and b of the side, the share of the way from a to b where it is
// nearest, how far the fence reaches there, and how far off and in which
// direction the corner lies.
func (f *fence) near(outline contour, do func(c, a, b int, share, reach, off float64, way geom.Point)) {
	g := lodge(outline, f.reach)
	for c, p := range outline.points {
		for _, l := range g.at(p) {
			a, b := int(l.side), int(outline.next[l.side])
			if c == a || c == b {
				continue
			}
			reach := min(f.reach, fenceBeside*min(f.between(c, a), f.between(c, b)))
			side, to := outline.points[b].Sub(outline.points[a]), p.Sub(outline.points[a])
			share := (float64(side.X*to.X) + float64(side.Y*to.Y)) / (float64(side.X*side.X) + float64(side.Y*side.Y))
			share = max(0, min(1, share))
			way := geom.Point{X: to.X - float64(share*side.X), Y: to.Y - float64(share*side.Y)}
			if off := math.Hypot(way.X, way.Y); off < reach {
				do(c, a, b, share, reach, off, geom.Point{X: way.X / off, Y: way.Y / off})
			}
		}
	}
}

// between returns how far two corners are along their ring on the surface, +Inf
// where they are of two.
func (f *fence) between(c, a int) float64 {
	if f.border.ring[c] != f.border.ring[a] {
		return math.Inf(1)
	}
	d := math.Abs(f.gone[c] - f.gone[a])
	return min(d, f.whole[c]-d)
}

// value returns what the fence costs, +Inf where the outline crosses itself.
func (f *fence) value(at []geom.Point) float64 {
	outline := f.border.at(at)
	if len(crossingsBy(outline, 0)) > 0 {
		return math.Inf(1)
	}
	var sum float64
	for _, angle := range f.full(at) {
		if angle.lacks <= 0 {
			return math.Inf(1)
		}
		over := fenceGap/angle.lacks - 1
		sum += float64(f.weight * float64(over*over))
	}
	f.near(outline, func(_, _, _ int, _, reach, off float64, _ geom.Point) {
		over := reach/off - 1
		sum += float64(f.weight * float64(over*over))
	})
	return sum
}

// full is a corner of the outline, by its place there, and what it lacks of a
// whole turn.
type full struct {
	corner int
	lacks  float64
}

// full returns the corners that the faces go round almost whole.
func (f *fence) full(at []geom.Point) (list []full) {
	angle := f.sheet.around(at)
	for c, v := range f.border.corners {
		if lacks := 2*math.Pi - angle[v]; lacks < fenceGap {
			list = append(list, full{c, lacks})
		}
	}
	return list
}

// push is by how much a vertex moves a distance or an angle that is fenced.
type push struct {
	vertex int32
	by     geom.Point
}

// pushes calls do for each distance or angle within reach, with how far off it
// is and what moves it.
func (f *fence) pushes(at []geom.Point, do func(reach, off float64, by []push)) {
	f.near(f.border.at(at), func(c, a, b int, share, reach, off float64, way geom.Point) {
		do(reach, off, []push{
			{f.border.corners[c], way}, {f.border.corners[a], way.Scale(share - 1)}, {f.border.corners[b], way.Scale(-share)}})
	})
	for _, angle := range f.full(at) {
		c := f.border.corners
		v, before, next := c[angle.corner], c[f.border.before[angle.corner]], c[f.border.next[angle.corner]]
		// The faces go round from the next corner to the one before.
		p, q := turning(at[before].Sub(at[v])), turning(at[next].Sub(at[v]))
		do(fenceGap, angle.lacks, []push{{before, p.Scale(-1)}, {next, q}, {v, p.Sub(q)}})
	}
}

// strangers returns pairs of vertices that the fence couples and that have no
// place in a matrix.
func (f *fence) strangers(at []geom.Point, k *stiffness) (pairs [][2]int32) {
	f.pushes(at, func(_, _ float64, by []push) {
		for i, p := range by {
			for _, q := range by[:i] {
				if _, has := k.block(p.vertex, q.vertex); !has {
					pairs = append(pairs, [2]int32{p.vertex, q.vertex})
				}
			}
		}
	})
	return pairs
}

// spread adds the derivatives of (reach/off − 1)², the second without that of
// off, so that it is never negative.
func (f *fence) spread(at []geom.Point, k *stiffness, grad []float64) {
	m := k.matrix
	f.pushes(at, func(reach, off float64, by []push) {
		over := reach/off - 1
		first := -2 * f.weight * over * reach / float64(off*off)
		second := 2 * f.weight * reach / float64(off*float64(off*off)) * (reach/off + 2*over)
		for i, p := range by {
			v, x, y := p.vertex, float64(second*p.by.X), float64(second*p.by.Y)
			grad[2*v] += float64(first * p.by.X)
			grad[2*v+1] += float64(first * p.by.Y)
			m.Value[m.Start[2*v]] += float64(x * p.by.X)
			m.Value[m.Start[2*v]+1] += float64(x * p.by.Y)
			m.Value[m.Start[2*v+1]] += float64(y * p.by.Y)
			for _, q := range by[:i] {
				if place, has := k.block(v, q.vertex); has {
					k.add(v, q.vertex, place, float64(x*q.by.X), float64(x*q.by.Y), float64(y*q.by.X), float64(y*q.by.Y))
				}
			}
		}
	})
}

// turning returns how the direction of a step turns with its end.
func turning(step geom.Point) geom.Point {
	square := float64(step.X*step.X) + float64(step.Y*step.Y)
	return geom.Point{X: -step.Y / square, Y: step.X / square}
}

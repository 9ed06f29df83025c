package flatten

import (
	"math"

	"fettle/geom"
)

// A fence keeps the outline of a pattern from crossing itself: each corner of
// the outline is pushed off each side that it comes nearer than reach, without
// bound towards it; so are the two sides of a corner that the faces go round
// almost whole; and an outline that crosses itself costs without bound. A
// pattern that turns no face over and whose outline does not cross itself
// covers no place twice. (After Smith, Schaefer 2015.)
type fence struct {
	sheet    *sheet
	boundary []int32
	gone     []float64 // by corner: the way there along the boundary of the surface
	whole    float64
	reach    float64
	weight   float64
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

func newFence(s *sheet, boundary []int32) *fence {
	f := &fence{sheet: s, boundary: boundary, weight: fenceWeight * s.area / float64(len(s.faces))}
	for _, d := range edgeLengths(s, boundary) {
		f.gone = append(f.gone, f.whole)
		f.whole += d
	}
	f.reach = fenceReach * f.whole / float64(len(boundary))
	return f
}

// near calls do for each corner and side nearer than reach: the corner c, the
// ends a and b of the side, the share of the way from a to b where it is
// nearest, how far the fence reaches there, and how far off and in which
// direction the corner lies.
func (f *fence) near(outline []geom.Point, do func(c, a, b int, share, reach, off float64, way geom.Point)) {
	g := lodge(outline, f.reach)
	n := len(outline)
	for c, p := range outline {
		for _, l := range g.at(p) {
			a, b := int(l.side), (int(l.side)+1)%n
			if c == a || c == b {
				continue
			}
			reach := min(f.reach, fenceBeside*min(f.between(c, a), f.between(c, b)))
			side, to := outline[b].Sub(outline[a]), p.Sub(outline[a])
			share := (float64(side.X*to.X) + float64(side.Y*to.Y)) / (float64(side.X*side.X) + float64(side.Y*side.Y))
			share = max(0, min(1, share))
			way := geom.Point{X: to.X - float64(share*side.X), Y: to.Y - float64(share*side.Y)}
			if off := math.Hypot(way.X, way.Y); off < reach {
				do(c, a, b, share, reach, off, geom.Point{X: way.X / off, Y: way.Y / off})
			}
		}
	}
}

// between returns how far two corners are along the boundary of the surface.
func (f *fence) between(c, a int) float64 {
	d := math.Abs(f.gone[c] - f.gone[a])
	return min(d, f.whole-d)
}

// value returns what the fence costs, +Inf where the outline crosses itself.
func (f *fence) value(at []geom.Point) float64 {
	outline := along(at, f.boundary)
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
	for c, v := range f.boundary {
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

// spread adds the derivatives, the second by a bound on the diagonal blocks.
func (f *fence) spread(at []geom.Point, k *stiffness, grad []float64) {
	f.near(along(at, f.boundary), func(c, a, b int, share, reach, off float64, way geom.Point) {
		f.add(k, grad, reach, off, []push{
			{f.boundary[c], way}, {f.boundary[a], way.Scale(share - 1)}, {f.boundary[b], way.Scale(-share)}})
	})
	n := len(f.boundary)
	for _, angle := range f.full(at) {
		v, before, next := f.boundary[angle.corner], f.boundary[(angle.corner+n-1)%n], f.boundary[(angle.corner+1)%n]
		// The faces go round from the next corner to the one before.
		p, q := turning(at[before].Sub(at[v])), turning(at[next].Sub(at[v]))
		f.add(k, grad, fenceGap, angle.lacks, []push{{before, p.Scale(-1)}, {next, q}, {v, p.Sub(q)}})
	}
}

// turning returns how the direction of a step turns with its end.
func turning(step geom.Point) geom.Point {
	square := float64(step.X*step.X) + float64(step.Y*step.Y)
	return geom.Point{X: -step.Y / square, Y: step.X / square}
}

// add adds the derivatives of (reach/off − 1)², off moving by the pushes. Their
// second derivative is at most that of each alone times their number.
func (f *fence) add(k *stiffness, grad []float64, reach, off float64, pushes []push) {
	m, over := k.matrix, reach/off-1
	first := -2 * f.weight * over * reach / float64(off*off)
	second := 2 * f.weight * reach / float64(off*float64(off*off)) * (reach/off + 2*over)
	w := float64(len(pushes)) * second
	for _, p := range pushes {
		v := p.vertex
		grad[2*v] += float64(first * p.by.X)
		grad[2*v+1] += float64(first * p.by.Y)
		m.Value[m.Start[2*v]] += float64(w * float64(p.by.X*p.by.X))
		m.Value[m.Start[2*v]+1] += float64(w * float64(p.by.X*p.by.Y))
		m.Value[m.Start[2*v+1]] += float64(w * float64(p.by.Y*p.by.Y))
	}
}

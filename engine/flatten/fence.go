package flatten

import (
	"math"

	"fettle/geom"
)

// A fence keeps the outline of a pattern from crossing itself: each corner of
// the outline is pushed off each side that it comes nearer than reach, without
// bound towards it, and an outline that crosses itself costs without bound. A
// pattern that turns no face over and whose outline does not cross itself
// covers no place twice. (After Smith, Schaefer 2015.)
type fence struct {
	boundary []int32
	gone     []float64 // by corner: the way there along the boundary of the surface
	whole    float64
	reach    float64
	weight   float64
}

// How far a fence reaches, over the mean side of the outline, and what it
// weighs, over the mean area of a face. Corners and sides that are hardly
// farther along the outline than it reaches are left to the faces.
const (
	fenceReach  = 0.25
	fenceWeight = 0.1
	fenceBeside = 3
)

func newFence(s *sheet, boundary []int32) *fence {
	f := &fence{boundary: boundary, weight: fenceWeight * s.area / float64(len(s.faces))}
	for _, d := range edgeLengths(s, boundary) {
		f.gone = append(f.gone, f.whole)
		f.whole += d
	}
	f.reach = fenceReach * f.whole / float64(len(boundary))
	return f
}

// near calls do for each corner and side nearer than reach: the corner c, the
// ends a and b of the side, the share of the way from a to b where it is
// nearest, and how far off and in which direction the corner lies.
func (f *fence) near(outline []geom.Point, do func(c, a, b int, share, off float64, way geom.Point)) {
	g := lodge(outline, f.reach)
	n := len(outline)
	for c, p := range outline {
		for _, l := range g.at(p) {
			a, b := int(l.side), (int(l.side)+1)%n
			if c == a || c == b || min(f.between(c, a), f.between(c, b)) < fenceBeside*f.reach {
				continue
			}
			side, to := outline[b].Sub(outline[a]), p.Sub(outline[a])
			share := (float64(side.X*to.X) + float64(side.Y*to.Y)) / (float64(side.X*side.X) + float64(side.Y*side.Y))
			share = max(0, min(1, share))
			way := geom.Point{X: to.X - float64(share*side.X), Y: to.Y - float64(share*side.Y)}
			if off := math.Hypot(way.X, way.Y); off < f.reach {
				do(c, a, b, share, off, geom.Point{X: way.X / off, Y: way.Y / off})
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
	if len(crossings(outline)) > 0 {
		return math.Inf(1)
	}
	var sum float64
	f.near(outline, func(_, _, _ int, _, off float64, _ geom.Point) {
		over := f.reach/off - 1
		sum += float64(f.weight * float64(over*over))
	})
	return sum
}

// spread adds the derivatives, the second by a bound on the diagonal blocks:
// the distance moves by the corner once and by the ends of the side in shares.
func (f *fence) spread(at []geom.Point, k *stiffness, grad []float64) {
	m := k.matrix
	f.near(along(at, f.boundary), func(c, a, b int, share, off float64, way geom.Point) {
		over := f.reach/off - 1
		first := -2 * f.weight * over * f.reach / float64(off*off)
		second := 2 * f.weight * f.reach / float64(off*float64(off*off)) * (f.reach/off + 2*over)
		for _, part := range [3]struct {
			corner int
			by     float64
		}{{c, 1}, {a, share - 1}, {b, -share}} {
			v := f.boundary[part.corner]
			grad[2*v] += float64(first * float64(part.by*way.X))
			grad[2*v+1] += float64(first * float64(part.by*way.Y))
			w := 2 * math.Abs(part.by) * second
			m.Value[m.Start[2*v]] += float64(w * float64(way.X*way.X))
			m.Value[m.Start[2*v]+1] += float64(w * float64(way.X*way.Y))
			m.Value[m.Start[2*v+1]] += float64(w * float64(way.Y*way.Y))
		}
	})
}

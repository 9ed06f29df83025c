package flatten

import (
	"math"

	"fettle/geom"
	"fettle/geom/mesh"
)

// Bend is a straight run of a surface that is bent one way only, on its flat
// pattern.
type Bend struct {
	From, To geom.Point // the line to fold along, in the middle of the bend
	Angle    float64    // radians from flat, positive where the outside of the surface is outside of the bend
	Radius   float64    // of the surface, mean
	Width    float64    // of the bend on the pattern
}

// What counts as bent one way: the lesser curvature is no more than a share of
// the greater; a bend turns by 5° at least, is half as long as wide or more, and
// straight: its turning is spread across no wider than half as much again as
// its area. Where it begins and ends it turns less, so vertices beside a bend
// count to it down to a tenth of its curvature.
const (
	oneWay     = 0.2
	leastBend  = 5 * math.Pi / 180
	straightBy = 1.5
	fadesTo    = 10.0
)

// Bends finds the straight bends of a surface whose radius is at most so much,
// in the surface's unit, on its flat pattern: where a fold takes the place of
// stretching and shrinking. They come in the order of their first vertex.
//
// Curvature by vertex is the mean of what edges around turn, across the edges
// [CohenSteinerMorvan2003], with directions taken on the pattern.
func Bends(m mesh.Mesh, flat Flat, radius float64) []Bend {
	on := bendingOf(m, flat)
	near := mesh.Mesh{Points: make([]mesh.Vec, len(flat.Points)), Faces: flat.Faces}.Adjacency()
	label := make([]int, len(flat.Points))
	var list []Bend
	for v := range on.area {
		if label[v] != 0 || !on.oneWay(v, radius) {
			continue
		}
		group := []int32{int32(v)}
		label[v] = len(list) + 1
		for i := 0; i < len(group); i++ {
			if !on.oneWay(int(group[i]), radius) {
				continue // it fades out here
			}
			for _, h := range near.Leaving(group[i]) {
				for _, w := range [2]int32{near.Head(h), near.Tail[mesh.Prev(h)]} {
					if label[w] == 0 && on.oneWay(int(w), fadesTo*radius) && on.sign(int(w)) == on.sign(v) {
						label[w] = label[v]
						group = append(group, w)
					}
				}
			}
		}
		if b, ok := on.line(group, flat); ok {
			list = append(list, b)
		}
	}
	return list
}

// bending is by flat vertex the integral of curvature around it and the area.
type bending struct {
	turn []strain
	area []float64
}

func bendingOf(m mesh.Mesh, flat Flat) bending {
	b := bending{make([]strain, len(flat.Points)), make([]float64, len(flat.Points))}
	place := func(v int32) mesh.Vec { return m.Points[flat.Source[v]] }
	solid := mesh.Mesh{Points: make([]mesh.Vec, len(flat.Points)), Faces: flat.Faces}
	for v := range solid.Points {
		solid.Points[v] = place(int32(v))
	}
	near := solid.Adjacency()
	for f, face := range flat.Faces {
		for _, v := range face {
			b.area[v] += solid.FaceArea(f) / 3
		}
	}
	for h, t := range near.Twin {
		if int(t) < h {
			continue // open, or seen from its twin
		}
		u, v := near.Tail[h], near.Head(int32(h))
		a, c := solid.FaceNormal(h/3), solid.FaceNormal(int(t)/3)
		edge := place(v).Sub(place(u))
		long := edge.Length()
		angle := math.Atan2(a.Cross(c).Dot(edge)/long, a.Dot(c))
		way := flat.Points[v].Sub(flat.Points[u])
		half := angle * long / 2 / (float64(way.X*way.X) + float64(way.Y*way.Y))
		s := strain{float64(half * float64(way.Y*way.Y)), float64(half * float64(way.X*way.X)), -float64(half * float64(way.X*way.Y))}
		for _, w := range [2]int32{u, v} {
			b.turn[w].xx += s.xx
			b.turn[w].yy += s.yy
			b.turn[w].xy += s.xy
		}
	}
	return b
}

// oneWay reports whether the surface is bent one way only at a vertex, by a
// radius of at most so much.
func (b bending) oneWay(v int, radius float64) bool {
	low, high := b.turn[v].extremes()
	most, least := max(math.Abs(low), math.Abs(high)), min(math.Abs(low), math.Abs(high))
	return most >= b.area[v]/radius && least <= oneWay*most
}

// sign is that of the greater curvature.
func (b bending) sign(v int) bool { return b.turn[v].xx+b.turn[v].yy > 0 }

// line makes the bend of a group of vertices; false where it is slight or not
// straight.
func (b bending) line(group []int32, flat Flat) (Bend, bool) {
	var sum strain
	var area float64
	for _, v := range group {
		sum.xx, sum.yy, sum.xy = sum.xx+b.turn[v].xx, sum.yy+b.turn[v].yy, sum.xy+b.turn[v].xy
		area += b.area[v]
	}
	turn := sum.xx + sum.yy
	angle := sum.axes().angle() // across the bend, where it turns left
	if turn < 0 {
		angle += math.Pi / 2
	}
	sin, cos := math.Sincos(angle)
	low, high := math.Inf(1), math.Inf(-1)
	var first, second float64 // moments of turning across the bend
	for _, v := range group {
		p, share := flat.Points[v], (b.turn[v].xx+b.turn[v].yy)/turn
		along, across := float64(cos*p.Y)-float64(sin*p.X), float64(cos*p.X)+float64(sin*p.Y)
		low, high = min(low, along), max(high, along)
		first, second = first+float64(share*across), second+float64(share*float64(across*across))
	}
	long := high - low
	out := Bend{Angle: turn / long, Width: math.Sqrt(12 * max(0, second-float64(first*first)))}
	out.Radius = out.Width / math.Abs(out.Angle)
	out.From = geom.Point{X: float64(cos*first) - float64(sin*low), Y: float64(sin*first) + float64(cos*low)}
	out.To = geom.Point{X: float64(cos*first) - float64(sin*high), Y: float64(sin*first) + float64(cos*high)}
	return out, long > 0 && long >= out.Width/2 && math.Abs(out.Angle) >= leastBend && out.Width <= straightBy*area/long
}

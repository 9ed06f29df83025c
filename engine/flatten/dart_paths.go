package flatten

import (
	"math"
	"slices"

	"fettle/geom/mesh"
)

// How candidates are looked for.
const (
	mostTries    = 10  // candidates of a round
	straightness = 0.8 // of a way past a tip: the direct way over it
	ridge        = 0.5 // what an edge on a sharp ridge saves of its cost
	sharp        = 0.5 // radians between the normals of a ridge that is sharp
)

// candidates returns paths of the piece worth trying: tips where strain beyond
// the limits gathers and where the map that keeps angles would have to scale
// most; from each a dart to the rim that was there from the beginning and to
// any, both also from their middle on, and a parting through the tip. A dart
// runs from its tip, a parting from rim to rim.
func (p *trial) candidates(w Ways) [][]int32 {
	cost := p.cost(w)
	outer, rim := marked(p.outer), marked(p.rim)
	var paths [][]int32
	add := func(path []int32) {
		if len(path) < 2 || !p.inside(path) || slices.ContainsFunc(paths, func(q []int32) bool { return slices.Equal(q, path) }) {
			return
		}
		paths = append(paths, path)
	}
	for _, tip := range p.tips() {
		short, _ := p.near.ShortestPath([]int32{tip}, outer, cost)
		nearest, _ := p.near.ShortestPath([]int32{tip}, rim, cost)
		for _, path := range [2][]int32{short, nearest} {
			add(path)
			add(path[len(path)/2:])
		}
		add(p.parting(short, rim, cost))
	}
	return paths[:min(mostTries, len(paths))]
}

// marked returns the vertices that are marked.
func marked(on []bool) []int32 {
	var list []int32
	for v, yes := range on {
		if yes {
			list = append(list, int32(v))
		}
	}
	return list
}

// inside reports whether a path touches the rim with its ends alone.
func (p *trial) inside(path []int32) bool {
	return !slices.ContainsFunc(path[1:len(path)-1], func(v int32) bool { return p.rim[v] })
}

// parting lengthens a dart beyond its tip to where the rim lies behind it: to
// the nearest of those places from which the way to the dart's end leads about
// past the tip. It returns nothing where there are none.
func (p *trial) parting(dart, rim []int32, cost mesh.Cost) []int32 {
	if len(dart) < 2 {
		return nil
	}
	end := dart[len(dart)-1]
	taken := make([]bool, len(p.rim))
	for _, v := range dart[1:] {
		taken[v] = true
	}
	past := p.near.Reach([]int32{end}, p.mesh.EdgeLength)
	free := func(u, v int32) float64 {
		if taken[v] {
			return math.Inf(1)
		}
		return cost(u, v)
	}
	behind := p.near.Reach(dart[:1], free)
	straight := p.near.Reach(dart[:1], p.mesh.EdgeLength)
	best := mesh.None
	for _, v := range rim {
		if past.Cost[v] >= straightness*(past.Cost[dart[0]]+straight.Cost[v]) && (best == mesh.None || behind.Cost[v] < behind.Cost[best]) {
			best = v
		}
	}
	if best == mesh.None || math.IsInf(behind.Cost[best], 1) {
		return nil
	}
	back := behind.Path(best)
	slices.Reverse(back)
	return append(back, dart[1:]...)
}

// cost weighs the edges of the piece.
func (p *trial) cost(w Ways) mesh.Cost {
	style := map[[2]int32]bool{}
	for _, line := range w.Lines {
		for i := 1; i < len(line); i++ {
			style[[2]int32{min(line[i-1], line[i]), max(line[i-1], line[i])}] = true
		}
	}
	return func(u, v int32) float64 {
		from, to := p.source[u], p.source[v]
		c := p.mesh.EdgeLength(u, v)
		if style[[2]int32{min(from, to), max(from, to)}] {
			return freeOfStyle * c
		}
		if w.Weight != nil {
			c *= 1 + max(0, w.Weight(from, to))
		}
		return c * (1 - float64(ridge*p.ridge(u, v)))
	}
}

// ridge says how sharp the edge between two vertices is, from 0 to 1.
func (p *trial) ridge(u, v int32) float64 {
	h := p.near.Find(u, v)
	if h == mesh.None || p.near.Twin[h] == mesh.None {
		return 0
	}
	a, b := p.mesh.FaceNormal(int(h/3)), p.mesh.FaceNormal(int(p.near.Twin[h]/3))
	return min(1, math.Atan2(a.Cross(b).Length(), a.Dot(b))/sharp)
}

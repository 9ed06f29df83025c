package board

import (
	"context"
	"math"
	"slices"

	"fettle/geom"
)

// level is what is asked of a branch: clearance, the least angle to what lies
// at its breakout, and whether it may be bent.
type level struct {
	apart float64 // share of the rule
	angle float64 // radians
	fold  bool
	halo  bool // keep off waypoints whose branches are still to be laid
}

const deg = math.Pi / 180

// levels are tried in turn; those from `closer` on are told.
var levels = []level{
	{1, 30 * deg, false, true}, {1, 30 * deg, true, true}, {1, 30 * deg, false, false}, {1, 30 * deg, true, false},
	{0.5, 30 * deg, false, false}, {0.5, 30 * deg, true, false},
	{0.25, 30 * deg, false, false}, {0.25, 30 * deg, true, false}, {0.1, 30 * deg, true, false}, {0.25, 15 * deg, true, false}, {0.1, 8 * deg, true, false},
}

const closer = 6

// turns are the headings tried, degrees from the way that the parent runs on:
// square to it first.
var turns = []float64{90, 75, 60, 105, 45, 120, 30, 135, 0, 150, 15, 8}

// layout is one tree on its way to the board.
type layout struct {
	t       *tree
	root    int
	f       *field
	apart   float64
	side    float64   // length laid left less that laid right
	worst   int       // the highest level taken; len(levels) where one found no way
	where   int       // an arm laid at it
	first   []float64 // by arm: those that had trouble before go earlier
	heads   [][]float64
	pending []int // branches still to be laid, by laid waypoint
}

// lay lays the tree of a root. It reports false where a branch found no way.
func (l *layout) lay(ctx context.Context, root int, start []geom.Point, trunk []int) bool {
	l.heads, l.pending = make([][]float64, l.t.n), make([]int, l.t.n)
	l.t.hang(root)
	l.put(trunk, start)
	queue := l.branches(trunk)
	for len(queue) > 0 {
		if ctx.Err() != nil {
			return false
		}
		best := 0
		for i, e := range queue {
			if l.size(e) > l.size(queue[best]) {
				best = i
			}
		}
		e := queue[best]
		queue = slices.Delete(queue, best, best+1)
		way := l.t.heavy(e)
		if !l.place(way) {
			l.worst, l.where = len(levels), e
			return false
		}
		l.pending[l.t.arms[e].a]--
		queue = append(queue, l.branches(way)...)
	}
	return true
}

func (l *layout) size(arm int) float64 {
	return (l.t.arms[arm].length + l.t.depth[l.t.arms[arm].b]) * l.first[arm]
}

// trouble makes an arm, and those it hangs on, go earlier the next time.
func (l *layout) trouble() {
	for e := l.where; e >= 0; e = l.t.up[l.t.arms[e].a] {
		l.first[e] *= 3
	}
}

// branches are the arms that leave a laid way beyond its first waypoint, and
// that of the trunk too, and are not part of it.
func (l *layout) branches(way []int) []int {
	var list, nodes []int
	if v := l.t.arms[way[0]].a; l.t.up[v] < 0 {
		nodes = append(nodes, v)
	}
	for _, e := range way {
		nodes = append(nodes, l.t.arms[e].b)
	}
	for _, v := range nodes {
		for _, e := range l.t.at[v] {
			if l.t.path[e] == nil {
				list = append(list, e)
				l.pending[v]++
			}
		}
	}
	return list
}

// place finds a line for a way of arms that begins at a laid node.
func (l *layout) place(way []int) bool {
	v := l.t.arms[way[0]].a
	base := l.base(v)
	side := 1.0
	if l.side > 0 {
		side = -1
	}
	for k, lv := range levels {
		l.f.halos = l.f.halos[:0]
		if lv.halo {
			l.f.halos = l.halos(v)
		}
		best := []geom.Point(nil)
		for _, turn := range turns {
			for _, s := range [2]float64{side, -side} {
				if turn == 0 && s != side {
					continue
				}
				angle := base + s*turn*deg
				if !l.allowed(v, angle, lv.angle) {
					continue
				}
				line := l.walk(way, l.t.pos[v], angle, lv)
				if line == nil || best != nil && len(line) >= len(best) {
					continue
				}
				best = line
				if len(best) == 2 || lv.fold && len(best) == 3 {
					break
				}
			}
			if best != nil && (len(best) == 2 || lv.fold && len(best) == 3) {
				break
			}
		}
		if best == nil {
			continue
		}
		if k > l.worst {
			l.worst, l.where = k, way[0]
		}
		l.balance(base, best)
		l.put(way, best)
		return true
	}
	return false
}

// halos are the laid waypoints but one that still have branches to be laid.
func (l *layout) halos(but int) []geom.Point {
	list := l.f.halos
	for e, n := range l.pending {
		if n > 0 && e != but {
			list = append(list, l.t.pos[e])
		}
	}
	return list
}

// balance keeps count of what lies left and right of the trunk.
func (l *layout) balance(base float64, line []geom.Point) {
	d := heading(base)
	a, b := line[0], line[1]
	l.side += math.Copysign(distance(a, b), d.X*(b.Y-a.Y)-d.Y*(b.X-a.X))
}

// base is the way on which the parent's line runs on at a node; at the first
// node of the trunk, back the way it came.
func (l *layout) base(v int) float64 {
	if e := l.t.up[v]; e >= 0 {
		p := l.t.path[e]
		a, b := p[len(p)-2], p[len(p)-1]
		return math.Atan2(b.Y-a.Y, b.X-a.X)
	}
	return l.heads[v][0]
}

// allowed reports whether a heading keeps an angle to all that lies at a node,
// less where more branches meet than can keep it.
func (l *layout) allowed(v int, angle, least float64) bool {
	least = min(least, 2*math.Pi/float64(len(l.t.at[v])))
	for _, h := range l.heads[v] {
		if math.Abs(math.Remainder(angle-h, 2*math.Pi)) < least-1e-9 {
			return false
		}
	}
	return true
}

// walk leads a way from a point: straight, or at most a few bends where a level
// allows them. It returns the line to the end of the last arm, nil for none.
func (l *layout) walk(way []int, from geom.Point, angle float64, lv level) []geom.Point {
	last := l.t.arms[way[len(way)-1]].b
	left, bend, half := l.t.end[last], 0.0, 0.0
	for _, e := range way {
		left += l.t.arms[e].length
		bend, half = max(bend, l.t.arms[e].bend), max(half, l.t.arms[e].half)
	}
	leg := max(40, bend)
	line, gone := []geom.Point{from}, 0.0
	var own []bar
	const mostBends = 16
	for range mostBends {
		d := heading(angle)
		s := l.f.run(from, d, left, l.apart*lv.apart, half, own)
		if s >= left {
			s = left - l.t.end[last]
			return append(line, geom.Point{X: from.X + s*d.X, Y: from.Y + s*d.Y})
		}
		if !lv.fold {
			return nil
		}
		s = l.bendAt(way, gone, min(s-10, left-l.t.end[last]-1))
		if s < leg {
			return nil
		}
		next := geom.Point{X: from.X + s*d.X, Y: from.Y + s*d.Y}
		own = append(own, bar{from, next, half})
		line = append(line, next)
		gone, left, from = gone+s, left-s, next
		best, turn := 0.0, 0.0
		for _, t := range []float64{90, -90, 60, -60, 120, -120, 45, -45} {
			if r := l.f.run(from, heading(angle+t*deg), min(left, 4000), l.apart*lv.apart, half, own); r > best+1 {
				best, turn = r, t*deg
			}
		}
		if best < min(leg, left) {
			return nil
		}
		angle += turn
	}
	return nil
}

// bendAt is where to bend a way that can go so much further: at a breakout
// within a hand's breadth, else as far as it goes.
func (l *layout) bendAt(way []int, gone, far float64) float64 {
	const hand = 120
	run, at := 0.0, far
	for _, e := range way {
		run += l.t.arms[e].length
		if s := run - gone; s > 0 && s <= far && s > far-hand {
			at = s
		}
	}
	return at
}

// put cuts a line at the nodes of a way and lays it down. Its first arm hangs
// on a laid node, or on the root.
func (l *layout) put(way []int, line []geom.Point) {
	const same = 1e-7 // millimetres within which a node is the bend that was meant for it
	v := l.t.arms[way[0]].a
	l.reserve(v, line[1], line[0])
	k, here := 1, line[0]
	l.t.pos[v] = here
	for _, e := range way {
		left, path := l.t.arms[e].length, []geom.Point{here}
		for left > 0 {
			d := distance(here, line[k])
			switch {
			case math.Abs(d-left) < same && k < len(line)-1:
				here, left = line[k], 0
				k++
			case d < left && k < len(line)-1:
				here, left = line[k], left-d
				k++
			default:
				here, left = between(here, line[k], left/d), 0
			}
			path = append(path, here)
		}
		u := l.t.arms[e].b
		l.t.pos[u], l.t.path[e] = here, path
		for j := 1; j < len(path); j++ {
			l.f.add(bar{path[j-1], path[j], l.t.arms[e].half})
		}
		l.heads[v] = append(l.heads[v], bearing(path[0], path[1]))
		l.heads[u] = append(l.heads[u], bearing(path[len(path)-1], path[len(path)-2]))
		v = u
	}
	l.reserve(v, line[len(line)-2], line[len(line)-1])
}

// reserve keeps the room of a connector beyond the end of a line.
func (l *layout) reserve(v int, from, to geom.Point) {
	if end := l.t.end[v]; end > 0 && len(l.t.at[v]) == 1 {
		d := heading(bearing(from, to))
		l.f.add(bar{to, geom.Point{X: to.X + end*d.X, Y: to.Y + end*d.Y}, min(0.4*end, 40)})
	}
}

func bearing(a, b geom.Point) float64 { return math.Atan2(b.Y-a.Y, b.X-a.X) }

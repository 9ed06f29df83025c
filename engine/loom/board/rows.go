package board

import (
	"math"

	"fettle/geom"
)

// straight is a line of a length from the origin along x.
func straight(length float64) []geom.Point {
	return []geom.Point{{}, {X: length}}
}

// rows is a line of a length that goes to and fro over a board in so many rows,
// or nil where it does not fit. It turns at a breakout where one lies within a
// tenth of the width.
func rows(t *tree, way []int, width, height, margin, reserve float64, n int) []geom.Point {
	length := 0.0
	var nodes []float64
	for _, e := range way {
		length += t.arms[e].length
		nodes = append(nodes, length)
	}
	pitch := (height - 2*margin) / float64(n)
	left, right := margin+reserve, width-margin-reserve
	if right-left < 100 || pitch < 60 {
		return nil
	}
	x, y, dir, gone := left, margin+pitch/2, 1.0, 0.0
	if n == 1 && length <= right-left {
		x = (width - length) / 2
	}
	line := []geom.Point{{X: x, Y: y}}
	for row := range n {
		room := right - x
		if dir < 0 {
			room = x - left
		}
		if length-gone <= room {
			return append(line, geom.Point{X: x + dir*(length-gone), Y: y})
		}
		if row == n-1 {
			return nil
		}
		for _, at := range nodes { // bend at a breakout near the end of the row
			if s := at - gone; s <= room && s > room-width/10 && length-gone-s > pitch {
				room = s
				break
			}
		}
		x += dir * room
		line = append(line, geom.Point{X: x, Y: y})
		gone += room
		if length-gone <= pitch {
			return append(line, geom.Point{X: x, Y: y + length - gone})
		}
		y += pitch
		gone += pitch
		line = append(line, geom.Point{X: x, Y: y})
		dir = -dir
	}
	return nil
}

// wedges lays a tree in nested wedges: every branch stays in a part of its
// parent's, so nothing crosses whatever the lengths.
func wedges(t *tree, root int) {
	order := t.hang(root)
	leaves := make([]float64, t.n)
	for i := len(order) - 1; i >= 0; i-- {
		v := order[i]
		leaves[v] = max(leaves[v], 1)
		if e := t.up[v]; e >= 0 {
			leaves[t.arms[e].a] += leaves[v]
		}
	}
	type wedge struct{ from, to float64 }
	room := make([]wedge, t.n)
	room[root] = wedge{-math.Pi, math.Pi}
	t.pos[root] = geom.Point{}
	for _, v := range order {
		sum := 0.0
		for _, e := range t.at[v] {
			if e != t.up[v] {
				sum += leaves[t.arms[e].b]
			}
		}
		from := room[v].from
		for _, e := range t.at[v] {
			if e == t.up[v] {
				continue
			}
			u := t.arms[e].b
			to := from + (room[v].to-room[v].from)*leaves[u]/sum
			mid, half := (from+to)/2, min((to-from)/2, math.Pi/2-0.01)
			d := heading(mid)
			t.pos[u] = geom.Point{X: t.pos[v].X + t.arms[e].length*d.X, Y: t.pos[v].Y + t.arms[e].length*d.Y}
			t.path[e] = []geom.Point{t.pos[v], t.pos[u]}
			room[u] = wedge{mid - half, mid + half}
			from = to
		}
	}
}

package pattern

import (
	"container/heap"
	"math"

	"fettle/geom"
)

// Pole returns the place inside an outline that lies furthest from its edge, to
// within 0.5 mm of the depth, and that depth: there a label has most room. The
// box is halved over and over, the square that may hold most looked at first;
// one whose middle's depth and half diagonal cannot beat the best is dropped.
func Pole(line Line) (at geom.Point, depth float64) {
	area := geom.Polygon{Outer: line}
	box := area.Bounds()
	side := min(box.Width(), box.Height())
	if len(line) < 3 || !(side > 0) {
		return geom.Point{}, 0
	}
	at = geom.Ring(line).Centroid()
	depth = area.Depth(at)
	look := func(q *cells, middle geom.Point, half float64) {
		d := area.Depth(middle)
		if d > depth {
			at, depth = middle, d
		}
		if most := d + float64(half*math.Sqrt2); most > depth+0.5 {
			heap.Push(q, square{middle, half, most, q.made})
			q.made++
		}
	}
	q := &cells{}
	for x := box.Min.X; x < box.Max.X; x += side {
		for y := box.Min.Y; y < box.Max.Y; y += side {
			look(q, geom.Point{X: x + side/2, Y: y + side/2}, side/2)
		}
	}
	for q.Len() > 0 && q.made < 20_000 {
		c := heap.Pop(q).(square)
		if c.most <= depth+0.5 {
			break
		}
		h := c.half / 2
		for _, d := range []geom.Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			look(q, c.middle.Add(d), h)
		}
	}
	return at, depth
}

// square is a part of the plane and the most depth that it may hold.
type square struct {
	middle     geom.Point
	half, most float64
	made       int
}

// cells is a heap, the most promising first, the older of two equal ones.
type cells struct {
	list []square
	made int
}

func (c *cells) Len() int { return len(c.list) }
func (c *cells) Less(i, j int) bool {
	a, b := c.list[i], c.list[j]
	return a.most > b.most || a.most == b.most && a.made < b.made
}
func (c *cells) Swap(i, j int) { c.list[i], c.list[j] = c.list[j], c.list[i] }
func (c *cells) Push(x any)    { c.list = append(c.list, x.(square)) }
func (c *cells) Pop() any {
	last := c.list[len(c.list)-1]
	c.list = c.list[:len(c.list)-1]
	return last
}

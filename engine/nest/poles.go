package nest

import (
	"container/heap"
	"math"

	"fettle/geom"
)

// pole is a circle inside a shape.
type pole struct {
	at geom.Point
	r  float64
}

// When a shape has poles enough [Gardeyn2025]: at least so many of them that
// cover this share of its area, or mostPoles.
var poleStops = []struct {
	poles int
	cover float64
}{{8, 0.9}, {16, 0.8}}

const mostPoles = 64

// poleFineness is how close to the largest a pole's radius comes, as a share
// of the mean of the shape's box sides: many circles along a strip are nearly
// the largest.
const poleFineness = 0.002

// poles returns the largest circle inside the shape, then the largest inside
// it and outside the first, and so on, until they cover enough of it.
func poles(shape geom.Polygon) []pole {
	var found []pole
	area, covered := shape.Area(), 0.0
	for len(found) < mostPoles {
		p := nextPole(shape, found)
		if p.r <= 0 {
			break
		}
		found = append(found, p)
		covered += math.Pi * p.r * p.r
		for _, s := range poleStops {
			if len(found) >= s.poles && covered >= s.cover*area {
				return found
			}
		}
	}
	return found
}

// cell is a square with what is known of the circle at its middle.
type cell struct {
	at   geom.Point
	half float64
	r    float64 // room for a circle at the middle
	most float64 // no point of the square has more room
}

type cells []cell

func (c cells) Len() int           { return len(c) }
func (c cells) Less(i, j int) bool { return c[i].most > c[j].most }
func (c cells) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cells) Push(x any)        { *c = append(*c, x.(cell)) }
func (c *cells) Pop() any {
	last := len(*c) - 1
	x := (*c)[last]
	*c = (*c)[:last]
	return x
}

// nextPole finds the largest circle inside the shape and outside those found,
// to within poleFineness: best-first search of a quadtree, as room changes by
// no more than one moves.
func nextPole(shape geom.Polygon, found []pole) pole {
	box := shape.Bounds()
	side := min(box.Width(), box.Height())
	fine := poleFineness * math.Sqrt(box.Width()*box.Height())
	queue := &cells{}
	var best pole
	// A cell that cannot hold a better one is not looked at closely.
	add := func(at geom.Point, half float64) cell {
		reach, enough := half*math.Sqrt2, best.r+fine
		c := cell{at: at, half: half, r: outside(found, at)}
		if c.r+reach > enough {
			c.r = min(c.r, shape.Depth(at))
		}
		if c.most = c.r + reach; c.most <= enough {
			c.r = 0
			return c
		}
		heap.Push(queue, c)
		return c
	}
	keep := func(c cell) {
		if c.r > best.r {
			best = pole{c.at, c.r}
		}
	}
	half := side / 2
	for x := box.Min.X + half; x-half < box.Max.X; x += 2 * half {
		for y := box.Min.Y + half; y-half < box.Max.Y; y += 2 * half {
			keep(add(geom.Point{X: x, Y: y}, half))
		}
	}
	for queue.Len() > 0 {
		c := heap.Pop(queue).(cell)
		if c.most <= best.r+fine {
			break
		}
		h := c.half / 2
		for _, d := range [4]geom.Point{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			keep(add(c.at.Add(d), h))
		}
	}
	return best
}

// outside returns the radius of the largest circle about a place that stays
// outside the poles; negative where there is none.
func outside(found []pole, at geom.Point) float64 {
	r := math.Inf(1)
	for _, p := range found {
		d := at.Sub(p.at)
		r = min(r, math.Sqrt(float64(d.X*d.X)+float64(d.Y*d.Y))-p.r)
	}
	return r
}

package board

import (
	"math"

	"fettle/geom"
)

// bar is a laid piece of line with half a thickness.
type bar struct {
	a, b geom.Point
	half float64
}

// field is all that is laid, in square cells for quick asking.
type field struct {
	bars   []bar
	thick  float64 // half thickness of the thickest
	cells  map[[2]int32][]int32
	bound  geom.Point // far corner of the board less its margin; 0 for none
	margin float64
	halos  []geom.Point // waypoints whose branches are still to be laid
}

// halo is the room kept round such a waypoint, so that its branches get out.
const halo = 60.0 // millimetres

const cell = 240.0 // millimetres

// add lays a bar down.
func (f *field) add(b bar) int {
	id := int32(len(f.bars))
	f.bars = append(f.bars, b)
	f.thick = max(f.thick, b.half)
	steps := int(math.Ceil(distance(b.a, b.b)/(cell/2))) + 1
	last := [2]int32{math.MinInt32, 0}
	for i := range steps + 1 {
		p := between(b.a, b.b, float64(i)/float64(steps))
		// A bar is put in all cells around each of its points, so that asking
		// one cell tells all that lies within half a cell.
		c := [2]int32{int32(math.Floor(p.X / cell)), int32(math.Floor(p.Y / cell))}
		if c == last {
			continue
		}
		last = c
		for dx := int32(-1); dx <= 1; dx++ {
			for dy := int32(-1); dy <= 1; dy++ {
				k := [2]int32{c[0] + dx, c[1] + dy}
				if l := f.cells[k]; len(l) == 0 || l[len(l)-1] != id {
					f.cells[k] = append(l, id)
				}
			}
		}
	}
	return int(id)
}

// near is the distance from a point to what lies nearest, its thickness, at most
// so much, taken off, or the most that asking one cell can tell; bars at the
// given point are left out, they meet there.
func (f *field) near(p, meet geom.Point, own []bar, thick float64) float64 {
	d := cell/2 - f.thick
	for _, id := range f.cells[[2]int32{int32(math.Floor(p.X / cell)), int32(math.Floor(p.Y / cell))}] {
		b := &f.bars[id]
		if b.a == meet || b.b == meet {
			continue
		}
		d = min(d, toBar(p, b)-min(b.half, thick))
	}
	for _, h := range f.halos {
		d = min(d, distance(p, h)-min(halo, thick))
	}
	for i := range own {
		d = min(d, toBar(p, &own[i])-min(own[i].half, thick))
	}
	if f.bound.X > 0 {
		d = min(d, p.X-f.margin, f.bound.X-p.X)
	}
	if f.bound.Y > 0 {
		d = min(d, p.Y-f.margin, f.bound.Y-p.Y)
	}
	return d
}

// run is how far a ray is free, at most so far: what lies near must stay off by
// apart beyond half the ray's thickness, less where the ray begins. A step by
// what is free never leaps over a bar: the distance falls by no more than the
// way gone, and what is asked grows by no more than its opening.
func (f *field) run(from, dir geom.Point, most, apart, half float64, own []bar) float64 {
	const opening, swell = 0.4, 0.2 // of the way gone, by which clearance and thickness grow
	s := 0.0
	for s < most {
		p := geom.Point{X: from.X + float64(s*dir.X), Y: from.Y + float64(s*dir.Y)}
		free := f.near(p, from, own, swell*s) - min(apart+half, opening*s)
		if s == 0 {
			free = max(free, 0.5)
		}
		if free < 0.25 {
			return max(s-0.25, 0)
		}
		s += free / (1 + opening + swell)
	}
	return most
}

func distance(a, b geom.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

func between(a, b geom.Point, t float64) geom.Point {
	return geom.Point{X: a.X + float64(t*(b.X-a.X)), Y: a.Y + float64(t*(b.Y-a.Y))}
}

// toBar is the distance from a point to the middle of a bar.
func toBar(p geom.Point, b *bar) float64 {
	dx, dy := b.b.X-b.a.X, b.b.Y-b.a.Y
	t := 0.0
	if l := float64(dx*dx) + float64(dy*dy); l > 0 {
		t = max(0, min(1, (float64((p.X-b.a.X)*dx)+float64((p.Y-b.a.Y)*dy))/l))
	}
	x, y := b.a.X+float64(t*dx)-p.X, b.a.Y+float64(t*dy)-p.Y
	return math.Sqrt(float64(x*x) + float64(y*y))
}

// heading is the unit vector of an angle.
func heading(angle float64) geom.Point { return geom.Point{X: math.Cos(angle), Y: math.Sin(angle)} }

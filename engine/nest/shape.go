package nest

import (
	"math"
	"math/bits"
	"slices"

	"fettle/geom"
)

// form is a piece made ready for the search: every way it may be turned, and
// the sizes that do not depend on it.
type form struct {
	turns    []turn
	area     float64
	hull     float64 // area of the convex hull
	reach    float64 // fourth root of hull: the piece's share in the size of a loss
	diameter float64 // longest distance between two corners
}

// turn is a piece mirrored and turned about the origin of its own
// coordinates. All is in flat arrays, for the sake of the inner loops.
type turn struct {
	rotation float64 // degrees
	mirrored bool
	box      geom.Box
	side     float64    // smaller side of the box
	centre   geom.Point // centroid of the outer ring
	edges    edges
	px, py   []float64 // poles, about largest first
	pr       []float64
	circles  circles // the same for the inner loops
}

// edges are straight pieces from a to b.
type edges struct{ ax, ay, bx, by []float64 }

func (e *edges) add(a, b geom.Point) {
	e.ax, e.ay = append(e.ax, a.X), append(e.ay, a.Y)
	e.bx, e.by = append(e.bx, b.X), append(e.by, b.Y)
}

// freeTurns is how many evenly spread angles stand for any angle.
const freeTurns = 72

// newForm prepares a piece.
func newForm(p *Piece, gap float64) form {
	shape := simplified(p.Shape)
	hull := geom.Hull(shape.Outer)
	f := form{area: p.Shape.Area(), hull: geom.RingArea(hull)}
	f.reach = math.Sqrt(math.Sqrt(f.hull))
	for _, a := range hull {
		for _, b := range hull {
			f.diameter = max(f.diameter, a.Distance(b))
		}
	}
	circles := poles(shape)
	for _, angle := range angles(p) {
		f.turns = append(f.turns, newTurn(shape, circles, angle, false, gap))
		if p.Mirror {
			f.turns = append(f.turns, newTurn(shape, circles, angle, true, gap))
		}
	}
	return f
}

// angles lists the turns of a piece, each once.
func angles(p *Piece) []float64 {
	if p.Free {
		all := make([]float64, freeTurns)
		for i := range all {
			all[i] = float64(i) * 360 / freeTurns
		}
		return all
	}
	if len(p.Rotations) == 0 {
		return []float64{0}
	}
	var list []float64
	for _, a := range p.Rotations {
		if !slices.Contains(list, a) {
			list = append(list, a)
		}
	}
	return list
}

func newTurn(shape geom.Polygon, circles []pole, rotation float64, mirrored bool, gap float64) turn {
	t := turn{rotation: rotation, mirrored: mirrored}
	lay := placer(Placement{Rotation: rotation, Mirrored: mirrored})
	var outer []geom.Point
	for _, q := range shape.Outer {
		outer = append(outer, lay(q))
	}
	t.box = geom.Polygon{Outer: outer}.Bounds()
	t.centre = geom.Ring(outer).Centroid()
	t.side = min(t.box.Width(), t.box.Height())
	t.box.Min, t.box.Max = geom.Point{X: t.box.Min.X - gap/2, Y: t.box.Min.Y - gap/2}, geom.Point{X: t.box.Max.X + gap/2, Y: t.box.Max.Y + gap/2}
	for _, ring := range shape.Rings() {
		for _, i := range spread(len(ring)) {
			t.edges.add(lay(ring[i]), lay(ring[(i+1)%len(ring)]))
		}
	}
	var laid []pole
	for _, c := range circles {
		at := lay(c.at)
		t.px, t.py, t.pr = append(t.px, at.X), append(t.py, at.Y), append(t.pr, c.r+gap/2)
		laid = append(laid, pole{at, c.r + gap/2})
	}
	t.circles = newCircles(laid, geom.Point{X: (t.box.Min.X + t.box.Max.X) / 2, Y: (t.box.Min.Y + t.box.Max.Y) / 2})
	return t
}

// spread returns 0 to n-1 in bit-reversed order, so that the first few of a
// ring's edges already lie all around it.
func spread(n int) []int {
	var order []int
	width := bits.Len(uint(max(n-1, 0)))
	for i := range 1 << width {
		if j := int(bits.Reverse(uint(i)) >> (bits.UintSize - width)); j < n {
			order = append(order, j)
		}
	}
	return order
}

// placer returns the map from a piece's own coordinates to where it lies.
func placer(p Placement) func(geom.Point) geom.Point {
	sin, cos := heading(p.Rotation)
	flip := 1.0
	if p.Mirrored {
		flip = -1
	}
	return func(q geom.Point) geom.Point {
		x := flip * q.X
		return geom.Point{
			X: float64(cos*x) - float64(sin*q.Y) + p.X,
			Y: float64(sin*x) + float64(cos*q.Y) + p.Y,
		}
	}
}

// heading returns sine and cosine, exact for quarter turns.
func heading(degrees float64) (sin, cos float64) {
	switch math.Mod(math.Mod(degrees, 360)+360, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(degrees * math.Pi / 180)
}

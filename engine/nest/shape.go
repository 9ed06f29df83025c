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
	base     turn   // as the piece is given
	turns    []turn // the angles allowed; of any angle, those that draws start from
	free     bool   // any angle will do
	asks     []int  // quality that each part asks for; none where all of the piece asks for one
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
	loose    bool  // worked out where it was needed, and again where it is needed otherwise: see spin
	of       *turn // of a loose one: what was turned
	box      geom.Box
	around   float64    // what the box leaves around the edges
	side     float64    // smaller side of the edges' box
	centre   geom.Point // centroid of the outer ring
	anchor   geom.Point // what keeps to a pattern
	edges    edges
	clumps   []geom.Box // of every clump edges
	px, py   []float64  // poles, about largest first
	pr       []float64
	circles  circles // the same for the inner loops
	parts    []turn  // those that ask for a quality of their own, and what they leave of the piece
}

// edges are straight pieces from a to b.
type edges struct{ ax, ay, bx, by []float64 }

func (e *edges) add(a, b geom.Point) {
	e.ax, e.ay = append(e.ax, a.X), append(e.ay, a.Y)
	e.bx, e.by = append(e.bx, b.X), append(e.by, b.Y)
}

// freeTurns is how many evenly spread angles are drawn from where any will do
// [Gardeyn2025]; descents find those between.
const freeTurns = 16

// newForm prepares a piece.
func newForm(p *Piece, headings []float64, gap float64) form {
	shape := simplified(p.Shape)
	hull := geom.Hull(shape.Outer)
	f := form{area: p.Shape.Area(), hull: geom.RingArea(hull), free: p.Free}
	f.reach = math.Sqrt(math.Sqrt(f.hull))
	for _, a := range hull {
		for _, b := range hull {
			f.diameter = max(f.diameter, a.Distance(b))
		}
	}
	f.base = newTurn(shape, gap)
	f.base.centre = geom.Ring(p.Shape.Outer).Centroid()
	if p.Match != nil {
		f.base.anchor = p.Match.Anchor
	}
	for _, z := range portionsOf(p) {
		f.asks, f.base.parts = append(f.asks, z.Quality), append(f.base.parts, newTurn(z.Shape, 0))
	}
	for _, angle := range angles(p, headings) {
		for _, mirrored := range p.faces() {
			f.turns = append(f.turns, f.base.turned(angle, mirrored))
		}
	}
	return f
}

// faces lists how a piece may lie: as it is given, mirrored, or both.
func (p *Piece) faces() []bool {
	switch {
	case p.FaceDown:
		return []bool{true}
	case p.Mirror:
		return []bool{false, true}
	}
	return []bool{false}
}

// angles lists the turns of a piece, each once. Of any angle and a tight
// direction they are those that follow the headings of the material.
func angles(p *Piece, headings []float64) []float64 {
	asked := p.Rotations
	switch {
	case p.Free && p.Axis != nil && len(headings) <= mostHeadings:
		asked = nil
		for _, h := range headings {
			asked = append(asked, p.Axis.follow(h, p.faces())...)
		}
	case p.Free:
		asked = nil
		for i := range freeTurns {
			asked = append(asked, float64(i)*360/freeTurns)
		}
	case len(asked) == 0:
		return []float64{0}
	}
	var list []float64
	for _, a := range asked {
		if !slices.Contains(list, a) {
			list = append(list, a)
		}
	}
	return list
}

// mostHeadings is up to how many headings have turns of their own.
const mostHeadings = 48

// follow lists turns at which the tight direction of a piece is that of the
// material, or near the limits of what it may stray.
func (a *Axis) follow(heading float64, faces []bool) []float64 {
	var list []float64
	for _, mirrored := range faces {
		for _, half := range [2]float64{0, 180} {
			if a.OneWay && half > 0 {
				continue
			}
			for _, share := range [3]float64{0, -0.6, 0.6} {
				turn := half - a.off(heading, 0, mirrored) + float64(share*min(a.Tolerance, 90))
				list = append(list, math.Mod(turn+720, 360))
			}
		}
	}
	return list
}

// newTurn returns a shape as it is given, with half a gap about its box and its
// circles.
func newTurn(shape geom.Polygon, gap float64) turn {
	var t turn
	for _, ring := range shape.Rings() {
		for _, i := range clumped(len(ring)) {
			t.edges.add(ring[i], ring[(i+1)%len(ring)])
		}
	}
	for _, c := range poles(shape) {
		t.px, t.py, t.pr = append(t.px, c.at.X), append(t.py, c.at.Y), append(t.pr, c.r+gap/2)
	}
	t.measure(gap / 2)
	return t
}

// clump is how many edges share a box.
const clump = 8

// clumped returns 0 to n-1 in clumps of neighbours, and these in an order in
// which the first few already lie all around a ring.
func clumped(n int) []int {
	var order []int
	for _, k := range spread(n / clump) {
		for i := range clump {
			order = append(order, k*clump+i)
		}
	}
	for i := len(order); i < n; i++ {
		order = append(order, i)
	}
	return order
}

// clump appends to a list the boxes of every clump edges, with a margin about
// them.
func (e *edges) clump(list []geom.Box, margin float64) []geom.Box {
	for i, ax := range e.ax {
		b := around(*boxOf(ax, e.ay[i], e.bx[i], e.by[i]), margin)
		if i%clump == 0 {
			list = append(list, b)
			continue
		}
		last := &list[len(list)-1]
		*last = last.Union(b)
	}
	return list
}

// spread returns 0 to n-1 in bit-reversed order.
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

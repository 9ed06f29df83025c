package outline

import (
	"math"

	"fettle/geom"
)

// Conic is a piece of an ellipse: Centre + U cos t + V sin t, for t from From
// through Sweep, radians. U and V need not be at right angles.
type Conic struct {
	Centre, U, V geom.Point
	From, Sweep  float64
}

// Circle returns a piece of a circle.
func Circle(centre geom.Point, r, from, sweep float64) Conic {
	return Conic{centre, geom.Point{X: r}, geom.Point{Y: r}, from, sweep}
}

// Bulge returns the arc from a to b of a DXF bulge: the tangent of a quarter
// of its angle, positive anticlockwise. The bulge must not be 0.
func Bulge(a, b geom.Point, bulge float64) Conic {
	d := b.Sub(a)
	aside := geom.Point{X: -d.Y, Y: d.X}.Scale((1 - bulge*bulge) / (4 * bulge))
	c := a.Add(b).Scale(0.5).Add(aside)
	from := a.Sub(c)
	return Circle(c, a.Distance(c), math.Atan2(from.Y, from.X), 4*math.Atan(bulge))
}

// Map returns the piece under an affine map, which is one too.
func (c Conic) Map(m Affine) Conic {
	c.Centre, c.U, c.V = m.Point(c.Centre), m.Step(c.U), m.Step(c.V)
	return c
}

// At returns the point at parameter t, radians.
func (c Conic) At(t float64) geom.Point {
	s, k := math.Sincos(t)
	return c.Centre.Add(c.U.Scale(k)).Add(c.V.Scale(s))
}

// reach returns the larger half axis: the larger singular value of U and V.
func (c Conic) reach() float64 {
	u, v := float64(c.U.X*c.U.X)+float64(c.U.Y*c.U.Y), float64(c.V.X*c.V.X)+float64(c.V.Y*c.V.Y)
	dot := float64(c.U.X*c.V.X) + float64(c.U.Y*c.V.Y)
	return math.Sqrt((u + v + math.Hypot(u-v, 2*dot)) / 2)
}

// steps returns the number of equal chords that keep within tolerance. A chord
// over the angle h strays by at most reach (1 − cos h/2) = 2 reach sin² h/4.
// An eighth of a turn is the longest chord, so that small holes stay round.
func (c Conic) steps(tolerance float64) int {
	h := 4 * math.Asin(math.Sqrt(min(1, tolerance/(2*c.reach()))))
	n := math.Ceil(math.Abs(c.Sweep) / min(h, math.Pi/4))
	if !(n < MaxVertices) {
		return MaxVertices + 1
	}
	return max(int(n), 1)
}

// Flatten appends the points of the piece after its start, the last one
// included, so that no chord strays further than tolerance.
func (c Conic) Flatten(line []geom.Point, tolerance float64) []geom.Point {
	n := c.steps(tolerance)
	for i := 1; i <= n; i++ {
		line = append(line, c.At(c.From+float64(c.Sweep*float64(i)/float64(n))))
	}
	return line
}

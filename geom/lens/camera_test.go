package lens_test

import (
	"math"
	"math/rand/v2"

	"fettle/geom"
	"fettle/geom/lens"
)

// camera is a pinhole above a table with a lens that bends: focal length and
// bend in half diagonals.
type camera struct {
	w, h   float64
	focal  float64
	k1, k2 float64
	at     [3]float64    // mm above the table's origin
	axes   [3][3]float64 // right, up and backwards of the camera
}

// above is a camera that looks at a point of the table from a height, tilted by
// two angles and turned about its axis.
func above(at geom.Point, height, tiltX, tiltY, turn float64) camera {
	c := camera{w: 4000, h: 3000, focal: 1.3, axes: [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}
	c.turn(0, 1, turn)
	c.turn(1, 2, tiltX)
	c.turn(2, 0, tiltY)
	// The middle of the picture still shows the point.
	far := height / c.axes[2][2]
	c.at = [3]float64{at.X + far*c.axes[2][0], at.Y + far*c.axes[2][1], height}
	return c
}

func (c *camera) turn(i, k int, angle float64) {
	sin, cos := math.Sincos(angle)
	for n := range 3 {
		a, b := c.axes[i][n], c.axes[k][n]
		c.axes[i][n], c.axes[k][n] = cos*a+sin*b, cos*b-sin*a
	}
}

// sees is where the camera shows a point of the table, in pixels.
func (c camera) sees(p geom.Point) geom.Point {
	way := [3]float64{p.X - c.at[0], p.Y - c.at[1], -c.at[2]}
	var in [3]float64
	for i, a := range c.axes {
		in[i] = a[0]*way[0] + a[1]*way[1] + a[2]*way[2]
	}
	u := geom.Point{X: -c.focal * in[0] / in[2], Y: -c.focal * in[1] / in[2]}
	// The correction is by the distance as seen: turned round by Newton's steps.
	ru := math.Hypot(u.X, u.Y)
	r := ru
	for range 30 {
		r -= (r*(1+c.k1*r*r+c.k2*r*r*r*r) - ru) / (1 + 3*c.k1*r*r + 5*c.k2*r*r*r*r)
	}
	half := math.Hypot(c.w, c.h) / 2
	if ru > 0 {
		u = u.Scale(r / ru)
	}
	return geom.Point{X: c.w/2 + half*u.X, Y: c.h/2 - half*u.Y}
}

func (c camera) all(points []geom.Point) []geom.Point {
	out := make([]geom.Point, len(points))
	for i, p := range points {
		out[i] = c.sees(p)
	}
	return out
}

// hand taps beside where it means to.
type hand struct {
	*rand.Rand
	noise float64
}

func (h hand) tap(p geom.Point) geom.Point {
	return geom.Point{X: p.X + h.noise*h.NormFloat64(), Y: p.Y + h.noise*h.NormFloat64()}
}

func (h hand) taps(list []geom.Point) []geom.Point {
	out := make([]geom.Point, len(list))
	for i, p := range list {
		out[i] = h.tap(p)
	}
	return out
}

// marks taps a patch that lies at a place and an angle, made with a tape.
func (h hand) marks(c camera, is []geom.Point, at geom.Point, angle, tape float64) []lens.Mark {
	sin, cos := math.Sincos(angle)
	out := make([]lens.Mark, len(is))
	for i, p := range is {
		q := geom.Point{X: p.X + tape*h.NormFloat64(), Y: p.Y + tape*h.NormFloat64()}
		out[i] = lens.Mark{Is: p, At: h.tap(c.sees(geom.Point{X: at.X + cos*q.X - sin*q.Y, Y: at.Y + sin*q.X + cos*q.Y}))}
	}
	return out
}

// box is the corners of a rectangle about the origin of the table's axes.
func box(w, h float64) []geom.Point {
	return []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

// hide is an outline of about 5 m² about the origin, in n points.
func hide(n int) []geom.Point {
	out := make([]geom.Point, n)
	for i := range out {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := 1 + 0.12*math.Cos(4*a+0.6) + 0.05*math.Sin(7*a)
		out[i] = geom.Point{X: 1050 * r * math.Cos(a), Y: 1300 * r * math.Sin(a)}
	}
	return out
}

// straights are points along the edges of a table around the hide, and one
// plank across it.
func straights(c camera) [][]geom.Point {
	var out [][]geom.Point
	for _, l := range [][2]geom.Point{{{X: -1500, Y: -1500}, {X: 1500, Y: -1480}}, {{X: 1480, Y: -1400}, {X: 1500, Y: 1400}}, {{X: -1500, Y: 1490}, {X: 1500, Y: 1500}}} {
		var line []geom.Point
		for i := range 7 {
			line = append(line, c.sees(l[0].Add(l[1].Sub(l[0]).Scale(float64(i)/6))))
		}
		out = append(out, line)
	}
	return out
}

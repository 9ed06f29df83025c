package svg

import (
	"math"
	"strconv"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
)

// pen draws strokes. Lines and curves go through the small path language of
// package geom, in millimetres, a part of a stroke at a time; arcs are cut as
// conics.
type pen struct {
	m         outline.Affine // from the element's units to millimetres
	tolerance float64
	add       func(points []geom.Point, closed bool) error
	points    []geom.Point // of the stroke so far, millimetres
	text      []byte       // what goes on from there and is not cut yet
	at, start geom.Point   // in the element's units
	err       error        // the first fault; after it nothing counts
}

// longest is how much text waits before it is cut, in bytes.
const longest = 1 << 14

func (p *pen) move(to geom.Point) {
	p.lift(false)
	p.at, p.start = to, to
	p.resume()
}

// resume begins a stroke at the pen, as SVG does after one is closed.
func (p *pen) resume() {
	if len(p.points) == 0 {
		p.points = append(p.points, p.m.Point(p.at))
	}
}

// step adds one command of the small language, which ends at its last point.
func (p *pen) step(letter byte, points ...geom.Point) {
	p.resume()
	if len(p.text) == 0 {
		p.text = append(p.text, 'M')
		p.place(p.points[len(p.points)-1])
	}
	p.text = append(p.text, letter)
	for _, q := range points {
		p.place(p.m.Point(q))
	}
	p.at = points[len(points)-1]
	if len(p.text) > longest {
		p.cut()
	}
}

// place writes a point in millimetres.
func (p *pen) place(q geom.Point) {
	if !(math.Abs(q.X) <= 1e7 && math.Abs(q.Y) <= 1e7) {
		p.fail(fault.New(fault.Invalid, "the place %.4g, %.4g mm lies further out than 10 km", q.X, q.Y).
			WithHint("Is the unit of the file right? Move the drawing to its origin."))
	}
	for _, v := range []float64{q.X, q.Y} {
		p.text = append(p.text, ' ')
		p.text = strconv.AppendFloat(p.text, v, 'f', -1, 64)
	}
}

func (p *pen) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// cut turns the text that waits into points.
func (p *pen) cut() {
	if len(p.text) == 0 || p.err != nil {
		return
	}
	path, err := geom.ParsePath(string(p.text))
	if p.text = p.text[:0]; err != nil {
		p.fail(err)
		return
	}
	p.grow(append(p.points, path.Flatten(p.tolerance)[0][1:]...))
}

func (p *pen) grow(points []geom.Point) {
	if p.points = points; len(points) > outline.MaxVertices {
		p.fail(fault.New(fault.TooLarge, "one stroke has more than %d points", outline.MaxVertices).
			WithHint("Save only the pieces, or flatten more coarsely."))
	}
}

func (p *pen) line(to geom.Point) { p.step('L', to) }

// cubic draws a curve, halved until package geom can cut each part within the
// tolerance: it makes at most 512 chords of one, each of which strays by at
// most 6/8 of the second difference of the control points over their square.
func (p *pen) cubic(c1, c2, to geom.Point) {
	from := p.at
	bend := max(p.m.Step(second(from, c1, c2)).Distance(geom.Point{}), p.m.Step(second(c1, c2, to)).Distance(geom.Point{}))
	if bend > 500*500*p.tolerance*8/6 && bend < 1e8 {
		a, m, b := middle(from, c1), middle(c1, c2), middle(c2, to)
		am, mb := middle(a, m), middle(m, b)
		p.cubic(a, am, middle(am, mb))
		p.cubic(mb, b, to)
		return
	}
	p.step('C', c1, c2, to)
}

// quad draws the cubic of the same shape.
func (p *pen) quad(c, to geom.Point) {
	third := c.Scale(2.0 / 3)
	p.cubic(p.at.Scale(1.0/3).Add(third), to.Scale(1.0/3).Add(third), to)
}

func middle(a, b geom.Point) geom.Point { return a.Add(b).Scale(0.5) }

// second returns the second difference of three control points.
func second(a, b, c geom.Point) geom.Point { return a.Sub(b).Add(c.Sub(b)) }

// conic draws a piece of an ellipse, given in the element's units, to a point.
func (p *pen) conic(c outline.Conic, to geom.Point) {
	p.resume()
	p.cut()
	points := c.Map(p.m).Flatten(p.points, p.tolerance)
	points[len(points)-1] = p.m.Point(to)
	p.grow(points)
	p.at = to
}

func (p *pen) close() {
	p.resume()
	p.lift(true)
	p.at = p.start
}

// lift ends the stroke and hands it on; a move alone draws nothing.
func (p *pen) lift(closed bool) {
	p.cut()
	if p.err == nil && (closed || len(p.points) > 1) {
		p.fail(p.add(p.points, closed))
	}
	p.points = p.points[:0]
}

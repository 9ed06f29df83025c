package nest

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// Remnant is a rectangle of a sheet that nothing lies on: what is left in one
// piece, to cut from another day.
type Remnant struct {
	Container, Sheet int
	Corners          [4]geom.Point // anticlockwise
	Length, Width    float64       // Length is the longer
}

// Area is that of the rectangle.
func (r Remnant) Area() float64 { return r.Length * r.Width }

// Remnants returns for every sheet that something lies on, by container and
// number, the largest rectangle found that keeps clearance and kerf to all
// pieces, and the margin to outline, holes, keep-outs and every zone. It has
// passed CheckPart as a piece that asks for material without any zone. It is
// the largest that was found: a larger one may be there, and where there is
// none of a size the sheet is left out. On a sheet with four square corners it
// lies along its edges, on others at one of some angles. A roll leaves its end,
// and has none. A layout that does not pass CheckPart is a fault.
func Remnants(p Problem, placements []Placement) ([]Remnant, error) {
	if _, err := CheckPart(p, placements); err != nil {
		return nil, err
	}
	if p.Kind == Strip {
		return nil, nil
	}
	var list []Remnant
	for _, on := range sheetsOf(placements) {
		one, ok, err := remnantOf(&p, on)
		if err != nil {
			return nil, fault.Within(err, fmt.Sprintf("what is left of material %s", p.Containers[on[0].Container].ID))
		}
		if ok {
			list = append(list, one)
		}
	}
	return list, nil
}

// sheetsOf parts placements by the sheet they lie on.
func sheetsOf(placements []Placement) [][]Placement {
	list := slices.Clone(placements)
	order := func(a, b Placement) int {
		return cmp.Or(cmp.Compare(a.Container, b.Container), cmp.Compare(a.Sheet, b.Sheet))
	}
	slices.SortStableFunc(list, order)
	var sheets [][]Placement
	for i, at := range list {
		if i == 0 || order(list[i-1], at) != 0 {
			sheets = append(sheets, nil)
		}
		sheets[len(sheets)-1] = append(sheets[len(sheets)-1], at)
	}
	return sheets
}

// What is looked at on a sheet without four square corners: this many angles in
// a quarter turn, and then twice as close about the best.
const (
	remnantAngles = 6
	remnantCloser = 2
)

// remnantOf looks for the largest rectangle on one sheet.
func remnantOf(p *Problem, on []Placement) (Remnant, bool, error) {
	c := newClutter(p, on)
	angles, closer := []float64{c.along}, 0
	if !c.square {
		closer = remnantCloser
		for i := 1; i < remnantAngles; i++ {
			angles = append(angles, c.along+float64(i)*90/remnantAngles)
		}
	}
	best, angle := geom.Box{}, 0.0
	look := func(list ...float64) {
		for _, a := range list {
			if b := c.turned(-a).largest(); extent(b) > extent(best) {
				best, angle = b, a
			}
		}
	}
	look(angles...)
	for step := 90.0 / remnantAngles / 2; closer > 0; step, closer = step/2, closer-1 {
		look(angle-step, angle+step)
	}
	if extent(best) == 0 {
		return Remnant{}, false, nil
	}
	best = c.turned(-angle).traded(best)
	r := Remnant{Container: on[0].Container, Sheet: on[0].Sheet, Corners: cornersAt(best, angle)}
	r.Length, r.Width = max(best.Width(), best.Height()), min(best.Width(), best.Height())
	return r, true, r.check(p, on)
}

func extent(b geom.Box) float64 { return b.Width() * b.Height() }

// cornersAt are those of a box turned about the origin.
func cornersAt(b geom.Box, degrees float64) (out [4]geom.Point) {
	sin, cos := heading(degrees)
	for i, q := range [4]geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		out[i] = geom.Point{X: float64(q.X*cos) - float64(q.Y*sin), Y: float64(q.X*sin) + float64(q.Y*cos)}
	}
	return out
}

// check holds the rectangle to the exact check, as a piece beside those that
// lie on the sheet.
func (r Remnant) check(p *Problem, on []Placement) error {
	one := Problem{Kind: Bins, Clearance: p.Clearance, Kerf: p.Kerf, Containers: []Container{p.Containers[r.Container]}}
	one.Containers[0].Count = 1
	var list []Placement
	add := func(piece Piece, at Placement) {
		at.Piece, at.Copy, at.Container, at.Sheet = len(list), 0, 0, 0
		piece.Count, piece.Pair, piece.Group, piece.Locked = 1, "", "", []Placement{at}
		one.Pieces, list = append(one.Pieces, piece), append(list, at)
	}
	for _, at := range on {
		add(p.Pieces[at.Piece], at)
	}
	add(Piece{ID: "remnant", Shape: geom.Polygon{Outer: r.Corners[:]}}, Placement{})
	if _, err := CheckPart(one, list); err != nil {
		return &fault.Fault{Kind: fault.Internal, Msg: "the remnant failed its own check: " + err.Error(), Cause: err}
	}
	return nil
}

// wall is an edge that a rectangle keeps a distance to.
type wall struct {
	a, b geom.Point
	keep float64
}

// clutter is what a rectangle on a sheet keeps clear of.
type clutter struct {
	outline geom.Polygon
	solids  []geom.Polygon
	walls   []wall
	along   float64 // direction of the longest edge of the outline, degrees
	square  bool    // the outline has four square corners
}

// remnantHair is what is kept clear beside the distances asked for, as a share
// of the size of all: the check rounds to a grid.
const remnantHair = 1e-7

func newClutter(p *Problem, on []Placement) *clutter {
	m := &p.Containers[on[0].Container]
	box := m.Outline.Bounds()
	c := &clutter{outline: geom.Polygon{Outer: m.Outline.Outer}}
	hair := remnantHair * max(math.Abs(box.Min.X), math.Abs(box.Min.Y), math.Abs(box.Max.X), math.Abs(box.Max.Y))
	c.wall(c.outline, m.Margin+hair)
	for _, h := range m.Outline.Holes {
		c.solid(geom.Polygon{Outer: h}, m.Margin+hair)
	}
	for _, k := range m.KeepOut {
		c.solid(k, m.Margin+hair)
	}
	for _, z := range m.Zones {
		c.solid(z.Shape, m.Margin+hair)
	}
	for _, at := range on {
		c.solid(at.Lay(p.Pieces[at.Piece].Shape), p.Clearance+p.Kerf+hair)
	}
	c.measure()
	return c
}

func (c *clutter) solid(p geom.Polygon, keep float64) {
	c.solids = append(c.solids, p)
	c.wall(p, keep)
}

func (c *clutter) wall(p geom.Polygon, keep float64) {
	for _, ring := range p.Rings() {
		for i, q := range ring {
			c.walls = append(c.walls, wall{q, ring[(i+1)%len(ring)], keep})
		}
	}
}

// squareTo is how far the corners of a sheet may be from square to count so:
// the cosine.
const squareTo = 1e-6

// measure finds the direction of the outline, and whether it is a rectangle.
func (c *clutter) measure() {
	ring, longest := c.outline.Outer, 0.0
	c.square = len(ring) == 4
	for i, q := range ring {
		next, after := ring[(i+1)%len(ring)], ring[(i+2)%len(ring)]
		d, e := next.Sub(q), after.Sub(next)
		length := math.Hypot(d.X, d.Y)
		if length > longest {
			longest, c.along = length, math.Atan2(d.Y, d.X)*180/math.Pi
		}
		c.square = c.square && math.Abs(float64(d.X*e.X)+float64(d.Y*e.Y)) < squareTo*length*math.Hypot(e.X, e.Y)
	}
}

// turned returns it turned about the origin.
func (c *clutter) turned(degrees float64) *clutter {
	at := Placement{Rotation: degrees}
	o := &clutter{outline: at.Lay(c.outline)}
	for _, s := range c.solids {
		o.solids = append(o.solids, at.Lay(s))
	}
	sin, cos := heading(degrees)
	turn := func(q geom.Point) geom.Point {
		return geom.Point{X: float64(q.X*cos) - float64(q.Y*sin), Y: float64(q.X*sin) + float64(q.Y*cos)}
	}
	for _, w := range c.walls {
		o.walls = append(o.walls, wall{turn(w.a), turn(w.b), w.keep})
	}
	return o
}

package dxf

import (
	"math"

	"fettle/geom"
	"fettle/geom/outline"
)

// shape is one thing read: a stroke or an insert.
type shape interface {
	// place draws the shape through m onto the placer.
	place(p *placer, m outline.Affine) error
}

// kin is what all shapes have: their layer, their line and the map from their
// own axes.
type kin struct {
	layer string
	line  int
	own   outline.Affine
}

func (e entity) kin() (kin, error) {
	own, err := e.facing()
	return kin{e.name(8), e.line, own}, err
}

// kinds are the entities that stand for themselves.
var kinds = map[string]func(entity) (shape, error){
	"LINE": readLine, "ARC": readArc, "CIRCLE": readArc, "ELLIPSE": readEllipse,
	"LWPOLYLINE": readLight, "SPLINE": readSpline, "INSERT": readInsert,
}

// vertex is a corner; bulge bends the piece to the next one.
type vertex struct {
	at    geom.Point
	bulge float64
}

type polyline struct {
	kin
	closed   bool
	vertices []vertex
}

func readLine(e entity) (shape, error) {
	k, err := e.kin()
	if err != nil {
		return nil, err
	}
	v, err := e.numbers(10, 20, 11, 21)
	if err != nil {
		return nil, err
	}
	k.own = outline.Identity() // the ends of a line are given in the drawing's axes
	return polyline{k, false, []vertex{{at: geom.Point{X: v[0], Y: v[1]}}, {at: geom.Point{X: v[2], Y: v[3]}}}}, nil
}

func readLight(e entity) (shape, error) {
	k, err := e.kin()
	if err != nil {
		return nil, err
	}
	flags, err := e.flag(70)
	s := polyline{kin: k, closed: flags&1 != 0}
	for _, p := range e.pairs {
		if err != nil {
			return nil, err
		}
		var v float64
		last := len(s.vertices) - 1
		switch {
		case p.code == 10:
			v, err = p.number()
			s.vertices = append(s.vertices, vertex{at: geom.Point{X: v}})
		case p.code == 20 && last >= 0:
			s.vertices[last].at.Y, err = p.number()
		case p.code == 42 && last >= 0:
			s.vertices[last].bulge, err = p.number()
		}
	}
	return s, err
}

func (s polyline) place(p *placer, m outline.Affine) error {
	if len(s.vertices) == 0 {
		return p.draw(s.kin, false, nil)
	}
	m = m.After(s.own)
	line := []geom.Point{m.Point(s.vertices[0].at)}
	for i, v := range s.vertices {
		if i+1 == len(s.vertices) && !s.closed {
			break
		}
		to := s.vertices[(i+1)%len(s.vertices)].at
		if math.Abs(v.bulge) > 1e-9 && v.at != to {
			line = outline.Bulge(v.at, to, v.bulge).Map(m).Flatten(line, p.Flatten)
			line = line[:len(line)-1]
		}
		line = append(line, m.Point(to))
		if len(line) > 2*outline.MaxVertices {
			break // Add says so
		}
	}
	return p.draw(s.kin, s.closed, line)
}

type conic struct {
	kin
	closed bool
	piece  outline.Conic
}

func readArc(e entity) (shape, error) {
	k, err := e.kin()
	if err != nil {
		return nil, err
	}
	v, err := e.numbers(10, 20, 40, 50, 51)
	if err != nil {
		return nil, err
	}
	if v[2] <= 0 {
		return nil, e.fault("a radius of %g", v[2])
	}
	from, sweep, closed := 0.0, 2*math.Pi, true
	if e.kind == "ARC" {
		from, closed = v[3]*math.Pi/180, false
		sweep = turn((v[4] - v[3]) * math.Pi / 180)
	}
	return conic{k, closed, outline.Circle(geom.Point{X: v[0], Y: v[1]}, v[2], from, sweep)}, nil
}

// turn brings a sweep into 0 to a whole turn; none at all is a whole one.
func turn(sweep float64) float64 {
	if sweep = math.Mod(sweep, 2*math.Pi); sweep <= 1e-12 {
		sweep += 2 * math.Pi
	}
	return sweep
}

func readEllipse(e entity) (shape, error) {
	k, err := e.kin()
	if err != nil {
		return nil, err
	}
	v, err := e.numbers(10, 20, 11, 21, 40, 41)
	if err != nil {
		return nil, err
	}
	end, err := e.number(42, 2*math.Pi)
	if err != nil {
		return nil, err
	}
	major, side := geom.Point{X: v[2], Y: v[3]}, v[4]*k.own.A
	if (major == geom.Point{}) || v[4] <= 0 {
		return nil, e.fault("it has no width")
	}
	k.own = outline.Identity() // given in the drawing's axes, but for the side of the minor axis
	sweep := turn(end - v[5])
	minor := geom.Point{X: -major.Y, Y: major.X}.Scale(side)
	return conic{k, sweep > 2*math.Pi-1e-9, outline.Conic{Centre: geom.Point{X: v[0], Y: v[1]}, U: major, V: minor, From: v[5], Sweep: sweep}}, nil
}

func (s conic) place(p *placer, m outline.Affine) error {
	piece := s.piece.Map(m.After(s.own))
	return p.draw(s.kin, s.closed, piece.Flatten([]geom.Point{piece.At(piece.From)}, p.Flatten))
}

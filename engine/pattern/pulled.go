package pattern

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Pulled returns the piece as it is sewn when the material is pulled on over
// what it covers: smaller by a part of its size along the arrow and another
// across it, about the outline's centroid. A cover over foam has 3 to 6 % each
// way; a test strip says what a material bears.
func (p Piece) Pulled(along, across float64) (Piece, error) {
	if err := p.Check(); err != nil {
		return p, err
	}
	if !(along >= 0 && along <= 0.3 && across >= 0 && across <= 0.3) {
		return p, fault.New(fault.Invalid, "pulled by %g along and %g across", along, across).At("piece " + p.ID).WithHint("4 % is written 0.04; at most 0.3")
	}
	if p.Pleats != nil && along != across {
		return p, fault.New(fault.Invalid, "pleats are pulled alike both ways").At("piece " + p.ID).WithHint("the lines would turn; pull the piece before pleats are drawn on it")
	}
	s, c := math.Sincos(p.Arrow.Angle * math.Pi / 180)
	way, middle := geom.Point{X: c, Y: s}, geom.Ring(p.Line).Centroid()
	pull := func(q geom.Point) geom.Point {
		d := q.Sub(middle)
		return step(step(q, way, -along*dot(d, way)), outward(way), -across*dot(d, outward(way)))
	}
	out := p
	out.Line, out.Motifs = make(Line, len(p.Line)), nil
	for i, q := range p.Line {
		out.Line[i] = pull(q)
	}
	for _, m := range p.Motifs {
		at := pull(geom.Point{X: m.At[0], Y: m.At[1]})
		m.At = [2]float64{at.X, at.Y}
		out.Motifs = append(out.Motifs, m)
	}
	if p.Pleats != nil {
		pleats := Pleats{Angle: p.Pleats.Angle, Loss: p.Pleats.Loss}
		s, c := math.Sincos(pleats.Angle * math.Pi / 180)
		square := geom.Point{X: -s, Y: c}
		for _, at := range p.Pleats.At {
			pleats.At = append(pleats.At, at-float64(along*(at-dot(middle, square))))
		}
		out.Pleats = &pleats
	}
	return out, out.Check()
}

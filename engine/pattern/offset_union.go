package pattern

import (
	"math"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/overlay"
)

// united is the offset as an area: the piece and, outside each side, a cell as
// deep as its allowance, all joined. Cells that share a line share its ends to
// the bit. Shut are places where allowances meet round a gap.
func (f fence) united(joints []joint) (cut Line, shut []geom.Point, err error) {
	list := []geom.Polygon{{Outer: f.ring}}
	for i, j := range joints {
		if f.by[i] > 0 {
			list = append(list, geom.Polygon{Outer: f.cell(i, j, joints[(i+1)%len(joints)])})
		}
		if p := f.ring[i]; len(j.points) == 2 && !j.hollow && !j.stepped {
			wedge := geom.Ring{p, j.points[0], j.points[1]}.Tidy()
			if math.Abs(geom.RingArea(wedge)) > 1e-9 {
				list = append(list, geom.Polygon{Outer: wedge})
			}
		}
	}
	whole, err := overlay.Union(list...)
	if err != nil {
		return nil, nil, fault.Wrap(fault.Internal, err, "joining the allowances")
	}
	if len(whole) == 0 {
		return nil, nil, fault.New(fault.Internal, "the allowances have no area")
	}
	best := whole[0]
	for _, p := range whole[1:] {
		if p.Area() > best.Area() {
			best = p
		}
	}
	for _, h := range best.Holes {
		if math.Abs(geom.RingArea(h)) > 1e-3 {
			shut = append(shut, geom.Ring(h).Centroid())
		}
	}
	return smooth(best.Outer), shut, nil
}

// cell is what lies outside side i: to the tips at corners that point
// outwards, square at those that point inwards, where cells overlap.
func (f fence) cell(i int, from, to joint) geom.Ring {
	n := len(f.ring)
	p, q := f.ring[i], f.ring[(i+1)%n]
	d, _ := f.way(i)
	out := geom.Ring{p, q}
	switch last := to.points[0]; {
	case to.hollow:
		out = append(out, step(q, outward(d), f.by[i]))
	case to.stepped && f.by[i] > f.by[(i+1)%n]:
		out = append(out, to.points[1], last) // the step of the smaller one lies on this cell's end
	default:
		out = append(out, last)
	}
	switch first := from.points[len(from.points)-1]; {
	case from.hollow:
		out = append(out, step(p, outward(d), f.by[i]))
	case from.stepped && f.by[i] > f.by[(i+n-1)%n]:
		out = append(out, first, from.points[0])
	default:
		out = append(out, first)
	}
	return out.Tidy()
}

// smooth leaves out points that lie on the line between their neighbours to a
// ten-millionth of a millimetre.
func smooth(ring geom.Ring) Line {
	out := make(Line, 0, len(ring))
	for i, p := range ring {
		next, last := ring[(i+1)%len(ring)], ring[(i+len(ring)-1)%len(ring)]
		if len(out) > 0 {
			last = out[len(out)-1]
		}
		way := next.Sub(last)
		if long := math.Hypot(way.X, way.Y); math.Abs(way.Cross(p.Sub(last))) > 1e-7*long || dot(p.Sub(last), next.Sub(p)) < 0 {
			out = append(out, p)
		}
	}
	return out
}

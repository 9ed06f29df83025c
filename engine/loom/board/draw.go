package board

import (
	"fmt"
	"math"

	"fettle/geom"
)

func (d *desk) line(layer string, closed bool, points ...geom.Point) {
	d.out.Lines = append(d.out.Lines, Line{Layer: layer, Closed: closed, Points: points})
}

func (d *desk) text(layer, text string, at geom.Point, height float64) {
	d.out.Texts = append(d.out.Texts, Text{Layer: layer, Text: text, At: at, Height: height})
}

// draw turns the laid tree into branches, pegs, faces, marks and words.
func (d *desk) draw(t *tree) {
	d.line(LayerBoard, true, box(geom.Point{X: d.out.Width / 2, Y: d.out.Height / 2}, d.out.Width, d.out.Height)...)
	d.out.Branches = make([]Branch, len(t.arms))
	for e := range t.arms {
		s := d.p.Routed.Runs[t.arms[e].run]
		p := t.path[e]
		if p[0] != t.pos[d.node[s.From]] {
			turned := make([]geom.Point, len(p))
			for i := range p {
				turned[len(p)-1-i] = p[i]
			}
			p = turned
		}
		d.out.Branches[t.arms[e].run] = Branch{Edge: s.Edge, ID: s.ID, Points: p}
	}
	for i, b := range d.out.Branches {
		s := d.p.Routed.Runs[i]
		d.line(LayerLoom, false, b.Points...)
		at, _ := along(b.Points, s.Length/2)
		d.text(LayerCovers, fmt.Sprintf("%s, %d wires, %s %.1f", s.ID, len(s.Wires), s.Cover, s.Outside), geom.Point{X: at.X, Y: at.Y + 6}, 4)
	}
	d.places(t)
	d.pegs(t)
	d.faces(t)
	d.splices()
	d.labelMarks(t)
	d.out.Angle, d.out.Gap = d.measure(t)
}

// along is the point of a line so far from its start, and its heading there.
func along(line []geom.Point, far float64) (geom.Point, float64) {
	for i := 1; ; i++ {
		l := distance(line[i-1], line[i])
		if far <= l || i == len(line)-1 {
			return between(line[i-1], line[i], min(far/l, 1)), bearing(line[i-1], line[i])
		}
		far -= l
	}
}

// places measures every waypoint from the datum of its tree: the connector in
// which most wires end.
func (d *desk) places(t *tree) {
	from := make([]float64, t.n)
	done := make([]bool, t.n)
	datum := make([]bool, t.n)
	for v := range t.n {
		if done[v] || len(t.at[v]) == 0 {
			continue
		}
		best := v
		for _, u := range t.hang(v) {
			if len(d.wires[u]) > len(d.wires[best]) {
				best = u
			}
		}
		datum[best] = true
		for _, u := range t.hang(best) {
			done[u] = true
			if e := t.up[u]; e >= 0 {
				from[u] = from[t.arms[e].a] + t.arms[e].length
			}
		}
	}
	for v, n := range d.p.Loom.Nodes {
		if len(t.at[v]) == 0 {
			continue
		}
		tol := n.Tolerance
		if tol == 0 {
			if tol = d.p.Loom.Rules.Tolerance; tol == 0 {
				tol = 5
			}
		}
		d.out.Places = append(d.out.Places, Place{Node: n.ID, At: t.pos[v], From: from[v], Tolerance: tol, Datum: datum[v]})
		at := geom.Point{X: t.pos[v].X, Y: t.pos[v].Y - 6}
		switch {
		case datum[v]:
			d.text(LayerDatums, n.ID+" 0 datum", at, 4)
		case len(t.at[v]) != 2 || len(d.wires[v]) > 0:
			d.text(LayerDatums, fmt.Sprintf("%s %.0f ±%.0f", n.ID, from[v], tol), at, 4)
		default:
			d.text(LayerDatums, n.ID, at, 3)
		}
	}
}

// pegs stand at waypoints, bends and along each branch.
func (d *desk) pegs(t *tree) {
	peg := func(at geom.Point, why string) {
		d.out.Pegs = append(d.out.Pegs, Peg{At: at, Why: why})
		const r = 3 // of a peg, millimetres
		d.line(LayerPegs, true, box(at, 2*r, 2*r)...)
	}
	for v := range t.n {
		switch len(t.at[v]) {
		case 0:
		case 1:
			peg(t.pos[v], "end")
		case 2:
			peg(t.pos[v], "waypoint")
		default:
			peg(t.pos[v], "breakout")
		}
	}
	for _, b := range d.out.Branches {
		for i := 1; i < len(b.Points); i++ {
			if i > 1 {
				peg(b.Points[i-1], "bend")
			}
			n := int(math.Ceil(distance(b.Points[i-1], b.Points[i])/d.r.Pitch - 1e-9))
			for k := 1; k < n; k++ {
				peg(between(b.Points[i-1], b.Points[i], float64(k)/float64(n)), "pitch")
			}
		}
	}
}

// splices marks where joints lie.
func (d *desk) splices() {
	for _, j := range d.p.Routed.Splices {
		for _, b := range d.out.Branches {
			if b.Edge == j.Edge {
				at, h := along(b.Points, j.At)
				n := heading(h + math.Pi/2)
				d.line(LayerSplices, false, geom.Point{X: at.X - 8*n.X, Y: at.Y - 8*n.Y}, geom.Point{X: at.X + 8*n.X, Y: at.Y + 8*n.Y})
				d.text(LayerSplices, j.ID, geom.Point{X: at.X + 12*n.X, Y: at.Y + 12*n.Y}, 4)
			}
		}
	}
}

// labelMarks are ticks where the labels sit, before the end of each branch.
func (d *desk) labelMarks(t *tree) {
	for v := range t.n {
		if len(t.at[v]) != 1 || len(d.wires[v]) == 0 {
			continue
		}
		for _, b := range d.out.Branches {
			s := d.p.Loom.Edges[b.Edge]
			if d.node[s.From] != v && d.node[s.To] != v {
				continue
			}
			length := lengthOf(b.Points)
			far := min(d.r.LabelFrom, length/2)
			if d.node[s.To] == v {
				far = length - far
			}
			at, h := along(b.Points, far)
			n := heading(h + math.Pi/2)
			d.line(LayerLabels, false, geom.Point{X: at.X - 5*n.X, Y: at.Y - 5*n.Y}, geom.Point{X: at.X + 5*n.X, Y: at.Y + 5*n.Y})
		}
	}
}

func lengthOf(line []geom.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += distance(line[i-1], line[i])
	}
	return sum
}

// measure finds the least angle between two branches at a waypoint, degrees,
// and the least distance between branches that do not meet.
func (d *desk) measure(t *tree) (angle, gap float64) {
	angle = math.Inf(1)
	for v := range t.n {
		heads := t.heads(v)
		for i := range heads {
			for j := range i {
				if len(heads) > 2 {
					angle = min(angle, math.Abs(math.Remainder(heads[i]-heads[j], 2*math.Pi))/deg)
				}
			}
		}
	}
	gap = math.Inf(1)
	for i, p := range t.path {
		for j := range i {
			a, b := t.arms[i], t.arms[j]
			if a.a == b.a || a.a == b.b || a.b == b.a || a.b == b.b {
				continue
			}
			gap = min(gap, apart(p, t.path[j], gap))
		}
	}
	if math.IsInf(angle, 1) {
		angle = 0
	}
	if math.IsInf(gap, 1) {
		gap = 0
	}
	return angle, gap
}

// apart is the distance between two lines that do not cross, or `most` where it
// is no less.
func apart(p, q []geom.Point, most float64) float64 {
	for i := 1; i < len(p); i++ {
		for j := 1; j < len(q); j++ {
			a, b := bar{p[i-1], p[i], 0}, bar{q[j-1], q[j], 0}
			if max(min(a.a.X, a.b.X)-max(b.a.X, b.b.X), min(b.a.X, b.b.X)-max(a.a.X, a.b.X),
				min(a.a.Y, a.b.Y)-max(b.a.Y, b.b.Y), min(b.a.Y, b.b.Y)-max(a.a.Y, a.b.Y)) >= most {
				continue
			}
			most = min(most, toBar(a.a, &b), toBar(a.b, &b), toBar(b.a, &a), toBar(b.b, &a))
		}
	}
	return most
}

package board

import (
	"fmt"
	"math"

	"fettle/geom"
)

func (d *desk) line(layer string, closed bool, points ...geom.Point) {
	d.out.Lines = append(d.out.Lines, Line{Layer: layer, Closed: closed, Points: points})
}

// word asks for a word near a place; Spread says where.
func (d *desk) word(layer, text string, at geom.Point, height float64) {
	d.words = append(d.words, Text{Layer: layer, Text: text, At: at, Height: height})
}

// called is the number of a waypoint with its name, where it has one.
func (d *desk) called(node string) string {
	if name := d.p.Names[node]; name != "" && name != node {
		return node + " " + name
	}
	return node
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
		d.line(LayerLoom, false, b.Points...)
		d.thick(b.Points, d.p.Routed.Runs[i].Outside/2)
	}
	d.pegs(t)
	d.faces(t)
	d.places(t)
	d.splices()
	d.covers()
	d.labelMarks(t)
	d.out.Angle, d.out.Gap = d.measure(t)
	placed, leaders := Spread(d.words, d.out.Lines)
	d.out.Texts, d.out.Lines = append(d.out.Texts, placed...), append(d.out.Lines, leaders...)
}

// thick draws both edges of a bundle beside each straight piece of its middle.
func (d *desk) thick(line []geom.Point, half float64) {
	for i := 1; i < len(line); i++ {
		n := heading(bearing(line[i-1], line[i]) + math.Pi/2)
		for _, side := range [2]float64{half, -half} {
			off := geom.Point{X: side * n.X, Y: side * n.Y}
			d.line(LayerBundles, false, line[i-1].Add(off), line[i].Add(off))
		}
	}
}

// covers writes on each stretch how thick it is and what goes round it.
func (d *desk) covers() {
	for i, b := range d.out.Branches {
		s := d.p.Routed.Runs[i]
		wires := fmt.Sprintf("%d wires", len(s.Wires))
		if len(s.Wires) == 1 {
			wires = "1 wire"
		}
		at, _ := along(b.Points, s.Length/2)
		d.word(LayerCovers, fmt.Sprintf("ø%.1f %s, %s, %.0f", s.Outside, s.Cover, wires, s.Length), at, 3)
	}
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
		switch {
		case datum[v]:
			d.target(t.pos[v])
			d.word(LayerDatums, d.called(n.ID)+": datum, 0", t.pos[v], 5)
		case len(t.at[v]) != 2 || len(d.wires[v]) > 0:
			d.word(LayerDatums, fmt.Sprintf("%s %.0f ±%g", n.ID, from[v], tol), t.pos[v], 4)
		default:
			d.word(LayerDatums, fmt.Sprintf("%s %.0f", n.ID, from[v]), t.pos[v], 3)
		}
	}
}

// target marks a datum: a ring and a cross through it.
func (d *desk) target(at geom.Point) {
	const r, corners = 9.0, 24
	ring := make([]geom.Point, corners)
	for i := range ring {
		h := heading(2 * math.Pi * float64(i) / corners)
		ring[i] = geom.Point{X: at.X + r*h.X, Y: at.Y + r*h.Y}
	}
	d.line(LayerDatums, true, ring...)
	d.line(LayerDatums, false, geom.Point{X: at.X - 1.5*r, Y: at.Y}, geom.Point{X: at.X + 1.5*r, Y: at.Y})
	d.line(LayerDatums, false, geom.Point{X: at.X, Y: at.Y - 1.5*r}, geom.Point{X: at.X, Y: at.Y + 1.5*r})
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
				d.word(LayerSplices, fmt.Sprintf("%s, %.0f from %s", j.ID, j.At, d.p.Loom.Edges[b.Edge].From), at, 4)
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

package pattern

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// MostPieces bounds one set.
const MostPieces = 500

// Draw returns every piece of a set ready for paper, in order, and how its
// seams fit, in order.
func (s Set) Draw() ([]Drawn, []Fit, error) {
	if len(s.Pieces) > MostPieces || len(s.Seams) > 4*MostPieces {
		return nil, nil, fault.New(fault.TooLarge, "%d pieces and %d seams, at most %d and %d", len(s.Pieces), len(s.Seams), MostPieces, 4*MostPieces)
	}
	seen := map[string]bool{}
	for _, p := range s.Pieces {
		if err := p.Check(); err != nil {
			return nil, nil, err
		}
		if seen[p.ID] {
			return nil, nil, fault.New(fault.Invalid, "two pieces of that ID").At("piece " + p.ID)
		}
		seen[p.ID] = true
	}
	marks := map[string][]mark{}
	var fits []Fit
	for _, m := range s.Seams {
		f, err := s.Fit(m)
		if err != nil {
			return nil, nil, err
		}
		fits = append(fits, f)
		a, b, _ := s.sides(m)
		for _, n := range f.Notches {
			a.mark(marks, n.A, n.Double)
			b.mark(marks, n.B, n.Double)
		}
	}
	var out []Drawn
	for _, p := range s.Pieces {
		d, err := p.draw(s.Mitre, marks[p.ID])
		if err != nil {
			return nil, nil, err
		}
		out = append(out, d)
	}
	return out, fits, nil
}

// mark is a notch on one piece: a place of the sewn line, finished, and the
// direction of the outline there.
type mark struct {
	at, heading geom.Point
	double      bool
}

// mark puts a notch on the piece that it falls on, unless a corner of the
// outline, or the end of the edge, marks the place already.
func (c chain) mark(marks map[string][]mark, share float64, double bool) {
	i, along := c.find(share * c.length())
	l := c.lines[i]
	if along < leastCorner || l.Length()-along < leastCorner {
		return
	}
	at, heading := l.at(along)
	if c.back {
		heading = heading.Scale(-1)
	}
	id := c.refs[i].Piece
	marks[id] = append(marks[id], mark{at, heading, double})
}

// draw draws one piece: cut line first, then what lies inside it.
func (p Piece) draw(mitre float64, marks []mark) (Drawn, error) {
	flat, w, err := p.flat()
	if err != nil {
		return Drawn{}, err
	}
	cut, err := flat.Cut(mitre)
	if err != nil {
		return Drawn{}, err
	}
	d := Drawn{Piece: p.ID, Area: cut.Area(), Sewn: geom.RingArea(flat.Line) / 1e6}
	d.line(CutLayer, true, cut.Line)
	d.line(SewLayer, true, flat.Line)
	for _, s := range cut.Shut {
		d.Remarks = append(d.Remarks, fmt.Sprintf("Allowances meet across the gap at %.0f, %.0f: slit it open along its middle before sewing.", s[0], s[1]))
	}
	for _, m := range marks {
		d.notch(cut.Line, flat.Line, w, m)
	}
	flat.snips(&d, cut.Line)
	flat.pleatLines(&d)
	p.motifs(&d, flat, w)
	if err := flat.clips(&d); err != nil {
		return Drawn{}, fault.Within(err, "piece "+p.ID)
	}
	flat.words(&d)
	return d, nil
}

func (d *Drawn) line(layer Layer, closed bool, points Line) {
	d.Strokes = append(d.Strokes, Stroke{layer, closed, points})
}

// notch draws one or two slits from the cut line towards the sewn line, at most
// 6 mm deep and never nearer to it than 3 mm; where there is no room for one, a
// mark of 3 mm inside the line.
func (d *Drawn) notch(cut, sewn Line, w spread, m mark) {
	at := w.moved(m.at)
	heading := w.moved(step(m.at, m.heading, 0.5)).Sub(w.moved(step(m.at, m.heading, -0.5)))
	heading = heading.Scale(1 / math.Hypot(heading.X, heading.Y))
	ways := []float64{0}
	if m.double {
		ways = []float64{-2.5, 2.5}
	}
	for _, way := range ways {
		q, out := step(at, heading, way), outward(heading)
		deep := reach(cut, q, out)
		if deep < 4 {
			d.line(NotchLayer, false, Line{q, step(q, out, -3)})
			continue
		}
		d.line(NotchLayer, false, Line{step(q, out, deep), step(q, out, max(3, deep-6))})
	}
}

// snips draws the slits that let an allowance open at inner corners; where the
// way out runs into the other side of a gap it says so.
func (p Piece) snips(d *Drawn, cut Line) {
	f := fence{p.Line, p.allowances(), DefaultMitre}
	n := len(p.Line)
	for i, q := range p.Line {
		before, _ := f.way((i + n - 1) % n)
		after, _ := f.way(i)
		if before.Cross(after) > -0.5 && dot(before, after) > 0 || before.Cross(after) >= 0 || f.by[i] < 5 || f.by[(i+n-1)%n] < 5 {
			continue // 30° and more
		}
		out := outward(before).Add(outward(after))
		long := math.Hypot(out.X, out.Y)
		if long < 1e-6 {
			continue
		}
		out = out.Scale(1 / long)
		deep, across := reach(cut, q, out), reach(p.Line, step(q, out, 1), out)
		switch {
		case across > 0 && across+1 < deep:
			d.Remarks = append(d.Remarks, fmt.Sprintf("Allowances fill the gap at the inner corner %.0f, %.0f: slit it open along its middle before sewing.", q.X, q.Y))
		case deep > 3:
			d.line(SnipLayer, false, Line{step(q, out, deep), step(q, out, 2)})
		}
	}
}

// reach returns how far a ray runs until it meets a closed line; 0 where it
// never does.
func reach(line Line, from, dir geom.Point) float64 {
	best := math.Inf(1)
	for i, a := range line {
		way := line[(i+1)%len(line)].Sub(a)
		den := dir.Cross(way)
		if den == 0 {
			continue
		}
		t, u := a.Sub(from).Cross(way)/den, a.Sub(from).Cross(dir)/den
		if t >= -1e-9 && u >= -1e-9 && u <= 1+1e-9 {
			best = min(best, max(t, 0))
		}
	}
	if math.IsInf(best, 1) {
		return 0
	}
	return best
}

package pattern

import (
	"fmt"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// pleatLines draws each sewn line where it lies inside the piece.
func (p Piece) pleatLines(d *Drawn) {
	if p.Pleats == nil {
		return
	}
	s, c := math.Sincos(p.Pleats.Angle * math.Pi / 180)
	along, square := geom.Point{X: c, Y: s}, geom.Point{X: -s, Y: c}
	for _, at := range p.Pleats.At {
		var ends []float64
		for i, a := range p.Line {
			b := p.Line[(i+1)%len(p.Line)]
			from, to := dot(a, square), dot(b, square)
			if (from > at) != (to > at) {
				ends = append(ends, dot(step(a, b.Sub(a), (at-from)/(to-from)), along))
			}
		}
		slices.Sort(ends)
		for i := 1; i < len(ends); i += 2 {
			o := square.Scale(at)
			d.line(PleatLayer, false, Line{step(o, along, ends[i-1]), step(o, along, ends[i])})
		}
	}
}

// motifs lays each motif on the piece and says where one comes too near to the
// sewn line.
func (p Piece) motifs(d *Drawn, flat Piece, w spread) {
	for _, m := range p.Motifs {
		layer := StitchLayer
		if m.Cuts {
			layer = CutLayer
		}
		if m.Drawn != "" {
			layer = m.Drawn
		}
		least := math.Inf(1)
		for _, l := range m.placed(w.moved(geom.Point{X: m.At[0], Y: m.At[1]})) {
			d.line(layer, m.Closed, l)
			for _, q := range dense(l, 2) {
				least = min(least, geom.Polygon{Outer: flat.Line}.Depth(q))
			}
		}
		switch {
		case m.Drawn == NotchLayer: // marks belong on the line too
		case least < 0:
			d.Remarks = append(d.Remarks, fmt.Sprintf("Motif %s runs %.1f mm over the sewn line.", m.Name, -least))
		case least < m.Clearance:
			d.Remarks = append(d.Remarks, fmt.Sprintf("Motif %s comes within %.1f mm of the sewn line; %g mm are asked.", m.Name, least, m.Clearance))
		}
	}
}

// placed returns the motif's strokes on the piece.
func (m Motif) placed(at geom.Point) []Line {
	s, c := math.Sincos(m.Turn * math.Pi / 180)
	s, c = s*m.scaled(), c*m.scaled()
	out := make([]Line, len(m.Strokes))
	for i, l := range m.Strokes {
		for _, q := range l {
			out[i] = append(out[i], geom.Point{X: at.X + float64(c*q.X) - float64(s*q.Y), Y: at.Y + float64(s*q.X) + float64(c*q.Y)})
		}
	}
	return out
}

// clips draws the holes of a board.
func (p Piece) clips(d *Drawn) error {
	if p.Clips == nil {
		return nil
	}
	holes, left, err := p.Holes()
	if err != nil {
		return err
	}
	_, _, diameter := p.Clips.filled()
	for _, h := range holes {
		ring := Line{}.arc(diameter/2, 0, 2*math.Pi, 24)[:24]
		for i := range ring {
			ring[i] = ring[i].Add(h)
		}
		d.line(HoleLayer, true, ring)
	}
	if left > 0 {
		d.Remarks = append(d.Remarks, fmt.Sprintf("%d clip holes have no room %g mm inside the edge and are left out.", left, p.Clips.Inset))
	}
	return nil
}

func (c Clips) filled() (pitch, off, diameter float64) {
	or := func(v, habit float64) float64 {
		if v == 0 {
			return habit
		}
		return v
	}
	return or(c.Pitch, 150), or(c.Off, 40), or(c.Diameter, 8)
}

// Holes returns the middles of the clip holes of a piece: along each edge of
// its clips, off the corners, at equal ways of at most the pitch, the inset
// inside the line. Left are those that a hollow or narrow place has no room for.
func (p Piece) Holes() (at []geom.Point, left int, err error) {
	if p.Clips == nil {
		return nil, 0, nil
	}
	pitch, off, diameter := p.Clips.filled()
	if !(pitch >= 10 && pitch <= 2000 && off >= 0 && off <= 500 && diameter > 0 && diameter <= 60 && p.Clips.Inset >= diameter/2 && p.Clips.Inset <= 500) {
		return nil, 0, fault.New(fault.Invalid, "holes of %g mm every %g mm, %g mm inside the edge and %g mm off corners", diameter, pitch, p.Clips.Inset, off).At("clips").
			WithHint("the trade has 8 mm every 100–150 mm, 40 mm off corners, whole inside the edge")
	}
	area := geom.Polygon{Outer: p.Line}
	for _, name := range p.Clips.Edges {
		k := p.edge(name)
		if k < 0 {
			return nil, 0, fault.New(fault.Invalid, "no edge %q", name).At("clips")
		}
		l := p.side(k)
		long := l.Length() - 2*off
		n := math.Ceil(long/pitch - 1e-9)
		for i := range int(max(n, 0)) + 1 {
			way := l.Length() / 2 // an edge too short for two has one in the middle
			if n >= 1 {
				way = off + long*float64(i)/n
			}
			q, heading := l.at(way)
			q = step(q, outward(heading), -p.Clips.Inset)
			if area.Depth(q) < p.Clips.Inset-0.5 {
				left++
				continue
			}
			at = append(at, q)
		}
	}
	return at, left, nil
}

// words puts the arrow and the label where the piece is widest.
func (p Piece) words(d *Drawn) {
	at, depth := Pole(p.Line)
	lines := []string{p.ID + "  " + p.Name}
	second := p.Material
	if p.Hand != "" {
		second += "  " + p.Hand
	}
	second = fmt.Sprintf("%s  × %d", second, max(p.Quantity, 1))
	lines = append(lines, second)
	if p.Revision != "" {
		lines = append(lines, p.Revision)
	}
	if p.Arrow.Kind != "" {
		lines = append(lines, "arrow: "+p.Arrow.Kind)
	}
	if p.Label != "" {
		lines = append(lines, p.Label)
	}
	longest := 0
	for _, l := range lines {
		longest = max(longest, len([]rune(l)))
	}
	// Capitals are about 0.7 as wide as high; lines stand 1.6 heights apart. Both
	// halves of the circle that fits there are used where there is an arrow.
	middle, room := at, depth
	if p.Arrow.Kind != "" {
		middle.Y, room = at.Y+depth/2, depth/2
	}
	height := min(12, 1.6*depth/(0.7*float64(longest)), 1.7*room/(1.6*float64(len(lines))))
	height = max(height, 2.5)
	for i, l := range lines {
		y := middle.Y + height*1.6*(float64(len(lines)-1)/2-float64(i))
		d.Words = append(d.Words, Words{l, [2]float64{middle.X, y}, height})
	}
	if p.Arrow.Kind == "" {
		return
	}
	s, c := math.Sincos(p.Arrow.Angle * math.Pi / 180)
	way := geom.Point{X: c, Y: s}
	at.Y -= depth / 2
	half := min(0.45*depth, 100)
	tip, tail := step(at, way, half), step(at, way, -half)
	barb := half / 4
	d.line(ArrowLayer, false, Line{tail, tip})
	d.line(ArrowLayer, false, Line{step(step(tip, way, -barb), outward(way), barb/2), tip, step(step(tip, way, -barb), outward(way), -barb/2)})
}

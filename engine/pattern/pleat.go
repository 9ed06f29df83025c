package pattern

import (
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// spread is how a piece with sewn lines across it is drawn wider than it
// finishes. Every line takes up its loss, half from the field on either side;
// fields widen evenly, so that a smooth outline stays smooth.
type spread struct {
	square geom.Point // to the left of the lines
	from   []float64  // breaks of the finished piece, left of the line through the origin
	to     []float64
}

// Flat returns the piece as it is cut: spread along its pleats, so that its
// width across them is the finished one and a loss for each line that crosses
// it. A piece without pleats comes back as it is.
func (p Piece) Flat() (Piece, error) {
	q, _, err := p.flat()
	return q, err
}

func (p Piece) flat() (Piece, spread, error) {
	if err := p.Check(); err != nil || p.Pleats == nil || len(p.Pleats.At) == 0 {
		return p, spread{}, err
	}
	w, err := p.spread()
	if err != nil {
		return p, w, fault.Within(fault.Within(err, "pleats"), "piece "+p.ID)
	}
	q := p
	q.Line, q.Edges = nil, slices.Clone(p.Edges)
	for i, a := range p.Line {
		for k := range q.Edges {
			if p.Edges[k].From == i {
				q.Edges[k].From = len(q.Line)
			}
		}
		q.Line = append(q.Line, w.moved(a))
		for _, b := range w.crossings(a, p.Line[(i+1)%len(p.Line)]) {
			q.Line = append(q.Line, w.moved(b))
		}
	}
	pleats := *p.Pleats
	pleats.At = slices.Clone(pleats.At)
	for i, at := range pleats.At {
		pleats.At[i] = w.shift(at)
	}
	q.Pleats = &pleats
	return q, w, q.Check()
}

// spread sorts the lines that cross the piece.
func (p Piece) spread() (spread, error) {
	s, c := math.Sincos(p.Pleats.Angle * math.Pi / 180)
	w := spread{square: geom.Point{X: -s, Y: c}}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range p.Line {
		lo, hi = min(lo, dot(q, w.square)), max(hi, dot(q, w.square))
	}
	if loss := p.Pleats.Loss; !(loss >= 0 && loss <= 100) || math.IsNaN(s) {
		return w, fault.New(fault.Invalid, "lines at %g° that take up %g mm each", p.Pleats.Angle, loss).WithHint("sew a test piece and measure it: 0 to 100 mm a line")
	}
	lines := slices.Clone(p.Pleats.At)
	slices.Sort(lines)
	for i, at := range lines {
		if !(at > lo+1e-6 && at < hi-1e-6) || i > 0 && at-lines[i-1] < 1 {
			return w, fault.New(fault.Invalid, "a line at %g mm", at).WithHint("every line crosses the piece, a millimetre or more from the next")
		}
	}
	w.from, w.to = []float64{lo}, []float64{lo}
	for i, at := range lines {
		w.from, w.to = append(w.from, at), append(w.to, at+float64(p.Pleats.Loss*(float64(i)+0.5)))
	}
	w.from, w.to = append(w.from, hi), append(w.to, hi+float64(p.Pleats.Loss*float64(len(lines))))
	return w, nil
}

// shift returns where a distance from the line through the origin comes.
func (w spread) shift(at float64) float64 {
	if len(w.from) == 0 {
		return at
	}
	i := 1
	for i < len(w.from)-1 && at > w.from[i] {
		i++
	}
	share := (at - w.from[i-1]) / (w.from[i] - w.from[i-1])
	return w.to[i-1] + float64(share*(w.to[i]-w.to[i-1]))
}

func (w spread) moved(q geom.Point) geom.Point {
	at := dot(q, w.square)
	return step(q, w.square, w.shift(at)-at)
}

// crossings returns where a side crosses lines, in its direction.
func (w spread) crossings(a, b geom.Point) Line {
	from, to := dot(a, w.square), dot(b, w.square)
	var out Line
	for _, at := range w.from {
		if (at-from)*(to-at) > 0 && math.Abs(at-from) > 1e-6 && math.Abs(at-to) > 1e-6 {
			out = append(out, step(a, b.Sub(a), (at-from)/(to-from)))
		}
	}
	if from > to {
		slices.Reverse(out)
	}
	return out
}

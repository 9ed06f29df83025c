package pattern

import (
	"slices"

	"fettle/geom"
)

// Mirror returns the piece for the other side of the vehicle, a piece of its
// own: mirrored about its y axis, its outline still anticlockwise, hand L for R.
// A motif that reads keeps its shape in the mirrored place.
func (p Piece) Mirror(id string) Piece {
	q, n := p, len(p.Line)
	q.ID = id
	switch p.Hand {
	case "L":
		q.Hand = "R"
	case "R":
		q.Hand = "L"
	}
	q.Line = turned(p.Line)
	slices.Reverse(q.Line)
	q.Edges = nil
	for k, e := range p.Edges {
		e.From = n - 1 - p.Edges[(k+1)%len(p.Edges)].From
		q.Edges = append(q.Edges, e)
	}
	slices.SortFunc(q.Edges, func(a, b Edge) int { return a.From - b.From })
	q.Arrow.Angle = 180 - p.Arrow.Angle
	if p.Arrow.Kind == "" {
		q.Arrow = Arrow{}
	}
	if p.Pleats != nil {
		pleats := Pleats{Angle: 180 - p.Pleats.Angle, Loss: p.Pleats.Loss}
		for _, at := range p.Pleats.At {
			pleats.At = append(pleats.At, -at)
		}
		slices.Reverse(pleats.At)
		q.Pleats = &pleats
	}
	q.Motifs = nil
	for _, m := range p.Motifs {
		m.At[0], m.Turn = -m.At[0], -m.Turn
		if !m.Reads {
			strokes := make([]Line, len(m.Strokes))
			for i, l := range m.Strokes {
				strokes[i] = turned(l)
			}
			m.Strokes = strokes
		}
		q.Motifs = append(q.Motifs, m)
	}
	return q
}

// turned is a row of points mirrored about the y axis.
func turned(l Line) Line {
	out := make(Line, len(l))
	for i, q := range l {
		out[i] = geom.Point{X: -q.X, Y: q.Y}
	}
	return out
}

// Mirror returns the seam between the mirrored pieces: its sides run the other
// way. Twin gives the ID of a piece's or a seam's mirror image; what lies in the
// middle of the vehicle may be its own.
func (s Seam) Mirror(twin func(id string) string) Seam {
	side := func(refs []Ref) []Ref {
		out := make([]Ref, len(refs))
		for i, r := range refs {
			out[len(refs)-1-i] = Ref{twin(r.Piece), r.Edge}
		}
		return out
	}
	names := func(ids []string) (out []string) {
		for _, id := range ids {
			out = append(out, twin(id))
		}
		return out
	}
	m := s
	m.ID, m.A, m.B, m.Inside, m.After = twin(s.ID), side(s.A), side(s.B), names(s.Inside), names(s.After)
	m.RearAtA0, m.Match = !s.RearAtA0, nil
	for _, x := range s.Match {
		m.Match = append(m.Match, Match{1 - x.A, 1 - x.B})
	}
	slices.Reverse(m.Match)
	return m
}

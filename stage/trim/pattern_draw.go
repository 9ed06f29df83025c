package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/geom"
)

// PatternSheet is the pattern of a piece ready for paper, with how the seams
// that end on it fit.
type PatternSheet struct {
	Piece   build.Piece
	Pattern build.Pattern
	Drawn   pattern.Drawn
	Fits    []pattern.Fit
}

// PatternSheets draws the patterns that count, in the order of the pieces.
// Seams are laid against each other where both their sides have patterns.
func PatternSheets(b *build.Build) ([]PatternSheet, error) {
	var set pattern.Set
	var out []PatternSheet
	for _, piece := range b.Pieces {
		p := b.Pattern(piece.ID)
		if p == nil {
			continue
		}
		out = append(out, PatternSheet{Piece: piece, Pattern: *p})
		set.Pieces = append(set.Pieces, pieceOf(b, piece, *p))
	}
	for _, s := range b.Seams {
		if seam, ok := seamOf(b, s); ok {
			set.Seams = append(set.Seams, seam)
		}
	}
	drawn, fits, err := set.Draw()
	if err != nil {
		return nil, err
	}
	for i := range out {
		out[i].Drawn = drawn[i]
		for l := range out[i].Pattern.Lines {
			out[i].Drawn.Strokes = append(out[i].Drawn.Strokes, lineStroke(out[i].Pattern.Lines[l]))
		}
		for n, f := range fits {
			if touches(set.Seams[n], string(out[i].Piece.ID)) {
				out[i].Fits = append(out[i].Fits, f)
			}
		}
	}
	return out, nil
}

func touches(s pattern.Seam, piece string) bool {
	for _, side := range [2][]pattern.Ref{s.A, s.B} {
		for _, r := range side {
			if r.Piece == piece {
				return true
			}
		}
	}
	return false
}

// lineStroke is a line of a pattern on its layer.
func lineStroke(l build.PatternLine) pattern.Stroke {
	layer := pattern.StitchLayer
	switch l.Kind {
	case "pleat":
		layer = pattern.PleatLayer
	case "cut":
		layer = pattern.HoleLayer
	}
	s := pattern.Stroke{Layer: layer, Closed: l.Closed}
	for _, q := range l.Points {
		s.Points = append(s.Points, geom.Point{X: q[0].Mm(), Y: q[1].Mm()})
	}
	return s
}

// pieceOf is a piece with its pattern as the engine takes it.
func pieceOf(b *build.Build, piece build.Piece, p build.Pattern) pattern.Piece {
	out := sewnPiece(p)
	out.Name, out.Material, out.Quantity, out.Label = piece.Name, piece.Material, piece.Quantity, b.Title
	if piece.Axis.Known() {
		out.Arrow = pattern.Arrow{Kind: "stretch", Angle: piece.Axis.Angle}
	}
	if piece.Handed {
		out.Hand = "L"
	}
	return out
}

// seamOf is a seam as the engine takes it, where every piece of it has a
// pattern with such an edge.
func seamOf(b *build.Build, s build.Seam) (pattern.Seam, bool) {
	out := pattern.Seam{ID: string(s.ID), Name: s.Name, Kind: pattern.Kind(s.Kind), Ease: s.Ease / 100, RearAtA0: s.Rear, Closes: s.Closes, TopAt: s.Top.Mm(), Piping: string(s.Piping)}
	if !s.Kind.Joins() || len(s.A) == 0 || len(s.B) == 0 {
		return out, false
	}
	refs := func(list []build.EdgeOf) (refs []pattern.Ref, ok bool) {
		for _, e := range list {
			p := b.Pattern(e.Piece)
			if p == nil {
				return nil, false
			}
			if at, _ := p.Edge(e.Edge); at == nil {
				return nil, false
			}
			refs = append(refs, pattern.Ref{Piece: string(e.Piece), Edge: e.Edge})
		}
		return refs, true
	}
	var ok bool
	if out.A, ok = refs(s.A); !ok {
		return out, false
	}
	out.B, ok = refs(s.B)
	for _, m := range s.Match {
		out.Match = append(out.Match, pattern.Match{A: m.A, B: m.B})
	}
	return out, ok
}

// Steps are what changed from one revision of a pattern to the next, in words.
func Steps(from, to build.Pattern) string {
	var say []string
	if len(from.Sewn) != len(to.Sewn) || fmt.Sprint(from.Sewn) != fmt.Sprint(to.Sewn) {
		say = append(say, fmt.Sprintf("sewn line %+.0f cm²", build.Shape{Outer: to.Sewn}.Area().M2()*1e4-build.Shape{Outer: from.Sewn}.Area().M2()*1e4))
	}
	if d := to.Cut.Area().M2() - from.Cut.Area().M2(); d > 5e-5 || d < -5e-5 {
		say = append(say, fmt.Sprintf("cut area %+.0f cm²", d*1e4))
	}
	for i, e := range to.Edges {
		if i < len(from.Edges) && from.Edges[i] != e {
			say = append(say, fmt.Sprintf("edge %s: %s %s, was %s %s", e.Name, e.Seam, e.Allowance, from.Edges[i].Seam, from.Edges[i].Allowance))
		}
	}
	if n, m := len(from.Edges), len(to.Edges); n != m {
		say = append(say, fmt.Sprintf("%d edges, was %d", m, n))
	}
	if len(say) == 0 {
		return "nothing that is cut"
	}
	return strings.Join(say, "; ")
}

package trim

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/engine/pattern"
)

// PatternSheet is the pattern of a piece ready for paper, with how the seams
// that end on it fit.
type PatternSheet struct {
	Piece    build.Piece
	Pattern  build.Pattern
	Mirrored bool // the one for the other side
	Drawn    pattern.Drawn
	Fits     []pattern.Fit
}

// PatternSheets draws the patterns that count, in the order of the pieces; a
// handed piece, or one whose mirror image a seam joins, has two. Seams are laid
// against each other where both their sides have patterns.
func PatternSheets(b *build.Build) ([]PatternSheet, error) {
	sewn := SewnOf(b).Set
	inSeams := map[string]bool{}
	for _, p := range sewn.Pieces {
		inSeams[p.ID] = true
	}
	set := pattern.Set{Seams: sewn.Seams}
	var out []PatternSheet
	for _, piece := range b.Pieces {
		p := b.Pattern(piece.ID)
		if p == nil {
			continue
		}
		for _, mirrored := range [2]bool{false, true} {
			one := PatternOf(b, *p, mirrored)
			if mirrored && !piece.Handed && !inSeams[one.ID] {
				continue
			}
			out = append(out, PatternSheet{Piece: piece, Pattern: *p, Mirrored: mirrored})
			set.Pieces = append(set.Pieces, one)
		}
	}
	drawn, fits, err := set.Draw()
	if err != nil {
		return nil, err
	}
	for i := range out {
		out[i].Drawn = drawn[i]
		for n, f := range fits {
			if touches(set.Seams[n], out[i].Drawn.Piece) {
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

// Allowed is the allowance of an edge in mm: its own, or the habit of its kind.
func Allowed(e build.PatternEdge) float64 {
	return pattern.Edge{Kind: pattern.Kind(e.Seam), Allowance: e.Allowance.Mm()}.Allowed()
}

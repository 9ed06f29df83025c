package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/figure"
)

// layers is how often the materials of a seam lie on each other where its
// first row runs: an edge once, a hem and a sleeve twice, and piping twice more.
func layers(b *build.Build, m build.Seam) []string {
	var list []string
	for _, side := range [][]build.EdgeOf{m.A, m.B} {
		if len(side) > 0 {
			if p := b.Piece(side[0].Piece); p != nil {
				list = append(list, p.Material)
			}
		}
	}
	if !m.Kind.Joins() {
		list = append(list, list...)
	}
	if p := b.Piece(m.Piping); p != nil {
		list = append(list, p.Material, p.Material)
	}
	return list
}

// StackOf is the thickness that a seam is sewn through, in mm: as measured, or
// the sum of the layers, of which the thickest that is known is taken where
// lots differ. A layer that nobody has measured leaves it unknown.
func StackOf(b *build.Build, m build.Seam) (pattern.Given, bool) {
	if m.Stack > 0 {
		return pattern.Given{Value: m.Stack.Mm(), Source: figure.Measured, Note: "pressed together and measured"}, true
	}
	sum := 0.0
	var words []string
	for _, material := range layers(b, m) {
		thick := thickest(b, material)
		if thick == 0 {
			return pattern.Given{}, false
		}
		sum += thick
		words = append(words, fmt.Sprintf("%.1f mm %s", thick, material))
	}
	return pattern.Given{Value: sum, Source: figure.Worked, Note: strings.Join(words, " + ")}, sum > 0
}

func thickest(b *build.Build, material string) float64 {
	thick := 0.0
	for _, c := range b.Covers {
		if c.Material == material {
			thick = max(thick, c.Thickness.Mm())
		}
	}
	return thick
}

// sewingOf is how a seam is sewn, as far as it is known.
func sewingOf(b *build.Build, m build.Seam) pattern.Sewing {
	s := pattern.Sewing{Pitch: m.Pitch.Mm()}
	if stack, ok := StackOf(b, m); ok {
		s.Stack = stack.Value
	}
	if t := b.Thread(m.Thread); t != nil {
		s.Thread = string(t.ID)
		s.Needle = needleOf(*t)
	}
	return s
}

// needleOf is the needle that carries a thread: that of the thickest size that
// is no thicker, a lacing needle beyond the machine's.
func needleOf(t build.Thread) string {
	sizes := pattern.ThreadSizes()
	if t.Tex > sizes[len(sizes)-1].Tex+50 {
		return "by hand"
	}
	at := sizes[0]
	for _, s := range sizes {
		if s.Tex <= t.Tex {
			at = s
		}
	}
	if at.Needle[0] == at.Needle[1] {
		return fmt.Sprint(at.Needle[0])
	}
	return fmt.Sprintf("%d–%d", at.Needle[0], at.Needle[1])
}

// lengthOfSeam is how long one row of a seam is, in mm: of its longer side, by
// the patterns, else as somebody measured it.
func lengthOfSeam(b *build.Build, m build.Seam) (pattern.Given, bool) {
	if drawnSides(b, m) {
		long := 0.0
		for _, side := range [][]build.EdgeOf{m.A, m.B} {
			sum := 0.0
			for _, e := range side {
				p := b.Pattern(e.Piece)
				_, i := p.Edge(e.Edge)
				sum += lineOf(p.Line(i)).Length()
			}
			long = max(long, sum)
		}
		return pattern.Given{Value: long, Source: figure.Worked, Note: "the sewn line of the patterns"}, true
	}
	if m.Length > 0 {
		return pattern.Given{Value: m.Length.Mm(), Source: figure.Measured, Note: "no pattern gives it"}, true
	}
	return pattern.Given{}, false
}

// rowsOf is how many rows of stitches a seam has, and how many of them on top.
func rowsOf(m build.Seam) (all, top int) {
	if m.Pitch == 0 {
		return 0, 0
	}
	_, top = pattern.Seam{Kind: pattern.Kind(m.Kind)}.TopDistance()
	all = 1 + top
	if m.Kind == build.Piped {
		all++ // the piping is sewn to one side first
	}
	return all, top
}

// piecesOf are the pieces of a seam, each once.
func piecesOf(m build.Seam) []build.PieceID {
	var list []build.PieceID
	for _, e := range slices.Concat(m.A, m.B) {
		if !slices.Contains(list, e.Piece) {
			list = append(list, e.Piece)
		}
	}
	return list
}

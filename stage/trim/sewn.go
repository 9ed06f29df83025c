package trim

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/geom"
)

// PatternOf turns a revision of a pattern into a piece of engine/pattern, in
// millimetres; mirrored it is the one for the other side.
func PatternOf(b *build.Build, p build.Pattern, mirrored bool) pattern.Piece {
	out := pattern.Piece{ID: string(p.Piece), Line: lineOf(p.Sewn), Revision: revisionWords(p)}
	if piece := b.Piece(p.Piece); piece != nil {
		out.Name, out.Material, out.Quantity = piece.Name, piece.Material, piece.Quantity
		if piece.Handed {
			out.ID, out.Hand, out.Quantity = out.ID+" L", "L", (piece.Quantity+1)/2
		}
		out.Arrow = arrowOf(b, *piece)
	}
	for _, e := range p.Edges {
		out.Edges = append(out.Edges, pattern.Edge{Name: e.Name, From: e.First, Kind: pattern.Kind(e.Seam), Allowance: e.Allowance.Mm()})
	}
	out.Label = p.Label
	out.Motifs = motifsOf(p)
	out.Pleats = pleatsOf(p)
	if mirrored {
		out = out.Mirror(mirrorID(b, p.Piece))
	}
	return out
}

// motifsOf is what is drawn on a pattern: lines, marks and holes. Each moves as
// a whole where pleats spread the piece.
func motifsOf(p build.Pattern) []pattern.Motif {
	var list []pattern.Motif
	add := func(name string, at build.Spot, strokes ...pattern.Line) *pattern.Motif {
		mid := lineOf(build.Ring{at})[0]
		for _, l := range strokes {
			for i := range l {
				l[i] = l[i].Sub(mid)
			}
		}
		list = append(list, pattern.Motif{Name: name, Strokes: strokes, At: [2]float64{mid.X, mid.Y}})
		return &list[len(list)-1]
	}
	for _, l := range p.Lines {
		if l.Kind != "pleat" {
			m := add(l.Name, middleOf(l.Points), lineOf(l.Points))
			m.Cuts, m.Closed, m.Reads, m.Pitch = l.Kind == "cut", l.Closed, l.Reads, l.Pitch.Mm()
		}
	}
	for _, k := range p.Marks {
		m := add(k.Name, k.At, markStrokes(k)...)
		m.Drawn = pattern.NotchLayer
	}
	for i, h := range p.Holes {
		m := add(fmt.Sprintf("clip hole %d", i+1), h.At, circle(h))
		m.Drawn, m.Closed = pattern.HoleLayer, true
	}
	return list
}

// markStrokes are the two strokes of a marked point: a cross, or one or two
// short lines beside each other for a notch.
func markStrokes(k build.PatternMark) []pattern.Line {
	at := lineOf(build.Ring{k.At})[0]
	bar := func(x, y, dx, dy float64) pattern.Line {
		return pattern.Line{{X: at.X + x - dx, Y: at.Y + y - dy}, {X: at.X + x + dx, Y: at.Y + y + dy}}
	}
	switch k.Kind {
	case "notch":
		return []pattern.Line{bar(0, 0, 0, 3)}
	case "double notch":
		return []pattern.Line{bar(-2.5, 0, 0, 3), bar(2.5, 0, 0, 3)}
	}
	return []pattern.Line{bar(0, 0, 3, 0), bar(0, 0, 0, 3)}
}

// circle is the rim of a hole in 24 chords.
func circle(h build.PatternHole) pattern.Line {
	at := lineOf(build.Ring{h.At})[0]
	out := make(pattern.Line, 24)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 24)
		out[i] = geom.Point{X: at.X + float64(h.Diameter.Mm()/2*cos), Y: at.Y + float64(h.Diameter.Mm()/2*sin)}
	}
	return out
}

// sewnID is what a piece, or its mirror image, is called in a set.
func sewnID(b *build.Build, e build.EdgeOf) string {
	if e.Mirrored {
		return mirrorID(b, e.Piece)
	}
	if p := b.Piece(e.Piece); p != nil && p.Handed {
		return string(e.Piece) + " L"
	}
	return string(e.Piece)
}

func mirrorID(b *build.Build, id build.PieceID) string {
	if p := b.Piece(id); p != nil && p.Handed {
		return string(id) + " R"
	}
	return string(id) + " mirrored"
}

func revisionWords(p build.Pattern) string {
	text := fmt.Sprintf("revision %d", p.Revision)
	if p.Day != 0 {
		text += ", " + p.Day.String()
	}
	return text
}

func lineOf(r build.Ring) pattern.Line {
	out := make(pattern.Line, len(r))
	for i, s := range r {
		out[i] = geom.Point{X: s[0].Mm(), Y: s[1].Mm()}
	}
	return out
}

// arrowOf is the direction that the piece's material has on it: of least
// stretch on a hide, of the nap or the length of a roll.
func arrowOf(b *build.Build, p build.Piece) pattern.Arrow {
	if !p.Axis.Known() {
		return pattern.Arrow{}
	}
	a := pattern.Arrow{Kind: "stretch", Angle: p.Axis.Angle}
	if r := RollOf(b, p.Material); r != nil {
		a.Kind = "grain"
		if r.Nap {
			a.Kind = "nap"
		}
	}
	return a
}

// pleatsOf are the pleat lines of a pattern, which run like the first of them.
func pleatsOf(p build.Pattern) *pattern.Pleats {
	var out *pattern.Pleats
	for _, l := range p.Lines {
		if l.Kind != "pleat" {
			continue
		}
		line := lineOf(l.Points)
		way := line[len(line)-1].Sub(line[0])
		if out == nil {
			out = &pattern.Pleats{Angle: math.Atan2(way.Y, way.X) * 180 / math.Pi, Loss: p.Loss.Mm()}
		}
		sin, cos := math.Sincos(out.Angle * math.Pi / 180)
		out.At = append(out.At, float64(line[0].Y*cos)-float64(line[0].X*sin))
	}
	if out != nil {
		slices.Sort(out.At)
	}
	return out
}

// Sewn is the patterns and seams of a build as engine/pattern takes them: what
// joins edges that the patterns have. Lone are all other seams.
type Sewn struct {
	Set  pattern.Set
	Lone []build.Seam
}

// SewnOf gathers what is sewn.
func SewnOf(b *build.Build) Sewn {
	var s Sewn
	have := map[string]bool{}
	for _, m := range b.Seams {
		if !m.Kind.Joins() || !drawnSides(b, m) {
			s.Lone = append(s.Lone, m)
			continue
		}
		for _, e := range slices.Concat(m.A, m.B) {
			if id := sewnID(b, e); !have[id] {
				have[id] = true
				s.Set.Pieces = append(s.Set.Pieces, PatternOf(b, *b.Pattern(e.Piece), e.Mirrored))
			}
		}
		s.Set.Seams = append(s.Set.Seams, seamOf(b, m))
	}
	s.joined()
	return s
}

// joined leaves to the engine only what it can know: seams of the set.
func (s *Sewn) joined() {
	alone := func(id string) bool {
		return slices.ContainsFunc(s.Lone, func(m build.Seam) bool { return string(m.ID) == id })
	}
	for i := range s.Set.Seams {
		m := &s.Set.Seams[i]
		m.Inside, m.After = slices.DeleteFunc(m.Inside, alone), slices.DeleteFunc(m.After, alone)
	}
}

// drawnSides tells whether the patterns have all edges of a seam.
func drawnSides(b *build.Build, m build.Seam) bool {
	return len(lostEdges(b, m)) == 0 && !slices.ContainsFunc(slices.Concat(m.A, m.B), func(e build.EdgeOf) bool { return b.Pattern(e.Piece) == nil })
}

// lostEdges are edges that a seam names and the pattern of the piece has not.
func lostEdges(b *build.Build, m build.Seam) []build.EdgeOf {
	var list []build.EdgeOf
	for _, e := range slices.Concat(m.A, m.B) {
		if p := b.Pattern(e.Piece); p != nil {
			if edge, _ := p.Edge(e.Edge); edge == nil {
				list = append(list, e)
			}
		}
	}
	return list
}

// seamOf turns a seam into one of engine/pattern.
func seamOf(b *build.Build, m build.Seam) pattern.Seam {
	out := pattern.Seam{ID: string(m.ID), Name: m.Name, Kind: pattern.Kind(m.Kind), A: refsOf(b, m.A), B: refsOf(b, m.B), Ease: m.Ease / 100,
		RearAtA0: m.Rear, Closes: m.Closes, TopAt: m.Top.Mm(), Piping: string(m.Piping), Sewing: sewingOf(b, m)}
	for _, x := range m.Match {
		out.Match = append(out.Match, pattern.Match{A: x.A, B: x.B})
	}
	for _, id := range m.Inside {
		out.Inside = append(out.Inside, string(id))
	}
	for _, id := range m.After {
		out.After = append(out.After, string(id))
	}
	return out
}

func refsOf(b *build.Build, list []build.EdgeOf) []pattern.Ref {
	var out []pattern.Ref
	for _, e := range list {
		out = append(out, pattern.Ref{Piece: sewnID(b, e), Edge: e.Edge})
	}
	return out
}

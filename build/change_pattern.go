package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// SetPattern keeps the next revision of a piece's pattern. The piece is cut to
// it from then on: the pattern's cut shape becomes that of the piece.
type SetPattern struct {
	Pattern Pattern `json:"pattern"`
}

// Kind names the act.
func (c *SetPattern) Kind() string { return "set-pattern" }

// Say tells what the change does.
func (c *SetPattern) Say(b *Build) string {
	p := c.Pattern
	w, h := p.Cut.size()
	text := fmt.Sprintf("Pattern of %s, revision %d, from %s: cut %.0f × %.0f mm", b.pieceName(p.Piece), p.Revision, p.Source.words(), w.Mm(), h.Mm())
	if p.Why != "" {
		text += "; " + p.Why
	}
	return text
}

// Apply keeps the pattern, as the next revision, and cuts the piece to it.
func (c *SetPattern) Apply(b *Build) error {
	p, before := c.Pattern, 0
	if last := b.Pattern(p.Piece); last != nil {
		before = last.Revision
	}
	if err := b.checkPattern(p, before); err != nil {
		return err
	}
	return b.trySewn(func(next *Build) {
		next.Patterns = append(slices.Clone(b.Patterns), p)
		next.cutTo(p)
	})
}

// cutTo gives a piece the cut shape of its pattern.
func (b *Build) cutTo(p Pattern) {
	b.Pieces = slices.Clone(b.Pieces)
	piece := b.Piece(p.Piece)
	piece.Shape = p.Cut
	piece.Width, piece.Height = p.Cut.size()
}

// DropPattern takes back the last revision of a piece's pattern. The piece is
// cut to the one before, or keeps its shape where that was the first.
type DropPattern struct {
	Piece PieceID `json:"piece"`
}

// Kind names the act.
func (c *DropPattern) Kind() string { return "drop-pattern" }

// Say tells what the change does.
func (c *DropPattern) Say(b *Build) string {
	p := b.Pattern(c.Piece)
	if p == nil {
		return "Pattern of " + b.pieceName(c.Piece) + " taken out"
	}
	return fmt.Sprintf("Pattern of %s: revision %d taken out", b.pieceName(c.Piece), p.Revision)
}

// Apply takes the revision out.
func (c *DropPattern) Apply(b *Build) error {
	last := b.Pattern(c.Piece)
	if last == nil {
		return missing("pattern of trim piece", c.Piece)
	}
	gone := last.Revision
	return b.trySewn(func(next *Build) {
		next.Patterns = slices.DeleteFunc(slices.Clone(b.Patterns), func(p Pattern) bool { return p.Piece == c.Piece && p.Revision == gone })
		if before := next.Pattern(c.Piece); before != nil {
			next.cutTo(*before)
		}
	})
}

func (b *Build) pieceName(id PieceID) string {
	if p := b.Piece(id); p != nil {
		return string(id) + " " + p.Name
	}
	return string(id)
}

// words says where a pattern came from.
func (s PatternSource) words() string {
	switch s.Kind {
	case FromSurface:
		return "surface " + string(s.Surface)
	case FromPhoto:
		return "a photo"
	case FromFile:
		return "the file " + s.File
	}
	return "what was entered by hand"
}

// size is the width and the height of the box about a shape.
func (s Shape) size() (w, h unit.Length) {
	if !s.Drawn() {
		return 0, 0
	}
	low, high := s.Outer[0], s.Outer[0]
	for _, p := range s.Outer {
		for i := range p {
			low[i], high[i] = min(low[i], p[i]), max(high[i], p[i])
		}
	}
	return high[0] - low[0], high[1] - low[1]
}

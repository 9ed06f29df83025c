package build

import (
	"fmt"
	"slices"
	"strings"
)

// KeepLayout keeps a cut plan, in place of the one of its ID.
type KeepLayout struct {
	Layout Layout `json:"layout"`
}

// Kind names the act.
func (c *KeepLayout) Kind() string { return "keep-layout" }

// Say tells what the change does.
func (c *KeepLayout) Say(b *Build) string {
	l := c.Layout
	if l.Roll != "" {
		return fmt.Sprintf("Cut plan of %s: %d pieces on roll %s", l.Material, len(l.Placed), l.Roll)
	}
	var hides []HideID
	for _, p := range l.Placed {
		if !slices.Contains(hides, p.Hide) {
			hides = append(hides, p.Hide)
		}
	}
	return fmt.Sprintf("Cut plan of %s: %d pieces on %d hides%s", l.Material, len(l.Placed), len(hides), lotWords(b, hides, l.Mixed))
}

// lotWords names the dye lots of hides.
func lotWords(b *Build, hides []HideID, mixed bool) string {
	var lots []string
	for _, id := range hides {
		if h := b.Hide(id); h != nil && h.Lot != "" && !slices.Contains(lots, h.Lot) {
			lots = append(lots, h.Lot)
		}
	}
	words := ""
	switch {
	case len(lots) == 1:
		words = ", lot " + lots[0]
	case len(lots) > 1:
		words = ", lots " + strings.Join(lots, " and ")
	}
	if mixed {
		words += "; what is seen together may be of several lots"
	}
	return words
}

// Apply keeps the plan. A material has one.
func (c *KeepLayout) Apply(b *Build) error {
	l := c.Layout
	where := "layout " + string(l.ID)
	if l.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	if other := b.LayoutOf(l.Material); other != nil && other.ID != l.ID {
		return rule(ruleOrder, "%s has the layout %s already", l.Material, other.ID).At(where + ", material")
	}
	for i, p := range l.Placed {
		if h := b.Hide(p.Hide); h != nil && h.Refused {
			return rule(ruleOrder, "hide %s is refused", p.Hide).At(fmt.Sprintf("%s, line %d", where, i+1))
		}
	}
	if err := b.checkLayout(l); err != nil {
		return err
	}
	if old := b.Layout(l.ID); old != nil {
		*old = l
		return nil
	}
	b.Layouts = append(b.Layouts, l)
	return nil
}

// PieceCopy is one copy of a piece.
type PieceCopy struct {
	Piece PieceID `json:"piece"`
	Copy  int     `json:"copy"` // from 0
}

// LockPieces says that copies stay where a layout has them, or may move again.
type LockPieces struct {
	Layout LayoutID    `json:"layout"`
	Copies []PieceCopy `json:"copies"`
	Free   bool        `json:"free,omitempty"` // they may move again
}

// Kind names the act.
func (c *LockPieces) Kind() string { return "lock-pieces" }

// Say tells what the change does.
func (c *LockPieces) Say(*Build) string {
	if c.Free {
		return fmt.Sprintf("Cut plan: %d pieces may move again", len(c.Copies))
	}
	return fmt.Sprintf("Cut plan: %d pieces stay where they lie", len(c.Copies))
}

// Apply locks or frees the copies.
func (c *LockPieces) Apply(b *Build) error {
	l := b.Layout(c.Layout)
	if l == nil {
		return missing("layout", c.Layout)
	}
	next := *l
	next.Placed = slices.Clone(l.Placed)
	for i, one := range c.Copies {
		p := next.Where(one.Piece, one.Copy)
		if p == nil {
			return rule(ruleExists, "copy %d of piece %s lies nowhere in it", one.Copy, one.Piece).At(fmt.Sprintf("layout %s, copies, line %d", c.Layout, i+1))
		}
		p.Locked = !c.Free
	}
	*l = next
	return nil
}

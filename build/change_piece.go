package build

import "fmt"

// SetPiece enters a piece of the interior, or enters it anew.
type SetPiece struct {
	Piece Piece `json:"piece"`
}

// Kind names the act.
func (c *SetPiece) Kind() string { return "set-piece" }

// Say tells what the change does.
func (c *SetPiece) Say(b *Build) string {
	p := c.Piece
	verb := "entered"
	if b.Piece(p.ID) != nil {
		verb = "changed"
	}
	return fmt.Sprintf("Piece %s %s: %d × %s, %.0f × %.0f mm, grade %s", p.ID, verb, p.Quantity, p.Name, p.Width.Mm(), p.Height.Mm(), p.Grade)
}

// Apply adds the piece or takes the place of the one of its ID. Copies that a
// layout holds must still be there.
func (c *SetPiece) Apply(b *Build) error {
	p := c.Piece
	where := "trim piece " + string(p.ID)
	if p.ID == "" {
		return rule(ruleID, "the ID is missing").At(where)
	}
	next := b.Clone()
	if old := next.Piece(p.ID); old != nil {
		*old = p
	} else {
		next.Pieces = append(next.Pieces, p)
	}
	if err := first(needText(p.Name, where+", name"), needText(p.Material, where+", material"), oneOf(p.Grade, Grades(), where+", grade"), next.checkTrim()); err != nil {
		return err
	}
	b.Pieces = next.Pieces
	return nil
}

// SetRoll enters a material by the metre, or enters it anew.
type SetRoll struct {
	Roll Roll `json:"roll"`
}

// Kind names the act.
func (c *SetRoll) Kind() string { return "set-roll" }

// Say tells what the change does.
func (c *SetRoll) Say(*Build) string {
	r := c.Roll
	text := fmt.Sprintf("Roll %s: %s, %.0f mm wide", r.ID, r.Material, r.Width.Mm())
	if r.Nap {
		text += ", with a nap"
	}
	if r.Repeat > 0 || r.Across > 0 {
		text += fmt.Sprintf(", a pattern every %.0f × %.0f mm", r.Repeat.Mm(), r.Across.Mm())
	}
	return text
}

// Apply adds the roll or takes the place of the one of its ID.
func (c *SetRoll) Apply(b *Build) error {
	r := c.Roll
	if r.ID == "" {
		return rule(ruleID, "the ID is missing").At("roll")
	}
	if err := b.checkRoll(r); err != nil {
		return err
	}
	if old := b.Roll(r.ID); old != nil {
		*old = r
		return nil
	}
	b.Rolls = append(b.Rolls, r)
	return nil
}

package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// TakeInHide notes a hide that came in.
type TakeInHide struct {
	Hide Hide `json:"hide"`
}

// Kind names the act.
func (c *TakeInHide) Kind() string { return "take-in-hide" }

// Say tells what the change does.
func (c *TakeInHide) Say(*Build) string {
	return fmt.Sprintf("Hide %s in: %s, %s, lot %s", c.Hide.ID, c.Hide.Material, c.Hide.Area, c.Hide.Lot)
}

// Apply adds the hide.
func (c *TakeInHide) Apply(b *Build) error {
	h := c.Hide
	where := "hide " + string(h.ID)
	if h.ID == "" || b.Hide(h.ID) != nil {
		return rule(ruleID, "the ID is missing or taken").At(where)
	}
	if err := first(needText(h.Material, where+", material"), checkHide(h)); err != nil {
		return err
	}
	b.Hides = append(b.Hides, h)
	return nil
}

// DrawHide draws a hide, or draws it anew: its outline, zones and headings.
// Marks and keep-outs stay as they are.
type DrawHide struct {
	Hide         HideID      `json:"hide"`
	Outline      Shape       `json:"outline"`
	OutlineError unit.Length `json:"outline_error_mm,omitempty"`
	Photo        PhotoHash   `json:"photo,omitempty"`
	Zones        []HideZone  `json:"zones,omitempty"`
	Headings     []Heading   `json:"headings,omitempty"`
}

// Kind names the act.
func (c *DrawHide) Kind() string { return "draw-hide" }

// Say tells what the change does.
func (c *DrawHide) Say(*Build) string {
	text := fmt.Sprintf("Hide %s drawn: %s, %d zones", c.Hide, c.Outline.Area(), len(c.Zones))
	if c.OutlineError > 0 {
		text += ", to within " + c.OutlineError.String()
	}
	return text
}

// Apply sets what is drawn.
func (c *DrawHide) Apply(b *Build) error {
	if !c.Outline.Drawn() {
		return rule(ruleShape, "there is no outline").At("hide " + string(c.Hide) + ", outline")
	}
	return b.onHide(c.Hide, func(h *Hide) error {
		h.Outline, h.OutlineError, h.Photo = c.Outline, c.OutlineError, c.Photo
		h.Zones, h.Headings = c.Zones, c.Headings
		return nil
	})
}

// onHide changes a copy of a hide and puts it in place once it holds.
func (b *Build) onHide(id HideID, do func(h *Hide) error) error {
	h := b.Hide(id)
	if h == nil {
		return missing("hide", id)
	}
	next := *h
	if err := do(&next); err != nil {
		return err
	}
	if err := checkHide(next); err != nil {
		return err
	}
	*h = next
	return nil
}

// MarkHide puts a mark on a hide, or draws one of its ID anew.
type MarkHide struct {
	Hide HideID `json:"hide"`
	Mark Mark   `json:"mark"`
}

// Kind names the act.
func (c *MarkHide) Kind() string { return "mark-hide" }

// Say tells what the change does.
func (c *MarkHide) Say(*Build) string {
	box := c.Mark.Shape.Polygon().Bounds()
	return fmt.Sprintf("Hide %s: %s of %.0f × %.0f mm, %s", c.Hide, c.Mark.Kind, box.Width(), box.Height(), c.Mark.Takes())
}

// Takes says in words what may lie on a mark.
func (m Mark) Takes() string {
	switch m.Grade {
	case "":
		return "nothing may lie on it"
	case "A":
		return "any piece may lie on it"
	}
	return "pieces of grade " + m.Grade + " or lower may lie on it"
}

// Apply adds the mark.
func (c *MarkHide) Apply(b *Build) error {
	return b.onHide(c.Hide, func(h *Hide) error {
		h.Marks = slices.Clone(h.Marks)
		if old := h.Mark(c.Mark.ID); old != nil {
			*old = c.Mark
		} else {
			h.Marks = append(h.Marks, c.Mark)
		}
		return nil
	})
}

// ClearMark takes a mark off a hide that turned out to be none.
type ClearMark struct {
	Hide HideID `json:"hide"`
	Mark string `json:"mark"`
}

// Kind names the act.
func (c *ClearMark) Kind() string { return "clear-mark" }

// Say tells what the change does.
func (c *ClearMark) Say(*Build) string {
	return fmt.Sprintf("Hide %s: mark %s is none", c.Hide, c.Mark)
}

// Apply takes the mark off.
func (c *ClearMark) Apply(b *Build) error {
	return b.onHide(c.Hide, func(h *Hide) error {
		if h.Mark(c.Mark) == nil {
			return at(missing("mark", c.Mark), "hide "+string(c.Hide))
		}
		h.Marks = slices.DeleteFunc(slices.Clone(h.Marks), func(m Mark) bool { return m.ID == c.Mark })
		return nil
	})
}

// KeepOut says from which parts of a hide nothing is cut, in place of what was
// said before.
type KeepOut struct {
	Hide   HideID  `json:"hide"`
	Shapes []Shape `json:"shapes"`
}

// Kind names the act.
func (c *KeepOut) Kind() string { return "keep-out" }

// Say tells what the change does.
func (c *KeepOut) Say(*Build) string {
	return fmt.Sprintf("Hide %s: %d keep-outs", c.Hide, len(c.Shapes))
}

// Apply sets the keep-outs.
func (c *KeepOut) Apply(b *Build) error {
	return b.onHide(c.Hide, func(h *Hide) error { h.KeepOuts = c.Shapes; return nil })
}

// RefuseHide says that a hide is not cut from: lost, spoilt or sent back.
type RefuseHide struct {
	Hide HideID `json:"hide"`
	Why  string `json:"why"`
}

// Kind names the act.
func (c *RefuseHide) Kind() string { return "refuse-hide" }

// Say tells what the change does.
func (c *RefuseHide) Say(*Build) string { return fmt.Sprintf("Hide %s refused: %s", c.Hide, c.Why) }

// Apply takes the hide out of use. Layouts keep the pieces that lay on it, so
// that what must move can be told.
func (c *RefuseHide) Apply(b *Build) error {
	return b.onHide(c.Hide, func(h *Hide) error {
		where := "hide " + string(c.Hide)
		if h.Refused {
			return rule(ruleOrder, "it is refused already").At(where)
		}
		h.Refused, h.Why = true, c.Why
		return needText(c.Why, where+", why")
	})
}

package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// TakeInTin notes a tin that came in.
type TakeInTin struct {
	Tin Tin `json:"tin"`
}

// Kind names the act.
func (c *TakeInTin) Kind() string { return "take-in-tin" }

// Say tells what the change does.
func (c *TakeInTin) Say(b *Build) string {
	text := fmt.Sprintf("Tin %s in: %s of %s", c.Tin.ID, c.Tin.Size, b.productName(c.Tin.Product))
	if p := b.Product(c.Tin.Product); p != nil && c.Tin.Part >= 0 && p.partName(c.Tin.Part) != "" {
		text += ", " + p.partName(c.Tin.Part)
	}
	if c.Tin.Batch != "" {
		text += ", batch " + c.Tin.Batch
	}
	return text
}

// Apply adds the tin; one that does not say what is left is full.
func (c *TakeInTin) Apply(b *Build) error {
	t := c.Tin
	if t.Left == 0 {
		t.Left = t.Size
	}
	if t.ID == "" || b.Tin(t.ID) != nil {
		return rule(ruleID, "the number is missing or taken").At("tin " + string(t.ID))
	}
	if err := b.checkTin(t); err != nil {
		return err
	}
	b.Tins = append(b.Tins, t)
	return nil
}

// AdjustTin says how much is really in a tin.
type AdjustTin struct {
	Tin  TinID       `json:"tin"`
	Left unit.Volume `json:"left_l"`
	Why  string      `json:"why"`
}

// Kind names the act.
func (c *AdjustTin) Kind() string { return "adjust-tin" }

// Say tells what the change does.
func (c *AdjustTin) Say(*Build) string {
	return fmt.Sprintf("Tin %s holds %s: %s", c.Tin, c.Left, c.Why)
}

// Apply sets what is left.
func (c *AdjustTin) Apply(b *Build) error {
	t := b.Tin(c.Tin)
	if t == nil {
		return missing("tin", c.Tin)
	}
	next := *t
	next.Left = c.Left
	if err := first(needText(c.Why, "tin "+string(c.Tin)+", why"), b.checkTin(next)); err != nil {
		return err
	}
	*t = next
	return nil
}

// BoxTins says that tins of one part were blended, so that they are one colour.
type BoxTins struct {
	Tins []TinID `json:"tins"`
}

// Kind names the act.
func (c *BoxTins) Kind() string { return "box-tins" }

// Say tells what the change does.
func (c *BoxTins) Say(*Build) string { return fmt.Sprintf("%d tins boxed together", len(c.Tins)) }

// Apply ties the tins to the first of them.
func (c *BoxTins) Apply(b *Build) error {
	if len(c.Tins) < 2 {
		return rule(ruleExists, "it takes two tins or more").At("box-tins, tins")
	}
	for i, id := range c.Tins {
		t, head := b.Tin(id), b.Tin(c.Tins[0])
		where := fmt.Sprintf("box-tins, tins, line %d", i+1)
		switch {
		case t == nil:
			return at(missing("tin", id), where)
		case slices.Contains(c.Tins[:i], id):
			return rule(ruleID, "it is named twice").At(where)
		case t.Product != head.Product || t.Part != head.Part:
			return rule(ruleOrder, "it does not hold what tin %s holds", head.ID).At(where)
		}
	}
	for _, id := range c.Tins {
		b.Tin(id).Boxed = c.Tins[0]
	}
	return nil
}

func (b *Build) productName(id ProductID) string {
	if p := b.Product(id); p != nil {
		return p.Name
	}
	return string(id)
}

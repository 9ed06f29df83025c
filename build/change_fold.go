package build

import (
	"fmt"
	"slices"
)

// FoldStrip enters a test strip and what came of it, or enters it anew.
type FoldStrip struct {
	Strip Strip `json:"strip"`
}

// Kind names the act.
func (c *FoldStrip) Kind() string { return "fold-strip" }

// Say tells what the change does.
func (c *FoldStrip) Say(*Build) string {
	s := c.Strip
	return fmt.Sprintf("Test strip %s of %.1f mm, bend of %.0f° with radius %.1f mm: K is %.2f", s.ID, s.Gauge.Mm(), s.Bend.Angle, s.Bend.Radius.Mm(), s.K())
}

// Apply adds the strip or takes the place of the one of its ID.
func (c *FoldStrip) Apply(b *Build) error {
	if err := checkStrip(c.Strip); err != nil {
		return err
	}
	list := slices.Clone(b.Strips)
	if i := slices.IndexFunc(list, func(o Strip) bool { return o.ID == c.Strip.ID }); i >= 0 {
		list[i] = c.Strip
	} else {
		list = append(list, c.Strip)
	}
	b.Strips = list
	return nil
}

// DropStrip takes a test strip away: it was measured wrong.
type DropStrip struct {
	Strip StripID `json:"strip"`
}

// Kind names the act.
func (c *DropStrip) Kind() string { return "drop-strip" }

// Say tells what the change does.
func (c *DropStrip) Say(*Build) string { return fmt.Sprintf("Test strip %s does not count", c.Strip) }

// Apply takes it away.
func (c *DropStrip) Apply(b *Build) error {
	if b.Strip(c.Strip) == nil {
		return missing("test strip", c.Strip)
	}
	b.Strips = slices.DeleteFunc(slices.Clone(b.Strips), func(s Strip) bool { return s.ID == c.Strip })
	return nil
}

// SetBrake says what the shop folds sheet on.
type SetBrake struct {
	Brake Brake `json:"brake"`
}

// Kind names the act.
func (c *SetBrake) Kind() string { return "set-brake" }

// Say tells what the change does.
func (c *SetBrake) Say(*Build) string { return "Sheet is folded on " + c.Brake.Name }

// Apply sets it in place of what stood there.
func (c *SetBrake) Apply(b *Build) error {
	if err := needText(c.Brake.Name, "brake, name"); err != nil {
		return err
	}
	if err := checkBrake(c.Brake); err != nil {
		return err
	}
	b.Brake = c.Brake
	return nil
}

package build

import (
	"fmt"
	"slices"
)

// SetSolventLimits writes the owner's table of solvent limits, or takes it away
// where it has no class.
type SetSolventLimits struct {
	Limits SolventLimits `json:"limits"`
}

// Kind names the act.
func (c *SetSolventLimits) Kind() string { return "set-solvent-limits" }

// Say tells what the change does.
func (c *SetSolventLimits) Say(*Build) string {
	switch n := len(c.Limits.Classes); n {
	case 0:
		return "The table of solvent limits is taken away"
	case 1:
		return fmt.Sprintf("Solvent limits, the owner's text: %s, one class", c.Limits.Title)
	default:
		return fmt.Sprintf("Solvent limits, the owner's text: %s, %d classes", c.Limits.Title, n)
	}
}

// Apply takes the place of the table. Products that name a class must still
// find it.
func (c *SetSolventLimits) Apply(b *Build) error {
	next := *b
	next.Solvent = SolventLimits{}
	if len(c.Limits.Classes) > 0 {
		next.Solvent = c.Limits
		next.Solvent.Classes = slices.Clone(c.Limits.Classes)
	}
	if err := first(next.checkSolvent(), each(next.Products, next.checkSolventOf)); err != nil {
		return err
	}
	b.Solvent = next.Solvent
	return nil
}

package build

import (
	"fmt"
	"slices"
	"strings"
)

// SetCircuit enters a circuit of the list of lamps, or enters it anew.
type SetCircuit struct {
	Circuit Circuit `json:"circuit"`
}

// Kind names the act.
func (c *SetCircuit) Kind() string { return "set-circuit" }

// Say tells what the change does.
func (c *SetCircuit) Say(*Build) string {
	x := c.Circuit
	return fmt.Sprintf("Circuit %s, %s: %g A over %s, fuse %s", x.ID, x.Name, x.Load, x.Length, x.Fuse)
}

// Apply adds the circuit or takes the place of the one of its ID. A fuse on the
// list of fuses gives it its rating.
func (c *SetCircuit) Apply(b *Build) error {
	x := c.Circuit
	if f := b.Loom.Fuse(x.Fuse); f != nil && x.FuseA == 0 {
		x.FuseA = f.Amps
	}
	return b.tryWired(func(next *Build) { next.Circuits = put(b.Circuits, x, (*Circuit).key) })
}

// SetFuse enters a fuse, or enters it anew. Circuits that it feeds take its
// rating over.
type SetFuse struct {
	Fuse Fuse `json:"fuse"`
}

// Kind names the act.
func (c *SetFuse) Kind() string { return "set-fuse" }

// Say tells what the change does.
func (c *SetFuse) Say(*Build) string {
	text := fmt.Sprintf("Fuse %s: %g A", c.Fuse.Name, c.Fuse.Amps)
	if c.Fuse.Empty {
		text += ", its holder empty"
	}
	return text
}

// Apply adds the fuse or takes the place of the one of its name.
func (c *SetFuse) Apply(b *Build) error {
	return b.tryWired(func(next *Build) {
		next.Loom.Fuses = put(b.Loom.Fuses, c.Fuse, (*Fuse).key)
		next.Circuits = slices.Clone(b.Circuits)
		for i := range next.Circuits {
			if next.Circuits[i].Fuse == c.Fuse.Name {
				next.Circuits[i].FuseA = c.Fuse.Amps
			}
		}
	})
}

// SetLoom says how the loom is reckoned and made.
type SetLoom struct {
	Settings LoomSettings `json:"settings"`
}

// Kind names the act.
func (c *SetLoom) Kind() string { return "set-loom" }

// Say tells what the change does.
func (c *SetLoom) Say(*Build) string {
	var words []string
	for _, w := range []string{c.Settings.Rules, c.Settings.Cable, c.Settings.Code, c.Settings.Sleeve} {
		if w != "" {
			words = append(words, w)
		}
	}
	if c.Settings.PositiveEarth {
		words = append(words, "positive earth")
	}
	if c.Settings.ByRoute {
		words = append(words, "lengths by the route")
	}
	if n := c.Settings.HoursFor; n > 0 {
		words = append(words, fmt.Sprintf("hours for %d circuits", n))
	}
	if len(words) == 0 {
		return "The loom by the habits of the trade"
	}
	return "The loom: " + strings.Join(words, ", ")
}

// Apply takes the settings over.
func (c *SetLoom) Apply(b *Build) error {
	return b.tryWired(func(next *Build) {
		next.Loom.Settings = c.Settings
		next.Loom.Settings.Airs = slices.Clone(c.Settings.Airs)
	})
}

// CoverSupply says which part of Stores covers a kind of thing that the loom
// takes; no part is none.
type CoverSupply struct {
	Supply LoomSupply `json:"supply"`
}

// Kind names the act.
func (c *CoverSupply) Kind() string { return "cover-supply" }

// Say tells what the change does.
func (c *CoverSupply) Say(*Build) string {
	if c.Supply.Part == "" {
		return c.Supply.What + " of the loom: on no list"
	}
	return fmt.Sprintf("%s of the loom: %s", c.Supply.What, c.Supply.Part)
}

// Apply notes the part.
func (c *CoverSupply) Apply(b *Build) error {
	if c.Supply.Part != "" {
		return b.tryWired(func(next *Build) { next.Loom.Supplies = put(b.Loom.Supplies, c.Supply, (*LoomSupply).key) })
	}
	if b.Loom.Supply(c.Supply.What) == nil {
		return missing("supply", c.Supply.What)
	}
	return b.tryWired(func(next *Build) { drop(&next.Loom.Supplies, c.Supply.What, (*LoomSupply).key) })
}

// SetExclusive says what is never on together, or says it anew.
type SetExclusive struct {
	Exclusive Exclusive `json:"exclusive"`
}

// Kind names the act.
func (c *SetExclusive) Kind() string { return "set-never-together" }

// Say tells what the change does.
func (c *SetExclusive) Say(*Build) string {
	return "Never together: " + strings.Join(c.Exclusive.Never, ", ")
}

// Apply adds it or takes the place of that of its ID.
func (c *SetExclusive) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Exclusives = put(b.Loom.Exclusives, c.Exclusive, (*Exclusive).key) })
}

// tryWired lets a change of circuits and of the loom through if all facts of
// the loom still fit each other.
func (b *Build) tryWired(change func(*Build)) error {
	next := *b
	change(&next)
	if err := first(next.uniqueWired(), next.checkLoom(), next.checkCircuits()); err != nil {
		return err
	}
	*b = next
	return nil
}

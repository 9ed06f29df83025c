package build

import (
	"fmt"
	"slices"
)

// SetSurface enters a surface, or enters it anew after another scan.
type SetSurface struct {
	Surface Surface `json:"surface"`
}

// Kind names the act.
func (c *SetSurface) Kind() string { return "set-surface" }

// Say tells what the change does.
func (c *SetSurface) Say(b *Build) string {
	s := c.Surface
	verb := "entered"
	if b.Surface(s.ID) != nil {
		verb = "changed"
	}
	return fmt.Sprintf("Surface %s %s: %s, %d vertices, %s", s.ID, verb, s.Name, s.Vertices, s.Area)
}

// Apply adds the surface or takes the place of the one of its ID.
func (c *SetSurface) Apply(b *Build) error {
	return b.trySewn(func(next *Build) { next.Surfaces = put(b.Surfaces, c.Surface, (*Surface).key) })
}

// put returns the list with an item in the place of the one of its ID, or at
// its end.
func put[T any, ID comparable](list []T, item T, id func(*T) ID) []T {
	list = slices.Clone(list)
	if old := find(list, id(&item), id); old != nil {
		*old = item
		return list
	}
	return append(list, item)
}

// trySewn lets a change of surfaces, patterns, seams and what goes with them
// through if all facts of the trim shop still fit each other.
func (b *Build) trySewn(change func(*Build)) error {
	next := *b
	change(&next)
	if err := first(next.uniqueSewn(), next.checkTrim()); err != nil {
		return err
	}
	*b = next
	return nil
}

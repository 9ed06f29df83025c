package build

import (
	"fmt"
	"slices"
)

// CutSheet says that a sheet of a kept cut plan is cut: its blanks are there,
// the sheet is off the rack, and what is kept of it is on it as offcuts.
type CutSheet struct {
	Sheet SheetID `json:"sheet"`
	Nth   int     `json:"nth"`            // which of the sheets of that ID, from 0
	Left  []Sheet `json:"left,omitempty"` // offcuts that are kept
}

// Kind names the act.
func (c *CutSheet) Kind() string { return "cut-sheet" }

// Say tells what the change does.
func (c *CutSheet) Say(b *Build) string {
	n := 0
	if s := b.Sheet(c.Sheet); s != nil {
		if plan := b.SheetPlan(s.Gauge); plan != nil {
			for _, p := range plan.Placed {
				if c.on(p) {
					n++
				}
			}
		}
	}
	words := fmt.Sprintf("Sheet %s is cut: %d blanks", c.Sheet, n)
	if n == 1 {
		words = fmt.Sprintf("Sheet %s is cut: 1 blank", c.Sheet)
	}
	for _, s := range c.Left {
		words += fmt.Sprintf("; %s is kept of it, %.0f × %.0f mm", s.ID, s.Width.Mm(), s.Height.Mm())
	}
	return words
}

func (c *CutSheet) on(p BlankPlaced) bool { return p.Sheet == c.Sheet && p.Nth == c.Nth }

// Apply takes the sheet off the rack and its blanks off the plan.
func (c *CutSheet) Apply(b *Build) error {
	s := b.Sheet(c.Sheet)
	if s == nil {
		return missing("sheet", c.Sheet)
	}
	where := "sheet " + string(c.Sheet)
	plan := b.SheetPlan(s.Gauge)
	if plan == nil || !slices.ContainsFunc(plan.Placed, c.on) {
		return rule(ruleOrder, "no kept cut plan has a blank on it").At(where)
	}
	for i, left := range c.Left {
		if b.Sheet(left.ID) != nil || left.Gauge != s.Gauge || !left.Offcut || left.Part != "" {
			return rule(ruleOrder, "what is left of a sheet is a new offcut of its gauge").At(fmt.Sprintf("%s, left, line %d", where, i+1))
		}
	}
	return b.tryMetal(func(next *Build) { c.cut(next) })
}

func (c *CutSheet) cut(b *Build) {
	b.Blanks, b.Sheets, b.SheetPlans = slices.Clone(b.Blanks), slices.Clone(b.Sheets), slices.Clone(b.SheetPlans)
	s := b.Sheet(c.Sheet)
	s.Quantity--
	plan := b.SheetPlan(s.Gauge)
	var rest []BlankPlaced
	for _, p := range plan.Placed {
		if c.on(p) {
			b.Blank(p.Blank).Done++
			continue
		}
		if p.Sheet == c.Sheet && p.Nth > c.Nth {
			p.Nth--
		}
		rest = append(rest, p)
	}
	// Copies are counted among those still to be cut.
	slices.SortStableFunc(rest, func(a, b BlankPlaced) int { return a.Copy - b.Copy })
	seen := map[BlankID]int{}
	for i := range rest {
		rest[i].Copy = seen[rest[i].Blank]
		seen[rest[i].Blank]++
	}
	plan.Placed = rest
	b.Sheets = append(b.Sheets, c.Left...)
}

package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// SetBlanks enters blanks of sheet metal, or enters those of their IDs anew.
type SetBlanks struct {
	Blanks []Blank `json:"blanks"`
}

// Kind names the act.
func (c *SetBlanks) Kind() string { return "set-blanks" }

// Say tells what the change does.
func (c *SetBlanks) Say(*Build) string {
	if len(c.Blanks) == 1 {
		p := c.Blanks[0]
		return fmt.Sprintf("Blank %s: %d × %s, %.0f × %.0f mm of %.1f mm", p.ID, p.Quantity, p.Name, p.Width.Mm(), p.Height.Mm(), p.Gauge.Mm())
	}
	return fmt.Sprintf("%d blanks", len(c.Blanks))
}

// Apply adds the blanks or takes the places of those of their IDs.
func (c *SetBlanks) Apply(b *Build) error {
	if len(c.Blanks) == 0 {
		return rule(ruleText, "there is no blank in it").At("blanks")
	}
	list := b.Blanks
	for _, p := range c.Blanks {
		if err := b.checkBlank(p); err != nil {
			return err
		}
		list = put(list, p, func(o *Blank) BlankID { return o.ID })
	}
	return b.tryMetal(func(next *Build) { next.Blanks = list })
}

// DropBlank takes a blank off the list, and out of a kept plan.
type DropBlank struct {
	Blank BlankID `json:"blank"`
}

// Kind names the act.
func (c *DropBlank) Kind() string { return "drop-blank" }

// Say tells what the change does.
func (c *DropBlank) Say(*Build) string { return fmt.Sprintf("Blank %s is not needed", c.Blank) }

// Apply takes it off.
func (c *DropBlank) Apply(b *Build) error {
	if b.Blank(c.Blank) == nil {
		return missing("blank", c.Blank)
	}
	b.Blanks = slices.DeleteFunc(slices.Clone(b.Blanks), func(p Blank) bool { return p.ID == c.Blank })
	b.SheetPlans = slices.Clone(b.SheetPlans)
	for i := range b.SheetPlans {
		b.SheetPlans[i].Placed = slices.DeleteFunc(slices.Clone(b.SheetPlans[i].Placed), func(p BlankPlaced) bool { return p.Blank == c.Blank })
	}
	return nil
}

// SetSheet enters sheet metal on the rack, or an offcut, or enters it anew.
type SetSheet struct {
	Sheet Sheet `json:"sheet"`
}

// Kind names the act.
func (c *SetSheet) Kind() string { return "set-sheet" }

// Say tells what the change does.
func (c *SetSheet) Say(*Build) string {
	s := c.Sheet
	return fmt.Sprintf("Sheet %s: %d × %s, %.0f × %.0f mm of %.1f mm", s.ID, s.Quantity, s.Name, s.Width.Mm(), s.Height.Mm(), s.Gauge.Mm())
}

// Apply adds the sheet or takes the place of the one of its ID. What a kept
// plan cuts from must still be there.
func (c *SetSheet) Apply(b *Build) error {
	if err := b.checkSheetMetal(c.Sheet); err != nil {
		return err
	}
	return b.tryMetal(func(next *Build) {
		next.Sheets = put(b.Sheets, c.Sheet, func(o *Sheet) SheetID { return o.ID })
	})
}

// KeepSheetPlan keeps the cut plan of a gauge, in place of the one before.
type KeepSheetPlan struct {
	Plan SheetPlan `json:"plan"`
}

// Kind names the act.
func (c *KeepSheetPlan) Kind() string { return "keep-sheet-plan" }

// Say tells what the change does.
func (c *KeepSheetPlan) Say(*Build) string {
	type one struct {
		sheet SheetID
		nth   int
	}
	used := map[one]bool{}
	for _, p := range c.Plan.Placed {
		used[one{p.Sheet, p.Nth}] = true
	}
	return fmt.Sprintf("Cut plan of %.1f mm sheet: %d blanks on %d sheets", c.Plan.Gauge.Mm(), len(c.Plan.Placed), len(used))
}

// Apply keeps the plan. A gauge has one.
func (c *KeepSheetPlan) Apply(b *Build) error {
	list := slices.DeleteFunc(slices.Clone(b.SheetPlans), func(p SheetPlan) bool { return p.Gauge == c.Plan.Gauge })
	return b.tryMetal(func(next *Build) { next.SheetPlans = append(list, c.Plan) })
}

// tryMetal lets a change of blanks, sheets and plans through if they still
// fit each other.
func (b *Build) tryMetal(change func(*Build)) error {
	next := *b
	change(&next)
	if err := next.checkSheets(); err != nil {
		return err
	}
	b.Blanks, b.Sheets, b.SheetPlans = next.Blanks, next.Sheets, next.SheetPlans
	return nil
}

// gaugeWords writes a gauge as it is said.
func gaugeWords(g unit.Length) string { return fmt.Sprintf("%.1f mm", g.Mm()) }

package build

import (
	"fmt"
	"slices"
)

// RecordWarmUp notes how long a bay took to warm.
type RecordWarmUp struct {
	WarmUp WarmUp `json:"warm_up"`
}

// Kind names the act.
func (c *RecordWarmUp) Kind() string { return "record-warm-up" }

// Say tells what the change does.
func (c *RecordWarmUp) Say(b *Build) string {
	w := c.WarmUp
	return fmt.Sprintf("%s warmed from %g to %g °C in %d min", b.bayName(w.Bay), w.From, w.To, w.Minutes)
}

// Apply adds the record.
func (c *RecordWarmUp) Apply(b *Build) error {
	same := func(w WarmUp) bool { return w.ID == c.WarmUp.ID }
	if c.WarmUp.ID == "" || slices.ContainsFunc(b.WarmUps, same) {
		return rule(ruleID, "the number is missing or taken").At("warm-up " + string(c.WarmUp.ID))
	}
	if err := b.checkWarmUp(c.WarmUp); err != nil {
		return err
	}
	b.WarmUps = append(b.WarmUps, c.WarmUp)
	return nil
}

// PostClearance says how long after spraying nobody enters a bay without air,
// as measured.
type PostClearance struct {
	Bay     string `json:"bay"`
	Minutes int    `json:"minutes"`
}

// Kind names the act.
func (c *PostClearance) Kind() string { return "post-clearance" }

// Say tells what the change does.
func (c *PostClearance) Say(b *Build) string {
	return fmt.Sprintf("%s clears in %d min after the last coat", b.bayName(c.Bay), c.Minutes)
}

// Apply sets the minutes.
func (c *PostClearance) Apply(b *Build) error {
	y := find(b.Bays, c.Bay, func(y *Bay) string { return y.ID })
	if y == nil {
		return missing("bay", c.Bay)
	}
	if err := inRange(c.Minutes, 1, mostMinutes, "minutes", "bay "+c.Bay+", minutes"); err != nil {
		return err
	}
	y.Clearance = c.Minutes
	return nil
}

func (b *Build) bayName(id string) string {
	if y := find(b.Bays, id, func(y *Bay) string { return y.ID }); y != nil {
		return y.Name
	}
	return id
}

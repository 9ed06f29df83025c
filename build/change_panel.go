package build

import (
	"fmt"
	"slices"
)

// AddPanel adds a panel to the body.
type AddPanel struct {
	Panel Panel `json:"panel"`
}

// Kind names the act.
func (c *AddPanel) Kind() string { return "add-panel" }

// Say tells what the change does.
func (c *AddPanel) Say(*Build) string {
	return fmt.Sprintf("Panel %s added: %s", c.Panel.ID, c.Panel.FullName())
}

// Apply adds the panel.
func (c *AddPanel) Apply(b *Build) error {
	p := c.Panel
	if p.State == "" {
		p.State = p.Decision
	}
	if p.ID == "" || b.Panel(p.ID) != nil {
		return rule(ruleID, "the number is missing or taken").At("panel " + string(p.ID))
	}
	if err := b.checkPanel(p); err != nil {
		return err
	}
	b.Panels = append(b.Panels, p)
	return nil
}

func (b *Build) checkPanel(p Panel) error {
	where := "panel " + string(p.ID)
	for _, a := range slices.Concat(p.Areas, p.Undivided) {
		if b.Zone(a.Zone) == nil {
			return at(missing("paint zone", a.Zone), where+", areas")
		}
		if a.Area < 0 {
			return rule(ruleRange, "an area is negative").At(where + ", areas")
		}
	}
	if p.Task != "" && b.Task(p.Task) == nil {
		return at(missing("task", p.Task), where+", metal_task")
	}
	return first(
		needText(p.Name, where+", name"),
		oneOf(p.Side, []string{"L", "R", "C"}, where+", side"),
		oneOf(p.Decision, Decisions(), where+", decision"),
		oneOf(p.State, PanelStates(), where+", state"),
		inRange(p.Gauge, 0, mostLength, "gauge", where+", gauge_mm"),
	)
}

// DecidePanel settles what will be done about a whole panel.
type DecidePanel struct {
	Panel    PanelID    `json:"panel"`
	Decision PanelState `json:"decision"`
}

// Kind names the act.
func (c *DecidePanel) Kind() string { return "decide-panel" }

// Say tells what the change does.
func (c *DecidePanel) Say(*Build) string {
	return fmt.Sprintf("Panel %s decided: %s", c.Panel, c.Decision)
}

// Apply sets the decision, and the state where work has not begun.
func (c *DecidePanel) Apply(b *Build) error {
	p := b.Panel(c.Panel)
	if p == nil {
		return missing("panel", c.Panel)
	}
	if err := oneOf(c.Decision, Decisions(), "panel "+string(c.Panel)+", decision"); err != nil {
		return err
	}
	p.Decision = c.Decision
	if slices.Contains(Decisions(), p.State) {
		p.State = c.Decision
	}
	return nil
}

// MovePanels says how far panels are.
type MovePanels struct {
	Panels []PanelID  `json:"panels"`
	State  PanelState `json:"state"`
}

// Kind names the act.
func (c *MovePanels) Kind() string { return "move-panels" }

// Say tells what the change does.
func (c *MovePanels) Say(*Build) string {
	if len(c.Panels) == 1 {
		return fmt.Sprintf("Panel %s is %s", c.Panels[0], c.State)
	}
	return fmt.Sprintf("%d panels are %s", len(c.Panels), c.State)
}

// Apply sets the state of all the panels.
func (c *MovePanels) Apply(b *Build) error {
	if err := oneOf(c.State, PanelStates(), "state"); err != nil {
		return err
	}
	for _, id := range c.Panels {
		if b.Panel(id) == nil {
			return missing("panel", id)
		}
	}
	for _, id := range c.Panels {
		b.Panel(id).State = c.State
	}
	return nil
}

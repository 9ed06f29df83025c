package build

import (
	"fmt"
	"slices"
)

// RecordFinding puts a new finding on the body, with its remedy where that is
// known already and the parts it makes necessary.
type RecordFinding struct {
	Finding  Finding    `json:"finding"`
	Decision PanelState `json:"panel_decision,omitempty"` // of its panels; empty leaves it, but a kept panel becomes repair
	Parts    []Part     `json:"parts,omitempty"`
}

// Kind names the act.
func (c *RecordFinding) Kind() string { return "record-finding" }

// Say tells what the change does.
func (c *RecordFinding) Say(b *Build) string {
	where := ""
	for i, id := range c.Finding.Panels {
		if p := b.Panel(id); p != nil {
			if i > 0 {
				where += " and "
			}
			where += p.FullName()
		}
	}
	return fmt.Sprintf("Finding %s on %s: %s, %s", c.Finding.ID, where, c.Finding.What, c.Finding.Size)
}

// Apply adds the finding, moves its panels' decision and adds its parts.
func (c *RecordFinding) Apply(b *Build) error {
	f := c.Finding
	if f.State == "" {
		f.State = Sized
		if f.Remedy != "" {
			f.State = Settled
		}
	}
	where := "finding " + string(f.ID)
	if f.ID == "" || b.Finding(f.ID) != nil {
		return rule(ruleID, "the number is missing or taken").At(where)
	}
	if f.Task == "" && len(f.Panels) > 0 {
		if p := b.Panel(f.Panels[0]); p != nil {
			f.Task = p.Task
		}
	}
	if err := first(b.checkFinding(f, where), checkDecision(c.Decision, where), b.checkNewParts(c.Parts, where)); err != nil {
		return err
	}
	b.Findings = append(b.Findings, f)
	b.addParts(c.Parts, f)
	b.settlePanels(f, c.Decision)
	return nil
}

func (b *Build) checkFinding(f Finding, where string) error {
	if len(f.Panels) == 0 {
		return rule(ruleExists, "a finding lies on at least one panel").At(where + ", panels")
	}
	for _, id := range f.Panels {
		if b.Panel(id) == nil {
			return at(missing("panel", id), where+", panels")
		}
	}
	if b.Task(f.Task) == nil {
		return at(missing("task", f.Task), where+", task")
	}
	if f.Size.Round && f.Size.Height > f.Size.Width {
		return rule(ruleRange, "the smallest hole is wider than the widest").At(where + ", height_mm")
	}
	if f.Remedy != "" {
		if err := oneOf(f.Remedy, Decisions(), where+", remedy"); err != nil {
			return err
		}
	}
	return first(
		needText(f.What, where+", what"),
		inRange(f.X, -mostLength, mostLength, "x", where+", x_mm"),
		inRange(f.Z, -mostLength, mostLength, "z", where+", z_mm"),
		inRange(f.Size.Width, 1, mostLength, "width", where+", width_mm"),
		inRange(f.Size.Height, 0, mostLength, "height", where+", height_mm"),
		inRange(f.Size.Count, 0, mostCount, "count", where+", count"),
		oneOf(f.State, FindingStates(), where+", state"),
		b.checkLegs(f.Work, where+", work"),
	)
}

// checkDecision applies rule 4 to what is decided about the panels of a
// finding; nothing is decided where it is empty.
func checkDecision(d PanelState, where string) error {
	if d == "" {
		return nil
	}
	return oneOf(d, Decisions(), where+", panel_decision")
}

// settlePanels gives a finding's panels their decision.
func (b *Build) settlePanels(f Finding, decision PanelState) {
	for _, id := range f.Panels {
		p := b.Panel(id)
		switch {
		case decision != "":
			p.Decision = decision
		case p.Decision == Keep && f.Remedy != "" && f.Remedy != Keep:
			p.Decision = Repair
		default:
			continue
		}
		if slices.Contains(Decisions(), p.State) {
			p.State = p.Decision
		}
	}
}

// DecideRemedy settles what will be done about a finding.
type DecideRemedy struct {
	Finding  FindingID  `json:"finding"`
	Remedy   PanelState `json:"remedy"`
	How      string     `json:"how,omitempty"`
	Work     []Leg      `json:"work"`
	Decision PanelState `json:"panel_decision,omitempty"`
	Parts    []Part     `json:"parts,omitempty"`
}

// Kind names the act.
func (c *DecideRemedy) Kind() string { return "decide-remedy" }

// Say tells what the change does.
func (c *DecideRemedy) Say(*Build) string {
	return fmt.Sprintf("%s decided: %s %s, %s", c.Finding, c.Remedy, c.How, Total(c.Work))
}

// Apply sets remedy and hours, and adds the parts the remedy needs.
func (c *DecideRemedy) Apply(b *Build) error {
	where := "finding " + string(c.Finding)
	old := b.Finding(c.Finding)
	if old == nil {
		return missing("finding", c.Finding)
	}
	f := *old
	f.Remedy, f.How, f.Work, f.State = c.Remedy, c.How, c.Work, Settled
	if c.Remedy == "" {
		return rule(ruleWord, "the remedy is missing").At(where + ", remedy")
	}
	if err := first(b.checkFinding(f, where), checkDecision(c.Decision, where), b.checkNewParts(c.Parts, where)); err != nil {
		return err
	}
	*old = f
	b.addParts(c.Parts, f)
	b.settlePanels(f, c.Decision)
	return nil
}

// MoveFinding says how far a finding is. Closing one asks for a photo of the
// cavity; the places above warn when it is missing.
type MoveFinding struct {
	Finding FindingID    `json:"finding"`
	State   FindingState `json:"state"`
}

// Kind names the act.
func (c *MoveFinding) Kind() string { return "move-finding" }

// Say tells what the change does.
func (c *MoveFinding) Say(*Build) string { return fmt.Sprintf("%s is %s", c.Finding, c.State) }

// Apply sets the state.
func (c *MoveFinding) Apply(b *Build) error {
	f := b.Finding(c.Finding)
	if f == nil {
		return missing("finding", c.Finding)
	}
	if err := oneOf(c.State, FindingStates(), "finding "+string(c.Finding)+", state"); err != nil {
		return err
	}
	f.State = c.State
	return nil
}

// WithdrawFinding takes a finding off the body that turned out to be none.
type WithdrawFinding struct {
	Finding FindingID `json:"finding"`
	Why     string    `json:"why"`
}

// Kind names the act.
func (c *WithdrawFinding) Kind() string { return "withdraw-finding" }

// Say tells what the change does.
func (c *WithdrawFinding) Say(*Build) string {
	return fmt.Sprintf("%s withdrawn: %s", c.Finding, c.Why)
}

// Apply removes the finding. Hours booked on it stay with its task, and parts
// it made necessary stay on the list, without its name.
func (c *WithdrawFinding) Apply(b *Build) error {
	if b.Finding(c.Finding) == nil {
		return missing("finding", c.Finding)
	}
	if err := needText(c.Why, "finding "+string(c.Finding)+", why"); err != nil {
		return err
	}
	b.Findings = slices.DeleteFunc(b.Findings, func(f Finding) bool { return f.ID == c.Finding })
	for i := range b.Hours {
		if b.Hours[i].Finding == c.Finding {
			b.Hours[i].Finding = ""
		}
	}
	for i, p := range b.Parts {
		if slices.Contains(p.Because, c.Finding) {
			b.Parts[i].Because = slices.DeleteFunc(slices.Clone(p.Because), func(id FindingID) bool { return id == c.Finding })
		}
	}
	return nil
}

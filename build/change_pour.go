package build

import (
	"fmt"

	"fettle/unit"
)

// PourMix says what was poured into a mix, and takes it from the tins.
type PourMix struct {
	Pour Pour `json:"pour"`
}

// Kind names the act.
func (c *PourMix) Kind() string { return "pour-mix" }

// Say tells what the change does.
func (c *PourMix) Say(b *Build) string {
	return fmt.Sprintf("%s of %s mixed for %s", c.Pour.Mixed(), b.productName(c.Pour.Product), b.surfaceName(c.Pour.Panels, c.Pour.Zones))
}

// Apply adds the mix. What is weighed back is told later.
func (c *PourMix) Apply(b *Build) error {
	m := c.Pour
	where := "mix " + string(m.ID)
	if m.ID == "" || b.Pour(m.ID) != nil {
		return rule(ruleID, "the number is missing or taken").At(where)
	}
	if m.Weighed != 0 || m.Left != 0 || m.LeftMass != 0 {
		return rule(ruleOrder, "nothing is weighed back before it was sprayed").At(where + ", left_l")
	}
	if err := first(b.checkPour(m), b.checkDrawn(m, where)); err != nil {
		return err
	}
	if len(m.Zones) == 0 {
		m.Zones = b.zonesOn(*b.Product(m.Product), m.Panels)
	}
	for _, q := range m.Parts {
		if t := b.Tin(q.Tin); t != nil {
			t.Left -= q.Volume
		}
	}
	b.Pours = append(b.Pours, m)
	return nil
}

// checkDrawn applies rule 11 to the tins: none gives more than it holds.
func (b *Build) checkDrawn(m Pour, where string) error {
	drawn := map[TinID]unit.Volume{}
	for i, q := range m.Parts {
		t := b.Tin(q.Tin)
		if t == nil {
			continue
		}
		drawn[t.ID] += q.Volume
		if drawn[t.ID] > t.Left {
			return rule(ruleWhole, "tin %s holds %s", t.ID, t.Left).At(fmt.Sprintf("%s, parts, line %d", where, i+1)).
				WithHint("say first what is really in the tin")
		}
	}
	return nil
}

// WeighBack says how much of a mix was left after spraying.
type WeighBack struct {
	Pour PourID      `json:"pour"`
	Left unit.Volume `json:"left_l"`
	Mass unit.Mass   `json:"left_kg,omitzero"`
	At   unit.Moment `json:"at"`
}

// Kind names the act.
func (c *WeighBack) Kind() string { return "weigh-back" }

// Say tells what the change does.
func (c *WeighBack) Say(b *Build) string {
	text := fmt.Sprintf("%s left of mix %s", c.Left, c.Pour)
	if m := b.Pour(c.Pour); m != nil {
		text += fmt.Sprintf(", %s sprayed", m.Mixed()-c.Left)
	}
	return text
}

// Apply notes what is left; it does not go back into a tin.
func (c *WeighBack) Apply(b *Build) error {
	m := b.Pour(c.Pour)
	where := "mix " + string(c.Pour)
	switch {
	case m == nil:
		return missing("mix", c.Pour)
	case m.Weighed != 0:
		return rule(ruleOrder, "it was weighed back already").At(where)
	case c.At == 0:
		return rule(ruleDates, "the time is missing").At(where + ", at")
	}
	next := *m
	next.Weighed, next.Left, next.LeftMass = c.At, c.Left, c.Mass
	if err := b.checkPour(next); err != nil {
		return err
	}
	*m = next
	return nil
}

func (b *Build) surfaceName(panels []PanelID, zones []ZoneID) string {
	switch {
	case len(panels) == 1:
		if p := b.Panel(panels[0]); p != nil {
			return p.FullName()
		}
		return string(panels[0])
	case len(panels) == 0 && len(zones) > 0:
		if z := b.Zone(zones[0]); z != nil {
			return z.Name
		}
		return string(zones[0])
	}
	return fmt.Sprintf("%d panels", len(panels))
}

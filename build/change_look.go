package build

import "slices"

// AddLook proposes a look, or proposes it anew.
type AddLook struct {
	Look Look `json:"look"`
}

// Kind names the act.
func (c *AddLook) Kind() string { return "add-look" }

// Say tells what the change does.
func (c *AddLook) Say(*Build) string { return "Look proposed: " + c.Look.Name }

// Apply adds the look, or takes the place of one of its ID that is not chosen.
func (c *AddLook) Apply(b *Build) error {
	l := c.Look
	where := "look " + string(l.ID)
	old := b.Look(l.ID)
	switch {
	case l.ID == "":
		return rule(ruleID, "the ID is missing").At(where)
	case l.Chosen:
		return rule(ruleOrder, "it is chosen by an act of its own").At(where + ", chosen")
	case old != nil && old.Chosen:
		return rule(ruleOrder, "it is the look that was chosen").At(where)
	}
	if err := b.checkLook(l); err != nil {
		return err
	}
	if old != nil {
		*old = l
		return nil
	}
	b.Looks = append(b.Looks, l)
	return nil
}

// ChooseLook makes a look the one that is painted.
type ChooseLook struct {
	Look LookID `json:"look"`
}

// Kind names the act.
func (c *ChooseLook) Kind() string { return "choose-look" }

// Say tells what the change does.
func (c *ChooseLook) Say(b *Build) string {
	if l := b.Look(c.Look); l != nil {
		return "Look chosen: " + l.Name
	}
	return "Look chosen: " + string(c.Look)
}

// Apply gives the zones their colours and paint and the panels their areas.
func (c *ChooseLook) Apply(b *Build) error {
	chosen := b.Look(c.Look)
	if chosen == nil {
		return missing("look", c.Look)
	}
	for i := range b.Looks {
		b.Looks[i].Chosen = b.Looks[i].ID == c.Look
	}
	for _, z := range chosen.Zones {
		if z.Colour != "" {
			b.Zone(z.Zone).Colour = z.Colour
		}
		if z.Base != "" {
			b.putOn(z.Zone, z.Base, Use.ShowsColour)
		}
		if z.Undercoat != "" {
			b.putOn(z.Zone, z.Undercoat, func(u Use) bool { return u == Sealer })
		}
	}
	b.divide(chosen.Panels)
	return nil
}

// divide gives back to every panel the areas it had before a look, and divides
// those that this one names.
func (b *Build) divide(list []LookPanel) {
	for i := range b.Panels {
		if p := &b.Panels[i]; p.Undivided != nil {
			p.Areas, p.Undivided = p.Undivided, nil
		}
	}
	for _, l := range list {
		p := b.Panel(l.Panel)
		if p.Undivided == nil {
			p.Undivided = p.Areas
		}
		p.Areas = slices.Clone(l.Areas)
	}
}

// putOn gives a zone to one product and takes it from all others of such uses.
func (b *Build) putOn(zone ZoneID, id ProductID, such func(Use) bool) {
	for i := range b.Products {
		p := &b.Products[i]
		has := slices.Contains(p.Zones, zone)
		switch {
		case p.ID == id && !has:
			p.Zones = append(slices.Clone(p.Zones), zone)
		case p.ID != id && has && such(p.Use):
			p.Zones = slices.DeleteFunc(slices.Clone(p.Zones), func(z ZoneID) bool { return z == zone })
		}
	}
}

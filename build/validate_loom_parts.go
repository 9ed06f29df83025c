package build

import (
	"fmt"
	"slices"
	"strings"
)

// checkSources holds batteries, alternators, boxes and fuses to the rules.
func (b *Build) checkSources() error {
	l := &b.Loom
	for _, x := range l.Batteries {
		where := "battery " + x.Name
		if err := first(within(x.AmpHours, 0.1, 10_000, "ah", where), within(x.Cranking, 0, 10_000, "cranking amps", where), within(x.Volts, 0, mostVolts, "volts", where),
			within(x.Reserve, 0, 10_000, "reserve", where), within(x.Drain, 0, 1e6, "drain", where), b.waypointThere(x.At, where+", at")); err != nil {
			return err
		}
	}
	for _, x := range l.Alternators {
		where := "alternator " + x.Name
		if err := first(within(x.Rated, 0.1, mostAmps, "rating", where), within(x.Idle, 0, x.Rated, "output at idle", where), within(x.Volts, 0, mostVolts, "volts", where),
			b.waypointThere(x.At, where+", at")); err != nil {
			return err
		}
	}
	for _, x := range l.Boxes {
		where := "fuse box " + x.Name
		if err := first(inRange(x.Ways, 1, mostWays, "ways", where), b.waypointThere(x.At, where+", at")); err != nil {
			return err
		}
	}
	for _, x := range l.Fuses {
		where := "fuse " + x.Name
		if err := first(within(x.Amps, 0.1, mostAmps, "amps", where), oneOf(x.Type, FuseTypes(), where+", type")); err != nil {
			return err
		}
		if x.Box != "" && l.Box(x.Box) == nil {
			return at(missing("fuse box", x.Box), where+", box")
		}
	}
	return nil
}

func (b *Build) checkConsumers() error {
	for _, x := range b.Loom.Consumers {
		where := "consumer " + x.Name
		if err := first(oneOf(x.Use, ConsumerUses(), where+", use"), oneOf(x.Behaviour, Behaviours(), where+", behaviour"),
			within(x.Watts, 0, 100_000, "watts", where), within(x.Amps, 0, mostAmps, "amps", where), within(x.Volts, 0, mostVolts, "volts", where),
			within(x.Inrush, 0, 100, "inrush", where), within(x.InrushS, 0, 60, "inrush", where), within(x.Share, 0, 1, "share", where),
			b.waypointThere(x.At, where+", at"), b.circuitsThere(x.Circuits, where)); err != nil {
			return err
		}
		if (x.Watts > 0) == (x.Amps > 0) {
			return rule(ruleRange, "say watts or amps, one of them").At(where)
		}
	}
	return nil
}

// checkContacts holds what wires end on to the rules.
func (b *Build) checkContacts() error {
	l := &b.Loom
	for _, x := range l.Switches {
		if err := b.checkSwitch(x); err != nil {
			return err
		}
	}
	for _, x := range l.Relays {
		where := "relay " + x.Name
		if err := first(within(x.Amps, 0, mostAmps, "amps", where), within(x.CoilOhms, 0, 1e6, "coil", where), b.contacts(x.Contacts, where), b.waypointThere(x.At, where+", at")); err != nil {
			return err
		}
		for _, t := range x.Contacts {
			if err := oneOf(t.Terminal, []string{"30", "85", "86", "87", "87a"}, where+", terminal"); err != nil {
				return err
			}
			if t.Terminal == "87a" && !x.Break {
				return rule(ruleWhole, "it has no terminal 87a").At(where)
			}
		}
	}
	for _, x := range l.Connectors {
		where := "connector " + x.Name
		if err := first(inRange(x.Cavities, 1, mostWays, "cavities", where), b.contacts(x.Contacts, where), b.waypointThere(x.At, where+", at")); err != nil {
			return err
		}
		if len(x.Contacts) > x.Cavities {
			return rule(ruleWhole, "%d of %d cavities are wired", len(x.Contacts), x.Cavities).At(where)
		}
	}
	for _, x := range l.Joints {
		where := "joint " + x.Name
		if err := first(oneOf(x.Kind, JointKinds(), where+", kind"), within(x.Ohms, 0, 1e6, "ohms", where), b.circuitsThere(x.Circuits, where), b.waypointThere(x.At, where+", at")); err != nil {
			return err
		}
		if x.Panel != "" && b.Panel(x.Panel) == nil {
			return at(missing("panel", x.Panel), where+", panel")
		}
	}
	return nil
}

func (b *Build) checkSwitch(x Switch) error {
	where := "switch " + x.Name
	if len(x.Positions) == 0 {
		return rule(ruleText, "it has no position").At(where)
	}
	var names []string
	for _, p := range x.Positions {
		here := where + ", position " + p.Name
		if p.Name == "" || slices.Contains(names, p.Name) || strings.ContainsAny(p.Name, "=,\n") {
			return rule(ruleID, "a position has a name of its own, without comma or equals sign").At(here)
		}
		names = append(names, p.Name)
		for _, list := range p.Joins {
			if len(list) < 2 || slices.Contains(list, "") {
				return rule(ruleText, "it joins two terminals or more").At(here)
			}
		}
	}
	return first(b.contacts(x.Contacts, where), b.waypointThere(x.At, where+", at"))
}

// contacts applies rules 1, 2 and 10 to terminals.
func (b *Build) contacts(list []Contact, where string) error {
	if err := unique(where+", terminal", list, func(c Contact) string { return c.Terminal }); err != nil {
		return err
	}
	for _, c := range list {
		if err := b.circuitsThere(c.Circuits, fmt.Sprintf("%s, terminal %s", where, c.Terminal)); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkWires() error {
	for _, w := range b.Loom.Wires {
		where := "wire " + w.ID
		if err := first(inRange(w.Length, 1, mostLength, "length", where), b.endThere(w.From, where+", from"), b.endThere(w.To, where+", to"), b.airThere(w.Air, where)); err != nil {
			return err
		}
		if w.Circuit != "" && b.Circuit(w.Circuit) == nil {
			return at(missing("circuit", w.Circuit), where+", circuit")
		}
		if b.Circuit(w.ID) != nil {
			return rule(ruleID, "a circuit has this ID").At(where)
		}
		if w.From == w.To {
			return rule(ruleWhole, "both its ends are %s", w.From).At(where)
		}
	}
	return nil
}

func (b *Build) checkCables() error {
	for _, c := range b.Loom.Cables {
		where := "cable " + c.Name
		if err := first(needText(c.Says, where+", source"), within(c.MaxC, 40, 400, "max_c", where), within(c.AirC, -60, c.MaxC-1, "air_c", where), within(c.K, 10, 500, "k", where)); err != nil {
			return err
		}
		if len(c.Sizes) == 0 {
			return rule(ruleText, "it has no size").At(where)
		}
		for i, s := range c.Sizes {
			here := fmt.Sprintf("%s, size %d", where, i+1)
			if err := first(needText(s.Name, here+", name"), within(s.MM2, 0.01, 1000, "mm2", here), within(s.MilliOhm, 0.001, 10_000, "milliohm_per_m", here),
				within(s.Amps, 0.01, mostAmps, "amps", here), inRange(s.OD, 0, mostBundle, "od", here)); err != nil {
				return err
			}
			if i > 0 && s.MM2 <= c.Sizes[i-1].MM2 {
				return rule(ruleRange, "sizes go from small to large").At(here)
			}
		}
	}
	return nil
}

package build

import (
	"fmt"
	"slices"
	"strings"
)

// Bounds of rule 3 for the loom.
const (
	mostAmps     = 2_000.0
	mostVolts    = 60.0 // what is called low voltage on a vehicle
	mostWays     = 1_000
	mostCircuits = 10_000
	mostBundle   = 500_000 // µm
	mostReading  = 1e9
)

// uniqueWired applies rule 1 to the loom. Parts that wires end on share no name.
func (b *Build) uniqueWired() error {
	l := &b.Loom
	own := func(s string) string { return s }
	return first(
		unique("circuit", b.Circuits, func(c Circuit) string { return c.ID }),
		unique("part of the loom", l.partNames(), own),
		unique("fuse box", l.Boxes, func(x FuseBox) string { return x.Name }),
		unique("wire", l.Wires, func(w Wire) string { return w.ID }),
		unique("cable", l.Cables, func(c Cable) string { return c.Name }),
		unique("never together", l.Exclusives, func(e Exclusive) string { return e.ID }),
		unique("waypoint", l.Waypoints, func(w Waypoint) string { return string(w.ID) }),
		unique("stretch", l.Stretches, func(s Stretch) string { return s.ID }),
		unique("hole", l.Holes, func(h Hole) string { return h.ID }),
		unique("supply of the loom", l.Supplies, func(s LoomSupply) string { return s.What }),
		unique("reading of the loom", l.Metered, func(m Metered) string { return m.ID }),
		unique("crimp test", l.Crimps, func(c CrimpTest) string { return c.ID }),
		unique("labels", l.Labels, func(p PrintedWire) string { return p.Circuit }),
		unique("air", l.Settings.Airs, func(a WarmAir) string { return a.Name }),
	)
}

// partNames lists the names that wires may end on; the body is one.
func (l *Loom) partNames() []string {
	list := []string{"body"}
	add := func(n int, name func(int) string) {
		for i := range n {
			list = append(list, name(i))
		}
	}
	add(len(l.Batteries), func(i int) string { return l.Batteries[i].Name })
	add(len(l.Alternators), func(i int) string { return l.Alternators[i].Name })
	add(len(l.Fuses), func(i int) string { return l.Fuses[i].Name })
	add(len(l.Consumers), func(i int) string { return l.Consumers[i].Name })
	add(len(l.Switches), func(i int) string { return l.Switches[i].Name })
	add(len(l.Relays), func(i int) string { return l.Relays[i].Name })
	add(len(l.Connectors), func(i int) string { return l.Connectors[i].Name })
	add(len(l.Joints), func(i int) string { return l.Joints[i].Name })
	return list
}

// checkCircuits holds the list of circuits to the rules.
func (b *Build) checkCircuits() error {
	for _, c := range b.Circuits {
		where := "circuit " + c.ID
		if !(c.DropLimit > 0 && c.DropLimit <= 100) {
			return rule(ruleRange, "drop limit %g %% is not above 0 and up to 100 %%", c.DropLimit).At(where + ", drop_limit_percent")
		}
		if err := first(within(c.Load, 0, mostAmps, "load", where+", load_a"), inRange(c.Length, 1, mostLength, "length", where+", length_mm"), within(c.FuseA, 0, mostAmps, "fuse", where),
			b.airThere(c.Air, where)); err != nil {
			return err
		}
		if f := b.Loom.Fuse(c.Fuse); f != nil && f.Amps != c.FuseA {
			return rule(ruleWhole, "the fuse %s has %g A, not %g", f.Name, f.Amps, c.FuseA).At(where + ", fuse_a")
		}
		if err := unique(where+", ends", c.Ends, func(id WaypointID) string { return string(id) }); err != nil {
			return err
		}
		for _, id := range c.Ends {
			if err := b.waypointThere(id, where+", ends"); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkLoom holds the rest of the loom to the rules.
func (b *Build) checkLoom() error {
	for _, name := range b.Loom.partNames() {
		if strings.ContainsAny(name, ":\n") {
			return rule(ruleText, "a name has no colon, which parts it from its terminal").At("part of the loom " + name)
		}
	}
	return first(b.checkLoomSettings(), b.checkSources(), b.checkConsumers(), b.checkContacts(), b.checkWires(), b.checkCables(), b.checkRoute(), b.checkLoomDone())
}

func (b *Build) checkLoomSettings() error {
	s, where := b.Loom.Settings, "loom"
	if err := first(oneOf(s.Rules, append(LoomRules(), ""), where+", rules"), oneOf(s.Code, append(ColourCodes(), ""), where+", colour_code"),
		oneOf(s.Sleeve, append(SleeveKinds(), ""), where+", sleeve"), within(s.Air, -60, 300, "air", where),
		inRange(s.Wall, 0, mostLength, "wall of the sleeve", where), within(s.Slack, 0, 100, "slack", where), inRange(s.Loop, 0, mostLength, "service loop", where),
		inRange(s.BoardWidth, 0, mostLength, "board", where), inRange(s.BoardHeight, 0, mostLength, "board", where),
		within(float64(s.HoursFor), 0, mostCircuits, "hours for so many circuits", where)); err != nil {
		return err
	}
	if !slices.Contains([]float64{0, 6, 12, 24}, s.Volts) {
		return rule(ruleWord, "%g V is none of 6, 12 and 24", s.Volts).At(where + ", nominal_v")
	}
	for _, a := range s.Airs {
		if err := within(a.Celsius, -60, 300, "air", where+", air "+a.Name); err != nil {
			return err
		}
	}
	for _, x := range b.Loom.Supplies {
		where := "loom, supply " + x.What
		if err := first(oneOf(x.What, LoomSupplyKinds(), where), inRange(x.Reel, 0, mostThread, "reel", where), b.partThere(x.Part, where)); err != nil {
			return err
		}
	}
	for _, e := range b.Loom.Exclusives {
		if err := b.checkExclusive(e); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkExclusive(e Exclusive) error {
	where := "never together " + e.ID
	if len(e.Never) < 2 {
		return rule(ruleText, "two or more are named").At(where)
	}
	for _, id := range e.Never {
		if b.Circuit(id) == nil && find(b.Loom.Consumers, id, (*Consumer).key) == nil {
			return at(missing("circuit or consumer", id), where)
		}
	}
	return needText(e.Why, where+", why")
}

// circuitsThere applies rule 2 to circuits by name.
func (b *Build) circuitsThere(ids []string, where string) error {
	for _, id := range ids {
		if b.Circuit(id) == nil {
			return at(missing("circuit", id), where+", circuits")
		}
	}
	return nil
}

// waypointThere applies rule 2 to a waypoint that may be left out.
func (b *Build) waypointThere(id WaypointID, where string) error {
	if id != "" && b.Loom.Waypoint(id) == nil {
		return at(missing("waypoint", id), where)
	}
	return nil
}

// airThere applies rule 2 to a zone of air that may be left out.
func (b *Build) airThere(name, where string) error {
	if name != "" && !slices.ContainsFunc(b.Loom.Settings.Airs, func(a WarmAir) bool { return a.Name == name }) {
		return at(missing("air", name), where+", air")
	}
	return nil
}

// endThere applies rules 2 and 10 to the end of a wire, part:terminal.
func (b *Build) endThere(pin, where string) error {
	part, terminal, ok := strings.Cut(pin, ":")
	if !slices.Contains(b.Loom.partNames(), part) {
		if b.Loom.Box(part) != nil {
			return rule(ruleExists, "a wire ends on a fuse of the %s, such as F1:2, not on the box", part).At(where)
		}
		return at(missing("part of the loom", fmt.Sprintf("%q", part)), where)
	}
	if (!ok || strings.TrimSpace(terminal) == "") && part != "body" {
		return rule(ruleText, "an end is written part:terminal").At(where)
	}
	return nil
}

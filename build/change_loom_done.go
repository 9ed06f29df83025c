package build

import (
	"fmt"
	"slices"
)

// MeterCircuit notes a reading on a circuit.
type MeterCircuit struct {
	Metered Metered `json:"metered"`
}

// Kind names the act.
func (c *MeterCircuit) Kind() string { return "meter-circuit" }

// Say tells what the change does.
func (c *MeterCircuit) Say(*Build) string {
	unit := map[string]string{"continuity": "Ω", "isolation": "MΩ", "volts": "V", "amps": "A"}[c.Metered.Kind]
	return fmt.Sprintf("%s reads %g %s (%s)", c.Metered.Circuit, c.Metered.Value, unit, c.Metered.Kind)
}

// Apply adds the reading.
func (c *MeterCircuit) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Metered = append(slices.Clone(b.Loom.Metered), c.Metered) })
}

// TestCrimp notes a crimp that was pulled.
type TestCrimp struct {
	Crimp CrimpTest `json:"crimp"`
}

// Kind names the act.
func (c *TestCrimp) Kind() string { return "test-crimp" }

// Say tells what the change does.
func (c *TestCrimp) Say(*Build) string {
	return fmt.Sprintf("Crimp of %s mm² in %s held %g N", c.Crimp.Section, c.Crimp.Terminal, c.Crimp.Newtons)
}

// Apply adds the test.
func (c *TestCrimp) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Crimps = append(slices.Clone(b.Loom.Crimps), c.Crimp) })
}

// PrintLabels notes labels that were printed.
type PrintLabels struct {
	Labels []PrintedWire `json:"labels"`
}

// Kind names the act.
func (c *PrintLabels) Kind() string { return "print-labels" }

// Say tells what the change does.
func (c *PrintLabels) Say(*Build) string {
	return fmt.Sprintf("Labels of %s are printed", counted(len(c.Labels), "wire", "wires"))
}

// Apply keeps the last print of each.
func (c *PrintLabels) Apply(b *Build) error {
	if len(c.Labels) == 0 {
		return rule(ruleText, "no label is named").At("labels")
	}
	return b.tryWired(func(next *Build) {
		for _, l := range c.Labels {
			next.Loom.Labels = put(next.Loom.Labels, l, (*PrintedWire).key)
		}
	})
}

// DropWired takes something of the loom off the list.
type DropWired struct {
	What string `json:"what"`
	ID   string `json:"id"`
}

// Kind names the act.
func (c *DropWired) Kind() string { return "drop-wired" }

// Say tells what the change does.
func (c *DropWired) Say(*Build) string { return fmt.Sprintf("%s %s is off the list", c.What, c.ID) }

// WiredKinds lists what DropWired takes off.
func WiredKinds() []string {
	return []string{"circuit", "consumer", "battery", "alternator", "fuse box", "fuse", "switch", "relay", "connector", "joint", "wire", "cable",
		"waypoint", "stretch", "hole", "never together", "reading", "crimp test"}
}

// Apply takes it off, a circuit or wire with its printed labels. What others
// name stays, and so does the cable that sections are taken from.
func (c *DropWired) Apply(b *Build) error {
	if err := oneOf(c.What, WiredKinds(), "what"); err != nil {
		return err
	}
	if err := b.needsWired(c.What, c.ID); err != nil {
		return err
	}
	gone := false
	if err := b.tryWired(func(next *Build) { gone = next.dropWired(c.What, c.ID) }); err != nil {
		return at(err, c.What+" "+c.ID+" is still named")
	}
	if !gone {
		return missing(c.What, c.ID)
	}
	return nil
}

// needsWired applies rule 2 to what is named by words that may also stand for
// something that is on no list of the loom.
func (b *Build) needsWired(what, id string) error {
	switch what {
	case "cable":
		if id == b.Loom.Settings.Cable {
			return rule(ruleExists, "sections are taken from it: choose another cable first").At("loom, cable")
		}
	case "fuse":
		for _, c := range b.Circuits {
			if c.Fuse == id && b.Loom.Fuse(id) != nil {
				return rule(ruleExists, "fuse %s is still named: put the circuit behind another one first", id).At("circuit " + c.ID + ", fuse")
			}
		}
	}
	return nil
}

func (b *Build) dropWired(what, id string) bool {
	l := &b.Loom
	switch what {
	case "circuit":
		drop(&l.Labels, id, (*PrintedWire).key)
		return drop(&b.Circuits, id, (*Circuit).key)
	case "consumer":
		return drop(&l.Consumers, id, (*Consumer).key)
	case "battery":
		return drop(&l.Batteries, id, (*Battery).key)
	case "alternator":
		return drop(&l.Alternators, id, (*Alternator).key)
	case "fuse box":
		return drop(&l.Boxes, id, (*FuseBox).key)
	case "fuse":
		return drop(&l.Fuses, id, (*Fuse).key)
	case "switch":
		return drop(&l.Switches, id, (*Switch).key)
	case "relay":
		return drop(&l.Relays, id, (*Relay).key)
	case "connector":
		return drop(&l.Connectors, id, (*Connector).key)
	case "joint":
		return drop(&l.Joints, id, (*Joint).key)
	case "wire":
		drop(&l.Labels, id, (*PrintedWire).key)
		return drop(&l.Wires, id, (*Wire).key)
	case "cable":
		return drop(&l.Cables, id, (*Cable).key)
	case "waypoint":
		return drop(&l.Waypoints, WaypointID(id), (*Waypoint).key)
	case "stretch":
		return drop(&l.Stretches, id, (*Stretch).key)
	case "hole":
		return drop(&l.Holes, id, (*Hole).key)
	case "never together":
		return drop(&l.Exclusives, id, (*Exclusive).key)
	case "reading":
		return drop(&l.Metered, id, (*Metered).key)
	}
	return drop(&l.Crimps, id, (*CrimpTest).key)
}

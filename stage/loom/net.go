package loom

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
)

// wire adds the net: the wires, and the parts that some wire ends on.
func wire(b *build.Build, p *loom.Problem) {
	l := &b.Loom
	on := func(name string) bool {
		return slices.ContainsFunc(l.Wires, func(w build.Wire) bool { return partOf(w.From) == name || partOf(w.To) == name })
	}
	for _, w := range l.Wires {
		run := loom.Run{ID: w.ID, Label: w.Label, LengthM: w.Length.Mm() / 1000, Section: w.Section, Colour: Letters(w.Colour), Zone: w.Air, Pair: w.Pair, Unfused: w.Unfused}
		if c := b.Circuit(w.Circuit); c != nil {
			run.DropPercent, run.Duty = c.DropLimit, duties[c.Duty]
		}
		p.Wires = append(p.Wires, loom.Wire{Run: run, From: pinOf(w.From), To: pinOf(w.To)})
	}
	for _, x := range l.Consumers {
		if on(x.Name) {
			p.Consumers = append(p.Consumers, consumerOf(x))
		}
	}
	for _, x := range l.Switches {
		if on(x.Name) {
			s := loom.Switch{Name: x.Name, Short: x.Short}
			for _, q := range x.Positions {
				s.Positions = append(s.Positions, loom.Position{Name: q.Name, Joins: q.Joins})
			}
			p.Switches = append(p.Switches, s)
		}
	}
	for _, x := range l.Relays {
		if on(x.Name) {
			p.Relays = append(p.Relays, loom.Relay{Name: x.Name, CoilOhms: x.CoilOhms, Break: x.Break, Diode: x.Diode, Amps: x.Amps})
		}
	}
	for _, x := range l.Connectors {
		if on(x.Name) {
			p.Joints = append(p.Joints, loom.Joint{Name: x.Name, Kind: loom.Connector})
		}
	}
	for _, x := range l.Joints {
		if on(x.Name) {
			p.Joints = append(p.Joints, loom.Joint{Name: x.Name, Kind: loom.JointKind(x.Kind), Ohms: x.Ohms, Open: x.Open})
		}
	}
}

func consumerOf(x build.Consumer) loom.Consumer {
	return loom.Consumer{
		Name: x.Name, Behaviour: loom.Behaviour(x.Behaviour), Use: loom.Use(x.Use), Watts: x.Watts, Amps: x.Amps, Volts: x.Volts, Plus: x.Plus, Minus: x.Minus,
		InrushFactor: x.Inrush, InrushSeconds: x.InrushS, Duty: x.Share, Short: x.Short, Night: x.Night, Always: x.Always, Polarised: x.Polarised,
	}
}

func partOf(pin string) string {
	part, _, _ := strings.Cut(pin, ":")
	return strings.TrimSpace(part)
}

func pinOf(pin string) loom.Pin {
	_, terminal, _ := strings.Cut(pin, ":")
	return loom.Pin{Part: partOf(pin), Terminal: strings.TrimSpace(terminal)}
}

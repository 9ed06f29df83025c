package loom

import (
	"context"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
)

// What the place shows of the engine's results, under the stage's name.
type (
	Sized    = loom.Sized
	FuseLoad = loom.FuseLoad
	BoxUse   = loom.BoxUse
	Advice   = loom.Advice
	Terminal = loom.Terminal
)

// Rules that the place words by themselves, and the set that is meant where
// none is said.
const (
	ByLoad  = loom.ByLoad
	ByFault = loom.ByFault
	InFull  = loom.InFull
)

// Terminals are the numbers of DIN 72552.
func Terminals() []Terminal { return loom.Terminals() }

// CableNames are the tables that are there from the start.
func CableNames() []string {
	var list []string
	for _, c := range loom.Cables() {
		list = append(list, c.Name)
	}
	return list
}

// Judged is what every run comes to with the section that it has when heat and
// short circuit are reckoned too, whatever rules chose it.
func (s Sheet) Judged(ctx context.Context) ([]Sized, error) {
	p := s.Problem
	p.Cable, p.Rules = s.Rules.Cable, loom.InFull
	p.Circuits, p.Wires = slices.Clone(p.Circuits), slices.Clone(p.Wires)
	for i := range p.Circuits {
		p.Circuits[i].Section = s.Sections[p.Circuits[i].ID]
	}
	for i := range p.Wires {
		p.Wires[i].Section = s.Sections[p.Wires[i].ID]
	}
	r, err := loom.Solve(ctx, p, loom.Options{})
	return r.Runs, err
}

// Load is what a circuit of the list, or a consumer of a net, counts for in the
// charging balance.
type Load struct {
	ID    string // of a circuit
	Name  string
	Amps  float64
	Share float64 // of the time
	Night bool
}

// Loads lists them, circuits first.
func (s Sheet) Loads() []Load {
	var list []Load
	for _, c := range s.Problem.Circuits {
		if !c.Feed {
			list = append(list, Load{c.ID, c.Name, c.Amps, c.TimeOn(), c.Night})
		}
	}
	for _, c := range s.Problem.Consumers {
		list = append(list, Load{"", c.Name, s.Problem.Takes(c), c.TimeOn(), c.Night})
	}
	return list
}

// ToTwelve is what 12 V asks of every part of a 6 V loom, those of the list too;
// as six reads a loom of other volts as one of 6 V. It is nil where it is none.
func (s Sheet) ToTwelve(b *build.Build, asSix bool) []Advice {
	p := s.Problem
	if p.NominalV != 6 && !asSix {
		return nil
	}
	p.NominalV, p.Consumers, p.Relays = 6, nil, nil
	for _, x := range b.Loom.Consumers {
		p.Consumers = append(p.Consumers, consumerOf(x))
	}
	for _, x := range b.Loom.Relays {
		p.Relays = append(p.Relays, loom.Relay{Name: x.Name})
	}
	return loom.To12V(p)
}

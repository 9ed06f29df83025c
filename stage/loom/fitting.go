package loom

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/figure"
)

// fittings is what is counted: connectors, fuses, boxes, relays, grommets and
// what makes and stores.
func fittings(b *build.Build, p loom.Problem) []Need {
	l := &b.Loom
	t := tally{}
	for _, x := range l.Connectors {
		name := fmt.Sprintf("%d way", x.Cavities)
		if x.Family != "" {
			name = x.Family + ", " + name
		}
		t.add("connectors", name, x.Name)
	}
	for _, x := range p.Fuses {
		kind := x.Type
		if kind == "" {
			kind = loom.Blade
		}
		t.add("fuses", fmt.Sprintf("%s %g A", kind, x.Amps), x.Name)
	}
	for _, x := range l.Boxes {
		t.add("fuse box", fmt.Sprintf("%d ways", x.Ways), x.Name)
	}
	for _, x := range l.Relays {
		name := "make"
		if x.Break {
			name = "change-over"
		}
		t.add("relays", name, x.Name)
	}
	for _, x := range l.Holes {
		if x.Grommet != "" {
			t.add("grommets", fmt.Sprintf("%s for %g mm", x.Grommet, x.Diameter.Mm()), x.ID)
		}
	}
	for _, x := range l.Batteries {
		t.add("battery", fmt.Sprintf("%g Ah", x.AmpHours), x.Name)
	}
	for _, x := range l.Alternators {
		t.add("alternator", fmt.Sprintf("%g A", x.Rated), x.Name)
	}
	if slices.ContainsFunc(l.Switches, func(s build.Switch) bool { return s.Name == "isolator" }) {
		t.add("isolator", "battery isolator", "isolator")
	}
	return t.needs()
}

// tally counts things of one kind and name, in the order they came.
type tally struct{ list []tallied }

type tallied struct {
	kind, name string
	which      []string
}

func (t *tally) add(kind, name, which string) {
	for i := range t.list {
		if t.list[i].kind == kind && t.list[i].name == name {
			t.list[i].which = append(t.list[i].which, which)
			return
		}
	}
	t.list = append(t.list, tallied{kind, name, []string{which}})
}

func (t *tally) needs() []Need {
	var list []Need
	for _, x := range t.list {
		list = append(list, Need{Kind: x.kind, Name: x.name, Amount: float64(len(x.which)), Working: count(x.kind+", "+x.name, len(x.which), "counted", strings.Join(x.which, " + "))})
	}
	return list
}

// inputsOf tells a want what it is needed for.
func inputsOf(needs []Need, part build.PartID) []figure.Input {
	var list []figure.Input
	for _, n := range needs {
		if n.Part == part && part != "" {
			list = append(list, figure.Input{Name: n.Working.Name, Value: n.Working.Text, Source: figure.Worked, Note: n.Working.With})
		}
	}
	return list
}

// supplyLead is how many working days a supplier of wiring takes: a habit of
// the trade, to be put right with the order.
const supplyLead = 5

// Want returns the changes that put on the list of Stores what no part covers
// of a kind of thing, for a task, and that name the part.
func Want(b *build.Build, kind string, task build.TaskID) []build.Change {
	if b.Loom.Supply(kind) != nil {
		return nil
	}
	part := build.Part{ID: b.NextPart(), Name: kind + " for the loom", Quantity: 1, Lead: supplyLead, Task: task}
	return []build.Change{&build.AddPart{Part: part}, &build.CoverSupply{Supply: build.LoomSupply{What: kind, Part: part.ID}}}
}

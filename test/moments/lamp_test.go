package moments

import (
	"fmt"
	"testing"

	"fettle/build"
	"fettle/plan"
	"fettle/unit"
)

// lamp is a lamp more on the list of circuits, behind a fuse that is there.
func lamp(n int) []build.Change {
	id := fmt.Sprintf("C%d", 40+n)
	return []build.Change{
		&build.SetCircuit{Circuit: build.Circuit{ID: id, Name: "loading lamp", From: "load switch", To: "rear door R", Length: 6 * unit.Metre, Load: 0.4, DropLimit: 3, Duty: "int", Colour: "P/U", Fuse: "F18", FuseA: 5}},
		&build.SetConsumer{Consumer: build.Consumer{Name: fmt.Sprintf("loading lamp %d", n), Circuits: []string{id}, Use: "lamp", Behaviour: "resistance", Watts: 5, Volts: 13.5}},
	}
}

// rowsOf are the rows of a group on the slip, name and change.
func rowsOf(k plan.KnockOn, group string) map[string]string {
	list := map[string]string{}
	for _, r := range k.Rows {
		if r.Group == group {
			list[r.Name] = r.Change
		}
	}
	return list
}

// TestOneLampMore: the slip says, before anything is kept, what a lamp more
// takes of Stores, of the wirer's hours, of the money and of the date.
func TestOneLampMore(t *testing.T) {
	s := morning(t, "2026-10-13")
	one := s.try(s.changes(lamp(1)...))
	parts := rowsOf(one.KnockOn, "parts")
	for name, change := range map[string]string{"thinwall cable set: cable 0.5 mm² violet/blue": "+6.3 m", "terminals and connector kit: crimped ends": "+2"} {
		if parts[name] != change {
			t.Errorf("%s: %q, want %q of %q", name, parts[name], change, parts)
		}
	}
	// For 40 circuits design and board took 54 h and are finished, what is still
	// to do takes 24 h and 8 h of the lead: 1.35 h + 0.6 h, and 0.2 h.
	if hours := rowsOf(one.KnockOn, "hours"); len(hours) != 2 || hours["Wiring and assembly"] != "+1.95 h" || hours["Lead designer-builder"] != "+0.2 h" {
		t.Errorf("hours %q", hours)
	}
	if one.After.Money.Cash <= one.Before.Money.Cash || one.After.Odds.Ready >= one.Before.Odds.Ready || one.After.Dates.P50 < one.Before.Dates.P50 {
		t.Errorf("cash %d to %d, odds %.3f to %.3f, half by %s to %s", one.Before.Money.Cash, one.After.Money.Cash, one.Before.Odds.Ready, one.After.Odds.Ready, one.Before.Dates.P50.Long(), one.After.Dates.P50.Long())
	}
	if len(one.KnockOn.Decide) != 0 {
		t.Errorf("a lamp within its fuse asks for a decision: %+v", one.KnockOn.Decide)
	}

	// Twenty of them move the date, and their fuse says so.
	var many []build.Change
	for n := range 20 {
		many = append(many, lamp(n+1)...)
	}
	twenty := s.try(s.changes(many...))
	if twenty.After.Dates.P50 <= twenty.Before.Dates.P50 || twenty.After.Odds.Ready >= twenty.Before.Odds.Ready {
		t.Errorf("twenty lamps: half by %s to %s, odds %.3f to %.3f", twenty.Before.Dates.P50.Long(), twenty.After.Dates.P50.Long(), twenty.Before.Odds.Ready, twenty.After.Odds.Ready)
	}
	if _, told := loomChecks(twenty.After)["loom/fuse-overloaded/fuse F18"]; !told {
		t.Error("F18 is not flagged with twenty lamps more")
	}
}

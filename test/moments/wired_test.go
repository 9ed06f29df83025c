package moments

import (
	"bytes"
	"slices"
	"testing"

	"fettle/build"
	"fettle/unit"
)

const mm = unit.Millimetre

// everyFact is each kind of change to the loom once, on a morning of the demo.
func everyFact() []build.Change {
	day := unit.Day(2026, 10, 13)
	return []build.Change{
		&build.SetLoom{Settings: build.LoomSettings{Rules: "in full", Code: "IEC 60757", Volts: 12, Air: 30, Airs: []build.WarmAir{{Name: "engine", Celsius: 85}}, Sleeve: "tape", Wall: mm, Slack: 4, Loop: 80 * mm, BoardWidth: 3000 * mm, BoardHeight: 1500 * mm, ByRoute: true, HoursFor: 40}},
		&build.SetCircuit{Circuit: build.Circuit{ID: "C41", Name: "bell", From: "fuse box", To: "roof", Length: 2 * unit.Metre, Load: 1.5, DropLimit: 4, Duty: "short", Colour: "BURD", Fuse: "F18", FuseA: 5, Section: "1.0", Label: "bell", Ends: []build.WaypointID{"W05", "W27"}}},
		&build.SetConsumer{Consumer: build.Consumer{Name: "bell", Circuits: []string{"C41"}, Use: "other", Behaviour: "motor", Amps: 1.5, Inrush: 5, InrushS: 0.1, Short: true}},
		&build.SetBattery{Battery: build.Battery{Name: "second battery", AmpHours: 44, Cranking: 360, Volts: 12.7, Reserve: 60, Drain: 5, At: "W01"}},
		&build.SetAlternator{Alternator: build.Alternator{Name: "dynamo", Rated: 22, Idle: 5, Volts: 13.8}},
		&build.SetFuseBox{FuseBox: build.FuseBox{Name: "rear box", Ways: 4, At: "W27"}},
		&build.SetFuse{Fuse: build.Fuse{Name: "R1", Amps: 10, Type: "maxi", Box: "rear box", Empty: true}},
		&build.SetSwitch{Switch: build.Switch{Name: "bell push", Positions: []build.SwitchPosition{{Name: "rest"}, {Name: "down", Joins: [][]string{{"1", "2"}}}}, Contacts: []build.Contact{{Terminal: "2", Circuits: []string{"C41"}}}, Short: true}},
		&build.SetRelay{Relay: build.Relay{Name: "bell relay", Break: true, Diode: true, Amps: 20, CoilOhms: 85, Contacts: []build.Contact{{Terminal: "87a", Circuits: []string{"C41"}}}}},
		&build.SetConnector{Connector: build.Connector{Name: "roof plug", Family: "round", Cavities: 2, Contacts: []build.Contact{{Terminal: "1", Circuits: []string{"C41"}}}}},
		&build.SetJoint{Joint: build.Joint{Name: "roof earth", Kind: "earth", Panel: "P01", Ohms: 0.01, Circuits: []string{"C41"}}},
		&build.SetWire{Wire: build.Wire{ID: "N1", From: "second battery:+", To: "R1:1", Length: 300 * mm, Section: "6.0", Colour: "N", Pair: "p", Unfused: "as near as can be", Air: "engine", Label: "lead"}},
		&build.SetCable{Cable: build.Cable{Name: "cloth covered", Says: "the maker's sheet of May", Class: "A", MaxC: 85, AirC: 30, K: 100, Sizes: []build.CableSize{{Name: "1.0", MM2: 1, MilliOhm: 18.5, Amps: 11, OD: 3 * mm}}}},
		&build.SetExclusive{Exclusive: build.Exclusive{ID: "bell and horn", Never: []string{"C41", "C24"}, Why: "one button"}},
		&build.SetWaypoint{Waypoint: build.Waypoint{ID: "W99", Name: "roof", At: [3]unit.Length{900 * mm, 100 * mm, 1800 * mm}}},
		&build.SetStretch{Stretch: build.Stretch{ID: "R99", From: "W27", To: "W99", Length: 6 * unit.Metre, Forbidden: "door", Air: "engine", Moves: true}},
		&build.SetHole{Hole: build.Hole{ID: "H99", At: "W99", Panel: "P01", Diameter: 14 * mm, Grommet: "blind", Bore: 9 * mm}},
		&build.DrillHole{Hole: "H99", Day: day, By: "MW"},
		&build.CoverSupply{Supply: build.LoomSupply{What: "sleeve", Part: "Q31", Reel: 5 * unit.Metre}},
		&build.MeterCircuit{Metered: build.Metered{ID: "M99", Circuit: "C41", Kind: "continuity", Value: 0.11, At: day.At(9, 30), By: "WA", Note: "warm"}},
		&build.TestCrimp{Crimp: build.CrimpTest{ID: "K99", Terminal: "ring", Section: "1.0", Newtons: 140, Day: day, By: "WA"}},
		&build.PrintLabels{Labels: []build.PrintedWire{{Circuit: "C41", Text: []string{"bell"}, Day: day}}},
		&build.DropWired{What: "crimp test", ID: "K99"},
	}
}

// TestEveryWiredFact_ComesBack: each kind of change to the loom is kept, read
// out as a scenario, read in again, and makes the same plan.
func TestEveryWiredFact_ComesBack(t *testing.T) {
	s := morning(t, "2026-10-13")
	list := everyFact()
	var kinds []string
	for _, c := range list {
		kinds = append(kinds, c.Kind())
	}
	slices.Sort(kinds)
	if n := len(slices.Compact(kinds)); n != 23 {
		t.Errorf("%d kinds of change", n)
	}
	s.run("record", "pedlar", s.changes(list...))
	out := s.run("export", "pedlar")
	again := shop{t, t.TempDir(), s.now}
	again.run("new", "pedlar", "--from", again.file("again.json", out))
	if back := again.run("export", "pedlar"); !bytes.Equal(out, back) {
		t.Error("what was read out and in again is read out otherwise")
	}
	a, b := s.plan(), again.plan()
	equal(t, "half by", b.Dates.P50, a.Dates.P50)
	equal(t, "odds", b.Odds.Ready, a.Odds.Ready)
	for id, c := range loomChecks(a) {
		if got := loomChecks(b)[id]; got.Says != c.Says || got.Figure.With != c.Figure.With {
			t.Errorf("%s: %q, was %q", id, got.Says, c.Says)
		}
	}
	equal(t, "checks of the loom", len(loomChecks(b)), len(loomChecks(a)))
}

package build_test

import (
	"testing"

	"fettle/build"
	"fettle/unit"
)

// wired gives the cart what its one lamp takes.
func wired(b *build.Build) {
	b.Circuits[0].Fuse, b.Circuits[0].FuseA, b.Circuits[0].Ends, b.Circuits[0].Air = "F1", 5, []build.WaypointID{"W1", "W2"}, "bay"
	b.Circuits = append(b.Circuits, build.Circuit{ID: "C2", Name: "bell", Length: unit.Metre, Load: 1, DropLimit: 3, Fuse: "none", Unfused: "a bell"})
	b.Loom = build.Loom{
		Settings:    build.LoomSettings{Rules: "by list", Cable: "cloth", Code: "BS-AU7", Sleeve: "braid", Airs: []build.WarmAir{{Name: "bay", Celsius: 70}}},
		Batteries:   []build.Battery{{Name: "battery", AmpHours: 60, At: "W1"}},
		Alternators: []build.Alternator{{Name: "dynamo", Rated: 22, Idle: 5}},
		Boxes:       []build.FuseBox{{Name: "box", Ways: 2, At: "W1"}},
		Fuses:       []build.Fuse{{Name: "F1", Amps: 5, Box: "box"}},
		Consumers:   []build.Consumer{{Name: "lamp", Circuits: []string{"C1"}, Use: "lamp", Behaviour: "filament", Watts: 21, At: "W2"}},
		Switches:    []build.Switch{aSwitch()},
		Relays:      []build.Relay{{Name: "relay", Contacts: []build.Contact{{Terminal: "87", Circuits: []string{"C1"}}}}},
		Connectors:  []build.Connector{{Name: "plug", Family: "round", Cavities: 2, Contacts: []build.Contact{{Terminal: "1", Circuits: []string{"C1"}}}}},
		Joints:      []build.Joint{{Name: "E1", Kind: "earth", Panel: "P1", Circuits: []string{"C1"}, At: "W2"}, {Name: "S1", Kind: "splice"}},
		Wires:       []build.Wire{aWire()},
		Cables:      []build.Cable{aCable()},
		Exclusives:  []build.Exclusive{{ID: "X1", Never: []string{"C1", "C2"}, Why: "one switch"}},
		Waypoints:   []build.Waypoint{{ID: "W1"}, {ID: "W2", At: [3]unit.Length{300 * mm, 400 * mm, 0}}},
		Stretches:   []build.Stretch{{ID: "R1", From: "W1", To: "W2"}},
		Holes:       []build.Hole{{ID: "H1", At: "W2", Panel: "P1", Diameter: 20 * mm, Grommet: "blind"}},
		Supplies:    []build.LoomSupply{{What: "cable", Part: "Q3", Reel: 10 * unit.Metre}},
		Metered:     []build.Metered{{ID: "V1", Circuit: "C1", Kind: "volts", Value: 12.1, At: monday.At(9, 0), By: "WA"}},
		Crimps:      []build.CrimpTest{{ID: "K1", Terminal: "blade", Section: "0.5", Newtons: 70}},
		Labels:      []build.PrintedWire{{Circuit: "C1", Text: []string{"C1 lamp"}}},
	}
}

func aSwitch() build.Switch {
	return build.Switch{Name: "switch", Positions: []build.SwitchPosition{{Name: "off"}, {Name: "on", Joins: [][]string{{"30", "58"}}}}, Contacts: []build.Contact{{Terminal: "58", Circuits: []string{"C1"}}}}
}

func aWire() build.Wire {
	return build.Wire{ID: "N1", Circuit: "C1", From: "switch:58", To: "lamp:+", Length: unit.Metre}
}

func aCable() build.Cable {
	return build.Cable{Name: "cloth", Says: "the maker's sheet", MaxC: 90, AirC: 30, K: 100, Sizes: []build.CableSize{{Name: "1.0", MM2: 1, MilliOhm: 19, Amps: 12}, {Name: "2.0", MM2: 2, MilliOhm: 9, Amps: 20}}}
}

func aCircuit() build.Circuit {
	return build.Circuit{ID: "C3", Name: "horn", Length: 2 * unit.Metre, Load: 4, DropLimit: 5, Duty: "short", Fuse: "F1"}
}

func actsOnLoom() []act {
	l := func(f func(*build.Loom) any) func(*build.Build) any {
		return func(b *build.Build) any { return f(&b.Loom) }
	}
	return []act{
		{&build.SetCircuit{Circuit: aCircuit()}, "Circuit C3, horn: 4 A over 2000 mm, fuse F1", func(b *build.Build) any { return line(len(b.Circuits), b.Circuit("C3").FuseA) }, "3 5"},
		{&build.SetFuse{Fuse: build.Fuse{Name: "F1", Amps: 7.5, Box: "box"}}, "Fuse F1: 7.5 A", func(b *build.Build) any { return line(b.Loom.Fuse("F1").Amps, b.Circuit("C1").FuseA) }, "7.5 7.5"},
		{&build.SetFuse{Fuse: build.Fuse{Name: "F2", Amps: 5, Empty: true}}, "Fuse F2: 5 A, its holder empty", l(func(l *build.Loom) any { return len(l.Fuses) }), 2},
		{&build.SetConsumer{Consumer: build.Consumer{Name: "lamp", Watts: 5, Volts: 12}}, "lamp: 5 W at 12 V", l(func(l *build.Loom) any { return line(len(l.Consumers), l.Consumers[0].Watts) }), "1 5"},
		{&build.SetConsumer{Consumer: build.Consumer{Name: "bell", Amps: 1}}, "bell: 1 A", l(func(l *build.Loom) any { return len(l.Consumers) }), 2},
		{&build.SetBattery{Battery: build.Battery{Name: "battery", AmpHours: 70}}, "battery: 70 Ah", l(func(l *build.Loom) any { return l.Batteries[0].AmpHours }), 70.0},
		{&build.SetAlternator{Alternator: build.Alternator{Name: "alternator", Rated: 55}}, "alternator: 55 A", l(func(l *build.Loom) any { return len(l.Alternators) }), 2},
		{&build.SetFuseBox{FuseBox: build.FuseBox{Name: "box", Ways: 4}}, "box: 4 ways", l(func(l *build.Loom) any { return l.Box("box").Ways }), 4},
		{&build.SetSwitch{Switch: with(aSwitch(), func(s *build.Switch) { s.Name = "dip" })}, "dip: 2 positions", l(func(l *build.Loom) any { return len(l.Switches) }), 2},
		{&build.SetRelay{Relay: build.Relay{Name: "horn relay", Break: true}}, "horn relay entered", l(func(l *build.Loom) any { return len(l.Relays) }), 2},
		{&build.SetConnector{Connector: build.Connector{Name: "plug", Cavities: 4}}, "plug: 4 cavities", l(func(l *build.Loom) any { return l.Connectors[0].Cavities }), 4},
		{&build.SetJoint{Joint: build.Joint{Name: "E2", Kind: "earth", Open: true}}, "E2: earth", l(func(l *build.Loom) any { return len(l.Joints) }), 3},
		{&build.SetWire{Wire: with(aWire(), func(w *build.Wire) { w.ID, w.To = "N2", "body" })}, "Wire N2: switch:58 to body, 1000 mm", l(func(l *build.Loom) any { return len(l.Wires) }), 2},
		{&build.SetCable{Cable: with(aCable(), func(c *build.Cable) { c.Sizes = c.Sizes[:1] })}, "Cable cloth: 1 size, the maker's sheet", l(func(l *build.Loom) any { return len(l.Cables[0].Sizes) }), 1},
		{&build.SetExclusive{Exclusive: build.Exclusive{ID: "X2", Never: []string{"C1", "lamp"}, Why: "w"}}, "Never together: C1, lamp", l(func(l *build.Loom) any { return len(l.Exclusives) }), 2},
		{&build.SetWaypoint{Waypoint: build.Waypoint{ID: "W3", At: [3]unit.Length{mm, 2 * mm, -3 * mm}}}, "Waypoint W3 at 1, 2, -3 mm", l(func(l *build.Loom) any { return len(l.Waypoints) }), 3},
		{&build.SetStretch{Stretch: build.Stretch{ID: "R1", From: "W1", To: "W2", Length: 600 * mm, Forbidden: "exhaust"}}, "Stretch R1: W1 to W2, no wire may lie there: exhaust", l(func(l *build.Loom) any { return l.Long(l.Stretches[0]) }), 600 * mm},
		{&build.SetHole{Hole: build.Hole{ID: "H2", At: "W1", Panel: "P2", Diameter: 25 * mm}}, "Hole H2 in P2: 25 mm", l(func(l *build.Loom) any { return line(len(l.Holes), l.Holes[0].Clear(), l.Holes[1].Clear()) }), "2 16 mm 25 mm"},
		{&build.DrillHole{Hole: "H1", Day: monday, By: "MW"}, "Hole H1 is drilled", l(func(l *build.Loom) any { return line(l.Hole("H1").Drilled, l.Hole("H1").Day) }), "true 2026-03-02"},
		{&build.SetLoom{Settings: build.LoomSettings{Rules: "in full", PositiveEarth: true, ByRoute: true, HoursFor: 40, Airs: []build.WarmAir{{Name: "bay", Celsius: 80}}}}, "The loom: in full, positive earth, lengths by the route, hours for 40 circuits", l(func(l *build.Loom) any { return l.Settings.Airs[0].Celsius }), 80.0},
		{&build.CoverSupply{Supply: build.LoomSupply{What: "sleeve", Part: "Q1"}}, "sleeve of the loom: Q1", l(func(l *build.Loom) any { return l.Supply("sleeve").Part }), build.PartID("Q1")},
		{&build.CoverSupply{Supply: build.LoomSupply{What: "cable"}}, "cable of the loom: on no list", l(func(l *build.Loom) any { return len(l.Supplies) }), 0},
		{&build.CancelPart{Part: "Q3", Why: "given"}, "Q3 not wanted: given", l(func(l *build.Loom) any { return len(l.Supplies) }), 0},
		{&build.MeterCircuit{Metered: build.Metered{ID: "V2", Circuit: "N1", Kind: "continuity", Value: 0.02}}, "N1 reads 0.02 Ω (continuity)", l(func(l *build.Loom) any { return len(l.Metered) }), 2},
		{&build.TestCrimp{Crimp: build.CrimpTest{ID: "K2", Terminal: "blade", Section: "1.0", Newtons: 120}}, "Crimp of 1.0 mm² in blade held 120 N", l(func(l *build.Loom) any { return len(l.Crimps) }), 2},
		{&build.PrintLabels{Labels: []build.PrintedWire{{Circuit: "C1", Text: []string{"C1"}}, {Circuit: "C2", Text: []string{"C2"}}}}, "Labels of 2 wires are printed", l(func(l *build.Loom) any { return line(len(l.Labels), l.Labels[0].Text) }), "2 [C1]"},
		{&build.DropWired{What: "reading", ID: "V1"}, "reading V1 is off the list", l(func(l *build.Loom) any { return len(l.Metered) }), 0},
		{&build.DropWired{What: "never together", ID: "X1"}, "never together X1 is off the list", l(func(l *build.Loom) any { return len(l.Exclusives) }), 0},
	}
}

// TestDropWired_TakesEveryKind: once nothing names it, each kind can go.
func TestDropWired_TakesEveryKind(t *testing.T) {
	b := cart()
	b.Loom.Settings.Cable = ""
	for _, d := range [][2]string{{"reading", "V1"}, {"crimp test", "K1"}, {"never together", "X1"}, {"wire", "N1"}, {"stretch", "R1"}, {"hole", "H1"}, {"consumer", "lamp"},
		{"switch", "switch"}, {"relay", "relay"}, {"connector", "plug"}, {"joint", "E1"}, {"alternator", "dynamo"}, {"cable", "cloth"}, {"battery", "battery"}} {
		if err := (&build.DropWired{What: d[0], ID: d[1]}).Apply(&b); err != nil {
			t.Fatalf("%s %s: %v", d[0], d[1], err)
		}
	}
	b.Circuits[0].Ends = nil
	for _, d := range [][2]string{{"circuit", "C1"}, {"fuse", "F1"}, {"fuse box", "box"}} {
		if err := (&build.DropWired{What: d[0], ID: d[1]}).Apply(&b); err != nil {
			t.Errorf("%s %s: %v", d[0], d[1], err)
		}
	}
	if n := len(b.Loom.Fuses) + len(b.Loom.Boxes) + len(b.Loom.Labels); n != 0 || len(b.Circuits) != 1 {
		t.Errorf("left: %+v, %d circuits", b.Loom, len(b.Circuits))
	}
}

func noesOnLoom() []no {
	circuit := func(f func(*build.Circuit)) build.Change { return &build.SetCircuit{Circuit: with(aCircuit(), f)} }
	settings := func(f func(*build.LoomSettings)) build.Change {
		return &build.SetLoom{Settings: with(build.LoomSettings{Airs: []build.WarmAir{{Name: "bay"}}}, f)}
	}
	hole := func(f func(*build.Hole)) build.Change {
		return &build.SetHole{Hole: with(build.Hole{ID: "H2", At: "W1", Panel: "P1", Diameter: 20 * mm}, f)}
	}
	return []no{
		{circuit(func(c *build.Circuit) { c.ID = "" }), 1, "circuit 3"},
		{circuit(func(c *build.Circuit) { c.Load = -1 }), 3, "circuit C3, load_a"},
		{circuit(func(c *build.Circuit) { c.DropLimit = 0 }), 3, "circuit C3, drop_limit_percent"},
		{circuit(func(c *build.Circuit) { c.DropLimit = 101 }), 3, "circuit C3, drop_limit_percent"},
		{circuit(func(c *build.Circuit) { c.Length = 0 }), 3, "circuit C3, length_mm"},
		{circuit(func(c *build.Circuit) { c.FuseA = 10 }), 11, "circuit C3, fuse_a"},
		{circuit(func(c *build.Circuit) { c.Ends = []build.WaypointID{"W9"} }), 2, "circuit C3, ends"},
		{circuit(func(c *build.Circuit) { c.Ends = []build.WaypointID{"W1", "W1"} }), 1, "circuit C3, ends 2 W1"},
		{circuit(func(c *build.Circuit) { c.Air = "moon" }), 2, "circuit C3, air"},
		{settings(func(s *build.LoomSettings) { s.Rules = "by eye" }), 4, "loom, rules"},
		{settings(func(s *build.LoomSettings) { s.Code = "own" }), 4, "loom, colour_code"},
		{settings(func(s *build.LoomSettings) { s.Volts = 9 }), 4, "loom, nominal_v"},
		{settings(func(s *build.LoomSettings) { s.Airs = nil }), 2, "circuit C1, air"},
		{settings(func(s *build.LoomSettings) { s.BoardWidth = -1 }), 3, "loom"},
		{settings(func(s *build.LoomSettings) { s.HoursFor = -1 }), 3, "loom"},
		{&build.SetFuse{Fuse: build.Fuse{Name: "F2"}}, 3, "fuse F2"},
		{&build.SetFuse{Fuse: build.Fuse{Name: "F2", Amps: 5, Box: "attic"}}, 2, "fuse F2, box"},
		{&build.SetFuse{Fuse: build.Fuse{Name: "lamp", Amps: 5}}, 1, "lamp"},
		{&build.SetFuseBox{FuseBox: build.FuseBox{Name: "box"}}, 3, "fuse box box"},
		{&build.SetBattery{Battery: build.Battery{Name: "body", AmpHours: 5}}, 1, "body"},
		{&build.SetBattery{Battery: build.Battery{Name: "a:b", AmpHours: 5}}, 10, "a:b"},
		{&build.SetAlternator{Alternator: build.Alternator{Name: "dynamo", Rated: 5, Idle: 9}}, 3, "alternator dynamo"},
		{&build.SetConsumer{Consumer: build.Consumer{Name: "lamp", Watts: 5, Amps: 1}}, 3, "consumer lamp"},
		{&build.SetConsumer{Consumer: build.Consumer{Name: "lamp", Watts: 5, Behaviour: "odd"}}, 4, "consumer lamp, behaviour"},
		{&build.SetConsumer{Consumer: build.Consumer{Name: "lamp", Watts: 5, Circuits: []string{"C9"}}}, 2, "consumer lamp, circuits"},
		{&build.SetSwitch{Switch: build.Switch{Name: "dip"}}, 10, "switch dip"},
		{&build.SetSwitch{Switch: build.Switch{Name: "dip", Positions: []build.SwitchPosition{{Name: "a=b"}}}}, 1, "switch dip, position a=b"},
		{&build.SetSwitch{Switch: build.Switch{Name: "dip", Positions: []build.SwitchPosition{{Name: "on", Joins: [][]string{{"30"}}}}}}, 10, "switch dip, position on"},
		{&build.SetRelay{Relay: build.Relay{Name: "relay", Contacts: []build.Contact{{Terminal: "88"}}}}, 4, "relay relay, terminal"},
		{&build.SetRelay{Relay: build.Relay{Name: "relay", Contacts: []build.Contact{{Terminal: "87a"}}}}, 11, "relay relay"},
		{&build.SetConnector{Connector: build.Connector{Name: "plug", Cavities: 1, Contacts: []build.Contact{{Terminal: "1"}, {Terminal: "1"}}}}, 1, "connector plug, terminal"},
		{&build.SetConnector{Connector: build.Connector{Name: "plug", Cavities: 1, Contacts: []build.Contact{{Terminal: "1"}, {Terminal: "2"}}}}, 11, "connector plug"},
		{&build.SetJoint{Joint: build.Joint{Name: "E1", Kind: "knot"}}, 4, "joint E1, kind"},
		{&build.SetJoint{Joint: build.Joint{Name: "E1", Kind: "earth", Panel: "P9"}}, 2, "joint E1, panel"},
		{&build.SetWire{Wire: with(aWire(), func(w *build.Wire) { w.To = "moon:1" })}, 2, "wire N1, to"},
		{&build.SetWire{Wire: with(aWire(), func(w *build.Wire) { w.To = "lamp" })}, 10, "wire N1, to"},
		{&build.SetWire{Wire: with(aWire(), func(w *build.Wire) { w.To = w.From })}, 11, "wire N1"},
		{&build.SetWire{Wire: with(aWire(), func(w *build.Wire) { w.ID = "C1" })}, 1, "wire C1"},
		{&build.SetCable{Cable: with(aCable(), func(c *build.Cable) { c.Says = "" })}, 10, "cable cloth, source"},
		{&build.SetCable{Cable: with(aCable(), func(c *build.Cable) { c.Sizes = []build.CableSize{c.Sizes[1], c.Sizes[0]} })}, 3, "cable cloth, size 2"},
		{&build.SetExclusive{Exclusive: build.Exclusive{ID: "X2", Never: []string{"C1"}}}, 10, "never together X2"},
		{&build.SetExclusive{Exclusive: build.Exclusive{ID: "X2", Never: []string{"C1", "moon"}, Why: "w"}}, 2, "never together X2"},
		{&build.SetWaypoint{Waypoint: build.Waypoint{ID: "W3", At: [3]unit.Length{0, 90 * unit.Metre, 0}}}, 3, "waypoint W3, at_mm, y"},
		{&build.SetWaypoint{Waypoint: build.Waypoint{ID: "W3", What: "hook"}}, 4, "waypoint W3, what"},
		{&build.SetStretch{Stretch: build.Stretch{ID: "R2", From: "W1", To: "W2", Sleeve: "wool"}}, 4, "stretch R2, sleeve"},
		{&build.SetStretch{Stretch: build.Stretch{ID: "R2", From: "W1", To: "W9"}}, 2, "stretch R2, to"},
		{&build.SetStretch{Stretch: build.Stretch{ID: "R2", From: "W9", To: "W1"}}, 2, "stretch R2, from"},
		{&build.SetStretch{Stretch: build.Stretch{ID: "R2", From: "W1", To: "W1"}}, 11, "stretch R2"},
		{&build.SetStretch{Stretch: build.Stretch{ID: "R2", From: "W1", To: "W2", Length: 499 * mm}}, 3, "stretch R2, length_mm"},
		{&build.SetWaypoint{Waypoint: build.Waypoint{ID: "W2"}}, 3, "stretch R1"},
		{hole(func(h *build.Hole) { h.Panel = "P9" }), 2, "hole H2, panel"},
		{hole(func(h *build.Hole) { h.Bore = 21 * mm }), 3, "hole H2"},
		{hole(func(h *build.Hole) { h.Diameter, h.Grommet = 4*mm, "tiny" }), 3, "hole H2"},
		{&build.DrillHole{Hole: "H9"}, 2, ""},
		{&build.CoverSupply{Supply: build.LoomSupply{What: "hats", Part: "Q1"}}, 4, "loom, supply hats"},
		{&build.CoverSupply{Supply: build.LoomSupply{What: "sleeve"}}, 2, ""},
		{&build.CoverSupply{Supply: build.LoomSupply{What: "sleeve", Part: "Q9"}}, 2, "loom, supply sleeve, part"},
		{&build.MeterCircuit{Metered: build.Metered{ID: "V1", Circuit: "C1", Kind: "volts"}}, 1, "V1"},
		{&build.MeterCircuit{Metered: build.Metered{ID: "V2", Circuit: "C9", Kind: "volts"}}, 2, "reading V2, circuit"},
		{&build.MeterCircuit{Metered: build.Metered{ID: "V2", Circuit: "C1", Kind: "smell"}}, 4, "reading V2, kind"},
		{&build.MeterCircuit{Metered: build.Metered{ID: "V2", Circuit: "C1", Kind: "volts", By: "nobody"}}, 2, "reading V2, by"},
		{&build.TestCrimp{Crimp: build.CrimpTest{ID: "K2", Section: "1.0"}}, 10, "crimp test K2, terminal"},
		{&build.TestCrimp{Crimp: build.CrimpTest{ID: "K2", Terminal: "blade", Section: "1.0", By: "nobody"}}, 2, "crimp test K2, by"},
		{&build.DrillHole{Hole: "H1", Day: monday, By: "nobody"}, 2, "hole H1, by"},
		{&build.PrintLabels{}, 10, "labels"},
		{&build.PrintLabels{Labels: []build.PrintedWire{{Circuit: "C1"}}}, 10, "labels of C1"},
		{&build.DropWired{What: "hat"}, 4, "what"},
		{&build.DropWired{What: "cable", ID: "cloth"}, 2, "loom, cable"},
		{&build.DropWired{What: "fuse", ID: "F1"}, 2, "circuit C1, fuse"},
		{&build.SetFuse{Fuse: build.Fuse{Name: "F1", Amps: -1}}, 3, "fuse F1"},
		{&build.SetWire{Wire: with(aWire(), func(w *build.Wire) { w.To = "box:F1" })}, 2, "wire N1, to"},
		{&build.DropWired{What: "fuse", ID: "F9"}, 2, ""},
		{&build.DropWired{What: "circuit", ID: "C1"}, 2, "circuit C1 is still named"},
		{&build.DropWired{What: "waypoint", ID: "W1"}, 2, "waypoint W1 is still named"},
		{&build.DropWired{What: "fuse box", ID: "box"}, 2, "fuse box box is still named"},
	}
}

package loom_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/engine/loom"
	stage "fettle/stage/loom"
	"fettle/takeoff"
	"fettle/unit"
)

// bench is a loom small enough to follow: a lamp by the list behind a fuse.
func bench() *build.Build {
	return &build.Build{
		Panels:   []build.Panel{{ID: "P1", Name: "bulkhead", State: build.InEpoxy}},
		Parts:    []build.Part{{ID: "Q1", Name: "cable", Quantity: 1, Task: "T1"}},
		Tasks:    []build.Task{{ID: "T1", Name: "loom", Stage: "loom"}},
		Circuits: []build.Circuit{{ID: "C1", Name: "lamp", From: "box", To: "lamp", Length: 2 * unit.Metre, Load: 2, DropLimit: 3, Duty: "cont", Colour: "R/B", Fuse: "F1", FuseA: 5}},
		Loom:     build.Loom{Settings: build.LoomSettings{Rules: "by list"}, Batteries: []build.Battery{{Name: "battery", AmpHours: 60, Cranking: 500}}},
	}
}

// TestChecks changes one fact and expects one check, with its weight and words.
func TestChecks(t *testing.T) {
	circuit := func(b *build.Build) *build.Circuit { return &b.Circuits[0] }
	hole := func(b *build.Build, state build.PanelState) {
		b.Panels[0].State = state
		b.Loom.Holes = []build.Hole{{ID: "H1", Panel: "P1", Diameter: 20 * mm}}
	}
	meter := func(b *build.Build, kind string, value float64) {
		b.Loom.Metered = []build.Metered{{ID: "V1", Circuit: "C1", Kind: kind, Value: value}}
	}
	for _, tt := range []struct {
		id     string
		weight takeoff.Weight
		says   string
		do     func(*build.Build)
	}{
		{"loom/fuse-overloaded/fuse F1", takeoff.Slipping, "5.0 A for long × 1.25 = 6.2 A, more than its 5 A (C1)", func(b *build.Build) { circuit(b).Load = 5 }},
		{"loom/no-fuse/wire C1", takeoff.Slipping, "circuit C1, lamp: no fuse stands", func(b *build.Build) { circuit(b).Fuse, circuit(b).FuseA = "none", 0 }},
		{"loom/fuse-too-large/wire C1", takeoff.Slipping, "the wire burns before the fuse opens", func(b *build.Build) { circuit(b).Section, circuit(b).FuseA = "0.5", 20 }},
		{"loom/run-too-thin/wire C1", takeoff.Slipping, "usable 7.7 A", func(b *build.Build) {
			circuit(b).Section, circuit(b).Load, circuit(b).FuseA = "0.5", 5, 7.5
			circuit(b).Length *= 3
		}},
		{"loom/empty-fuse-holder/fuse F1", takeoff.Slipping, "all behind it is dead", func(b *build.Build) { b.Loom.Fuses = []build.Fuse{{Name: "F1", Amps: 5, Empty: true}} }},
		{"loom/box-full/box box", takeoff.Slipping, "2 fuses, room for 1", func(b *build.Build) {
			b.Loom.Boxes = []build.FuseBox{{Name: "box", Ways: 1}}
			b.Loom.Fuses = []build.Fuse{{Name: "F1", Amps: 5, Box: "box"}, {Name: "F2", Amps: 5, Box: "box"}}
			b.Loom.Supplies = supplies()
		}},
		{"loom/label-twice/C2 and C1", takeoff.Tight, `both are labelled "lamp"`, func(b *build.Build) {
			b.Circuits = append(b.Circuits, b.Circuits[0])
			b.Circuits[0].Label, b.Circuits[1].ID, b.Circuits[1].Label = "lamp", "C2", "lamp"
		}},
		{"loom/colours", takeoff.Tight, "reads C1 puce", func(b *build.Build) { circuit(b).Colour = "puce" }},
		{"loom/ratings", takeoff.Tight, "rated at: C1 F1", func(b *build.Build) { circuit(b).FuseA = 0 }},
		{"loom/load/C1", takeoff.Slipping, "draws 4.4 A, the list says 2 A", func(b *build.Build) {
			b.Loom.Consumers = []build.Consumer{{Name: "lamp", Circuits: []string{"C1"}, Watts: 60}}
		}},
		{"loom/holes", takeoff.Tight, "1 hole for the loom is not drilled: H1 20 mm in P1 bulkhead", func(b *build.Build) { hole(b, build.InMetal) }},
		{"loom/holes", takeoff.Slipping, "P1 is blocked", func(b *build.Build) { hole(b, build.Blocked) }},
		{"loom/holes", takeoff.Lost, "P1 is cut and polished, which costs 12 to 25 h", func(b *build.Build) { hole(b, build.CutPolished) }},
		{"loom/supply/cable", takeoff.Tight, "cable of the loom, 0.5 mm² red/black 2.1 m: no part on the list", func(b *build.Build) { b.Loom.Supplies = supplies()[1:] }},
		{"loom/reading/V1", takeoff.Slipping, "C1 reads 0.5 for continuity, expected 0.17 Ω at most", func(b *build.Build) { meter(b, "continuity", 0.5) }},
		{"loom/reading/V1", takeoff.Slipping, "expected 1 MΩ or more", func(b *build.Build) { meter(b, "isolation", 0.2) }},
		{"loom/reading/V1", takeoff.Slipping, "expected 12.2 V or more", func(b *build.Build) { meter(b, "volts", 11.8) }},
		{"loom/reading/V1", takeoff.Slipping, "expected 2 A", func(b *build.Build) { meter(b, "amps", 3) }},
		{"loom/crimp/K1", takeoff.Slipping, "gave at 40 N, it must hold 56 N", func(b *build.Build) {
			b.Loom.Crimps = []build.CrimpTest{{ID: "K1", Terminal: "blade", Section: "0.5", Newtons: 40}}
		}},
		{"loom/labels", takeoff.Tight, "now: C1", func(b *build.Build) {
			b.Loom.Labels = []build.PrintedWire{{Circuit: "C1", Text: []string{"C1 · box → lamp · R/B · 1.0 mm²"}}}
		}},
		{"loom/hours", takeoff.Slipping, "2 h for them are in no task", func(b *build.Build) {
			b.Tasks[0].State, b.Tasks[0].Circuits, b.Tasks[0].Legs, b.Loom.Settings.HoursFor = build.Finished, 1, []build.Leg{{Trade: "WA", Hours: 2 * unit.Hour}}, 1
			b.Circuits = append(b.Circuits, b.Circuits[0])
			b.Circuits[1].ID = "C2"
		}},
		{"loom/unsolved", takeoff.Slipping, "no cable called", func(b *build.Build) { b.Loom.Settings.Cable = "rope" }},
	} {
		b := bench()
		if list := checksOf(b); len(list) != 0 {
			t.Fatalf("the loom as it is has checks: %+v", list)
		}
		tt.do(b)
		list := checksOf(b)
		c, ok := list[tt.id]
		if !ok || len(list) != 1 && tt.id != "loom/run-too-thin/wire C1" || c.Weight != tt.weight || !strings.Contains(c.Says, tt.says) || c.Do == "" || c.Figure.With == "" {
			t.Errorf("%s %q: %+v", tt.id, tt.says, list)
		}
	}
}

func supplies() []build.LoomSupply {
	var list []build.LoomSupply
	for _, kind := range build.LoomSupplyKinds() {
		list = append(list, build.LoomSupply{What: kind, Part: "Q1"})
	}
	return list
}

// TestChecks_GoodReadingsAndLabels: what is as it should be is not told.
func TestChecks_GoodReadingsAndLabels(t *testing.T) {
	b := bench()
	b.Loom.Labels = []build.PrintedWire{{Circuit: "C1", Text: []string{"C1 · box → lamp · R/B · 0.5 mm²"}}}
	b.Loom.Crimps = []build.CrimpTest{{ID: "K1", Terminal: "blade", Section: "0.5", Newtons: 60}}
	for i, m := range []struct {
		kind  string
		value float64
	}{{"continuity", 0.12}, {"isolation", 20}, {"volts", 12.4}, {"amps", 2.1}} {
		b.Loom.Metered = append(b.Loom.Metered, build.Metered{ID: string(rune('a' + i)), Circuit: "C1", Kind: m.kind, Value: m.value})
	}
	if list := checksOf(b); len(list) != 0 {
		t.Errorf("%+v", list)
	}
}

// TestWant puts what no part covers on the list, once.
func TestWant(t *testing.T) {
	b := bench()
	for _, c := range stage.Want(b, "cable", "T1") {
		if err := c.Apply(b); err != nil {
			t.Fatal(err)
		}
	}
	if s := b.Loom.Supply("cable"); s == nil || b.Part(s.Part) == nil || stage.Want(b, "cable", "T1") != nil {
		t.Errorf("parts %+v, supplies %+v", b.Parts, b.Loom.Supplies)
	}
}

// TestLetters: letters of both codes, remarks and words.
func TestLetters(t *testing.T) {
	for in, want := range map[string]string{"U/R": "U/R", "BURD": "BURD", "N(red)": "N", "yellow/black": "Y/B", "light green": "LG", "grey": "S", "purple/black": "P/B", " slate ": "S", "puce": "", "": "", "turquoise": ""} {
		if got := stage.Letters(in); got != want {
			t.Errorf("Letters(%q) = %q, want %q", in, got, want)
		}
	}
}

// net is the lamp with its switch, fuse and earth as wires between terminals.
func net() *build.Build {
	b := bench()
	l := &b.Loom
	l.Fuses = []build.Fuse{{Name: "F1", Amps: 5}}
	l.Consumers = []build.Consumer{{Name: "lamp", Circuits: []string{"C1"}, Use: "lamp", Behaviour: "filament", Watts: 21}}
	l.Switches = []build.Switch{{Name: "switch", Positions: []build.SwitchPosition{{Name: "off"}, {Name: "on", Joins: [][]string{{"30", "58"}}}}}}
	l.Joints = []build.Joint{{Name: "E1", Kind: "earth"}}
	wire := func(id, from, to string) build.Wire {
		return build.Wire{ID: id, Circuit: "C1", From: from, To: to, Length: unit.Metre}
	}
	feed := wire("N1", "battery:+", "F1:1")
	feed.Unfused = "as near the battery as can be"
	l.Wires = []build.Wire{feed, wire("N2", "F1:2", "switch:30"), wire("N3", "switch:58", "lamp:+"), wire("N4", "lamp:-", "E1:1"), wire("N5", "battery:-", "body")}
	return b
}

// TestNet_FaultsAreFound: wires between terminals make a circuit a net, and
// faults planted in it are told.
func TestNet_FaultsAreFound(t *testing.T) {
	if list := checksOf(net()); len(list) != 0 {
		t.Fatalf("the sound net has checks: %+v", list)
	}
	p := stage.ProblemOf(net())
	if len(p.Circuits) != 0 || len(p.Wires) != 5 || p.Wires[2].DropPercent != 3 {
		t.Errorf("problem %+v", p)
	}
	for kind, do := range map[loom.FlawKind]func(*build.Loom){
		loom.OpenEarth:   func(l *build.Loom) { l.Joints[0].Open = true },
		loom.EmptyHolder: func(l *build.Loom) { l.Fuses[0].Empty = true },
		loom.NoFuse:      func(l *build.Loom) { l.Wires[1].From = "battery:+" },
	} {
		b := net()
		do(&b.Loom)
		found := false
		for id := range checksOf(b) {
			found = found || strings.HasPrefix(id, "loom/"+strings.ReplaceAll(string(kind), " ", "-")+"/")
		}
		if !found {
			t.Errorf("%s is not told: %+v", kind, checksOf(b))
		}
	}
}

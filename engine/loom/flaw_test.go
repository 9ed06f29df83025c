package loom

import (
	"context"
	"strings"
	"testing"
)

// tail is a small sound loom: a box with three fuses, left and right lamps with
// earths of their own, a stop lamp, a horn through a relay.
func tail() Problem {
	on := []Position{{"off", nil}, {"on", [][]string{{"a", "b"}}}}
	lamp := func(name string, watts float64) Consumer {
		return Consumer{Name: name, Behaviour: Filament, Use: Lamp, Watts: watts}
	}
	p := Problem{
		AmbientC:  30,
		Batteries: []Battery{{Name: "battery", CrankingAmps: 500}},
		Boxes:     []Box{{"box", 4}},
		Fuses:     []Fuse{{Name: "main", Amps: 40, Type: Maxi}, {Name: "F1", Amps: 5, Box: "box"}, {Name: "F2", Amps: 5, Box: "box"}, {Name: "F3", Amps: 15, Box: "box"}},
		Relays:    []Relay{{Name: "horn relay", Break: true}},
		Switches:  []Switch{{Name: "lamps", Positions: on}, {Name: "pedal", Positions: on}, {Name: "push", Positions: on, Short: true}},
		Joints:    []Joint{{Name: "bus", Kind: Splice}, {Name: "tails", Kind: Splice}, {Name: "EL", Kind: Earth}, {Name: "ER", Kind: Earth}, {Name: "EF", Kind: Earth}},
		Consumers: []Consumer{lamp("tail L", 5), lamp("tail R", 5), lamp("stop L", 21), lamp("stop R", 21), {Name: "horn", Amps: 6, Use: Control, Short: true}},
		Wires: []Wire{
			wire("b1", "battery:+", "main:1", "", 0.15), wire("b2", "main:2", "bus", "", 1.2), wire("b3", "battery:-", "body", "", 0.5),
			wire("f1", "bus", "F1:1", "", 0.1), wire("f2", "bus", "F2:1", "", 0.1), wire("f3", "bus", "F3:1", "", 0.1),
			wire("t1", "F1:2", "lamps:a", "", 1), wire("t2", "lamps:b", "tails", "", 3), wire("t3", "tails", "tail L:+", "", 0.5), wire("t4", "tails", "tail R:+", "", 1.2),
			wire("s1", "F2:2", "pedal:a", "", 1), wire("s2", "pedal:b", "stop L:+", "", 3.5), wire("s3", "pedal:b", "stop R:+", "", 4),
			wire("eL1", "tail L:-", "EL", "", 0.3), wire("eL2", "stop L:-", "EL", "", 0.3), wire("eR1", "tail R:-", "ER", "", 0.3), wire("eR2", "stop R:-", "ER", "", 0.3),
			wire("h1", "F3:2", "horn relay:30", "", 0.5), wire("h2", "horn relay:87", "horn:+", "", 1.5), wire("h3", "horn:-", "EF", "", 0.3),
			wire("h4", "F3:2", "horn relay:86", "", 0.5), wire("h5", "horn relay:85", "push:a", "", 1.5), wire("h6", "push:b", "EF", "", 0.5),
		},
	}
	p.Wires[0].Unfused = "lead to the main fuse"
	return p
}

func (p *Problem) wire(id string) *Wire {
	for i := range p.Wires {
		if p.Wires[i].ID == id {
			return &p.Wires[i]
		}
	}
	panic(id)
}

// drop takes a wire out.
func (p *Problem) drop(id string) {
	for i := range p.Wires {
		if p.Wires[i].ID == id {
			p.Wires = append(p.Wires[:i:i], p.Wires[i+1:]...)
			return
		}
	}
	panic(id)
}

func to(part, terminal string) Pin { return Pin{part, terminal} }

// TestFlaws plants one fault at a time in a sound loom; it is found, at its
// place, with what it does, and nothing else is.
func TestFlaws(t *testing.T) {
	for _, tt := range []struct {
		name               string
		plant              func(p *Problem)
		kind               FlawKind
		place, does, mends string
	}{
		{"sound", func(*Problem) {}, "", "", "", ""},
		{"open earth", func(p *Problem) { p.Joints[2].Open = true }, OpenEarth, "EL", "stop R glows at", "bare metal"},
		{"open earth of one lamp", func(p *Problem) { p.drop("eL1") }, OpenEarth, "tail L:-", "dead: tail L", "bare metal"},
		{"thin earth", func(p *Problem) {
			p.Joints = append(p.Joints, Joint{Name: "both", Kind: Splice})
			p.wire("eL1").To, p.wire("eL2").To, p.wire("eR1").To, p.wire("eR2").To = to("both", ""), to("both", ""), to("both", ""), to("both", "")
			p.Wires = append(p.Wires, wire("thin", "both", "EL", "0.5", 1.5))
		}, ThinEarth, "wire thin", "lifts 4 consumers by", "mm² does"},
		{"bad earth point", func(p *Problem) { p.Joints[2].Ohms = 0.5 }, ThinEarth, "earth point EL", "tail L falls from", "bare metal"},
		{"reversed relay", func(p *Problem) {
			p.wire("h1").To, p.wire("h2").From = to("horn relay", "87"), to("horn relay", "30")
		}, Reversed, "relay horn relay", "feed at 87 and load at 30", "feed to 30"},
		{"past its fuse", func(p *Problem) { p.wire("t1").From, p.wire("t1").Section = to("bus", ""), "1.0" }, BigFuse, "wire t1", "main may bring 54 A", "mm² does"},
		{"no main fuse", func(p *Problem) {
			p.wire("b1").Unfused = ""
		}, NoFuse, "wire b1", "no fuse stands between the battery and it", "as near the battery"},
		{"empty holder", func(p *Problem) { p.Fuses[2].Empty = true }, EmptyHolder, "fuse F2", "dead", "fit 5 A"},
		{"two circuits joined", func(p *Problem) {
			p.Wires = append(p.Wires, wire("slip", "lamps:a", "pedal:a", "1.0", 0.3))
		}, Joined, "fuses F1 and F2", "all at rest", "part them"},
		{"joined in one state", func(p *Problem) {
			p.Switches[1].Positions[1].Joins[0] = []string{"a", "b", "c"}
			p.Wires = append(p.Wires, wire("slip", "pedal:c", "F1:2", "1.0", 0.3))
		}, Joined, "fuses F1 and F2", "pedal=on", "part them"},
		{"label twice", func(p *Problem) { p.wire("s2").Label, p.wire("s3").Label = "STOP", "STOP" }, SameLabel, "s3 and s2", `"STOP"`, "of its own"},
		{"box full", func(p *Problem) { p.Boxes[0].Ways = 2 }, BoxFull, "box box", "3 fuses, room for 2", "3 ways"},
		{"fuse too large", func(p *Problem) { p.wire("t1").Section, p.Fuses[1].Amps = "0.5", 20 }, BigFuse, "wire t1", "the wire burns before the fuse opens", "a fuse of 7.5 A at most"},
		{"too thin", func(p *Problem) { p.wire("s2").Section, p.wire("s2").DropV = "0.5", 0.1 }, Undersized, "wire s2", "voltage drop", "mm² does"},
		{"feed joined to earth", func(p *Problem) { p.Wires = append(p.Wires, wire("nick", "lamps:b", "body", "1.0", 0.5)) }, ShortedNet, "fuse F1", "lamps=on", ""},
		{"nothing feeds it", func(p *Problem) { p.drop("s2") }, NoFeed, "consumer stop L", "nothing feeds it", ""},
		{"wire to nothing", func(p *Problem) {
			p.Joints = append(p.Joints, Joint{Name: "spare", Kind: Splice})
			p.Wires = append(p.Wires, wire("x", "F1:2", "spare", "1.0", 0.3))
		}, LooseEnd, "wire x at spare", "nothing else is there", "cap it"},
		{"coil behind its own contact", func(p *Problem) { p.wire("h4").From = to("horn relay", "87a") }, Chatter, "horn relay", "takes away its own volts", "before the contact"},
		{"contact too small", func(p *Problem) { p.Relays[0].Amps = 4 }, WornContact, "relay horn relay", "made for 4 A", "two"},
		{"coil diode turned", func(p *Problem) {
			p.Relays[0].Diode = true
			p.wire("h4").To, p.wire("h5").From = to("horn relay", "85"), to("horn relay", "86")
		}, WrongWay, "relay horn relay", "diode", "86"},
	} {
		p := tail()
		tt.plant(&p)
		r, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		found := false
		for _, f := range r.Flaws {
			hit := f.Kind == tt.kind && strings.Contains(f.Place, tt.place) && strings.Contains(f.Does, tt.does) && strings.Contains(f.Remedy, tt.mends)
			found = found || hit
			if !hit || testing.Verbose() {
				t.Logf("%s: %+v", tt.name, f)
			}
			if f.Kind != tt.kind {
				t.Errorf("%s: found besides: %+v", tt.name, f)
			}
		}
		if !found && tt.kind != "" {
			t.Errorf("%s: not found among %+v", tt.name, r.Flaws)
		}
	}
}

package loom

import (
	"context"
	"fmt"
	"testing"
)

// coach is a loom of so many circuits: fuses of eight circuits each, behind a
// bus or behind the ignition; every circuit a switch of its own or one for four,
// every tenth a relay; two earths shared by everything on a fuse.
func coach(circuits int) Problem {
	p := Problem{
		Batteries: []Battery{{Name: "battery", CrankingAmps: 700}},
		Fuses:     []Fuse{{Name: "main", Amps: 125, Type: Link}},
		Joints:    []Joint{{Name: "bus", Kind: Splice}, {Name: "ign", Kind: Splice}},
		Switches:  []Switch{{Name: "ignition", Positions: []Position{{"off", nil}, {"on", [][]string{{"30", "15"}}}}}},
		Bundles:   []Bundle{{Name: "trunk", Wires: 12}},
	}
	lay := func(from, to string, metres float64) *Wire {
		p.Wires = append(p.Wires, wire(fmt.Sprintf("w%d", len(p.Wires)), from, to, "", metres))
		return &p.Wires[len(p.Wires)-1]
	}
	lay("battery:+", "main:1", 0.2).Unfused = "lead to the main fuse"
	lay("main:2", "bus", 1)
	lay("battery:-", "body", 0.5)
	lay("bus", "ignition:30", 1)
	lay("ignition:15", "ign", 1)
	feed, out := "", ""
	for i := range circuits {
		f := fmt.Sprintf("F%d", i/8)
		if i%8 == 0 {
			p.Fuses = append(p.Fuses, Fuse{Name: f, Amps: 15})
			lay([]string{"bus", "ign"}[i/8%2], f+":1", 0.3)
			p.Joints = append(p.Joints, Joint{Name: f + "e", Kind: Splice}, Joint{Name: f + "g", Kind: Earth, Ohms: 0.002})
			lay(f+"e", f+"g", 0.4)
			feed = f + ":2"
		}
		if i%4 == 0 {
			name := fmt.Sprintf("s%d", i)
			p.Switches = append(p.Switches, Switch{Name: name, Positions: []Position{{"off", nil}, {"on", [][]string{{"in", "out"}}}}})
			lay(feed, name+":in", 1+float64(i%3))
			out = name + ":out"
		}
		from := out
		if i%10 == 0 {
			r := fmt.Sprintf("r%d", i)
			p.Relays = append(p.Relays, Relay{Name: r})
			lay(out, r+":86", 1)
			lay(r+":85", f+"e", 0.3)
			lay(feed, r+":30", 0.8)
			from = r + ":87"
		}
		c := Consumer{Name: fmt.Sprintf("c%d", i), Amps: 0.07 + float64(i%5)/13, Use: Other}
		if i%3 == 0 {
			c.Behaviour = Filament
		}
		p.Consumers = append(p.Consumers, c)
		w := lay(from, c.Name+":+", 1+float64(i%7)/2)
		if i%2 == 0 {
			w.Bundle = "trunk"
		}
		lay(c.Name+":-", f+"e", 0.4)
	}
	return p
}

func BenchmarkSolve(b *testing.B) {
	for _, n := range []int{40, 400} {
		b.Run(fmt.Sprintf("circuits=%d", n), func(b *testing.B) {
			p := coach(n)
			var r Result
			for b.Loop() {
				var err error
				if r, err = Solve(context.Background(), p, Options{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(r.Stats.States), "states")
			b.ReportMetric(float64(r.Stats.Nodes), "nodes")
			b.ReportMetric(float64(len(r.Flaws)), "flaws")
		})
	}
}

// Coach is coach for the tests from outside.
func Coach(circuits int) Problem { return coach(circuits) }

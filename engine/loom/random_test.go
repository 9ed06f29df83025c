package loom

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// randomLoom makes a loom as a person might lay it out: an ignition switch,
// fuses, switches of two or three positions, relays, joints that share feeds and
// earths, zones and bundles.
func randomLoom(r *rand.Rand) Problem {
	p := Problem{
		Batteries: []Battery{{Name: "battery", CrankingAmps: 300 + 400*r.Float64()}},
		Fuses:     []Fuse{{Name: "main", Amps: 60, Type: Maxi}},
		Joints:    []Joint{{Name: "bus", Kind: Splice}, {Name: "ign", Kind: Splice}, {Name: "E", Kind: Earth, Ohms: 0.0001 + 0.002*r.Float64()}},
		Switches:  []Switch{{Name: "ignition", Positions: []Position{{"off", nil}, {"on", [][]string{{"30", "15"}}}}}},
		Zones:     []Zone{{"bay", 60 + 15*r.Float64()}, {"cab", 35}},
		Bundles:   []Bundle{{Name: "trunk"}, {Name: "rear", Wires: 1 + r.IntN(12)}},
	}
	zones, bundles := []string{"", "bay", "cab"}, []string{"", "trunk", "rear"}
	lay := func(from, to string, metres float64) *Wire {
		w := wire(fmt.Sprintf("w%d", len(p.Wires)), from, to, "", metres)
		w.Zone, w.Bundle = zones[r.IntN(3)], bundles[r.IntN(3)]
		p.Wires = append(p.Wires, w)
		return &p.Wires[len(p.Wires)-1]
	}
	length := func() float64 { return 0.2 + 4*r.Float64() }
	lay("battery:+", "main:1", 0.2).Unfused = "lead to the main fuse"
	lay("main:2", "bus", 1)
	lay("battery:-", "body", 0.5)
	lay("bus", "ignition:30", 1)
	lay("ignition:15", "ign", 1)
	consumer := func(name, from, earth string) {
		c := Consumer{Name: name, Amps: 0.2 + 6*r.Float64(), Use: []Use{Lamp, Headlamp, Other}[r.IntN(3)]}
		if r.IntN(4) == 0 {
			c.Behaviour = Motor
		}
		p.Consumers = append(p.Consumers, c)
		lay(from, name+":+", length())
		lay(name+":-", earth, length()/4)
	}
	for i := range 1 + r.IntN(3) {
		name := fmt.Sprintf("%d", i)
		rating := []float64{10, 15, 20, 30}[r.IntN(4)]
		p.Fuses = append(p.Fuses, Fuse{Name: "F" + name, Amps: rating})
		lay([]string{"bus", "ign"}[r.IntN(2)], "F"+name+":1", 0.3)
		earth := []string{"E", "body"}[r.IntN(2)]
		if r.IntN(2) == 0 {
			p.Joints = append(p.Joints, Joint{Name: "g" + name, Kind: Splice})
			earth = "g" + name
			lay(earth, "E", length()/3)
		}
		feed := "F" + name + ":2"
		for k := range 1 + r.IntN(2) {
			if len(p.Switches) > 4 {
				break
			}
			sw := fmt.Sprintf("s%d%d", i, k)
			positions := []Position{{"off", nil}, {"one", [][]string{{"in", "a"}}}}
			if r.IntN(2) == 0 {
				positions = append(positions, Position{"two", [][]string{{"in", "b"}}})
			}
			p.Switches = append(p.Switches, Switch{Name: sw, Positions: positions})
			lay(feed, sw+":in", length())
			out := sw + ":a"
			if r.IntN(3) == 0 {
				p.Relays = append(p.Relays, Relay{Name: "r" + sw})
				lay(out, "r"+sw+":86", length())
				lay("r"+sw+":85", "body", 0.5)
				lay(feed, "r"+sw+":30", length())
				out = "r" + sw + ":87"
			}
			for n := range 1 + r.IntN(2) {
				consumer(fmt.Sprintf("c%s%d", sw, n), out, earth)
			}
			if len(positions) > 2 {
				consumer("d"+sw, sw+":b", earth)
			}
		}
	}
	return p
}

// TestSolve_RandomLooms: of random looms no wire is accepted that the slow reading
// refuses, to one percent of amps and volts. FETTLE_LOOMS=1000 is the full count.
func TestSolve_RandomLooms(t *testing.T) {
	looms := counted(t, 200)
	r := rand.New(rand.NewPCG(1, 7))
	wires, refused := 0, 0
	for k := range looms {
		p := randomLoom(r)
		got, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatalf("loom %d: %v", k, err)
		}
		s := newSlow(&p, &got)
		carried := s.carried()
		lies := map[string][]int{}
		for i, w := range p.Wires {
			lies[w.Bundle] = append(lies[w.Bundle], i)
		}
		for i, w := range p.Wires {
			one := got.Runs[i]
			if one.Rule == ByNone || len(one.Fails) > 0 {
				continue
			}
			bundle := 0.7
			if w.Bundle != "" {
				load, able := 0.0, 0.0
				for _, j := range lies[w.Bundle] {
					c := s.size(got.Runs[j].Section)
					load, able = load+min(carried[p.Wires[j].ID], c.Amps), able+c.Amps
				}
				bundle = BundleFactor(max(len(lies[w.Bundle]), map[string]int{"trunk": 0, "rear": p.Bundles[1].Wires}[w.Bundle]), load/able)
			}
			wires++
			if why := s.refuses(i, carried, bundle); why != "" {
				refused++
				if refused < 12 {
					t.Errorf("loom %d, %s %s mm² (%s; %.3f A in %s): %s", k, w.ID, one.Section, one.Rule, one.Amps, one.State, why)
				}
			}
		}
	}
	t.Logf("%d wires of %d looms, %d refused", wires, looms, refused)
}

// TestSolve_Refitted: a sound loom, fitted with the sections that were chosen for
// it, is sound, and its wires carry what they carried.
func TestSolve_Refitted(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 7))
	for k := range counted(t, 300) {
		p := randomLoom(r)
		got, err := Solve(context.Background(), p, Options{Every: []int{0, -1}[k%2]})
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Wires {
			p.Wires[i].Section = got.Runs[i].Section
		}
		again, err := Solve(context.Background(), p, Options{Every: []int{0, -1}[k%2]})
		if err != nil {
			t.Fatal(err)
		}
		for i, one := range again.Runs {
			was := got.Runs[i]
			if math.Abs(one.Amps-was.Amps) > 1e-3*was.Amps+1e-9 || len(was.Fails) == 0 && len(one.Fails) > 0 {
				t.Errorf("loom %d, %s %s mm²: %.6f A and %v, was %.6f A", k, one.ID, one.Section, one.Amps, one.Fails, was.Amps)
			}
		}
	}
}

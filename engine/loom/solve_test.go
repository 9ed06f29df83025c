package loom

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fettle/fault"
)

func solved1(t *testing.T, p Problem) Result {
	t.Helper()
	r, err := Solve(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func (r *Result) run(id string) Sized {
	return r.Runs[slices.IndexFunc(r.Runs, func(s Sized) bool { return s.ID == id })]
}

// TestSolve_Refuses: bad input is told with its place.
func TestSolve_Refuses(t *testing.T) {
	for _, tt := range []struct {
		name  string
		spoil func(p *Problem)
		want  string
	}{
		{"dangling part", func(p *Problem) { p.wire("t2").To = to("nowhere", "1") }, `wires[8] t2, to: the end hangs loose: there is no part called "nowhere"`},
		{"dangling terminal", func(p *Problem) { p.wire("h1").To = to("horn relay", "88") }, `wires[18] h1, to: the end hangs loose: horn relay has no terminal "88"`},
		{"no end", func(p *Problem) { p.wire("h1").To = Pin{} }, "wires[18] h1, to: the end hangs loose: it names no terminal"},
		{"no source", func(p *Problem) { p.Batteries = nil }, "batteries: there are wires and no battery: nothing feeds this net"},
		{"no length", func(p *Problem) { p.wire("t2").LengthM = 0 }, "wires[8] t2: length_m is from 0.01 to 1000 m, not 0"},
		{"length of no number", func(p *Problem) { p.wire("t2").LengthM = math.NaN() }, "wires[8] t2: length_m is from 0.01"},
		{"unknown section", func(p *Problem) { p.wire("t2").Section = "1.7" }, `wires[8] t2: no cable has a size called "1.7"`},
		{"id twice", func(p *Problem) { p.wire("t2").ID = "t1" }, `wires[8] t1: wires[7] t1 has the id "t1" too`},
		{"name twice", func(p *Problem) { p.Consumers[1].Name = "tail L" }, `consumers[2]: consumers[1] is called "tail L" too`},
		{"name of another kind", func(p *Problem) { p.Consumers[1].Name = "F1" }, `consumers[2]: fuses[2] is called "F1" too`},
		{"colon in a name", func(p *Problem) { p.Consumers[1].Name = "a:b" }, "consumers[2]: a name has no colon"},
		{"no watts", func(p *Problem) { p.Consumers[1].Watts = 0 }, "consumers[2] tail R: say watts or amps"},
		{"behaviour", func(p *Problem) { p.Consumers[1].Behaviour = "magic" }, `consumers[2] tail R: no consumer behaves as "magic"`},
		{"fuse type", func(p *Problem) { p.Fuses[1].Type = "glass" }, `fuses[2] F1: there is no fuse type called "glass"`},
		{"box", func(p *Problem) { p.Fuses[1].Box = "other" }, `fuses[2] F1: there is no box called "other"`},
		{"zone too hot", func(p *Problem) { p.Zones, p.wire("t2").Zone = []Zone{{"manifold", 140}}, "manifold" }, "wires[8] t2: the air of zone manifold, 140 °C, is more than thin wall bears, 105 °C"},
		{"both ends one", func(p *Problem) { p.wire("t2").To = p.wire("t2").From }, "wires[8] t2: both its ends are lamps:b"},
		{"colour", func(p *Problem) { p.wire("t2").Colour = "X" }, `wires[8] t2: "X" is no colour of a wire`},
		{"nothing to exclude", func(p *Problem) { p.Exclusives = []Exclusive{{[]string{"lamps=on", "pedal=up"}}} }, `exclusives[1]: there is nothing called "pedal=up"`},
		{"volts", func(p *Problem) { p.NominalV = 48 }, "nominal_v: 48 V is not 6, 12 or 24"},
		{"rules", func(p *Problem) { p.Rules = "by eye" }, `rules: there is no rule set called "by eye"`},
		{"cable", func(p *Problem) { p.Cable = "string" }, `cable: there is no cable called "string"`},
		{"own cable", func(p *Problem) {
			p.Own = []Cable{{Name: "x", MaxC: 90, AmbientC: 30, K: 100, Sizes: []Conductor{{Name: "1", MM2: 1}}}}
		}, "own_cables[1] x sizes[1]: a size has a name, amps"},
		{"own curve", func(p *Problem) { p.Types = []Curve{{Name: "x", DropMV: 1, Points: []Open{{2, 3, 1}}}} }, "own_fuse_types[1] points[1]: multiples rise"},
		{"empty position", func(p *Problem) { p.Switches[0].Positions[1].Joins[0] = []string{"a"} }, "switches[1] lamps positions[2]: a position joins two terminals or more"},
	} {
		p := tail()
		tt.spoil(&p)
		_, err := Solve(context.Background(), p, Options{})
		if err == nil || !strings.HasPrefix(err.Error(), tt.want) || fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: %v, want %s", tt.name, err, tt.want)
		}
	}
}

// TestSolve_TooMuch: too many wires, and switches with too many positions
// together, are told rather than worked for ever.
func TestSolve_TooMuch(t *testing.T) {
	p := tail()
	for i := range 10_000 {
		p.Wires = append(p.Wires, wire(fmt.Sprint(i), "bus", "body", "", 1))
	}
	if _, err := Solve(context.Background(), p, Options{}); fault.KindOf(err) != fault.TooLarge {
		t.Errorf("10 000 wires: %v", err)
	}
	p = tail()
	for i := range 10 {
		name := fmt.Sprintf("door %d", i)
		p.Switches = append(p.Switches, Switch{Name: name, Positions: []Position{{"shut", nil}, {"open", [][]string{{"a", "b"}}}}})
		p.Wires = append(p.Wires, wire(name+" in", "F1:2", name+":a", "", 1), wire(name+" out", name+":b", "tails", "", 1))
	}
	_, err := Solve(context.Background(), p, Options{})
	if fault.KindOf(err) != fault.TooLarge || !strings.Contains(err.Error(), "feed the same wires and have more than 512 positions together") {
		t.Errorf("eleven switches on one splice: %v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Solve(ctx, tail(), Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped before it began: %v", err)
	}
}

// TestSolve_Groups: the states are sums over groups, not a product of all
// switches, and the same loom gives the same result.
func TestSolve_Groups(t *testing.T) {
	p := coach(80)
	a, b := solved1(t, p), solved1(t, p)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same loom gave two results")
	}
	if a.Stats.Groups != 21 || a.Stats.States > 4*4*a.Stats.Groups {
		t.Errorf("21 switches are %d groups in %d states", a.Stats.Groups, a.Stats.States)
	}
}

// TestSolve_PositiveEarth: with the battery turned, the same amps flow the other
// way and the same sections follow.
func TestSolve_PositiveEarth(t *testing.T) {
	p, q := tail(), tail()
	q.PositiveEarth = true
	q.wire("b1").From, q.wire("b3").From = to("battery", "-"), to("battery", "+")
	a, b := solved1(t, p), solved1(t, q)
	for i, one := range a.Runs {
		if other := b.Runs[i]; one.Section != other.Section || math.Abs(one.Amps-other.Amps) > 1e-9 || one.Fuse != other.Fuse || one.Return != other.Return {
			t.Errorf("%s: %s mm² %.6f A %s, turned %s mm² %.6f A %s", one.ID, one.Section, one.Amps, one.Fuse, other.Section, other.Amps, other.Fuse)
		}
	}
	if len(b.Flaws) > 0 || !strings.Contains(strings.Join(b.Cautions, " "), "Positive earth") {
		t.Errorf("flaws %v, cautions %v", b.Flaws, b.Cautions)
	}
	for i := range q.Consumers {
		q.Consumers[i].Polarised = true
	}
	if r := solved1(t, q); len(r.Flaws) != 5 || r.Flaws[0].Kind != WrongWay {
		t.Errorf("five polarised consumers with plus to feed in a car with plus at earth: %v", r.Flaws)
	}
}

// TestSolve_Sides: which wires feed, which return, what guards them and what
// limits them.
func TestSolve_Sides(t *testing.T) {
	r := solved1(t, tail())
	for id, want := range map[string]string{"b1": "main false", "b2": "main false", "t1": "F1 false", "s3": "F2 false", "h2": "F3 false", "h6": " true", "eL1": "F1 true", "eR2": "F2 true", "b3": " true"} {
		if one := r.run(id); id != "b1" && fmt.Sprintf("%s %v", one.Fuse, one.Return) != want {
			t.Errorf("%s: fuse %q, return %v, want %s", id, one.Fuse, one.Return, want)
		}
	}
	whole := r.run("t2").DropMaxV + r.run("t3").DropMaxV
	if math.Abs(whole-0.1) > 0.02 || r.run("s2").DropMaxV != 0.5 {
		t.Errorf("tail lamps may lose %.3f V behind the switch, a stop lamp %.3f V", whole, r.run("s2").DropMaxV)
	}
}

// TestSolve_Collapse: a constant power at the end of a thin wire has no working
// point; the closed form says where the edge is.
func TestSolve_Collapse(t *testing.T) {
	chain := func(watts float64) Problem {
		return Problem{
			Batteries: []Battery{{Name: "battery", Volts: 12, Ohms: 0.5}}, Fuses: []Fuse{{Name: "F", Amps: 40, Ohms: 0.25}},
			Consumers: []Consumer{{Name: "set", Behaviour: Power, Watts: watts, Volts: 12}},
			Wires:     []Wire{wire("w", "battery:+", "F:1", "1.0", 1), wire("x", "F:2", "set:+", "1.0", 1), wire("y", "set:-", "battery:-", "1.0", 1), wire("e", "battery:-", "body", "1.0", 1)},
		}
	}
	ohms := 0.75 + 3*0.0195
	edge := 144 / 4 / ohms
	for _, share := range []float64{0.1, 0.5, 0.9, 0.99} {
		r, err := Operate(context.Background(), chain(share*edge), Setup{})
		want := 6 + math.Sqrt(36-share*edge*ohms)
		if err != nil || !r.Holds || math.Abs(r.Consumer[0].Volts-want) > 1e-6 {
			t.Errorf("%g of the edge: %v %v %.6f V, want %.6f", share, err, r.Says, r.Consumer[0].Volts, want)
		}
	}
	for _, share := range []float64{1.01, 1.5, 5} {
		r, err := Operate(context.Background(), chain(share*edge), Setup{})
		if err != nil || r.Holds || !strings.Contains(r.Says, "no working point") {
			t.Errorf("%g of the edge: %v, holds %v, %q", share, err, r.Holds, r.Says)
		}
	}
	r := solved1(t, chain(2*edge))
	if !slices.ContainsFunc(r.Flaws, func(f Flaw) bool { return f.Kind == Collapse && strings.Contains(f.Place, "set") }) {
		t.Errorf("the collapse is not among %v", r.Flaws)
	}
}

// TestSolve_Inrush: what switching on does to a fuse.
func TestSolve_Inrush(t *testing.T) {
	p := tail()
	p.Consumers[4] = Consumer{Name: "horn", Behaviour: Motor, Amps: 4, InrushFactor: 8, InrushSeconds: 0.02}
	p.Fuses[3].Amps = 15
	if r := solved1(t, p); r.Fuses[3].Inrush != "holds" || r.Fuses[2].Inrush != "holds" {
		t.Errorf("F3 %s, F2 %s", r.Fuses[3].Inrush, r.Fuses[2].Inrush)
	}
	p.Consumers[4].InrushSeconds = 8
	r := solved1(t, p)
	if r.Fuses[3].Inrush != "opens" || len(r.Flaws) != 1 || r.Flaws[0].Kind != FuseOpens {
		t.Errorf("a rotor locked for 8 s: %s, %v", r.Fuses[3].Inrush, r.Flaws)
	}
	p.Consumers[4].InrushSeconds = 0.2
	if r := solved1(t, p); r.Fuses[3].Inrush != "may open" || len(r.Flaws) != 0 {
		t.Errorf("for 0.2 s: %s, %v", r.Fuses[3].Inrush, r.Flaws)
	}
}

// TestSolve_LED: an LED lights one way round only. With its ends exchanged, or in
// a car with plus at earth wired as for minus, it stays dark and is told; behind
// an open earth it lets nothing back that a bulb would.
func TestSolve_LED(t *testing.T) {
	lit := func(p Problem, lamp, set string) float64 {
		t.Helper()
		r, err := Operate(context.Background(), p, Setup{Switches: set, Sections: sections(t, p)})
		if err != nil || !r.Holds {
			t.Fatal(err, r.Says)
		}
		for _, c := range r.Consumer {
			if c.Name == lamp {
				return c.Amps
			}
		}
		return math.NaN()
	}
	wrong := func(p Problem) (list []string) {
		for _, f := range solved1(t, p).Flaws {
			list = append(list, string(f.Kind)+" "+f.Place)
		}
		return list
	}
	p := tail()
	p.Consumers[0].Behaviour, p.Consumers[0].Watts = LED, 1
	near(t, "LED", lit(p, "tail L", "lamps=on"), 1/13.5/13.5*12.6, 0.03)
	if list := wrong(p); list != nil {
		t.Errorf("the right way round: %q", list)
	}
	p.wire("t3").To, p.wire("eL1").From = to("tail L", "-"), to("tail L", "+")
	if amps := lit(p, "tail L", "lamps=on"); amps != 0 {
		t.Errorf("turned, it takes %g A", amps)
	}
	if list := wrong(p); !slices.Equal(list, []string{"wrong way round consumer tail L"}) {
		t.Errorf("turned: %q", list)
	}

	q := tail() // plus at earth, and a loom laid as for minus
	q.Consumers[0].Behaviour, q.Consumers[0].Watts, q.PositiveEarth = LED, 1, true
	q.wire("b1").From, q.wire("b3").From = to("battery", "-"), to("battery", "+")
	if amps, list := lit(q, "tail L", "lamps=on"), wrong(q); amps != 0 || !slices.Equal(list, []string{"wrong way round consumer tail L"}) {
		t.Errorf("plus at earth: %g A, %q", amps, list)
	}

	p = tail() // the earth that tail and stop lamp share is open: the stop lamp's current goes back through the tail lamp
	p.Joints[2].Open = true
	bulb := lit(p, "tail L", "pedal=on")
	p.Consumers[0].Behaviour, p.Consumers[0].Watts = LED, 1
	if led := lit(p, "tail L", "pedal=on"); !(bulb < -0.1) || led != 0 {
		t.Errorf("back through the bulb %g A, through the LED %g A", bulb, led)
	}
	if !slices.ContainsFunc(solved1(t, p).Cautions, func(c string) bool { return strings.Contains(c, "thermal flasher") }) {
		t.Error("nothing is said of flashers")
	}
}

// sections solves a loom and returns the section of every wire.
func sections(t *testing.T, p Problem) map[string]string {
	t.Helper()
	list := map[string]string{}
	for _, one := range solved1(t, p).Runs {
		list[one.ID] = one.Section
	}
	return list
}

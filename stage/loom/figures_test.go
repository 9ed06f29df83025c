package loom_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// pair is the bench's loom with a second lamp beside the first, both led over
// one stretch of two metres.
func pair() *build.Build {
	b := bench()
	b.Loom.Settings.Sleeve, b.Loom.Settings.Wall, b.Loom.Settings.Loop = "braid", mm, 75*mm
	b.Loom.Waypoints = []build.Waypoint{{ID: "A", Name: "box"}, {ID: "B", Name: "lamp", At: [3]unit.Length{2 * unit.Metre}}}
	b.Loom.Stretches = []build.Stretch{{ID: "1", From: "A", To: "B"}}
	b.Loom.Supplies = supplies()
	b.Loom.Supplies[0].Reel = 3 * unit.Metre
	b.Circuits[0].Ends = []build.WaypointID{"A", "B"}
	second := b.Circuits[0]
	second.ID, second.Load, second.FuseA = "C2", 1, 5
	b.Circuits = append(b.Circuits, second)
	return b
}

// TestNeeds_ByHand: two wires over one stretch of 2 m. Each is cut 2000 mm + 4 %
// + two loops of 75 mm + two ends stripped by 6 mm, up to 5 mm: 2245 mm; cable
// and sleeve with 5 % to spare, cable on reels of 3 m. Two wires of 1.7 mm are
// 3.4 mm thick.
func TestNeeds_ByHand(t *testing.T) {
	s := work(t, pair())
	var got []string
	for _, n := range s.Needs {
		got = append(got, fmt.Sprintf("%s, %s: %.4g %s, buy %d", n.Kind, n.Name, n.Amount, n.Unit, n.Buy))
	}
	want := []string{"cable, 0.5 mm² red/black: 4.715 m, buy 2", "terminals, crimped ends: 4 , buy 4", "fuses, blade 5 A: 1 , buy 1", "battery, 60 Ah: 1 , buy 1", "heat-shrink, over labels: 0.16 m, buy 1", "sleeve, braid, 4 mm: 2.1 m, buy 3"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	for _, c := range s.Cuts {
		if c.StatedMM != 2000 || c.CutMM != 2245 || c.Outside != 1.7 {
			t.Errorf("%+v", c)
		}
	}
	if n := len(s.Needs); s.Needs[n-1].Working.With != "1 2.00 = 2.0 m × 1.05" {
		t.Errorf("sleeve: %s", s.Needs[n-1].Working.With)
	}
}

// TestNeeds_Counted: what is alike is counted as one, of each kind by itself;
// colours that no code reads are of any colour.
func TestNeeds_Counted(t *testing.T) {
	b := bench()
	b.Circuits[0].Colour = "puce"
	b.Loom.Relays = []build.Relay{{Name: "horn"}, {Name: "dip", Break: true}, {Name: "fan"}}
	b.Loom.Connectors = []build.Connector{{Name: "X1", Cavities: 2}, {Name: "X2", Family: "round", Cavities: 2}, {Name: "X3", Family: "round", Cavities: 2}}
	b.Loom.Switches = []build.Switch{{Name: "isolator", Positions: []build.SwitchPosition{{Name: "off"}}}}
	got := map[string]float64{}
	for _, n := range work(t, b).Needs {
		got[n.Kind+", "+n.Name] = n.Amount
	}
	for name, want := range map[string]float64{"relays, make": 2, "relays, change-over": 1, "connectors, 2 way": 1, "connectors, round, 2 way": 2, "isolator, battery isolator": 1, "cable, 0.5 mm² of any colour": 2.1} {
		if math.Abs(got[name]-want) > 1e-9 {
			t.Errorf("%s: %g, want %g of %v", name, got[name], want, got)
		}
	}
}

// TestAgain_ByRoute: a load typed anew is answered as the whole would be, also
// where sections follow the route.
func TestAgain_ByRoute(t *testing.T) {
	b := pair()
	b.Loom.Settings.ByRoute = true
	b.Loom.Stretches[0].Length = 9 * unit.Metre
	led := work(t, b)
	b.Circuits[0].Load, b.Circuits[0].FuseA = 6, 10
	anew, err := stage.Again(context.Background(), b, led)
	if err != nil {
		t.Fatal(err)
	}
	whole := work(t, b)
	if a, w := anew.Rows[0], whole.Rows[0]; a.Section != w.Section || a.DropV != w.DropV || a.RoutedMM != 9000 || a.Section == led.Rows[0].Section {
		t.Errorf("again %s mm² %.3f V, whole %s mm² %.3f V, before %s mm²", a.Section, a.DropV, w.Section, w.DropV, led.Rows[0].Section)
	}
}

// TestProblemOf_Loads: a circuit is on at night where one of its lamps is, and
// as long as the one that is on longest; what is never on together is asked for
// where at least two of it are worked out, circuits and consumers alike.
func TestProblemOf_Loads(t *testing.T) {
	b := net()
	b.Circuits = append(b.Circuits, b.Circuits[0])
	b.Circuits[1].ID = "C2"
	b.Loom.Consumers = append(b.Loom.Consumers, build.Consumer{Name: "near", Circuits: []string{"C2"}, Watts: 5, Share: 0.5, Night: true}, build.Consumer{Name: "far", Circuits: []string{"C2"}, Watts: 5, Share: 0.2})
	b.Loom.Exclusives = []build.Exclusive{{ID: "X1", Never: []string{"C2", "lamp"}}, {ID: "X2", Never: []string{"C1", "C2"}}}
	p := stage.ProblemOf(b)
	if len(p.Circuits) != 1 || !p.Circuits[0].Night || p.Circuits[0].Share != 0.5 {
		t.Errorf("circuits %+v", p.Circuits)
	}
	if len(p.Exclusives) != 1 || !slices.Equal(p.Exclusives[0].Never, []string{"C2", "lamp"}) {
		t.Errorf("never together %+v", p.Exclusives)
	}
}

// TestChecks_SixAreNamed: six of a list are named, of seven the last is counted.
func TestChecks_SixAreNamed(t *testing.T) {
	b := bench()
	b.Circuits[0].Colour = "puce"
	for n := 2; n <= 6; n++ {
		c := b.Circuits[0]
		c.ID, c.Load = fmt.Sprintf("C%d", n), 0.1
		b.Circuits = append(b.Circuits, c)
	}
	if says := checksOf(b)["loom/colours"].Says; !strings.HasSuffix(says, "C5 puce, C6 puce") {
		t.Errorf("six: %s", says)
	}
	c := b.Circuits[1]
	c.ID = "C7"
	b.Circuits = append(b.Circuits, c)
	if says := checksOf(b)["loom/colours"].Says; !strings.HasSuffix(says, "C6 puce and 1 more") {
		t.Errorf("seven: %s", says)
	}
}

// TestFirstPower_Off: what is drawn with everything off is the battery's own.
func TestFirstPower_Off(t *testing.T) {
	b := bench()
	b.Loom.Batteries[0].Drain = 8
	if s := work(t, b).FirstPower[0]; s.Working.Text != "8 mA" || s.Working.With != "8 mA" || s.LampA != 0.008 || s.Volts != 12.6 {
		t.Errorf("%+v", s)
	}
	b.Loom.Settings.Volts = 6
	if s := work(t, b).FirstPower[0]; s.Volts != 6.3 {
		t.Errorf("a 6 V battery at rest: %g V", s.Volts)
	}
}

// TestRows_OfANet: a wire of the net stands with its own length.
func TestRows_OfANet(t *testing.T) {
	for _, r := range work(t, net()).Rows {
		if r.StatedMM != 1000 || r.RoutedMM != 0 || r.Circuit != nil {
			t.Errorf("%s: %.0f mm listed, %.0f mm led", r.ID, r.StatedMM, r.RoutedMM)
		}
	}
}

// TestLabel_Terminals: a label names the terminal of a switch and the cavity of
// a connector that have the circuit, and of no other.
func TestLabel_Terminals(t *testing.T) {
	b := bench()
	b.Circuits[0].From, b.Circuits[0].To = "switch", "plug"
	on := func(terminal string) []build.Contact {
		return []build.Contact{{Terminal: "9", Circuits: []string{"C9"}}, {Terminal: terminal, Circuits: []string{"C1"}}}
	}
	b.Loom.Switches = []build.Switch{{Name: "dip", Contacts: on("56")}, {Name: "switch", Contacts: on("58")}}
	b.Loom.Connectors = []build.Connector{{Name: "other", Cavities: 9, Contacts: on("3")}, {Name: "plug", Cavities: 9, Contacts: on("2")}}
	if got := work(t, b).Cuts[0].Label; got != "C1 · switch:58 → plug:2 · R/B · 0.5 mm²" {
		t.Errorf("label %q", got)
	}
}

package loom

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Two nets of fixed resistances, the same as two decks that an outside simulator
// has worked.

// ohms is a resistor as a consumer: volts and amps that give its ohms.
func ohms(name string, ohms float64) Consumer {
	return Consumer{Name: name, Volts: 0.1, Amps: 0.1 / ohms}
}

func wire(id, from, to, section string, length float64) Wire {
	w := Wire{Run: Run{ID: id, LengthM: length, Section: section}}
	if w.From.UnmarshalText([]byte(from)) != nil || w.To.UnmarshalText([]byte(to)) != nil {
		panic(id)
	}
	return w
}

// oracleCable holds the milliohms of the decks.
func oracleCable() []Cable {
	return []Cable{{Name: "deck", MaxC: 105, AmbientC: 30, K: 87.6, Sizes: []Conductor{{"d0.5", 0.5, 39, 11, 0, 0}, {"d1.5", 1.5, 13.3, 21, 0, 0}, {"d2.5", 2.5, 7.98, 29, 0, 0}, {"d6", 6, 3.30, 50, 0, 0}}}}
}

// lead is a metre of 3.3 mΩ. Where a deck has no wire, a lead stands, and the
// part beside it has so much less.
const lead = 0.0033

func oracleHeadlamp(lamp float64) Problem {
	return Problem{
		Own: oracleCable(), Cable: "deck",
		Batteries: []Battery{{Name: "battery", Volts: 12.6, Ohms: 0.010 - lead}},
		Fuses:     []Fuse{{Name: "F", Amps: 10, Ohms: 0.0077 - lead}},
		Switches:  []Switch{{Name: "relay", Ohms: 0.020, Positions: []Position{{"on", [][]string{{"30", "87"}}}}}},
		Consumers: []Consumer{ohms("lamp", lamp)},
		Joints:    []Joint{{Name: "e", Kind: Earth, Ohms: 0.005}},
		Wires: []Wire{
			wire("w0", "battery:+", "F:1", "d6", 1), wire("w1", "F:2", "relay:30", "d2.5", 3), wire("w2", "relay:87", "lamp:+", "d1.5", 1.5),
			wire("w3", "lamp:-", "e:1", "d2.5", 0.6), wire("w4", "battery:-", "body", "d6", 1),
		},
	}
}

func oracleTree() Problem {
	return Problem{
		Own: oracleCable(), Cable: "deck",
		Batteries: []Battery{{Name: "battery", Volts: 14.2, Ohms: 0.010 - lead}},
		Fuses:     []Fuse{{Name: "FH", Amps: 15, Ohms: 0.0048 - lead}, {Name: "FW", Amps: 10, Ohms: 0.0077 - lead}, {Name: "FT", Amps: 5, Ohms: 0.01785 - lead}},
		Joints:    []Joint{{Name: "box", Kind: Splice}, {Name: "e2", Kind: Splice}, {Name: "e3", Kind: Earth, Ohms: 0.004}},
		Consumers: []Consumer{ohms("H", 13.2*13.2/110), ohms("W", 13.5/4-lead), ohms("T", 13.5*13.5/20-lead)},
		Wires: []Wire{
			wire("main", "battery:+", "box", "d6", 1.8), wire("b", "battery:-", "body", "d6", 1),
			wire("h0", "box", "FH:1", "d6", 1), wire("w0", "box", "FW:1", "d6", 1), wire("t0", "box", "FT:1", "d6", 1),
			wire("h", "FH:2", "H:+", "d2.5", 2.2), wire("w", "FW:2", "W:+", "d1.5", 2.8), wire("t", "FT:2", "T:+", "d0.5", 4.5),
			wire("g1", "H:-", "body", "d2.5", 0.8), wire("w1", "W:-", "e2", "d6", 1), wire("t1", "T:-", "e2", "d6", 1), wire("g2", "e2", "e3", "d1.5", 1.1),
		},
	}
}

// told is a quantity of a deck: what prints it, what the engine says, what the
// simulator printed.
type told struct {
	deck, prints string
	got, want    float64
}

// decks works the decks and lists what they print.
func decks(t *testing.T) []told {
	t.Helper()
	run := func(p Problem) Reading {
		r, err := Operate(context.Background(), p, Setup{})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	shorted := oracleHeadlamp(2e-5) // the deck has 1 µΩ, less than a consumer may have: the fuse gives the rest
	shorted.Fuses[0].Ohms -= 2e-5 - 1e-6
	lamp, short, tree := run(oracleHeadlamp(13.2*13.2/55)), run(shorted), run(oracleTree())
	const head, short1, three = "oracle_headlamp", "oracle_headlamp shorted", "oracle_tree"
	return []told{
		{head, "i(vbat)", -lamp.Battery, -3.86577}, {head, "v(n2)-v(n5)", lamp.Volts["F:2"] - lamp.Volts["lamp:+"], 2.469839e-01},
		{head, "v(n5)-v(n6)", lamp.Volts["lamp:+"] - lamp.Volts["lamp:-"], 12.24675}, {head, "v(n6)", lamp.Volts["lamp:-"], 3.783814e-02},
		{short1, "i(vbat)", -short.Battery, -137.887},
		{three, "i(vbat)", -tree.Battery, -14.2106}, {three, "v(c)", tree.Volts["box"], 13.97348}, {three, "v(h2)-v(g)", tree.Volts["H:+"] - tree.Volts["H:-"], 13.72447},
		{three, "v(w2)-v(e2)", tree.Volts["W:+"] - tree.Volts["e2"], 13.68790}, {three, "v(t2)-v(e2)", tree.Volts["T:+"] - tree.Volts["e2"], 13.58197},
		{three, "v(e2)", tree.Volts["e2"], 0.1033248}, {three, "v(g)", tree.Volts["H:-"], 0.05531376},
	}
}

// TestOperate_Decks holds the net to what an outside simulator printed, to the
// figures that it printed.
func TestOperate_Decks(t *testing.T) {
	for _, one := range decks(t) {
		if math.Abs(one.got/one.want-1) > 4e-6 {
			t.Errorf("%s, %s: %.7g, want %.7g", one.deck, one.prints, one.got, one.want)
		}
	}
}

// TestOperate_GivenDecks runs the decks themselves with all digits, and holds
// the net to 1e-6 of each quantity.
func TestOperate_GivenDecks(t *testing.T) {
	list := decks(t)
	var names, texts []string
	for _, one := range list {
		if !slices.Contains(names, one.deck) {
			text, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "data", "wiring", strings.TrimSuffix(one.deck, " shorted")+".cir"))
			if err != nil {
				t.Skip("the given decks are not here: ", err)
			}
			net, _, _ := strings.Cut(string(text), ".control")
			if strings.HasSuffix(one.deck, "shorted") {
				net = strings.Replace(net, "Rlamp n5 n6 {13.2*13.2/55}", "Rlamp n5 n6 1u", 1)
			}
			names, texts = append(names, one.deck), append(texts, net+deckControl)
		}
		texts[len(texts)-1] += "print " + one.prints + "\n"
	}
	printed, apart := simulate(t, texts), 0.0
	for _, one := range list {
		want := printed[slices.Index(names, one.deck)][one.prints]
		if apart = max(apart, math.Abs(one.got/want-1)); !(apart <= 1e-6) {
			t.Errorf("%s, %s: %.15g, the simulator says %.15g", one.deck, one.prints, one.got, want)
		}
	}
	t.Logf("%d quantities, at most %.2g apart", len(list), apart)
}

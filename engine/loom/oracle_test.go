package loom

import (
	"context"
	"math"
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

// TestOperate_Decks holds the net to what an outside simulator printed, to the
// figures that it printed.
func TestOperate_Decks(t *testing.T) {
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
	for _, one := range []struct {
		name      string
		got, want float64
	}{
		{"lamp, amps", lamp.Battery, 3.86577}, {"lamp, lost from fuse to lamp", lamp.Volts["F:2"] - lamp.Volts["lamp:+"], 2.469839e-01},
		{"lamp, volts", lamp.Volts["lamp:+"] - lamp.Volts["lamp:-"], 12.24675}, {"lamp, earth", lamp.Volts["lamp:-"], 3.783814e-02},
		{"shorted, amps", short.Battery, 137.887},
		{"tree, amps", tree.Battery, 14.2106}, {"tree, box", tree.Volts["box"], 13.97348}, {"tree, H", tree.Volts["H:+"] - tree.Volts["H:-"], 13.72447},
		{"tree, W", tree.Volts["W:+"] - tree.Volts["e2"], 13.68790}, {"tree, T", tree.Volts["T:+"] - tree.Volts["e2"], 13.58197},
		{"tree, e2", tree.Volts["e2"], 0.1033248}, {"tree, g", tree.Volts["H:-"], 0.05531376},
	} {
		if math.Abs(one.got/one.want-1) > 4e-6 {
			t.Errorf("%s: %.7g, want %.7g", one.name, one.got, one.want)
		}
	}
}

package loom

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// simulate runs decks through an outside simulator, many in one process, and
// returns what each printed.
func simulate(t *testing.T, decks []string) []map[string]float64 {
	t.Helper()
	program, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not here (Debian package ngspice): the net is not held against it")
	}
	dir := t.TempDir()
	var control strings.Builder
	control.WriteString("* batch\nRx 1 0 1\n.control\nset numdgt=17\nset width=200\n")
	for i, deck := range decks {
		name := filepath.Join(dir, fmt.Sprintf("d%d.cir", i))
		net, prints, _ := strings.Cut(deck, deckControl)
		prints, _, _ = strings.Cut(prints, ".endc")
		if err := os.WriteFile(name, []byte(net+".end\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&control, "source %s\nop\necho DECK %d\n%sdestroy all\nremcirc\n", name, i, prints)
	}
	control.WriteString("quit\n.endc\n.end\n")
	main := filepath.Join(dir, "main.cir")
	if err := os.WriteFile(main, []byte(control.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(program, "-b", main).Output()
	if err != nil && !bytes.Contains(out, []byte("DECK 0")) {
		t.Fatalf("%v\n%s", err, out)
	}
	list := make([]map[string]float64, len(decks))
	at := -1
	line := regexp.MustCompile(`^(\S+) = (\S+)`)
	for row := range strings.Lines(string(out)) {
		if _, err := fmt.Sscanf(row, "DECK %d", &at); err == nil {
			list[at] = map[string]float64{}
		} else if m := line.FindStringSubmatch(row); m != nil && at >= 0 {
			if v, err := strconv.ParseFloat(m[2], 64); err == nil {
				list[at][m[1]] = v
			}
		}
	}
	return list
}

// zero is below what volts and amps count as none: what rounding leaves of 12 V
// across the stoutest wire is 1e-12 A.
const zero = 1e-9

// worst is the largest difference that agree has seen, relative to what it is of.
type worst struct {
	apart float64
	what  string
	count int
}

// agree compares the volts of every node and the amps of every branch with what
// the simulator printed, each relative to its own size.
func (w *worst) agree(t *testing.T, name string, p Problem, u Setup, got map[string]float64, within float64) {
	t.Helper()
	n, o, at, err := prepare(&p, u)
	if err != nil {
		t.Fatal(err)
	}
	done, err := o.operate(at, u.Engine)
	if err != nil || !done.holds {
		t.Fatalf("%s: %v %s", name, err, done.says)
	}
	if got == nil {
		t.Fatalf("%s: the simulator printed nothing", name)
	}
	compare := func(what, vector string, v float64) {
		want, ok := got[vector]
		if !ok {
			t.Fatalf("%s: the simulator does not print %s, %s", name, vector, what)
		}
		w.count++
		if math.Abs(v) < zero && math.Abs(want) < zero {
			return
		}
		apart := math.Abs(v-want) / math.Abs(want)
		if !(apart <= within) {
			t.Fatalf("%s: %s is %.15g, the simulator says %.15g", name, what, v, want)
		}
		if apart > w.apart {
			w.apart, w.what = apart, fmt.Sprintf("%s of %s (%.3g)", what, name, want)
		}
	}
	for i, v := range done.volts {
		if node := n.spiceNode(int32(i)); node != "0" && len(n.touching[i]) > 0 {
			compare("the volts of "+n.names[i], node, v)
		}
	}
	for i, meter := range n.deck(io.Discard, o, &done, at) {
		if meter != "" {
			compare(fmt.Sprintf("the amps of branch %d, %s to %s", i, n.names[n.branches[i].a], n.names[n.branches[i].b]), meter, done.amps[i])
		}
	}
}

func deckOf(t *testing.T, p Problem, u Setup) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteDeck(&b, p, u); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// settings lists every product of positions.
func settings(p Problem) []string {
	list := []string{""}
	for _, s := range p.Switches {
		var next []string
		for _, before := range list {
			for _, q := range s.Positions {
				next = append(next, strings.TrimPrefix(before+","+s.Name+"="+q.Name, ","))
			}
		}
		list = next
	}
	return list
}

// randomNet makes a net of resistances: feeds and earths branch, share and
// bridge; a few switches stand anywhere.
func randomNet(r *rand.Rand) Problem {
	p := Problem{Batteries: []Battery{{Name: "battery", Volts: 10 + 5*r.Float64(), Ohms: 0.005 + 0.02*r.Float64()}}}
	sections := []string{"0.5", "1.0", "1.5", "2.5", "6.0"}
	pins := []string{"battery:+"}
	earths := []string{"body"}
	lay := func(from, to string) {
		p.Wires = append(p.Wires, wire(fmt.Sprintf("w%d", len(p.Wires)), from, to, sections[r.IntN(len(sections))], 0.2+5*r.Float64()))
	}
	pick := func(list []string) string { return list[r.IntN(len(list))] }
	lay("battery:-", "body")
	for i := range 2 + r.IntN(12) {
		switch name := fmt.Sprintf("p%d", i); r.IntN(5) {
		case 0:
			p.Fuses = append(p.Fuses, Fuse{Name: name, Amps: 20})
			lay(pick(pins), name+":1")
			pins = append(pins, name+":2")
		case 1:
			if len(p.Switches) < 4 {
				p.Switches = append(p.Switches, Switch{Name: name, Positions: []Position{{"off", nil}, {"on", [][]string{{"a", "b"}}}}})
				lay(pick(pins), name+":a")
				pins = append(pins, name+":b")
			}
		case 2:
			p.Joints = append(p.Joints, Joint{Name: name, Kind: Earth, Ohms: 0.001 + 0.1*r.Float64()})
			earths = append(earths, name)
		default:
			p.Consumers = append(p.Consumers, Consumer{Name: name, Watts: 1 + 80*r.Float64(), Volts: 12})
			lay(pick(pins), name+":+")
			lay(name+":-", pick(earths))
			if r.IntN(4) == 0 {
				lay(name+":-", pick(pins)) // a bridge that no one asked for
			}
		}
	}
	return p
}

// TestOperate_RandomNets holds 200 nets of resistances, in every position of
// their switches, against the simulator.
func TestOperate_RandomNets(t *testing.T) {
	if testing.Short() {
		t.Skip("seconds")
	}
	r := rand.New(rand.NewPCG(7, 1))
	var decks, names []string
	var nets []Problem
	for range 200 {
		p := randomNet(r)
		for _, s := range settings(p) {
			decks, names, nets = append(decks, deckOf(t, p, Setup{Switches: s})), append(names, s), append(nets, p)
		}
	}
	const batch = 400
	var w worst
	for from := 0; from < len(decks); from += batch {
		to := min(from+batch, len(decks))
		for k, got := range simulate(t, decks[from:to]) {
			w.agree(t, names[from+k], nets[from+k], Setup{Switches: names[from+k]}, got, 1e-6)
		}
	}
	t.Logf("%d states of 200 nets, %d volts and amps, at most %.2g apart: %s", len(decks), w.count, w.apart, w.what)
}

// TestOperate_Behaviours: filaments, constant power, motors, a relay and an
// alternator agree with the simulator too.
func TestOperate_Behaviours(t *testing.T) {
	p := behaving()
	setups := []Setup{{Switches: "lamps=on"}, {Switches: "lamps=on,radio=on,fan=on,horn=on"}, {Switches: "radio=on,fan=on", Engine: EngineRunning}, {Switches: "lamps=on,horn=on", Engine: EngineIdle}}
	decks := make([]string, len(setups))
	for i, u := range setups {
		decks[i] = deckOf(t, p, u)
	}
	var w worst
	for i, got := range simulate(t, decks) {
		w.agree(t, setups[i].Switches, p, setups[i], got, 1e-6)
	}
	t.Logf("%d volts and amps, at most %.2g apart: %s", w.count, w.apart, w.what)
}

// TestOperate_OutsideDecks: the two nets of the decks, with the lamp lit and
// shorted, to 1e-6 of every volt and amp.
func TestOperate_OutsideDecks(t *testing.T) {
	nets := []Problem{oracleHeadlamp(13.2 * 13.2 / 55), oracleHeadlamp(2e-5), oracleTree()}
	decks := make([]string, len(nets))
	for i, p := range nets {
		decks[i] = deckOf(t, p, Setup{})
	}
	var w worst
	for i, got := range simulate(t, decks) {
		w.agree(t, fmt.Sprint("deck ", i), nets[i], Setup{}, got, 1e-6)
	}
	t.Logf("%d volts and amps, at most %.2g apart: %s", w.count, w.apart, w.what)
}

// behaving has one of each.
func behaving() Problem {
	on := []Position{{"off", nil}, {"on", [][]string{{"a", "b"}}}}
	return Problem{
		Batteries:   []Battery{{Name: "battery"}},
		Alternators: []Alternator{{Name: "alternator", RatedAmps: 40, IdleAmps: 12}},
		Fuses:       []Fuse{{Name: "F1", Amps: 15}, {Name: "F2", Amps: 10}},
		Relays:      []Relay{{Name: "horn relay"}},
		Switches:    []Switch{{Name: "lamps", Positions: on}, {Name: "radio", Positions: on}, {Name: "fan", Positions: on}, {Name: "horn", Positions: on, Short: true}},
		Joints:      []Joint{{Name: "box", Kind: Splice}, {Name: "g", Kind: Earth, Ohms: 0.01}},
		Consumers: []Consumer{
			{Name: "head", Behaviour: Filament, Watts: 110}, {Name: "set", Behaviour: Power, Watts: 40}, {Name: "blower", Behaviour: Motor, Amps: 8}, {Name: "horns", Amps: 8, Short: true},
		},
		Wires: []Wire{
			wire("main", "battery:+", "box", "6.0", 1.3), wire("strap", "battery:-", "body", "25", 0.5), wire("charge", "alternator:B+", "box", "10", 2), wire("case", "alternator:B-", "body", "25", 0.3),
			wire("f1", "box", "F1:1", "4.0", 0.2), wire("f2", "box", "F2:1", "4.0", 0.2),
			wire("l1", "F1:2", "lamps:a", "1.5", 2), wire("l2", "lamps:b", "head:+", "1.5", 2), wire("l3", "head:-", "g", "1.5", 1),
			wire("r1", "F2:2", "radio:a", "0.5", 1), wire("r2", "radio:b", "set:+", "0.5", 1), wire("r3", "set:-", "g", "0.5", 1),
			wire("b1", "F2:2", "fan:a", "1.0", 1), wire("b2", "fan:b", "blower:+", "1.0", 1), wire("b3", "blower:-", "g", "1.0", 1),
			wire("h1", "F1:2", "horn relay:30", "1.5", 2), wire("h2", "horn relay:87", "horns:+", "1.5", 2), wire("h3", "horns:-", "body", "1.5", 1),
			wire("c1", "F1:2", "horn relay:86", "0.5", 2), wire("c2", "horn relay:85", "horn:a", "0.5", 1), wire("c3", "horn:b", "body", "0.5", 1),
		},
	}
}

// TestOperate_Amps: the working point obeys what the parts say of themselves.
func TestOperate_Amps(t *testing.T) {
	r, err := Operate(context.Background(), behaving(), Setup{Switches: "lamps=on,radio=on,fan=on,horn=on"})
	if err != nil || !r.Holds {
		t.Fatal(err, r.Says)
	}
	sum := 0.0
	for _, c := range r.Consumer {
		want := map[string]float64{"head": 110 / 13.5 * math.Pow(c.Volts/13.5, 0.55), "set": 40 / c.Volts, "blower": 8, "horns": 8 * c.Volts / 13.5}[c.Name]
		if math.Abs(c.Amps-want) > 1e-7 {
			t.Errorf("%s takes %.9f A at %.9f V, want %.9f", c.Name, c.Amps, c.Volts, want)
		}
		sum += c.Amps
	}
	coil := (r.Volts["horn relay:86"] - r.Volts["horn relay:85"]) / 85
	if math.Abs(r.Battery-sum-coil) > 1e-8 {
		t.Errorf("the battery gives %.9f A, %.9f A arrive", r.Battery, sum+coil)
	}
}

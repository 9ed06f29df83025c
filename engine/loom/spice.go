package loom

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// WriteDeck writes one state of a net as a SPICE deck for outside checking: the
// same nodes and ohms, relays and alternators as the state leaves them, filaments
// and constant powers as current sources of a formula. It prints the volts of
// every node and the amps of every branch.
func WriteDeck(w io.Writer, p Problem, u Setup) error {
	n, o, at, err := prepare(&p, u)
	if err != nil {
		return err
	}
	done, err := o.operate(at, u.Engine)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	meters := n.deck(out, o, &done, at)
	fmt.Fprint(out, deckControl, "print all\n")
	for _, m := range meters {
		if m != "" {
			fmt.Fprintf(out, "print %s\n", m)
		}
	}
	fmt.Fprint(out, ".endc\n.end\n")
	return out.Flush()
}

// deckControl begins what a simulator does with a deck.
const deckControl = ".control\nset numdgt=17\nop\n"

// deck writes title, nodes and elements of a state that has been solved. It
// returns what a simulator prints the amps of each branch by, from its first end
// to its second; nothing where none flow.
func (n *net) deck(out io.Writer, o *operator, done *solved, at setting) []string {
	fmt.Fprintf(out, "* %s: %s\n", oneLine(n.p.Name), n.name(at))
	for i, name := range n.names {
		fmt.Fprintf(out, "* %s is %s\n", n.spiceNode(int32(i)), oneLine(name))
	}
	fmt.Fprintf(out, ".options reltol=1e-9 abstol=1e-15 vntol=1e-12 gmin=1e-18\n")
	meters := make([]string, len(n.branches))
	for i := range n.branches {
		meters[i] = n.element(out, o, i, done)
	}
	if slices.ContainsFunc(n.p.Consumers, func(c Consumer) bool { return c.Behaviour == Power }) {
		for i, v := range done.volts { // a constant power has a low working point too: where to begin
			if node := n.spiceNode(int32(i)); node != "0" {
				fmt.Fprintf(out, ".nodeset v(%s)=%.6g\n", node, v)
			}
		}
	}
	for k, i := range o.held {
		if i != n.body {
			fmt.Fprintf(out, "Rheld%d %s 0 1\n", k, n.spiceNode(i))
		}
	}
	return meters
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func (n *net) spiceNode(i int32) string {
	if i == n.body {
		return "0"
	}
	return fmt.Sprintf("n%d", i)
}

// element writes one branch and returns what its amps are printed by.
func (n *net) element(out io.Writer, o *operator, i int, done *solved) string {
	e := &n.branches[i]
	a, b := n.spiceNode(e.a), n.spiceNode(e.b)
	if a == b {
		return ""
	}
	source := func(volts float64) string {
		fmt.Fprintf(out, "V%d m%d %s DC %.17g\nR%d %s m%d %.17g\n", i, i, b, volts, i, a, i, e.ohms)
		return fmt.Sprintf("i(v%d)", i)
	}
	switch e.kind {
	case batteryBranch:
		return source(o.cells[e.of])
	case alternatorBranch:
		x := n.p.Alternators[e.of]
		switch o.charge[e.of] {
		case holding:
			return source(n.p.alternatorVolts(x))
		case limited:
			return constant(out, i, b, a, x.most(o.engine))
		}
	case loadBranch:
		return n.load(out, o, i, a, b, done)
	default:
		if g := o.siemens[i]; g > 0 {
			return written(out, i, a, b, g)
		}
	}
	return ""
}

// written writes a conductance, constant a current out of one node into another.
func written(out io.Writer, i int, a, b string, siemens float64) string {
	fmt.Fprintf(out, "R%d %s %s %.17g\n", i, a, b, 1/siemens)
	return fmt.Sprintf("@r%d[i]", i)
}

func constant(out io.Writer, i int, a, b string, amps float64) string {
	fmt.Fprintf(out, "I%d %s %s DC %.17g\n", i, a, b, amps)
	return ""
}

// load writes a consumer by its behaviour.
func (n *net) load(out io.Writer, o *operator, i int, a, b string, done *solved) string {
	e := &n.branches[i]
	l := &o.loads[e.of]
	u := done.volts[e.a] - done.volts[e.b]
	v := fmt.Sprintf("v(%s,%s)", a, b)
	formula := func(text string, args ...any) string {
		fmt.Fprintf(out, "B%d %s %s I=%s\n", i, a, b, fmt.Sprintf(text, args...))
		return fmt.Sprintf("@b%d[i]", i)
	}
	switch {
	case l.behaviour == Filament:
		g := l.siemens / math.Pow(l.volts, warm-1)
		return formula("abs(%s)/%.17g > %.17g ? %.17g*sgn(%s)*pow(abs(%s),%g) : %.17g*%s",
			v, l.volts, stillCold, g, v, v, warm, l.siemens/coldShare, v)
	case o.blocked[e.of]:
		return ""
	case l.injected() && !o.fed[e.of]:
		return ""
	case l.behaviour == Power && math.Abs(u) >= dead*l.volts:
		return formula("%.17g/%s", l.amps*l.volts, v)
	case l.behaviour == Power:
		return ""
	case l.behaviour == Motor && !o.stalled[e.of]:
		return constant(out, i, a, b, done.amps[i])
	}
	return written(out, i, a, b, l.slope(o.stalled[e.of]))
}

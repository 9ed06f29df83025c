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
// and constant powers as current sources of a formula. It prints the amps out of
// the first battery and the volts of every node.
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
	n.deck(out, o, &done, at)
	fmt.Fprint(out, ".control\nset numdgt=12\nop\nprint all\n.endc\n.end\n")
	return out.Flush()
}

// deck writes title, nodes and elements of a state that has been solved.
func (n *net) deck(out io.Writer, o *operator, done *solved, at setting) {
	fmt.Fprintf(out, "* %s: %s\n", oneLine(n.p.Name), n.name(at))
	for i, name := range n.names {
		fmt.Fprintf(out, "* %s is %s\n", n.spiceNode(int32(i)), oneLine(name))
	}
	fmt.Fprintf(out, ".options reltol=1e-9 abstol=1e-15 vntol=1e-12 gmin=1e-18\n")
	for i := range n.branches {
		n.element(out, o, i, done)
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
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func (n *net) spiceNode(i int32) string {
	if i == n.body {
		return "0"
	}
	return fmt.Sprintf("n%d", i)
}

// element writes one branch.
func (n *net) element(out io.Writer, o *operator, i int, done *solved) {
	e := &n.branches[i]
	a, b := n.spiceNode(e.a), n.spiceNode(e.b)
	if a == b {
		return
	}
	switch e.kind {
	case batteryBranch:
		fmt.Fprintf(out, "Vb%d m%d %s DC %.17g\nRb%d %s m%d %.17g\n", i, i, b, o.cells[e.of], i, a, i, e.ohms)
	case alternatorBranch:
		x := n.p.Alternators[e.of]
		switch o.charge[e.of] {
		case holding:
			fmt.Fprintf(out, "Va%d m%d %s DC %.17g\nRa%d %s m%d %.17g\n", i, i, b, n.p.alternatorVolts(x), i, a, i, e.ohms)
		case limited:
			fmt.Fprintf(out, "Ia%d %s %s DC %.17g\n", i, b, a, x.most(o.engine))
		}
	case loadBranch:
		n.load(out, o, i, a, b, done)
	default:
		if g := o.siemens[i]; g > 0 {
			fmt.Fprintf(out, "R%d %s %s %.17g\n", i, a, b, 1/g)
		}
	}
}

// load writes a consumer by its behaviour.
func (n *net) load(out io.Writer, o *operator, i int, a, b string, done *solved) {
	e := &n.branches[i]
	c := &n.p.Consumers[e.of]
	volts, amps := n.p.rated(c)
	u := done.volts[e.a] - done.volts[e.b]
	v := fmt.Sprintf("v(%s,%s)", a, b)
	switch {
	case c.Behaviour == Filament:
		g := amps / volts / math.Pow(volts, warm-1)
		fmt.Fprintf(out, "B%d %s %s I=abs(%s)/%.17g > %.17g ? %.17g*sgn(%s)*pow(abs(%s),%g) : %.17g*%s\n",
			i, a, b, v, volts, stillCold, g, v, v, warm, amps/volts/coldShare, v)
	case (c.Behaviour == Power || c.Behaviour == Motor) && !o.fed[e.of]:
	case c.Behaviour == Power && math.Abs(u) >= dead*volts:
		fmt.Fprintf(out, "B%d %s %s I=%.17g/%s\n", i, a, b, amps*volts, v)
	case c.Behaviour == Power:
	case c.Behaviour == Motor && !o.stalled[e.of]:
		fmt.Fprintf(out, "I%d %s %s DC %.17g\n", i, a, b, done.amps[i])
	default:
		fmt.Fprintf(out, "R%d %s %s %.17g\n", i, a, b, 1/o.slope(c, e))
	}
}

package loom

import "math"

// side says where a wire lies between feed and earth.
type side uint8

const (
	feedSide   side = iota
	returnSide      // between a consumer and earth
	between         // behind one consumer and before another
	loose           // nothing feeds it and nothing earths it
)

// ways is what the metal of the net says of each wire and consumer: what feeds
// them, what guards them, how far back it is.
type ways struct {
	live, back tree
	through    tree // from the live terminal, consumers and coils let through
	side       []side
	guard      []int // fuse by wire, −1: none
	rest       []float64
	limitV     []float64 // by wire, of 12 V scaled; 0: the rule set's
	limitSays  []string
	feeds      [][]int // consumers behind each wire
}

// look works the ways out for the ohms of every branch, hot.
func (n *net) look(ohms []float64, batteryOhm float64, r Rules) *ways {
	w := &ways{}
	live, back := n.terminals()
	part, _ := n.stretches()
	earth, feed := part[n.body], int32(-1)
	if len(live) > 0 {
		feed = part[live[0]]
	}
	w.live = n.from(live, ohms, func(i int) bool { return enters(n, part, i, earth) })
	w.back = n.from(append([]int32{n.body}, back...), ohms, func(i int) bool { return enters(n, part, i, feed) })
	w.through = n.beyond(&w.live, ohms, earth, part)
	w.side, w.guard, w.rest = make([]side, len(n.wires)), make([]int, len(n.wires)), make([]float64, len(n.wires))
	w.limitV, w.limitSays, w.feeds = make([]float64, len(n.wires)), make([]string, len(n.wires)), make([][]int, len(n.wires))
	home := n.from([]int32{n.body}, ohms, nil)
	for _, b := range back {
		if home.reached(b) {
			batteryOhm += home.ohms[b]
			break
		}
	}
	for i, at := range n.wires {
		e := &n.branches[at]
		w.guard[i] = -1
		switch {
		case w.live.reached(e.a) && w.live.reached(e.b):
			w.guard[i] = int(w.live.guard[n.near(&w.live, e)])
			w.rest[i] = batteryOhm + w.live.ohms[n.near(&w.live, e)] + r.ReturnOhm
		case w.back.reached(e.a) && w.back.reached(e.b):
			w.side[i] = returnSide
		case w.through.reached(e.a) || w.through.reached(e.b):
			w.side[i], w.rest[i] = between, math.Inf(1)
			w.guard[i] = int(w.through.guard[n.near(&w.through, e)])
		default:
			w.side[i], w.rest[i] = loose, math.Inf(1)
		}
	}
	n.allot(w, r, batteryOhm)
	return w
}

// enters reports whether a branch leads between a stretch and what is not of it.
func enters(n *net, part []int32, i int, stretch int32) bool {
	e := &n.branches[i]
	return e.kind.switched() && (part[e.a] == stretch || part[e.b] == stretch) && stretch >= 0
}

// near returns the end of a wire that lies nearer to where a tree starts.
func (n *net) near(t *tree, e *branch) int32 {
	if t.ohms[e.b] < t.ohms[e.a] {
		return e.b
	}
	return e.a
}

// beyond grows a tree on through consumers and coils.
func (n *net) beyond(live *tree, ohms []float64, earth int32, part []int32) tree {
	t := tree{ohms: append([]float64{}, live.ohms...), by: append([]int32{}, live.by...), guard: append([]int32{}, live.guard...), depth: append([]int32{}, live.depth...)}
	var queue []int32
	for i := range t.ohms {
		if t.reached(int32(i)) {
			queue = append(queue, int32(i))
		}
	}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		for _, i := range n.touching[at] {
			e := &n.branches[i]
			to := e.other(at)
			if e.kind >= batteryBranch || part[to] == earth || t.reached(to) {
				continue
			}
			t.ohms[to], t.by[to], t.depth[to] = t.ohms[at]+max(ohms[i], 0), i, t.depth[at]+1
			t.guard[to] = n.tighter(t.guard[at], e)
			queue = append(queue, to)
		}
	}
	return t
}

// allot shares what may be lost on the way to each consumer among the wires
// between it and its last switch by their lengths, so that wires that keep
// their shares keep the whole; the same on the way back to earth. It notes the
// consumers that a wire feeds, and of a return the largest fuse before them.
func (n *net) allot(w *ways, r Rules, batteryOhm float64) {
	for i := range n.p.Consumers {
		c, e := &n.p.Consumers[i], &n.branches[n.loads[i]]
		plus, minus := e.a, e.b
		if !w.live.reached(plus) && w.live.reached(minus) {
			plus, minus = minus, plus
		}
		volts, says := n.p.dropLimit(c)
		limb, all := n.limb(&w.live, plus)
		w.share(n, limb, volts, says)
		for _, k := range all {
			w.feeds[k] = append(w.feeds[k], i)
		}
		volts, says = r.EarthV*n.p.scale(), "return to earth"
		if c.Use == Starter {
			volts, says = 3*volts, "starter's return to earth"
		}
		guard := w.live.guard[plus]
		_, all = n.limb(&w.back, minus)
		w.share(n, all, volts, says)
		for _, k := range all {
			w.feeds[k] = append(w.feeds[k], i)
			if w.side[k] != returnSide || !w.live.reached(plus) {
				continue
			}
			if rest := batteryOhm + w.live.ohms[plus] + w.back.ohms[minus]; guard >= 0 && (w.guard[k] < 0 || n.p.Fuses[guard].Amps > n.p.Fuses[w.guard[k]].Amps) {
				w.guard[k], w.rest[k] = int(guard), rest
			}
		}
	}
	for i := range n.p.Relays {
		e := &n.branches[n.coils[i]]
		limb, _ := n.limb(&w.live, e.a)
		w.share(n, limb, 0.5*n.p.scale(), "relay control: 0.5 V of 12 V")
	}
}

// limb returns the wires from a node back to the first switch or fuse, and all
// wires from there to where the tree starts.
func (n *net) limb(t *tree, node int32) (limb, all []int) {
	within := true
	n.walk(t, node, func(i int) bool {
		switch e := &n.branches[i]; {
		case e.kind == wireBranch:
			if all = append(all, e.of); within {
				limb = append(limb, e.of)
			}
		case e.kind.switched() || e.kind == fuseBranch:
			within = false
		}
		return true
	})
	return limb, all
}

// share bounds each wire of a limb by its share of the volts.
func (w *ways) share(n *net, limb []int, volts float64, says string) {
	whole := 0.0
	for _, k := range limb {
		whole += n.p.Wires[k].LengthM
	}
	for _, k := range limb {
		if v := volts * n.p.Wires[k].LengthM / whole; w.limitV[k] == 0 || v < w.limitV[k] {
			w.limitV[k], w.limitSays[k] = v, says
		}
	}
}

// dropLimit returns what may be lost on the plus side of a consumer.
func (p *Problem) dropLimit(c *Consumer) (volts float64, says string) {
	if c.DropV > 0 {
		return c.DropV, "stated of " + c.Name
	}
	rated, amps := p.rated(c)
	for _, l := range DropLimits() {
		if l.Use == c.Use && (l.Under == 0 || rated*amps < l.Under) {
			return l.Volts * p.scale(), l.Says
		}
	}
	return 0.5 * p.scale(), "others: 0.5 V of 12 V"
}

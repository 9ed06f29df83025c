package loom

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// metal numbers what hangs together with every contact closed and no consumer.
func (n *net) metal() []int32 {
	up := make([]int32, len(n.names))
	for i := range up {
		up[i] = int32(i)
	}
	for i := range n.branches {
		if e := &n.branches[i]; e.kind.passes() {
			x, y := root(up, e.a), root(up, e.b)
			up[max(x, y)] = min(x, y)
		}
	}
	for i := range up {
		up[i] = root(up, int32(i))
	}
	return up
}

// unfed finds consumers that no metal joins to the battery, and wires that hang
// in the air.
func (s *sizer) unfed() []Flaw {
	var list []Flaw
	for i, b := range s.n.loads {
		e := &s.n.branches[b]
		c := &s.p.Consumers[i]
		switch {
		case !s.w.through.reached(e.a) && !s.w.through.reached(e.b):
			list = append(list, Flaw{NoFeed, "consumer " + c.Name, "nothing feeds it in any position of the switches", "wire " + c.Name + ":" + c.plus() + " to its fuse"})
		case (c.Polarised || c.Behaviour == LED) && s.w.back.reached(e.a) != s.p.PositiveEarth && s.w.live.reached(e.b) != s.p.PositiveEarth:
			list = append(list, Flaw{WrongWay, "consumer " + c.Name, wrongWay(c), "change its two wires over"})
		}
	}
	for i, side := range s.w.side {
		if side == loose {
			list = append(list, Flaw{NoFeed, "wire " + s.p.Wires[i].ID, "nothing feeds this wire and nothing earths it: a loop or an end without a source", "join it to the net, or leave it out"})
		}
	}
	return append(list, s.ends()...)
}

// ends finds wires that end where nothing else is.
func (s *sizer) ends() []Flaw {
	var list []Flaw
	for i, b := range s.n.wires {
		w, e := &s.p.Wires[i], &s.n.branches[b]
		for k, node := range []int32{e.a, e.b} {
			if node == s.n.body || len(s.n.touching[node]) > 1 || s.w.side[i] == loose {
				continue
			}
			pin := []Pin{w.From, w.To}[k]
			list = append(list, Flaw{LooseEnd, "wire " + w.ID + " at " + pin.String(), "nothing else is there: an end that may touch what it likes", "join it on, or cap it and say so on its label"})
		}
	}
	return list
}

func wrongWay(c *Consumer) string {
	if c.Behaviour == LED {
		return "its plus is at the minus of the battery: it lets nothing through and stays dark"
	}
	return "its plus is at the minus of the battery: it does not work, and electronics may be destroyed"
}

// openEarths finds consumers that are fed and not earthed. Those that share the
// open earth feed one another through it.
func (s *sizer) openEarths() []Flaw {
	metal := s.n.metal()
	hang := map[int32][]int{}
	var order []int32
	for i, b := range s.n.loads {
		e := &s.n.branches[b]
		for _, ends := range [][2]int32{{e.a, e.b}, {e.b, e.a}} {
			fed, open := ends[0], ends[1]
			if s.w.live.reached(fed) && !s.w.back.reached(open) && !s.w.live.reached(open) {
				if hang[metal[open]] == nil {
					order = append(order, metal[open])
				}
				hang[metal[open]] = append(hang[metal[open]], i)
			}
		}
	}
	var list []Flaw
	for _, at := range order {
		if s.seriesOf(metal, at) {
			continue
		}
		list = append(list, Flaw{OpenEarth, s.pinsAt(metal, at), s.glows(hang[at]), "make the earth: bare metal, tight, sealed, and measure under load less than 0.1 V to the battery's earth"})
	}
	return list
}

// seriesOf reports whether what hangs on a piece of metal is earthed through
// another consumer on purpose: one that is itself earthed and not fed otherwise.
func (s *sizer) seriesOf(metal []int32, at int32) bool {
	for i := range s.n.branches {
		e := &s.n.branches[i]
		if e.kind != loadBranch && e.kind != coilBranch {
			continue
		}
		for _, ends := range [][2]int32{{e.a, e.b}, {e.b, e.a}} {
			if metal[ends[0]] == at && s.w.back.reached(ends[1]) && !s.w.live.reached(ends[1]) {
				return true
			}
		}
	}
	return false
}

// pinsAt names some terminals of a piece of metal.
func (s *sizer) pinsAt(metal []int32, at int32) string {
	var list []string
	for pin, node := range s.n.nodes {
		if metal[node] == at {
			list = append(list, pin.String())
		}
	}
	slices.Sort(list)
	if len(list) > 4 {
		list = append(list[:4], "…")
	}
	return strings.Join(list, ", ")
}

// glows says what reaches consumers on an open earth where they glow most.
func (s *sizer) glows(consumers []int) string {
	best, most := -1, 0.0
	for k := range s.seen {
		sum := 0.0
		for _, i := range consumers {
			sum = max(sum, math.Abs(s.voltsOn(k, i)))
		}
		if sum > most*(1+small)+1e-6 {
			best, most = k, sum
		}
	}
	if best < 0 || most < 0.05*s.p.nominal() {
		return "dead: " + s.named(consumers) + " have no way back to the battery"
	}
	glow := s.compare(consumers[0], best)
	return fmt.Sprintf("no way back but through one another: with %s, %s", s.n.name(s.seen[best].setting), strings.Join(glow, ", "))
}

// compare solves a state anew with the open end of a consumer earthed, and tells
// which consumers have other volts then.
func (s *sizer) compare(open, state int) []string {
	p := *s.p
	c := &p.Consumers[open]
	end := Pin{c.Name, c.minus()}
	if s.w.live.reached(s.n.nodes[end]) || s.w.back.reached(s.n.nodes[end]) {
		end = Pin{c.Name, c.plus()}
	}
	p.Wires = append(p.Wires[:len(p.Wires):len(p.Wires)], Wire{From: end, To: Pin{Part: Body}})
	n := netOf(&p)
	o, err := newOperator(n)
	if err != nil {
		return []string{err.Error()}
	}
	copy(o.cells, s.ops[0].cells)
	for i, b := range s.n.wires {
		o.fixed[n.wires[i]] = s.ops[0].fixed[b]
	}
	o.fixed[n.wires[len(n.wires)-1]] = 100
	done, err := o.operate(s.seen[state].setting, EngineOff)
	if err != nil {
		return []string{err.Error()}
	}
	var list []string
	for i, b := range n.loads {
		e := &n.branches[b]
		now, then := s.voltsOn(state, i), done.volts[e.a]-done.volts[e.b]
		least := 0.02 * p.nominal()
		switch name := p.Consumers[i].Name; {
		case math.Abs(now-then) < least:
		case math.Abs(then) < least:
			list = append(list, fmt.Sprintf("%s glows at %.1f V where it should be dark", name, math.Abs(now)))
		default:
			list = append(list, fmt.Sprintf("%s has %.1f V instead of %.1f V", name, math.Abs(now), math.Abs(then)))
		}
	}
	return list
}

func (s *sizer) voltsOn(k, consumer int) float64 {
	e := &s.n.branches[s.n.loads[consumer]]
	return s.seen[k].volts[e.a] - s.seen[k].volts[e.b]
}

func (s *sizer) named(consumers []int) string {
	list := make([]string, len(consumers))
	for i, c := range consumers {
		list[i] = s.p.Consumers[c].Name
	}
	return strings.Join(list, ", ")
}

// thinEarths finds returns and earth points that several consumers share and
// that lose too much, with the lamp that this dims most.
func (s *sizer) thinEarths() []Flaw {
	var list []Flaw
	first := len(s.p.Circuits)
	shares := s.sharers()
	for b := range s.n.branches {
		e := &s.n.branches[b]
		if len(shares[b]) < 2 {
			continue
		}
		limit, what, remedy := s.rules.EarthV*s.p.scale(), "", ""
		worst, drop := s.worst(b)
		switch e.kind {
		case wireBranch:
			a := &s.asked[first+e.of]
			if len(s.check(a, a.c).fails) == 0 {
				continue
			}
			limit, what, remedy = a.limitV, "wire "+a.run.ID, "an earth for each, or "+s.heal(a, s.sized(a))
		case earthBranch:
			what, remedy = "earth point "+s.p.Joints[e.of].Name, "clean to bare metal, seal; a bond of its own to the battery's earth"
		default:
			continue
		}
		if worst < 0 || !over(drop, limit) {
			continue
		}
		list = append(list, Flaw{ThinEarth, what, fmt.Sprintf("lifts %d consumers by %.2f V (limit %.2f V) with %s: %s", len(shares[b]), drop, limit, s.n.name(s.seen[worst].setting), s.dims(shares[b], worst)), remedy})
	}
	return list
}

// sharers lists for each branch the consumers that return through it.
func (s *sizer) sharers() [][]int {
	list := make([][]int, len(s.n.branches))
	for i, b := range s.n.loads {
		e := &s.n.branches[b]
		minus := e.b
		if !s.w.back.reached(minus) {
			minus = e.a
		}
		s.n.walk(&s.w.back, minus, func(k int) bool { list[k] = append(list[k], i); return true })
	}
	return list
}

// worst finds the state in which a branch loses most.
func (s *sizer) worst(b int) (state int, drop float64) {
	state = -1
	e := &s.n.branches[b]
	for k := range s.seen {
		if u := math.Abs(s.seen[k].volts[e.a] - s.seen[k].volts[e.b]); s.seen[k].holds && u > drop*(1+small) {
			state, drop = k, u
		}
	}
	return state, drop
}

// dims names the consumer that loses most in a state against the state in which
// it has most.
func (s *sizer) dims(consumers []int, state int) string {
	who, loss, best := -1, 0.0, 0.0
	for _, i := range consumers {
		now := math.Abs(s.voltsOn(state, i))
		if now < 0.05*s.p.nominal() {
			continue
		}
		for k := range s.seen {
			if u := math.Abs(s.voltsOn(k, i)); s.seen[k].holds && u-now > loss+1e-9 {
				who, loss, best = i, u-now, u
			}
		}
	}
	if who < 0 {
		return "all of them are dimmer for it"
	}
	c := &s.p.Consumers[who]
	text := fmt.Sprintf("%s falls from %.2f V to %.2f V", c.Name, best, best-loss)
	if c.Behaviour == Filament {
		text += fmt.Sprintf(" and keeps %.0f %% of its light", 100*light(1-loss/best))
	}
	return text
}

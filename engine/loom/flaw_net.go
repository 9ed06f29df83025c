package loom

import (
	"fmt"
	"math"
)

// relays finds relays whose feed comes to 87 and whose load hangs on 30, and
// coils whose diode stands the wrong way round.
func (s *sizer) relays() []Flaw {
	var list []Flaw
	for i, r := range s.p.Relays {
		common, load := s.n.nodes[Pin{r.Name, "30"}], s.n.nodes[Pin{r.Name, "87"}]
		by := s.w.live.by[common]
		if by >= 0 && s.w.live.reached(load) && !s.w.back.reached(load) {
			if e := &s.n.branches[by]; e.kind == makeBranch && e.of == i && s.w.live.by[load] != by {
				list = append(list, Flaw{Reversed, "relay " + r.Name, s.reversed(r), "feed to 30, load to 87"})
			}
		}
		if amps := s.contact(i); r.Amps > 0 && over(amps, r.Amps) {
			list = append(list, Flaw{WornContact, "relay " + r.Name, fmt.Sprintf("its contact carries %.1f A and is made for %g A: it burns and sticks", amps, r.Amps), "a relay made for it, or the load on two"})
		}
		e := &s.n.branches[s.n.coils[i]]
		if r.Diode && s.w.back.reached(e.a) && !s.w.live.reached(e.a) && s.w.live.reached(e.b) {
			list = append(list, Flaw{WrongWay, "relay " + r.Name, "feed at 85 and earth at 86: the diode across the coil shorts whatever switches it", "feed to 86, earth to 85"})
		}
	}
	return list
}

// contact returns the most that the contact of a relay carries.
func (s *sizer) contact(relay int) float64 {
	most := 0.0
	for b := range s.n.branches {
		if e := &s.n.branches[b]; e.of == relay && (e.kind == makeBranch || e.kind == breakBranch) {
			for k := range s.seen {
				most = max(most, math.Abs(s.seen[k].amps[b]))
			}
		}
	}
	return most
}

// reversed says what a relay does whose contact is fed from the wrong end.
func (s *sizer) reversed(r Relay) string {
	text := "feed at 87 and load at 30: it switches, but what it feeds is joined to 87a at rest"
	if !r.Break {
		return text + ", so a relay with 87a put in its place later may feed or earth the load through it"
	}
	other := s.n.nodes[Pin{r.Name, "87a"}]
	for k := range s.seen {
		for i, b := range s.n.loads {
			e := &s.n.branches[b]
			rated, _ := s.p.rated(&s.p.Consumers[i])
			if u := math.Abs(s.voltsOn(k, i)); (e.a == other || e.b == other) && u > 0.05*rated {
				return text + fmt.Sprintf(": %s stands at %.1f V with %s", s.p.Consumers[i].Name, u, s.n.name(s.seen[k].setting))
			}
		}
	}
	return text
}

// joined finds in every state fuses with both ends on metal that another fuse
// feeds too, and feeds that come to earth.
func (s *sizer) joined() []Flaw {
	var list []Flaw
	told := map[string]bool{}
	up := make([]int32, len(s.n.names))
	for k := range s.seen {
		s.pieces(up, &s.seen[k])
		for _, f := range s.meet(up, k) {
			if !told[string(f.Kind)+f.Place] {
				told[string(f.Kind)+f.Place] = true
				list = append(list, f)
			}
		}
	}
	return list
}

// pieces joins what hangs together in a state, fuses taken out.
func (s *sizer) pieces(up []int32, one *seen) {
	s.metal.join(s.n, up, func(_ int, e *branch) bool {
		switch e.kind {
		case contactBranch:
			return e.closed[one.setting[e.of]]
		case makeBranch:
			return one.pulled[e.of]
		}
		return !one.pulled[e.of]
	})
}

// meet walks from the live terminals over fuses from piece to piece; a fuse that
// leads where the walk has been joins what another feeds.
func (s *sizer) meet(up []int32, k int) []Flaw {
	live, _ := s.n.terminals()
	by := map[int32]int{}
	var queue []int32
	for _, t := range live {
		if r := root(up, t); by[r] == 0 {
			by[r] = -1
			queue = append(queue, r)
		}
	}
	sides := make(map[int32][]int, len(s.n.fuses))
	for i, b := range s.n.fuses {
		e := &s.n.branches[b]
		if s.p.Fuses[i].Empty {
			continue
		}
		x, y := root(up, e.a), root(up, e.b)
		sides[x] = append(sides[x], i)
		if y != x {
			sides[y] = append(sides[y], i)
		}
	}
	state, earth := s.n.name(s.seen[k].setting), root(up, s.n.body)
	used := map[int]bool{}
	var list []Flaw
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		if at == earth {
			list = append(list, s.shorted(by[at]-1, state))
			continue
		}
		for _, i := range sides[at] {
			if used[i] {
				continue
			}
			used[i] = true
			e := &s.n.branches[s.n.fuses[i]]
			to := root(up, e.a)
			if to == at {
				to = root(up, e.b)
			}
			switch first := by[to]; {
			case to == at:
				list = append(list, Flaw{Joined, "fuse " + s.p.Fuses[i].Name, "both its ends are joined with " + state + ": what it should guard is fed past it", "part the two wires that meet behind and before it"})
			case first > 0:
				list = append(list, s.twice(first-1, i, state))
			case first < 0:
				list = append(list, Flaw{Joined, "fuse " + s.p.Fuses[i].Name, "both its ends are fed with " + state, "part them"})
			default:
				by[to] = i + 1
				queue = append(queue, to)
			}
		}
	}
	return list
}

func (s *sizer) shorted(fuse int, state string) Flaw {
	f := Flaw{ShortedNet, "before any fuse", "with " + state + " feed is joined to earth: nothing opens, the cable burns", "find where they touch before the battery is joined"}
	if fuse >= 0 {
		f.Place, f.Does = "fuse "+s.p.Fuses[fuse].Name, "with "+state+" what it feeds is joined to earth: it opens at once"
	}
	return f
}

// twice tells two circuits that are one in a state.
func (s *sizer) twice(i, j int, state string) Flaw {
	a, b := s.p.Fuses[i], s.p.Fuses[j]
	return Flaw{
		Joined, "fuses " + a.Name + " and " + b.Name,
		fmt.Sprintf("what they feed is one with %s: either feeds the other's loads when it is off or out, and together they pass %g A before they open", state, a.Amps+b.Amps),
		"part them: look where their wires meet, in a joint, a switch or a lamp holder",
	}
}

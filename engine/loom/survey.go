package loom

import (
	"context"
	"math"
	"slices"
)

// survey solves the net in every state that matters and notes the most that
// each wire and fuse carries: every combination of a group's positions, with
// the other switches where they draw most, and with the others at rest.
func (s *sizer) survey(ctx context.Context) error {
	if len(s.n.wires) == 0 {
		return nil
	}
	s.set()
	s.seen = s.seen[:0]
	first := len(s.p.Circuits)
	for i := range s.p.Wires {
		s.asked[first+i].amps, s.asked[first+i].setting = 0, nil
	}
	s.long, s.all = make([]float64, len(s.p.Fuses)), make([]float64, len(s.p.Fuses))
	if s.passes == 0 {
		s.most()
	}
	t := &trial{s: s, known: map[string]int{}}
	if err := t.run(ctx); err != nil {
		return err
	}
	s.w = s.n.look(s.ohms(true), s.batteryOhm(), s.rules)
	s.hand()
	return nil
}

// set gives the operators the wires as they stand.
func (s *sizer) set() {
	for i, r := range s.ohms(false) {
		if e := &s.n.branches[i]; e.kind == wireBranch {
			for _, o := range s.ops {
				o.fixed[i] = 1 / r
			}
		}
	}
}

// note keeps the most of a state.
func (s *sizer) note(one *seen) {
	if one.brief, one.short = s.brief(one), s.shortedIn(one); one.short {
		return // a flaw, and no load to size for
	}
	first := len(s.p.Circuits)
	for i, b := range s.n.wires {
		if a, amps := &s.asked[first+i], math.Abs(one.amps[b]); amps > a.amps*(1+small) {
			a.amps, a.setting = amps, one.setting
		}
	}
	for i, b := range s.n.fuses {
		amps := math.Abs(one.amps[b])
		s.all[i] = max(s.all[i], amps)
		if !one.brief {
			s.long[i] = max(s.long[i], amps)
		}
	}
}

// drawnIn is what the batteries give in a state.
func (s *sizer) drawnIn(one *seen) float64 {
	drawn := 0.0
	for _, b := range s.n.cells {
		drawn -= one.amps[b]
	}
	return drawn
}

// shortedIn reports whether feed is joined to earth in a state. The net is looked
// at only where the batteries give more than all consumers together ask for.
func (s *sizer) shortedIn(one *seen) bool {
	given, asked := 0.0, 10.0
	for _, b := range s.n.cells {
		given += math.Abs(one.amps[b])
	}
	for i := range s.p.Consumers {
		_, amps := s.p.rated(&s.p.Consumers[i])
		asked += 2 * amps
	}
	if given < asked {
		return false
	}
	up := make([]int32, len(s.n.names))
	s.pieces(up, one)
	for i, b := range s.n.fuses {
		if e := &s.n.branches[b]; !s.p.Fuses[i].Empty {
			x, y := root(up, e.a), root(up, e.b)
			up[max(x, y)] = min(x, y)
		}
	}
	live, _ := s.n.terminals()
	return slices.ContainsFunc(live, func(t int32) bool { return root(up, t) == root(up, s.n.body) })
}

// brief reports whether a state lasts seconds only.
func (s *sizer) brief(one *seen) bool {
	for i, k := range one.setting {
		if k != 0 && s.short[i] {
			return true
		}
	}
	for i, b := range s.n.loads {
		c := &s.p.Consumers[i]
		if _, amps := s.p.rated(c); c.Short && math.Abs(one.amps[b]) > amps/10 {
			return true
		}
	}
	return false
}

// most begins the heaviest setting: every switch but those of seconds where it
// joins most.
func (s *sizer) most() {
	for i, w := range s.p.Switches {
		if s.short[i] {
			continue
		}
		for k, q := range w.Positions {
			was := s.heavy[i]
			if len(slices.Concat(q.Joins...)) > len(slices.Concat(w.Positions[was].Joins...)) {
				if s.heavy[i] = uint8(k); s.n.barred(s.heavy) {
					s.heavy[i] = was
				}
			}
		}
	}
}

// hand gives every wire what the ways say of it.
func (s *sizer) hand() {
	first := len(s.p.Circuits)
	for i := range s.p.Wires {
		a := &s.asked[first+i]
		a.side, a.guard, a.rest = s.w.side[i], s.w.guard[i], s.w.rest[i]
		if a.run.Unfused != "" {
			a.guard = -1
		}
		if v, says := s.stated(a.run); v > 0 {
			a.limitV, a.says = v, says
			continue
		}
		a.limitV, a.says = s.w.limitV[i], s.w.limitSays[i]
		if a.limitV == 0 {
			a.limitV, a.says = s.rules.DropPercent/100*s.rules.SupplyV*s.p.scale(), "feed that others share"
			if a.side == returnSide {
				a.limitV, a.says = s.rules.EarthV*s.p.scale(), "return to earth"
			}
		}
	}
	for i, b := range s.n.chargers {
		_, all := s.n.limb(&s.w.live, s.n.liveEnd(b))
		for _, k := range all {
			a := &s.asked[first+k]
			if rated := s.p.Alternators[i].RatedAmps; rated > a.amps {
				a.amps, a.setting = rated, nil
			}
			if v, _ := s.stated(a.run); v == 0 {
				a.limitV, a.says = 0.4*s.p.scale()*a.run.LengthM/s.length(all), "alternator to battery: 0.4 V of 12 V"
			}
		}
	}
}

func (s *sizer) length(wires []int) float64 {
	whole := 0.0
	for _, k := range wires {
		whole += s.p.Wires[k].LengthM
	}
	return whole
}

// liveEnd is the end of a source that is not earthed.
func (n *net) liveEnd(at int) int32 {
	if n.p.PositiveEarth {
		return n.branches[at].b
	}
	return n.branches[at].a
}

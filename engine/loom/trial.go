package loom

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// trial chooses which states of one survey are solved. Where the switches have few
// positions together it is every one. Else it is every group in all its positions
// over rest and over the heaviest setting, then, wire by wire, the
// settings that these say load it most.
type trial struct {
	s     *sizer
	known map[string]int // place among the seen
	todo  []setting
	most  [][]best  // by wire: the groups that bring it more than at rest
	top   []float64 // by wire: the most that any group's positions bring it
}

// best is the positions of a group in which a wire carries most, the others
// where they draw most, and what it carries with the group at rest.
type best struct {
	group      int
	at         setting
	amps, rest float64
}

// run solves in rounds: all of a round are known before one is solved.
func (t *trial) run(ctx context.Context) error {
	s := t.s
	rest := make(setting, len(s.p.Switches))
	t.want(rest)
	if s.every {
		s.n.product(group{switches: span(len(rest))}, rest, t.want)
		return t.flush(ctx)
	}
	if s.passes > 0 { // the first pass asks what ample wires carry: forWire will do
		if _, err := t.over(ctx, rest); err != nil {
			return err
		}
	}
	for round := range mostRounds {
		t.want(s.heavy)
		lists, err := t.over(ctx, s.heavy)
		if err != nil {
			return err
		}
		if s.passes > 0 || round == mostRounds-1 || !t.heavier(lists) {
			t.keep(lists)
			break
		}
	}
	for w := range s.n.wires {
		for _, at := range t.forWire(w) {
			t.want(at)
		}
	}
	return t.flush(ctx)
}

// mostRounds is how often the heaviest setting is looked for anew.
const mostRounds = 4

// over solves every group in all its positions over a setting, and returns the
// settings group by group.
func (t *trial) over(ctx context.Context, base setting) ([][]setting, error) {
	lists := make([][]setting, len(t.s.groups))
	for g := range t.s.groups {
		t.s.n.product(t.s.groups[g], base, func(at setting) {
			at = slices.Clone(at)
			lists[g] = append(lists[g], at)
			t.want(at)
		})
	}
	return lists, t.flush(ctx)
}

// want asks for a setting unless it is known or never is.
func (t *trial) want(at setting) {
	if _, ok := t.known[string(at)]; !ok && !t.s.n.barred(at) {
		t.known[string(at)] = len(t.s.seen) + len(t.todo)
		t.todo = append(t.todo, slices.Clone(at))
	}
}

// flush solves what was asked for, side by side, and notes it in order.
func (t *trial) flush(ctx context.Context) error {
	s := t.s
	done := make([]seen, len(t.todo))
	fails := make([]error, len(s.ops))
	sideBySide(len(s.ops), func(worker int) {
		o := s.ops[worker]
		for i := worker; i < len(t.todo) && fails[worker] == nil; i += len(s.ops) {
			if fails[worker] = ctx.Err(); fails[worker] != nil {
				return
			}
			done[i].setting = t.todo[i]
			if k := len(s.seen) + i; k < cap(s.seen) {
				done[i].solved = s.seen[:k+1][k].solved // memory of the pass before
			}
			fails[worker] = o.into(&done[i].solved, t.todo[i], EngineOff)
		}
	})
	if err := cmp.Or(fails...); err != nil {
		return err
	}
	for i := range done {
		s.note(&done[i])
	}
	s.seen = append(s.seen, done...)
	t.todo = t.todo[:0]
	if s.opts.Progress != nil {
		s.opts.Progress(len(s.seen), len(t.known))
	}
	return nil
}

func (t *trial) of(at setting) *seen { return &t.s.seen[t.known[string(at)]] }

// heavier moves every group to the positions that draw most for long with the
// others as they are, and reports whether one moved.
func (t *trial) heavier(lists [][]setting) bool {
	s := t.s
	next := slices.Clone(s.heavy)
	for g, list := range lists {
		most, pick := math.Inf(-1), setting(nil)
		for _, at := range list {
			one := t.of(at)
			if one.brief || one.short {
				continue
			}
			same := slices.Equal(at, s.heavy)
			if d := s.drawnIn(one); d > most*(1+1e-6) || pick == nil || same && d >= most*(1-1e-6) {
				most, pick = d, at
			}
		}
		before := slices.Clone(next)
		for _, i := range s.groups[g].switches {
			if pick != nil {
				next[i] = pick[i]
			}
		}
		if s.n.barred(next) {
			next = before
		}
	}
	moved := !slices.Equal(next, s.heavy)
	s.heavy = next
	return moved
}

// keep notes what the positions of every group bring to every wire.
func (t *trial) keep(lists [][]setting) {
	s := t.s
	t.most, t.top = make([][]best, len(s.n.wires)), make([]float64, len(s.n.wires))
	row := make([]best, len(s.n.wires))
	for g, list := range lists {
		clear(row)
		for _, at := range list {
			resting := !slices.ContainsFunc(s.groups[g].switches, func(i int) bool { return at[i] != 0 })
			one := t.of(at)
			for w, b := range s.n.wires {
				amps := math.Abs(one.amps[b])
				if amps > row[w].amps || row[w].at == nil {
					row[w].at, row[w].amps = at, amps
				}
				if resting {
					row[w].rest = amps
				}
			}
		}
		for w, b := range row {
			if t.top[w] = max(t.top[w], b.amps); b.amps-b.rest > 0.001 {
				b.group = g
				t.most[w] = append(t.most[w], b)
			}
		}
	}
}

// forWire puts together the settings that load a wire most: the groups that bring
// it most, the first of them first, over the heaviest setting, and over rest with
// the groups that stand before them; what is never together stays out.
func (t *trial) forWire(w int) []setting {
	const counts = 0.001 // of what the wire carries
	s := t.s
	order := slices.DeleteFunc(t.most[w], func(b best) bool { return b.amps-b.rest <= counts*t.top[w]+0.001 })
	slices.SortStableFunc(order, func(a, b best) int { return cmp.Compare(b.amps-b.rest, a.amps-a.rest) })
	list := []setting{slices.Clone(s.heavy), make(setting, len(s.heavy))}
	before := make(setting, len(s.heavy))
	put := func(at, from setting, g int) {
		copy(before, at)
		for _, i := range s.groups[g].switches {
			at[i] = from[i]
		}
		if s.n.barred(at) {
			copy(at, before)
		}
	}
	for _, b := range order {
		for _, g := range s.groups[b.group].before {
			put(list[1], s.heavy, g)
		}
	}
	for _, b := range order {
		put(list[0], b.at, b.group)
		put(list[1], b.at, b.group)
	}
	return list
}

package loom

import (
	"math"
	"slices"
)

// result hands out what was chosen with its working.
func (s *sizer) result() Result {
	r := Result{Status: Sound, Rules: s.rules, Flaws: []Flaw{}, Cautions: s.cautions()}
	r.Runs = make([]Sized, len(s.asked))
	sideBySide(workers, func(worker int) {
		for i := worker; i < len(s.asked); i += workers {
			r.Runs[i] = s.sized(&s.asked[i])
		}
	})
	if slices.ContainsFunc(r.Runs, func(one Sized) bool { return one.Rule == ByNone }) {
		r.Status = Impossible
	}
	r.Fuses = s.fuses()
	r.Boxes = s.boxes(r.Fuses)
	r.Flaws = append(r.Flaws, s.find(&r)...)
	if len(r.Flaws) > 0 && r.Status == Sound {
		r.Status = Flawed
	}
	for _, one := range s.seen {
		if s.opts.KeepStates || !one.holds {
			r.States = append(r.States, s.n.state(one.setting, &one.solved))
		}
	}
	s.charge(&r)
	r.Stats = Stats{Groups: len(s.groups), Every: s.every, Passes: s.passes, Nodes: len(s.n.names)}
	for _, o := range s.ops {
		r.Stats.States += o.states
		r.Stats.Factors += o.l.factors
	}
	return r
}

// sized tells one run.
func (s *sizer) sized(a *asked) Sized {
	k := s.check(a, a.c)
	one := Sized{
		ID: a.run.ID, Section: a.c.Name, MM2: a.c.MM2, Rule: a.rule, Fails: k.fails, Amps: a.amps, UsableA: k.usable,
		DropV: k.drop, DropMaxV: a.limitV, Celsius: k.celsius, Return: a.side == returnSide,
		FaultA: k.faultA, FaultS: k.faultS, FaultHeat: k.faultHeat, Bears: k.bears,
	}
	if math.IsInf(one.FaultS, 1) {
		one.FaultS, one.FaultHeat = 0, 0 // never clears: told by Fails
	}
	if a.setting != nil {
		one.State = s.n.name(a.setting)
	}
	if a.guard >= 0 {
		one.Fuse, one.FuseA = s.p.Fuses[a.guard].Name, s.p.Fuses[a.guard].Amps
	}
	if c, err := ReadColour(a.run.Colour); err == nil {
		one.AU7, _ = c.AU7()
		one.IEC, _ = c.IEC()
	}
	one.Working = s.working(a, k)
	return one
}

// state tells a working point.
func (n *net) state(at setting, done *solved) State {
	st := State{
		Name: n.name(at), Holds: done.holds, Says: done.says,
		Consumer: make([]ConsumerHas, 0, len(n.loads)), Wire: make([]WireHas, 0, len(n.wires)), Fuse: make([]WireHas, 0, len(n.fuses)),
	}
	for _, b := range n.cells {
		st.Battery -= done.amps[b]
	}
	for i, b := range n.loads {
		e := &n.branches[b]
		st.Consumer = append(st.Consumer, ConsumerHas{n.p.Consumers[i].Name, done.volts[e.a] - done.volts[e.b], done.amps[b]})
	}
	for i, b := range n.wires {
		e := &n.branches[b]
		st.Wire = append(st.Wire, WireHas{n.p.Wires[i].ID, done.amps[b], done.volts[e.a] - done.volts[e.b]})
	}
	for i, b := range n.fuses {
		e := &n.branches[b]
		st.Fuse = append(st.Fuse, WireHas{n.p.Fuses[i].Name, done.amps[b], done.volts[e.a] - done.volts[e.b]})
	}
	return st
}

// boxes counts the ways of every box, and those that splitting what its flagged
// fuses carry would take.
func (s *sizer) boxes(loads []FuseLoad) []BoxUse {
	var list []BoxUse
	for _, b := range s.p.Boxes {
		u := BoxUse{Name: b.Name, Ways: b.Ways}
		split := 0
		for i, f := range s.p.Fuses {
			if f.Box != b.Name {
				continue
			}
			u.Used++
			if loads[i].Flag && len(loads[i].Feeds) > 1 {
				split++
			}
		}
		if u.Left = u.Ways - u.Used; split > 0 {
			u.AfterSplit = u.Used + split
		}
		u.Working = s.boxWorking(u)
		list = append(list, u)
	}
	return list
}

// together returns the most of a list of loads that can be on at once, where
// pairs of them exclude each other: exact for up to 24 that are in a pair.
func together(amps []float64, clash func(i, j int) bool) float64 {
	var free float64
	var bound []int
	for i := range amps {
		if slices.ContainsFunc(span(len(amps)), func(j int) bool { return j != i && clash(i, j) }) {
			bound = append(bound, i)
		} else {
			free += amps[i]
		}
	}
	if len(bound) > 24 {
		for _, i := range bound {
			free += amps[i]
		}
		return free
	}
	var best func(k int, on []int) float64
	best = func(k int, on []int) float64 {
		if k == len(bound) {
			return 0
		}
		most := best(k+1, on)
		i := bound[k]
		if !slices.ContainsFunc(on, func(j int) bool { return clash(i, j) }) {
			most = max(most, amps[i]+best(k+1, append(on[:len(on):len(on)], i)))
		}
		return most
	}
	return free + best(0, nil)
}

func span(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

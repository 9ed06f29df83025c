package schedule

import "slices"

// irreducible is QuickXplain [Junker2004]: of a refuted set the part from which
// nothing can be left out. What comes first is kept rather than what comes last.
func (x *explainer) irreducible(all []int) []int {
	set := x.halves(nil, false, all)
	slices.Sort(set)
	for i := 0; i < len(set); i++ { // a trial that ran out of steps may have left one too many
		if rest := slices.Concat(set[:i], set[i+1:]); x.refuted(rest) {
			set, i = rest, i-1
		}
	}
	return set
}

func (x *explainer) halves(given []int, grown bool, set []int) []int {
	if grown && x.refuted(given) {
		return nil
	}
	if len(set) <= 1 {
		return set
	}
	a, b := set[:len(set)/2], set[len(set)/2:]
	right := x.halves(slices.Concat(given, a), true, b)
	left := x.halves(slices.Concat(given, right), len(right) > 0, a)
	return slices.Concat(left, right)
}

// least looks for a smallest refuted set. Every refuted set meets every
// correction: the facts left over when as many as possible leave a plan. So a
// least set that meets all corrections seen is either refuted, and smallest, or
// shows another correction [Ignatiev2015]. It stops with the set it was given
// when that is as small, or the calls are used up.
func (x *explainer) least(all, set []int, calls int) ([]int, bool) {
	var corrections [][]int
	for _, i := range set { // what alone frees a plan is in every refuted set
		k, _ := slices.BinarySearch(all, i)
		if x.calls < calls && !x.refuted(all[:k], all[k+1:]) {
			corrections = append(corrections, []int{i})
		}
	}
	for x.calls < calls && x.ctx.Err() == nil {
		h := hitter{sets: corrections, best: set, nodes: 200_000}
		h.search(nil)
		if h.nodes <= 0 {
			return set, false
		}
		if len(h.best) == len(set) {
			return set, true
		}
		slices.Sort(h.best)
		if x.refuted(h.best) {
			return h.best, true
		}
		g := grower{x: x, kept: h.best, limit: calls}
		var rest []int
		for _, i := range all {
			if _, in := slices.BinarySearch(h.best, i); !in {
				rest = append(rest, i)
			}
		}
		g.grow(rest)
		if len(g.out) == 0 { // out of calls, or of steps
			return set, false
		}
		corrections = append(corrections, g.out)
	}
	return set, false
}

// grower adds facts as long as they leave a plan; those that do not are out.
type grower struct {
	x         *explainer
	kept, out []int
	limit     int
}

func (g *grower) grow(rest []int) {
	switch {
	case len(rest) == 0:
	case g.x.calls >= g.limit: // what is not tried stays out: a wider correction, still met by every refuted set
		g.out = append(g.out, rest...)
	case !g.x.refuted(g.kept, rest):
		g.kept = slices.Concat(g.kept, rest)
	case len(rest) == 1:
		g.out = append(g.out, rest[0])
	default:
		g.grow(rest[:len(rest)/2])
		g.grow(rest[len(rest)/2:])
	}
}

// hitter looks for a least set that meets all sets, smaller than best.
type hitter struct {
	sets  [][]int
	best  []int
	nodes int
}

func (h *hitter) search(chosen []int) {
	if h.nodes--; h.nodes <= 0 {
		return
	}
	var branch []int
	var apart [][]int // sets that share nothing: each takes one more
	for _, s := range h.sets {
		if meets(s, chosen) {
			continue
		}
		if branch == nil || len(s) < len(branch) {
			branch = s
		}
		if !slices.ContainsFunc(apart, func(o []int) bool { return meets(s, o) }) {
			apart = append(apart, s)
		}
	}
	if len(chosen)+len(apart) >= len(h.best) {
		return
	}
	if branch == nil {
		h.best = slices.Clone(chosen)
		return
	}
	for _, i := range branch {
		h.search(append(chosen[:len(chosen):len(chosen)], i))
	}
}

func meets(a, b []int) bool {
	return slices.ContainsFunc(a, func(i int) bool { return slices.Contains(b, i) })
}

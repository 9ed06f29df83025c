package lags

import "slices"

// rule is a learned set of atoms of which at least one holds in every schedule
// that is better than the best. The first two are watched.
type rule struct {
	atoms  []atom
	spread int32 // levels it joined when it was learned: the fewer, the better
	used   int32 // conflicts it took part in since the last clearing out
}

// watcher looks at a rule when a side reaches at: then a watched atom fails.
type watcher struct {
	rule *rule
	at   int32
}

// watchAtom puts a rule up to be looked at when one of its atoms fails.
func (s *search) watchAtom(r *rule, a atom) {
	no := a.not()
	s.watch[no.side] = append(s.watch[no.side], watcher{r, no.v})
}

func (s *search) addRule(r *rule) {
	s.rules = append(s.rules, r)
	s.watchAtom(r, r.atoms[0])
	s.watchAtom(r, r.atoms[1])
}

// followRules looks at the rules of which an atom has failed by the bound of a side.
func (s *search) followRules(x int32) bool {
	list, kept, ok := s.watch[x], 0, true
	for k, w := range list {
		if !ok || w.at > s.b[x] {
			list[kept] = w
			kept++
			continue
		}
		moved := false
		if moved, ok = s.followRule(w.rule, x, w.at); !moved {
			list[kept] = list[k]
			kept++
		}
	}
	clear(list[kept:])
	s.watch[x] = list[:kept]
	return ok
}

// followRule handles one watched atom that has failed: it finds another to
// watch, or makes the last one left hold.
func (s *search) followRule(r *rule, x, at int32) (moved, ok bool) {
	a := r.atoms
	if no := a[0].not(); no.side == x && no.v == at {
		a[0], a[1] = a[1], a[0]
	}
	if s.holds(a[0]) {
		return false, true
	}
	for k := 2; k < len(a); k++ {
		if !s.fails(a[k]) {
			a[1], a[k] = a[k], a[1]
			s.watchAtom(r, a[1])
			return true, true
		}
	}
	return false, s.raise(a[0], reason{kind: byRule, rule: r})
}

// clearOut forgets the half of the rules that join many levels and were of no
// use lately. To be called at the root, where no rule is a reason.
func (s *search) clearOut() {
	slices.SortStableFunc(s.rules, func(a, b *rule) int {
		if a.used != b.used {
			return int(b.used - a.used)
		}
		return int(a.spread - b.spread)
	})
	half := len(s.rules) / 2
	kept := s.rules[:half]
	for _, r := range s.rules[half:] {
		if r.spread <= 2 {
			kept = append(kept, r)
		}
	}
	clear(s.rules[len(kept):])
	s.rules = kept[:0]
	for x := range s.watch {
		clear(s.watch[x])
		s.watch[x] = s.watch[x][:0]
	}
	for _, r := range kept {
		r.used = 0
		s.rewatch(r)
	}
}

// rewatch puts a rule back at the root: without atoms that can never hold, and
// not at all if one of its atoms always does.
func (s *search) rewatch(r *rule) {
	for _, a := range r.atoms {
		if s.holds(a) {
			return
		}
	}
	r.atoms = slices.DeleteFunc(r.atoms, s.fails)
	if len(r.atoms) > 1 {
		s.addRule(r)
	}
}

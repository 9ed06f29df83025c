package lags

// raise makes an atom hold. If it cannot, clash is why.
func (s *search) raise(a atom, why reason) bool {
	if s.holds(a) {
		return true
	}
	if !s.fails(a) {
		s.set(a, why)
		return true
	}
	against := s.b[a.side^1]
	s.clash = append(s.clash[:0], atom{a.side ^ 1, against})
	s.clash = s.explain(atom{a.side, 1 - against}, why, s.clash)
	return false
}

// explain appends atoms that hold and together make a hold by the rule given.
// The bounds must be those from before it was applied, or any later ones in
// which a does not hold yet.
func (s *search) explain(a atom, why reason, list []atom) []atom {
	switch why.kind {
	case byArc:
		c := &s.arcs[why.a]
		return append(list, atom{c.from, a.v - c.d}, c.cond)
	case byBar:
		c := &s.arcs[why.a]
		return append(list, atom{c.to ^ 1, why.t}, atom{c.from, 1 - c.d - why.t})
	case byRule:
		for _, o := range why.rule.atoms[1:] {
			list = append(list, o.not())
		}
	case byClique:
		return s.explainClique(a, why, list)
	case byTable:
		return s.explainTable(a, why, list)
	}
	return list
}

// follow draws every conclusion there is to draw by arcs, rules and resources.
func (s *search) follow() bool {
	for {
		for s.done < len(s.trail) {
			e := &s.trail[s.done]
			s.done++
			if s.last[e.side] == int32(s.done-1) && !s.follows(e.side) {
				return false
			}
		}
		if looked, ok := s.followStale(); !looked || !ok {
			return ok
		}
	}
}

// followStale looks at one resource or clique with bounds moved since the last
// look, if there is any.
func (s *search) followStale() (looked, ok bool) {
	for q := range s.res {
		if s.res[q].stale {
			s.res[q].stale = false
			return true, s.followTable(int32(q))
		}
	}
	for k := range s.cliques {
		if s.cliques[k].stale {
			s.cliques[k].stale = false
			return true, s.followClique(int32(k))
		}
	}
	return false, true
}

// follows draws the conclusions by arcs and rules from the bound of one side.
func (s *search) follows(x int32) bool {
	if x>>1 < s.n {
		for _, q := range s.uses[x>>1] {
			s.res[q].stale = true
		}
		for _, k := range s.within[x>>1] {
			s.cliques[k].stale = true
		}
	}
	for _, k := range s.out[x] {
		if !s.followArc(k) {
			return false
		}
	}
	for _, k := range s.when[x] {
		if s.holds(s.arcs[k].cond) && !s.followArc(k) {
			return false
		}
	}
	return s.followRules(x)
}

func (s *search) followArc(k int32) bool {
	c := &s.arcs[k]
	if s.holds(c.cond) {
		return s.raise(atom{c.to, s.b[c.from] + c.d}, reason{kind: byArc, a: k})
	}
	against := s.b[c.to^1]
	if s.fails(c.cond) || s.b[c.from]+c.d+against <= 0 {
		return true
	}
	return s.raise(c.cond.not(), reason{kind: byBar, a: k, t: against})
}

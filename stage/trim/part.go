package trim

import (
	"slices"

	"fettle/engine/nest"
)

// spot names a copy of a pattern as the engine counts them.
type spot struct{ piece, copy int }

// part is a problem made of some copies and some hides of a set, with the way
// back.
type part struct {
	nest.Problem
	copies [][]spot // by piece of the part and copy: what it is in the set
	hides  []int    // by container of the part
	apart  []nest.Placement
}

// partOf takes the hides that are on, and the copies that are wanted; copies
// that are fixed stay where they lie, locked ones as well. What stays on a hide
// that is not on is left apart, with all that has to lie beside it.
func (s *Set) partOf(on func(hide int) bool, want func(spot) bool, fixed []nest.Placement) part {
	p := part{Problem: s.problem}
	p.Pieces, p.Containers = nil, nil
	for i, c := range s.problem.Containers {
		if on(i) {
			p.hides, p.Containers = append(p.hides, i), append(p.Containers, c)
		}
	}
	stay := map[spot]nest.Placement{}
	for _, list := range append(s.lockedCopies(), fixed) {
		for _, at := range list {
			stay[spot{at.Piece, at.Copy}] = at
		}
	}
	out := map[spot]bool{}
	for c, at := range stay {
		if !on(at.Container) {
			p.apart = append(p.apart, at)
			out[c] = true
		}
	}
	slices.SortFunc(p.apart, func(a, b nest.Placement) int { return (a.Piece-b.Piece)<<16 + a.Copy - b.Copy })
	s.gather(out)
	for i := range s.problem.Pieces {
		p.take(s, i, func(c spot) bool { return want(c) && !out[c] }, stay)
	}
	p.unpair()
	return p
}

// take adds the copies of a pattern that are asked for, those that stay first.
func (p *part) take(s *Set, i int, want func(spot) bool, stay map[spot]nest.Placement) {
	piece := s.problem.Pieces[i]
	var held, free []spot
	piece.Locked = nil
	for k := range max(piece.Count, 1) {
		c := spot{i, k}
		if !want(c) {
			continue
		}
		at, ok := stay[c]
		if !ok {
			free = append(free, c)
			continue
		}
		at.Piece, at.Copy, at.Container = len(p.Pieces), len(held), slices.Index(p.hides, at.Container)
		held, piece.Locked = append(held, c), append(piece.Locked, at)
	}
	if piece.Count = len(held) + len(free); piece.Count > 0 {
		p.Pieces, p.copies = append(p.Pieces, piece), append(p.copies, append(held, free...))
	}
}

// unpair takes mates that are not in the part off their partners.
func (p *part) unpair() {
	for i := range p.Pieces {
		mate := p.Pieces[i].Pair
		if !slices.ContainsFunc(p.Pieces, func(o nest.Piece) bool { return o.ID == mate }) {
			p.Pieces[i].Pair = ""
		}
	}
}

// up is a layout of the part as one of the set.
func (p *part) up(list []nest.Placement) []nest.Placement {
	out := slices.Clone(p.apart)
	for _, at := range list {
		c := p.copies[at.Piece][at.Copy]
		at.Piece, at.Copy, at.Container = c.piece, c.copy, p.hides[at.Container]
		out = append(out, at)
	}
	return out
}

// down is what of a layout of the set lies in the part.
func (p *part) down(list []nest.Placement) []nest.Placement {
	var out []nest.Placement
	for _, at := range list {
		hide := slices.Index(p.hides, at.Container)
		for i, copies := range p.copies {
			if k := slices.Index(copies, spot{at.Piece, at.Copy}); k >= 0 && hide >= 0 {
				at.Piece, at.Copy, at.Container = i, k, hide
				out = append(out, at)
				break
			}
		}
	}
	return out
}

// lockedCopies are the copies that stay where they are, by pattern.
func (s *Set) lockedCopies() [][]nest.Placement {
	var list [][]nest.Placement
	for i, piece := range s.problem.Pieces {
		locked := slices.Clone(piece.Locked)
		for k := range locked {
			locked[k].Piece, locked[k].Copy = i, k
		}
		list = append(list, locked)
	}
	return list
}

// gather adds to copies all that have to lie on one hide with any of them.
func (s *Set) gather(to map[spot]bool) {
	for again := len(to) > 0; again; {
		again = false
		for i, p := range s.problem.Pieces {
			for k := range max(p.Count, 1) {
				if c := (spot{i, k}); !to[c] && s.beside(c, to) {
					to[c], again = true, true
				}
			}
		}
	}
}

// beside says whether a copy has to lie on one hide with any of some.
func (s *Set) beside(c spot, some map[spot]bool) bool {
	p := s.problem.Pieces[c.piece]
	for o := range some {
		q := s.problem.Pieces[o.piece]
		if p.Group != "" && p.Group == q.Group || p.Pair != "" && p.Pair == q.ID && c.copy == o.copy {
			return true
		}
	}
	return false
}

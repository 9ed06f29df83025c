package pattern

import (
	"fmt"
	"slices"

	"fettle/fault"
)

// alone enters what is sewn on a piece by itself.
func (o *order) alone(p Piece) {
	if p.Pleats != nil && len(p.Pleats.At) > 0 {
		o.piece[p.ID] = o.add(SewPleats, p.ID, p.Name)
	}
	if !slices.ContainsFunc(p.Motifs, func(m Motif) bool { return !m.Cuts && m.Drawn == "" }) {
		return
	}
	n := o.add(SewMotif, p.ID, p.Name)
	if before, ok := o.piece[p.ID]; ok {
		o.after(n, before, "pleats take up width: the motif is placed on what is left")
	}
	o.piece[p.ID] = n
}

// seam enters the steps of one seam.
func (o *order) seam(m Seam) {
	first := -1
	if m.Piping != "" {
		made := slices.IndexFunc(o.steps, func(s Step) bool { return s.Act == MakePiping && s.Of == m.Piping })
		if made < 0 {
			made = o.add(MakePiping, m.Piping, m.Piping)
		}
		first = o.add(TakePiping, m.ID, m.Name)
		o.after(first, made, "the cord is covered before it is sewn on")
	}
	sewn := o.add(SewSeam, m.ID, m.Name)
	if first < 0 {
		first = sewn
	} else {
		o.after(sewn, first, "the seam is sewn along the row that holds its piping")
	}
	last := sewn
	if _, rows := m.TopDistance(); rows > 0 {
		last = o.add(SewTop, m.ID, m.Name)
		o.after(last, sewn, "rows on top hold the allowances of the seam below them")
	}
	o.first[m.ID], o.last[m.ID] = first, last
	for _, r := range slices.Concat(m.A, m.B) {
		if n, ok := o.piece[r.Piece]; ok {
			o.after(first, n, "piece %s lies flat only until it is sewn to another", r.Piece)
		}
	}
}

// crossed puts a seam behind those whose ends it runs across: wherever a side
// goes from one piece to the next, and where a side closes on itself.
func (o *order) crossed(m Seam) {
	for i, refs := range [][]Ref{m.A, m.B} {
		back := i == 1
		for k := range refs {
			next := (k + 1) % len(refs)
			if next == 0 && !o.set.loop(m) || refs[k].Piece == refs[next].Piece && next != 0 {
				continue
			}
			end, start := o.set.beside(refs[k], !back), o.set.beside(refs[next], back)
			if next == 0 && (end == refs[next] || start == refs[k]) {
				continue // it closes at a corner of one piece
			}
			t := slices.IndexFunc(o.set.Seams, func(t Seam) bool {
				return t.ID != m.ID && (slices.Contains(t.A, end) && slices.Contains(t.B, start) || slices.Contains(t.A, start) && slices.Contains(t.B, end))
			})
			if t < 0 {
				if next != 0 || refs[k].Piece != refs[next].Piece {
					o.troubles = append(o.troubles, fmt.Sprintf("Seam %s goes from piece %s to piece %s, and no seam joins %s of the one to %s of the other there.", m.ID, end.Piece, start.Piece, end.Edge, start.Edge))
				}
				continue
			}
			o.after(o.first[m.ID], o.last[o.set.Seams[t].ID], "seam %s runs across the end of seam %s", m.ID, o.set.Seams[t].ID)
		}
	}
}

// loop says whether a seam goes all the way round: one of its sides ends at the
// corner at which it begins.
func (s Set) loop(m Seam) bool {
	for i, refs := range [][]Ref{m.A, m.B} {
		c, err := s.chain(refs, i == 1)
		if err == nil && refs[0].Piece == refs[len(refs)-1].Piece {
			l := c.lines[len(c.lines)-1]
			if l[len(l)-1] == c.lines[0][0] {
				return true
			}
		}
	}
	return false
}

// beside returns the edge that follows an edge along the outline, or the one
// before it.
func (s Set) beside(r Ref, follows bool) Ref {
	p := s.piece(r.Piece)
	k, n := p.edge(r.Edge), len(p.Edges)
	if follows {
		return Ref{r.Piece, p.Edges[(k+1)%n].Name}
	}
	return Ref{r.Piece, p.Edges[(k+n-1)%n].Name}
}

// said puts a seam behind those that are named.
func (o *order) said(m Seam) error {
	for _, list := range []struct {
		ids []string
		why string
	}{{m.Inside, "seam %[2]s cannot be reached once seam %[1]s is sewn"}, {m.After, "it is said that seam %[2]s comes before seam %[1]s"}} {
		for _, id := range list.ids {
			n, ok := o.last[id]
			if !ok {
				return fault.New(fault.Invalid, "no seam %q in the set", id).At("seam " + m.ID)
			}
			if id == m.ID {
				o.troubles = append(o.troubles, fmt.Sprintf("Seam %s is said to come before itself, which is set aside.", id))
				continue
			}
			o.after(o.first[m.ID], n, list.why, m.ID, id)
		}
	}
	return nil
}

// closing puts a seam that makes a tube behind all other seams of its pieces
// but those that close too, and those that must come after it anyhow.
func (o *order) closing(m Seam) {
	for _, t := range o.set.Seams {
		shared := slices.ContainsFunc(slices.Concat(t.A, t.B), func(r Ref) bool {
			return slices.ContainsFunc(slices.Concat(m.A, m.B), func(q Ref) bool { return q.Piece == r.Piece })
		})
		if t.ID == m.ID || t.Closes || !shared || o.needs(o.first[t.ID], o.last[m.ID]) {
			continue
		}
		o.after(o.first[m.ID], o.last[t.ID], "once seam %s is sewn its pieces are a tube, and seam %s is inside", m.ID, t.ID)
	}
}

// needs says whether step a comes after step b, by one way or another.
func (o *order) needs(a, b int) bool {
	seen := make([]bool, len(o.steps))
	var walk func(int) bool
	walk = func(n int) bool {
		if n == b {
			return true
		}
		seen[n] = true
		return slices.ContainsFunc(o.steps[n].After, func(x Because) bool { return !seen[x.Step] && walk(x.Step) })
	}
	return walk(a)
}

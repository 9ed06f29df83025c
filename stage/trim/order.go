package trim

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/pattern"
)

// What is done along an edge by itself, beside the acts of engine/pattern.
const (
	SewHem    pattern.Act = "hem"
	WrapEdge  pattern.Act = "wrap"
	SewSleeve pattern.Act = "sew the sleeve"
)

// SewOrder is all that is sewn and wrapped, as a partial order with its
// reasons: the steps of engine/pattern for what joins drawn edges, and one for
// every other seam. Each step stands behind those it needs; where nothing
// decides, the order of the lists stands.
func SewOrder(b *build.Build) (pattern.Order, error) {
	s := SewnOf(b)
	o, err := s.Set.Order()
	if err != nil {
		return pattern.Order{}, err
	}
	for _, m := range s.Lone {
		act := pattern.SewSeam
		switch m.Kind {
		case build.Raw:
			continue
		case build.Hem:
			act = SewHem
		case build.Wrapped:
			act = WrapEdge
		case build.Sleeve:
			act = SewSleeve
		}
		o.Steps = append(o.Steps, pattern.Step{Act: act, Of: string(m.ID), Name: m.Name})
	}
	for _, m := range b.Seams {
		first, last := ofSeam(o.Steps, m.ID)
		for _, id := range m.Inside {
			lone(&o, s, m, first, id, "seam %[2]s cannot be reached once seam %[1]s is sewn")
		}
		for _, id := range m.After {
			lone(&o, s, m, first, id, "it is said that seam %[2]s comes before seam %[1]s")
		}
		if slices.ContainsFunc(s.Lone, func(l build.Seam) bool { return l.ID == m.ID }) && last >= 0 {
			flat(b, &o, m, last)
		}
	}
	for _, m := range b.Seams {
		if m.Closes {
			closing(&o, s, m)
		}
	}
	return settled(o), nil
}

// closing puts a seam that makes a tube behind the hems and sleeves of its
// pieces, but for those that come after it anyhow.
func closing(o *pattern.Order, s Sewn, m build.Seam) {
	first, last := ofSeam(o.Steps, m.ID)
	for _, l := range s.Lone {
		at, end := ofSeam(o.Steps, l.ID)
		shared := slices.ContainsFunc(piecesOf(m), func(id build.PieceID) bool { return slices.Contains(piecesOf(l), id) })
		if first < 0 || at < 0 || !shared || l.Kind != build.Hem && l.Kind != build.Sleeve || needs(*o, at, last) {
			continue
		}
		because(o, first, end, fmt.Sprintf("once seam %s is sewn its pieces are a tube, and edge %s no longer lies flat", m.ID, l.ID))
	}
}

// needs tells whether step a comes after step b, by one way or another.
func needs(o pattern.Order, a, b int) bool {
	seen := make([]bool, len(o.Steps))
	var walk func(int) bool
	walk = func(n int) bool {
		seen[n] = true
		return n == b || slices.ContainsFunc(o.Steps[n].After, func(x pattern.Because) bool { return !seen[x.Step] && walk(x.Step) })
	}
	return walk(a)
}

// ofSeam is the first and the last step of a seam, or -1.
func ofSeam(steps []pattern.Step, id build.SeamID) (first, last int) {
	first, last = -1, -1
	for i, s := range steps {
		if s.Of == string(id) && s.Act != pattern.SewPleats && s.Act != pattern.SewMotif {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	return first, last
}

// lone puts a step behind a seam where the engine knows one of the two only.
func lone(o *pattern.Order, s Sewn, m build.Seam, step int, before build.SeamID, why string) {
	known := func(id build.SeamID) bool {
		return slices.ContainsFunc(s.Set.Seams, func(x pattern.Seam) bool { return x.ID == string(id) })
	}
	_, last := ofSeam(o.Steps, before)
	if step < 0 || last < 0 || known(m.ID) && known(before) {
		return
	}
	because(o, step, last, fmt.Sprintf(why, m.ID, before))
}

// flat puts what is done along an edge behind the pleats and motifs of its pieces.
func flat(b *build.Build, o *pattern.Order, m build.Seam, step int) {
	for _, e := range slices.Concat(m.A, m.B) {
		for i, t := range o.Steps {
			if (t.Act == pattern.SewPleats || t.Act == pattern.SewMotif) && t.Of == sewnID(b, e) {
				because(o, step, i, fmt.Sprintf("piece %s lies flat only until its edges are finished", e.Piece))
			}
		}
	}
}

func because(o *pattern.Order, step, before int, why string) {
	s := &o.Steps[step]
	if !slices.ContainsFunc(s.After, func(x pattern.Because) bool { return x.Step == before }) {
		s.After = append(s.After, pattern.Because{Step: before, Why: why})
	}
}

// settled sorts the steps so that each stands behind those it needs, the list's
// order standing otherwise. What waits for itself is told and keeps its place
// in the list.
func settled(o pattern.Order) pattern.Order {
	n := len(o.Steps)
	place, done := make([]int, n), make([]bool, n)
	var order []int
	for len(order) < n {
		next := -1
		for i, s := range o.Steps {
			if !done[i] && !slices.ContainsFunc(s.After, func(x pattern.Because) bool { return !done[x.Step] }) {
				next = i
				break
			}
		}
		if next < 0 {
			next = slices.Index(done, false)
			s := &o.Steps[next]
			for _, x := range s.After {
				if !done[x.Step] {
					o.Troubles = append(o.Troubles, fmt.Sprintf("%s %s waits for itself: %s. That reason is set aside.", s.Act, s.Of, x.Why))
				}
			}
			s.After = slices.DeleteFunc(s.After, func(x pattern.Because) bool { return !done[x.Step] })
		}
		done[next], place[next] = true, len(order)
		order = append(order, next)
	}
	out := pattern.Order{Troubles: o.Troubles}
	for _, i := range order {
		s := o.Steps[i]
		s.After = slices.Clone(s.After)
		for k := range s.After {
			s.After[k].Step = place[s.After[k].Step]
		}
		out.Steps = append(out.Steps, s)
	}
	return out
}

package trim

import "slices"

// Together lists the names of copies that come from one hide: mates, such as
// the left and the right hand, and the pieces of a group.
func (s *Set) Together() [][]string {
	var list [][]string
	groups := map[string]int{}
	for i, c := range s.Cuts {
		mate := slices.IndexFunc(s.Cuts, func(o Cut) bool { return o.ID == s.mate(c) })
		for n := 0; mate > i && n < len(c.Copies); n++ {
			list = append(list, []string{c.Name(c.Copies[n]), s.Cuts[mate].Name(s.Cuts[mate].Copies[n])})
		}
		if c.Piece.Group == "" {
			continue
		}
		at, known := groups[c.Piece.Group]
		if !known {
			at, list = len(list), append(list, nil)
			groups[c.Piece.Group] = at
		}
		for _, n := range c.Copies {
			list[at] = append(list[at], c.Name(n))
		}
	}
	return list
}

package nest

// unit is copies that have to lie on one sheet: mates and groups, or one copy
// alone.
type unit struct {
	items []int
	size  float64 // hull area times diameter, summed: those of more are laid first
	area  float64
	value float64
}

// bind gathers the copies that share a sheet into units.
func (b *packing) bind() {
	root := make([]int, len(b.items))
	var find func(i int) int
	find = func(i int) int {
		if root[i] != i {
			root[i] = find(root[i])
		}
		return root[i]
	}
	first := map[any]int{}
	type mate struct {
		id   string
		copy int
	}
	for i, it := range b.items {
		root[i] = i
		p := &b.problem.Pieces[it.piece]
		var bonds []any
		if p.Group != "" {
			bonds = append(bonds, p.Group)
		}
		if p.Pair != "" {
			bonds = append(bonds, mate{min(p.ID, p.Pair), it.copy})
		}
		for _, bond := range bonds {
			if j, ok := first[bond]; ok {
				root[find(i)] = find(j)
			} else {
				first[bond] = i
			}
		}
	}
	number := map[int]int{}
	for i, it := range b.items {
		r := find(i)
		n, ok := number[r]
		if !ok {
			n = len(b.units)
			number[r] = n
			b.units = append(b.units, unit{})
		}
		u, f := &b.units[n], &b.forms[it.piece]
		u.items = append(u.items, i)
		u.size += f.hull * f.diameter
		u.area += f.area
		if v := b.problem.Pieces[it.piece].Value; v != 0 {
			u.value += v
		} else {
			u.value += f.area
		}
	}
	b.number()
}

// number says of each copy in which unit it is.
func (b *packing) number() {
	b.unitOf = make([]int, len(b.items))
	for n, u := range b.units {
		for _, i := range u.items {
			b.unitOf[i] = n
		}
	}
}

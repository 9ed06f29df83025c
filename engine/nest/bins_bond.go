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
		u.value += b.worth(it)
	}
	b.number()
}

// area is the area of a copy.
func (s *shop) area(it item) float64 { return s.forms[it.piece].area }

// worth is the value of a copy.
func (s *shop) worth(it item) float64 {
	if v := s.problem.Pieces[it.piece].Value; v != 0 {
		return v
	}
	return s.forms[it.piece].area
}

// loose lists the copies of a unit that lie nowhere.
func (b *packing) loose(u *unit) []int {
	var list []int
	for _, i := range u.items {
		if b.now.on[i] == unlaid {
			list = append(list, i)
		}
	}
	return list
}

func (b *packing) laid(u *unit) bool { return len(b.loose(u)) == 0 }

func (b *packing) looseArea(u *unit) float64 {
	sum := 0.0
	for _, i := range b.loose(u) {
		sum += b.forms[b.items[i].piece].area
	}
	return sum
}

// home is the sheet on which some of a unit lies already, or unlaid.
func (b *packing) home(u *unit) int {
	for _, i := range u.items {
		if on := b.now.on[i]; on != unlaid {
			return on
		}
	}
	return unlaid
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

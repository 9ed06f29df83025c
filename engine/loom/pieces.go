package loom

// pieces is what of a net hangs together by branches that are the same in every
// state, found once; a state joins only what it has shut besides.
type pieces struct {
	still []int32 // by node: the least node of its piece
	least []int32 // those least nodes, ascending
	moves []int32 // branches that are shut at times
}

// piecesOf joins what always says, and keeps what at times says for the states.
func (n *net) piecesOf(always, attimes func(i int, e *branch) bool) pieces {
	p := pieces{still: make([]int32, len(n.names))}
	for i := range p.still {
		p.still[i] = int32(i)
	}
	for i := range n.branches {
		e := &n.branches[i]
		if always(i, e) {
			unite(p.still, e.a, e.b)
		} else if attimes(i, e) {
			p.moves = append(p.moves, int32(i))
		}
	}
	for i := range p.still {
		if p.still[i] = root(p.still, int32(i)); int(p.still[i]) == i {
			p.least = append(p.least, int32(i))
		}
	}
	return p
}

// join sets up to the pieces of a state, see root.
func (p *pieces) join(n *net, up []int32, shut func(i int, e *branch) bool) {
	copy(up, p.still)
	for _, i := range p.moves {
		if e := &n.branches[i]; shut(int(i), e) {
			unite(up, e.a, e.b)
		}
	}
}

// unite makes two pieces one, under the lesser of their least nodes.
func unite(up []int32, x, y int32) {
	x, y = root(up, x), root(up, y)
	up[max(x, y)] = min(x, y)
}

package schedule

import "slices"

// tightSlack is the slack, in minutes between the least and the greatest lag, up to
// which two activities are placed together: nobody plans a day around less.
const tightSlack = 240

// block is a chain of coats and flash times that is placed as one: its first
// member begins only when all of it has its people, its places and its air.
type block struct {
	members []int
	in      [][]int // by member, minimum lags from the members before it
	max     [][]int // by member, maximum lags from those
	outside []int   // links from elsewhere to members after the first
	uses    []keep  // places kept from the first start
	same    []int   // by member, an earlier member of the same crew, or -1
	aired   bool    // some member makes dust or needs clean air
	never   bool    // it fits into no window even in an empty shop
}

// keep is room in a place until a member, by number, is done.
type keep struct{ place, units, last int }

// bind finds the chains: activities tied by maximum lags with little slack.
func (n *net) bind() {
	next, prev := make([]int, len(n.Activities)), make([]int, len(n.Activities))
	for j := range next {
		next[j], prev[j] = -1, -1
	}
	for _, l := range n.maxLags {
		n.tie(l, next, prev)
	}
	for j := range next {
		if prev[j] < 0 && next[j] >= 0 {
			n.accept(follow(next, j))
		}
	}
	if n.blocks != nil {
		n.rehearse()
	}
}

func follow(next []int, j int) []int {
	chain := []int{j}
	for next[j] >= 0 && !slices.Contains(chain, next[j]) {
		j = next[j]
		chain = append(chain, j)
	}
	return chain
}

// tie joins the ends of a maximum lag, and waits between them, when the slack
// is tight and none of them is tied to something else.
func (n *net) tie(l int, next, prev []int) {
	k := n.Links[l]
	if k.FromStart || !n.ties(k.From) || !n.ties(k.To) || n.Activities[k.To].State != Open {
		return
	}
	gap, path := n.between(k.From, k.To, k.Calendar, 0)
	if path == nil || k.Lag < gap || k.Lag-gap > tightSlack {
		return
	}
	from := k.From
	for _, to := range path {
		if next[from] >= 0 && next[from] != to || prev[to] >= 0 && prev[to] != from {
			return
		}
		from = to
	}
	from = k.From
	for _, to := range path {
		next[from], prev[to] = to, from
		from = to
	}
}

// ties says that an activity may be part of a block.
func (n *net) ties(j int) bool {
	a := &n.Activities[j]
	return (a.Kind == Session || a.Kind == Passive) && a.State != Done && !a.Pinned && !n.optional[j]
}

// between is the longest least time from the end of a to the start of b by a
// link, or by waits on the wall clock, and the activities after a on that way.
func (n *net) between(a, b, calendar, depth int) (gap Minute, path []int) {
	for _, l := range n.out[a] {
		k := n.Links[l]
		if k.FromStart || k.Calendar != calendar {
			continue
		}
		if k.To == b && (path == nil || k.Lag > gap) {
			gap, path = k.Lag, []int{b}
		}
		w := &n.Activities[k.To]
		if k.To == b || calendar >= 0 || w.Kind != Passive || w.Calendar >= 0 || depth > 3 || !n.ties(k.To) || w.State != Open {
			continue
		}
		if g, rest := n.between(k.To, b, calendar, depth+1); rest != nil && (path == nil || k.Lag+w.Work+g > gap) {
			gap, path = k.Lag+w.Work+g, append([]int{k.To}, rest...)
		}
	}
	return gap, path
}

// accept makes a block of a chain, less the waits at its ends that need
// nothing, unless something outside waits for one member and is waited for by
// another, or it would foul its own air.
func (n *net) accept(chain []int) {
	idle := func(j int) bool {
		a := &n.Activities[j]
		return a.Kind == Passive && len(a.Uses) == 0 && !n.aired(j)
	}
	for len(chain) > 0 && idle(chain[0]) {
		chain = chain[1:]
	}
	for len(chain) > 0 && idle(chain[len(chain)-1]) {
		chain = chain[:len(chain)-1]
	}
	if len(chain) < 2 {
		return
	}
	k := len(chain)
	for k > 1 && (n.returns(chain[:k]) || n.fouls(chain[:k])) {
		k--
	}
	if k < len(chain) { // what cannot hang together falls into two
		n.accept(chain[:k])
		n.accept(chain[k:])
		return
	}
	n.register(n.blockOf(chain))
}

func (n *net) blockOf(chain []int) block {
	v := block{members: chain}
	for i, m := range chain {
		var in, most []int
		for _, l := range n.in[m] {
			switch {
			case slices.Contains(chain, n.Links[l].From):
				in = append(in, l)
			case i > 0:
				v.outside = append(v.outside, l)
			}
		}
		for _, l := range n.maxLags {
			if n.Links[l].To == m && slices.Contains(chain[:i], n.Links[l].From) {
				most = append(most, l)
			}
		}
		v.in, v.max, v.same = append(v.in, in), append(v.max, most), append(v.same, n.mate(chain[:i], m))
		v.aired = v.aired || n.aired(m)
		v.keep(i, n.Activities[m].Uses)
	}
	return v
}

// mate is the first of some members that has the same crew as m, or -1.
func (n *net) mate(before []int, m int) int {
	if n.crew == nil || n.crew[m] < 0 {
		return -1
	}
	return slices.IndexFunc(before, func(j int) bool { return n.crew[j] == n.crew[m] })
}

func (v *block) keep(i int, uses []Use) {
	for _, u := range uses {
		k := slices.IndexFunc(v.uses, func(h keep) bool { return h.place == u.Place })
		if k < 0 {
			k = len(v.uses)
			v.uses = append(v.uses, keep{place: u.Place})
		}
		v.uses[k].units, v.uses[k].last = max(v.uses[k].units, u.Units), i
	}
}

func (n *net) register(v block) {
	if n.Activities[v.members[0]].State == Started && len(v.outside) > 0 {
		return // it cannot wait for them
	}
	if n.blocks == nil {
		n.part, n.gate = make([]int, len(n.Activities)), make([]int, len(n.Links))
		for j := range n.part {
			n.part[j] = -1
		}
		for l := range n.gate {
			n.gate[l] = -1
		}
	}
	for _, m := range v.members {
		n.part[m] = len(n.blocks)
	}
	for _, l := range v.outside {
		n.gate[l] = len(n.blocks)
	}
	n.blocks = append(n.blocks, v)
}

// waitsToo is the first member of the block that waits for a link which leads
// to a later member, or -1.
func (n *net) waitsToo(l int) int {
	if n.gate == nil || n.gate[l] < 0 {
		return -1
	}
	return n.blocks[n.gate[l]].members[0]
}

// returns says that a way over links leaves a chain and comes back. The members
// of another block count as one.
func (n *net) returns(chain []int) bool {
	seen := make([]bool, len(n.Activities))
	var next []int
	visit := func(j int) {
		if !seen[j] {
			seen[j] = true
			next = append(next, j)
		}
	}
	leave := func(j int) bool {
		for _, l := range n.out[j] {
			to := n.Links[l].To
			if slices.Contains(chain, to) {
				if !slices.Contains(chain, j) && !(l >= n.raw && n.optional[j]) {
					return true
				}
				continue
			}
			visit(to)
			if n.part != nil && n.part[to] >= 0 {
				for _, m := range n.blocks[n.part[to]].members {
					visit(m)
				}
			}
		}
		return false
	}
	for _, j := range chain {
		leave(j)
	}
	for len(next) > 0 {
		j := next[0]
		next = next[1:]
		if leave(j) {
			return true
		}
	}
	return false
}

// fouls says that one member makes dust where another needs clean air.
func (n *net) fouls(chain []int) bool {
	if n.dirty == nil {
		return false
	}
	for _, j := range chain {
		for _, i := range chain {
			if slices.ContainsFunc(n.dirty[j], func(c int) bool { return has(n.clean[i], c) }) {
				return true
			}
		}
	}
	return false
}

// rehearse looks for a time at which each block fits into an empty shop.
func (n *net) rehearse() {
	r := newRun(n)
	r.planning = true
	r.gather()
	for j := range r.ready {
		r.ready[j] = max(n.Now, n.Activities[j].Release)
	}
	for b := range n.blocks {
		v := &n.blocks[b]
		t, ok := r.ready[v.members[0]], n.Activities[v.members[0]].State == Started
		for t < Never && !ok {
			_, ok = r.seat(v, t)
			t = r.wake
		}
		v.never = !ok
	}
}

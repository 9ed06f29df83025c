package project

// generation makes one child; it joins the other side.
func (i *island) generation() {
	k := i.side
	mother, father := i.tournament(k), i.tournament(k)
	for mother == father {
		father = i.rng.IntN(i.size)
	}
	a, b := i.pop[k].plans[mother], i.pop[k].plans[father]
	i.breed.child(k, a, b, i.list)
	parallel := i.breed.gene(a)
	if i.known(k, parallel) {
		i.tired++
		return
	}
	p, taken := i.rear(1-k, a, parallel), false
	if p.last != tooLong {
		p, taken = i.pop[1-k].offer(p)
	}
	i.out, i.side = p, 1-k
	if i.tired++; taken {
		i.tired = 0
	}
}

// tournament is the better of two plans drawn.
func (i *island) tournament(k int) int {
	a, b := i.rng.IntN(i.size), i.rng.IntN(i.size)
	if i.pop[k].scores[b] < i.pop[k].scores[a] {
		return b
	}
	return a
}

// known says whether the list was generated before, as far as is remembered.
func (i *island) known(k int, parallel bool) bool {
	way := uint64(k)
	if parallel {
		way += 2
	}
	h := hash(i.list, way)
	slot := &i.seen[h>>32&uint64(len(i.seen)-1)]
	if *slot == h {
		i.stats.Repeats++
		return true
	}
	*slot = h
	return false
}

// generate makes one whole schedule and keeps it if it is the best.
func (i *island) generate(k int, order []int32, parallel bool) *plan {
	p, s, stand := i.blank(parallel), &i.net.sides[k], 0
	if parallel {
		p.last, stand = i.dec.parallel(s, order, p.finish, noLimit)
	} else {
		p.last, stand = i.dec.serial(s, order, p.finish, 0, noLimit)
	}
	i.count(k, p, stand)
	return p
}

// rear generates a child's list as far as it could still be taken. As long as
// the list is the mother's, its starts are the same for all her children: what
// one of them has found out the next need not find out again.
func (i *island) rear(k int, mother *plan, parallel bool) *plan {
	p, s, limit, stand := i.blank(parallel), &i.net.sides[k], i.pop[k].limit(), 0
	if parallel {
		p.last, stand = i.dec.parallel(s, i.list, p.finish, limit)
		i.count(k, p, stand)
		return p
	}
	same := 0
	for same < len(i.list) && i.list[same] == mother.order[same] {
		same++
	}
	known := min(same, mother.known)
	for _, j := range i.list[:known] {
		p.finish[j] = mother.twin[j]
	}
	p.last, stand = i.dec.serial(s, i.list, p.finish, known, limit)
	for ; mother.known < min(same, stand); mother.known++ {
		j := i.list[mother.known]
		mother.twin[j] = p.finish[j]
	}
	i.count(k, p, stand-known)
	return p
}

// blank is a plan to write into.
func (i *island) blank(parallel bool) *plan {
	p := i.out
	if i.out = nil; p == nil {
		p = newPlan(i.net.n)
	}
	p.parallel = parallel
	return p
}

// count adds the starts that were given, and settles the plan unless the pass
// was cut short.
func (i *island) count(k int, p *plan, starts int) {
	i.used += starts
	i.stats.Passes++
	if p.last == tooLong {
		i.stats.Cut++
		return
	}
	p.settle(&i.net.sides[k], i.dec)
	if p.last < i.last {
		i.keep(k, p)
	}
}

// keep copies the best schedule, as finishes of side 0.
func (i *island) keep(k int, p *plan) {
	i.last = p.last
	i.stats.Improved++
	if i.late = k == 1; !i.late {
		copy(i.finish, p.finish)
		return
	}
	n := len(p.finish)
	for j, f := range p.finish {
		i.finish[n-1-j] = p.last - f + i.net.sides[1].dur[j]
	}
}

// forward starts everything in the best schedule as early as can be.
func (i *island) forward() {
	if !i.late {
		return
	}
	s, p := &i.net.sides[0], newPlan(i.net.n)
	for j, f := range i.finish {
		i.dec.key[j] = f - s.dur[j]
	}
	i.dec.sort(i.list, i.last)
	i.last, _ = i.dec.serial(s, i.list, p.finish, 0, noLimit)
	i.late, i.finish = false, p.finish
	i.used += i.net.n
	i.stats.Passes++
}

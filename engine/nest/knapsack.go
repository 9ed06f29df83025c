package nest

import (
	"cmp"
	"slices"
)

// How the budget of a knapsack is spent.
const (
	fillShare  = 0.3 // for the first filling
	mostMoved  = 2   // units that give way to another at once
	equalValue = 1e-9
)

// sack lays out a problem of kind Knapsack: units by value for their area, as
// long as one finds room. Then, again and again, some give way to one that lies
// nowhere, and what finds room beside it is put back; the value never falls.
func (b *packing) sack() {
	slices.SortStableFunc(b.units, func(p, q unit) int {
		return cmp.Or(cmp.Compare(q.value*p.area, p.value*q.area), cmp.Compare(q.size, p.size))
	})
	b.number()
	b.begin()
	b.insertAll(int(fillShare * float64(b.budget())))
	b.exchanges()
}

// exchanges goes on until all is laid or the budget is spent.
func (b *packing) exchanges() {
	for tries := 0; tries < b.options.Steps && b.missing() > 0 && !b.over(b.budget()); tries++ {
		b.exchange()
	}
}

// value sums what is laid.
func (b *packing) value() float64 {
	sum := 0.0
	for i, it := range b.items {
		if b.now.on[i] != unlaid {
			sum += b.worth(it)
		}
	}
	return sum
}

// exchange lets up to mostMoved units of one sheet give way to one that lies
// nowhere, and then inserts what it can; a loss of value is undone.
func (b *packing) exchange() {
	var out []int
	for n := range b.units {
		if !b.laid(&b.units[n]) {
			out = append(out, n)
		}
	}
	before, value := b.now.clone(), b.value()
	u, s := &b.units[out[b.rand.IntN(len(out))]], b.rand.IntN(len(b.sheets))
	if home := b.home(u); home != unlaid {
		s = home
	}
	b.giveWay(s, b.rand.IntN(mostMoved+1))
	if b.looseArea(u) > b.room(s) || !b.insertBatch(u, []int{s}, b.budget(), make([]int, len(b.sheets))) {
		b.now = before
		return
	}
	b.insertAll(b.budget())
	if b.value() < value-equalValue*value {
		b.now = before
	}
}

// giveWay takes some units off a sheet; locked copies stay.
func (b *packing) giveWay(s, n int) {
	for range n {
		var on []int
		for m, u := range b.units {
			if b.now.on[u.items[0]] == s && !b.locked(u) {
				on = append(on, m)
			}
		}
		if len(on) == 0 {
			return
		}
		for _, i := range b.units[on[b.rand.IntN(len(on))]].items {
			b.now.on[i] = unlaid
		}
	}
}

// locked says whether a copy of the unit may not move.
func (b *packing) locked(u unit) bool {
	return slices.ContainsFunc(u.items, func(i int) bool {
		return b.items[i].copy < len(b.problem.Pieces[b.items[i].piece].Locked)
	})
}

// pinned says whether a locked copy lies on a sheet.
func (b *packing) pinned(s int) bool {
	return slices.ContainsFunc(b.now.lying(s), func(i int) bool { return b.items[i].copy < len(b.problem.Pieces[b.items[i].piece].Locked) })
}

// room is the area of a sheet that nothing lies on.
func (b *packing) room(s int) float64 {
	free := b.sheets[s].area
	for _, i := range b.now.lying(s) {
		free -= b.forms[b.items[i].piece].area
	}
	return free
}

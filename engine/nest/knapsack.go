package nest

import (
	"cmp"
	"slices"
)

const fillShare = 0.3 // for the first filling

// sack lays out a problem of kind Knapsack: units by value for their area, as
// long as one finds room; then by trading for value.
func (b *packing) sack() {
	slices.SortStableFunc(b.units, func(p, q unit) int {
		return cmp.Or(cmp.Compare(q.value*p.area, p.value*q.area), cmp.Compare(q.size, p.size))
	})
	b.number()
	b.begin()
	b.insertAll(int(fillShare * float64(b.budget())))
	b.newTrade(b.all(), b.worth).run(b.budget())
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
	free := b.sheets[s].free
	for _, i := range b.now.lying(s) {
		free -= b.forms[b.items[i].piece].area
	}
	return free
}

package nest

import (
	"cmp"
	"slices"
)

// wander explores an attempt until it has no collisions or its budget is
// spent, and keeps what passes the exact check.
func (b *packing) wander(a attempt) bool {
	order := func(p, q int) int {
		return cmp.Or(cmp.Compare(b.unitOf[p], b.unitOf[q]), cmp.Compare(p, q))
	}
	slices.SortFunc(a.loose, order)
	a.told = b.stepped
	d := b.desk(a, b.options.Workers)
	d.until = a.most
	found := d.drop(len(d.copies)-len(a.loose)) && d.explore()
	b.count(d.stats, d.spent())
	if found {
		b.write(d.copies, d.read())
	}
	return found
}

// explore separates, and swaps where that fails.
func (d *desk) explore() bool {
	for !d.over() {
		if d.separate(exploring) {
			if d.bound() && d.b.check(d.copies, d.read()) == nil {
				return true
			}
			d.stats.Refused++
		}
		d.giveUp()
		d.flee()
	}
	return false
}

// bound says whether all mates lie on one sheet.
func (d *desk) bound() bool {
	for i, home := range d.isles.home {
		if home != unlaid && d.isles.of(d.now.spots[i]) != home {
			return false
		}
	}
	return true
}

// flee is escape, but where one of the two has mates they all move to another
// sheet.
func (d *desk) flee() {
	d.goBack()
	for i, home := range d.isles.home {
		if home != unlaid {
			d.isles.home[i] = d.isles.of(d.now.spots[i])
		}
	}
	a, b, ok := d.twoLarge()
	switch {
	case !ok:
	case d.isles.home[a] != unlaid:
		d.rehome(a)
	case d.isles.home[b] != unlaid:
		d.rehome(b)
	default:
		d.swap(a, b)
	}
	d.lead.all()
}

// rehome moves a copy and its mates to another isle.
func (d *desk) rehome(a int) {
	if d.b.locked(d.b.units[d.b.unitOf[d.copies[a]]]) {
		return
	}
	isle := d.lead.rand.IntN(len(d.sheets))
	for i, c := range d.copies {
		if d.b.unitOf[c] == d.b.unitOf[d.copies[a]] {
			d.isles.home[i] = isle
			d.dropOne(i)
		}
	}
}

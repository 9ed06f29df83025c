package nest

import (
	"cmp"
	"slices"
)

// plan is a set of sheets to cut everything from, cheaper than the present one.
type plan struct {
	sheets []int
	fill   float64 // share of their area that all copies take
}

// mostPlans is how many plans are tried in turn, the emptiest first.
const mostPlans = 4

// empty looks for cheaper sets of sheets: one sheet less, a cheaper one for
// another, or one for two. All that then lies nowhere is laid over what lies
// there, and the whole is separated, copies wandering from sheet to sheet.
func (b *packing) empty(until int) {
	for slices := 2; !b.over(until); {
		plans := b.plans()
		if len(plans) == 0 {
			return
		}
		better := false
		for i := range plans {
			slice := (until - b.judged) / (slices * (len(plans) - i))
			if better = b.follow(plans[i], slice); better || b.over(until) {
				break
			}
		}
		if !better {
			slices = 1
		}
	}
}

// follow tries to lay everything on the sheets of a plan.
func (b *packing) follow(p plan, most int) bool {
	a := attempt{sheets: p.sheets, seed: b.rand.Uint64(), most: most}
	for i, on := range b.now.on {
		if !slices.Contains(p.sheets, on) {
			a.loose = append(a.loose, i)
		}
	}
	return b.wander(a)
}

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
		b.report()
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

// plans lists cheaper sets of sheets that hold everything by area.
func (b *packing) plans() []plan {
	used := b.used()
	cost, area, least := 0.0, 0.0, b.leastCost()
	for _, s := range used {
		cost += b.sheets[s].cost
	}
	for _, it := range b.items {
		area += b.forms[it.piece].area
	}
	var list []plan
	add := func(sheets []int) {
		sum, room := 0.0, 0.0
		for _, s := range sheets {
			sum += b.sheets[s].cost
			room += b.sheets[s].area
		}
		if sum < cost && sum >= least && b.enough(sheets) {
			list = append(list, plan{sheets, area / room})
		}
	}
	spare := b.spare()
	for i := range used {
		if b.pinned(used[i]) {
			continue
		}
		rest := slices.Delete(slices.Clone(used), i, i+1)
		add(rest)
		for _, v := range spare {
			add(append(slices.Clone(rest), v))
			for j := i; j < len(rest); j++ {
				if b.pinned(rest[j]) {
					continue
				}
				add(append(slices.Delete(slices.Clone(rest), j, j+1), v))
			}
		}
	}
	slices.SortStableFunc(list, func(p, q plan) int { return cmp.Compare(p.fill, q.fill) })
	return list[:min(len(list), mostPlans)]
}

// spare lists the first unused sheet of each container.
func (b *packing) spare() []int {
	var list []int
	seen := map[int]bool{}
	for s := range b.sheets {
		if c := b.sheets[s].container; !seen[c] && !b.now.holds(s) {
			seen[c] = true
			list = append(list, s)
		}
	}
	return list
}

package nest

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// How what lies on the emptiest sheet is pushed together at the end.
const (
	tidyShare = 0.05  // of the budget, at most
	tidyFrom  = 0.1   // the first step, as a share of the sheet's side
	tidyTo    = 0.002 // the last
)

var tidying = patience{40, 2}

// tidy pushes what lies on the emptiest sheet away from each of its sides in
// turn, as a roll is shortened, and keeps what leaves the largest remnant.
func (b *packing) tidy() {
	used := b.used()
	if b.problem.Kind != Bins || b.missing() > 0 || len(used) == 0 {
		return
	}
	s := slices.MinFunc(used, func(p, q int) int { return cmp.Compare(b.fill(p), b.fill(q)) })
	copies := b.now.lying(s)
	best := b.left(s, copies, b.now.of(copies))
	share := min(int(tidyShare*float64(b.budget())), b.budget()-b.judged) / 4
	for side := range 4 {
		if b.over(b.budget()) {
			return
		}
		d := b.desk(attempt{sheets: []int{s}, seed: b.rand.Uint64()}, b.options.Workers)
		d.until = share
		d.push(side)
		b.count(d.stats, d.spent())
		if left := b.left(s, d.copies, d.read()); left > best {
			best = left
			b.write(d.copies, d.read())
			b.report()
		}
	}
}

// of returns where some copies lie.
func (c *cutting) of(copies []int) cutting {
	var o cutting
	for _, i := range copies {
		o.on, o.spots = append(o.on, c.on[i]), append(o.spots, c.spots[i])
	}
	return o
}

// left is the area of the remnant that copies leave of a sheet; 0 where the
// exact check refuses them.
func (b *packing) left(s int, copies []int, c cutting) float64 {
	p, at := b.alone(s, copies, c)
	list, err := Remnants(p, at)
	if err != nil || len(list) == 0 {
		return 0
	}
	return list[0].Area()
}

// push moves one side of the sheet in, by steps that are halved where they
// fail, until nothing gives way any more.
func (d *desk) push(side int) {
	var good memory
	good.take(d.now)
	for by := tidyFrom; by > tidyTo && !d.over(); {
		d.fence(good.bounds)
		d.recall(&good)
		if d.squeeze(side, by) && d.separate(tidying) && d.b.check(d.copies, d.read()) == nil {
			good.take(d.now)
			continue
		}
		by /= 2
	}
	d.fence(good.bounds)
	d.recall(&good)
}

// fence sets what pieces stay in.
func (d *desk) fence(b geom.Box) { d.now.bounds, d.isles.boxes[0] = b, b }

// squeeze moves a side in by a share of the sheet, behind what lies nearest to
// it; it is false where that has no room for them by their boxes.
func (d *desk) squeeze(side int, by float64) bool {
	b := d.now.bounds
	whole := b.Width()
	if side > 1 {
		whole = b.Height()
	}
	room := math.Inf(1)
	for i, box := range d.now.boxes {
		if !d.now.fixed[i] {
			room = min(room, [4]float64{box.Min.X - b.Min.X, b.Max.X - box.Max.X, box.Min.Y - b.Min.Y, b.Max.Y - box.Max.Y}[side])
		}
	}
	if b = moved(b, side, -room-float64(by*whole)); math.IsInf(room, 1) || b.Width() <= 0 || b.Height() <= 0 {
		return false
	}
	d.fence(b)
	for i := range d.now.items {
		if _, ok := d.now.span(d.now.spots[i].turn); !ok && !d.now.fixed[i] {
			return false
		}
		d.now.put(i, d.now.spots[i])
	}
	d.now.forget()
	d.lead.all()
	return true
}

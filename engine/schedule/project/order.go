package project

// mirrored lists, in the numbers of the other side, the activities by finish,
// latest first. Generated serially on the other side, that list justifies the
// schedule: each activity moves as far to the end as it can and the makespan
// does not grow [Valls2005].
func (d *decoder) mirrored(finish []int32, last int32, order []int32) {
	n := len(finish)
	for i, f := range finish {
		d.key[n-1-i] = last - f
	}
	d.sort(order, last)
}

// sort lists 0..n-1 by d.key, none above most, ties by number: byte by byte,
// lowest byte first. Ties by number keep precedence among milestones.
func (d *decoder) sort(order []int32, most int32) {
	for i := range order {
		order[i] = int32(i)
	}
	from, to := order, d.rank
	passes := 0
	for shift := 0; shift == 0 || most>>shift > 0; shift += 8 {
		clear(d.count[:])
		for _, k := range d.key {
			d.count[1+(k>>shift&255)]++
		}
		for b := range 256 {
			d.count[b+1] += d.count[b]
		}
		for _, i := range from {
			b := d.key[i] >> shift & 255
			to[d.count[b]] = i
			d.count[b]++
		}
		from, to = to, from
		passes++
	}
	if passes%2 == 1 {
		copy(order, d.rank)
	}
}

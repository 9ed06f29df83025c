package project

import "math"

// decoder turns lists into schedules. It holds the resource profile of the
// schedule it is building and allocates nothing while it does.
type decoder struct {
	net  *net
	free []uint64 // slots by words: free units, guard bits set
	high int      // slots from here on are untouched

	now                    []uint64 // free units at one moment, for parallel
	wait, ready, key, rank []int32  // n each
	count                  [257]int32
}

func newDecoder(n *net) *decoder {
	w := n.lanes.words
	d := &decoder{net: n, free: make([]uint64, (int(n.span)+1)*w), now: make([]uint64, w)}
	for i := range d.free {
		d.free[i] = n.lanes.full[i%w]
	}
	d.wait, d.ready = make([]int32, n.n), make([]int32, n.n)
	d.key, d.rank = make([]int32, n.n), make([]int32, n.n)
	return d
}

func (d *decoder) reset() {
	full := d.net.lanes.full
	free := d.free[:d.high*len(full)]
	d.high = 0
	if len(full) == 1 {
		for i := range free {
			free[i] = full[0]
		}
		return
	}
	for i := range free {
		free[i] = full[i%len(full)]
	}
}

// noLimit lets a pass go to its end whatever the makespan.
const noLimit = math.MaxInt32

// tooLong is the makespan of a pass that was cut short.
const tooLong = -1

// serial places the activities of a side in the order of the list, which keeps
// precedence, each as early as it fits [Kolisch1996]. It writes their finishes
// and returns the makespan and how many activities stand. The finishes of the
// first known activities are given. When the longest path from an activity
// leads past limit, the pass ends there: its makespan is tooLong.
func (d *decoder) serial(s *side, order, finish []int32, known int, limit int32) (last int32, stand int) {
	d.reset()
	for _, j := range order[:known] {
		d.book(s, j, finish[j]-s.dur[j])
		last = max(last, finish[j])
	}
	for i, j := range order[known:] {
		t := int32(0)
		for _, p := range s.pred.of(j) {
			t = max(t, finish[p])
		}
		finish[j] = d.book(s, j, t)
		last = max(last, finish[j])
		if finish[j]-s.dur[j]+s.tail[j] > limit {
			d.high = int(last)
			return tooLong, known + i + 1
		}
	}
	d.high = int(last)
	return last, len(order)
}

package project

// lanes says how units are packed: each resource has a lane of bits, the
// highest of which is a guard that a subtraction which goes below zero clears.
type lanes struct {
	words int    // words a slot
	width int    // bits a lane: 16, or 32 when a capacity needs it
	guard uint64 // the guard bits of a word
	full  []uint64
}

func newLanes(capacity []int32) lanes {
	l := lanes{width: 16, guard: 0x8000_8000_8000_8000}
	for _, c := range capacity {
		if c > 0x7fff {
			l.width, l.guard = 32, 0x8000_0000_8000_0000
		}
	}
	l.words = max(1, (len(capacity)*l.width+63)/64)
	l.full = make([]uint64, l.words)
	l.pack(capacity, l.full)
	for w := range l.full {
		l.full[w] |= l.guard
	}
	return l
}

func (l *lanes) pack(units []int32, into []uint64) {
	each := 64 / l.width
	for k, u := range units {
		into[k/each] |= uint64(u) << (k % each * l.width)
	}
}

package nest

import (
	"math"
	"math/bits"
)

// mimic draws a place for a copy: beside another piece as one of its equals
// lies beside one of that piece's. So what has been found to go well together
// once comes again, of the same piece or of two, without anybody having listed
// good pairs. It is false where the draw comes to nothing.
func (k *seeker) mimic(i int) (spot, bool) {
	model, ok := k.equal(i)
	if !ok {
		return spot{}, false
	}
	by, ok := k.neighbour(model, i)
	if !ok {
		return spot{}, false
	}
	to, ok := k.equal(by)
	if !ok || to == i || to == model {
		return spot{}, false
	}
	s, ok := k.carry(model, by, to)
	if ok {
		s, ok = k.snap(i, s)
	}
	return s, ok && !k.strays(i, s) && k.atHome(i, s)
}

// equal draws another copy of the same piece.
func (k *seeker) equal(i int) (int, bool) {
	list := k.copies[k.items[i].piece]
	if len(list) == 1 {
		return 0, false
	}
	j := list[k.rand.IntN(len(list))]
	return j, j != i
}

// neighbour draws one of the copies whose boxes touch that of one, but for i.
func (k *seeker) neighbour(of, i int) (int, bool) {
	half := halves(&k.boxes[of])
	k.crowd.meet(&half, k.met)
	k.met[of/word] &^= 1 << (of % word)
	k.met[i/word] &^= 1 << (i % word)
	n := 0
	for _, w := range k.met {
		n += bits.OnesCount64(w)
	}
	if n == 0 {
		return 0, false
	}
	n = k.rand.IntN(n)
	for j, w := range k.met {
		if here := bits.OnesCount64(w); n >= here {
			n -= here
			continue
		}
		for ; n > 0; n-- {
			w &= w - 1
		}
		return j*word + bits.TrailingZeros64(w), true
	}
	return 0, false
}

// carry returns where a copy came to lie if another were moved and turned to
// where one of its equals lies, and took it along. It is false where the piece
// may not be turned so, or fits nowhere.
func (k *seeker) carry(model, by, to int) (spot, bool) {
	m, from, at := &k.spots[model], &k.spots[by], &k.spots[to]
	before, flip := from.lies()
	after, also := at.lies()
	rotation, mirrored := m.lies()
	if flip != also {
		return spot{}, false
	}
	sin, cos := heading(after - before)
	x, y := m.x-from.x, m.y-from.y
	x, y = at.x+float64(cos*x)-float64(sin*y), at.y+float64(sin*x)+float64(cos*y)
	s, ok := k.turnedTo(k.items[model].piece, rotation+after-before, mirrored, x, y)
	if !ok {
		return spot{}, false
	}
	b, ok := k.span(s.turn)
	s.x, s.y = max(min(s.x, b.Max.X), b.Min.X), max(min(s.y, b.Max.Y), b.Min.Y)
	return s, ok
}

// turnedTo returns a spot of a piece at an angle, false where it is none of
// those allowed.
func (k *seeker) turnedTo(piece int, rotation float64, mirrored bool, x, y float64) (spot, bool) {
	f := &k.forms[piece]
	if f.free {
		rotation = math.Mod(math.Mod(math.Round(rotation/angleStep)*angleStep, 360)+360, 360)
		return k.spun(piece, &k.room[2], rotation, mirrored, x, y), true
	}
	for i := range f.turns {
		if t := &f.turns[i]; t.mirrored == mirrored && math.Remainder(t.rotation-rotation, 360) == 0 {
			return spot{turn: t, x: x, y: y}, true
		}
	}
	return spot{}, false
}

// atHome says whether a spot is on the sheet a copy has to be on.
func (k *seeker) atHome(i int, s spot) bool {
	w, ok := k.floor.(*isles)
	return !ok || w.home[i] == unlaid || w.of(s) == w.home[i]
}

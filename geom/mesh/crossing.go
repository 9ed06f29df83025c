package mesh

import (
	"cmp"
	"slices"
)

// Crossings returns pairs of faces that run through each other, or lie on each
// other in one plane, at most as many as asked. Faces that share an edge are not
// looked at; touching is not crossing.
func (m Mesh) Crossings(most int) [][2]int32 {
	t := boxTree{m: m, most: most, faces: make([]int32, len(m.Faces)), boxes: make([]box, len(m.Faces))}
	for f := range m.Faces {
		t.faces[f], t.boxes[f] = int32(f), m.faceBox(f)
	}
	if len(t.faces) > 1 {
		t.within(t.grow(0, len(t.faces)))
	}
	slices.SortFunc(t.found, func(a, b [2]int32) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	return t.found
}

// box is an upright box.
type box struct{ lo, hi Vec }

func (m Mesh) faceBox(f int) box {
	a, b, c := m.corners(f)
	return box{a.least(b).least(c), a.most(b).most(c)}
}

func (a box) with(b box) box { return box{a.lo.least(b.lo), a.hi.most(b.hi)} }

func (a box) meets(b box) bool {
	return a.lo.X <= b.hi.X && b.lo.X <= a.hi.X && a.lo.Y <= b.hi.Y && b.lo.Y <= a.hi.Y && a.lo.Z <= b.hi.Z && b.lo.Z <= a.hi.Z
}

// boxTree halves the faces by place, again and again.
type boxTree struct {
	m     Mesh
	faces []int32
	boxes []box // by face
	nodes []node
	most  int
	found [][2]int32
}

// node is the faces from one to another of the list: two halves, or a leaf where
// they are few.
type node struct {
	box         box
	from, to    int
	left, right int32
}

const leaf = 6

func (t *boxTree) grow(from, to int) int32 {
	b := t.boxes[t.faces[from]]
	for _, f := range t.faces[from+1 : to] {
		b = b.with(t.boxes[f])
	}
	at := int32(len(t.nodes))
	t.nodes = append(t.nodes, node{b, from, to, None, None})
	if to-from <= leaf {
		return at
	}
	mid := (from + to) / 2
	t.halve(from, mid, to, b.hi.Sub(b.lo))
	l := t.grow(from, mid)
	r := t.grow(mid, to)
	t.nodes[at].left, t.nodes[at].right = l, r
	return at
}

// halve brings the faces that lie lower along the longest side before mid.
func (t *boxTree) halve(from, mid, to int, size Vec) {
	along := func(v Vec) float64 { return v.X }
	if size.Y >= max(size.X, size.Z) {
		along = func(v Vec) float64 { return v.Y }
	} else if size.Z >= size.X {
		along = func(v Vec) float64 { return v.Z }
	}
	key := func(f int32) float64 { return along(t.boxes[f].lo) + along(t.boxes[f].hi) }
	for lo, hi := from, to-1; lo < hi; { // Hoare's selection
		pivot := key(t.faces[(lo+hi)/2])
		i, j := lo, hi
		for i <= j {
			for key(t.faces[i]) < pivot {
				i++
			}
			for key(t.faces[j]) > pivot {
				j--
			}
			if i <= j {
				t.faces[i], t.faces[j] = t.faces[j], t.faces[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case mid <= j:
			hi = j
		case mid >= i:
			lo = i
		default:
			return
		}
	}
}

// within looks at all pairs of a node.
func (t *boxTree) within(at int32) {
	n := t.nodes[at]
	if n.left != None {
		t.within(n.left)
		t.within(n.right)
		t.between(n.left, n.right)
		return
	}
	for i := n.from; i < n.to; i++ {
		for j := i + 1; j < n.to; j++ {
			t.pair(t.faces[i], t.faces[j])
		}
	}
}

// between looks at all pairs of a face of one node and one of another.
func (t *boxTree) between(a, b int32) {
	n, o := t.nodes[a], t.nodes[b]
	switch {
	case len(t.found) >= t.most || !n.box.meets(o.box):
	case n.left == None && o.left == None:
		for _, f := range t.faces[n.from:n.to] {
			for _, g := range t.faces[o.from:o.to] {
				t.pair(f, g)
			}
		}
	case o.left == None || n.left != None && n.to-n.from >= o.to-o.from:
		t.between(n.left, b)
		t.between(n.right, b)
	default:
		t.between(a, o.left)
		t.between(a, o.right)
	}
}

func (t *boxTree) pair(f, g int32) {
	if len(t.found) < t.most && t.boxes[f].meets(t.boxes[g]) && t.m.through(f, g) {
		t.found = append(t.found, [2]int32{min(f, g), max(f, g)})
	}
}

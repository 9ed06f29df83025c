package mesh

import "slices"

// None stands where there is no half-edge, face or vertex.
const None = int32(-1)

// Adjacency says what lies beside what. Half-edge 3f+k runs along face f from
// its corner k to the next; it stands for that corner too.
//
// Edges that do not lie between exactly two faces that run along it in opposite
// directions are open. Of these, Tangled lists those with company: more than
// two faces at an edge, or two that run the same way.
type Adjacency struct {
	Tail    []int32 // by half-edge: the vertex it leaves
	Twin    []int32 // by half-edge: the one across the edge, None where it is open
	Tangled []int32 // half-edges in rising order

	first, leaving []int32
}

// Next returns the half-edge after h in its face.
func Next(h int32) int32 {
	if h%3 == 2 {
		return h - 2
	}
	return h + 1
}

// Prev returns the half-edge before h in its face.
func Prev(h int32) int32 {
	if h%3 == 0 {
		return h + 2
	}
	return h - 1
}

// Head returns the vertex that half-edge h arrives at.
func (a Adjacency) Head(h int32) int32 { return a.Tail[Next(h)] }

// Leaving returns the half-edges that leave vertex v in the order of the faces.
func (a Adjacency) Leaving(v int32) []int32 { return a.leaving[a.first[v]:a.first[v+1]] }

// Find returns a half-edge that runs from vertex u to vertex v, or None.
func (a Adjacency) Find(u, v int32) int32 {
	for _, h := range a.Leaving(u) {
		if a.Head(h) == v {
			return h
		}
	}
	return None
}

// Edges counts the edges, each once however many faces meet there. Tangled
// edges count once a half-edge.
func (a Adjacency) Edges() int {
	open := 0
	for _, t := range a.Twin {
		if t == None {
			open++
		}
	}
	return (len(a.Twin) + open) / 2
}

// Adjacency works out what lies beside what, in time linear in the faces. The
// indices of all faces must be those of points.
func (m Mesh) Adjacency() Adjacency {
	n := 3 * len(m.Faces)
	a := Adjacency{Tail: make([]int32, n), Twin: make([]int32, n)}
	for f, face := range m.Faces {
		copy(a.Tail[3*f:], face[:])
	}
	a.first, a.leaving = group(len(m.Points), n, func(h int32) int32 { return a.Tail[h] })
	a.eachEdge(a.pair)
	slices.Sort(a.Tangled)
	return a
}

// group sorts 0 to n-1 into rooms, in rising order within each: the list of
// room r is list[first[r]:first[r+1]].
func group(rooms, n int, room func(int32) int32) (first, list []int32) {
	first, list = make([]int32, rooms+1), make([]int32, n)
	for i := range n {
		first[room(int32(i))+1]++
	}
	for r := range rooms {
		first[r+1] += first[r]
	}
	at := slices.Clone(first)
	for i := range n {
		r := room(int32(i))
		list[at[r]] = int32(i)
		at[r]++
	}
	return first, list
}

// eachEdge gives the half-edges of every edge, whichever way they run, in rising
// order. The list is good until the next edge.
func (a *Adjacency) eachEdge(do func(edge []int32)) {
	lower := func(h int32) int32 { return min(a.Tail[h], a.Head(h)) }
	upper := func(h int32) int32 { return max(a.Tail[h], a.Head(h)) }
	rooms := len(a.first) - 1
	first, all := group(rooms, len(a.Tail), lower)
	for v := range rooms {
		list := all[first[v]:first[v+1]]
		slices.SortFunc(list, func(g, h int32) int {
			if d := upper(g) - upper(h); d != 0 {
				return int(d)
			}
			return int(g - h)
		})
		for i := 0; i < len(list); {
			j := i + 1
			for j < len(list) && upper(list[j]) == upper(list[i]) {
				j++
			}
			do(list[i:j])
			i = j
		}
	}
}

// pair joins the half-edges of an edge if they are two that run against each
// other.
func (a *Adjacency) pair(edge []int32) {
	if len(edge) == 2 && a.Tail[edge[0]] != a.Tail[edge[1]] {
		a.join(edge[0], edge[1])
		return
	}
	for _, h := range edge {
		a.Twin[h] = None
	}
	if len(edge) > 1 {
		a.Tangled = append(a.Tangled, edge...)
	}
}

func (a *Adjacency) join(g, h int32) { a.Twin[g], a.Twin[h] = h, g }

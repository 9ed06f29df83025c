package sparse

import (
	"math"
	"slices"
)

// elimination is the graph of what is left to eliminate, in quotient form
// [AmestoyDavisDuff1996]. A node is a variable, an element (a column that is
// eliminated, standing for the clique it leaves), or gone: merged into a
// variable that cannot be told from it, or absorbed by an element.
type elimination struct {
	list   []int32 // of a variable its elements, then its variables; of an element its variables
	start  []int32 // where the list of a node begins
	length []int32
	elems  []int32 // how many of a variable's list are elements; gone for an element or what is gone
	weight []int32 // rows that a variable stands for; 0 once it is none; negative while in the pivot's list
	degree []int32 // bound on rows met, of an element the rows in its list
	mark   []int32 // of an element, the stamp plus its rows outside the pivot's list; 0 when absorbed
	into   []int32 // what a node was merged into or absorbed by, -1
	free   int32   // first unused place of list
	stamp  int32

	head, next, prev []int32 // variables by degree; prev holds the hash of those in the pivot's list
	twins            []int32 // variables of the pivot's list by hash, -1 where none
	least            int32
	left             int32 // rows not yet eliminated
	largest          int32 // most rows that an element held
	pivots           []int32
}

const gone = -1

// minimumDegree orders the nodes of a graph, each of which stands for weight
// rows: at every step the one with the least approximate degree. Nodes that meet
// far more than others go last.
func minimumDegree(g graph, weight []int32) []int32 {
	dense := max(16, int(10*math.Sqrt(float64(len(weight)))))
	e, last := newElimination(g, weight, dense)
	for e.left > 0 {
		e.eliminate(e.pop())
	}
	return append(e.order(), last...)
}

func newElimination(g graph, weight []int32, dense int) (*elimination, []int32) {
	n := len(weight)
	ints := func() []int32 { return make([]int32, n) }
	e := &elimination{
		start: ints(), length: ints(), elems: ints(), weight: slices.Clone(weight), degree: ints(), mark: ints(), into: ints(),
		next: ints(), prev: ints(), twins: ints(), stamp: 2, pivots: make([]int32, 0, n),
		list: make([]int32, 0, len(g.to)+len(g.to)/5+n+1),
	}
	var last []int32
	total := int32(0)
	for i := range int32(n) {
		if len(g.of(i)) > dense {
			last = append(last, i)
			e.weight[i], e.elems[i] = 0, gone
		}
		total += e.weight[i]
	}
	e.left = total
	e.head = make([]int32, total+1)
	for d := range e.head {
		e.head[d] = -1
	}
	for h := range e.twins {
		e.twins[h] = -1
	}
	e.least = total
	for i := range int32(n) {
		e.into[i], e.mark[i], e.start[i] = -1, 1, int32(len(e.list))
		if e.elems[i] == gone {
			continue
		}
		for _, j := range g.of(i) {
			if e.weight[j] > 0 {
				e.list = append(e.list, j)
				e.degree[i] += e.weight[j]
			}
		}
		e.length[i] = int32(len(e.list)) - e.start[i]
		e.push(i)
	}
	e.free = int32(len(e.list))
	e.list = e.list[:cap(e.list)]
	return e, last
}

// push files a variable under its degree.
func (e *elimination) push(i int32) {
	d := e.degree[i]
	h := e.head[d]
	e.next[i], e.prev[i], e.head[d] = h, -1, i
	if h >= 0 {
		e.prev[h] = i
	}
	e.least = min(e.least, d)
}

// drop takes a variable out of the file of its degree.
func (e *elimination) drop(i int32) {
	if e.next[i] >= 0 {
		e.prev[e.next[i]] = e.prev[i]
	}
	if e.prev[i] >= 0 {
		e.next[e.prev[i]] = e.next[i]
	} else {
		e.head[e.degree[i]] = e.next[i]
	}
}

// pop takes out a variable of least degree.
func (e *elimination) pop() int32 {
	for e.head[e.least] < 0 {
		e.least++
	}
	i := e.head[e.least]
	e.drop(i)
	return i
}

// eliminate makes the variable p an element and brings what it meets up to
// date.
func (e *elimination) eliminate(p int32) {
	if e.elems[p] > 0 && e.free+e.least >= int32(len(e.list)) {
		e.compact()
	}
	rows, inPlace := e.weight[p], e.elems[p] == 0
	from, to := e.gather(p)
	e.outside(from, to)
	with := e.prune(p, from, to)
	e.degree[p] -= with
	e.left -= rows + with
	e.largest = max(e.largest, e.degree[p])
	e.restamp(e.stamp + e.largest + 1)
	e.mergeTwins(from, to)
	to = e.file(p, from, to)
	e.weight[p], e.length[p] = rows+with, to-from
	if to == from {
		e.mark[p] = 0
	}
	if !inPlace {
		e.free = to
	}
	e.pivots = append(e.pivots, p)
}

// gather writes the list of the new element p: what it meets as a variable and
// what the elements about it hold. Those are absorbed.
func (e *elimination) gather(p int32) (from, to int32) {
	e.weight[p] = -e.weight[p]
	degree := int32(0)
	take := func(i int32) bool {
		w := e.weight[i]
		if w <= 0 {
			return false
		}
		degree += w
		e.weight[i] = -w
		e.drop(i)
		return true
	}
	own := e.list[e.start[p] : e.start[p]+e.length[p]]
	if e.elems[p] == 0 {
		from = e.start[p]
		to = from
		for _, i := range own {
			if take(i) {
				e.list[to] = i
				to++
			}
		}
	} else {
		from = e.free
		to = from
		for k := int32(0); k <= e.elems[p]; k++ {
			part := own[e.elems[p]:]
			if k < e.elems[p] {
				q := own[k]
				part = e.list[e.start[q] : e.start[q]+e.length[q]]
				e.into[q], e.mark[q] = p, 0
			}
			for _, i := range part {
				if take(i) {
					e.list[to] = i
					to++
				}
			}
		}
	}
	e.start[p], e.length[p], e.elems[p] = from, to-from, gone
	e.degree[p] = degree
	return from, to
}

// outside counts for every element about the pivot's variables the rows that it
// holds beside them.
func (e *elimination) outside(from, to int32) {
	for _, i := range e.list[from:to] {
		w := -e.weight[i]
		base := e.stamp - w
		for _, q := range e.list[e.start[i] : e.start[i]+e.elems[i]] {
			switch m := e.mark[q]; {
			case m >= e.stamp:
				e.mark[q] = m - w
			case m != 0:
				e.mark[q] = e.degree[q] + base
			}
		}
	}
}

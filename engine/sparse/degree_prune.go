package sparse

import "math"

// prune rewrites the lists of the pivot's variables: elements that hold nothing
// else are absorbed, variables that the pivot's clique covers are left out, and
// a variable that meets nothing else is eliminated with the pivot. It returns
// the rows so eliminated. Variables are left with a bound on their degree and
// filed by a hash of their lists.
func (e *elimination) prune(p, from, to int32) int32 {
	with := int32(0)
	for _, i := range e.list[from:to] {
		at, end := e.start[i], e.start[i]+e.length[i]
		put := at
		hash, degree := uint32(0), int32(0)
		for _, q := range e.list[at : at+e.elems[i]] {
			m := e.mark[q]
			if m == 0 {
				continue
			}
			if beside := m - e.stamp; beside > 0 {
				degree += beside
				e.list[put] = q
				put++
				hash += uint32(q)
			} else {
				e.into[q], e.mark[q] = p, 0
			}
		}
		elems := put - at + 1
		vars := put
		for k := at + e.elems[i]; k < end; k++ {
			j := e.list[k]
			if w := e.weight[j]; w > 0 {
				degree += w
				e.list[put] = j
				put++
				hash += uint32(j)
			}
		}
		if degree == 0 {
			e.into[i] = p
			with -= e.weight[i]
			e.weight[i], e.elems[i] = 0, gone
			continue
		}
		e.degree[i] = min(e.degree[i], degree)
		// The pivot goes first: the first variable makes room at the end, the
		// first element takes its place.
		e.list[put] = e.list[vars]
		e.list[vars] = e.list[at]
		e.list[at] = p
		e.elems[i], e.length[i] = elems, put-at+1
		e.prev[i] = int32(hash % uint32(len(e.twins)))
	}
	return with
}

// mergeTwins finds variables of the pivot's list whose lists are the same and
// makes one of them.
func (e *elimination) mergeTwins(from, to int32) {
	bucket := e.twins
	for _, i := range e.list[from:to] {
		if e.weight[i] < 0 {
			h := e.prev[i]
			e.next[i] = bucket[h]
			bucket[h] = i
		}
	}
	for _, first := range e.list[from:to] {
		if e.weight[first] == 0 {
			continue
		}
		i := bucket[e.prev[first]]
		bucket[e.prev[first]] = -1
		for ; i >= 0 && e.next[i] >= 0; i = e.next[i] {
			e.mergeInto(i)
		}
	}
}

// mergeInto merges into i what follows it in its class of hash and has the same
// list.
func (e *elimination) mergeInto(i int32) {
	length, elems := e.length[i], e.elems[i]
	for _, x := range e.list[e.start[i]+1 : e.start[i]+length] {
		e.mark[x] = e.stamp
	}
	last := i
	for j := e.next[i]; j >= 0; j = e.next[j] {
		same := e.length[j] == length && e.elems[j] == elems
		if same {
			for _, x := range e.list[e.start[j]+1 : e.start[j]+length] {
				if e.mark[x] != e.stamp {
					same = false
					break
				}
			}
		}
		if same {
			e.into[j] = i
			e.weight[i] += e.weight[j]
			e.weight[j], e.elems[j] = 0, gone
			e.next[last] = e.next[j]
		} else {
			last = j
		}
	}
	e.stamp++
}

// file puts the variables of the pivot's list back under their degrees and
// leaves only them in it. It returns the list's new end.
func (e *elimination) file(p, from, to int32) int32 {
	put := from
	for k := from; k < to; k++ {
		i := e.list[k]
		w := -e.weight[i]
		if w <= 0 {
			continue
		}
		e.weight[i] = w
		e.degree[i] = max(0, min(e.degree[i]+e.degree[p]-w, e.left-w))
		e.push(i)
		e.list[put] = i
		put++
	}
	return put
}

// compact moves all lists that are still needed to the front.
func (e *elimination) compact() {
	for i, n := range e.length {
		if e.alive(int32(i)) && n > 0 {
			// The first of the list and its owner change places, to be found again.
			at := e.start[i]
			e.start[i], e.list[at] = e.list[at], ^int32(i)
		}
	}
	put := int32(0)
	for at := int32(0); at < e.free; {
		owner := e.list[at]
		if owner >= 0 {
			at++
			continue
		}
		i := ^owner
		e.list[put] = e.start[i]
		e.start[i] = put
		copy(e.list[put+1:put+e.length[i]], e.list[at+1:at+e.length[i]])
		put += e.length[i]
		at += e.length[i]
	}
	e.free = put
}

// alive says whether the list of a node is still looked at.
func (e *elimination) alive(i int32) bool {
	return e.weight[i] > 0 && (e.elems[i] != gone || e.mark[i] != 0)
}

// restamp sets the stamp, or begins again where it would run over.
func (e *elimination) restamp(stamp int32) {
	e.stamp = stamp
	if stamp < math.MaxInt32/2 {
		return
	}
	e.stamp = 2
	for i, m := range e.mark {
		e.mark[i] = min(m, 1)
	}
}

// order lists the nodes by pivots, each with what went with it.
func (e *elimination) order() []int32 {
	n := len(e.into)
	rank := make([]int32, n)
	for i := range rank {
		rank[i] = -1
	}
	for k, p := range e.pivots {
		rank[p] = int32(k)
	}
	var list []int32
	for i := range int32(n) {
		if e.weight[i] == 0 && e.into[i] < 0 {
			continue // met too many
		}
		r := i
		for rank[r] < 0 {
			r = e.into[r]
		}
		for k, at := rank[r], i; rank[at] < 0; at = e.into[at] {
			rank[at] = k
		}
		list = append(list, i)
	}
	order := bucket(len(e.pivots), len(list), nil, func(k int32) int32 { return rank[list[k]] })
	for k, at := range order {
		order[k] = list[at]
	}
	return order
}

package sparse

import "slices"

// ordered is a graph whose rows are eliminated in an order.
type ordered struct {
	graph
	perm []int32 // row eliminated k-th
	rank []int32 // when a row is eliminated
}

func (g graph) in(perm []int32) ordered {
	o := ordered{g, perm, make([]int32, len(perm))}
	for k, i := range perm {
		o.rank[i] = int32(k)
	}
	return o
}

// tree returns the elimination tree [Liu1990]: the first column that the
// elimination of each reaches, -1 for a root.
func (o ordered) tree() []int32 {
	n := int32(len(o.perm))
	parent, reach := make([]int32, n), make([]int32, n)
	for i := range n {
		parent[i], reach[i] = -1, -1
		for _, to := range o.of(o.perm[i]) {
			for k := o.rank[to]; k >= 0 && k < i; {
				next := reach[k]
				reach[k] = i
				if next < 0 {
					parent[k] = i
				}
				k = next
			}
		}
	}
	return parent
}

// postorder lists the nodes of a forest, children before parents and each
// subtree in one piece, children in ascending order.
func postorder(parent []int32) []int32 {
	n := int32(len(parent))
	head, next := make([]int32, n+1), make([]int32, n)
	for i := range head {
		head[i] = -1
	}
	for i := n - 1; i >= 0; i-- {
		p := parent[i]
		if p < 0 {
			p = n
		}
		next[i], head[p] = head[p], i
	}
	order, stack := make([]int32, 0, n), make([]int32, 0, 64)
	for root := head[n]; root >= 0; root = next[root] {
		stack = append(stack, root)
		for len(stack) > 0 {
			top := stack[len(stack)-1]
			if child := head[top]; child >= 0 {
				head[top] = next[child]
				stack = append(stack, child)
				continue
			}
			stack = stack[:len(stack)-1]
			order = append(order, top)
		}
	}
	return order
}

// relabel names the nodes of a forest by their place in an order.
func relabel(parent, order []int32) []int32 {
	rank, out := make([]int32, len(order)), make([]int32, len(order))
	for k, i := range order {
		rank[i] = int32(k)
	}
	for k, i := range order {
		out[k] = -1
		if p := parent[i]; p >= 0 {
			out[k] = rank[p]
		}
	}
	return out
}

// counts returns how many rows each column of the factor has, the diagonal
// among them, for an order that is a postorder of its tree
// [GilbertNgPeyton1994].
func (o ordered) counts(parent []int32) []int32 {
	n := int32(len(parent))
	first, count := make([]int32, n), make([]int32, n)
	for i := range first {
		first[i] = -1
	}
	for k := range n {
		if first[k] < 0 {
			count[k] = 1 // a leaf
		}
		for j := k; j >= 0 && first[j] < 0; j = parent[j] {
			first[j] = k
		}
	}
	latest, leaf := make([]int32, n), make([]int32, n)
	set := make([]int32, n)
	for i := range set {
		latest[i], leaf[i], set[i] = -1, -1, int32(i)
	}
	for j := range n {
		if parent[j] >= 0 {
			count[parent[j]]--
		}
		for _, to := range o.of(o.perm[j]) {
			i := o.rank[to]
			if i <= j || first[j] <= latest[i] {
				continue // j is no leaf of what row i meets
			}
			latest[i] = first[j]
			count[j]++
			if before := leaf[i]; before >= 0 {
				q := before
				for set[q] != q {
					q = set[q]
				}
				for before != q {
					before, set[before] = set[before], q
				}
				count[q]--
			}
			leaf[i] = j
		}
		if parent[j] >= 0 {
			set[j] = parent[j]
		}
	}
	for j := range n {
		if p := parent[j]; p >= 0 {
			count[p] += count[j]
		}
	}
	return count
}

// through applies a second order to what the first lists.
func through(first, second []int32) []int32 {
	list := slices.Clone(second)
	for k, i := range second {
		list[k] = first[i]
	}
	return list
}

package sparse

// blocks are the supernodes of a factor: columns that are eliminated together
// as one dense panel, in postorder of their tree.
type blocks struct {
	first  []int32 // the columns of block s are first[s]..first[s+1]-1
	height []int32 // rows of its panel, its own columns among them
	parent []int32 // the block that the elimination of it reaches first, -1
}

// Blocks are merged, at the price of zeros that are stored, up to these widths
// while less than this share of the panel is zeros [AshcraftGrimes1989].
var mergers = [...]struct {
	width int64
	zeros float64
}{{4, 1}, {8, 0.6}, {16, 0.3}, {48, 0.15}, {1 << 40, 0.05}}

// supernodes gathers the columns of a factor by their tree and counts, and
// orders them anew so that each block is in one piece. Parents stay behind their
// children.
func supernodes(parent, count []int32) (blocks, []int32) {
	n := int32(len(parent))
	of := make([]int32, n) // block of a column
	var b blocks
	for j := range n {
		if j == 0 || parent[j-1] != j || count[j-1] != count[j]+1 {
			b.first = append(b.first, j)
			b.height = append(b.height, count[j])
		}
		of[j] = int32(len(b.first) - 1)
	}
	many := int32(len(b.first))
	b.first, b.parent = append(b.first, n), make([]int32, many)
	for s := range many {
		b.parent[s] = -1
		if p := parent[b.first[s+1]-1]; p >= 0 {
			b.parent[s] = of[p]
		}
	}
	return b.merge(of)
}

// merge puts blocks into their parents where that pays; of says the block of
// each column.
func (b blocks) merge(of []int32) (blocks, []int32) {
	many := int32(len(b.height))
	width, filled := make([]int64, many), make([]int64, many)
	into := make([]int32, many)
	for s := range many {
		width[s] = int64(b.first[s+1] - b.first[s])
		filled[s] = trapezium(width[s], int64(b.height[s]))
		into[s] = s
	}
	for s := range many {
		p := b.parent[s]
		if p < 0 {
			continue
		}
		w, h := width[s]+width[p], width[s]+int64(b.height[p])
		all := trapezium(w, h)
		zeros := float64(all-filled[s]-filled[p]) / float64(all)
		for _, m := range mergers {
			if w <= m.width && zeros < m.zeros {
				into[s], width[p], b.height[p] = p, w, int32(h)
				filled[p] += filled[s]
				break
			}
		}
	}
	for s := many - 1; s >= 0; s-- {
		into[s] = into[into[s]] // a parent is behind its children
	}
	return b.regroup(of, into, width)
}

// trapezium is how many places a panel has on and below the diagonal.
func trapezium(width, height int64) int64 { return width*height - width*(width-1)/2 }

// regroup numbers anew the blocks that stand for others and orders the columns
// by them.
func (b blocks) regroup(of, into []int32, width []int64) (blocks, []int32) {
	number := make([]int32, len(into))
	var kept []int32
	for s := range into {
		if into[s] == int32(s) {
			number[s] = int32(len(kept))
			kept = append(kept, int32(s))
		}
	}
	parent := make([]int32, len(kept))
	for k, s := range kept {
		parent[k] = -1
		if p := b.parent[s]; p >= 0 {
			parent[k] = number[into[p]]
		}
	}
	order := postorder(parent)
	rank := make([]int32, len(order))
	out := blocks{make([]int32, 1, len(order)+1), make([]int32, len(order)), make([]int32, len(order))}
	for k, s := range order {
		rank[s] = int32(k)
		out.first = append(out.first, out.first[k]+int32(width[kept[s]]))
		out.height[k] = b.height[kept[s]]
	}
	for k, s := range order {
		out.parent[k] = -1
		if p := parent[s]; p >= 0 {
			out.parent[k] = rank[p]
		}
	}
	columns := bucket(len(order), len(of), nil, func(j int32) int32 { return rank[number[into[of[j]]]] })
	return out, columns
}

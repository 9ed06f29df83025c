package project

// bias is how strongly drawn lists follow the rule: 2 to 5 gave equally good
// searches of large projects, 1 to 3 better ones of small, see
// docs/engine/schedule-search.md.
const bias = 3

// latest is the priority rule: the latest finish that the longest path allows.
func latest(n *net, side int) []int32 {
	s := &n.sides[side]
	value := make([]int32, s.n)
	for j := range value {
		value[j] = n.path - s.tail[j] + s.dur[j]
	}
	return value
}

package schedule

// The windows that are searched alone; docs/engine/schedule.md has what was tried.
const (
	windowShare = 0.3 // children that are their mother with a window drawn anew
	windowShort = 0.2 // shortest window, of the activities
	windowLong  = 0.6 // longest
	windowBias  = 2   // how strongly its order follows the rule
)

// window makes a child of one plan: a window of time is laid anew, its
// activities by latest finish and luck, and what comes before and after in the
// plan keeps its order [DebelsVanhoucke2007]. The plan is the one pushed to the
// end, in which a stretch of the list is a window of time.
func (i *island) window(mother, c *candidate) {
	n := len(c.order)
	length := int(float64(n) * (windowShort + float64((windowLong-windowShort)*i.rng.Float64())))
	length = min(n, max(2, length))
	from := i.rng.IntN(n - length + 1)
	copy(c.order, mother.heir)
	i.redraw.Part(i.breed.graph, i.rules.all[0].value, i.rng, c.order[from:from+length])
}

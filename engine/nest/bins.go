package nest

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"

	"fettle/geom"
)

// insertShare is the share of the budget to lay every piece somewhere at first.
const insertShare = 0.4

// packing is the state of one Solve of hides and sheets. Pieces are first
// inserted one by one, largest first, into the first sheet that takes them;
// then sheets are emptied into the others by trading.
type packing struct {
	*shop
	ctx     context.Context
	options Options
	rand    *rand.Rand
	convex  [][][]geom.Point // parts of each piece; nil where no compaction is tried
	sheets  []sheet          // in the order in which they are opened
	items   []item           // every copy
	units   []unit           // copies that share a sheet
	unitOf  []int            // by copy
	asked   []need           // of each quality
	have    [][]float64      // by container: what it has of each
	now     cutting          // passed the exact check, sheet by sheet
	most    float64          // worth of what was reported last
	judged  int
	told    int // steps, last
	stats   Stats
}

// cutting is where each copy lies.
type cutting struct {
	on    []int  // a sheet, or unlaid
	spots []spot // in the coordinates of the sheet
}

const unlaid = -1

func (c *cutting) clone() cutting { return cutting{slices.Clone(c.on), slices.Clone(c.spots)} }

// holds says whether anything lies on a sheet.
func (c *cutting) holds(sheet int) bool { return slices.Contains(c.on, sheet) }

// lying lists the copies on some sheets.
func (c *cutting) lying(sheets ...int) []int {
	var list []int
	for i, on := range c.on {
		if on != unlaid && slices.Contains(sheets, on) {
			list = append(list, i)
		}
	}
	return list
}

func newPacking(ctx context.Context, s *shop, o Options) (*packing, error) {
	b := &packing{shop: s, ctx: ctx, options: o, rand: rand.New(rand.NewPCG(o.Seed, 1<<32)), items: s.items()}
	b.sheets, b.convex = s.sheets(), convexOf(s.problem)
	b.now = cutting{make([]int, len(b.items)), make([]spot, len(b.items))}
	for i := range b.now.on {
		b.now.on[i] = unlaid
	}
	b.bind()
	return b, b.measure()
}

// pack lays out a problem of kind Bins.
func (b *packing) pack() {
	slices.SortStableFunc(b.sheets, func(p, q sheet) int {
		return cmp.Or(cmp.Compare(p.cost*q.free, q.cost*p.free), cmp.Compare(q.free, p.free))
	})
	slices.SortStableFunc(b.units, func(p, q unit) int { return cmp.Compare(q.size, p.size) })
	b.number()
	b.begin()
	b.insertAll(int(insertShare * float64(b.budget())))
	if b.missing() > 0 {
		b.newTrade(b.all(), b.worth).run(b.budget())
	}
	if b.missing() == 0 {
		b.empty(int((1 - tidyShare) * float64(b.budget())))
	}
}

// begin lays what has a place to begin with.
func (b *packing) begin() {
	for _, at := range b.given {
		i := find(b.items, at)
		b.now.spots[i] = b.spotOf(at)
		b.now.on[i] = slices.IndexFunc(b.sheets, func(s sheet) bool { return s.container == at.Container && s.number == at.Sheet })
	}
	if len(b.given) > 0 {
		b.gained()
	}
}

// all lists all sheets.
func (b *packing) all() []int {
	list := make([]int, len(b.sheets))
	for i := range list {
		list[i] = i
	}
	return list
}

func (b *packing) budget() int { return b.options.Steps * StepEvaluations }

// over says whether a share of the budget is spent, or nobody waits.
func (b *packing) over(until int) bool { return b.judged >= until || b.ctx.Err() != nil }

// used lists the sheets on which something lies.
func (b *packing) used() []int {
	var list []int
	for i := range b.sheets {
		if b.now.holds(i) {
			list = append(list, i)
		}
	}
	return list
}

// missing is how many copies lie nowhere.
func (b *packing) missing() int {
	n := 0
	for _, on := range b.now.on {
		if on == unlaid {
			n++
		}
	}
	return n
}

// stepped tells how many steps are done, now and then; more are those of what
// is not counted yet.
func (b *packing) stepped(more int) {
	if steps := b.judged/StepEvaluations + more; b.options.Stepped != nil && steps >= b.told+SteppedEvery {
		b.told = steps
		b.options.Stepped(steps)
	}
}

// gained reports what is worth more than ever before: by copies laid, or by
// their value in a knapsack. What an exchange puts back is no news.
func (b *packing) gained() {
	worth := float64(len(b.items) - b.missing())
	if b.problem.Kind == Knapsack {
		worth = b.value()
	}
	if worth > b.most {
		b.most = worth
		b.report()
	}
}

// report tells the receiver of the progress.
func (b *packing) report() {
	b.stats.Improved++
	if b.options.Progress == nil {
		return
	}
	r := b.result()
	b.options.Progress(Progress{Steps: r.Stats.Steps, Budget: b.options.Steps, Density: r.Density, Placements: r.Placements})
}

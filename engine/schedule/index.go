package schedule

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// IndexOptions steer Indices.
type IndexOptions struct {
	Runs    int     // 0 means 2,000
	Seed    uint64  // as for Odds
	Workers int     // 0 means 1; the answer does not depend on it
	Bought  []int   // as for Odds
	Top     int     // replay so many groups, of the highest significance, as going well
	Well    float64 // how well: the quantile of their own draws; 0 means 0.1
}

// Index says how a group, most often a task, moves the finish.
type Index struct {
	Group        string
	Critical     float64 // part of the runs in which it lay on the chain that set the finish
	CriticalErr  float64 // its standard error
	Deviation    float64 // standard deviation of its own minutes: work, reserve and wait
	Significance float64 // Critical × Deviation ÷ deviation of the finish [Vanhoucke2010]
	Cruciality   float64 // rank correlation of its own minutes with the finish [Williams1992]
	Won          Minute  // wall-clock minutes by which the 80 % date comes earlier if it goes well; of the top groups
	WonErr       float64 // its standard error, by batches of runs; 0 below 40 runs
}

// Indices plays the plan like Odds and says which groups move its finish, the
// most significant first. A group on every chain whose minutes are certain has
// Critical 1 and Significance 0: nothing to win there. Own minutes are those
// drawn in a run, summed over the group's activities, without what is done. For
// the top groups the same runs are played again with the group going well: its
// own ranges, reserves and late parts at the quantile Well, and its work that
// only a risk calls for left out; common factors, people and all other luck
// stay. Faults are those of Odds.
func Indices(ctx context.Context, p Problem, order []int, o IndexOptions) ([]Index, error) {
	g, err := prepare(p, order, OddsOptions{Runs: o.Runs, Seed: o.Seed, Workers: o.Workers, Bought: o.Bought})
	if err != nil {
		return nil, err
	}
	g.lasted = make([]Minute, g.o.Runs*len(g.names))
	if err := g.play(ctx); err != nil {
		return nil, err
	}
	list := g.indices()
	slices.SortStableFunc(list, func(a, b Index) int { return cmp.Compare(b.Significance, a.Significance) })
	if o.Well == 0 {
		o.Well = 0.1
	}
	for i := range list[:min(o.Top, len(list))] {
		well := *g
		well.finishes, well.lasted = make([]Minute, g.o.Runs), nil
		well.well, well.at = slices.Index(g.names, list[i].Group), o.Well
		if err := well.play(ctx); err != nil {
			return nil, err
		}
		list[i].Won, list[i].WonErr = won(g.finishes, well.finishes)
	}
	return list, nil
}

func (g *game) indices() []Index {
	runs := g.o.Runs
	_, spread := momentsOf(g.finishes)
	finish := ranks(g.finishes)
	var list []Index
	for i, share := range g.shares() {
		lasted := g.lasted[i*runs : (i+1)*runs]
		x := Index{Group: share.Group, Critical: share.Part}
		x.CriticalErr = math.Sqrt(share.Part * (1 - share.Part) / float64(runs))
		if _, x.Deviation = momentsOf(lasted); x.Deviation > 0 && spread > 0 {
			x.Significance = share.Part * x.Deviation / spread
			x.Cruciality = correlation(ranks(lasted), finish)
		}
		list = append(list, x)
	}
	return list
}

// note writes down how long the groups took in run i.
func (h *hand) note(i int) {
	for j := range h.work {
		if h.n.Activities[j].State != Done && !h.skipped[j] {
			h.g.lasted[h.g.group[j]*h.g.o.Runs+i] += h.took(j)
		}
	}
}

// took is the drawn work of an activity at the pace of its people, on average.
func (h *hand) took(j int) Minute {
	heads := h.heads[h.n.first[j]:h.n.first[j+1]]
	if h.pace == nil || len(heads) == 0 {
		return h.work[j]
	}
	sum := 0.0
	for _, p := range heads {
		sum += h.pace[p]
	}
	return rounded(float64(h.work[j]) * sum / float64(len(heads)))
}

// won is how much earlier the 80 % date is in the second of two sets of the
// same runs, and the standard error of it from twenty batches of them.
func won(plain, well []Minute) (Minute, float64) {
	const batches = 20
	saved := func(part int) Minute { // of every so manieth run
		var a, b []Minute
		for i := range plain {
			if part < 0 || i%batches == part {
				a, b = append(a, plain[i]), append(b, well[i])
			}
		}
		slices.Sort(a)
		slices.Sort(b)
		return quantile(a, 0.8) - quantile(b, 0.8)
	}
	if len(plain) < 2*batches {
		return saved(-1), 0
	}
	var each []Minute
	for part := range batches {
		each = append(each, saved(part))
	}
	_, deviation := momentsOf(each)
	return saved(-1), deviation / math.Sqrt(batches-1)
}

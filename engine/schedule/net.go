package schedule

import "math"

// net is a validated problem with its links by activity and its clocks: what
// every generation reads and none writes.
type net struct {
	Problem
	clocks   []clock // by calendar; the last one is the wall clock
	out      [][]int // links that leave an activity, maximum lags apart
	in       [][]int
	sources  []int // activities that wait for no other: facts, and those without links
	pinned   []int
	users    [][]int // activities that may use a person
	holders  [][]int // activities that use a place
	first    []int   // where the chosen people of an activity begin in one flat list
	spots    int     // length of that list
	maxLags  []int   // links that are maximum lags
	optional []bool  // activities that only a remedy or a risk calls for
	raw      int     // links of the problem; those after are implied
	windows  []window
	closing  [][]int  // by activity, the windows it has to start in; nil without windows
	extra    []shifts // people with overtime that may be bought
	who      [][]int  // by activity, the people who may do it
	crew     []int    // by activity, its crew, or -1; nil without crews
	crews    int
	dirty    [][]int // by activity, the clashes in which it makes dust; nil without clashes
	clean    [][]int // by activity, the clashes in which it needs clean air
	blocks   []block // chains that are placed as one
	part     []int   // by activity, its block, or -1; nil without blocks
	gate     []int   // by link, the block whose first member waits for it too, or -1
	groups   []int   // by activity, the number of its group; nil where nobody is alike
	scarce   []int   // by person, the open activities that nobody else can do
}

func compile(p Problem) (*net, error) {
	if err := validate(&p); err != nil {
		return nil, err
	}
	n := netOf(p)
	n.bind()
	return n, nil
}

// netOf makes the net of a problem that is well formed; there may be no plan.
func netOf(p Problem) *net {
	n := &net{Problem: p, raw: len(p.Links)}
	n.mend()
	for _, c := range p.Calendars {
		n.clocks = append(n.clocks, newClock(c))
	}
	n.clocks = append(n.clocks, wall())
	n.connect()
	n.share()
	n.opt()
	n.sell()
	n.vent()
	return n
}

// connect sorts the links. What leads into a fact is history and left out.
func (n *net) connect() {
	n.out, n.in = make([][]int, len(n.Activities)), make([][]int, len(n.Activities))
	for i, l := range n.Links {
		switch {
		case l.Max:
			n.maxLags = append(n.maxLags, i)
		case n.Activities[l.To].State == Open:
			n.out[l.From], n.in[l.To] = append(n.out[l.From], i), append(n.in[l.To], i)
		}
	}
	for j := range n.Activities {
		if len(n.in[j]) == 0 {
			n.sources = append(n.sources, j)
		}
	}
}

// share lists who may meet whom on a person or a place.
func (n *net) share() {
	n.match()
	n.users, n.holders = make([][]int, len(n.People)), make([][]int, len(n.Places))
	n.first = make([]int, len(n.Activities)+1)
	for j := range n.Activities {
		a := &n.Activities[j]
		n.first[j] = n.spots
		if a.State == Done {
			continue
		}
		n.spots += n.heads(j)
		if a.Pinned && a.State == Open {
			n.pinned = append(n.pinned, j)
		}
		for _, p := range n.who[j] {
			n.users[p] = append(n.users[p], j)
		}
		for _, u := range a.Uses {
			n.holders[u.Place] = append(n.holders[u.Place], j)
		}
	}
	n.first[len(n.Activities)] = n.spots
}

// opt marks what is not done unless something calls for it.
func (n *net) opt() {
	n.optional = make([]bool, len(n.Activities))
	for _, r := range n.Remedies {
		n.optional[r.Activity] = true
	}
	for _, r := range n.Risks {
		for _, j := range r.Activities {
			n.optional[j] = true
		}
	}
}

// heads is how many people an activity takes at once.
func (n *net) heads(j int) int { return headsOf(&n.Activities[j]) }

func headsOf(a *Activity) int {
	if a.Kind != Labour && a.Kind != Session {
		return 0
	}
	return max(1, a.Heads)
}

// clock is the clock of a calendar index; -1 is the wall clock.
func (n *net) clock(calendar int) *clock {
	if calendar < 0 {
		calendar = len(n.clocks) - 1
	}
	return &n.clocks[calendar]
}

// arrival is when a link lets its end start, given the times of its beginning.
func (n *net) arrival(link int, start, finish Minute) Minute {
	l := &n.Links[link]
	from := finish
	if l.FromStart {
		from = start
	}
	return n.clock(l.Calendar).after(from, l.Lag)
}

// rounded turns a drawn duration into minutes. The explicit conversion keeps
// fused arithmetic from giving another minute on another machine.
func rounded(x float64) Minute {
	return Minute(min(math.Floor(float64(x)+0.5), float64(limit)))
}

package schedule

// hand is a worker of Odds: a run and what it needs to draw. It allocates when
// it is made and never while it plays.
type hand struct {
	*run
	g        *game
	drawn    []float64 // logarithms of the common factors of this run
	struck   []bool    // risks of this run
	critical []int     // runs by group
	met      []int     // by group: the last run it was counted in, plus one
}

func newHand(g *game, critical []int) *hand {
	h := &hand{run: newRun(g.n), g: g, drawn: make([]float64, len(g.factors)), struck: make([]bool, len(g.risks)), critical: critical, met: make([]int, len(critical))}
	h.list(g.order)
	if g.ranges.pace != nil {
		h.pace = make([]float64, len(g.people))
	}
	if len(g.o.Bought) > 0 {
		h.buy(g.bought())
	}
	if g.n.Absence > 0 {
		for p, base := range h.clocks {
			size := len(base.win)
			h.clocks[p] = clock{base: &base, win: make([]Window, size), sum: make([]Minute, size), kept: make([]int32, size+1)}
		}
	}
	return h
}

// play draws and generates run i and writes down what it came to.
func (h *hand) play(i int) {
	l := luckOf(h.g.o.Seed, i)
	h.draw(l)
	h.away(l)
	h.parallel()
	h.g.finishes[i] = h.makespan()
	if h.g.lasted != nil {
		h.note(i)
	}
	if h.g.starts != nil {
		for j, t := range h.start {
			h.g.starts[j*h.g.o.Runs+i] = t
		}
	}
	for j := h.lastOne(); j >= 0; j = h.binding(j).Activity {
		if group := h.g.group[j]; h.met[group] != i+1 {
			h.met[group] = i + 1
			h.critical[group]++
		}
	}
}

// draw fills what this run meets: factors, paces, risks, and the work and the
// release of every activity that is not done. What is multiplied is drawn by
// its logarithm.
func (h *hand) draw(l luck) {
	r := &h.g.ranges
	for f := range h.drawn {
		h.drawn[f] = r.common[f].log(l.uniform(h.g.factors[f]))
	}
	for p := range r.pace {
		h.pace[p] = exp(r.pace[p].log(l.uniform(h.g.people[p].pace)))
	}
	h.strike(l)
	for j := range h.n.Activities {
		if a := &h.n.Activities[j]; a.State != Done { // what is skipped may be called for yet
			h.work[j], h.release[j] = h.lasts(j, l), a.Release
			if a.Late.given() {
				h.release[j] += rounded(a.Late.at(h.share(j, l, h.g.keys[j].late)))
			}
		}
	}
}

// strike lets risks happen: an activity that they call for is done when all of
// its risks strike.
func (h *hand) strike(l luck) {
	for i, k := range h.g.risks {
		h.struck[i] = l.bits(k) < h.g.ranges.chance[i]
	}
	for _, c := range h.g.ranges.calls {
		h.skipped[c.activity] = h.g.group[c.activity] == h.g.well
		for _, risk := range c.risks {
			h.skipped[c.activity] = h.skipped[c.activity] || !h.struck[risk]
		}
	}
}

// share is the uniform draw behind something of an activity's own.
func (h *hand) share(j int, l luck, k drawKey) float64 {
	if h.g.group[j] == h.g.well {
		return h.g.at
	}
	return l.uniform(k)
}

// lasts draws the work of an activity.
func (h *hand) lasts(j int, l luck) Minute {
	a, k := &h.n.Activities[j], &h.g.keys[j]
	x := float64(a.Work)
	if a.Begun.Spent > 0 {
		sum := 0.0
		for _, f := range a.Factors {
			sum += h.drawn[f]
		}
		x = a.Begun.left(h.g.ranges.own[j], exp(sum), h.share(j, l, k.work))
	} else if a.Work > 0 {
		sum := 0.0
		if own := h.g.ranges.own[j]; own != (Lognormal{}) {
			sum = own.log(h.share(j, l, k.work))
		}
		for _, f := range a.Factors {
			sum += h.drawn[f]
		}
		x *= exp(sum)
	}
	if a.Extra.given() {
		x = float64(x) + a.Extra.at(h.share(j, l, k.extra))
	}
	return rounded(x)
}

// away cuts the days from the calendars on which a person does not come. The
// draw belongs to the person and the day, whatever the calendar looks like.
func (h *hand) away(l luck) {
	if h.n.Absence == 0 {
		return
	}
	gone := uint64(h.n.Absence * (1 << 53)) // below it, of 53 random bits
	for p := range h.clocks {
		own := &h.clocks[p]
		h.cut(own, mix(uint64(l)^uint64(h.g.people[p].away)), gone)
	}
}

// cut keeps the windows of a clock's base from now on, but those of days drawn
// below gone.
func (h *hand) cut(own *clock, key, gone uint64) {
	from := own.base.index(h.now)
	win, sum := own.win[:len(own.base.win)], own.sum[:len(own.base.win)]
	clear(own.kept[:from])
	left, total := 0, Minute(0)
	for i, w := range own.base.win[from:] {
		own.kept[from+i] = int32(left)
		if mix(key^uint64(w.From/1440))>>11 < gone {
			continue
		}
		win[left], sum[left] = w, total
		total += w.To - w.From
		left++
	}
	own.kept[len(own.base.win)] = int32(left)
	own.win, own.sum = win[:left], sum[:left]
}

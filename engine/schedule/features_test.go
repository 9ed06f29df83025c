package schedule

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// generated is the plan of one generation, checked, without search. All
// overtime is bought.
func generated(t testing.TB, p Problem, order []int, serial bool) Result {
	t.Helper()
	res, err := generate(p, order, serial)
	if err != nil {
		t.Fatalf("serial %v: %v", serial, err)
	}
	return res
}

func generate(p Problem, order []int, serial bool) (Result, error) {
	n, err := compile(p)
	if err != nil {
		return Result{}, err
	}
	s := newSearch(n, Options{Order: order, Serial: serial})
	i := s.islands[0]
	c := newCandidate(n)
	if copy(c.order, natural(len(p.Activities))); order != nil {
		copy(c.order, order)
	}
	c.serial = serial
	for w := range c.bought {
		c.bought[w] = true
	}
	i.limit = i.used + 1
	i.generate(c)
	i.best.copy(c)
	res := s.result()
	return res, Check(p, res)
}

// features is scenario with every rule of a shop put in that fits.
func features(roll func(n int) int) Problem {
	p := scenario(roll)
	for k := range roll(3) {
		p.Activities = append(p.Activities, someChain(&p, k, roll)...)
	}
	for i := range len(p.Links) {
		if l := p.Links[i]; l.Max && p.Activities[l.To].State == Open && roll(2) == 0 {
			p.Links = append(p.Links, Link{From: l.From, To: l.To, Calendar: -1, FromStart: l.FromStart})
			addRemedy(&p, i, roll)
		}
	}
	for c := range roll(3) {
		k := Clash{Settle: Minute(roll(4) * 200), Calendar: roll(len(p.Calendars)+1) - 1}
		for j := range p.Activities {
			switch side := roll(4); {
			case p.Activities[j].Kind == Milestone:
			case side == c%2:
				k.Dirty = append(k.Dirty, j)
			case side == 2:
				k.Clean = append(k.Clean, j)
			}
		}
		p.Clashes = append(p.Clashes, k)
	}
	for j := range p.Activities {
		a := &p.Activities[j]
		a.Alike = roll(3) == 0
		if roll(4) == 0 && headsOf(a) > 0 {
			if a.Crew = "crew"; checkCrews(&p) != nil || checkHours(&p) != nil {
				a.Crew = ""
			}
		}
	}
	someOvertime(&p, roll)
	someRisk(&p, roll)
	return p
}

// someChain is coats with flash times between them, each with a window.
func someChain(p *Problem, k int, roll func(n int) int) []Activity {
	var chain []Activity
	first := len(p.Activities)
	for i := range 2 + roll(3) {
		a := Activity{ID: "c" + strconv.Itoa(k) + "." + strconv.Itoa(i), Kind: Session, Work: Minute(20 + roll(4)*30)}
		for w := range p.People {
			if w == 0 || roll(2) == 0 {
				a.Who = append(a.Who, w)
			}
		}
		if roll(3) == 0 {
			a = Activity{ID: a.ID, Kind: Passive, Work: Minute(10 + roll(5)*40), Calendar: -1}
		}
		if len(p.Places) > 0 && roll(2) == 0 {
			a.Uses = []Use{{0, 1}}
		}
		if i > 0 {
			gap := Minute(roll(4) * 15)
			p.Links = append(p.Links,
				Link{From: first + i - 1, To: first + i, Lag: gap, Calendar: -1},
				Link{From: first + i - 1, To: first + i, Lag: gap + Minute(roll(5)*60), Calendar: -1, Max: true})
		}
		if first > 0 && roll(3) == 0 {
			p.Links = append(p.Links, Link{From: roll(first), To: first + i, Lag: Minute(roll(3) * 100), Calendar: -1})
		}
		chain = append(chain, a)
	}
	if roll(4) == 0 && chain[0].Kind == Session {
		chain[0].State, chain[0].Start = Started, p.Now/2
	}
	return chain
}

func addRemedy(p *Problem, link int, roll func(n int) int) {
	a := Activity{ID: "r" + strconv.Itoa(link), Kind: Kind(roll(4))}
	if a.Kind != Milestone {
		a.Work = Minute(roll(5) * 20)
	}
	if headsOf(&a) > 0 {
		a.Who = []int{roll(len(p.People))}
	}
	if roll(3) == 0 { // it waits for something that the window does not lead to
		p.Links = append(p.Links, Link{From: p.Links[link].From, To: len(p.Activities), Lag: 60, Calendar: -1})
	}
	p.Remedies = append(p.Remedies, Remedy{Link: link, Activity: len(p.Activities)})
	p.Activities = append(p.Activities, a)
}

func someOvertime(p *Problem, roll func(n int) int) {
	for range roll(4) {
		from := Minute(roll(20))*day + Minute(roll(4))*300
		p.Overtime = append(p.Overtime, Overtime{Person: roll(len(p.People)), Window: Window{from, from + 180}, Price: int64(roll(3) * 100)})
		if checkOvertime(p) != nil {
			p.Overtime = p.Overtime[:len(p.Overtime)-1]
		}
	}
}

func someRisk(p *Problem, roll func(n int) int) {
	for j := range p.Activities {
		if p.Activities[j].State == Open && roll(8) == 0 {
			p.Risks = append(p.Risks, Risk{ID: strconv.Itoa(j), Chance: 0.5, Activities: []int{j}})
			if checkOptional(p) != nil || checkRemedies(p) != nil {
				p.Risks = p.Risks[:len(p.Risks)-1]
			}
		}
	}
}

// Every small problem with every rule in it can be worked by both generations,
// and played.
func TestGenerations_KeepEveryRule(t *testing.T) {
	sound, remedied, blocks, kept := 0, 0, 0, 0
	for seed := range uint64(2000) {
		roll := rand.New(rand.NewPCG(seed, 9)).IntN
		p := features(roll)
		order := shuffled(len(p.Activities), roll)
		for _, serial := range []bool{false, true} {
			res, err := generate(p, order, serial)
			if err != nil {
				if strings.Contains(err.Error(), "schedule rule") {
					break
				}
				t.Fatalf("seed %d, serial %v: %v", seed, serial, err)
			}
			sound++
			if res.Status == OutOfHours {
				t.Fatalf("seed %d, serial %v: out of hours", seed, serial)
			}
			remedied += len(res.Remedies)
			if n, _ := compile(p); !serial {
				for _, v := range n.blocks {
					if blocks++; !v.never {
						kept++
					}
				}
			}
			checkChain(failer{t, seed, serial}, p, res)
		}
		if seed%10 == 0 && slices.ContainsFunc([]error{validate(&p)}, func(e error) bool { return e == nil }) {
			sameOdds(t, p, order)
		}
	}
	t.Logf("%d plans, %d remedies, %d blocks of which %d fit", sound, remedied, blocks, kept)
}

// failer says which problem it was.
type failer struct {
	t      *testing.T
	seed   uint64
	serial bool
}

func (f failer) Fatalf(format string, args ...any) {
	f.t.Helper()
	f.t.Fatalf("seed %d, serial %v: "+format, append([]any{f.seed, f.serial}, args...)...)
}

// A played run keeps the same rules with the durations it drew: nobody in two
// places, no place overfull, dust apart from paint, crews together, links kept
// and nothing left over that could be done.
func TestOdds_KeepEveryRule(t *testing.T) {
	runs := 0
	for seed := range uint64(600) {
		roll := rand.New(rand.NewPCG(seed, 9)).IntN
		p := features(roll)
		order := shuffled(len(p.Activities), roll)
		for j := range p.Activities {
			p.Activities[j].Range = Spread{0.6, 1, 2.5}
		}
		for h := range p.People {
			p.People[h].Range = Spread{0.8, 1, 1.2}
		}
		n, err := compile(p)
		if err != nil {
			continue
		}
		g := newGame(n, order, OddsOptions{Runs: 5, Seed: seed})
		g.critical = [][]int{make([]int, len(g.names))}
		h := newHand(g, g.critical[0])
		for i := range 5 {
			h.play(i)
			runs++
			playedRun(failer{t, seed, false}, h.run)
		}
	}
	t.Logf("%d runs", runs)
}

func playedRun(t failer, r *run) {
	n := r.n
	far := Minute(0) // what is put off to the end of the calendars, day 60, may stay undone
	for j, s := range r.start {
		if s < Never {
			far = max(far, s)
		}
		if s < Never && r.finish[j] >= Never {
			far = Never
		}
	}
	for j := range n.Activities {
		if r.skipped[j] {
			continue
		}
		if r.finish[j] >= Never && far < 40*day {
			t.Fatalf("%s is never done", n.Activities[j].ID)
		}
		for _, l := range n.in[j] {
			if k := n.Links[l]; !r.skipped[k.From] && r.start[j] < Never && r.start[j] < n.arrival(l, r.start[k.From], r.finish[k.From]) {
				t.Fatalf("%s starts %d, before link %d lets it", n.Activities[j].ID, r.start[j], l)
			}
		}
		for i := range j {
			if !r.skipped[i] && max(r.finish[i], r.finish[j]) < Never {
				playedPair(t, r, i, j)
			}
		}
	}
	for q := range n.Places {
		for _, j := range n.holders[q] {
			if !r.skipped[j] && r.finish[j] > r.resume[j] && r.finish[j] < Never && r.usage(q, r.resume[j]) > n.Places[q].Units {
				t.Fatalf("%s is overfull at %d", n.Places[q].ID, r.resume[j])
			}
		}
	}
}

func playedPair(t failer, r *run, i, j int) {
	a, b := &r.n.Activities[i], &r.n.Activities[j]
	if a.State == Done || b.State == Done {
		return
	}
	for _, p := range r.chosen(i) {
		if r.chose(j, p) && r.resume[i] < r.until(p, j, r.resume[j]) && r.resume[j] < r.until(p, i, r.resume[i]) {
			t.Fatalf("person %d is at %s and %s", p, a.ID, b.ID)
		}
	}
	if a.Crew != "" && a.Crew == b.Crew && !slices.Equal(slices.Sorted(slices.Values(r.chosen(i))), slices.Sorted(slices.Values(r.chosen(j)))) {
		t.Fatalf("crew %s is %v and %v", a.Crew, r.chosen(i), r.chosen(j))
	}
	if r.n.dirty == nil || r.apart(i, j) || r.apart(j, i) {
		return
	}
	for c := range r.n.Clashes {
		d, q := i, j
		if has(r.n.clean[i], c) {
			d, q = j, i
		}
		if !has(r.n.dirty[d], c) || !has(r.n.clean[q], c) {
			continue
		}
		if r.resume[d] < r.finish[q] && r.resume[q] < r.finish[d] {
			t.Fatalf("%s makes dust while %s runs", r.n.Activities[d].ID, r.n.Activities[q].ID)
		}
		if r.n.Activities[q].State == Open && r.finish[d] <= r.resume[q] && r.resume[q] < r.n.settled(c, r.finish[d]) {
			t.Fatalf("%s starts before the dust of %s has settled", r.n.Activities[q].ID, r.n.Activities[d].ID)
		}
	}
}

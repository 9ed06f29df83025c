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
	sound, late, remedied := 0, 0, 0
	for seed := range uint64(2500) {
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
				late++
			}
			remedied += len(res.Remedies)
			checkChain(failer{t, seed, serial}, p, res)
		}
		if seed%10 == 0 && slices.ContainsFunc([]error{validate(&p)}, func(e error) bool { return e == nil }) {
			sameOdds(t, p, order)
		}
	}
	t.Logf("%d plans, %d out of hours, %d remedies", sound, late, remedied)
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

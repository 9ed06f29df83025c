package schedule

import (
	"bytes"
	"context"
	"encoding/json"
	"math/rand/v2"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// scenario makes a small sound problem of every kind of thing the engine
// knows; roll(n) is a choice below n.
func scenario(roll func(n int) int) Problem {
	p := Problem{Now: Minute(roll(3) * 700), Absence: float64(roll(2)) * 0.1}
	for range 1 + roll(3) {
		p.Calendars = append(p.Calendars, someCalendar(roll))
	}
	for i := range 1 + roll(4) {
		p.People = append(p.People, Person{ID: "p" + strconv.Itoa(i), Calendar: roll(len(p.Calendars))})
	}
	for i := range roll(3) {
		p.Places = append(p.Places, Place{ID: "q" + strconv.Itoa(i), Units: 1 + roll(3)})
	}
	p.Factors = []Factor{{ID: "f", Range: Spread{0.8, 1, 1.5}}}
	if roll(2) == 0 {
		p.Goal = p.Now + Minute(roll(10*day))
	}
	for i := range 1 + roll(12) {
		p.Activities = append(p.Activities, someActivity(&p, i, roll))
		for range roll(3) {
			if i > 0 {
				p.Links = append(p.Links, Link{
					From: roll(i), To: i, Lag: Minute(roll(4) * 300), Calendar: roll(len(p.Calendars)+1) - 1,
					FromStart: roll(4) == 0, Max: roll(4) == 0,
				})
			}
		}
	}
	return p
}

func someCalendar(roll func(n int) int) Calendar {
	c := Calendar{}
	length := Minute(240 + roll(4)*120)
	for d := range Minute(60) {
		if roll(5) > 0 || d > 30 && d%2 == 0 {
			c = append(c, Window{d*day + 480, d*day + 480 + length})
		}
	}
	return c
}

func someActivity(p *Problem, i int, roll func(n int) int) Activity {
	a := Activity{ID: "a" + strconv.Itoa(i), Group: "g" + strconv.Itoa(i/2), Kind: Kind(roll(4))}
	switch a.Kind {
	case Labour:
		a.Work = Minute(roll(20) * 60)
		a.Range, a.Factors = Spread{0.9, 1, 1.4}, []int{0}
	case Session:
		a.Work = Minute(roll(3) * 60)
	case Passive:
		a.Work, a.Calendar = Minute(roll(20)*100), roll(len(p.Calendars)+1)-1
		a.Extra = Spread{0, 60, 120}
	}
	if a.Kind == Labour || a.Kind == Session {
		first := roll(len(p.People))
		for k := range 1 + roll(len(p.People)) {
			a.Who = append(a.Who, (first+k)%len(p.People))
		}
		a.Heads = roll(min(3, len(a.Who)+1))
	}
	if a.Kind != Milestone && len(p.Places) > 0 && roll(2) == 0 {
		q := roll(len(p.Places))
		a.Uses = []Use{{q, 1 + roll(p.Places[q].Units)}}
	}
	if a.Release = Minute(roll(4) * 900); roll(6) == 0 {
		a.Pinned = true
	}
	someFact(p, &a, roll)
	return a
}

func someFact(p *Problem, a *Activity, roll func(n int) int) {
	switch roll(8) {
	case 0:
		a.State, a.Start, a.Finish = Done, p.Now/2, p.Now
	case 1:
		a.State, a.Start = Started, p.Now/2
	}
}

// shuffled is a priority list.
func shuffled(n int, roll func(n int) int) []int {
	order := natural(n)
	for i := n - 1; i > 0; i-- {
		k := roll(i + 1)
		order[i], order[k] = order[k], order[i]
	}
	return order
}

// playScenario solves, checks and plays one problem and says what is wrong.
func playScenario(t interface{ Fatalf(string, ...any) }, p Problem, order []int) {
	ctx := context.Background()
	for _, budget := range []int{0, 30} {
		o := Options{Schedules: budget, Order: order, Seed: 7}
		res, err := Solve(ctx, p, o)
		if err != nil {
			t.Fatalf("budget %d: %v", budget, err)
		}
		again, _ := Solve(ctx, p, o)
		if !bytes.Equal(encode(res), encode(again)) {
			t.Fatalf("budget %d: two answers to one question", budget)
		}
		if res.Makespan < res.LowerBound {
			t.Fatalf("makespan %d below its bound %d", res.Makespan, res.LowerBound)
		}
		checkChain(t, p, res)
	}
	serialOnly(t, p, order)
	sameOdds(t, p, order)
}

func encode(v any) []byte {
	text, _ := json.Marshal(v)
	return text
}

// checkChain wants every step to begin where its cause let go or later, and
// the chain to lead back to a cause outside the network.
func checkChain(t interface{ Fatalf(string, ...any) }, p Problem, res Result) {
	if res.Status == OutOfHours {
		return
	}
	steps := Chain(p, res)
	for i, s := range steps {
		if s.Closed < 0 || s.Lag < 0 {
			t.Fatalf("step %d of the chain waits %d and %d minutes", i, s.Lag, s.Closed)
		}
	}
	if len(steps) == 0 { // all of it is left out
		return
	}
	if last := steps[len(steps)-1]; last.Binding.Activity != -1 {
		t.Fatalf("the chain stops at activity %d, which waits for %d", last.Activity, last.Binding.Activity)
	}
}

// serialOnly checks the serial generation, which Solve shows only when it wins.
func serialOnly(t interface{ Fatalf(string, ...any) }, p Problem, order []int) {
	if _, err := Solve(context.Background(), p, Options{Order: order, Serial: true}); err != nil {
		t.Fatalf("serial: %v", err)
	}
}

func sameOdds(t interface{ Fatalf(string, ...any) }, p Problem, order []int) {
	var first []byte
	for workers := 1; workers <= 3; workers++ {
		o, err := Odds(context.Background(), p, order, OddsOptions{Runs: 40, Seed: 3, Workers: workers, Starts: true})
		if err != nil {
			t.Fatalf("odds: %v", err)
		}
		text := append(encode(o), encode(o.starts)...)
		if first == nil {
			first = text
		}
		if !bytes.Equal(first, text) {
			t.Fatalf("%d workers give other odds", workers)
		}
	}
}

func TestSolve_AnySmallProblem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		roll := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "roll") }
		p := scenario(roll)
		playScenario(t, p, shuffled(len(p.Activities), roll))
	})
}

func FuzzSolve(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		roll := rand.New(rand.NewPCG(seed, 1)).IntN
		p := scenario(roll)
		playScenario(t, p, shuffled(len(p.Activities), roll))
	})
}

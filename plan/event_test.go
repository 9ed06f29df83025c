package plan

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
)

// risky is the small build with something that may happen to its metal.
func risky(e build.Event) *build.Build {
	b := small()
	e.ID, e.What, e.Task = "E1", "rot behind the seam", "T1"
	b.Risk.Events = []build.Event{e}
	return b
}

func input(p *Plan, name string) string {
	for _, in := range p.Odds.Figure.Inputs {
		if in.Name == name {
			return in.Value + "; " + in.Note
		}
	}
	return ""
}

// TestEvent_ReachesTheOdds: with chance 1 the 16 h of metal are worked, or its
// own hours, behind it in every played build, and never in the plain plan.
func TestEvent_ReachesTheOdds(t *testing.T) {
	for what, tt := range map[string]struct {
		event build.Event
		later int
	}{
		"hours of their own":           {build.Event{Chance: 1, Work: []build.Leg{{Trade: "MW", Hours: 16 * h}}}, 2},
		"hours and a wait":             {build.Event{Chance: 1, Work: []build.Leg{{Trade: "MW", Hours: 8 * h}}, Days: 2}, 3},
		"the task once more":           {build.Event{Chance: 1}, 2},
		"the task twice more":          {build.Event{Chance: 1, Times: 2}, 4},
		"not judged yet":               {build.Event{Work: []build.Leg{{Trade: "MW", Hours: 16 * h}}}, 0},
		"it happened, and is recorded": {build.Event{Chance: 1, State: build.Happened}, 0},
	} {
		b := risky(tt.event)
		p := made(t, b, monday.At(8, 0))
		plain := made(t, small(), monday.At(8, 0))
		if p.Dates.Plain != plain.Dates.Plain || DaysBetween(b, p.Dates.Plain, p.Dates.P50) != tt.later {
			t.Errorf("%s: plain %s and half by %s, want %s and %d working days later", what, p.Dates.Plain, p.Dates.P50, plain.Dates.Plain, tt.later)
		}
	}
}

// TestEvent_IsNamed in the working of the chance and among what moves the date.
func TestEvent_IsNamed(t *testing.T) {
	p := made(t, risky(build.Event{Chance: 0.5, Times: 3, Source: "the owner's guess"}), monday.At(8, 0))
	if got := input(p, "E1 rot behind the seam"); !strings.HasPrefix(got, "50 in 100; the owner's guess; in the builds where it happens ") || !strings.Contains(got, "later on the mean") {
		t.Errorf("the working says %q", got)
	}
	if !slices.ContainsFunc(p.Movers, func(m Mover) bool { return m.Event == "E1" && strings.Contains(m.Says, "happens in ") }) {
		t.Errorf("movers %+v, want the event", p.Movers)
	}
	if got := input(made(t, risky(build.Event{}), monday.At(8, 0)), "E1 rot behind the seam"); !strings.HasPrefix(got, "not judged yet") {
		t.Errorf("the working says %q", got)
	}
}

// TestEvent_RecordsMoveTheGuess: three in ten, told by five builds of which one
// had it: (10 × 0.3 + 1) ÷ 15.
func TestEvent_RecordsMoveTheGuess(t *testing.T) {
	b := risky(build.Event{Chance: 0.3})
	past := rates.Past{Events: []rates.EventPast{{What: "rot behind the seam", Happened: true}, {What: "something else", Happened: true}}}
	for range 4 {
		past.Events = append(past.Events, rates.EventPast{What: "rot behind the seam"})
	}
	n := network(b, takeOffs(b, rates.Default()), []rates.Past{past}, monday.At(8, 0))
	near(t, "chance", n.problem.Risks[0].Chance, 4.0/15)
}

// onOrder is the small build whose metal waits for a hinge due on the Wednesday.
func onOrder(records ...int) *build.Build {
	b := small()
	b.Risk.Late = build.Judged{Range: build.Span{High: 10}}
	b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Task: "T1", Supplier: "smithy", State: build.Promised, Ordered: monday - 7, Promised: monday + 2}}
	for i, days := range records {
		b.Parts = append(b.Parts, build.Part{ID: build.PartID("R" + string(rune('0'+i))), Quantity: 1, Task: "T1", Supplier: "smithy", State: build.In,
			Ordered: monday - 21, Promised: monday - 14, Arrived: AddDays(b, monday-14, days)})
	}
	return b
}

func gateOf(b *build.Build) schedule.Activity {
	n := network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0))
	i := slices.IndexFunc(n.problem.Activities, func(a schedule.Activity) bool { return a.ID == "T1"+partsGate })
	if i < 0 {
		return schedule.Activity{}
	}
	return n.problem.Activities[i]
}

// TestLate_ByHand: ten working days as judged are fourteen of the calendar; ten
// records of parts on the day take half of it away.
func TestLate_ByHand(t *testing.T) {
	const day = 1440
	if a := gateOf(onOrder()); a.Release != 2*day+dayFrom || a.Late != (schedule.Spread{High: 14 * day}) {
		t.Errorf("as judged: %d, %+v", a.Release, a.Late)
	}
	if a := gateOf(onOrder(0, 0, 0, 0, 0, 0, 0, 0, 0, 0)); a.Late != (schedule.Spread{High: 7 * day}) {
		t.Errorf("after ten on the day: %+v, want five working days", a.Late)
	}
	if a := gateOf(onOrder(0, 0, 0, 0, 0, 0, 0, 0, 4, 4)); a.Late.High != 9*day { // half of 10 and 4 is 7 working days
		t.Errorf("after two of ten were four days late: %+v", a.Late)
	}
	b := onOrder()
	b.Risk.Late = build.Judged{}
	if a := gateOf(b); a.ID != "" {
		t.Errorf("not judged yet: %+v, want parts as before", a)
	}
	if p := made(t, b, monday.At(8, 0)); p.Dates.P90 != p.Dates.Plain || !strings.HasPrefix(input(p, "parts late"), notJudged) {
		t.Errorf("not judged yet: 90 %% by %s, plain %s", p.Dates.P90, p.Dates.Plain)
	}
	if p := made(t, onOrder(), monday.At(8, 0)); p.Dates.P90 <= p.Dates.Plain || input(p, "parts late") == "" {
		t.Errorf("ten days late at worst: 90 %% by %s, plain %s", p.Dates.P90, p.Dates.Plain)
	}
}

// TestLate_OverdueComesLaterYet: what should have come does not come this
// morning in every played build.
func TestLate_OverdueComesLaterYet(t *testing.T) {
	b := onOrder()
	b.Parts[0].Promised = monday - 3                                    // the Friday before: one working day
	if a := gateOf(b); a.Release != dayFrom || a.Late.High != 11*1440 { // ten from the Friday are on Friday the 13th
		t.Errorf("a day late: %d, %+v", a.Release, a.Late)
	}
	b.Parts[0].Promised = monday - 40
	if a := gateOf(b); a.Late.High != 14*1440 {
		t.Errorf("later than anybody thought: %+v, want the range anew", a.Late)
	}
}

// TestHands_CountSpreadOnce: without records the whole range of a piece of work
// is what was stated; records move a person by what they differ from others.
func TestHands_CountSpreadOnce(t *testing.T) {
	b := learning(0, 0, "metal")
	b.Risk.People = build.Judged{Range: build.Span{Low: 0.9, Mode: 1, High: 1.1}}
	whole := func(b *build.Build) (mu, sigma float64) {
		n := network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0))
		for _, a := range n.problem.Activities {
			if a.ID == "T1/MW" {
				p := n.problem.People[a.Who[0]].Learned
				return a.Learned.Mu + p.Mu, math.Hypot(a.Learned.Sigma, p.Sigma)
			}
		}
		t.Fatal("no metal")
		return 0, 0
	}
	stated := schedule.Spread(metalRange.Factor).Lognormal()
	mu, sigma := whole(b)
	near(t, "median without records", mu, stated.Mu)
	near(t, "deviation without records", sigma, stated.Sigma)
	alone := learning(6, 14*h, "metal")
	alone.Risk.People = b.Risk.People
	if mo := handOf(alone, 0); len(mo.records) != 0 {
		t.Errorf("who did all of it is compared with nobody: %+v", mo)
	}
	for i := range 3 { // three of the six were Wyn's, in two thirds of the time
		alone.Tasks[2+i].Legs[0].Trade = "WA"
		alone.Hours[i].Person, alone.Hours[i].Worked = "wyn", 14*h*2/3
	}
	mo, wyn, prior := handOf(alone, 0), handOf(alone, 1), schedule.Spread(b.Risk.People.Range).Lognormal()
	w := 3 * prior.Sigma * prior.Sigma / (3*prior.Sigma*prior.Sigma + stated.Sigma*stated.Sigma - prior.Sigma*prior.Sigma)
	near(t, "median of the slower", mo.now.Mu, prior.Mu+w*math.Log(1.5)/2)
	near(t, "median of the faster", wyn.now.Mu, prior.Mu-w*math.Log(1.5)/2)
	if mo.now.Sigma >= prior.Sigma {
		t.Errorf("three records leave %v of a deviation of %v", mo.now.Sigma, prior.Sigma)
	}
}

func handOf(b *build.Build, i int) hand {
	return network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0)).hands[i]
}

// TestPastOf_TeachesTheNext: metal that took 1.3 times its plan on each of
// three earlier builds makes metal of this one longer, once.
func TestPastOf_TeachesTheNext(t *testing.T) {
	over := learning(4, 13*h, "metal")
	over.Tasks = over.Tasks[2:]
	if Over(over) != monday-3 || Over(learning(1, h, "metal")) != 0 {
		t.Error("which build is over is not told")
	}
	past := PastOf(over)
	if len(past.Work) != 1 || len(past.Work[0].Ratios) != 4 || len(past.Hands) != 4 {
		t.Fatalf("past %+v, want four ratios of metal and four of Mo", past)
	}
	b := learning(0, 0, "metal")
	n := network(b, takeOffs(b, rates.Default()), []rates.Past{past, past, past}, monday.At(8, 0))
	k, _ := n.known("metal", "metal")
	own, common := schedule.LearnBuilds(schedule.Spread(metalRange.Factor).Lognormal(), schedule.Spread(metalRange.Common).Lognormal(),
		[][]float64{past.Work[0].Ratios, past.Work[0].Ratios, past.Work[0].Ratios})
	near(t, "own deviation", k.own.Sigma, own.Sigma)
	near(t, "common median", k.common.Mu, common.Mu)
}
